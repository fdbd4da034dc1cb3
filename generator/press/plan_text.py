"""A plan for the terminal."""

from __future__ import annotations

from generator.planning.plan import JobPlan
from generator.press.sheet import Sheet, sheet_of
from generator.records.families import Records


def plan_text(records: Records, plan: JobPlan) -> str:
    """The plan in the order of the sheet, as lines of text."""
    sheet = sheet_of(records, plan)
    lines = [f"{sheet.title} ({sheet.job})", "  ".join(f"{p.label}: {p.value}" for p in sheet.head), ""]
    lines += [sheet.verdict.upper(), sheet.meaning, ""]
    for reason in (*sheet.reasons, *sheet.notes):
        lines += [f"  {reason.level}: {reason.reason}", f"      -> {reason.remedy}"]
    if not sheet.goes_ahead:
        return "\n".join([*lines, "", "No working steps: clear the points above first."]) + "\n"
    lines += ["", *_order(sheet), "", *(f"{p.label}: {p.value}" for p in sheet.times), ""]
    lines += ["Tray"] + [f"  {p.label}: {p.value}" for p in sheet.tray]
    lines += ["Inks"] + [
        f"  {i.name}: {i.amount}, {i.caps}, {', '.join(i.lots) or 'no lot in date'}" for i in sheet.inks
    ]
    lines += [f"{p.label}: {p.value}" for p in sheet.come_back]
    return "\n".join(lines) + "\n"


def _order(sheet: Sheet) -> list[str]:
    rows = [
        ("", "part", "technique", "needle", "dial", "machine", "hang-out", "ink", "min", "over"),
        *(
            (r.number, r.part, r.technique, r.needle, r.dial, r.machine, r.hang_out, r.ink, r.minutes, r.over)
            for r in sheet.rows
        ),
    ]
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    return ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]
