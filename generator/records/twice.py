"""What stands twice where it may stand once."""

from collections.abc import Iterable, Iterator

from pydantic import BaseModel

from generator.diagnostics import Diagnostic, Place
from generator.records.jobs import Job
from generator.records.kind import mistake_at, repeated
from generator.records.located import Text


def ids_twice(job: Job) -> Iterator[Diagnostic]:
    """Parts, scars and older tattoos of a job with one id, or with two that differ in capitals alone."""
    for named in (job.parts, job.scars or (), job.existing_tattoos or ()):
        ids = [item.id for item in named]
        yield from (again(text, first.place, "id") for text, first in repeated((text, text) for text in ids))
        in_capitals = ((text, first) for text, first in repeated((text.lower(), text) for text in ids) if text != first)
        yield from (only_in_capitals(text, first) for text, first in in_capitals)


def words_twice(value: object) -> Iterator[Diagnostic]:
    """Words and references that stand twice in one list."""
    if isinstance(value, BaseModel):
        inside: Iterable[object] = value.__dict__.values()
    elif isinstance(value, tuple):
        texts = ((item, item) for item in value if isinstance(item, Text))
        yield from (again(text, first.place, "entry") for text, first in repeated(texts))
        inside = value
    else:
        return
    for item in inside:
        if isinstance(item, BaseModel | tuple):
            yield from words_twice(item)


def only_in_capitals(text: Text, first: Text) -> Diagnostic:
    """Two ids that some systems take for one."""
    return mistake_at(
        "R327",
        text,
        expected="ids that differ in a letter or digit, because some systems take both for one file",
        help_="rename one of the two",
        says=f"the ids `{text}` and `{first}` (line {first.place.line}) differ only in capitals",
    )


def again(text: Text, first: Place, what: str) -> Diagnostic:
    """What stands twice. first: where it stood before; what: what it is, in a word."""
    return mistake_at(
        "R318",
        text,
        expected=f"each {what} once",
        help_="rename one of the two, or take it away",
        says=f"the {what} `{text}` stands twice (first on line {first.line})",
    )
