"""The inks: swatch, pigments, mixes, and how long each lot is good."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from markupsafe import Markup, escape

from generator.planning.computed import named
from generator.planning.supplies.tracing import INKS, Thing, letters_of
from generator.planning.supplies.tray import good_until
from generator.press.explained.worked import WorkedOut, how_computed, to_formula, worked
from generator.press.words.addresses import address, anchor, lot_address, to_entry, to_source
from generator.press.words.formatted import measured, with_end
from generator.press.words.markup import Row, bullets, link, page, paragraph, table
from generator.records.families import Records
from generator.records.inks import Ink, Lot
from generator.trade import dates


def inks_page(records: Records, here: str, as_of: datetime.date) -> str:
    """The inks, with how long each lot is good."""
    columns = (
        "Ink",
        "Kind",
        "Swatch",
        "Pigments",
        "Lots",
        "Used once opened",
        "Pigment load",
        "Mixed here",
        "Caution",
        "Source",
    )
    return page(
        "Inks",
        paragraph(
            f"Dates are as of {as_of.isoformat()}. An opened bottle is good until the printed expiry or the end of its "
            "opened life, whichever comes first. The swatch is a flat sample on a screen and no promise for the skin."
        ),
        table("Inks on the shelf", columns, (_ink(ink, records, here, as_of) for ink in records.inks.values())),
        how_computed("until when opened bottles are good", _opened(records), records, here),
        table(
            "Pigments that may not be used: ask the authority for the whole list",
            ("Pigment", "Colour Index", "Where", "Since", "Source"),
            (
                Row(
                    anchor("barred-pigments", barred.id),
                    (
                        barred.name,
                        barred.pigment,
                        barred.region,
                        barred.since.isoformat(),
                        to_source(here, barred.source, records),
                    ),
                )
                for barred in records.barred_pigments.values()
            ),
        ),
    )


def _ink(ink: Ink, records: Records, here: str, as_of: datetime.date) -> Row:
    # The colour is decoration; its code is beside it for whoever cannot see it.
    swatch = Markup('<span class="swatch" style="background:{}" aria-hidden="true"></span> {}').format(
        ink.swatch, ink.swatch
    )
    mixed: str = "no"
    if ink.mixed is not None:
        mixed = Markup("{} ink and {} sterile water, from {}").format(
            _parts(ink.mixed.parts_ink), _parts(ink.mixed.parts_water), to_entry(here, ink.mixed.of, records)
        )
    lots = bullets(lot_in_words(lot, ink, as_of, here) for lot in ink.lots)
    return Row(
        anchor("inks", ink.id),
        (
            with_end(ink.name, ink.until),
            ink.kind,
            swatch,
            ", ".join(ink.pigments),
            lots or "none on the shelf",
            measured(ink.opened_life, records) if ink.mixed is None else "thrown away after the client",
            "not stated" if ink.load is None else measured(ink.load, records),
            mixed,
            ink.caution or "none on file",
            to_source(here, ink.source, records),
        ),
    )


def lot_in_words(lot: Lot, ink: Ink, as_of: datetime.date, here: str) -> str:
    """A lot with the day until which it is good; one that is past it says so first."""
    until = good_until(ink, lot)
    if lot.opened is None:
        opened, day = "sealed" if lot.sealed else "day of opening not on file", escape(until.isoformat())
    else:
        opened = f"opened {lot.opened.isoformat()}"
        day = to_formula(here, dates.opened_ink_expiry, until.isoformat())
    if lot.until is not None:
        traced = link(address(here, lot_address(Thing(INKS, ink.id, letters_of(lot.lot)))), lot.lot)
        return Markup("{}: do not use, {} {}").format(traced, lot.until.why, lot.until.on.isoformat())
    says = "do not use, past" if dates.overdue(until, as_of) else "good until"
    traced = link(address(here, lot_address(Thing(INKS, ink.id, letters_of(lot.lot)))), lot.lot)
    return Markup("{}: {} {} ({})").format(traced, says, day, opened)


def _opened(records: Records) -> Iterator[tuple[str, str, WorkedOut]]:
    """How long each opened bottle is good; the others carry their printed day."""
    for ink in records.inks.values():
        months = named(int(ink.opened_life.low), ink.opened_life, ink.opened_life.text)
        for place, lot in enumerate(ink.lots):
            if lot.opened is not None:
                opened, printed = (named(day, day) for day in (lot.opened, lot.expires))
                yield (
                    anchor("lot", ink.id, str(place)),
                    f"{ink.name}, {lot.lot}",
                    worked(dates.opened_ink_expiry, records, opened=opened, life_months=months, printed=printed),
                )


def _parts(count: int) -> str:
    return "1 part" if count == 1 else f"{count} parts"
