"""The page of lots, and further pages of all lots where there are many."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence

from markupsafe import Markup

from generator.planning.supplies.tracing import GROUPINGS, INKS, Thing, Trace, letters_of
from generator.planning.supplies.tray import good_until
from generator.press.lists.here import Here
from generator.press.lists.recall import MOST_HERE, thing_name, without_a_lot
from generator.press.words.addresses import LOTS, anchor, lot_address, lot_file
from generator.press.words.markup import Cells, bullets, heading, not_searched, note, page, paragraph, table_of
from generator.trade import dates

LOTS_BEGINNING = "lots-beginning-"
NOT_COUNTED, NO_LONGER = "not counted by lot", "no longer there"
NOT_AT_HAND = (NOT_COUNTED, NO_LONGER)


def lots_pages(here: Here, found: Sequence[Trace]) -> dict[str, str]:
    """The page of lots; where there are many, it lists those at hand, and further pages all of them by first sign.

    Whoever looks for a lot has it in hand, and not the year of its last use.
    """
    lots = [trace for trace in found if trace.thing.lot]
    if len(lots) <= MOST_HERE:
        return {LOTS: lots_page(here, found)}
    by_sign: dict[str, list[Trace]] = {}
    for trace in sorted(lots, key=lambda trace: trace.thing.lot):
        first = trace.thing.lot[0].lower()
        sign = first if first.isascii() and first.isalnum() else "other"
        by_sign.setdefault(sign, []).append(trace)
    latest = sorted(lots, key=lambda trace: trace.used[-1].date if trace.used else datetime.date.min)[-MOST_HERE:]
    known = {id(trace) for trace in latest}
    at_hand = [t for t in lots if t.planned or id(t) in known or _shelf(t.thing, here) not in NOT_AT_HAND]
    whole = [trace for trace in found if not trace.thing.lot]
    return {
        LOTS: lots_page(here, [*at_hand, *whole], tuple(by_sign)),
        **{_beginning_with(sign): _beginning(here, sign, traces) for sign, traces in by_sign.items()},
    }


def _beginning_with(sign: str) -> str:
    return f"{LOTS_BEGINNING}{sign}.md"


def _beginning(lots_of_all: Here, sign: str, lots: Sequence[Trace]) -> str:
    here = lots_of_all._replace(address=_beginning_with(sign))
    back = Markup("The lots at hand are under {}.").format(here.to(LOTS, "Lots"))
    title = f"Lots that begin with {'another sign' if sign == 'other' else sign.upper()}"
    return page(title, paragraph(back), not_searched(_lots(here, lots)), contents=False)


def _lots(here: Here, lots: Iterable[Trace]) -> Markup:
    return table_of("Lots", ((_at(trace.thing), _lot(trace, here)) for trace in lots))


def _all_by_sign(signs: Sequence[str], here: Here) -> tuple[str, ...]:
    if not signs:
        return ()
    said = "Above are the lots at hand and the latest ones. All lots there ever were, by the sign that they begin with:"
    return paragraph(said), bullets(here.to(_beginning_with(sign), sign.capitalize()) for sign in signs)


def lots_page(here: Here, found: Sequence[Trace], signs: Sequence[str] = ()) -> str:
    """Every lot with how many jobs it went into; then by ink and by grouping, where nothing is left out.

    signs: what lots begin with, where pages by first sign list all of them and the first table does not.
    """
    return page(
        "Lots",
        note(
            "When a lot is recalled",
            "Open its sheet and print it: it lists client references and nothing else about "
            "a client. Names and numbers are in the consent file. Look at the same time at the jobs without a lot "
            "on file, and ask what was poured.",
        ),
        heading("By lot", "by-lot"),
        _lots(here, (trace for trace in found if trace.thing.lot)),
        *_all_by_sign(signs, here),
        heading("By ink", "by-ink"),
        _whole(found, INKS, "Ink", here),
        heading("By grouping", "by-grouping"),
        paragraph("Lots of cartridges are written into the finished job, by grouping."),
        _whole(found, GROUPINGS, "Grouping", here),
        contents=False,
    )


def _at(thing: Thing) -> str:
    return anchor("lot", lot_file(thing))


def _lot(trace: Trace, here: Here) -> Cells:
    thing = trace.thing
    return {
        "Lot": here.to(lot_address(thing), " or ".join(trace.spelled)),
        "Of": thing_name(thing, here.records) if thing.entry else "no ink on file – ask",
        "On the shelf": _shelf(thing, here),
        "Finished jobs with it": str(len(trace.used)),
        "Planned jobs laid out with it": str(len(trace.planned)),
    }


def _shelf(thing: Thing, here: Here) -> str:
    if thing.family == GROUPINGS:
        return NOT_COUNTED
    ink = here.records.inks.get(thing.entry)
    for lot in () if ink is None else ink.lots:
        if letters_of(lot.lot) == thing.lot and ink is not None:
            until = good_until(ink, lot)
            return f"{'do not use, past' if dates.overdue(until, here.as_of) else 'good until'} {until.isoformat()}"
    return NO_LONGER


def _whole(found: Sequence[Trace], family: str, name: str, here: Here) -> Markup:
    rows = {
        _at(trace.thing): {
            name: here.to(lot_address(trace.thing), thing_name(trace.thing, here.records)),
            "Finished jobs with it": str(len(trace.used)),
            "Planned jobs with it": str(len(trace.planned)),
            "Without a lot on file": without_a_lot(trace, here.records) or "none",
        }
        for trace in found
        if trace.thing.family == family and not trace.thing.lot
    }
    return table_of(f"Jobs by {name.lower()}", rows.items())
