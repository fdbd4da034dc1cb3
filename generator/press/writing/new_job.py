"""A new job to fill in: the keys of the schema in its order, each with a comment that says what it is for.

Nothing about a client or a drawing is guessed: what has to be chosen is in capitals, at which the check points
one by one, and what is asked on the day is written as `unknown`. Words, examples and ids come from the schema and the
studio's own records, so the text cannot say anything else than the check.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping

from pydantic import BaseModel
from pydantic_core import PydanticCustomError

from generator.diagnostics import Diagnostic, Place
from generator.planning.supplies.tray import bottle_of
from generator.planning.working.technique import dial_row
from generator.press.writing.schema import Field, Shape, fields_of
from generator.records.client import Screening
from generator.records.days import UP_TO_TODAY
from generator.records.families import Records
from generator.records.ids import Id
from generator.records.jobs import Job
from generator.records.kind import parts_of
from generator.records.located import Text
from generator.records.parts import Part

# Eight columns are left for what is inside of something else.
_WIDTH, _BEHIND = 102, 34
_HEAD = """\
# Write what stands in CAPITALS; `python -m generator check` points at each place that is left.
# Then take `draft` away: until then this job stops nothing, and has no sheet.
# What is `unknown` is asked about, and never read as a no. Take away what the piece does not have.

"""
# Pairs and boxes name their own numbers, and a word to choose must not look like one of those on offer.
_SPOT, _BOX = "[RIGHT, DOWN]", "[RIGHT, DOWN, WIDTH, HEIGHT]"
_CAPITALS = {"from": _SPOT, "to": _SPOT, "at": _SPOT}

Values = Mapping[str, str]


class _Open(str):
    """A value that is still to be written, or to be asked for."""


class _Block(_Open):
    """One with keys of its own under it, each on a line."""


_CHOOSE, _UNKNOWN = _Open("CHOOSE"), _Open("unknown")


def id_mistake(job_id: str, place: Place) -> Diagnostic | None:
    """What is wrong with the id of a job that is to be begun, as the check would say it of one that is there."""
    try:
        Id().read(Text.at(job_id, place))
    except PydanticCustomError as wrong:
        return parts_of(wrong).diagnostic(place)
    return None


def new_job(records: Records, job_id: str) -> str:
    """The text of a job file that lacks only what the artist knows."""
    part = {
        "id": "main",
        "role": "main",
        "detail": _CHOOSE,
        "focal": "yes",
        "box": _BOX,
        "lines": _Open(f"[{{needle: {_fitting(records, 'groupings')[0]}, length: LENGTH}}]"),
        "colours": _Open("[INK]"),
    }
    job = {
        "id": job_id,
        "draft": "yes",
        "client": _Open("CLIENT"),
        "title": job_id.replace("-", " ").capitalize(),
        "artist": _CHOOSE,
        "date": _Open("DATE"),
        "start": _Open("START"),
        "side": _CHOOSE,
        "girth": _Open("{top: TOP, bottom: BOTTOM}"),
        "skin": _Open(f"{{tone: {_CHOOSE}}}"),
        "screening": _block(f"  {line}" for line in _record(records, Screening, {"answers": _unasked(records)})),
        "parts": _block(_entry(_record(records, Part, part), "  ")),
    }
    lines = [
        *_record(records, Job, job),
        "# Other keys, where they are needed:",
        *_others(Job, job, "#   "),
        "#   in a part:",
        *_others(Part, part, "#     "),
    ]
    return _HEAD + "\n".join(lines) + "\n"


def _record(records: Records, model: type[BaseModel], values: Values) -> Iterator[str]:
    """The lines of a record: what is given, what nobody has asked yet, and capitals for what is needed besides."""
    for field in fields_of(model):
        value = values.get(field.key) or _otherwise(field)
        if value is not None:
            yield from _line(field.key, value, _says(records, field, value))
        if value is _UNKNOWN and field.shape.nested:
            (inner,) = field.shape.nested
            yield from _entry(_record(records, inner, {"id": f"{field.key[0]}1", "box": _BOX}), "#   ")


def _entry(lines: Iterable[str], indent: str) -> Iterator[str]:
    """One entry of a list. Its dash is before the first key, not before a comment."""
    begun = False
    for line in lines:
        first = not begun and not line.startswith("#")
        begun = begun or first
        yield f"{indent}{'- ' if first else '  '}{line}"


def _otherwise(field: Field) -> str | None:
    if field.shape.unknown:
        return _UNKNOWN
    if not field.required:
        return None
    return _CHOOSE if field.shape.choose else _CAPITALS.get(field.key, _Open(field.key.upper()))


def _line(key: str, value: str, says: str) -> list[str]:
    """Key and value with the comment behind them; above them where it is too long."""
    block = isinstance(value, _Block)
    written = f"{key}:{value}" if block else f"{key}: {value}"
    beside = f"{written:<{_BEHIND}}  # {says}"
    if not block and len(beside) <= _WIDTH:
        return [beside]
    return [*_wrapped(says, "# ", "#   "), *written.split("\n")]


def _says(records: Records, field: Field, value: str) -> str:
    """What the field is for, in the words of the schema, with what may stand there."""
    said = field.about + _may_be(records, field.shape, value)
    if value is _UNKNOWN and field.shape.nested:
        said += ", each as in:"
    elif not isinstance(value, _Block):
        for inner in (inner for model in field.shape.nested for inner in fields_of(model)):
            if inner.required or f"{inner.key}:" in value:
                said += f"; {inner.key}: {inner.about}{_may_be(records, inner.shape, value)}"
    return said.replace("`", "")


def _may_be(records: Records, shape: Shape, value: str) -> str:
    """The words or ids to choose from, or an example where something is still to be written."""
    if shape.nested:
        return ""
    if shape.each:
        return f" ({shape.each})"
    if shape.families:
        return f": {', '.join(_fitting(records, shape.families[0]))}"
    if shape.choose:
        return f": {shape.choose}"
    typed = isinstance(value, _Open) and shape.example and shape.example.typed
    return f"{_by_when(shape)}, such as {shape.example}" if typed else ""


def _by_when(shape: Shape) -> str:
    """What was done is dated up to today; other bounds are for whoever misses them."""
    return f", {UP_TO_TODAY}" if shape.bounds == UP_TO_TODAY else ""


def _example(field: Field) -> str:
    """The words to choose from, the keys of an entry, or an example."""
    if field.shape.nested:
        keys = ", ".join(f"{inner.key}: {inner.key.upper()}" for inner in fields_of(field.shape.nested[0]))
        return f", each as {{{keys}}}"
    if field.shape.choose:
        return f": {field.shape.choose}{', or `unknown`' if field.shape.unknown else ''}"
    # Free words have no example but themselves.
    example = field.shape.example
    return f"{_by_when(field.shape)}, such as {example}" if example and any(map(str.isdigit, example.text)) else ""


def _block(lines: Iterable[str]) -> str:
    """The value of a key that has its own keys under it."""
    return _Block("\n" + "\n".join(lines))


def _unasked(records: Records) -> str:
    # The space is one that no line is broken at.
    answers = ", ".join(f"{question}:\N{NO-BREAK SPACE}unknown" for question in records.screening)
    wrapped = "\n".join(_wrapped(f"answers: {{{answers}}}", "", " " * 10))
    return wrapped.removeprefix("answers: ").replace("\N{NO-BREAK SPACE}", " ")


def _others(model: type[BaseModel], values: Values, indent: str) -> Iterator[str]:
    """The keys that were left out, with what they are for."""
    for field in fields_of(model):
        if field.key not in values and _otherwise(field) is None:
            yield from _wrapped(f"{field.key}: {field.about}".replace("`", ""), indent, f"{indent}  ")
            for inner in (inner for model in field.shape.nested for inner in fields_of(model)):
                said = f"{inner.key}: {inner.about}{_example(inner)}".replace("`", "")
                yield from _wrapped(said, f"{indent}  ", f"{indent}    ")


def _wrapped(text: str, first: str, then: str) -> list[str]:
    # Words with a hyphen are ids, and stay whole.
    return textwrap.wrap(text, _WIDTH, initial_indent=first, subsequent_indent=then, break_on_hyphens=False)


def _fitting(records: Records, family: str) -> list[str]:
    """The ids of a family that fit a new job, or all of them; capitals where none is on file."""
    fits: Iterable[str] = ()
    if family == "people":
        fits = (person.id for person in records.people.values() if person.role == "artist")
    elif family == "groupings":
        fits = _liners(records)
    elif family == "inks":
        barred = {b.pigment for b in records.barred_pigments.values() if b.region == records.studio.region}
        fits = (ink.id for ink in records.inks.values() if not barred & set(bottle_of(records, ink).pigments))
    # What has an end on file is not proposed for a new job.
    entries = records.family(family)
    here = [each for each in (list(fits) or entries) if getattr(entries[each], "until", None) is None]
    return here or [family.upper()]


def _liners(records: Records) -> list[str]:
    """What the usual technique for lines has a speed for, its own usual grouping first."""
    technique = next((t for t in records.techniques.values() if "lines" in t.usual_for), None)
    if technique is None:
        return []
    others = (grouping.id for grouping in records.groupings.values() if dial_row(technique, grouping) is not None)
    return list(dict.fromkeys([str(technique.usual_grouping), *others]))
