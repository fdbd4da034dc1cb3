"""What the coming jobs take from the shelf and what to order, for the handbook and for the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from generator.how_many import how_many
from generator.planning.computed import Computed, Recorded, Value, text_of
from generator.planning.supplies.restock import GROUPINGS, INKS, SUPPLIES, JobNeeds, Line, Restock
from generator.press.explained.worked import value_in_words
from generator.press.lists.here import Here
from generator.press.words.addresses import anchor
from generator.press.words.formatted import number
from generator.press.words.markup import Cells, bullets, heading, note, page, paragraph, table_of, valued
from generator.quantities import shown
from generator.records.families import Records

RESTOCK = "reference/restock.md"
# Of so many jobs, the nearest, each number says how it came about; with more the page would be slow to open.
EXPLAINED = 40
_TITLES = {SUPPLIES: "Supplies", GROUPINGS: "Cartridges by grouping", INKS: "Inks"}
_PACKS = {SUPPLIES: ("pack", "packs"), GROUPINGS: ("box", "boxes"), INKS: ("bottle", "bottles")}
NOT_COUNTED = "not counted – ask"
ANY_CLIENT = (
    "Each job counts as if its client could touch everything; of two articles of which one is taken, each counts from "
    "none to all. Which one to lay out, its sheet says."
)


def restock_page(here: Here, made: Restock) -> str:
    """The totals of a span with what has to be ordered, every number with its origin."""
    to_order, not_counted, _ = _by_what_to_do(made.lines)
    asked = [_to_line(line, here) for line in not_counted]
    blocks: list[str] = [
        paragraph(
            f"For the days from {made.span.first.isoformat()} to {made.span.last.isoformat()}, both included. Needs "
            "are estimates: a range from the quickest to the slowest day. The larger end is ordered for, so that the "
            "reserve stays on the shelf. Only planned jobs that may go ahead count."
        ),
        paragraph(ANY_CLIENT),
        heading("To order", "restock-order"),
        bullets(Markup("{}: {}").format(_to_line(line, here), ordered(line)) for line in to_order)
        or paragraph("Nothing: what is needed is on the shelf, and the reserve stays."),
        paragraph(Markup("Nobody has counted these yet – ask: {}.").format(Markup(", ").join(asked))) if asked else "",
        heading("Jobs that count", "restock-jobs"),
        paragraph(
            f"How each number came about is shown below of the nearest {EXPLAINED} jobs. Of the later ones the sum "
            "stands there; the numbers of each are explained beside its sheet."
        )
        if any(job.brief for job in made.counted)
        else "",
        _jobs(made.counted, here, "No planned job may go ahead in these days."),
    ]
    if made.left_out:
        blocks += [
            heading("Left out", "restock-left-out"),
            note(
                "Not in these totals",
                "These may not go ahead yet. When one is cleared, look here again before the day.",
            ),
            _jobs(made.left_out, here, ""),
        ]
    for family, title in _TITLES.items():
        lines = [line for line in made.lines if line.family == family]
        blocks += [
            heading(title, anchor("restock", family)),
            table_of(f"{title}: what to order", ((_at(line), _line(line, here)) for line in lines)),
            here.how_computed(
                f"{title.lower()} to order",
                (
                    (_at(line), line.name, line.order)
                    for line in lines
                    if line.order is not None and isinstance(line.need, Computed)
                ),
            ),
        ]
    return page("What to order", *blocks)


def _by_what_to_do(lines: Sequence[Line]) -> tuple[list[Line], list[Line], list[Line]]:
    """What has to be ordered, what nobody has counted, and what is enough."""
    counted = [(line, line.order.high > 0) for line in lines if line.order is not None]
    not_counted = [line for line in lines if line.order is None]
    return [line for line, more in counted if more], not_counted, [line for line, more in counted if not more]


def _to_line(line: Line, here: Here) -> Markup:
    return here.to(here.address, line.name, _at(line))


def _jobs(jobs: Sequence[JobNeeds], here: Here, nothing: str) -> str:
    said = (here.to(f"sheets/{job.job}.html", job.title) + f", {job.date.isoformat()}: {job.state}" for job in jobs)
    return bullets(said) or paragraph(nothing)


def _at(line: Line) -> str:
    return anchor("restock", line.family, line.entry)


def _line(line: Line, here: Here) -> Cells:
    return {
        "Article": here.to_record(line.family, line.entry, line.name),
        "Needed": _said(line.need, here.records),
        "On the shelf": _said(line.stock, here.records),
        "Always kept": _said(line.reserve, here.records),
        "One pack": _said(line.pack, here.records),
        "To order": valued(ordered(line), *(() if line.order is None else (line.order.high, line.order.low))),
    }


def _said(value: Value | Recorded | None, records: Records) -> str:
    if value is None:
        return NOT_COUNTED
    return value_in_words(value, records) if value.kind == "volume" else valued(_number(value), value.low, value.high)


def _number(value: Value) -> str:
    return number(value.low) if value.low == value.high else f"{number(value.low)}–{number(value.high)}"


def ordered(line: Line) -> str:
    """How many packs or bottles; the larger end counts, and the smaller one is said where it differs."""
    if line.order is None:
        return NOT_COUNTED
    if line.order.high == 0:
        return "nothing"
    most = how_many(line.order.high, *_PACKS[line.family])
    return most if line.order.low == line.order.high else f"{most} ({number(line.order.low)} by the smaller estimate)"


def restock_text(records: Records, made: Restock) -> str:
    """The same for the terminal: what to order first, then what nobody counted, then what is enough."""
    lines = [f"What to order for {made.span.first.isoformat()} to {made.span.last.isoformat()}", ""]
    lines += [f"Jobs that count: {len(made.counted)}", *(_job(job) for job in made.counted)]
    if made.left_out:
        lines += ["", "Left out, because they may not go ahead:", *(_job(job) for job in made.left_out)]
    titles = ("To order", "Not counted: ask what is on the shelf", "Enough on the shelf")
    for title, found in zip(titles, _by_what_to_do(made.lines), strict=True):
        if found:
            lines += ["", title, *_columns(found, records)]
    lines += ["", ANY_CLIENT]
    return "\n".join(lines) + "\n"


def _job(job: JobNeeds) -> str:
    return f"  {job.date.isoformat()}  {job.job}: {job.state}"


def _columns(found: Sequence[Line], records: Records) -> Iterator[str]:
    def say(value: Value | None) -> str:
        if value is None:
            return "?"
        if value.kind == "volume":
            return shown(value.low, value.high, "volume", records.studio.shows, text_of(value))
        return _number(value)

    rows = [
        ("  article", "needed", "on the shelf", "always kept", "one pack", "to order"),
        *(
            (f"  {line.name}", say(line.need), say(line.stock), say(line.reserve), say(line.pack), ordered(line))
            for line in found
        ),
    ]
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    for row in rows:
        yield "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
