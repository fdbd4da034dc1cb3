"""On which page each record is, and how one page is reached from another."""

from __future__ import annotations

import datetime
import hashlib
import posixpath
import re
from functools import lru_cache

from markupsafe import Markup

from generator.planning.supplies.tracing import GROUPINGS, INKS, Thing
from generator.press.words.markup import link
from generator.records.decisions import who_decided
from generator.records.families import Records
from generator.records.ids import Reference
from generator.records.quoting import name_of
from generator.records.sources import SourceRecord

LOTS = "lots.md"

PAGE_OF: dict[str, str] = {
    "studio": "reference/studio.md",
    "sources": "reference/sources.md",
    "machines": "reference/machines.md",
    "calibrations": "reference/machines.md",
    "groupings": "reference/groupings.md",
    "techniques": "reference/speeds.md",
    "inks": "reference/inks.md",
    "barred-pigments": "reference/inks.md",
    "sites": "reference/sites.md",
    "scar-rules": "reference/scar-rules.md",
    "screening": "reference/screening.md",
    "disinfectants": "reference/disinfectants.md",
    "hygiene": "reference/hygiene.md",
    "cycles": "reference/cycles.md",
    "loads": "reference/sterilizer.md",
    "supplies": "reference/supplies.md",
    "values": "reference/values.md",
    "client-page": "reference/client-page.md",
    "asked": "reference/asked.md",
    "people": "reference/people.md",
    "required-training": "reference/people.md",
    "procedures": "reference/reviews.md",
    "reviews": "reference/reviews.md",
    "changes": "reference/changed-rules.md",
}
_LONGEST = 40
_KINDS = {INKS: "ink", GROUPINGS: "cartridge"}
NO_SOURCE = "common practice, no published source"


def anchor(family: str, *names: str) -> str:
    """The id of a record's row, such as `machines-kettle`; it goes into addresses and attributes as it is."""
    joined = "-".join([family, *names]).replace("_", "-")
    plain = re.sub(r"[^\w.-]+", "-", joined)
    if plain == joined.replace(" ", "-"):
        return plain
    # Without its signs a name could be that of another.
    return f"{plain}-{hashlib.sha256(joined.encode()).hexdigest()[:6]}"


def address(here: str, there: str, at: str = "") -> str:
    """How the page `there` is reached from the page `here`, as published."""
    published = "" if here == there and at else _published(posixpath.dirname(here), there)
    return f"{published}#{at}" if at else published


@lru_cache(maxsize=4096)
def _published(folder: str, there: str) -> str:
    path = posixpath.relpath(there, folder or ".")
    return path.removesuffix(".md") + ".html" if path.endswith(".md") else path


def to_record(here: str, family: str, record_id: str, text: str) -> Markup:
    """A link to a record's row."""
    return link(address(here, PAGE_OF[family], anchor(family, record_id)), text)


def to_entry(here: str, reference: Reference, records: Records) -> Markup:
    """A link to the entry that a record refers to, under its name."""
    return to_record(here, reference.family, reference, name_of(records.family(reference.family)[reference]))


def to_source(here: str, source_id: str, records: Records) -> Markup:
    """A link to a source; what is only common practice says so in the link itself."""
    return to_record(here, "sources", source_id, source_in_short(records.sources[source_id], records))


def source_in_short(source: SourceRecord, records: Records) -> str:
    """A source in a few words."""
    if source.kind == "published":
        return f"{source.title} ({source.year})"
    if source.kind == "house":
        if source.decided is None:
            return "a suggestion, unless it was decided where it is written"
        return f"studio’s own decision, {who_decided(source, records)}"
    return NO_SOURCE


def job_address(job_id: str) -> str:
    """Where a job's own page is."""
    return f"jobs/{job_id}.html"


def client_address(job_id: str) -> str:
    """Where the page is that the client of a job takes home."""
    return f"for-the-client/{job_id}.html"


def day_address(day: datetime.date) -> str:
    """Where the page of a day is."""
    return f"days/{day.isoformat()}.html"


def today_address(job_id: str) -> str:
    """Where it is said what today's rules would make of a finished job."""
    return f"jobs/{job_id}--today.html"


def explained_address(job_id: str) -> str:
    """Where the numbers of a job are explained. No id holds two hyphens in a row, so it is no job's own sheet."""
    return f"sheets/{job_id}--explained.html"


def addresses_of(job_id: str) -> tuple[str, str, str, str]:
    """Where the pages of a job are, beside its sheet: its own, the client's, its numbers, and today's rules."""
    return job_address(job_id), client_address(job_id), explained_address(job_id), today_address(job_id)


def lot_address(thing: Thing) -> str:
    """Where the recall sheet of a thing is."""
    return f"lots/{lot_file(thing)}.html"


def lot_file(thing: Thing) -> str:
    """What its recall sheet is called. Ids have single hyphens, so that two never share a file."""
    letters = thing.lot
    if letters and not (letters.isascii() and letters.isalnum() and len(letters) <= _LONGEST):
        letters = "x-" + hashlib.sha256(letters.encode()).hexdigest()[:16]
    named = "-".join(filter(None, (_KINDS.get(thing.family, "other"), thing.entry)))
    return f"{named}{'--' if letters else ''}{letters}"
