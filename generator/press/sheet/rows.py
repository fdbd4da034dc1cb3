"""The rows of the order: the steps of the sitting at hand with their settings, and the breaks between them.

A dial has its machine beside it, because a number in volts belongs to one machine. What is not the studio's usual
setting has a mark behind it, which reads without colour.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from generator.planning.computed import recorded
from generator.planning.plan import Work
from generator.planning.working.settings import Setting
from generator.planning.working.steps import AREA, BLACKS, COLOURS, LINES, NARROWEST, WHITES, Step
from generator.press.sheet.number_links import Labelled
from generator.records.families import Records
from generator.records.people import BY_PART

OTHER = "*"
_SECTION_LABELS = {LINES: "Lines", BLACKS: "Black", COLOURS: "Colours", WHITES: "White"}
_DECIDED = {"job": ", as the job says", "artist": ", the artist’s habit", "studio": ""}


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One row of the order; a break has only `minutes`, and the step `within` which it comes, if it comes within one.

    `number` is that of the step in the whole piece. `scars` names each scar that lies under it, with the passes there.

    `span` is the number of rows of the section that begins here, else 0; it is known once the sides are.
    """

    number: str
    section: str
    span: int
    technique: str
    part: str
    needle: str
    machine: str
    dial: str
    hang_out: str
    ink: str
    swatch: str
    minutes: str
    over: str
    once: bool
    stretch: str
    is_break: bool
    within: str = ""
    scars: str = ""

    @property
    def pause(self) -> str:
        """What the row of a break says."""
        within = f" within step {self.within}, when the time is up" if self.within else ""
        return f"Break{within}, {self.minutes} · gloves off, hands washed, fresh gloves"


_BREAK = OrderRow("", "", 0, "", "", "", "", "", "", "", "", "", "", True, "", True)


def order_rows(records: Records, work: Work, letters: dict[str, str], say: Any) -> tuple[OrderRow, ...]:
    """The steps of the day in order; a step that is parted says how much of it is worked today."""

    def section(step: Step) -> str:
        """What the rows are kept together by: in an order by part, the letter of the part."""
        if work.order.by == BY_PART and step.section in (BLACKS, COLOURS):
            return letters[step.part.id]
        return _SECTION_LABELS[step.section]

    length = records.studio.limits.break_length
    pause = say(recorded(length))
    rows: list[OrderRow] = []
    for place, (stint, step) in enumerate(work.at_hand.numbered, 1):
        setting = step.setting
        where = f", {step.places}" if step.places else ""
        some = "" if stint.share == 1 else f", {stint.share * 100:.0f}\u00a0% of it"
        rows.append(
            OrderRow(
                number=str(stint.number),
                section=section(step),
                span=0,
                technique=f"{setting.technique.name}{where}{some}{', area assumed' if AREA in step.assumed else ''}",
                part=f"{letters[step.part.id]} {step.part.id}",
                needle=setting.grouping.label,
                machine=f"{_marked(setting, 'machine', setting.machine.name)}, "
                f"{_marked(setting, 'stroke', say(setting.stroke))}",
                dial=_marked(setting, "dial", say(setting.dial)),
                hang_out=_marked(setting, "hang-out", say(setting.hang_out)),
                ink=step.ink.name,
                swatch=step.ink.swatch,
                minutes=say(step.booked).replace("\u00a0min", ""),
                once=step.passes.low == 1,
                over=_times(step.passes.low),
                scars=over_scars_in_words(step),
                stretch=setting.technique.stretch,
                is_break=False,
            )
        )
        table = work.at_hand.timetable
        inside = replace(_BREAK, section=rows[-1].section, minutes=pause, within=str(stint.number))
        rows += [inside] * table.breaks_within.count(place)
        if place in table.breaks_after:
            rows.append(replace(_BREAK, section=rows[-1].section, minutes=pause))
    return tuple(rows)


def legend_of_marks(work: Work) -> str:
    """What the mark means, where a step of today has one."""
    marked = any(step.setting.other for step in work.at_hand.steps)
    return f"{OTHER} not the studio’s usual" if marked else ""


def assumed_in(work: Work) -> Iterator[Labelled]:
    """What the job does not say, so that a default was taken, with the rows that rest on it."""
    said = [
        f"{what} of {'row' if len(rows) == 1 else 'rows'} {', '.join(rows)} ({taken})"
        for what, key, taken in (
            ("area", AREA, "a share of its part"),
            ("narrowest place", NARROWEST, "by the shape of the part"),
        )
        if (rows := [str(stint.number) for stint, step in work.at_hand.numbered if key in step.assumed])
    ]
    if said:
        yield Labelled("Assumed:", "; ".join(said))


def _marked(setting: Setting, what: str, text: str) -> str:
    return f"{text}{OTHER}" if what in setting.other else text


def over_scars_in_words(step: Step) -> str:
    """Each scar that lies under a step, with how often its skin is gone over where that is less: “over s1 once”."""
    said = []
    for over in step.over:
        fewer = over.passes is not None and over.passes.low < step.passes.low
        said.append(f"over\u00a0{over.scar}" + (f"\u00a0{_times(over.passes.low)}" if fewer and over.passes else ""))
    return ", ".join(said)


def _times(passes: float) -> str:
    return "once" if passes == 1 else f"{passes:g}×"


def order_chosen(work: Work) -> Iterator[Labelled]:
    """By part or by ink, and what is changed more or less often than in the other order; nothing without areas."""
    chosen = work.order
    if not any(step.section in (BLACKS, COLOURS) for step in work.steps):
        return
    here, there = chosen.changes, chosen.other_changes
    cartridges, inks = (
        f"{one.low:g} {'change' if one.low == 1 else 'changes'} of {what} ({_more(one.low - other.low)})"
        for what, one, other in (
            ("cartridge", here.cartridges, there.cartridges),
            ("ink", here.inks, there.inks),
        )
    )
    decided = f"Order {chosen.by}{_DECIDED[chosen.decided_by]}:"
    yield Labelled(decided, f"{cartridges}, {inks} against {chosen.other}")


def _more(difference: float) -> str:
    return f"{difference:+g}".replace("-", "−") if difference else "±0"
