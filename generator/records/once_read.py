"""What is looked for all through a record once it is read: what stands twice, and days that are still to come.

Which days say that something was done is declared where the field is, by `past` of its kind (`records/days.py`).
"""

from collections.abc import Iterable, Iterator

from pydantic import BaseModel

from generator.dates import AsOf
from generator.diagnostics import Diagnostic, Place
from generator.records.days import Date, When
from generator.records.jobs import NO_SHOW, Job
from generator.records.kind import mistake_at, repeated
from generator.records.located import Text
from generator.records.record import singles


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


def still_to_come(value: object, as_of: AsOf) -> Iterator[Diagnostic]:
    """Every day inside a record that says what was done, and lies behind the day that counts as today.

    Of a month or a year its first day counts, because it may have been that one.
    """
    for found in singles(value):
        if not isinstance(found, When | Date) or not found.past:
            continue
        day = found.first if isinstance(found, When) else found
        if day > as_of:
            yield mistake_at(
                "R328",
                found,
                found=f"“{day.isoformat()}”",
                expected=f"a day up to {as_of.isoformat()}, "
                + (f"which {as_of.set_by} sets as today" if as_of.set_by else "today"),
                help_="write the day on which it was done, or take it away until it is done"
                + (f"; or set {as_of.set_by} to the day that is meant" if as_of.set_by else ""),
                says=f"it says that {found.past} on {day.isoformat()}, which is still to come",
            )


def not_come_yet(job: Job, as_of: AsOf) -> Iterator[Diagnostic]:
    """A client who is said not to have come, on a day that is still to come."""
    if job.not_worked == NO_SHOW and job.date > as_of and isinstance(job.not_worked, Text):
        yield mistake_at(
            "R328",
            job.not_worked,
            expected=f"a `date` up to {as_of.isoformat()}, or `cancelled` or `postponed`",
            help_="write it when the day has come",
            says=f"it says that the client did not come on {job.date.isoformat()}, which is still to come",
        )
