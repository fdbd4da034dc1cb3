"""Everything that one job's sheet says.

Front: may it go ahead and why, skin not to touch, the map, one table of order and settings. Back: three pause
points, the tray, what is written down, when to come back. A job that may not go ahead has its reasons and what
would clear them, and no working steps. Everything is formatted here, once; `sides` divides it and
the template only places it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from generator.how_many import how_many
from generator.origins import Origin, origin_of
from generator.planning.checklist import PausePoint, TickBox
from generator.planning.computed import Value, recorded, sources_of, text_of
from generator.planning.findings.private import is_private
from generator.planning.findings.screening import is_open_question
from generator.planning.findings.states import level_words
from generator.planning.findings.verdict import Finding
from generator.planning.plan import JobPlan, Work
from generator.planning.supplies.tray import Counted, Poured, Tray, exchanged
from generator.planning.timing.rounding import clock_rounded_out
from generator.planning.timing.timetable import Timetable
from generator.planning.working.placement import Placement
from generator.planning.working.shapes import shape_of
from generator.planning.working.steps import LINES
from generator.press.drawings.bands import bands_drawn, openings_in_short
from generator.press.drawings.map import ON_PHONE, drawn_map
from generator.press.drawings.map_words import geometry_of, laid_over, old_names, old_words, part_letters
from generator.press.explained.everything_in import everything_in
from generator.press.sheet.largest_map import with_the_largest_map
from generator.press.sheet.number_links import Explained, Labelled, Once
from generator.press.sheet.rows import (
    OTHER,
    Say,
    assumed_in,
    order_chosen,
    order_rows,
    rests_in,
    zones_in_words,
)
from generator.press.sheet.sittings import come_back, other_sittings, sitting_of
from generator.press.sheet.view import Pause, Reason, Sheet, SheetInk
from generator.press.words.estimates import ends_shown
from generator.press.words.formatted import short_citation
from generator.press.words.numbered import Numbered
from generator.press.words.undecided import not_decided
from generator.quantities import in_both, shown
from generator.records.decisions import undecided
from generator.records.families import Records
from generator.records.jobs import Job


def sheet_of(records: Records, plan: JobPlan, both_units: bool = False) -> Sheet:
    """The sheet of a plan. Only the studio's first system is shown unless both are asked for."""
    studio, start = records.studio, first_lined(plan.work)
    on_phone = drawn_map(plan, studio.limits.mole_clearance, start, ON_PHONE._replace(shows=studio.shows))
    sheet = replace(sheet_without_map(records, plan, both_units), map_on_phone=str(on_phone.svg))
    return with_the_largest_map(sheet, plan, start, studio)


def sheet_without_map(records: Records, plan: JobPlan, both_units: bool = False) -> Sheet:
    """The words and numbers of a sheet alone, for whoever compares them."""
    studio = records.studio

    def say(value: Value) -> str:
        if value.kind == "number":
            return f"{value.low:g}" if value.low == value.high else f"{value.low:g}–{value.high:g}"
        show = in_both if both_units else shown
        return show(*ends_shown(value), value.kind, studio.shows, text_of(value))

    job, numbered = plan.job, Numbered()
    reasons, notes = _reasons(plan.findings, numbered), []
    work = plan.work
    today = () if work is None else work.at_hand.steps
    if work is not None:
        found = [finding for finding in plan.findings if finding.level == "note"]
        notes = [Reason("note", f.reason, f.remedy, numbered.number(f.source)) for f in found]
        for step in today:
            for source in sorted(sources_of(step.booked) | sources_of(step.setting.speed or step.setting.dial)):
                numbered.number(source)
    if (number := count_undecided(records, plan)) and job.not_worked is None:
        said, remedy = f"{not_decided(number)}.", "Ask who decides before you rely on them."
        undecided = Reason("note", said, remedy, numbered.number(str(studio.source)))
        (reasons if work is None else notes).append(undecided)
    heading, meaning = _verdict(plan)
    return Sheet(
        job=job.id,
        studio=studio.name,
        paper=studio.paper,
        title=job.title,
        day=_day(job),
        head=tuple(_head(plan, say)),
        verdict=heading,
        mark=plan.state.mark,
        meaning=meaning,
        goes_ahead=work is not None,
        finished=job.finished is not None,
        reasons=tuple(reasons),
        notes=tuple(notes),
        hands_off=tuple(_hands_off(records, plan)),
        geometry=geometry_of(plan, studio.limits.mole_clearance),
        order=(*order_chosen(work), *rests_in(work, say), *assumed_in(work)) if work else (),
        zones=zones_in_words(work, part_letters(job), say) if work else (),
        marks=f"{OTHER} not the studio’s usual" if any(step.setting.other for step in today) else "",
        rows=order_rows(records, work, part_letters(job), say) if work else (),
        sittings=other_sittings(work) if work else (),
        times=tuple(_times(records, plan, work.at_hand.timetable, say)) if work else (),
        stop_signs=tuple(studio.stop_signs) if work else (),
        pauses=_pauses(work) if work else (),
        more_to_tick=_more_to_tick(work) if work else (),
        inks=_inks(work.at_hand.tray, say) if work else (),
        tray=_tray(records, work.at_hand.tray, say) if work else (),
        swaps=tuple(c.supply.name for c in work.at_hand.tray.supplies if c.instead) if work else (),
        write_down=tuple(studio.record_afterwards) if work else (),
        come_back=come_back(work) if work else (),
        sources=tuple(short_citation(records.sources[s], records) for s in numbered if s in records.sources),
    )


def count_undecided(records: Records, plan: JobPlan) -> int:
    """How many of the entries that the plan rests on are suggestions."""
    open_ = {(each.family, each.id) for each in undecided(records)}
    return len(open_ & set(_entries(plan))) if open_ else 0


def _entries(plan: JobPlan) -> Iterator[tuple[str, str]]:
    """The family and the id of every entry whose values are inside; the job itself is no value of the house."""
    for value in everything_in(plan, {id(plan.job)}):
        origin = value if isinstance(value, Origin) else origin_of(value)
        if origin.keys:
            family = str(origin.keys[0])
            of_an_entry = family != "studio" and len(origin.keys) > 1
            yield family, str(origin.keys[1]) if of_an_entry else ""


def first_lined(work: Work | None) -> str | None:
    """The part on which the lining starts."""
    return next((step.part.id for step in work.at_hand.steps if step.section == LINES), None) if work else None


def _reasons(findings: tuple[Finding, ...], numbered: Numbered) -> list[Reason]:
    """Each sentence once. Open questions are counted and not named; `plan` says which they are."""
    number = sum(map(is_open_question, findings))
    counted = how_many(number, "question of the screening is", "questions of the screening are")
    found = (
        Reason("ask", f"{counted} not answered.", f.remedy, numbered.number(f.source))
        if is_open_question(f)
        else Reason(_label(f), f.reason, f.remedy, numbered.number(f.source))
        for f in findings
        if f.level != "note"
    )
    return list(dict.fromkeys(found))


def _label(finding: Finding) -> str:
    """What an open question asks for is no state yet; one that may tell of an answer says its level alone."""
    return "ask" if finding.asks and not is_private(finding) else level_words(finding.level)


def _day(job: Job) -> str:
    return f"{job.date.isoformat()}, {job.start:%H:%M}" if job.has_a_day else "not agreed yet"


def _head(plan: JobPlan, say: Say) -> Iterator[Labelled]:
    job, place = plan.job, plan.placement
    side = "" if job.side == "middle" else f", {job.side}"
    yield Labelled("Client", job.client)
    yield Labelled("Artist", plan.artist.name if job.has_an_artist else "not named yet")
    yield Labelled("Day", _day(job))
    yield from sitting_of(job, plan.work)
    yield Labelled("Place", f"{plan.site.name}{side}")
    yield Labelled("Pose", job.pose or f"{plan.site.pose.rstrip('.')} (assumed)")
    yield Labelled("Size", f"{say(place.width)} × {say(place.height)}")
    if place.ends:
        yield from _round_the_limb(place, say)
    if job.drawing is not None:
        yield Labelled("Drawing", f"{job.drawing.code}, version {job.drawing.version}")
    if job.photos:
        yield Labelled("Photos", ", ".join(job.photos))
    if job.note is not None:
        yield Labelled("Note", job.note)


def _round_the_limb(place: Placement, say: Say) -> Iterator[Labelled]:
    """How far it wraps at both ends of the limb, and what is seen of it: the sides are narrower than they are drawn."""

    wraps = ", ".join(f"{say(end.wrap)} {end.name}".rstrip() for end in place.ends)
    shares = [f"{end.seen.low * 100:.0f}\u00a0%" for end in place.ends]
    looks = [f"{say(end.looks)} wide {end.name}".rstrip() for end in place.ends]
    if len(set(shares)) == 1:
        seen = f"{shares[0]}, {', '.join(looks)}"
    else:
        seen = "; ".join(f"{share}, {wide}" for share, wide in zip(shares, looks, strict=True))
    yield Labelled("Wraps", wraps, (Explained.PLACE, Once.WRAP))
    yield Labelled("Seen at once", seen, (Explained.PLACE, Once.LOOKS))


def _hands_off(records: Records, plan: JobPlan) -> Iterator[Labelled]:
    """Allergies, the stencil of a band, what the map names: the consequence, never a cause or an answer."""
    job = plan.job
    if job.allergies:
        yield Labelled("Allergies", ", ".join(allergy.to for allergy in job.allergies), may_tell=True)
    elif job.allergies is not None:
        yield Labelled("Allergies", "none named", may_tell=True)
    if plan.work is not None and any(band.drawn for band in bands_drawn(records, job)):
        yield Labelled("Stencil", "on the arc template, printed at 100\u00a0%")
    for said in openings_in_short(records, plan.bands):
        yield Labelled("Band", said)
    letters = part_letters(job)
    in_order = {str(step.part.id) for step in plan.work.at_hand.steps} if plan.work else set()
    if unnamed := [f"{letter} {part}" for part, letter in letters.items() if part not in in_order]:
        yield Labelled("Other parts" if in_order else "Parts", ", ".join(unnamed))
    start = first_lined(plan.work)
    if start is not None:
        hand, other = plan.artist.hand, "left" if plan.artist.hand == "right" else "right"
        # Inside a part too, so that the hand never rests on stencil that is still to be lined.
        yield Labelled("▶ Lining starts at", f"{letters[start]} {start}, {hand} to {other}")
    for scar in plan.scars:
        crossed = f"worked over by {', '.join(scar.crossed_by)}" if scar.crossed_by else "stays free"
        yield Labelled(f"Scar {scar.scar.id}", crossed)
    short = old_names(job)
    for old in job.existing_tattoos or ():
        covering = laid_over(job, shape_of(old))
        covered = f"covered by {', '.join(covering)}" if covering else "stays free"
        yield Labelled(f"Existing tattoo {old_words(str(old.id), short)}", covered)
    if job.moles:
        yield Labelled("Moles", f"{len(job.moles)} marked on the map; the rings stay free")


def _verdict(plan: JobPlan) -> tuple[str, str]:
    """The verdict in words; what is finished is no plan any more."""
    if plan.job.finished is None:
        return plan.verdict.heading, plan.verdict.meaning
    meaning = f"Read today it would be “{plan.verdict.heading}”. A record, and no plan."
    return f"{plan.state.printed} {plan.job.finished.on}", meaning


def _times(records: Records, plan: JobPlan, table: Timetable, say: Say) -> Iterator[Labelled]:
    working = say(table.working)
    if table.plain is not None:
        working = f"{working} at {plan.artist.name}’s pace, plain {say(table.plain.working)}"
    done = "–".join(dict.fromkeys(f"{at:%H:%M}" for at in clock_rounded_out(*table.done_between)))
    if table.stencil is not None and table.dry is not None:
        taken = f"{say(table.stencil)} + {say(table.dry)}"
        yield Labelled("Stencil, drying", taken, (Explained.TIMETABLE, Once.STENCIL))
    else:
        assert table.clean_skin is not None, "a sitting has a stencil or it has none"
        cleaning = Explained.TIMETABLE, Once.CLEANING
        yield Labelled("No stencil; skin shaved, cleaned", say(table.clean_skin), cleaning)
    apart = say(recorded(records.studio.limits.break_after))
    paused = f"{say(table.breaks)}, {apart} apart at most" if table.breaks.high else "none"
    yield Labelled("work", working, (Explained.TIMETABLE, Once.WORKING))
    yield Labelled("breaks", paused, (Explained.TIMETABLE, Once.BREAKS))
    if table.rests.high:
        yield Labelled("rests", f"{say(table.rests)} besides")
    yield Labelled("wrap", say(table.wrap))
    yield Labelled("end", done, (Explained.TIMETABLE, Once.WHOLE))


_TITLES = {
    "client sits down": "Before the client sits down",
    "first line": "Before the first line",
    "client leaves": "Before the client leaves",
}


def _pauses(work: Work) -> tuple[Pause, ...]:
    return tuple(_pause(_TITLES[at.pause], at, at.boxes, len(at.more)) for at in work.checklist)


def _more_to_tick(work: Work) -> tuple[Pause, ...]:
    """What the pause points do not hold, for a second sheet."""
    return tuple(_pause(f"More to tick {_TITLES[at.pause].lower()}", at, at.more) for at in work.checklist if at.more)


def _pause(title: str, at: PausePoint, boxes: tuple[TickBox, ...], more: int = 0) -> Pause:
    may_tell = tuple(box.text for box in boxes if box.step.may_tell)
    return Pause(title, tuple(box.text for box in boxes), at.pause, more, may_tell)


def _inks(tray: Tray, say: Say) -> tuple[SheetInk, ...]:
    return tuple(
        SheetInk(
            name=poured.ink.name,
            swatch=poured.ink.swatch,
            amount=say(poured.millilitres),
            caps=_caps(poured, say),
            capped=poured.caps is not None,
            lots=tuple(lot.lot for lot in poured.lots),
        )
        for poured in tray.inks
    )


def _tray(records: Records, tray: Tray, say: Say) -> tuple[Labelled, ...]:
    of_some = exchanged(records)
    return tuple(
        Labelled(
            one.supply.name,
            f"{'or ' if one is counted.or_else else ''}{_counted(one, say(one.number))}",
            may_tell=str(one.supply.id) in of_some,
        )
        for counted in tray.supplies
        if not counted.instead
        for one in (counted, counted.or_else)
        if one is not None
    )


def _caps(poured: Poured, say: Say) -> str:
    if poured.caps is None:
        return "for washes"
    caps = "1 cap" if poured.caps.high == 1 else f"{say(poured.caps)} caps"
    return caps if poured.in_washes is None else f"{caps} + washes"


def _counted(counted: Counted, number: str) -> str:
    """The number with the word for one, where that says more than the name."""
    word = counted.supply.counted_in
    if word == "piece" or word in counted.supply.name.lower():
        return number
    several = f"{word}es" if word.endswith(("s", "x", "ch", "sh")) else f"{word}s"
    return f"{number} {word if counted.number.high == 1 else several}"
