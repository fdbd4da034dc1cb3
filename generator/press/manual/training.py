"""Who has been signed off for which procedure, and what has to be read again since its text changed in meaning.

What changed in wording alone is not read again; a text that nobody listed counts as changed in meaning.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal, NamedTuple

from generator.press.manual.changed_values import changes_on, matters, not_said, unlisted_values
from generator.press.manual.procedures import ProcedurePage, is_listed
from generator.records.decided import SAFETY, Change
from generator.records.ended import is_over
from generator.records.families import Records
from generator.records.people import Signed
from generator.records.procedures import Procedure, Revision, changed_since

State = Literal["read again", "not yet", "read"]


class ReadText(NamedTuple):
    """One person and one procedure. `signed` is the signature that counts; `since` are the changes after it.

    unlisted: the page reads otherwise than the last text that is listed, so that nobody can say what changed. values:
    the changes of values that it quotes, after the signature; not_said: one that nobody wrote down.
    """

    procedure: Procedure
    state: State
    signed: Signed | None = None
    since: tuple[Revision, ...] = ()
    unlisted: bool = False
    values: tuple[Change, ...] = ()
    not_said: bool = False


def readings_of_all(
    records: Records, pages: Mapping[str, ProcedurePage], as_of: datetime.date
) -> dict[str, list[ReadText]]:
    """By everybody who is here on the day: the procedures that the role reads, and those that were signed beyond it."""
    unlisted = unlisted_values(records, pages)
    found: dict[str, list[ReadText]] = {}
    for name, person in records.people.items():
        if is_over(person.until, as_of):
            continue
        found[name] = []
        for procedure in records.procedures.values():
            signed = [one for one in person.signed if one.procedure == procedure.id]
            if signed or person.role in procedure.read_by:
                page = pages.get(procedure.id)
                changes = () if page is None else changes_on(page, records)
                unsaid = not_said(procedure, unlisted, records)
                found[name].append(_with_values(reading(procedure, signed, page), changes, unsaid, records))
    return found


def _with_values(read: ReadText, changes: Sequence[Change], unsaid: bool, records: Records) -> ReadText:
    """The same after what it quotes has changed: read again where the value is one of safety."""
    if read.signed is None:
        return read
    later = tuple(change for change in changes if change.on > read.signed.on)
    again = unsaid or any(matters(change.of, records) == SAFETY for change in later)
    return read._replace(state="read again" if again else read.state, values=later, not_said=unsaid)


def reading(procedure: Procedure, signatures: Iterable[Signed], page: ProcedurePage | None) -> ReadText:
    """How things stand. A text that nobody listed may have changed in meaning, so it is read again."""
    found = sorted(signatures, key=lambda signed: (-len(changed_since(procedure, signed.text)), signed.on))
    if not found:
        return ReadText(procedure, "not yet")
    same = [] if page is None else [signed for signed in found if signed.text in (page.text, page.before)]
    if same:
        return ReadText(procedure, "read", same[-1])
    signed = found[-1]
    since = changed_since(procedure, signed.text)
    unlisted = page is not None and not is_listed(procedure, page)
    return ReadText(procedure, "read again" if since or unlisted else "read", signed, since, unlisted)
