"""As few changes of cartridge and ink as stencil and inks allow."""

from __future__ import annotations

from itertools import pairwise, permutations

from hypothesis import given
from hypothesis import strategies as st

from generator.planning.working.order import few_changes, lined_first
from generator.planning.working.steps import LINES, Step
from generator.trade import layout
from generator.trade.shapes import Box
from tests.planning.demo import Written, part, simple, steps_of
from tests.planning.test_permissiveness import often

corner, side = st.integers(0, 140), st.integers(10, 60)
boxes = st.lists(st.tuples(corner, corner, side, side), min_size=1, max_size=6)


def line(needle: str, ink: str | None = None) -> Written:
    return {"needle": needle, "length": "100 mm", **({"ink": ink} if ink else {})}


def lined(*parts: Written, **changes: object) -> list[tuple[str, str]]:
    steps = steps_of(simple(size="200 mm x 200 mm", parts=list(parts), **changes))
    return [(str(step.part.id), str(step.setting.grouping.id)) for step in steps if step.section == LINES]


def test_what_the_next_part_is_lined_with_comes_last() -> None:
    near = part("near", (0, 150, 40, 20), lines=[line("1205RL"), line("1209RL")])
    far = part("far", (0, 0, 40, 20), lines=[line("1205RL"), line("1207RL")])
    assert lined(near, far) == [("near", "1209RL"), ("near", "1205RL"), ("far", "1205RL"), ("far", "1207RL")]


def test_parts_that_are_free_of_each_other_share_a_cartridge() -> None:
    # One row, one within the reach of the other: neither is nearer or more on the hand's side with both its edges.
    one = part("one", (0, 100, 80, 30), lines=[line("1205RL"), line("1209RL")])
    two = part("two", (20, 105, 40, 20), lines=[line("1205RL"), line("1209RL")])
    needles = [needle for _, needle in lined(one, two)]
    assert needles in (["1205RL", "1205RL", "1209RL", "1209RL"], ["1209RL", "1209RL", "1205RL", "1205RL"])


def test_the_stencil_comes_before_the_cartridge() -> None:
    # A right hand rests on the right: the middle is lined before the west, whatever is in the machine.
    def lies(name: str, across: int, down: int, needle: str) -> Written:
        return part(name, (across, down, 20, 20), lines=[line(needle)])

    row = [lies("west", 0, 40, "1207RL"), lies("middle", 40, 40, "1205RL"), lies("east", 80, 40, "1207RL")]
    assert [name for name, _ in lined(*row)] == ["east", "middle", "west"]
    column = [lies("far", 0, 0, "1207RL"), lies("near", 0, 150, "1205RL"), lies("nearest", 40, 180, "1207RL")]
    assert [name for name, _ in lined(*column)][-1] == "far"


def test_inside_a_row_the_hand_does_not_rest_on_a_neighbour_that_is_still_to_be_lined() -> None:
    # They overlap sideways, and a cartridge in common would take the far one first.
    def row(hand_first: str, other: str, shift: int) -> list[Written]:
        first = part(hand_first, (60 + shift, 100, 60, 30), lines=[line("1205RL"), line("1209RL")])
        return [first, part(other, (60, 100, 60, 30), lines=[line("1205RL"), line("1209RL")])]

    for artist, shift in (("mo", -25), ("quill", 25)):
        parts = [name for name, _ in lined(*row("first", "then", shift), artist=artist)]
        assert parts == ["first", "first", "then", "then"], artist
    # One over the other, and a little nearer to the artist.
    near, far = part("z-near", (0, 110, 60, 30), lines=[line("1205RL")]), part("far", (0, 90, 60, 30))
    for artist in ("mo", "quill"):
        assert [name for name, _ in lined(far, near, artist=artist)] == ["z-near", "far"]


@often
@given(boxes, st.sampled_from(["left", "right"]))
def test_in_one_row_what_lies_on_the_hands_side_is_lined_before(
    found: list[tuple[int, int, int, int]], hand: str
) -> None:
    parts = {f"p{number}": Box(*box) for number, box in enumerate(found)}
    order = list(lined_first(parts, hand, 0, 1000))
    sides = {name: (box.x, box.x + box.width) for name, box in parts.items()}
    before = lined_first(parts, hand, 0, 1000)
    for number, name in enumerate(order):
        for earlier in order[:number]:
            sign = 1 if hand == "right" else -1
            shifted = [sign * (sides[earlier][edge] - sides[name][edge]) for edge in (0, 1)]
            if min(shifted) >= 0 < max(shifted):
                assert earlier in before[name]


def test_two_inks_for_lines_are_not_mixed_more_than_needed() -> None:
    one = part("one", (0, 100, 60, 30), lines=[line("1207RL"), line("1207RL", "umber"), line("1207RL")])
    steps = [step for step in steps_of(simple(size="200 mm x 200 mm", parts=[one])) if step.section == LINES]
    assert sum(a.ink.id != b.ink.id for a, b in pairwise(steps)) == 1


def test_a_turned_piece_is_lined_from_its_other_side() -> None:
    up, down = part("up", (0, 0, 20, 20)), part("down", (0, 150, 20, 20))
    assert [name for name, _ in lined(up, down)] == ["down", "up"]
    assert [name for name, _ in lined(up, down, pose_turned="180 °")] == ["up", "down"]
    # Turned by a quarter clockwise, what was on the right lies towards the artist.
    left, right = part("left", (0, 50, 20, 20)), part("right", (150, 50, 20, 20))
    assert [name for name, _ in lined(left, right, artist="mo")] == ["left", "right"]
    assert [name for name, _ in lined(left, right, artist="mo", pose_turned="90 °")] == ["right", "left"]


@often
@given(boxes, st.sampled_from(["left", "right"]), st.integers(0, 359))
def test_the_order_that_keeps_the_stencil_is_always_allowed(
    found: list[tuple[int, int, int, int]], hand: str, turned: float
) -> None:
    parts = {f"p{number}": Box(*box) for number, box in enumerate(found)}
    before = lined_first(parts, hand, turned, 40)
    assert tuple(before) == layout.lining_order(parts, hand, turned, 40)
    done: set[str] = set()
    for name, first in before.items():
        assert first <= done
        done.add(name)


# Areas.


def changes_in(tools: list[str]) -> int:
    return sum(a != b for a, b in pairwise(tools))


@often
@given(st.lists(st.lists(st.sampled_from("abc"), min_size=1, max_size=4), min_size=1, max_size=3))
def test_no_order_of_the_buckets_contents_has_fewer_changes(buckets: list[list[str]]) -> None:
    made = few_changes([[(tool, tool) for tool in bucket] for bucket in buckets])
    assert sorted(made) == sorted(tool for bucket in buckets for tool in bucket)
    # Every bucket keeps its place.
    at = 0
    for bucket in buckets:
        assert sorted(made[at : at + len(bucket)]) == sorted(bucket)
        at += len(bucket)
    ends: dict[str, int] = {}
    for bucket in buckets:
        following: dict[str, int] = {}
        for order in permutations(sorted(set(bucket))):
            for held, so_far in (ends or {order[0]: 0}).items():
                count = so_far + (held != order[0]) + len(order) - 1
                following[order[-1]] = min(count, following.get(order[-1], count))
        ends = following
    # Only the next bucket is looked at, which may cost one change.
    assert changes_in(made) <= min(ends.values()) + 1


def filled(steps: tuple[Step, ...]) -> list[tuple[str, str]]:
    return [(str(step.ink.id), str(step.setting.grouping.id)) for step in steps if step.section != LINES]


def test_within_one_ink_a_cartridge_is_kept_and_carried_over() -> None:
    def fill(name: str, across: int, **needles: str) -> Written:
        colours = [{"ink": ink.replace("_", "-"), "area": "3 cm²", "needle": needle} for ink, needle in needles.items()]
        return part(name, (across, 0, 40, 40), lines=None, colours=colours)

    one, two = fill("one", 0, deep_blue="1215CM", rust="1005RS"), fill("two", 60, deep_blue="1005RS", rust="1215CM")
    three = fill("three", 120, deep_blue="1215CM")
    steps = filled(steps_of(simple(size="200 mm x 200 mm", parts=[one, two, three], order="by ink")))
    assert [ink for ink, _ in steps] == ["deep-blue"] * 3 + ["rust"] * 2
    assert changes_in([needle for _, needle in steps]) == 2
