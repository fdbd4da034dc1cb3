"""Everything that one job's sheet says.

Front: may it go ahead and why, skin not to touch, the map, one table of order and settings. Back: three pause
points, the tray, what is written down, when to come back. A job that may not go ahead has its reasons and what
would clear them, and no working steps. Everything is formatted here, once; `sides` divides it and
the template only places it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from generator.planning.drawn import shape_of
from generator.planning.plan import JobPlan, Work
from generator.planning.reckoning import Value, recorded, sources_of
from generator.planning.work import BLACKS, COLOURS, LINES, WHITES
from generator.press.job_map import job_map
from generator.press.map_told import geometry_of, laid_over, part_letters
from generator.press.sources import short_citation
from generator.quantities import in_both, shown
from generator.records.families import Records
from generator.records.hygiene import PAUSES


@dataclass(frozen=True, slots=True)
class Reason:
    """One finding as it is printed; `sources` are numbers of the list on the back."""

    level: str
    reason: str
    remedy: str
    source: int


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the order; a break has only `minutes`.

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
    stretch: str
    is_break: bool


@dataclass(frozen=True, slots=True)
class Pause:
    """One pause point with its tick boxes."""

    title: str
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Ink:
    """One ink with what is poured; `lots` are the bottles in date."""

    name: str
    swatch: str
    amount: str
    caps: str
    lots: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pair:
    """A label and what stands beside it."""

    label: str
    value: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """Everything that is printed, formatted."""

    job: str
    studio: str
    paper: str
    title: str
    head: tuple[Pair, ...]
    verdict: str
    verdict_level: str
    meaning: str
    goes_ahead: bool
    reasons: tuple[Reason, ...]
    notes: tuple[Reason, ...]
    hands_off: tuple[Pair, ...]
    map: str
    geometry: tuple[tuple[object, ...], ...]
    rows: tuple[Row, ...]
    times: tuple[Pair, ...]
    stop_signs: tuple[str, ...]
    pauses: tuple[Pause, ...]
    inks: tuple[Ink, ...]
    tray: tuple[Pair, ...]
    swaps: tuple[str, ...]
    mixes: tuple[Pair, ...]
    write_down: tuple[str, ...]
    come_back: tuple[Pair, ...]
    sources: tuple[str, ...]


def sheet_of(records: Records, plan: JobPlan, both_units: bool = False) -> Sheet:
    """The sheet of a plan. Only the studio's first system is shown unless both are asked for."""
    system = records.studio.units

    def say(value: Value) -> str:
        if value.kind == "number":
            return f"{value.low:g}" if value.low == value.high else f"{value.low:g}–{value.high:g}"
        show = in_both if both_units else shown
        return show(value.low, value.high, value.kind, system)

    numbered = _Numbered()
    reasons = tuple(
        Reason(f.level, f.reason, f.remedy, numbered.number(f.source)) for f in plan.findings if f.level != "note"
    )
    work = plan.work
    notes = tuple(Reason("note", f.reason, f.remedy, numbered.number(f.source)) for f in plan.findings
                  if f.level == "note" and work is not None)  # fmt: skip
    if work is not None:
        for step in work.steps:
            for source in sorted(sources_of(step.minutes) | sources_of(step.setting.speed)):
                numbered.number(source)
    job, studio = plan.job, records.studio
    return Sheet(
        job=job.id,
        studio=studio.name,
        paper=studio.paper,
        title=job.title,
        head=_head(plan, say),
        verdict=plan.verdict.heading,
        verdict_level=plan.verdict.level.replace(" ", "-"),
        meaning=plan.verdict.meaning,
        goes_ahead=work is not None,
        reasons=reasons,
        notes=notes,
        hands_off=_hands_off(plan),
        geometry=geometry_of(plan, studio.limits.mole_clearance),
        map=str(job_map(plan, studio.limits.mole_clearance, first_lined(work))),
        rows=_rows(records, work, part_letters(job), say) if work else (),
        times=_times(work, plan.artist.name, say) if work else (),
        stop_signs=tuple(studio.stop_signs) if work else (),
        pauses=_pauses(records) if work else (),
        inks=_inks(work, say) if work else (),
        tray=_tray(work, say) if work else (),
        swaps=tuple(f"{c.supply.name}: {c.instead}" for c in work.tray.supplies if c.instead) if work else (),
        mixes=_mixes(records, work) if work else (),
        write_down=tuple(studio.record_afterwards) if work else (),
        come_back=_come_back(work) if work else (),
        sources=tuple(short_citation(records.sources[s]) for s in numbered.ids if s in records.sources),
    )  # fmt: skip


def first_lined(work: Work | None) -> str | None:
    """The part on which the lining starts."""
    return next((step.part.id for step in work.steps if step.section == LINES), None) if work else None


class _Numbered:
    """Source ids in the order in which they are first used."""

    def __init__(self) -> None:
        self.ids: list[str] = []

    def number(self, source: str) -> int:
        if source not in self.ids:
            self.ids.append(source)
        return self.ids.index(source) + 1


def _head(plan: JobPlan, say: Any) -> tuple[Pair, ...]:
    job, place = plan.job, plan.placement
    side = "" if job.side == "middle" else f", {job.side}"
    size = f"{say(place.width)} × {say(place.height)}"
    pairs = [
        Pair("Client", job.client),
        Pair("Artist", plan.artist.name),
        Pair("Day", f"{job.date.isoformat()}, {job.start:%H:%M}"),
        Pair("Place", f"{plan.site.name}{side}"),
        Pair("Pose", job.pose or plan.site.pose),
        Pair("Size", size),
    ]
    if place.wrap is not None and place.seen is not None:
        pairs.append(Pair("Wraps", f"{say(place.wrap)}, {place.seen.low * 100:.0f}\u00a0% seen at once"))
    return tuple(pairs)


def _hands_off(plan: JobPlan) -> tuple[Pair, ...]:
    """Allergies and skin that is not touched: the consequence, never a cause or a health answer."""
    job = plan.job
    pairs = []
    if job.allergies:
        pairs.append(Pair("Allergies", ", ".join(job.allergies)))
    elif job.allergies is not None:
        pairs.append(Pair("Allergies", "none named"))
    for scar in plan.scars:
        crossed = f"worked over by {', '.join(scar.crossed_by)}" if scar.crossed_by else "stays free"
        pairs.append(Pair(f"Scar {scar.scar.id}", crossed))
    for old in job.old_work or ():
        covering = laid_over(job, shape_of(old))
        pairs.append(Pair(f"Old work {old.id}", f"covered by {', '.join(covering)}" if covering else "stays free"))
    if job.moles:
        pairs.append(Pair("Moles", f"{len(job.moles)} marked on the map; the rings stay free"))
    return tuple(pairs)


def _rows(records: Records, work: Work, letters: dict[str, str], say: Any) -> tuple[Row, ...]:
    length = records.studio.limits.break_length
    pause = say(recorded(length, "studio.limits.break_length", records.studio.source))
    rows: list[Row] = []
    for number, step in enumerate(work.steps, 1):
        setting = step.setting
        times = "once" if step.times_over.low == 1 else f"{step.times_over.low:g}× at most"
        rows.append(
            Row(
                number=str(number), section=_SECTION_LABELS[step.section], span=0, technique=setting.technique.name,
                part=f"{letters[step.part.id]} {step.part.id}", needle=setting.grouping.label,
                machine=f"{setting.machine.name}, {say(setting.stroke)}",
                dial=say(setting.dial), hang_out=say(setting.hang_out), ink=step.ink.name, swatch=step.ink.swatch,
                minutes=say(step.minutes).replace("\u00a0min", ""), over=times,
                stretch=setting.technique.stretch, is_break=False,
            )
        )  # fmt: skip
        if number in work.timetable.breaks_after:
            rows.append(replace(_BREAK, section=rows[-1].section, minutes=pause))
    return tuple(rows)


_SECTION_LABELS = {LINES: "Lines", BLACKS: "Black", COLOURS: "Colours", WHITES: "White"}
_BREAK = Row("", "", 0, "", "", "", "", "", "", "", "", "", "", "", True)


def _times(work: Work, artist: str, say: Any) -> tuple[Pair, ...]:
    table = work.timetable
    first, last = table.done_between
    working = say(table.working)
    if table.learned is not None:
        working = f"{working}, at {artist}’s pace {say(table.learned.working)}"
    return (
        Pair("Stencil, drying", f"{say(table.stencil)} + {say(table.dry)}"),
        Pair("work", working),
        Pair("breaks", say(table.breaks)),
        Pair("done", f"{first:%H:%M}–{last:%H:%M}"),
    )


def _pauses(records: Records) -> tuple[Pause, ...]:
    titles = {
        "client sits down": "Before the client sits down",
        "first line": "Before the first line",
        "client leaves": "Before the client leaves",
    }
    return tuple(
        Pause(titles[pause], tuple(step.tick for step in records.hygiene.values() if step.pause == pause and step.tick))
        for pause in PAUSES
    )


def _inks(work: Work, say: Any) -> tuple[Ink, ...]:
    return tuple(
        Ink(
            name=poured.ink.name,
            swatch=poured.ink.swatch,
            amount=say(poured.millilitres),
            caps="1 cap" if poured.caps.high == 1 else f"{say(poured.caps)} caps",
            lots=tuple(lot.lot for lot in poured.lots),
        )
        for poured in work.tray.inks
    )


def _tray(work: Work, say: Any) -> tuple[Pair, ...]:
    return tuple(
        Pair(counted.supply.name, say(counted.number))
        for counted in work.tray.supplies
        if not counted.instead
    )


def _mixes(records: Records, work: Work) -> tuple[Pair, ...]:
    return tuple(
        Pair(
            poured.ink.name,
            f"{_parts(mix.parts_ink)} {records.inks[mix.of].name} + {_parts(mix.parts_water)} sterile water",
        )
        for poured in work.tray.inks
        if (mix := poured.ink.mixed) is not None
    )


def _parts(number: int) -> str:
    return "1 part" if number == 1 else f"{number} parts"


def _come_back(work: Work) -> tuple[Pair, ...]:
    first, last = work.touch_up
    return (Pair("Touch-up, looked at between", f"{first.isoformat()} and {last.isoformat()}"),)
