"""A job that follows another: a new piece of the same client, the next sitting of a piece, or its touch-up.

What stays true is copied as it was typed: place, girth, skin, scars, moles, and allergies with the day on which the
client named them. What may be otherwise by now is asked anew: the screening, numbing, how a scar looks and feels, and
whether there is an allergy where none was named. What lies in a piece is measured anew for another piece, and what
is gone over again in a touch-up is. That there was no scar or mole in one area says nothing of another.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from generator.planning.timing.coming_back import days_after, weeks_later
from generator.press.writing.as_yaml import Tree, as_tree, under_key
from generator.records.afterwards import HELD, SPREAD
from generator.records.families import Records
from generator.records.jobs import Job

_BEHIND = 34
_SPOT: Tree = ["RIGHT", "DOWN"]
# How a scar looks and feels, which may be otherwise by now; and what the client wants for it in another piece.
_SEEN_ANEW = ("colour", "feel", "itch", "pain", "growth", "scale")
_WISH = ("wish",)
_OF_THE_PIECE = ("drawing", "photos", "pose", "pose_turned", "girth", "size")
_SETTINGS = ("machine", "stroke", "dial", "hang_out", "longest", "order", "line_ink")


class Follows(Enum):
    """What the new job is to the one before it."""

    ANOTHER_PIECE = "another piece of the client"
    NEXT_SITTING = "the next sitting"
    TOUCH_UP = "the touch-up"


def next_job(records: Records, before: Job, job_id: str, follows: Follows) -> str:
    """The text of the file of the job that follows."""
    named = [f"title: {job_id.replace('-', ' ').capitalize()}"] if follows is Follows.ANOTHER_PIECE else []
    text = [
        f"# After `{before.id}`: {follows.value}. Write what stands in CAPITALS; `python -m generator check` points",
        "# at each place that is left. What is `unknown` is asked about again, and never read as a no.",
        "# Then take `draft` away: until then this job stops nothing, and has no sheet.",
        f"id: {job_id}",
        "draft: yes",
        *named,
        *_lines(records, before, as_tree(before), follows),
    ]
    return "\n".join(text) + "\n"


def _lines(records: Records, before: Job, tree: dict[str, Tree], follows: Follows) -> Iterator[str]:
    same = follows is not Follows.ANOTHER_PIECE
    yield from _copied(tree, "client")
    if same:
        yield from _copied(tree, "title")
    yield from _copied(tree, "artist", "supervisor")
    yield _beside("date: DATE", _not_before(records, before, follows))
    yield "start: START"
    yield from _copied(tree, "place", "side")
    yield from _copied(tree, *_OF_THE_PIECE) if same else [*_copied(tree, "girth"), "size: SIZE"]
    yield from _copied(tree, "skin")
    yield _beside("screening: unknown", f"last asked {_asked(before)}: ask all questions again")
    yield from _allergies(before)
    yield from _in_the_area(tree, "scars", () if same else ("from", "to"), _SEEN_ANEW if same else _SEEN_ANEW + _WISH)
    yield from _in_the_area(tree, "moles", () if same else ("at",), ())
    yield _beside("existing_tattoos: unknown", "look again, and ask what the client wants for each")
    yield _beside("numbing: unknown", "asked on the day")
    if follows is Follows.NEXT_SITTING:
        yield f"sitting: {before.sitting + 1}"
    if follows is Follows.TOUCH_UP:
        yield "touch_up: yes"
    if same:
        yield from _worked_already(before, tree)
        yield from _copied(tree, *_SETTINGS)
    yield from _parts(before, tree, follows)


def _copied(tree: dict[str, Tree], *keys: str) -> list[str]:
    """Keys as they were typed; one that was not written is not written."""
    return [line for key in keys if key in tree for line in under_key(key, tree[key])]


def _beside(written: str, says: str) -> str:
    return f"{written:<{_BEHIND}}  # {says}" if says else written


def _asked(before: Job) -> str:
    return "on no day on file" if before.screening is None else f"on {before.screening.asked.isoformat()}"


def _not_before(records: Records, before: Job, follows: Follows) -> str:
    """The first day on which the same skin may be worked."""
    if before.finished is None or follows is Follows.ANOTHER_PIECE:
        return ""
    limits, done = records.studio.limits, before.finished.as_corrected.on
    if follows is Follows.NEXT_SITTING:
        return f"not before {weeks_later(done, limits.same_skin_again.high).isoformat()}"
    first, last = days_after(done, limits.touch_up)
    return f"between {first.isoformat()} and {last.isoformat()}, later where it heals slowly"


def _allergies(before: Job) -> Iterator[str]:
    """Those that were named, with the day; that there was none says nothing of today."""
    if before.allergies and before.screening is not None:
        asked = before.screening.asked
        named: Tree = [{"to": str(one.to), "told": (one.told or asked).isoformat()} for one in before.allergies]
        yield from under_key("allergies", named)
        return
    named_before = ", ".join(str(one.to) for one in before.allergies or ())
    said = "not on file" if before.allergies is None else named_before or "none named"
    yield _beside("allergies: unknown", f"{said} {_asked(before)}: ask again")


def _in_the_area(tree: dict[str, Tree], key: str, measured: tuple[str, ...], asked: tuple[str, ...]) -> Iterator[str]:
    """Scars or moles. measured: what lies elsewhere in another piece; asked: what is asked about again."""
    found = tree.get(key, "unknown")
    if found == "none" and measured:
        yield _beside(f"{key}: unknown", "none where the piece before lies: look where this one will be")
        return
    if not isinstance(found, list):
        yield _beside(f"{key}: {found}", "look again" if found == "none" else "")
        return
    if asked:
        yield f"# Look at and feel each again: {', '.join(asked)}."
    kept: list[Tree] = [
        {name: _SPOT if name in measured else value for name, value in one.items() if name not in asked}
        for one in found
        if isinstance(one, dict)
    ]
    yield from under_key(key, kept)


def _worked_already(before: Job, tree: dict[str, Tree]) -> Iterator[str]:
    """When the skin was last worked, and every sitting that is over."""
    done = None if before.finished is None else before.finished.as_corrected
    if done is None:
        yield _beside("last_worked: unknown", f"`{before.id}` is not finished on file")
        yield from _copied(tree, "earlier")
        return
    yield f"last_worked: {done.on.isoformat()}"
    earlier = tree.get("earlier", [])
    assert isinstance(earlier, list)
    left = as_tree(done)["ended"]
    yield from under_key("earlier", [*earlier, {"job": str(before.id), "on": done.on.isoformat(), "left": left}])


def _parts(before: Job, tree: dict[str, Tree], follows: Follows) -> Iterator[str]:
    """The parts of the piece; how much of each is gone over again in a touch-up is measured on the skin."""
    if follows is Follows.ANOTHER_PIECE:
        yield "parts:"
        yield "  - {id: main, role: main, box: [RIGHT, DOWN, WIDTH, HEIGHT], detail: CHOOSE, lines: [{length: LENGTH}]}"
        return
    if follows is Follows.TOUCH_UP:
        yield "# Take away every part, line and ink that held; measure on the skin what is gone over again."
        parts = tree["parts"]
        assert isinstance(parts, list)
        held = _held(before)
        left = [part for part in parts if isinstance(part, dict) and part["id"] not in held]
        yield from under_key("parts", [_again(part) for part in left or parts])
        return
    yield from _copied(tree, "parts")


def _held(before: Job) -> set[str]:
    """The parts that need no touch-up: those that held, and those whose lines spread, which more ink only widens."""
    came: dict[str, set[str]] = {}
    for look in before.healed:
        for seen in look.parts:
            came.setdefault(str(seen.part), set()).add(seen.came)
    return {part for part, how in came.items() if how <= {HELD, SPREAD}}


def _again(part: Tree) -> Tree:
    assert isinstance(part, dict)
    again = dict(part)
    for key, measure in (("lines", "length"), ("colours", "area")):
        if isinstance(listed := part.get(key), list):
            again[key] = [{**one, measure: measure.upper()} for one in listed if isinstance(one, dict)]
    return again
