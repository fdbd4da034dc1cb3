"""The rows of the order: the steps of the sitting at hand with their settings, and the breaks between them.

A dial has its machine beside it, because a number in volts belongs to one machine. What stays in the hand from row to
row is not said again; what changes has a wedge.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any, Literal

from generator.planning.computed import recorded
from generator.planning.plan import JobPlan
from generator.planning.working.steps import BLACKS, COLOURS, LINES, WHITES
from generator.records.families import Records

_SECTION_LABELS = {LINES: "Lines", BLACKS: "Black", COLOURS: "Colours", WHITES: "White"}

# Something is taken up, or it is in the hand already and is named again after a break or on a new side, or it stays.
Change = Literal["new", "again", "stays"]


@dataclass(frozen=True, slots=True)
class InHand:
    """What a row changes: machine and cartridge in the hand, and with them stroke, hang-out and dial.

    machine: whether it is another machine or another stroke; other: another machine. begins: whether a section begins
    with the row.
    """

    machine: Change = "new"
    other: bool = True
    stroke: bool = True
    needle: Change = "new"
    hang_out: bool = True
    dial: bool = True
    begins: bool = False


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One row of the order; a break has only `minutes`, and the step `within` which it comes, if it comes within one.

    `number` is that of the step in the whole piece. `scars` names what it passes over. `place` is that among all
    rows; `in_hand` is known once the sides are.
    """

    number: str
    section: str
    technique: str
    part: str
    needle: str
    machine: str
    stroke: str
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
    place: int = 0
    in_hand: InHand = InHand()

    @property
    def pause(self) -> str:
        """What the row of a break says."""
        within = f" within step {self.within}, when the time is up" if self.within else ""
        return f"Break{within}, {self.minutes} · gloves off, hands washed, fresh gloves"

    @property
    def settings(self) -> tuple[str, ...]:
        """What is worked and with what: another setting is another step to tick."""
        if self.is_break:
            return "break", str(self.place), self.pause
        parts = self.number, self.part, self.technique, self.needle, self.machine, self.stroke, self.dial
        return (*parts, self.hang_out, self.ink)


_BREAK = OrderRow("", "", "", "", "", "", "", "", "", "", "", "", "", True, "", True)


def order_rows(records: Records, plan: JobPlan, letters: dict[str, str], say: Any) -> tuple[OrderRow, ...]:
    """The steps of the day in order; a step that is parted says how much of it is worked today."""
    work = plan.work
    if work is None:
        return ()
    length = records.studio.limits.break_length
    pause = say(recorded(length))
    rows: list[OrderRow] = []
    for place, (stint, step) in enumerate(work.at_hand.numbered, 1):
        setting = step.setting
        some = "" if stint.share == 1 else f", {stint.share * 100:.0f}\u00a0% of it"
        rows.append(
            OrderRow(
                number=str(stint.number),
                section=_SECTION_LABELS[step.section],
                technique=f"{setting.technique.name}{some}",
                part=f"{letters[step.part.id]} {step.part.id}",
                needle=setting.grouping.label,
                machine=setting.machine.name,
                stroke=say(setting.stroke),
                dial=say(setting.dial),
                hang_out=say(setting.hang_out),
                ink=step.ink.name,
                swatch=step.ink.swatch,
                minutes=say(step.booked).replace("\u00a0min", ""),
                once=step.passes.low == 1,
                over="once" if step.passes.low == 1 else f"{step.passes.low:g}×",
                stretch=setting.technique.stretch,
                is_break=False,
                scars=", ".join(str(read.scar.id) for read in plan.scars if step.part.id in read.crossed_by),
            )
        )
        table = work.at_hand.timetable
        inside = replace(_BREAK, section=rows[-1].section, minutes=pause, within=str(stint.number))
        rows += [inside] * table.breaks_within.count(place)
        if place in table.breaks_after:
            rows.append(replace(_BREAK, section=rows[-1].section, minutes=pause))
    return tuple(replace(row, place=place) for place, row in enumerate(rows))


def in_hand(rows: Iterable[OrderRow], before: OrderRow | None = None) -> tuple[OrderRow, ...]:
    """The rows of one side with what each changes; `before`: the last step of the side before it.

    A machine with another cartridge in it is another one to take up, even where both cartridges are of one grouping.
    """
    found: list[OrderRow] = []
    named = False
    begun = before.section if before is not None else None
    for row in rows:
        begins, begun = row.section != begun, row.section
        if row.is_break:
            found.append(replace(row, in_hand=InHand(begins=begins)))
            named = False
            continue
        stays: Change = "stays" if named else "again"
        same_machine = before is not None and row.machine == before.machine
        same_stroke = same_machine and before is not None and row.stroke == before.stroke
        same_needle = same_machine and before is not None and row.needle == before.needle
        same_dial = same_stroke and before is not None and row.dial == before.dial
        same_out = same_needle and before is not None and row.hang_out == before.hang_out
        hand = InHand(
            machine=stays if same_stroke else "new",
            other=not same_machine,
            stroke=not same_stroke,
            needle=("again" if not same_out else stays) if same_needle else "new",
            hang_out=not same_out,
            dial=not same_dial,
            begins=begins,
        )
        found.append(replace(row, in_hand=hand))
        before, named = row, True
    return tuple(found)


def stretches(rows: Iterable[OrderRow]) -> tuple[tuple[str, str], ...]:
    """How the skin is stretched, once for each technique of these rows."""
    steps = [row for row in rows if not row.is_break]
    return tuple({row.technique.split(",")[0]: row.stretch for row in steps if row.stretch}.items())


def last_step(rows: Iterable[OrderRow], before: OrderRow | None = None) -> OrderRow | None:
    """The last row that is no break; `before` where there is none."""
    for row in rows:
        before = before if row.is_break else row
    return before
