"""Records that somebody mistyped in ways that nobody thought of: each is read or refused, and what is read makes pages.

A record is changed at a random place and read by itself. What is accepted then stands among the other records, many at
a time, and everything is read, planned and pressed. What the whole refuses, it names by file and line.
"""

from __future__ import annotations

import datetime
import itertools
import random
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from generator.dates import as_of
from generator.diagnostics import Report, has_errors
from generator.records.families import ALL, JOBS, STUDIO, Family
from generator.records.reading import read_family, read_single
from generator.site import read_site
from tests.conftest import ROOT, THREE_JOBS, copy_content

NUMBERS = ("0", "-1", "1e9", "999999999", "0.0000001", "1,5", "½", "∞", "NaN", "1–", "–1", "3 furlong", "07", "1 000")
WORDS = ("", "~", "null", "yes", "unknown", "[]", "{}", "{{ studio.name }}", "{{", "<b>", "a: b", "'", '"', "#", "- x")
SIGNS = ("\t", "\u200b", "\u202e", "\x00", "é", "🜁", "|", ">", "&a", "*a", "!!str x", "@", "`", "%", "---", "\r")
_NUMBER, _WORD, _DAY = re.compile(r"\d+(?:\.\d+)?"), re.compile(r"[A-Za-z][\w-]*"), re.compile(r"\d{4}-\d{2}-\d{2}")


class Record(NamedTuple):
    """One record: its family, its file, and where its text stands in that."""

    family: Family
    file: str
    start: int
    text: str


def records() -> list[Record]:
    """Every entry of every family, and the jobs of a small studio."""
    found = []
    for family in ALL:
        if family is JOBS:
            for job in THREE_JOBS:
                found.append(
                    Record(family, f"jobs/{job}.yml", 0, (ROOT / f"content/jobs/{job}.yml").read_text("utf-8"))
                )
            continue
        text = (ROOT / "content" / family.file).read_text("utf-8")
        starts = [0] if family is STUDIO else [entry.start() for entry in re.finditer(r"(?m)^- ", text)]
        for start, end in itertools.pairwise([*starts, len(text)]):
            found.append(Record(family, family.file, start, text[start:end]))
    return found


def mutated(text: str, chance: random.Random) -> str:
    """The text with one thing in it otherwise."""
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    kind = chance.randrange(8)
    if kind == 0:
        return "\n".join(lines[:at] + lines[at + 1 :])
    if kind == 1:
        return "\n".join([*lines[: at + 1], *lines[at:]])
    if kind == 2:
        other = chance.randrange(len(lines))
        lines[at], lines[other] = lines[other], lines[at]
        return "\n".join(lines)
    if kind == 3:
        place = chance.randrange(len(text) + 1)
        return text[:place] + chance.choice(SIGNS) + text[place:]
    if kind == 4:
        place = chance.randrange(len(text))
        return text[:place] + text[place + chance.randrange(1, 4) :]
    pattern, instead = ((_NUMBER, NUMBERS), (_WORD, WORDS), (_DAY, ("2027-13-01", "1900-01-01", "9999-12-31")))[
        kind - 5
    ]
    places = list(pattern.finditer(text))
    if not places:
        return text + chance.choice(SIGNS)
    place_ = chance.choice(places)
    return text[: place_.start()] + chance.choice(instead) + text[place_.end() :]


def _alone(record: Record, text: str, folder: Path) -> Report:
    """What is wrong with a record by itself."""
    path = folder / Path(record.file).name
    path.write_bytes(text.encode("utf-8"))
    single = record.family in (JOBS, STUDIO)
    report = read_single(path, record.family).report if single else read_family(path, record.family).report
    for one in report:
        assert one.place.file == str(path) and one.place.line >= 1 and one.help and one.expected, one
    return tuple(report)


def _together(content: Path, accepted: list[tuple[Record, str]]) -> Report:
    """Write the accepted records in the place of the old ones, and make everything of them."""
    for file in {record.file for record, _ in accepted}:
        text = (ROOT / "content" / file).read_text("utf-8")
        for record, changed in sorted((one for one in accepted if one[0].file == file), key=lambda one: -one[0].start):
            text = text[: record.start] + changed + text[record.start + len(record.text) :]
        (content / file).write_bytes(text.encode("utf-8"))
    return read_site(content, ROOT / "handbook", as_of(), lambda address, page: None).report


def fuzzed(content: Path, number: int, at_once: int, seed: int) -> Iterator[bool]:
    """So many mutated records; whether each batch of accepted ones made pages."""
    chance, every = random.Random(seed), records()
    alone = content.parent / "alone"
    alone.mkdir()
    accepted: dict[tuple[str, int], tuple[Record, str]] = {}
    for count in range(1, number + 1):
        record = chance.choice(every)
        text = mutated(record.text, chance)
        try:
            refused = has_errors(_alone(record, text, alone))
        except Exception as fault:
            raise AssertionError(f"{record.file}: {text!r}") from fault
        if not refused and text.endswith("\n"):
            accepted[record.file, record.start] = record, text
        if len(accepted) == at_once or (count == number and accepted):
            yield from _batch(content, list(accepted.values()))
            accepted.clear()


def _batch(content: Path, batch: list[tuple[Record, str]]) -> Iterator[bool]:
    """All of them; without those that only the whole refuses, until pages are made."""
    for _ in range(4):
        report = _together(content, batch)
        wrong = {Path(one.place.file).name for one in report if one.level == "error"}
        if not wrong:
            yield True
            return
        for record, _text in batch:
            (content / record.file).write_bytes((ROOT / "content" / record.file).read_bytes())
        kept = [one for one in batch if Path(one[0].file).name not in wrong]
        batch = kept if len(kept) < len(batch) else batch[: len(batch) // 2]
    yield False


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return copy_content(tmp_path, THREE_JOBS)


def test_five_hundred_mistyped_records(content: Path) -> None:
    assert any(fuzzed(content, 500, 1000, seed=1))


@pytest.mark.nightly
def test_ten_thousand_mistyped_records(content: Path) -> None:
    made = list(fuzzed(content, 10_000, 20, seed=datetime.date.today().toordinal()))
    assert len(made) > 100 and sum(made) > len(made) / 2
