"""Pictures of a plan beside its map: the day as a bar, inks in order of work, punctures along a line, a band's arc."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup, escape

from generator.planning.drawn import shape_of
from generator.planning.plan import JobPlan, Work
from generator.planning.reckoning import Value
from generator.planning.work import LINES, Step
from generator.press.job_map import frame
from generator.press.map_labels import n
from generator.press.map_told import part_letters
from generator.press.worded import reckoned
from generator.records.families import Records
from generator.trade import body
from generator.trade.refusal import Refusal

_STRETCH = 5.0  # mm of line that are drawn
_DRAWN_LARGER = 120  # px a millimetre
_CHECK_BAR = 100.0  # mm


class Picture(NamedTuple):
    """A picture with its heading and what is said beside it, so that nothing rests on the drawing alone."""

    anchor: str
    title: str
    drawn: Markup
    said: tuple[Markup, ...]


def pictures_of(records: Records, plan: JobPlan) -> tuple[Picture, ...]:
    """All pictures but the map. A plan that may not go ahead has none: they show how to work."""
    if plan.work is None:
        return ()
    return (_day(records, plan.work), _inks(plan.work), *_punctures(records, plan), *_bands(plan))


def _day(records: Records, work: Work) -> Picture:
    """The middle of each estimate as a length; ranges stand in words."""
    table = work.timetable
    parts: list[tuple[str, Value]] = [
        ("set-up", table.set_up), ("stencil", table.stencil), ("drying", table.dry), ("work", table.working),
        ("breaks", table.breaks), ("clean and wrap", table.wrap),
    ]  # fmt: skip
    shown = [(name, value, (value.low + value.high) / 2) for name, value in parts]
    whole = sum(middle for _, _, middle in shown)
    drawn, at = [], 0.0
    for number, (_, _, middle) in enumerate(shown, 1):
        width = 600 * middle / whole
        kind = "dark" if number % 2 else "pale"
        drawn.append(f'<rect class="{kind}" x="{n(at)}" y="1" width="{n(width)}" height="34"/>')
        # A part too short for its number carries it below.
        drawn.append(f'<text class="{kind}" x="{n(at + width / 2)}" y="52" text-anchor="middle">{number}</text>')
        at += width
    said = tuple(
        Markup("{} {}: {}").format(number, name, reckoned(value.low, value.high, value.kind, records))
        for number, (name, value, _) in enumerate(shown, 1)
    )
    words = "The day as a bar, in order: " + "; ".join(str(line) for line in said)
    svg = f'<svg class="day" viewBox="0 0 600 58" role="img" aria-label="{escape(words)}">{"".join(drawn)}</svg>'
    return Picture("day", "The day, by the middle of each estimate", Markup(svg), said)


def _inks(work: Work) -> Picture:
    """Inks in the order in which they are first used; the swatch only stands beside the name."""
    used: dict[str, list[str]] = {}
    swatch: dict[str, str] = {}
    for number, step in enumerate(work.steps, 1):
        used.setdefault(step.ink.name, []).append(str(number))
        swatch[step.ink.name] = step.ink.swatch
    said = tuple(
        Markup('<span class="swatch" style="background:{}"></span><b>{}</b>, step{} {}').format(
            swatch[name], name, "" if len(steps) == 1 else "s", ", ".join(steps)
        )
        for name, steps in used.items()
    )
    return Picture("inks", "Inks in order of work", Markup(""), said)


def _punctures(records: Records, plan: JobPlan) -> Iterator[Picture]:
    assert plan.work is not None
    letters = part_letters(plan.job)
    lines = [(number, step) for number, step in enumerate(plan.work.steps, 1) if step.section == LINES]
    for number, step in lines:
        spacing = step.setting.spacing
        said = reckoned(spacing.low, spacing.high, "length", records)
        title = f"Step {number}, {letters[step.part.id]} {step.part.id}: punctures along 5 mm of line"
        dial = reckoned(step.setting.dial.low, step.setting.dial.high, step.setting.dial.kind, records)
        words = Markup(
            "{} at {}: {} from puncture to puncture. Upper row the slowest hand, lower row the fastest."
        ).format(step.setting.technique.name, dial, said)
        yield Picture(f"punctures-{number}", title, _dots(step, f"{title}. {words}"), (words,))


def _dots(step: Step, words: str) -> Markup:
    spacing = step.setting.spacing
    drawn = []
    for row, apart in enumerate(dict.fromkeys((spacing.low, spacing.high))):
        count = math.floor(_STRETCH / apart) + 1
        drawn += [f'<circle cx="{0.2 + at * apart:.3f}" cy="{n(0.35 + row * 0.3)}" r="0.02"/>' for at in range(count)]
    bar = '<path class="thin" d="M.2 .85v.1m0-.05h1m0-.05v.1"/><text x="1.3" y=".96" font-size=".16">1 mm</text>'
    wide = _STRETCH + 0.4
    return Markup(
        f'<svg class="dots" viewBox="0 0 {wide:g} 1.1" width="{n(wide * _DRAWN_LARGER)}" role="img" '
        f'aria-label="{escape(words)}">{"".join(drawn)}{bar}</svg>'
    )


def _bands(plan: JobPlan) -> Iterator[Picture]:
    """A part that spans the width of a piece on a limb that tapers is drawn on an arc."""
    job = plan.job
    if job.girth is None or job.girth.top.low == job.girth.bottom.low:
        return
    width, height = job.size[0].low, job.size[1].low
    for part in job.parts:
        x, y, across, down = frame(shape_of(part))
        if x > 0 or x + across < width:
            continue
        try:
            # Each edge too has to fit round the limb.
            _, middle, _ = (body.band(width, y + place * down, job.girth.top.low, job.girth.bottom.low, height)
                            for place in (0, 0.5, 1))  # fmt: skip
        except Refusal as refusal:
            # Only the middle of a piece was checked against the girth; its ends may be wider than the limb.
            yield Picture(f"band-{part.id}", f"Arc for {part.id}", Markup(""),
                          (Markup("No template: found {}, expected {}. {}").format(
                              refusal.found, refusal.expected, refusal.remedy),))  # fmt: skip
            continue
        assert middle.radius is not None
        words = (
            f"Print at 100 %, measure the bar. Radius of the middle line {middle.radius:.0f} mm, it sweeps "
            f"{middle.angle:.1f}°; a straight band would sag {middle.sag:.1f} mm. Its ends bend towards the "
            f"{middle.thin_end} edge. Muscles bulge: try the stencil standing and relaxed."
        )
        drawn = _arc(width, down, middle, f"Arc template for {part.id} at true size. {words}")
        yield Picture(f"band-{part.id}", f"Arc for {part.id} at true size", drawn, (escape(words),))


def _arc(width: float, down: float, middle: body.Band, words: str) -> Markup:
    """Three arcs round one centre, in mm. All run through the middle; `up` is +1 where the centre lies below."""
    assert middle.radius is not None
    up = 1 if middle.thin_end == "bottom" else -1
    half = math.radians(middle.angle) / 2
    radii = [middle.radius + up * (down / 2 - place * down) for place in (0, 0.5, 1)]
    reach = max(radii) * (math.sin(half) if half < math.pi / 2 else 1)
    wide = max(2 * reach, _CHECK_BAR) + 6
    centre_x = wide / 2
    ends = [(radius * math.sin(half), radius * math.cos(half)) for radius in radii]
    # Heights of the tops and of the ends, from the centre of the arcs, in the direction of paper.
    heights = [-up * radius for radius in radii] + [-up * e[1] for e in ends]
    top, foot = min(heights), max(heights)
    tall = foot - top + 16
    paths = []
    for (across, along), radius, kind in zip(ends, radii, ("edge", "middle", "edge"), strict=True):
        y = -up * along - top + 3
        large, sweep = int(2 * half > math.pi), int(up > 0)
        arc = f"M{n(centre_x - across)} {n(y)}A{n(radius)} {n(radius)} 0 {large} {sweep} {n(centre_x + across)} {n(y)}"
        paths.append(f'<path class="{kind}" d="{arc}"/>')
    (x1, y1), (x2, y2) = ends[0], ends[2]
    for side in (-1, 1):
        start = f"{n(centre_x + side * x1)} {n(-up * y1 - top + 3)}"
        end = f"{n(centre_x + side * x2)} {n(-up * y2 - top + 3)}"
        paths.append(f'<path class="edge" d="M{start}L{end}"/>')
    bar = f'<path class="edge" d="M3 {n(tall - 9)}v3h{n(_CHECK_BAR)}v-3"/>'
    label = f'<text x="4" y="{n(tall - 1)}" font-size="4">100 mm</text>'
    return Markup(
        f'<svg class="band" width="{n(wide)}mm" height="{n(tall)}mm" viewBox="0 0 {n(wide)} {n(tall)}" role="img" '
        f'aria-label="{escape(words)}">{"".join(paths)}{bar}{label}</svg>'
    )
