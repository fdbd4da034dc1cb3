"""The comparison with a published site as it is said: on a terminal, and as data."""

from __future__ import annotations

import json

from generator.how_many import how_many
from generator.impact import CHANGED, NEW, Impact

_ON_THE_SHEET = "what rests on an answer of the client is said on the sheet alone"


def impact_text(found: Impact) -> str:
    """For the terminal: what changed in the records, then each sheet with its numbers."""
    lines = [f"Against {found.site}, published {found.day}:"]
    if not found.known:
        lines.append("  with which records it was made is not known; numbers are told without a reason")
    for one in found.records:
        for field in one.fields:
            name = ".".join(filter(None, (one.record, field.what)))
            lines.append(f"  {name}: was {_short(field.was)}, now {_short(field.now)}")
    changed = [one for one in found.sheets if one.how == CHANGED]
    lines.append(f"  {how_many(len(changed), 'sheet changes', 'sheets change')}, {found.same} as before")
    for sheet in found.sheets:
        lines.append("")
        if sheet.how != CHANGED:
            lines.append(f"{sheet.job}: {'a new sheet' if sheet.how == NEW else 'its sheet is gone'}")
            continue
        lines.append(f"{sheet.job}: {'finished, keep its paper' if sheet.finished else 'print it again'}")
        last: tuple[str, ...] | None = None
        for number in sheet.numbers:
            if number.because != last:
                lines.append(f"  because of {', '.join(number.because)}")
                last = number.because
            lines.append(f"    {number.what}: was {_short(number.was)}, now {_short(number.now)}")
        if sheet.untold:
            lines.append(f"  {_ON_THE_SHEET}")
    return "\n".join(lines)


def _short(said: str) -> str:
    return said if 0 < len(said) <= 120 else f"{said[:117]}…" if said else "nothing"


def report_and_impact(report: str, found: Impact | None) -> str:
    """The report with the comparison as one document of JSON; null where nothing can be compared."""
    compared = None
    if found is not None:
        compared = {
            "site": str(found.site),
            "published": found.day,
            "records_known": found.known,
            "records": [{"record": r.record, "fields": [f._asdict() for f in r.fields]} for r in found.records],
            "sheets": [
                {
                    "job": s.job,
                    "change": s.how,
                    "numbers": [n._asdict() for n in s.numbers],
                }
                for s in found.sheets
            ],
            "unchanged": found.same,
        }
    return json.dumps({"report": json.loads(report), "impact": compared}, ensure_ascii=False, indent=2)
