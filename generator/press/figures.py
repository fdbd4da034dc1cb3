"""Pictures as SVG text: drawn in black on white, every one with a text alternative."""

from __future__ import annotations

from markupsafe import Markup, escape

from generator.planning.plan import JobPlan
from generator.planning.skin import box_of
from generator.quantities import Quantity

_EDGE = 6.0


def job_map(plan: JobPlan, mole_clearance: Quantity, start: str | None) -> Markup:
    """The flattened area of a piece: parts, scars, moles, up arrow, scale bar, and where the lining starts.

    mole_clearance: the ring drawn round a mole whose own distance is not given.
    Lengths are mm of skin; the picture scales to the width it is given.
    """
    job = plan.job
    width, height = job.size[0].low, job.size[1].low
    text = max(width, height) / 22
    drawn: list[str] = [f'<rect class="area" x="0" y="0" width="{_n(width)}" height="{_n(height)}"/>']
    for part in job.parts:
        box = box_of(part)
        kind = "part focal" if part.focal else "part"
        drawn.append(
            f'<rect class="{kind}" x="{_n(box.x)}" y="{_n(box.y)}" width="{_n(box.width)}" height="{_n(box.height)}"/>'
        )
    for scar in job.scars or ():
        (x1, y1), (x2, y2) = ((end[0].low, end[1].low) for end in (scar.from_, scar.to))
        ends = f'x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}"'
        drawn.append(f'<line class="scar" {ends} stroke-width="{_n(scar.width.high)}"/>')
        drawn.append(f'<line class="ridge" {ends} stroke-width="{_n(scar.width.high)}"/>')
        drawn.append(_label(x2 + text / 3, y2, f"scar {scar.id}", text))
    for number, mole in enumerate(job.moles or (), 1):
        x, y = mole.at[0].low, mole.at[1].low
        radius = (mole.keep or mole_clearance).low
        drawn.append(f'<circle class="keep" cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}"/>')
        drawn.append(f'<circle class="mole" cx="{_n(x)}" cy="{_n(y)}" r="{_n(text / 4)}"/>')
        drawn.append(_label(x + text / 2, y, f"mole {number}", text))
    for part in job.parts:
        box = box_of(part)
        mark = "▶ " if part.id == start else ""
        drawn.append(_label(box.x + text / 3, box.y + text, f"{mark}{part.id}", text))
    drawn.append(_up_arrow(width + _EDGE, height, text))
    drawn.append(_scale_bar(height + _EDGE, text))
    view = f"{_n(-2)} {_n(-2)} {_n(width + _EDGE + 2 * text)} {_n(height + _EDGE + 2 * text)}"
    return Markup(
        f'<svg class="map" viewBox="{view}" role="img" aria-label="{escape(_in_words(plan, start))}">{"".join(drawn)}</svg>'
    )


def _in_words(plan: JobPlan, start: str | None) -> str:
    job = plan.job
    said = [f"Map of the piece, {job.size[0].low:g} by {job.size[1].low:g} mm, upper edge up."]
    for part in job.parts:
        box = box_of(part)
        focal = ", focal" if part.focal else ""
        said.append(
            f"Part {part.id}{focal}: {box.x:g} mm from the left, {box.y:g} mm down, {box.width:g} by {box.height:g} mm."
        )
    for scar in plan.scars:
        crossed = f"crossed by {', '.join(scar.crossed_by)}" if scar.crossed_by else "crossed by nothing"
        said.append(f"Scar {scar.scar.id}: {crossed}.")
    said += [f"Mole {n}: kept clear." for n, _ in enumerate(job.moles or (), 1)]
    if start:
        said.append(f"Lining starts at {start}.")
    return " ".join(said)


def _label(x: float, y: float, words: str, size: float) -> str:
    return f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(size)}">{escape(words)}</text>'


def _up_arrow(x: float, height: float, size: float) -> str:
    top, tail = 0.0, min(height, 4 * size)
    head = f"M{_n(x)} {_n(tail)}V{_n(top)}m{_n(-size / 3)} {_n(size / 2)}l{_n(size / 3)} {_n(-size / 2)}"
    return f'<path class="up" d="{head}l{_n(size / 3)} {_n(size / 2)}"/>' + _label(x + size / 3, size * 1.6, "up", size)


def _scale_bar(y: float, size: float) -> str:
    return (
        f'<path class="bar" d="M0 {_n(y - size / 4)}v{_n(size / 2)}m0 {_n(-size / 4)}h20m0 {_n(-size / 4)}'
        f'v{_n(size / 2)}"/>' + _label(22, y + size / 3, "20 mm", size)
    )


def _n(number: float) -> str:
    return f"{number:.2f}".rstrip("0").rstrip(".")
