"""Pictures of a plan beside its map: the day by the clock, needles, inks in order of work, punctures, a band's arc."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from markupsafe import Markup

from generator.planning.computed import Computed, text_of
from generator.planning.plan import JobPlan, Work
from generator.planning.working.steps import LINES, Step
from generator.press.drawings.bands import bands_drawn
from generator.press.drawings.day import days_drawn
from generator.press.drawings.map_words import part_letters
from generator.press.drawings.needles import cross_section
from generator.press.drawings.svg import Picture, drawing, element, n, path, words
from generator.press.words.formatted import calculated
from generator.records.families import Records

_STRETCH = 5.0  # mm of line that are drawn
_DRAWN_LARGER = 120  # px a millimetre


def pictures_of(records: Records, plan: JobPlan) -> tuple[Picture, ...]:
    """All pictures but the map. A plan that may not go ahead has none: they show how to work."""
    if plan.work is None:
        return ()
    return (
        *days_drawn(records, plan, plan.work),
        _inks(plan.work),
        _needles(records, plan.work),
        *_punctures(records, plan),
        *bands_drawn(records, plan.job),
    )


def _inks(work: Work) -> Picture:
    """Inks in the order in which they are first used; the swatch is only beside the name."""
    swatch = {step.ink.name: step.ink.swatch for step in work.steps}
    said = tuple(
        Markup('<span class="swatch" style="background:{}"></span><b>{}</b>, {}').format(swatch[name], name, steps)
        for name, steps in _steps_by(work, lambda step: step.ink.name).items()
    )
    return Picture("inks", "Inks in order of work", Markup(""), said)


def _needles(records: Records, work: Work) -> Picture:
    """The groupings in order of work, all at one scale."""
    steps = _steps_by(work, lambda step: str(step.setting.grouping.id))
    drawn = Markup("").join(cross_section(records.groupings[grouping], records) for grouping in steps)
    said = tuple(Markup("<b>{}</b>, {}").format(records.groupings[each].label, of) for each, of in steps.items())
    return Picture(
        "needles",
        "Groupings, from the tips, all at one scale",
        Markup('<div class="needles">{}</div>').format(drawn),
        said,
    )


def _steps_by(work: Work, name: Callable[[Step], str]) -> dict[str, str]:
    """What steps work with, in order of work, each with the numbers of its steps in words."""
    found: dict[str, list[str]] = {}
    for number, step in enumerate(work.steps, 1):
        found.setdefault(name(step), []).append(str(number))
    return {each: f"step{'' if len(steps) == 1 else 's'} {', '.join(steps)}" for each, steps in found.items()}


def _punctures(records: Records, plan: JobPlan) -> Iterator[Picture]:
    """One picture for all lines that are run alike."""
    assert plan.work is not None
    letters = part_letters(plan.job)
    alike: dict[tuple[object, ...], list[tuple[int, Step, Computed]]] = {}
    for number, step in enumerate(plan.work.steps, 1):
        setting, spacing = step.setting, step.setting.spacing
        # Where nobody has measured the speed there is nothing to draw.
        if step.section == LINES and spacing is not None:
            ends = [(value.low, value.high) for value in (spacing, setting.dial)]
            alike.setdefault((setting.technique.id, setting.machine.id, *ends), []).append((number, step, spacing))
    for steps in alike.values():
        first, step, spacing = steps[0]
        dial = step.setting.dial
        said = calculated(spacing.low, spacing.high, "needle length", records)
        at = calculated(dial.low, dial.high, dial.kind, records, text_of(dial))
        title = f"{step.setting.technique.name} at {at}: punctures along {_STRETCH:g} mm of line"
        which = "; ".join(f"step {number}, {letters[of.part.id]} {of.part.id}" for number, of, _ in steps)
        told = Markup("{}: {} from puncture to puncture. Upper row the slowest hand, lower row the fastest.").format(
            which[0].upper() + which[1:], said
        )
        yield Picture(f"punctures-{first}", title, _dots(spacing, f"{title}. {told.unescape()}"), (told,))


def _dots(spacing: Computed, said: str) -> Markup:
    drawn: list[Markup] = []
    for row, apart in enumerate(dict.fromkeys((spacing.low, spacing.high))):
        count = math.floor(_STRETCH / apart) + 1
        places = (n(0.2 + at * apart, 3) for at in range(count))
        drawn += [element("circle", cx=place, cy=0.35 + row * 0.3, r=0.02) for place in places]
    wide = _STRETCH + 0.4
    bar = path("thin", "M.2 .85v.1m0-.05h1m0-.05v.1"), words(1.3, 0.96, "1 mm", font_size=0.16)
    return drawing(said, (0, 0, wide, 1.1), *drawn, *bar, class_="dots", width=wide * _DRAWN_LARGER)
