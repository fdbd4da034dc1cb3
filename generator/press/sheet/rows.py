"""The rows of the order: the steps of the sitting at hand with their settings, and the breaks between them.

A dial has its machine beside it, because a number in volts belongs to one machine. What stays in the hand from row to
row is not said again; what changes has a wedge. What is not the studio's usual setting has a mark behind it, which
reads without colour.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from generator.planning.computed import Value, recorded
from generator.planning.plan import Work
from generator.planning.timing.zones import ZoneStep
from generator.planning.working.settings import Setting
from generator.planning.working.steps import AREA, BLACKS, COLOURS, LINES, NARROWEST, WHITES, Step
from generator.press.sheet.number_links import Labelled
from generator.records.families import Records
from generator.records.people import BY_PART

# How a value is put into words: in the studio's first system of units, or in both.
Say = Callable[[Value], str]

OTHER = "*"
_SECTION_LABELS = {LINES: "Lines", BLACKS: "Black", COLOURS: "Colours", WHITES: "White"}
_DECIDED = {"job": ", as the job says", "artist": ", the artist’s habit", "studio": ""}


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

    `number` is that of the step in the whole piece. `scars` names each scar that lies under it, with the passes there.
    `rest` says where its part rests; `note` is what the job says of its part. `place` is that among all rows; `in_hand`
    is known once the sides are.
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
    rest: str = ""
    note: str = ""
    place: int = 0
    in_hand: InHand = InHand()
    technique_id: str = ""
    technique_name: str = ""

    @property
    def pause(self) -> str:
        """What the row of a break says."""
        within = f" within step {self.within}, before the time is up" if self.within else ""
        return f"Break{within}, {self.minutes} · gloves off, hands washed, fresh gloves"

    @property
    def scarred(self) -> str:
        """What is written of its scars beside the hatch: nothing where there is one with the passes of the row."""
        return "" if len(self.scars.split("\u00a0")) == 2 else self.scars

    @property
    def settings(self) -> tuple[str, ...]:
        """What is worked and with what: another setting is another step to tick."""
        if self.is_break:
            return "break", str(self.place), self.pause
        parts = self.number, self.part, self.technique, self.needle, self.machine, self.stroke, self.dial
        return (*parts, self.hang_out, self.ink)


_BREAK = OrderRow("", "", "", "", "", "", "", "", "", "", "", "", "", True, "", True)


def order_rows(records: Records, work: Work, letters: dict[str, str], say: Say) -> tuple[OrderRow, ...]:
    """The steps of the day in order; a step that is parted says how much of it is worked today."""

    def section(step: Step) -> str:
        """What the rows are kept together by: in an order by part, the letter of the part."""
        if work.order.by == BY_PART and step.section in (BLACKS, COLOURS):
            return letters[step.part.id]
        return _SECTION_LABELS[step.section]

    pause = say(recorded(records.studio.limits.break_length))
    rows: list[OrderRow] = []
    noted: set[str] = set()
    for (stint, step), zone in zip(work.at_hand.numbered, work.at_hand.zones, strict=True):
        setting = step.setting
        where = f", {step.places}" if step.places else ""
        some = "" if stint.share == 1 else f", {stint.share * 100:.0f}\u00a0% of it"
        rows.append(
            OrderRow(
                number=str(stint.number),
                section=section(step),
                technique=f"{setting.technique.name}{where}{some}{', area assumed' if AREA in step.assumed else ''}",
                technique_id=str(setting.technique.id),
                technique_name=setting.technique.name,
                part=f"{letters[step.part.id]} {step.part.id}",
                needle=setting.grouping.label,
                machine=_marked(setting, "machine", setting.machine.name),
                stroke=_marked(setting, "stroke", say(setting.stroke)),
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
                rest=_rest(zone, letters[step.part.id], say),
                note="" if step.part.id in noted else step.part.note or "",
            )
        )
        noted.add(step.part.id)
        table = work.at_hand.timetable
        inside = replace(_BREAK, section=rows[-1].section, minutes=pause, within=str(stint.number))
        rows += [inside] * table.breaks_within.count(stint.number)
        if stint.number in table.breaks_after:
            rows.append(replace(_BREAK, section=rows[-1].section, minutes=pause))
    return tuple(replace(row, place=place) for place, row in enumerate(rows))


def _rest(zone: ZoneStep, letter: str, say: Say) -> str:
    """Where the part rests: before the step, or after how many minutes of it; nothing where it need not."""
    if not zone.rests:
        return ""
    after = [say(minutes) for minutes in zone.rests if minutes.low]
    when = [*(["first"] if not zone.rests[0].low else []), *([f"after {' and '.join(after)} of it"] if after else [])]
    return f"rest {letter} here {' and '.join(when)}"


def rests_in(work: Work, say: Say) -> Iterator[Labelled]:
    """How long a part rests where a row says so."""
    resting = [zone for zone in work.at_hand.zones if zone.rests]
    if resting:
        meanwhile = "another part meanwhile"
        if work.at_hand.timetable.rests.high:
            meanwhile = f"{meanwhile}; where none is left, it is in the time booked"
        yield Labelled("Rest:", f"{say(resting[0].rest)} at least, {meanwhile}")


def zones_in_words(work: Work, letters: dict[str, str], say: Say) -> tuple[Labelled, ...]:
    """How long each part is worked along the order, and how long it has rested when it comes again."""
    told: dict[str, list[str]] = {}
    for zone in work.at_hand.zones:
        rested = "" if zone.rested is None or not zone.rested.low else f"rested {say(zone.rested)}, "
        since = f" after its {'last ' if len(zone.rests) > 1 else ''}rest" if zone.rests else ""
        told.setdefault(zone.part, []).append(f"{rested}step {zone.step} to {say(zone.worked)}{since}")
    return tuple(Labelled(f"{letters[part]} {part}", "; ".join(steps)) for part, steps in told.items())


def assumed_in(work: Work) -> Iterator[Labelled]:
    """What the job does not say, so that a default was taken, with the rows that rest on it."""
    said = [
        f"{what} of {'row' if len(rows) == 1 else 'rows'} {', '.join(rows)} ({taken})"
        for what, key, taken in (
            ("area", AREA, "a share of its part"),
            ("narrowest place", NARROWEST, "by the shape of the part; rounds are counted on the tray"),
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
    # Counted over the piece, and a sheet has the rows of one sitting.
    whole = ", over all sittings" if len(work.sittings) > 1 else ""
    decided = f"Order {chosen.by}{_DECIDED[chosen.decided_by]}{whole}:"
    yield Labelled(
        decided,
        f"cartridge changed {here.cartridges.low:g}×, ink {here.inks.low:g}×; "
        f"{chosen.other} {there.cartridges.low:g}× and {there.inks.low:g}×",
    )


def in_hand(rows: Iterable[OrderRow], before: OrderRow | None = None) -> tuple[OrderRow, ...]:
    """The rows of one side with what each changes; `before`: the last step of the side before it.

    A machine with another cartridge in it is another one to take up, even where both cartridges are of one grouping.
    """
    found: list[OrderRow] = []
    named = False
    begun = before.section if before is not None else None
    last = before or _BREAK
    for row in rows:
        begins, begun = row.section != begun, row.section
        if row.is_break:
            found.append(replace(row, in_hand=InHand(begins=begins)))
            named = False
            continue
        other = not _same(row.machine, last.machine)
        stroke = other or not _same(row.stroke, last.stroke)
        cartridge = other or row.needle != last.needle
        hang_out = cartridge or not _same(row.hang_out, last.hang_out)
        dial = stroke or not _same(row.dial, last.dial)
        # A mark that comes or goes is said, and is no change in the hand.
        worn = named and (row.machine, row.stroke) == (last.machine, last.stroke)
        held = named and row.hang_out == last.hang_out
        hand = InHand(
            machine="new" if stroke else "stays" if worn else "again",
            other=other,
            stroke=stroke,
            needle="new" if cartridge else "stays" if held else "again",
            hang_out=hang_out,
            dial=dial,
            begins=begins,
        )
        found.append(replace(row, in_hand=hand))
        last, named = row, True
    return tuple(found)


def stretches(rows: Iterable[OrderRow]) -> tuple[tuple[str, str], ...]:
    """How the skin is stretched, once for each technique of these rows."""
    steps = [row for row in rows if not row.is_break]
    # Rows that were kept before they had the name alone hold it before their first comma.
    return tuple({r.technique_name or r.technique.split(",")[0]: r.stretch for r in steps if r.stretch}.items())


def _same(setting: str, before: str) -> bool:
    return setting.rstrip(OTHER) == before.rstrip(OTHER)
