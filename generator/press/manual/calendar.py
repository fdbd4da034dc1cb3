"""The reviews as a calendar file, by RFC 5545: one all-day event each, the same identifier in every build."""

from __future__ import annotations

import datetime
import uuid
from collections.abc import Iterable, Mapping

from generator.press.manual.procedures import ProcedurePage
from generator.press.manual.reviews import NEVER_REVIEWED, Due
from generator.records.families import Records

# A name space of our own, so that identifiers are the same in every build and in no other program.
_SPACE = uuid.UUID("6d1b7c1e-9a53-4c0e-8f0b-2f6a7a4f3d51")
_OCTETS = 75


def calendar_file(
    records: Records, due: Iterable[Due], pages: Mapping[str, ProcedurePage], as_of: datetime.date
) -> str:
    """The whole file, its lines ended and folded as the standard has it."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//studio handbook generator//reviews//EN"]
    for each in due:
        lines += _event(records, each, pages, as_of)
    lines.append("END:VCALENDAR")
    return "".join(f"{_folded(line)}\r\n" for line in lines)


def _event(records: Records, due: Due, pages: Mapping[str, ProcedurePage], as_of: datetime.date) -> list[str]:
    entry = due.entry
    title = pages[entry.id].title if due.family == "procedures" and entry.id in pages else entry.id
    what = "procedure" if due.family == "procedures" else "records"
    reviewer = records.people[entry.reviewed_by].name if entry.reviewed_by else ""
    said = f"Last reviewed on {entry.reviewed.isoformat()} by {reviewer}." if entry.reviewed else f"{NEVER_REVIEWED}."
    on = due.day or as_of  # due at once
    return [
        "BEGIN:VEVENT",
        f"UID:{uuid.uuid5(_SPACE, f'{records.studio.name}/{due.family}/{entry.id}')}",
        f"DTSTAMP:{as_of:%Y%m%d}T000000Z",
        f"DTSTART;VALUE=DATE:{on:%Y%m%d}",
        f"SUMMARY:{_text(f'Review the {what}: {title} ({records.people[entry.owner].name})')}",
        f"DESCRIPTION:{_text(said)}",
        "TRANSP:TRANSPARENT",
        "END:VEVENT",
    ]


def _text(text: str) -> str:
    """A TEXT value: what would end it is escaped."""
    for character in "\\;,":
        text = text.replace(character, f"\\{character}")
    return text.replace("\n", "\\n")


def _folded(line: str) -> str:
    """No line longer than 75 octets; a character is never cut, and each further line begins with a space."""
    parts, octets = [""], 0
    for character in line:
        size = len(character.encode())
        if octets + size > _OCTETS:
            parts.append(" ")
            octets = 1
        parts[-1] += character
        octets += size
    return "\r\n".join(parts)
