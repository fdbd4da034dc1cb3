"""A sitting as a bar by the clock, with the same times in words."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from markupsafe import Markup, escape

from generator.planning.plan import JobPlan, Work
from generator.planning.timing.day import (
    BREAK,
    DRYING,
    REST,
    SET_UP,
    SKIN,
    STENCIL,
    WORK,
    WRAP,
    DayByClock,
    Stretch,
    days_of,
)
from generator.planning.timing.rounding import CLOCK_STEP
from generator.press.drawings.map_words import part_letters
from generator.press.drawings.svg import Picture, drawing, element, n, path, words
from generator.press.words.estimates import clock_rounded, ends_shown
from generator.press.words.formatted import calculated
from generator.records.families import Records

_WIDE, _TALL, _LETTER = 640.0, 30.0, 13.0
_MARGIN = 20.0  # half of the hour that is under the ends
_INITIALS = {SET_UP: "S", STENCIL: "T", DRYING: "D", SKIN: "C", BREAK: "B", REST: "R", WRAP: "W"}


def days_drawn(records: Records, plan: JobPlan, work: Work) -> Iterator[Picture]:
    """Every sitting of the piece, the one at hand marked in words."""
    days = days_of(records, plan.job, work.steps, work.sittings)
    letters = part_letters(plan.job)
    for day in days:
        yield _picture(records, day, _title(day, len(days), work.at_hand.sitting.number), letters)


def _title(day: DayByClock, number: int, today: int) -> str:
    """By the clock of which sitting; those that are over have no date on file, and neither has what comes has one
    that is agreed."""
    if number == 1:
        return f"The day by the clock, at the middle of each estimate, to {CLOCK_STEP} minutes"
    which = f"Sitting {day.sitting.number} of {number} by the clock"
    if day.sitting.number == today:
        return f"{which}, this one: {day.sitting.earliest}"
    if day.sitting.earliest is None:
        return f"{which}, over"
    return f"{which}, {day.sitting.earliest} at the earliest"


def _picture(records: Records, day: DayByClock, title: str, letters: dict[str, str]) -> Picture:
    table = day.timetable
    times = {"work": table.working, "breaks": table.breaks, "rests besides": table.rests, "in the chair": table.chair}
    told = [
        f"{what} {calculated(*ends_shown(value), value.kind, records)}"
        for what, value in times.items()
        if value.high or value is not table.rests
    ]
    said = tuple(_in_words(stretch, day, letters) for stretch in day.stretches)
    ranges = f"From the quickest to the slowest: {', '.join(told)}."
    alternative = f"{title}. {'; '.join(line.unescape() for line in said)}. {ranges}"
    svg = drawing(alternative, (0, 0, _WIDE, _TALL + 2 * _LETTER + 4), *_drawn(day), class_="day")
    return Picture(f"day-{day.sitting.number}", title, svg, said, escape(ranges))


def _in_words(stretch: Stretch, day: DayByClock, letters: dict[str, str]) -> Markup:
    at = "–".join(dict.fromkeys(f"{clock_rounded(end):%H:%M}" for end in (stretch.begins, stretch.ends)))
    if stretch.kind != WORK:
        return Markup("{} {} {}").format(_INITIALS[stretch.kind], at, stretch.kind)
    number = next(place for place, stint in enumerate(day.sitting.stints) if stint.number == stretch.step)
    step = day.steps[number]
    what = f"{letters[step.part.id]} {step.part.id}, {step.setting.technique.name.lower()}, {step.ink.name.lower()}"
    return Markup("{} {} {}").format(stretch.step, at, what)


def _drawn(day: DayByClock) -> Iterator[Markup]:
    first, last = day.stretches[0].begins, day.stretches[-1].ends
    scale = (_WIDE - 2 * _MARGIN) / (last - first).total_seconds()

    def across(at: datetime.datetime) -> float:
        return _MARGIN + (at - first).total_seconds() * scale

    for stretch in day.stretches:
        left, right = across(stretch.begins), across(stretch.ends)
        kind = {WORK: "dark", BREAK: "pause", REST: "pause"}.get(stretch.kind, "pale")
        yield element("rect", class_=kind, x=left, y=1, width=right - left, height=_TALL)
        label = str(stretch.step) if stretch.kind == WORK else _INITIALS[stretch.kind]
        # What is too short for its number is found by its place in the list.
        if right - left >= 0.75 * _LETTER * len(label) + 2:
            middle, foot = (left + right) / 2, _TALL / 2 + 0.35 * _LETTER + 1
            yield element("text", label, class_=kind, x=middle, y=foot, text_anchor="middle")
    hour = first.replace(minute=0, second=0, microsecond=0)
    while hour <= last:
        if hour >= first:
            x = across(hour)
            yield path("hour", f"M{n(x)} {_TALL + 1:g}v5")
            yield words(x, _TALL + 8 + _LETTER, f"{hour:%H:%M}", text_anchor="middle")
        hour += datetime.timedelta(hours=1)
