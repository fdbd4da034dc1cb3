"""What the map of a piece says: its letters, its words, its numbers."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count
from string import ascii_uppercase

from generator.planning.plan import JobPlan
from generator.planning.working.shapes import edges_of, shape_of
from generator.quantities import Quantity, shown, significant
from generator.records.drawn import Drawn
from generator.records.jobs import Job
from generator.records.skin import Scar
from generator.trade import shapes
from generator.units import Shows

Frame = tuple[float, float, float, float]
# A name of more characters has no room in a tag.
_SHORT = 3


def part_letters(job: Job) -> dict[str, str]:
    """A letter for each part, in the order of the job: names do not fit on a small map. After Z come AA, AB."""
    return {str(part.id): letters_of_place(place) for place, part in enumerate(job.parts)}


def letters_of_place(place: int) -> str:
    """The letters of a place counted from 0: A to Z, then AA, AB. Capitals alone, because c and C look the same."""
    before, last = divmod(place, len(ascii_uppercase))
    return (letters_of_place(before - 1) if before else "") + ascii_uppercase[last]


def old_names(job: Job) -> dict[str, str]:
    """What an existing tattoo is called on the map: its id where that is short, a number for it where it is not."""
    ids = [str(old.id) for old in job.existing_tattoos or ()]
    free: Iterator[str] = (name for name in (f"o{number}" for number in count(1)) if name not in ids)
    return {name: name if len(name) <= _SHORT else next(free) for name in ids}


def old_words(old_id: str, short: dict[str, str]) -> str:
    """An existing tattoo in words: its name on the map first, its id behind it where that is another."""
    return old_id if short[old_id] == old_id else f"{short[old_id]} {old_id}"


def frame_of(thing: Drawn) -> Frame:
    """The box round what is drawn: left, top, width, height."""
    left, top, right, foot = edges_of(thing)
    return left, top, significant(right - left), significant(foot - top)


def scar_ends(scar: Scar) -> Frame:
    """Where a scar begins and ends: right and down of the one, right and down of the other."""
    return scar.from_[0].low, scar.from_[1].low, scar.to[0].low, scar.to[1].low


def rings_of(job: Job, clearance: Quantity) -> list[shapes.Spot]:
    """The moles, each with the ring that stays free; `clearance` where it has none of its own."""
    return [shapes.Spot(m.at[0].low, m.at[1].low, (m.keep or clearance).low) for m in job.moles or ()]


def laid_over(job: Job, thing: shapes.Thing) -> tuple[str, ...]:
    """The parts that lie on something."""
    return tuple(str(part.id) for part in job.parts if shapes.overlap(shape_of(part), thing) > 0)


def seen_limits(plan: JobPlan) -> tuple[float, float] | None:
    """Where the view from the front ends, left and right; None when no girth is taped or all of it is seen."""
    seen = plan.placement.seen
    if seen is None or seen.low >= 1:
        return None
    width = plan.job.size[0].low
    return width * (1 - seen.low) / 2, width * (1 + seen.low) / 2


def geometry_of(plan: JobPlan, mole_clearance: Quantity) -> tuple[tuple[object, ...], ...]:
    """Every number of the job that its map draws, whatever it is drawn like and whatever the code calls it."""
    job = plan.job
    drawn: list[tuple[object, ...]] = [("piece", job.size[0].low, job.size[1].low)]
    drawn += [("part", str(part.id), part.focal, *_measures(part)) for part in job.parts]
    drawn += [("existing tattoo", str(old.id), old.darkness, *_measures(old)) for old in job.existing_tattoos or ()]
    drawn += [("scar", str(scar.id), *scar_ends(scar), scar.width.high) for scar in job.scars or ()]
    drawn += [("mole", ring.x, ring.y, ring.keep) for ring in rings_of(job, mole_clearance)]
    limits = seen_limits(plan)
    return (*drawn, ("seen", *limits)) if limits else tuple(drawn)


def _measures(thing: Drawn) -> tuple[object, ...]:
    if thing.outline is not None:
        return ("outline", *(side.low for spot in thing.outline for side in spot))
    return ("box" if thing.box is not None else "ellipse", *frame_of(thing))


def in_words(plan: JobPlan, mole_clearance: Quantity, start: str | None, shows: Shows) -> str:
    """The text alternative: everything that the map shows."""
    return " ".join(sentences(plan, mole_clearance, start, shows))


def sentences(plan: JobPlan, mole_clearance: Quantity, start: str | None, shows: Shows) -> list[str]:
    """The same, one sentence each."""
    job = plan.job
    letters = part_letters(job)
    size = _by(job.size[0].low, job.size[1].low, shows)
    said = [f"Map of the piece, {size}, upper edge up, centre line dashed."]
    for part in job.parts:
        focal = ", focal point" if part.focal else ""
        said.append(f"{letters[part.id]}, {part.id}{focal}: {_where(part, shows)}.")
    short = old_names(job)
    for old in job.existing_tattoos or ():
        name = old_words(str(old.id), short)
        dark = f"{old.darkness}, the darker the denser its dots" if old.darkness else "not on file how dark, no dots"
        said.append(
            f"Existing tattoo {name}, {dark}: {_where(old, shows)}; {_over(laid_over(job, shape_of(old)), 'covered')}."
        )
    said += [f"Scar {scar.scar.id}: {_over(scar.crossed_by, 'crossed')}." for scar in plan.scars]
    for number, ring in enumerate(rings_of(job, mole_clearance), 1):
        across, down, keep = (_far(far, shows) for far in (ring.x, ring.y, ring.keep))
        said.append(
            f"Mole {number}: {across} from the left, {down} down, with a ring of {keep}; "
            f"{_over(laid_over(job, ring), 'crossed')}."
        )
    if limits := seen_limits(plan):
        seen = _by(round(limits[0]), round(limits[1]), shows, "to")
        said.append(f"Seen at once from the front: from {seen}, dotted limits.")
    if start:
        said.append(f"Lining starts at {start}.")
    return said


def _where(thing: Drawn, shows: Shows) -> str:
    x, y, width, height = frame_of(thing)
    return f"{_far(x, shows)} from the left, {_far(y, shows)} down, {_by(width, height, shows)}"


def _far(far: float, shows: Shows) -> str:
    """A length of the piece with every digit of its drawing, or in the parts of a tape."""
    return f"{far:g} mm" if shows["length"] == "mm" else shown(far, far, "length", shows)


def _by(width: float, height: float, shows: Shows, between: str = "by") -> str:
    """Two lengths that belong together; the unit stands once where both have the same."""
    unit = (" " if shows["length"] == "mm" else "\u00a0") + shows["length"]
    return f"{_far(width, shows).removesuffix(unit)} {between} {_far(height, shows)}"


def _over(parts: tuple[str, ...], how: str) -> str:
    return f"{how} by {', '.join(parts)}, hatched there" if parts else f"{how} by nothing"
