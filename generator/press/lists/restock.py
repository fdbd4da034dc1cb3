"""What the coming jobs take from the shelf and what to order, for the handbook and for the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from generator.planning.computed import Computed, Recorded, Value, text_of
from generator.planning.supplies.restock import GROUPINGS, INKS, SUPPLIES, JobNeeds, Line, Restock
from generator.press.explained.worked import as_worked, how_computed
from generator.press.words.addresses import address, anchor, to_record
from generator.press.words.estimates import ends_shown
from generator.press.words.formatted import calculated, number
from generator.press.words.markup import Row, bullets, heading, link, note, page, paragraph, table, valued
from generator.quantities import shown
from generator.records.families import Records

RESTOCK = "reference/restock.md"
# Of so many jobs, the nearest, each number says how it came about; with more the page would be slow to open.
EXPLAINED = 40
_TITLES = {SUPPLIES: "Supplies", GROUPINGS: "Cartridges by grouping", INKS: "Inks"}
_COLUMNS = ("Article", "Needed", "On the shelf", "Always kept", "One pack", "To order")
NOT_COUNTED = "not counted – ask"


def restock_page(records: Records, made: Restock, here: str = RESTOCK) -> str:
    """The totals of a span with what has to be ordered, every number with its origin."""
    blocks: list[str] = [
        paragraph(
            f"For the days from {made.span.first.isoformat()} to {made.span.last.isoformat()}, both included. Needs "
            "are estimates: a range from the quickest to the slowest day. The larger end is ordered for, so that the "
            "reserve stays on the shelf. Only planned jobs that may go ahead count."
        ),
        heading("To order", "restock-order"),
        bullets(_to_order(made, here)) or paragraph("Nothing: what is needed is on the shelf, and the reserve stays."),
        *_to_ask(made, here),
        heading("Jobs that count", "restock-jobs"),
        *_later(made),
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
        rows = (_row(line, records, here) for line in lines)
        blocks += [
            heading(title, anchor("restock", family)),
            table(f"{title}: what to order", _COLUMNS, rows),
            how_computed(
                f"{title.lower()} to order",
                (
                    (_at(line), line.name, as_worked(line.order, records))
                    for line in lines
                    if line.order is not None and isinstance(line.need, Computed)
                ),
                records,
                here,
            ),
        ]
    return page("What to order", *blocks)


def _later(made: Restock) -> Iterator[str]:
    """Of which jobs it stands below how each number came about, where that is not all of them."""
    if any(job.brief for job in made.counted):
        yield paragraph(
            f"How each number came about is shown below of the nearest {EXPLAINED} jobs. Of the later ones the sum "
            "stands there; the numbers of each are explained beside its sheet."
        )


def _to_order(made: Restock, here: str) -> Iterator[Markup]:
    """What has to be bought, first of all."""
    for line in made.lines:
        if line.order is not None and line.order.high > 0:
            yield Markup("{}: {}").format(link(address(here, here, _at(line)), line.name), ordered(line))


def _to_ask(made: Restock, here: str) -> Iterator[str]:
    asked = [link(address(here, here, _at(line)), line.name) for line in made.lines if line.order is None]
    if asked:
        yield paragraph(Markup("Nobody has counted these yet – ask: {}.").format(Markup(", ").join(asked)))


def _jobs(jobs: Sequence[JobNeeds], here: str, nothing: str) -> str:
    said = [(link(address(here, f"sheets/{job.job}.html"), job.title), job) for job in jobs]
    return bullets(at + f", {job.date.isoformat()}: {job.state}" for at, job in said) or paragraph(nothing)


def _at(line: Line) -> str:
    return anchor("restock", line.family, line.entry)


def _row(line: Line, records: Records, here: str) -> Row:
    counts = (_said(value, records) for value in (line.need, line.stock, line.reserve, line.pack))
    order = valued(ordered(line), *(() if line.order is None else (line.order.high, line.order.low)))
    return Row(_at(line), (to_record(here, line.family, line.entry, line.name), *counts, order))


def _said(value: Value | Recorded | None, records: Records) -> str:
    if value is None:
        return NOT_COUNTED
    if value.kind == "volume":
        return calculated(*ends_shown(value), "volume", records, text_of(value))
    return valued(_number(value), value.low, value.high)


def _number(value: Value) -> str:
    return number(value.low) if value.low == value.high else f"{number(value.low)}–{number(value.high)}"


def ordered(line: Line) -> str:
    """How many packs or bottles; the larger end counts, and the smaller one is said where it differs."""
    if line.order is None:
        return NOT_COUNTED
    if line.order.high == 0:
        return "nothing"
    most = f"{number(line.order.high)} {_packs(line, line.order.high)}"
    return most if line.order.low == line.order.high else f"{most} ({number(line.order.low)} by the smaller estimate)"


def _packs(line: Line, many: float) -> str:
    word = {SUPPLIES: "pack", GROUPINGS: "box", INKS: "bottle"}[line.family]
    return word if many == 1 else {"box": "boxes"}.get(word, f"{word}s")


def restock_text(records: Records, made: Restock) -> str:
    """The same for the terminal: what to order first, then what nobody counted, then what is enough."""
    lines = [f"What to order for {made.span.first.isoformat()} to {made.span.last.isoformat()}", ""]
    lines += [f"Jobs that count: {len(made.counted)}", *(_job(job) for job in made.counted)]
    if made.left_out:
        lines += ["", "Left out, because they may not go ahead:", *(_job(job) for job in made.left_out)]
    groups = (
        ("To order", [line for line in made.lines if line.order is not None and line.order.high > 0]),
        ("Not counted: ask what is on the shelf", [line for line in made.lines if line.order is None]),
        ("Enough on the shelf", [line for line in made.lines if line.order is not None and line.order.high == 0]),
    )
    for title, found in groups:
        if found:
            lines += ["", title, *_columns(found, records)]
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
