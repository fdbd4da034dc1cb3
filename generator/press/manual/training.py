"""Who has been signed off for which procedure, and what has to be read again since its text changed in meaning.

What changed in wording alone is not read again; a text that nobody listed counts as changed in meaning.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal, NamedTuple

from generator.press.manual.procedures import ProcedurePage, is_listed
from generator.records.families import Records
from generator.records.people import Person, Signed
from generator.records.procedures import Procedure, Revision, changed_since

State = Literal["read again", "not yet", "read"]


class ReadText(NamedTuple):
    """One person and one procedure. `signed` is the signature that counts; `since` are the changes after it.

    unlisted: the page reads otherwise than the last text that is listed, so that nobody can say what changed.
    """

    procedure: Procedure
    state: State
    signed: Signed | None = None
    since: tuple[Revision, ...] = ()
    unlisted: bool = False


def readings(person: Person, records: Records, pages: Mapping[str, ProcedurePage]) -> list[ReadText]:
    """Every procedure that the person's role reads, and those that were signed beyond it, in the order of the day."""
    by_procedure: dict[str, list[Signed]] = {}
    for signed in person.signed:
        by_procedure.setdefault(signed.procedure, []).append(signed)
    return [
        reading(procedure, by_procedure.get(procedure.id, ()), pages.get(procedure.id))
        for procedure in records.procedures.values()
        if person.role in procedure.read_by or procedure.id in by_procedure
    ]


def reading(procedure: Procedure, signatures: Iterable[Signed], page: ProcedurePage | None) -> ReadText:
    """How things stand. A text that nobody listed may have changed in meaning, so it is read again."""
    found = sorted(signatures, key=lambda signed: (-len(changed_since(procedure, signed.text)), signed.on))
    if not found:
        return ReadText(procedure, "not yet")
    if page is not None:
        same = [signed for signed in found if signed.text == page.text]
        if same:
            return ReadText(procedure, "read", same[-1])
    signed = found[-1]
    since = changed_since(procedure, signed.text)
    unlisted = page is not None and not is_listed(procedure, page)
    return ReadText(procedure, "read again" if since or unlisted else "read", signed, since, unlisted)
