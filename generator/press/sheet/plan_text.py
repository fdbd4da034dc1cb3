"""A plan for the terminal."""

from __future__ import annotations

from collections.abc import Iterator

from generator.planning.findings.screening import added_since, is_open_question
from generator.planning.plan import JobPlan
from generator.press.drawings.map_words import sentences
from generator.press.sheet.contents import first_lined, sheet_of
from generator.press.sheet.enquiry import answer_to_enquiry
from generator.press.sheet.rows import OrderRow
from generator.press.sheet.view import Sheet
from generator.records.families import Records


def plan_text(records: Records, plan: JobPlan) -> str:
    """The plan in the order of the sheet, as lines of text."""
    sheet = sheet_of(records, plan)
    shown = sentences(plan, records.studio.limits.mole_clearance, first_lined(plan.work), records.studio.shows)
    lines = [f"{sheet.title} ({sheet.job})", "  ".join(f"{p.label}: {p.value}" for p in sheet.head), ""]
    lines += [sheet.verdict, sheet.meaning, ""]
    for reason in (*sheet.reasons, *sheet.notes):
        cited = sheet.sources[reason.source - 1]
        lines += [f"  {reason.level}: {reason.reason} ({cited})", f"      → {reason.remedy}"]
    lines += [f"  {finding.reason}" for finding in plan.findings if is_open_question(finding)]
    lines += [f"  Added since this client was asked: {question.ask}" for question in added_since(records, plan.job)]
    lines += ["", "Map", *(f"  {sentence}" for sentence in shown)]
    lines += [f"  {p.label}: {p.value}" for p in sheet.hands_off]
    if (answer := answer_to_enquiry(records, plan)) is not None:
        lines += ["", "What an enquiry is told", *(f"  {p.label}: {p.value}" for p in answer.told)]
        lines += ["", "To ask before the first sitting", *(f"  {question}" for question in answer.questions)]
    if not sheet.goes_ahead:
        first = "." if sheet.not_worked else ": clear the points above first."
        return "\n".join([*lines, "", f"No working steps{first}"]) + "\n"
    return "\n".join([*lines, *_work(sheet)]) + "\n"


def _work(sheet: Sheet) -> Iterator[str]:
    yield from ("", "Order and settings", *_order(sheet))
    yield from (f"\n{legend}" for legend in (sheet.marks,) if legend)
    yield from (f"\n{p.label} {p.value}" for p in sheet.order)
    yield from ("", "Minutes on each part since it last rested, if it goes slowly")
    yield from (f"  {p.label}: {p.value}" for p in sheet.zones)
    yield from ("", "Timetable")
    yield from (f"  {p.label}: {p.value}" for p in (*sheet.times, *sheet.sittings))
    yield from ("", "Tray", *(f"  {p.label}: {p.value}" for p in sheet.tray))
    yield from (f"  Off this tray: {swap}" for swap in sheet.swaps)
    yield "Inks"
    for ink in sheet.inks:
        yield f"  {ink.name}: {ink.amount}, {ink.caps}, {', '.join(ink.lots) or 'no lot in date'}"
    for pause in (*sheet.pauses, *sheet.more_to_tick):
        yield from ("", pause.title, *(f"  [ ] {item}" for item in pause.items))
    yield from ("", "Stop when", *(f"  {sign}" for sign in sheet.stop_signs))
    yield from ("", "Write down", *(f"  {item}" for item in sheet.write_down), "")
    yield from (f"{p.label}: {p.value}" for p in sheet.come_back)


_HEAD = ("", "part", "technique", "over, at most", "needle", "dial", "machine", "hang-out", "ink", "min", "stretch")


def _cells(row: OrderRow) -> tuple[str, ...]:
    return (
        row.number,
        row.part,
        row.technique,
        f"{row.over}, {row.scars}" if row.scars else row.over,
        row.needle,
        row.dial,
        f"{row.machine}, {row.stroke}",
        row.hang_out,
        row.ink,
        row.minutes,
        "; ".join(filter(None, (row.stretch, row.rest, row.note))),
    )


def _order(sheet: Sheet) -> Iterator[str]:
    rows = [_HEAD, *(_cells(row) for row in sheet.rows if not row.is_break)]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    steps = ("  ".join(map(str.ljust, row, widths)).rstrip() for row in rows)
    yield next(steps)
    for row in sheet.rows:
        within = f" within step {row.within}, before the time is up" if row.within else ""
        yield f"{'':{widths[0]}}  -- break{within}, {row.minutes} --" if row.is_break else next(steps)
