"""Pictures as SVG text: drawn in black on white, every one with a text alternative."""

from __future__ import annotations

from string import ascii_lowercase, ascii_uppercase

from markupsafe import Markup, escape

from generator.planning.plan import JobPlan
from generator.planning.skin import box_of
from generator.quantities import Quantity
from generator.records.jobs import Job

# The room on the sheet that a map is drawn for, and the height of its letters there, in mm.
_ROOM = (40.0, 36.0)
_LETTERS = 3.5


def part_letters(job: Job) -> dict[str, str]:
    """A letter for each part, in the order of the job: names do not fit on a small map."""
    return {str(part.id): letter for part, letter in zip(job.parts, ascii_uppercase + ascii_lowercase, strict=False)}


def job_map(plan: JobPlan, mole_clearance: Quantity, start: str | None) -> Markup:
    """The flattened area of a piece: parts, scars, moles, up arrow, scale bar, and where the lining starts.

    mole_clearance: the ring drawn round a mole whose own distance is not given. start: the part that is lined
    first. Lengths are mm of skin; the letters come out readable in the room the sheet has.
    """
    job = plan.job
    width, height = job.size[0].low, job.size[1].low
    # The letters stand around the piece too, so the scale is solved with their own size in it.
    text = max(
        _LETTERS * width / (_ROOM[0] - 1.5 * _LETTERS), _LETTERS * height / (_ROOM[1] - 1.5 * _LETTERS)
    )  # fmt: skip
    letters = part_letters(job)
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
        drawn.append(_label(x2 + text / 4, y2 + text / 3, str(scar.id), text))
    for number, mole in enumerate(job.moles or (), 1):
        x, y = mole.at[0].low, mole.at[1].low
        radius = (mole.keep or mole_clearance).low
        drawn.append(f'<circle class="keep" cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}"/>')
        drawn.append(f'<circle class="mole" cx="{_n(x)}" cy="{_n(y)}" r="{_n(text / 4)}"/>')
        drawn.append(_label(x + text / 3, y - text / 4, f"m{number}", text))
    for part in job.parts:
        box = box_of(part)
        mark = "▶" if part.id == start else ""
        drawn.append(_label(box.x + text / 5, box.y + text, f"{mark}{letters[part.id]}", text))
    drawn.append(_up_arrow(width + text / 2, text))
    drawn.append(_scale_bar(height + text / 3, text))
    view = f"{_n(-text / 4)} {_n(-text / 4)} {_n(width + 1.5 * text)} {_n(height + 1.5 * text)}"
    words = escape(_in_words(plan, start))
    return Markup(f'<svg class="map" viewBox="{view}" role="img" aria-label="{words}">{"".join(drawn)}</svg>')


def _in_words(plan: JobPlan, start: str | None) -> str:
    job = plan.job
    letters = part_letters(job)
    said = [f"Map of the piece, {job.size[0].low:g} by {job.size[1].low:g} mm, upper edge up."]
    for part in job.parts:
        box = box_of(part)
        focal = ", focal" if part.focal else ""
        where = f"{box.x:g} mm from the left, {box.y:g} mm down"
        said.append(f"{letters[part.id]}, {part.id}{focal}: {where}, {box.width:g} by {box.height:g} mm.")
    for scar in plan.scars:
        crossed = f"crossed by {', '.join(scar.crossed_by)}" if scar.crossed_by else "crossed by nothing"
        said.append(f"Scar {scar.scar.id}: {crossed}.")
    said += [f"Mole {n}: kept clear." for n, _ in enumerate(job.moles or (), 1)]
    if start:
        said.append(f"Lining starts at {start}.")
    return " ".join(said)


def _label(x: float, y: float, words: str, size: float) -> str:
    return f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(size)}">{escape(words)}</text>'


def _up_arrow(x: float, size: float) -> str:
    head = f"M{_n(x)} {_n(2 * size)}V0m{_n(-size / 3)} {_n(size / 2)}l{_n(size / 3)} {_n(-size / 2)}"
    return f'<path class="up" d="{head}l{_n(size / 3)} {_n(size / 2)}"/>' + _label(x - size / 2, size * 3, "up", size)


def _scale_bar(y: float, size: float) -> str:
    return (
        f'<path class="bar" d="M0 {_n(y)}v{_n(size / 2)}m0 {_n(-size / 4)}h20m0 {_n(-size / 4)}v{_n(size / 2)}"/>'
        + _label(20 + size / 4, y + size / 2, "20 mm", size)
    )


def _n(number: float) -> str:
    return f"{number:.2f}".rstrip("0").rstrip(".")
