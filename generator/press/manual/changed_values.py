"""Values that procedures quote and that have changed: what nobody wrote down, and who should read again.

The listed text of a procedure keeps what its quotes said, one after the other; it is asked for once somebody has signed
the procedure. So a quote that got another name is no
change, and a value that did is one, whatever it is called.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place
from generator.press.manual.procedures import ProcedurePage, is_listed
from generator.press.manual.quoted_values import QuotedValue, listed_as, quoted_values, value_at, without_role
from generator.quantities import written
from generator.records.decided import COMFORT, SAFETY, Change
from generator.records.families import LISTED, STUDIO, Records
from generator.records.procedures import Procedure
from generator.records.quoting import name_of
from generator.records.record import Entry
from generator.records.values import Value

_FAMILIES = frozenset(family.name for family in LISTED)


class Unlisted(NamedTuple):
    """A value that differs from what was listed last, the procedures that quote it, and where it is written."""

    path: str
    was: str
    now: str
    procedures: tuple[str, ...]
    place: Place | None


def same(one: str, other: str) -> bool:
    """Whether two values as they were written are equal, whatever their unit."""
    if one == other:
        return True
    try:
        first, second = written(one), written(other)
    except ValueError:
        return False
    return (first.kind, first.low, first.high) == (second.kind, second.low, second.high)


def matters(path: str, records: Records) -> str:
    """Safety or comfort; safety where nothing says otherwise."""
    family, entry, rest = _entry_at(path, records)
    if family == STUDIO.name:
        head, _, limit = rest.partition(".")
        return COMFORT if head == "limits" and limit.partition(".")[0] in records.studio.comfort else SAFETY
    return getattr(entry, "matters", SAFETY)


def what_changed(change: Change, records: Records) -> str:
    """The value in the words of its record, or its path where it has none."""
    family, entry, rest = _entry_at(change.of, records)
    words = rest.removeprefix("limits.").replace("_", " ").replace(".", " ")
    if family == STUDIO.name:
        return f"The studio’s {words}"
    if isinstance(entry, Value):
        return entry.what
    return str(change.of) if entry is None else f"{name_of(entry)}, {words}"


def _entry_at(path: str, records: Records) -> tuple[str, Entry | None, str]:
    """The family of a path without roles, its entry where that is on file, and the rest; the studio has no entries."""
    family, _, rest = without_role(path, records).partition(".")
    if family == STUDIO.name:
        return family, None, rest
    entry_id, _, rest = rest.partition(".")
    return family, records.family(family).get(entry_id) if family in _FAMILIES else None, rest


def change_in_words(change: Change, records: Records) -> str:
    """What changed, from what to what, and whether that is safety or comfort."""
    return f"{what_changed(change, records)}: {change.from_}, now {change.to} ({matters(change.of, records)})"


def in_order(records: Records) -> list[Change]:
    """All changes by day; of one day in the order of their file."""
    return sorted(records.changes.values(), key=lambda change: change.on)


def changes_on(page: ProcedurePage, records: Records) -> tuple[Change, ...]:
    """The changes of values that a page quotes."""
    paths = {without_role(path, records) for path in page.quotes}
    return tuple(change for change in in_order(records) if without_role(change.of, records) in paths)


def unlisted_values(records: Records, pages: Mapping[str, ProcedurePage]) -> list[Unlisted]:
    """Every value that differs from what a signed procedure lists, and from what the changes since then say."""
    last: dict[str, Change] = {without_role(change.of, records): change for change in in_order(records)}
    told: dict[str, Unlisted] = {}
    for path, change in last.items():
        value = value_at(path, records)
        if value is not None and not same(change.to, value.says):
            told[path] = Unlisted(path, change.to, value.says, (), value.place)
    for procedure, values in _signed_and_listed(records, pages):
        listed = procedure.revisions[-1].quoted
        if listed is None or len(listed) != len(values):
            continue
        for was, value in zip(listed, values, strict=True):
            since = last.get(value.path)
            if since is not None and since.on >= procedure.revisions[-1].date:
                was = since.to
            if not same(was, value.says):
                known = told.get(value.path) or Unlisted(value.path, was, value.says, (), value.place)
                told[value.path] = known._replace(procedures=tuple(dict.fromkeys((*known.procedures, procedure.id))))
    return list(told.values())


def _signed_and_listed(
    records: Records, pages: Mapping[str, ProcedurePage]
) -> Iterator[tuple[Procedure, list[QuotedValue]]]:
    """What is signed, with what it quotes; a draft that nobody has read yet changes as it is written."""
    signed = {str(signed.procedure) for person in records.people.values() for signed in person.signed}
    for procedure in records.procedures.values():
        page = pages.get(procedure.id)
        if page is not None and procedure.id in signed and is_listed(procedure, page):
            yield procedure, quoted_values(page.quotes, records)


def not_said(procedure: Procedure, unlisted: Sequence[Unlisted], records: Records) -> bool:
    """Whether a value of safety that it quotes has changed, and nobody wrote down why."""
    return any(procedure.id in one.procedures and matters(one.path, records) == SAFETY for one in unlisted)


def value_findings(records: Records, pages: Mapping[str, ProcedurePage], today: str) -> Iterator[Diagnostic]:
    """Values that changed and no change says so, texts whose values are not listed, changes of nothing."""
    for one in unlisted_values(records, pages):
        quoting = ", ".join(f"`{name}`" for name in one.procedures) or "no signed procedure"
        reads = "who signed it reads it again" if matters(one.path, records) == SAFETY else "nobody reads it again"
        was, now = (
            f'"{words}"' if words.startswith("text ") else words.replace("\u00a0", " ") for words in (one.was, one.now)
        )
        yield Diagnostic(
            "H742",
            one.place or Place(f"{records.folder}/{one.path.partition('.')[0]}.yml", 1, 1, 2),
            found=f"“{one.now}”",
            expected=f"“{one.was}”, or a change that says since when it is otherwise",
            help=f"add `- {{id: {_id(one.path, today)}, of: {one.path}, on: {today}, from: {was}, to: {now}, by: WHO, "
            f"why: WHY}}` to changes.yml; it is quoted by {quoting}, and {reads}",
            says=f"`{one.path}` differs from what was listed, and no change says so",
        )
    for procedure, values in _signed_and_listed(records, pages):
        last = procedure.revisions[-1]
        if values and (last.quoted is None or len(last.quoted) != len(values)):
            yield Diagnostic(
                "H743",
                last.text.place,
                found="nothing" if last.quotes is None else "another number of values",
                expected="the values that it quotes, one after the other",
                help=f"add `{listed_as(values)}` to this text in procedures.yml; a value that changes is then told of",
                says=f"what the text of `{procedure.id}` quotes is not listed",
            )
    for change in records.changes.values():
        if not change.gone and value_at(without_role(change.of, records), records) is None:
            yield Diagnostic(
                "H744",
                change.of.place,
                found=f"“{change.of}”",
                expected="a value of a record, as pages quote it",
                help="write the name that it has now, or `gone: yes` where it is there no more",
                says=f"the change `{change.id}` is of no value that is on file",
            )


def _id(path: str, today: str) -> str:
    return f"{path.removesuffix('.is').replace('.', '-').replace('_', '-')}-{today}"
