"""The steps of a job in the order in which they are worked.

Lines first, in the order that keeps the stencil; then black and washes; then colours from dark to light,
because a strong ink laid later dirties the pale one beside it; white highlights last.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.diagnostics import Diagnostic
from generator.planning.reckoning import Reckoned, Recorded, Value, plain, reckon, recorded, rectangle, with_added_share
from generator.planning.settings import NoSetting, Setting, setting_for
from generator.planning.skin import ScarReading, box_of
from generator.records.families import Records
from generator.records.inks import Ink
from generator.records.jobs import Colour, Job, Lines, Part
from generator.trade import clock, colour, layout, palette, shapes

LINES, BLACKS, COLOURS, WHITES = "lines", "black and washes", "colours", "white highlights"
_SECTIONS = {"black": BLACKS, "wash": BLACKS, "colour": COLOURS, "white": WHITES}


@dataclass(frozen=True, slots=True)
class Step:
    """One row of the order. `amount` is the length or the area worked, `times_over` the most for one spot.

    minutes_learned: the same minutes at the artist's own pace, where finished jobs have taught it.
    """

    section: str
    part: Part
    ink: Ink
    setting: Setting
    amount: Value
    minutes: Value
    times_over: Recorded
    minutes_learned: Reckoned | None = None


@dataclass(frozen=True, slots=True)
class Order:
    """The steps, and what stood in the way of setting some of them up."""

    steps: tuple[Step, ...]
    report: tuple[Diagnostic, ...]


def order_of_work(records: Records, job: Job, scars: tuple[ScarReading, ...]) -> Order:
    """All steps of the job, in order."""
    report: list[Diagnostic] = []
    steps: list[Step] = []
    for part, work in _all_work(job):
        try:
            steps.append(_step(records, job, part, work, scars))
        except NoSetting as refused:
            report.append(refused.diagnostic)
    if report:
        return Order((), tuple(report))
    lining = _lining_order(records, job)
    return Order(tuple(sorted(steps, key=lambda step: _rank(step, lining))), ())


def _all_work(job: Job) -> Iterator[tuple[Part, Lines | Colour]]:
    for part in job.parts:
        for lines in part.lines:
            yield part, lines
        for ink in part.colours:
            yield part, ink


def _lining_order(records: Records, job: Job) -> tuple[str, ...]:
    parts: dict[str, shapes.Shape] = {part.id: box_of(part) for part in job.parts}
    hand = records.people[job.artist].hand
    return layout.lining_order(parts, hand, 0.0, records.studio.limits.lining_row.low)


def _rank(step: Step, lining: tuple[str, ...]) -> tuple[object, ...]:
    """Where a step stands. Within one ink or one part the grouping changes as seldom as the order allows."""
    place = lining.index(step.part.id)
    if step.section == LINES:
        return 0, 0.0, 0.0, place, step.setting.grouping.id
    lightness = colour.lab(step.ink.swatch).lightness
    kind, shade = palette.laying_order(step.ink.kind, lightness)
    section = [LINES, BLACKS, COLOURS, WHITES].index(step.section)
    return section, float(kind), shade, place, step.setting.grouping.id


def _step(records: Records, job: Job, part: Part, work: Lines | Colour, scars: tuple[ScarReading, ...]) -> Step:
    setting = setting_for(records, job, part, work)
    crossed = [s for s in scars if part.id in s.crossed_by]
    technique = setting.technique
    rate = recorded(technique.clock_rate, f"techniques.{technique.id}.clock_rate", technique.source)
    amount: Value
    wanted = "lines" if isinstance(work, Lines) else "areas"
    if technique.works != wanted:
        raise NoSetting(Diagnostic(
            "J609", (work.technique or part.id).place, f"{technique.id} is measured in {technique.works}, this work in "
            f"{wanted}", technique.id, f"a technique for {wanted}", "choose another technique",
        ))  # fmt: skip
    if isinstance(work, Lines):
        section, ink = LINES, _lining_ink(records, part)
        amount = recorded(work.length, f"jobs.{job.id}.parts.{part.id}.lines")
        minutes: Value = reckon(clock.line_minutes, "duration", length=amount, clock_rate=rate)
    else:
        ink = records.inks[work.ink]
        section = _SECTIONS[ink.kind]
        amount = _area(records, job, part, work, ink)
        minutes = reckon(
            clock.area_minutes,
            "duration",
            area=amount,
            clock_rate=rate,
            # The clock rate is that of the finished area: going over again is inside it.
            times_over=plain(1, f"techniques.{technique.id}.clock_rate", technique.source),
        )
    slower = max((s.slower for s in crossed if s.slower is not None), key=lambda share: share.high, default=None)
    if slower is not None:
        minutes = reckon(with_added_share, "duration", value=minutes, share=slower)
    limits = [setting.times_over, *(s.times_over for s in crossed if s.times_over is not None)]
    times = min(limits, key=lambda limit: limit.low)
    return Step(section, part, ink, setting, amount, minutes, times)


def _lining_ink(records: Records, part: Part) -> Ink:
    """Lines are run in the part's own black, else in the studio's first one."""
    own = [records.inks[c.ink] for c in part.colours if records.inks[c.ink].kind == "black"]
    blacks = [ink for ink in records.inks.values() if ink.kind == "black"]
    if not (own or blacks):
        raise NoSetting(Diagnostic(
            "J610", part.id.place, "there is no black ink for the lines", "none", "an ink of kind `black`",
            "add one to inks.yml",
        ))  # fmt: skip
    return (own or blacks)[0]


def _area(records: Records, job: Job, part: Part, work: Colour, ink: Ink) -> Value:
    """The area the job gives; otherwise an equal share of what is filled, or highlighted, in the part's box."""
    where = f"jobs.{job.id}.parts.{part.id}"
    if work.area is not None:
        return recorded(work.area, f"{where}.colours.{ink.id}")
    width, height = (recorded(side, f"{where}.box") for side in part.box[2:])
    limit = "highlight" if ink.kind == "white" else "filled"
    share = recorded(getattr(records.studio.limits, limit), f"studio.limits.{limit}", records.studio.source)
    sharing = [
        c for c in part.colours if c.area is None and (records.inks[c.ink].kind == "white") == (ink.kind == "white")
    ]
    return reckon(
        share_of_box, "area", box=reckon(rectangle, "area", width=width, height=height), share=share,
        inks=plain(len(sharing), f"{where}.colours"),
    )  # fmt: skip


def share_of_box(box: float, share: float, inks: float) -> float:
    """box · share / 100 / inks: the filled share of a part's box, split evenly among its inks."""
    return box * share / 100 / inks
