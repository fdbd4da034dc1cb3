"""Which jobs a lot went into: what a recall has to know.

The jobs are streamed; of each only a few words stay behind. Lots are compared by their letters and digits alone,
because they are copied by hand; two lots that differ in nothing else are taken for one, so that a recall asks one
client too many and never one too few. What nobody wrote down is listed as not known, and asked.

A lot belongs to the ink that has it on file. What no ink has is listed by itself, and the inks of that job count as
not written down. Lots of cartridges are written by grouping, beside those of the inks.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple, TypeVar

from generator.diagnostics import Diagnostic
from generator.near_miss import nearest
from generator.planning.supplies.tray import in_date
from generator.records.families import Records
from generator.records.jobs import Job

INKS, GROUPINGS, OTHER = "inks", "groupings", "other"

# A lot as it was written, with its place or without.
LotText = TypeVar("LotText", bound=str)


@dataclass(frozen=True, slots=True)
class JobLots:
    """What one job leaves behind. `lots`: what was written down of a finished one.

    inks: the bottles its colours come from; groupings: what it is worked with; cartridges: their lots by grouping.
    reactions: inks with their lots to which there was one.
    """

    job: str
    client: str
    date: datetime.date
    finished: bool
    lots: tuple[str, ...]
    cartridges: tuple[tuple[str, str], ...]
    inks: tuple[str, ...]
    groupings: tuple[str, ...]
    reactions: tuple[tuple[str, str], ...] = ()


class Thing(NamedTuple):
    """What may be recalled: one lot of an ink or of a grouping; or all of an ink or grouping, where `lot` is empty.

    lot: letters and digits alone. A lot that belongs to no ink on file has no `entry`.
    """

    family: str
    entry: str
    lot: str = ""


@dataclass(slots=True)
class Trace:
    """One thing and its jobs.

    spelled: how the lot was written. used: finished with it; planned: not finished and laid out with it; unsure:
    finished with the ink or grouping, and no lot of it written down.
    """

    thing: Thing
    spelled: dict[str, None]
    used: list[JobLots]
    planned: list[JobLots]
    unsure: list[JobLots]

    @property
    def reactions(self) -> int:
        """How many finished jobs have a reaction on file to this lot, or to this ink where all of it is meant."""
        return sum(any(self._is_of(ink, lot) for ink, lot in job.reactions) for job in self.used)

    def _is_of(self, ink: str, lot: str) -> bool:
        thing = self.thing
        return letters_of(lot) == thing.lot if thing.lot else (INKS, ink) == (thing.family, thing.entry)


def letters_of(lot: str) -> str:
    """A lot as it is compared: its letters and digits."""
    return "".join(character for character in lot.casefold() if character.isalnum()) or lot


def traces(records: Records, jobs: Iterable[JobLots]) -> list[Trace]:
    """Every ink and grouping, and every lot on file or in a finished job, each with its jobs in order of their days."""
    found: dict[Thing, Trace] = {}

    def trace(thing: Thing, spelled: str = "") -> Trace:
        made = found.setdefault(thing, Trace(thing, {}, [], [], []))
        if spelled:
            made.spelled[spelled] = None
        return made

    on_file: dict[str, list[str]] = {}
    for ink in records.inks.values():
        if ink.mixed is None:
            trace(Thing(INKS, ink.id))
        for lot in ink.lots:
            trace(Thing(INKS, ink.id, letters_of(lot.lot)), lot.lot)
            on_file.setdefault(letters_of(lot.lot), []).append(ink.id)
    for grouping in records.groupings.values():
        trace(Thing(GROUPINGS, grouping.id))
    for job in sorted(jobs, key=lambda job: (job.date, job.job)):
        if job.finished:
            written = _written_down(job, on_file)
            for thing, spelled in written.items():
                trace(thing, spelled).used.append(job)
            # An ink of which a lot was written down was used, although no part names it.
            of_lots = dict.fromkeys(thing._replace(lot="") for thing in written if thing.entry)
            for thing in dict.fromkeys((*of_lots, *_worked_with(job))):
                trace(thing).used.append(job)
                if thing not in of_lots:
                    trace(thing).unsure.append(job)
        else:
            for thing in (*_worked_with(job), *_laid_out(records, job)):
                trace(thing).planned.append(job)
    return list(found.values())


def _written_down(job: JobLots, on_file: dict[str, list[str]]) -> dict[Thing, str]:
    """The lots of a finished job as they were first written.

    One that two inks share counts for those of them that the job used.
    """
    found: dict[Thing, str] = {}
    for lot in job.lots:
        letters = letters_of(lot)
        inks = on_file.get(letters, [])
        own = [ink for ink in inks if ink in job.inks] or inks
        for thing in [Thing(INKS, ink, letters) for ink in own] or [Thing(OTHER, "", letters)]:
            found.setdefault(thing, lot)
    for grouping, lot in job.cartridges:
        found.setdefault(Thing(GROUPINGS, grouping, letters_of(lot)), lot)
    return found


def _worked_with(job: JobLots) -> Iterator[Thing]:
    yield from (Thing(INKS, ink) for ink in job.inks)
    yield from (Thing(GROUPINGS, grouping) for grouping in job.groupings)


def _laid_out(records: Records, job: JobLots) -> Iterator[Thing]:
    """The bottles that would be poured from: those in date on the day."""
    for ink in job.inks:
        for letters in dict.fromkeys(letters_of(lot.lot) for lot in in_date(records.inks[ink], job.date)):
            yield Thing(INKS, ink, letters)


def not_on_file(records: Records, lots: Iterable[LotText]) -> list[LotText]:
    """Those of the lots that no ink has, as they were written."""
    known = {letters_of(lot.lot) for ink in records.inks.values() for lot in ink.lots}
    return [lot for lot in lots if letters_of(lot) not in known]


def unreported_reactions(records: Records, job: Job) -> Iterator[Diagnostic]:
    """Reactions to an ink that nobody has reported yet."""
    to = records.studio.reactions_to
    for reaction in (one for look in job.healed for one in look.reactions):
        if reaction.reported is None:
            yield Diagnostic(
                "J640",
                reaction.lot.place,
                found="no day on which it was reported",
                expected="`reported`",
                help=f"{_report(to)}; then write `reported` with the day, and open the recall sheet of the lot",
                says=f"a reaction to `{reaction.ink}`, lot {reaction.lot}, is on file and not reported",
            )


def _report(to: str | None) -> str:
    if to is None:
        return "ask the health authority to whom it is reported, and write it into studio.yml as `reactions_to`"
    return f"report it: {to[0].lower()}{to[1:].rstrip('.')}"


def unknown_lots(records: Records, job: Job) -> Iterator[Diagnostic]:
    """Lots of a finished job that no ink has on file: a recall of the ink would not find them."""
    if job.finished is None:
        return
    on_file = [lot.lot for ink in records.inks.values() for lot in ink.lots]
    for lot in not_on_file(records, job.finished.lots_used):
        near = nearest(lot, on_file)
        yield Diagnostic(
            "J622",
            lot.place,
            found=f"“{lot}”",
            expected="a lot of an ink in inks.yml",
            help=(
                "the job is finished and stays as it was written: look at the label, and write the lot at its ink, "
                "with `until` where the bottle is empty, so that a recall finds it"
                + (f"; the nearest on file is `{near}`" if near else "")
            ),
            says=f"no ink has a lot `{lot}` on file",
        )


def matching(found: Iterable[Trace], lot: str) -> list[Trace]:
    """The traces of one lot, whatever it is a lot of."""
    return [trace for trace in found if trace.thing.lot and trace.thing.lot == letters_of(lot)]
