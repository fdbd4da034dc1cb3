"""What happened on the day of a finished job, beside what was planned."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from markupsafe import Markup

from generator.planning.computed import total
from generator.planning.for_lists import StepSet
from generator.planning.plan import AtHand, JobPlan, Work
from generator.planning.supplies.tracing import INKS, OTHER, Thing, letters_of
from generator.planning.supplies.tray import bottle_of
from generator.planning.timing.healed import Healed, WorkedStep, healed_of
from generator.planning.working.steps import Step
from generator.press.words.addresses import lot_address
from generator.press.words.estimates import ends_shown
from generator.press.words.formatted import calculated
from generator.press.words.markup import link
from generator.quantities import Quantity, in_both, shown
from generator.records.afterwards import Cartridge, Finished, FollowUp, Reaction
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import dates

# What ended a sitting, in the words of the sheet.
_STOPPED = {
    "done": "done as planned",
    "time": "the time was up",
    "skin": "the skin had enough",
    "tap-out": "the client tapped out",
    "unwell": "ended early for the client’s sake",
}
NOT_ON_FILE = "not on file"
# How a part came out, in words.
CAME = {"held": "held", "spread": "spread: a blowout", "light": "too light", "gap": "a gap"}


# A row of a table: what it is of, and two cells.
RowOfThree = tuple[str, str, str]


class ReactionTo(NamedTuple):
    """A reaction to an ink: its name, the lot, where the recall sheet of that is, and whether it was reported."""

    ink: str
    lot: str
    recall: str
    reported: str


class Look(NamedTuple):
    """One look at the healed piece. parts: each as it came out, with its photo."""

    on: str
    seen: str
    photo: str
    parts: tuple[RowOfThree, ...]
    reactions: tuple[ReactionTo, ...]


class Afterwards(NamedTuple):
    """Everything that was written down afterwards, formatted.

    pairs: what is said of the whole sitting, each with its label. times: each technique as it was planned for this
    sitting, and by the clock. steps: those that were set otherwise: what was planned of them, and what was used.
    """

    pairs: tuple[tuple[str, str], ...]
    times: tuple[RowOfThree, ...]
    steps: tuple[RowOfThree, ...]
    healed: tuple[Look, ...]


@dataclass(frozen=True, slots=True)
class Wording:
    """The words with which a finished job is told: names by id, and what was planned, formatted.

    units: the studio's first system. lots: the inks that carry a lot, by its code: their names and anchors.
    planned: the whole visit; minutes: the plan of each technique. years: how long the record is kept at least.
    """

    units: str
    techniques: Mapping[str, str]
    groupings: Mapping[str, str]
    machines: Mapping[str, str]
    inks: Mapping[str, str]
    people: Mapping[str, str]
    lots: Mapping[str, tuple[tuple[str, str], ...]]
    planned: str
    minutes: Mapping[str, str]
    steps: tuple[StepSet, ...]
    years: int


def words_of(records: Records, work: Work | None) -> Wording:
    """The words of today's records."""
    today = None if work is None else work.at_hand
    lots: dict[str, tuple[tuple[str, str], ...]] = {}
    for ink in records.inks.values():
        for lot in ink.lots:
            lots[str(lot.lot)] = (*lots.get(str(lot.lot), ()), (ink.name, f"inks-{ink.id}"))
    minutes: dict[str, str] = {}
    for technique, steps in by_technique(records, () if today is None else today.steps):
        whole = total([step.minutes for step in steps], "duration")
        minutes[technique] = str(calculated(*ends_shown(whole), "duration", records))
    return Wording(
        records.studio.units,
        {str(t.id): t.name for t in records.techniques.values()},
        {str(g.id): g.label for g in records.groupings.values()},
        {str(m.id): m.name for m in records.machines.values()},
        {str(i.id): i.name for i in records.inks.values()},
        {str(p.id): p.name for p in records.people.values()},
        lots,
        NOT_ON_FILE if today is None else str(calculated(*ends_shown(today.timetable.whole), "duration", records)),
        minutes,
        () if today is None else steps_set(records, today),
        records.studio.limits.retention_years,
    )


def by_technique(records: Records, steps: Sequence[Step]) -> Iterator[tuple[str, list[Step]]]:
    """The techniques of steps in the order of the records, each with its own."""
    for technique in map(str, records.techniques):
        if own := [step for step in steps if step.setting.technique.id == technique]:
            yield technique, own


def steps_set(records: Records, today: AtHand) -> tuple[StepSet, ...]:
    """With what each step of the sitting is worked, as it is planned."""
    return tuple(
        StepSet(
            stint.number,
            str(step.setting.technique.id),
            str(step.part.id),
            str(step.setting.grouping.id),
            str(step.setting.machine.id),
            shown(step.setting.dial.low, step.setting.dial.high, step.setting.dial.kind, records.studio.units),
            str(step.ink.id),
            str(bottle_of(records, step.ink).id),
            f"{step.passes.low:g}",
        )
        for stint, step in today.numbered
    )


def afterwards_of(records: Records, plan: JobPlan) -> Afterwards | None:
    """In the words of today's records; None for a job that is not finished."""
    return afterwards_in(words_of(records, plan.work), plan.job)


def afterwards_in(words: Wording, job: Job) -> Afterwards | None:
    """What was written down of a job in the words that are given; None for one that is not finished.

    What they have no name for goes by its id.
    """
    done = job.finished
    if done is None:
        return None
    right = done.as_corrected
    return Afterwards(
        pairs=tuple(_pairs(words, done, right)),
        times=tuple(_times(words, done)),
        steps=tuple(_otherwise_set(words, right)),
        healed=tuple(_look(words, look) for look in sorted(job.healed, key=lambda look: look.on)),
    )


def _pairs(words: Wording, done: Finished, right: Finished) -> Iterator[tuple[str, str]]:
    """What is said once of a sitting. right: what happened, as it was corrected since."""
    yield "Finished on", done.on.isoformat()
    yield "Seat to door", f"{_measured(done.took, words)}, planned {words.planned}"
    yield "Why it stopped", NOT_ON_FILE if done.stopped is None else _STOPPED[done.stopped]
    yield "Where it was left", done.ended
    yield "Dressed with", done.dressing or NOT_ON_FILE
    lots = [(code, *(_inks_of(words, code) or ("on no bottle on file",))) for code in done.lots]
    yield "Inks", Markup("<br>").join(map(Markup(", ").join, lots))
    if done.cartridges:
        yield "Cartridges", "; ".join(_cartridge(words, used, done.on) for used in done.cartridges)
    for one in done.corrections:
        what, wrong, inks = "Lot", str(one.lot), _inks_of(words, one.right)
        if one.of is not None:
            what, wrong, inks = _way_in_words(words, one.of), dict(done.written).get(one.of, NOT_ON_FILE), []
        right_one = Markup(", ").join((f"{one.right} is right", *inks))
        by = words.people.get(one.by, str(one.by))
        said = Markup("{} is wrong, {}; {}, {}: {}").format(wrong, right_one, one.on.isoformat(), by, one.why)
        yield f"{what} corrected", said
    yield "Record kept", f"until {dates.retention_end(right.on, words.years).isoformat()} at least"


def _way_in_words(words: Wording, way: str) -> str:
    """What a correction is of, as the page calls it."""
    first, *rest = way.split(".")
    named = {**words.techniques, **words.groupings}
    what = {"on": "Finished on", "took": "Seat to door", "ended": "Where it was left", "worked": "Minutes"}
    said = [named.get(key, key) for key in rest]
    head = f"Step {said.pop(0)}" if first == "steps" else what.get(first, first.capitalize())
    return ", ".join([head, *said])


def _look(words: Wording, look: FollowUp) -> Look:
    parts = tuple(
        (f"{one.part}" + ("" if one.step is None else f", step {one.step}"), CAME[one.came], one.photo or NOT_ON_FILE)
        for one in look.parts
    )
    reactions = tuple(_reaction(words, one) for one in look.reactions)
    return Look(look.on.isoformat(), look.seen or "", look.photo or "", parts, reactions)


def _reaction(words: Wording, reaction: Reaction) -> ReactionTo:
    reported = "not reported yet" if reaction.reported is None else f"reported {reaction.reported.isoformat()}"
    # A lot that no ink has on file has a recall sheet too.
    known = any(at == f"inks-{reaction.ink}" for _, at in words.lots.get(str(reaction.lot), ()))
    thing = Thing(INKS, str(reaction.ink)) if known else Thing(OTHER, "")
    recall = lot_address(thing._replace(lot=letters_of(reaction.lot)))
    return ReactionTo(words.inks.get(reaction.ink, str(reaction.ink)), str(reaction.lot), recall, reported)


def _times(words: Wording, done: Finished) -> Iterator[RowOfThree]:
    """Every technique that was planned for the sitting or timed, in the order of the records."""
    for technique in dict.fromkeys((*words.techniques, *(str(worked.technique) for worked in done.worked))):
        took = [worked.took for worked in done.worked if worked.technique == technique]
        if technique in words.minutes or took:
            name = words.techniques.get(technique, technique)
            yield name, words.minutes.get(technique, "not planned"), _together(words, took)


def _otherwise_set(words: Wording, done: Finished) -> Iterator[RowOfThree]:
    """The steps that were worked with something else than planned."""
    planned = {step.number: step for step in words.steps}
    for one in sorted(done.steps, key=lambda one: one.number):
        step = planned.get(one.number, _NOT_PLANNED)
        names = (
            (words.groupings, step.grouping, one.needle),
            (words.machines, step.machine, one.machine),
            (words.inks, step.ink, one.ink),
        )
        pairs = [(called.get(was, was), called.get(used, used)) for called, was, used in names if used is not None]
        if one.dial is not None:
            dial = shown(one.dial.low, one.dial.high, one.dial.kind, words.units, one.dial.text)
            pairs.append((step.dial, dial))
        if one.passes is not None:
            pairs.append((step.passes and f"{step.passes}×", f"{one.passes}×"))
        if others := [(was or NOT_ON_FILE, used) for was, used in pairs if was != used]:
            was, used = (", ".join(each) for each in zip(*others, strict=True))
            yield f"Step {one.step}" + (f", {step.part}" if step.part else ""), was, used


# A step that the sheet does not have.
_NOT_PLANNED = StepSet(0, "", "", "", "", "", "", "", "")


def _together(words: Wording, took: list[Quantity]) -> str:
    if not took:
        return NOT_ON_FILE
    if len(took) == 1:
        return _measured(took[0], words)
    minutes = sum(time.low for time in took)
    return in_both(minutes, minutes, "duration", words.units)


def _measured(took: Quantity, words: Wording) -> str:
    return in_both(took.low, took.high, took.kind, words.units, took.text)


def _inks_of(words: Wording, code: str) -> list[Markup]:
    """The inks that carry a batch code, each leading to its row in the handbook."""
    return [link(f"../reference/inks.html#{anchor}", name) for name, anchor in words.lots.get(code, ())]


def _cartridge(words: Wording, used: Cartridge, on: datetime.date) -> str:
    """Lot, grouping and expiry, as a record of a job has to hold them."""
    if used.expires is None:
        until = "expiry not written down"
    else:
        until = f"{'expired on' if used.expires < on else 'good until'} {used.expires.isoformat()}"
    return f"{used.lot}, {words.groupings.get(used.grouping, used.grouping)}, {until}"


def healed_as_worked(job: Job, steps: Sequence[StepSet]) -> Healed | None:
    """How a finished job healed whose steps are known as they were planned; None for one that is not finished."""
    return healed_of(job, [WorkedStep(step.number, step.part, step.technique, step.grouping) for step in steps])
