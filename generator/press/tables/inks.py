"""The inks: swatch, pigments, mixes, and how long each lot is good."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup, escape

from generator.how_many import how_many
from generator.planning.computed import named
from generator.planning.supplies.tracing import INKS, Thing, letters_of
from generator.planning.supplies.tray import good_until
from generator.press.explained.worked import worked
from generator.press.lists.here import Here, Step
from generator.press.words.addresses import anchor, lot_address
from generator.press.words.formatted import with_end
from generator.press.words.markup import Cells, bullets, page, paragraph, table_of
from generator.records.families import Records
from generator.records.inks import BarredPigment, Ink, Lot
from generator.trade import dates


def inks_page(here: Here) -> str:
    """The inks, with how long each lot is good."""
    records = here.records
    return page(
        "Inks",
        paragraph(
            f"Dates are as of {here.as_of.isoformat()}. An opened bottle is good until the printed expiry or the end "
            "of its opened life, whichever comes first. The swatch is a flat sample on a screen and no promise for the "
            "skin."
        ),
        table_of("Inks on the shelf", here.rows("inks", records.inks.values(), _ink)),
        here.how_computed("until when opened bottles are good", _opened(records)),
        table_of(
            "Pigments that may not be used: ask the authority for the whole list",
            here.rows("barred-pigments", records.barred_pigments.values(), _barred),
        ),
    )


def _ink(ink: Ink, here: Here) -> Cells:
    # The colour is decoration; its code is beside it for whoever cannot see it.
    swatch = Markup('<span class="swatch" style="background:{}" aria-hidden="true"></span> {}').format(
        ink.swatch, ink.swatch
    )
    mixed: str = "no"
    if ink.mixed is not None:
        mixed = Markup("{} ink and {} sterile water, from {}").format(
            how_many(ink.mixed.parts_ink, "part"), how_many(ink.mixed.parts_water, "part"), here.to_entry(ink.mixed.of)
        )
    return {
        "Ink": with_end(ink.name, ink.until),
        "Kind": ink.kind,
        "Swatch": swatch,
        "Pigments": ", ".join(ink.pigments),
        "Lots": bullets(_lot_in_words(lot, ink, here) for lot in ink.lots) or "none on the shelf",
        "Used once opened": here.measured(ink.opened_life) if ink.mixed is None else "thrown away after the client",
        "Pigment load": "not stated" if ink.load is None else here.measured(ink.load),
        "Mixed here": mixed,
        "Caution": ink.caution or "none on file",
    }


def _barred(pigment: BarredPigment, here: Here) -> Cells:
    return {
        "Pigment": pigment.name,
        "Colour Index": pigment.pigment,
        "Where": pigment.region,
        "Since": pigment.since.isoformat(),
    }


def _lot_in_words(lot: Lot, ink: Ink, here: Here) -> str:
    """A lot with the day until which it is good; one that is past it says so first."""
    traced = here.to(lot_address(Thing(INKS, ink.id, letters_of(lot.lot))), lot.lot)
    if lot.until is not None:
        return Markup("{}: do not use, {} {}").format(traced, lot.until.why, lot.until.on.isoformat())
    until = good_until(ink, lot)
    if lot.opened is None:
        opened, day = "sealed" if lot.sealed else "day of opening not on file", escape(until.isoformat())
    else:
        opened = f"opened {lot.opened.isoformat()}"
        day = here.to_formula(dates.opened_ink_expiry, until.isoformat())
    says = "do not use, past" if dates.overdue(until, here.as_of) else "good until"
    return Markup("{}: {} {} ({})").format(traced, says, day, opened)


def _opened(records: Records) -> Iterator[Step]:
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
