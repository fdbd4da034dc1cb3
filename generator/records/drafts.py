"""Jobs that are being written: `draft: yes` at the top of a file lets everything else go on without it.

What is wrong in such a job is a reminder, and it has no sheet and no place in any list, so that nobody works by it. A
file that cannot be read whole is looked at as text, because half a job is what a draft is. What was worked is none.
"""

import re
from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from pathlib import Path

from generator.diagnostics import Diagnostic, Place
from generator.records.families import JOBS, WORKED
from generator.records.text_file import bytes_of

_DRAFT = re.compile(r"""^(?P<key>['"]?draft['"]?\s*:\s*)['"]?yes['"]?[ \t]*(#.*)?\r?$""", re.MULTILINE)
_FINISHED = re.compile(r"""^['"]?finished['"]?\s*:""", re.MULTILINE)
_NOTE = "this job is a draft, so that it stops nothing"


def drafts(content: Path) -> dict[str, Place]:
    """The files of drafts, each with the place where it says so."""
    found = {}
    for path in sorted((content / JOBS.name).glob("*")):
        if path.name.endswith(WORKED):
            continue  # a hundred times as long as a job, and none
        raw = bytes_of(path)
        if b"draft" not in raw:
            continue
        text = raw.decode("utf-8-sig", errors="replace").replace("\r\n", "\n").replace("\r", "\n")
        if (said := _DRAFT.search(text)) and not _FINISHED.search(text):
            line = text.count("\n", 0, said.start()) + 1
            found[str(path)] = Place(str(path), line, 1, len(said["key"]) + len("yes") + 1)
    return found


def as_drafts(report: Iterable[Diagnostic], files: Collection[str]) -> Iterator[Diagnostic]:
    """The report in which what is said about a draft stops nothing."""
    for one in report:
        if one.place.file in files and not one.draft:
            note = f"{one.note}; {_NOTE}" if one.note else _NOTE
            yield replace(one, draft=True, note=note, cause="")
        else:
            yield one


def still_drafts(files: Iterable[Place]) -> Iterator[Diagnostic]:
    """Each draft once, so that none is forgotten."""
    for place in files:
        yield Diagnostic(
            "J633",
            place,
            found="`draft: yes`",
            expected="a job that is filled in",
            help="take this line away when everything is filled in; until then it has no sheet and is in no list",
            says=f"`{Path(place.file).stem}` is a draft",
        )
