"""Junk in place of every scalar of the demo studio's records: one mistake, one diagnostic, at that place.

Each file is read again with scalars replaced, against what all other files are known to hold. One kind of junk stands
in for every scalar, many at a time, and for one scalar of each place that the schema has alone. The other kinds stand
in for one scalar of each place, and of the keys of a mapping for a third, another one with each kind: a key that is not
known is answered by its mapping, whichever it stands for. Every night all kinds stand in for all of them, one by one. A
sample goes through the whole check.

Many at a time ask what one alone asks where each has its diagnostic: no rule is asked of a record in which a value
cannot be read, and a rule looks at its own record. What may be written has none; it is tried alone.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

import pytest

from generator.dates import as_of
from generator.diagnostics import Diagnostic
from generator.planning.plan import plan
from generator.records import reading
from generator.records.families import ALL, JOBS, LISTED, STUDIO, Family, Known
from generator.records.ids import Reference
from generator.records.reading import dangling, read_family, read_job, read_records, read_single
from generator.records.text_file import read_text
from tests.checked import check_all
from tests.conftest import THREE_JOBS, copy_content
from tests.records.scalars import Scalar, Step, is_free_text, replaced, scalars

CONTENT = Path(__file__).parents[2] / "content"
NONSENSE = '"%%junk%%"'
OTHERS = ("''", "-1", "1e3", "[]", "{}", "4 mm", "yes", "none", "2027-02-30")
# A place of the schema: the family, whether it is a key, and the way to it, whichever entries lie on the way.
SchemaPlace = tuple[str, bool, tuple[Step | None, ...]]


class Demo(NamedTuple):
    """One file of the demo content with its scalars."""

    path: Path
    family: Family
    text: str
    scalars: list[Scalar]


class Tried(NamedTuple):
    """Where junk stands in a file in place of some scalars, and what is said then."""

    places: list[tuple[int, int]]
    found: list[Diagnostic]


def _demo() -> Iterator[Demo]:
    for family in ALL:
        paths = sorted((CONTENT / "jobs").glob("*.yml")) if family is JOBS else [CONTENT / family.file]
        for path in paths:
            text = path.read_text("utf-8")
            yield Demo(path, family, text, scalars(text))


DEMO = tuple(_demo())
READ = read_records(CONTENT)
EACH = pytest.mark.parametrize("demo", DEMO, ids=lambda demo: demo.path.stem)


def _references() -> dict[str, dict[str, list[Reference]]]:
    """All references of the demo content, by the family they point into and the file they stand in."""
    into: dict[str, dict[str, list[Reference]]] = {family.name: {} for family in LISTED}
    for demo in DEMO:
        read = read_family if demo.family in LISTED else read_single
        for reference in read(demo.path, demo.family).references:
            into[reference.family].setdefault(demo.path.name, []).append(reference)
    return into


INTO = _references()


# What the file that is read holds; to write it ten thousand times takes longer than to read it.
TYPED: dict[Path, str] = {}


@pytest.fixture(autouse=True, scope="module")
def typed_is_read() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as held:
        held.setattr(reading, "read_text", lambda path: (TYPED[path], ()) if path in TYPED else read_text(path))
        yield


def _diagnostics(demo: Demo, text: str, others: set[str]) -> list[Diagnostic]:
    """What is wrong with one changed file, and with the references into its family.

    others: ids of the family's entries that were left out of the file to keep it small.
    """
    file = Path("typed") / demo.path.name
    TYPED[file] = text
    if demo.family is JOBS:
        job = read_job(file, READ.known)
        assert READ.records is not None
        return [*job.report, *(plan(READ.records, job.job)[1] if job.job else ())]
    if demo.family is STUDIO:
        head = read_single(file, demo.family)
        return [*head.report, *dangling(head.references, READ.known)]
    name = demo.family.name
    read = read_family(file, demo.family)
    ids = {**{id_: READ.known.ids[name][id_] for id_ in others}, **read.ids}
    known = Known({**READ.known.ids, name: ids}, frozenset() if read.whole else frozenset({name}))
    found = [*read.report, *dangling(read.references, known)]
    for elsewhere, references in INTO[name].items():
        if elsewhere != demo.path.name:
            found += dangling(references, known)
    return found


@cache
def _starts(path: Path, text: str, listed: bool) -> list[int]:
    """Where each entry of a file begins, and where the last one ends; a file that is no list is one entry."""
    if not listed:
        return [0, len(text)]
    starts = [0 if text.startswith("- ") else text.index("\n- ") + 1]
    while (more := text.find("\n- ", starts[-1])) >= 0:
        starts.append(more + 1)
    assert len(starts) == len(READ.known.ids[path.stem])
    return [*starts, len(text)]


def _try(demo: Demo, junk: str, tried: Sequence[Scalar], whole: bool = False) -> Tried:
    """Junk in place of some scalars, in the order in which they stand.

    whole: the entries that hold none of them are there too. Otherwise the lines are empty where they stood.
    """
    starts = _starts(demo.path, demo.text, demo.family in LISTED)
    ids = list(READ.known.ids[demo.path.stem]) if demo.family in LISTED else []
    text = demo.text[: starts[0]]
    places, others = list[tuple[int, int]](), set[str]()
    for number, (start, end) in enumerate(pairwise(starts)):
        here = [one for one in tried if start <= one.start < end]
        if not here and not whole:
            text += "\n" * demo.text.count("\n", start, end)
            others.add(ids[number])
            continue
        for one in here:
            text += demo.text[start : one.start]
            places.append((text.count("\n") + 1, len(text) - text.rfind("\n")))
            text += junk + _line_end(demo, one)
            start = one.end
        text += demo.text[start:end]
    assert len(places) == len(tried)
    return Tried(places, _diagnostics(demo, text, others))


def _line_end(demo: Demo, scalar: Scalar) -> str:
    """A block scalar ends with its line, and so does the junk."""
    return "\n" if demo.text[scalar.start : scalar.end].endswith("\n") else ""


def _together(tried: Sequence[Scalar]) -> list[list[Scalar]]:
    """Scalars that can be replaced at once.

    All values, but of a list one, because what stands twice is another mistake; the ids, which others refer to, apart;
    and of keys one of a mapping and none above another one.
    """
    groups: dict[tuple[int, int], list[Scalar]] = {}
    before = Counter[tuple[Step, ...]]()
    for scalar in sorted(tried, key=lambda one: one.start):
        inside, last = scalar.path[:-1], scalar.path[-1]
        if scalar.key:
            at = len(inside), before[inside]
            before[inside] += 1
        elif last == "id":
            at = -2, before["id",]
            before["id",] += 1
        else:
            at = -1, last if isinstance(last, int) else 0
        groups.setdefault(at, []).append(scalar)
    return list(groups.values())


def _places() -> dict[SchemaPlace, list[tuple[Demo, Scalar]]]:
    """Every place of the schema with the scalars that stand at it."""
    found: dict[SchemaPlace, list[tuple[Demo, Scalar]]] = {}
    for demo in DEMO:
        for scalar in demo.scalars:
            way = tuple(None if isinstance(step, int) else step for step in scalar.path)
            found.setdefault((demo.family.name, scalar.key, way), []).append((demo, scalar))
    return found


PLACES = _places()


@cache
def _of_each_place(turn: int) -> list[tuple[Demo, Scalar, SchemaPlace]]:
    """Of each place the scalar that stands in for it; another turn takes others."""
    # A prime apart, so that the turns do not all fall on the first entries.
    return [(*at[turn * 7 % len(at)], place) for place, at in PLACES.items()]


def _once_a_place(demo: Demo, turn: int) -> list[Scalar]:
    """The scalars of a file that stand in for their places."""
    return [scalar for of, scalar, _ in _of_each_place(turn) if of is demo]


def _thirds() -> dict[SchemaPlace, int]:
    """Of a mapping with three keys or more, in which third each of them is."""
    keys: dict[SchemaPlace, list[SchemaPlace]] = {}
    for family, key, way in PLACES:
        if key:
            keys.setdefault((family, True, way[:-1]), []).append((family, key, way))
    return {place: n % 3 for of in keys.values() if len(of) >= 3 for n, place in enumerate(of)}


THIRDS = _thirds()


def _of_this_kind(demo: Demo, turn: int) -> list[Scalar]:
    """The scalars of a file that one of the other kinds of junk stands in for."""
    third = turn % 3
    return [scalar for of, scalar, place in _of_each_place(turn) if of is demo and THIRDS.get(place, third) == third]


def _is_free(demo: Demo, scalar: Scalar) -> bool:
    model_path = scalar.path if demo.family in (STUDIO, JOBS) else scalar.path[1:]
    return not scalar.key and is_free_text(demo.family.model, model_path)


def _asks(demo: Demo, scalar: Scalar) -> Scalar | None:
    """The value of the same file that asks something of this free text, and is named when the text is another."""
    if scalar.key or not _is_free(demo, scalar):
        return None
    for other in demo.scalars:
        # The day that a line counts is quoted in it.
        counts = other.path == (*scalar.path[:-1], "after") and scalar.path[-1] == "say"
        # A correction and a reaction name a lot as it was written down.
        names = bool({"corrections", "reactions"} & set(other.path)) and other.path[-1] == "lot"
        if not other.key and (counts or (names and other.text == scalar.text)):
            return other
    return None


def _place(demo: Demo, other: Scalar, scalar: Scalar, junk: str) -> tuple[int, int]:
    """Line and column of a value once junk stands in place of a scalar, which moves what is behind it."""
    text = replaced(demo.text, scalar, junk)
    start = other.start + (len(text) - len(demo.text) if other.start > scalar.start else 0)
    return text.count("\n", 0, start) + 1, start - text.rfind("\n", 0, start)


def _expected(demo: Demo, scalar: Scalar) -> list[tuple[int, int]]:
    """Where nonsense in place of this scalar is named: in no place where any text will do."""
    asks = _asks(demo, scalar)
    if asks is None and _is_free(demo, scalar):
        return []
    return [_place(demo, asks or scalar, scalar, NONSENSE)]


def _there(found: list[Diagnostic]) -> list[tuple[int, int]]:
    return [(d.place.line, d.place.column) for d in found]


def _said(demo: Demo, scalar: Scalar, found: list[Diagnostic]) -> str:
    listed = [f"{d.place.line}:{d.place.column} {d.code} {d.message}" for d in found]
    return f"{demo.path.name}:{scalar.line}:{scalar.column} {'key ' if scalar.key else ''}“{scalar.text}”: {listed}"


def _told(found: list[Diagnostic]) -> bool:
    return all(d.found and d.expected and d.help for d in found)


def _wrong(demo: Demo, tried: Sequence[Scalar], whole: bool = False) -> list[str]:
    """What nonsense alone did not answer with one diagnostic at its place."""
    wrong = []
    for scalar in tried:
        found = _try(demo, NONSENSE, [scalar], whole).found
        if _there(found) != _expected(demo, scalar) or not _told(found):
            wrong.append(_said(demo, scalar, found))
    return wrong


def _elsewhere(demo: Demo, junk: str, tried: Sequence[Scalar], whole: bool = False) -> list[str]:
    """What another kind of junk alone did not answer with one diagnostic at its place, or with none."""
    wrong = []
    for scalar in tried:
        found = _try(demo, junk, [scalar], whole).found
        # Renaming an entry, or a part, is no mistake; what goes by its old name then is, wherever it stands.
        renamed = {d.code for d in found} in ({"L401"}, {"R350"})
        left_behind = scalar.path[-1] == "id" and not scalar.key and renamed
        # Junk that is no text is named itself, before anything asks for the words.
        places = {_place(demo, one, scalar, junk) for one in (scalar, _asks(demo, scalar)) if one}
        if found and not (len(found) == 1 and places.issuperset(_there(found))) and not left_behind:
            wrong.append(f"{junk} in {_said(demo, scalar, found)}")
    return wrong


def _unanswered(demo: Demo, junk: str, tried: Sequence[Scalar], whole: bool = False) -> Iterator[Scalar]:
    """What has to be tried alone, because where junk stands in many places it has not each its diagnostic."""
    for group in _together(tried):
        places, found = _try(demo, junk, group, whole)
        there = _there(found)
        each_once = len(set(there)) == len(there) and set(there) <= set(places) and _told(found)
        yield from (one for one, at in zip(group, places, strict=True) if not each_once or at not in there)


@EACH
def test_junk_is_one_diagnostic_where_it_stands(demo: Demo) -> None:
    """Once of each place alone; all others many at a time, and alone what has no diagnostic then."""
    free = [scalar for scalar in demo.scalars if _is_free(demo, scalar)]
    alone = {*_once_a_place(demo, 0), *(scalar for scalar in free if _asks(demo, scalar))}
    for group in _together([scalar for scalar in free if scalar not in alone]):
        alone |= set(group if _try(demo, NONSENSE, group, whole=True).found else ())
    alone |= set(_unanswered(demo, NONSENSE, [scalar for scalar in demo.scalars if scalar not in free], whole=True))
    wrong = _wrong(demo, [scalar for scalar in demo.scalars if scalar in alone])
    assert not wrong, "\n".join([f"{len(wrong)} of {len(demo.scalars)}", *wrong[:20]])


@EACH
def test_other_junk_is_one_diagnostic_there_or_honestly_valid(demo: Demo) -> None:
    wrong = []
    for turn, junk in enumerate(OTHERS):
        wrong += _elsewhere(demo, junk, list(_unanswered(demo, junk, _of_this_kind(demo, turn))))
    assert not wrong, "\n".join([str(len(wrong)), *wrong[:20]])


@pytest.mark.nightly
@EACH
def test_junk_in_the_whole_file_is_one_diagnostic_where_it_stands(demo: Demo) -> None:
    wrong = _wrong(demo, demo.scalars, whole=True)
    assert not wrong, "\n".join([f"{len(wrong)} of {len(demo.scalars)}", *wrong[:20]])


@pytest.mark.nightly
@EACH
@pytest.mark.parametrize("junk", OTHERS)
def test_other_junk_everywhere(demo: Demo, junk: str) -> None:
    wrong = _elsewhere(demo, junk, demo.scalars)
    assert not wrong, "\n".join([f"{len(wrong)} of {len(demo.scalars)}", *wrong[:20]])


def test_every_place_is_tried_with_every_kind_of_junk() -> None:
    assert sum(len(at) for at in PLACES.values()) == sum(len(demo.scalars) for demo in DEMO)
    for turn in range(len(OTHERS)):
        assert sum(len(_once_a_place(demo, turn)) for demo in DEMO) == len(PLACES) > 700
    # Each key three times, and with each kind about a third of all keys; what is no key, with every kind.
    assert len(OTHERS) % 3 == 0
    tried = [sum(len(_of_this_kind(demo, turn)) for demo in DEMO) for turn in range(len(OTHERS))]
    assert sum(tried) == len(OTHERS) * len(PLACES) - len(OTHERS) * len(THIRDS) * 2 // 3
    assert min(tried) > sum(not key for _, key, _ in PLACES) > 300


@EACH
def test_what_is_replaced_at_once_hides_nothing_of_it(demo: Demo) -> None:
    groups = _together(demo.scalars)
    assert sum(map(len, groups)) == len(demo.scalars)
    for group in groups:
        keys = {scalar.path for scalar in group if scalar.key}
        assert not keys or len(keys) == len(group) == len({path[:-1] for path in keys})
        assert not any(path[:n] in keys for path in keys for n in range(len(path)))


def test_most_of_what_is_written_is_no_free_text() -> None:
    """A schema of nothing but words would take any junk."""
    values = [_is_free(demo, scalar) for demo in DEMO for scalar in demo.scalars if not scalar.key]
    assert 0 < values.count(True) < len(values) / 3


@pytest.mark.parametrize(
    ("jobs", "every"), [(THREE_JOBS, 193), pytest.param((), 29, marks=pytest.mark.nightly)], ids=["three jobs", "all"]
)
def test_a_sample_goes_through_the_whole_check(jobs: tuple[str, ...], every: int, tmp_path: Path) -> None:
    content = copy_content(tmp_path, jobs)
    everything = [(demo, scalar) for demo in DEMO for scalar in demo.scalars]
    for demo, scalar in everything[::every]:
        file = content / demo.path.relative_to(CONTENT)
        there = file.exists()
        file.write_text(replaced(demo.text, scalar, NONSENSE), "utf-8")
        # A reminder is no mistake: a lot that no ink has may be any text.
        found = [d for d in check_all(content, as_of()) if d.level != "reminder"]
        if there:
            file.write_text(demo.text, "utf-8")
        else:
            file.unlink()
        expected = [(str(file), line, column) for line, column in _expected(demo, scalar)]
        at = [(d.place.file, d.place.line, d.place.column) for d in found]
        assert at == expected, _said(demo, scalar, list(found))


_DATE = re.compile(r"\b\d{4}-\d{2}(-\d{2})?\b")
_ENDS = {"1900-01-01", "2199-12-31", "0001-01-01", "9999-12-31"}


@EACH
@pytest.mark.parametrize(
    "day",
    [day if day[:4] in ("0001", "2199") else pytest.param(day, marks=pytest.mark.nightly) for day in sorted(_ENDS)],
)
def test_a_day_at_an_end_of_the_calendar_is_valid_or_a_diagnostic(demo: Demo, day: str) -> None:
    """One after the other and all at once; nothing that is counted from it leads out of the calendar."""
    dated = [scalar for scalar in demo.scalars if not scalar.key and _DATE.fullmatch(scalar.text)]
    each = [_try(demo, day[: len(scalar.text)], [scalar]).found for scalar in dated[:60]]
    each.append(_diagnostics(demo, _DATE.sub(lambda found: day[: len(found[0])], demo.text), set()))
    for found in each:
        assert all(d.place.line <= demo.text.count("\n") + 1 for d in found)
        if dated and day[:4] in ("0001", "9999"):
            assert "R311" in {d.code for d in found}
