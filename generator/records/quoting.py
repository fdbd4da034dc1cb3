"""Quotes of values of records: `{{ family.id.field }}`, and `{{ .field }}` inside a text of the same entry.

A number has one home. A text that needs it quotes it, so that the text follows when the number changes. The texts
of records are filled in once, when records are read: whatever shows them later shows the value.
"""

import dataclasses
import datetime
import re
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple, TypeVar

from pydantic import BaseModel

from generator import quantities
from generator.diagnostics import Diagnostic, Place, Report
from generator.near_miss import did_you_mean, nearest
from generator.quantities import Quantity
from generator.records import conditions
from generator.records.checklist import QUOTE, JobText, quotes_a_job
from generator.records.decided import Rule
from generator.records.families import JOBS, LISTED, STUDIO, Records
from generator.records.format import renamed
from generator.records.ids import Reference
from generator.records.jobs import Job
from generator.records.located import Text
from generator.records.record import Entry
from generator.units import KINDS

R = TypeVar("R", bound=BaseModel)

NOTE = "a quote names a record: family, id and field, with points between"
_PATH = re.compile(r"[A-Za-z0-9_-]+(\.[A-Za-z0-9_-]+)*")
_TYPED = re.compile(r"typed:\s*(\S.*?),\s*because\s+(\S.*)", re.DOTALL)
# The studio's roles are quoted by a word of their own.
ROLES = "roles"
_FAMILIES = (STUDIO.name, ROLES, *(family.name for family in LISTED))
# Times are said as the studio wrote them: four weeks are not 28 days to anybody, nor four hours 240 minutes.
# A share has one unit, so the figure on the label stays as it is.
_AS_WRITTEN = ("duration", "days", "months", "share")


class CannotQuote(Exception):
    """Why a quote has no value: the parts of its diagnostic."""

    def __init__(self, code: str, message: str, expected: str, remedy: str) -> None:
        super().__init__(message)
        self.code, self.message, self.expected, self.remedy = code, message, expected, remedy

    def at(self, place: Place, shown: str) -> Diagnostic:
        return Diagnostic(
            self.code,
            place,
            found=f"“{shown}”",
            expected=self.expected,
            help=self.remedy,
            note=NOTE,
            says=self.message,
        )


class Found(NamedTuple):
    """A single value, in which family it is, and the keys of the row that shows it."""

    value: object
    family: str
    row: tuple[str, ...]


class Filled(Text):
    """A text whose quotes are filled in; `written` is how it was typed."""

    __slots__ = ("written",)
    written: str


class FilledForJobs(Filled, JobText):
    """A text of which only the quotes of the studio's records are filled in."""

    __slots__ = ()


def found(path: str, records: Records, job: Job | None = None) -> Found:
    """The value that a path leads to, in the records or in the job. Raises CannotQuote where there is no single one."""
    if not _PATH.fullmatch(path):
        raise CannotQuote(
            "H701",
            "this is not the name of a value",
            "family, id and field",
            "write it like `{{ machines.kettle.hang_out }}`; nothing is computed inside a quote",
        )
    family, *keys = path.split(".")
    if family == ROLES:
        family, keys = STUDIO.name, [ROLES, *keys]
    own = {JOBS.name: {str(job.id): job}} if job is not None else {}
    if family not in (*_FAMILIES, *own):
        raise _unknown(family, "a family of records", "", _FAMILIES)
    value, walked, row = _start(family, keys, records, own.get(family))
    left = keys[1:] if family != STUDIO.name else keys
    while left:
        if isinstance(value, Reference) and value in records.family(value.family):
            # What is meant is in the entry that the role, or another field, names.
            family, row = value.family, (str(value),)
            value, walked = records.family(family)[value], f"{family}.{value}"
        if isinstance(value, conditions.Condition):
            # A fact has a point in its name, so what is left of the path is the fact.
            value, walked, left = _limit(value, ".".join(left), walked), f"{walked}.{'.'.join(left)}", []
        else:
            value, walked, left = _into(value, left[0], walked), f"{walked}.{left[0]}", left[1:]
    if in_words(value, records) is None:
        raise _whole(value, walked)
    return Found(value, family, row)


def typed(written: str) -> tuple[str, str]:
    """What a person typed on purpose, and the reason. Raises CannotQuote where none is given."""
    matched = _TYPED.fullmatch(written.strip())
    if matched is None:
        raise CannotQuote(
            "H703",
            "a typed number says here not why it is typed",
            "what is typed, a comma, “because” and the reason",
            "write it like `{{ typed: 100 mm, because the bar on the sheet proves the scale }}`",
        )
    return matched[1], matched[2]


def in_words(value: object, records: Records) -> str | None:
    """Any single value of a record in plain words; None for what has no words of its own, such as a list."""
    if isinstance(value, Quantity):
        return as_shown(value, records)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Reference):
        entry = records.family(value.family).get(value)
        return str(value) if entry is None else name_of(entry)
    if isinstance(value, str):
        return str(value)
    if isinstance(value, int | float):
        return f"{value:g}"
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, conditions.Compare | conditions.OneOf | conditions.All | conditions.Any_ | conditions.Not):
        return conditions.in_words(value)
    return None


def as_shown(quantity: Quantity, records: Records) -> str:
    """A quantity of a record in the studio’s first system, the other beside it; a number without a unit as it is."""
    if quantity.text and (quantity.kind in _AS_WRITTEN or quantity.kind not in KINDS):
        return quantities.as_written(quantity.text)
    return quantities.in_both(quantity.low, quantity.high, quantity.kind, records.studio.shows, quantity.text)


def name_of(entry: Entry) -> str:
    """What an entry is called: its name, its label, or its id."""
    return str(getattr(entry, "name", None) or getattr(entry, "label", None) or entry.id)


def fill_in(records: Records) -> tuple[Records, Report]:
    """The records with every quote in their texts replaced by its value, and what is wrong with the quotes."""
    report: list[Diagnostic] = []
    made: dict[str, Any] = {"studio": _record(records.studio, STUDIO.name, records, report)}
    for family in LISTED:
        entries = records.family(family.name)
        made[family.name.replace("-", "_")] = {
            entry_id: _record(entry, f"{family.name}.{entry_id}", records, report)
            for entry_id, entry in entries.items()
        }
    return dataclasses.replace(records, **made), tuple(report)


def fill_in_job(job: Job, records: Records) -> tuple[Job, Report]:
    """The job with every quote in its texts replaced by its value, of the studio's records or of its own fields."""
    report: list[Diagnostic] = []
    return _record(job, f"{JOBS.name}.{job.id}", records, report, job), tuple(report)


def _record(record: R, own: str, records: Records, report: list[Diagnostic], job: Job | None = None) -> R:
    changed = {}
    for name, value in record.__dict__.items():
        if (filled := _filled(value, own, records, report, job)) is not value:
            changed[name] = filled
    return record.model_copy(update=changed) if changed else record


def _filled(value: object, own: str, records: Records, report: list[Diagnostic], job: Job | None) -> object:
    if isinstance(value, Text):
        quotes = "{{" in value and not isinstance(value, Reference) and QUOTE.search(value)
        return _text(value, own, records, report, job) if quotes else value
    if isinstance(value, BaseModel):
        return _record(value, own, records, report, job)
    if isinstance(value, tuple):
        items = tuple(_filled(item, own, records, report, job) for item in value)
        same = all(a is b for a, b in zip(items, value, strict=True))
        return value if same else items
    return value


def _text(text: Text, own: str, records: Records, report: list[Diagnostic], job: Job | None) -> Text:
    def replaced(piece: re.Match[str]) -> str:
        if isinstance(text, JobText) and quotes_a_job(piece["path"] or ""):
            return piece[0]  # filled in for each job
        try:
            return _quoted(piece["path"], own, records, job)
        except CannotQuote as cannot:
            report.append(cannot.at(_at(text, piece), piece[0]))
            return piece[0]

    kind = FilledForJobs if isinstance(text, JobText) else Filled
    made = kind.at(QUOTE.sub(replaced, text), text.place)
    if made == text:
        return text
    made.written, made.origin = str(text), text.origin
    return made


def _quoted(path: str | None, own: str, records: Records, job: Job | None) -> str:
    if path is None:
        raise CannotQuote(
            "H701", "a quote is opened and not closed", "`}}`", "write it as `{{ family.id.field }}` or `{{ .field }}`"
        )
    path = path.strip()
    if path.startswith("typed:"):
        return typed(path)[0]
    words = in_words(found(f"{own}{path}" if path.startswith(".") else path, records, job).value, records) or ""
    if QUOTE.search(words):
        raise CannotQuote(
            "H702", f"`{path}` is a text with quotes of its own", "a value", "quote the value that it quotes"
        )
    return words


def _at(text: Text, piece: re.Match[str]) -> Place:
    """Where a quote is inside its text; the whole text where it is broken over lines."""
    place = text.place
    sign = place.end - place.column - len(text)
    if sign not in (0, 2):
        return place
    column = place.column + sign // 2
    return place._replace(column=column + piece.start(), end=column + piece.end())


def _start(
    family: str, keys: list[str], records: Records, own: Mapping[str, Job] | None = None
) -> tuple[object, str, tuple[str, ...]]:
    """The record that the quote begins with, its path, and the keys of its row. own: the one job that is quoted."""
    if family == STUDIO.name:
        # The studio's page has a row for each value, and one for each of its limits.
        depth = 2 if keys[:1] == ["limits"] else 1
        return records.studio, family, tuple(keys[:depth])
    entries: Mapping[str, object] = records.family(family) if own is None else own
    if not keys:
        first = next(iter(entries), "id")
        raise CannotQuote(
            "H702",
            f"`{family}` is a whole family and cannot be quoted",
            "one value of one record",
            f"name a record and a field, as in `{{{{ {family}.{first}.source }}}}`",
        )
    if keys[0] not in entries:
        raise _unknown(keys[0], f"an id in `{family}`", f"{family}.", entries)
    return entries[keys[0]], f"{family}.{keys[0]}", (keys[0],)


def _into(value: object, key: str, walked: str) -> object:
    """One step deeper: a field of a record, or an item of a list."""
    if isinstance(value, BaseModel):
        attributes = {info.alias or name: name for name, info in type(value).model_fields.items()}
        if key not in attributes:
            raise _unknown(key, f"a field of `{walked}`", f"{walked}.", attributes, _new_name(walked, key))
        return getattr(value, attributes[key])
    if isinstance(value, tuple):
        numbers = [str(n) for n in range(len(value))]
        if key not in numbers:
            raise _unknown(key, f"an item of the list `{walked}`, counted from 0", f"{walked}.", numbers)
        return value[int(key)]
    if value is None:
        raise _whole(value, walked)
    raise CannotQuote(
        "H701", f"`{walked}` is a single value, nothing lies under it", f"`{walked}`", f"write `{{{{ {walked} }}}}`"
    )


def _limit(condition: conditions.Condition, fact: str, walked: str) -> Quantity:
    """The one number with which a rule's condition compares a fact."""
    single = conditions.single_conditions(condition)
    compared = [(one.fact, one.limit) for one in single if isinstance(one, conditions.Compare)]
    limits = {limit.low: limit for name, limit in compared if name == fact}
    if not limits:
        raise _unknown(fact, f"a fact that `{walked}` compares with a number", f"{walked}.", dict(compared))
    if len(limits) > 1:
        several = " and ".join(limit.text for limit in limits.values())
        raise CannotQuote(
            "H702",
            f"`{walked}` compares `{fact}` with {several}",
            "a fact that is compared with one number",
            "quote the rule that has only the limit you mean",
        )
    return next(iter(limits.values()))


def _new_name(walked: str, key: str) -> str:
    """What a key of an older format is called now; nothing for any other key. `walked` is the way to it in a quote."""
    family, *way = walked.split(".")
    inside = way if family == STUDIO.name else way[1:]
    entry = renamed(".".join([family, *(part for part in inside if not part.isdigit())]), key)
    return "" if entry is None else entry.new


def _unknown(found: str, wanted: str, before: str, known: Iterable[str], now: str = "") -> CannotQuote:
    if now:
        return CannotQuote("H701", f"`{found}` is now `{now}`", wanted, f"write `{before}{now}`")
    names = list(known)
    near = nearest(found, names)
    listed = ", ".join(names[:20]) + (", …" if len(names) > 20 else "")
    remedy = did_you_mean(near and before + near, f"known there: {listed or 'nothing'}")
    return CannotQuote("H701", f"`{found}` is not {wanted}", wanted, remedy)


def _whole(value: object, walked: str) -> CannotQuote:
    if value is None:
        wanted, remedy = "a value", "add it to the record, or take the quote away"
        return CannotQuote("H702", f"nothing is written in `{walked}`", wanted, remedy)
    if isinstance(value, BaseModel):
        what, inner = "a whole record", next(iter(type(value).model_fields))
        # What every rule has, such as who decided it, is no example of what this one says.
        inner = next((name for name in type(value).model_fields if name not in Rule.model_fields), inner)
    else:
        what, inner = "a list", "0"
    return CannotQuote(
        "H702",
        f"`{walked}` is {what} and cannot be quoted",
        "one value",
        f"name one thing in it, as in `{{{{ {walked}.{inner} }}}}`",
    )
