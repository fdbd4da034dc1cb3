"""An archive as a studio has it after ten years: distinct jobs, most of them finished and kept as they were worked.

Made out of the demo studio. A job is one of the demo's under an id, a title, a client reference, a day and lengths of
its own, a finished one both in its record and in its kept values, so that no two files and no two pages are alike.
The same number gives the same files.

Assumed: nine of ten jobs are finished, and their days lie evenly over the ten years before today. Those still to come
are agreed sittings, none of them a draft or an enquiry. They fill the weeks from today on as the studio works, a bit
more a week than the ten years had, from Tuesday to Saturday; every fifth has its day with the one before it. Where
none is finished, all lie in those same weeks. The answers to a screening count for a year here, so that the sheet of a
sitting months ahead has its steps. The first to come is always made of the demo's longest, so that archives of
any size can be asked for the same piece.
"""

from __future__ import annotations

import datetime
import json
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from generator.press.sheet.frozen import checksum
from generator.records.reading import job_files, worked_file

CONTENT = Path(__file__).parent.parent.parent / "content"
YEARS = 10
SHARE_FINISHED = 0.9
# What is agreed for a week, beside what an average week of the ten years had: a studio that is still there grew a bit.
GROWN = 1.15
_WEEKS_AHEAD = (1 - SHARE_FINISHED) / SHARE_FINISHED * YEARS * 365 / 7 / GROWN
_WORKING_DAYS, _TUESDAY = 5, 1
_DAY = re.compile(r"(?<!\d)\d{4}-\d{2}-\d{2}(?!\d)")
_SITTING = re.compile(r"(?m)(?<=^date: )\d{4}-\d{2}-\d{2}")
# What a job has that is no enquiry and no draft.
_BOOKED, _KEY = {"client", "title", "date", "screening"}, re.compile(r"(?m)^(\w+):")
_SCREENED = re.compile(r"(?m)(?<=^  screening_valid: )\d+ days")
_LENGTH = re.compile(r"(?<=length: )\d+(?= mm)")
_THINGS = ("lantern", "compass", "ship in a bottle", "pocket watch", "kettle", "typewriter", "spyglass", "anvil")


class _Original(NamedTuple):
    """A job of the demo: its record, and its kept values where it is finished."""

    id: str
    text: str
    kept: str

    def said(self, key: str) -> str:
        found = re.search(rf"(?m)^{key}: (.*)$", self.text)
        assert found is not None
        return found[1]


def archive(content: Path, number: int, finished: float = SHARE_FINISHED) -> None:
    """The demo studio's records with so many jobs, a share of them finished, in a folder that is not there yet."""
    shutil.copytree(CONTENT, content, ignore=lambda folder, names: names if Path(folder).name == "jobs" else [])
    studio = content / "studio.yml"
    studio.write_text(_SCREENED.sub("365 days", studio.read_text("utf-8")), "utf-8")
    for path, text in files(number, finished):
        (content / "jobs" / path).write_text(text, "utf-8")


def files(number: int, finished: float = SHARE_FINISHED) -> Iterator[tuple[str, str]]:
    """The files of the jobs: name and text."""
    originals = [_Original(path.stem, path.read_text("utf-8"), _kept(path)) for path in job_files(CONTENT)]
    worked = [original for original in originals if original.kept]
    planned = [original for original in originals if not original.kept and set(_KEY.findall(original.text)) >= _BOOKED]
    planned.sort(key=lambda original: -len(original.text))
    many = round(number * finished)
    for count in range(many):
        days = -(count * 7919 % (YEARS * 365))
        yield from _job(worked[count % len(worked)], f"job-{count}", count, datetime.timedelta(days=days))
    for count, day in enumerate(_days_ahead(number - many), many):
        original = planned[(count - many) % len(planned)]
        by = day - datetime.date.fromisoformat(original.said("date"))
        yield from _job(original, f"job-{count}", count, by)


def first_to_come(number: int, finished: float = SHARE_FINISHED) -> str:
    """The job that is worked next, today; made of the demo's longest, however many there are."""
    return f"job-{round(number * finished)}"


def _days_ahead(sittings: int) -> Iterator[datetime.date]:
    """The days of the sittings that are still to come, the first of them today."""
    found = re.search(r"(?m)^as_of: (\d{4}-\d{2}-\d{2})", (CONTENT / "studio.yml").read_text("utf-8"))
    assert found is not None
    today = datetime.date.fromisoformat(found[1])
    tuesday = today - datetime.timedelta(days=(today.weekday() - _TUESDAY) % 7)
    for count in range(sittings):
        after = int((count - (count % 5 == 4)) * _WEEKS_AHEAD * _WORKING_DAYS / sittings)
        week, day = divmod((today - tuesday).days + after, _WORKING_DAYS)
        yield tuesday + datetime.timedelta(weeks=week, days=day)


def _kept(path: Path) -> str:
    return worked_file(path).read_text("utf-8") if worked_file(path).is_file() else ""


def _job(original: _Original, name: str, count: int, by: datetime.timedelta) -> Iterator[tuple[str, str]]:
    changed = _changes(original, name, count, by)
    yield f"{name}.yml", changed(original.text)
    if original.kept:
        stored = json.loads(changed(original.kept))
        stored["sum"] = checksum(stored["values"])
        yield f"{name}.worked.json", json.dumps(stored, ensure_ascii=False, indent=1) + "\n"


def _changes(original: _Original, name: str, count: int, by: datetime.timedelta) -> Callable[[str], str]:
    """What makes one job another one, in its record and in its kept values alike."""
    words = {
        original.id: name,
        original.said("title"): f"A {_THINGS[count % len(_THINGS)]}, number {count}",
        original.said("client"): f"R-{count + 1000}",
    }
    word = re.compile("|".join(rf"(?<![\w-]){re.escape(old)}(?![\w-])" for old in words))

    def later(found: re.Match[str]) -> str:
        return (datetime.date.fromisoformat(found[0]) + by).isoformat()

    def longer(found: re.Match[str]) -> str:
        return str(int(found[0]) + count % 97)

    # What was asked before a sitting that is still to come was asked up to today: only the sitting is later.
    days = _DAY if original.kept else _SITTING

    def changed(text: str) -> str:
        return _LENGTH.sub(longer, days.sub(later, word.sub(lambda found: words[found[0]], text)))

    return changed
