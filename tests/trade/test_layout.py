"""Places of colours, lining order and light beside dark."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.layout import (
    Laid,
    Weighed,
    centre_of_weight,
    colour_by_place,
    light_before_dark,
    lining_order,
    nine_places,
    size_step,
    thirds,
    weight_by_place,
)
from generator.trade.refusal import Refusal
from generator.trade.shapes import Box, Ellipse, area

CORNERS = {
    "upper left": Box(0, 0, 10, 10),
    "upper right": Box(90, 0, 10, 10),
    "lower left": Box(0, 90, 10, 10),
    "lower right": Box(90, 90, 10, 10),
}


@given(st.floats(1, 500), st.floats(1, 500))
def test_nine_places_make_up_the_piece(width: float, height: float) -> None:
    places = nine_places(width, height)
    assert len(places) == 9
    assert sum(area(place) for place in places.values()) == pytest.approx(width * height)


def test_places_are_named_as_one_looks_at_the_piece() -> None:
    places = nine_places(90, 60)
    assert places["upper left"] == Box(0, 0, 30, 20)
    assert places["centre"] == Box(30, 20, 30, 20)
    assert places["lower middle"] == Box(30, 40, 30, 20)
    assert places["middle right"] == Box(60, 20, 30, 20)


@pytest.mark.parametrize(("width", "height"), [(0, 10), (10, -1), (math.nan, 10), (10, math.inf)])
def test_a_piece_without_area(width: float, height: float) -> None:
    with pytest.raises(Refusal, match=r"^(height|width): "):
        nine_places(width, height)


def test_a_colour_only_in_one_corner() -> None:
    shares = colour_by_place(CORNERS, {"upper left": ["rust"]}, nine_places(100, 100))
    assert shares["rust"]["upper left"] == pytest.approx(1)
    assert sum(shares["rust"].values()) == pytest.approx(1)


def test_a_part_is_shared_evenly_by_its_colours() -> None:
    parts = {"a": Box(0, 0, 10, 10), "b": Box(50, 0, 10, 10)}
    halves = {"left": Box(0, 0, 50, 10), "right": Box(50, 0, 50, 10)}
    shares = colour_by_place(parts, {"a": ["rust", "plum"], "b": ["rust"]}, halves)
    assert shares["rust"] == pytest.approx({"left": 1 / 3, "right": 2 / 3})
    assert shares["plum"] == pytest.approx({"left": 1, "right": 0})


def test_a_colour_outside_every_place_has_no_entry() -> None:
    assert colour_by_place({"a": Box(200, 0, 5, 5)}, {"a": ["rust"]}, nine_places(90, 90)) == {}


def test_a_colour_on_a_part_that_is_not_there() -> None:
    with pytest.raises(Refusal, match=r"^colours: "):
        colour_by_place(CORNERS, {"middle": ["rust"]}, nine_places(90, 90))


def test_a_right_hand_starts_lower_right() -> None:
    assert lining_order(CORNERS, "right", turned=0, row=40) == (
        "lower right",
        "lower left",
        "upper right",
        "upper left",
    )


def test_a_left_hand_is_the_mirror_of_it() -> None:
    assert lining_order(CORNERS, "left", turned=0, row=40) == (
        "lower left",
        "lower right",
        "upper left",
        "upper right",
    )


def test_upside_down_the_far_corner_is_the_near_one() -> None:
    assert lining_order(CORNERS, "right", turned=180, row=40)[0] == "upper left"


def test_turned_clockwise_the_right_edge_lies_nearest() -> None:
    # Turned clockwise by a quarter the top points to the artist's right, the right edge to the artist.
    assert lining_order(CORNERS, "right", turned=90, row=40)[:2] == ("upper right", "lower right")


def test_parts_in_one_row_go_across_although_one_reaches_a_little_lower() -> None:
    row = {"left": Box(0, 5, 10, 10), "right": Box(50, 0, 10, 10)}
    assert lining_order(row, "right", turned=0, row=30) == ("right", "left")


def test_nothing_to_line() -> None:
    assert lining_order({}, "right", turned=0, row=30) == ()


positions = st.lists(st.tuples(st.integers(0, 20), st.integers(0, 20)), unique=True, max_size=8)


@given(positions)
def test_the_hands_mirror_each_other(corners: list[tuple[int, int]]) -> None:
    parts = {f"{x} {y}": Box(10 * x, 10 * y, 10, 10) for x, y in corners}
    mirrored = {name: Box(-part.x - part.width, part.y, 10, 10) for name, part in parts.items()}
    assert lining_order(parts, "right", 0, 30) == lining_order(mirrored, "left", 0, 30)
    assert sorted(lining_order(parts, "right", 0, 30)) == sorted(parts)


@given(positions)
def test_nothing_lined_later_lies_nearer_by_a_row(corners: list[tuple[int, int]]) -> None:
    parts = {f"{x} {y}": Box(10 * x, 10 * y, 10, 10) for x, y in corners}
    order = lining_order(parts, "right", 0, 30)
    for number, name in enumerate(order):
        assert all(parts[later].y - parts[name].y < 30 for later in order[number + 1 :])


@pytest.mark.parametrize(
    ("hand", "turned", "row", "argument"),
    [
        ("both", 0, 30, "hand"),
        ("Right", 0, 30, "hand"),
        ("right", math.nan, 30, "turned"),
        ("right", 0, 0, "row"),
        ("right", 0, math.inf, "row"),
    ],
)
def test_a_hand_that_cannot_be_worked_with(hand: str, turned: float, row: float, argument: str) -> None:
    with pytest.raises(Refusal, match=r"^(hand|row|turned): ") as refused:
        lining_order(CORNERS, hand, turned, row)
    assert refused.value.argument == argument


SAND = Laid("sand", Box(0, 0, 20, 20), 80)
PLUM = Laid("plum", Ellipse(20, 0, 20, 20), 25)
FAR = Laid("far", Box(200, 0, 20, 20), 10)


def test_light_before_the_dark_it_touches() -> None:
    assert light_before_dark([SAND, PLUM, FAR], within=2, step=10) == (("sand", "plum", pytest.approx(0)),)


def test_dark_first_is_in_order() -> None:
    assert light_before_dark([FAR, PLUM, SAND], within=2, step=10) == ()


def test_a_wider_distance_finds_more() -> None:
    assert [pair.dark for pair in light_before_dark([SAND, PLUM, FAR], within=300, step=10)] == [
        "plum",
        "far",
        "far",
    ]


def test_a_small_step_of_lightness_does_not_count() -> None:
    assert light_before_dark([SAND, PLUM._replace(lightness=75)], within=2, step=10) == ()
    assert light_before_dark([SAND, PLUM._replace(lightness=70)], within=2, step=10) != ()


@pytest.mark.parametrize(("within", "step"), [(-1, 10), (math.nan, 10), (2, 0), (2, -5), (2, math.inf)])
def test_distances_and_steps_that_are_none(within: float, step: float) -> None:
    with pytest.raises(Refusal, match=r"^(step|within): "):
        light_before_dark([SAND, PLUM], within, step)


def test_a_lightness_that_is_none() -> None:
    with pytest.raises(Refusal, match=r"^laid: "):
        light_before_dark([SAND._replace(lightness=math.nan)], 2, 10)


def test_thirds_of_60_by_30_mm() -> None:
    assert list(thirds(30, 60).values()) == [Box(0, 0, 30, 20), Box(0, 20, 30, 20), Box(0, 40, 30, 20)]
    assert list(thirds(60, 30).values()) == [Box(0, 0, 20, 30), Box(20, 0, 20, 30), Box(40, 0, 20, 30)]


@given(st.floats(1, 500), st.floats(1, 500))
def test_thirds_make_up_the_piece_along_its_longer_side(width: float, height: float) -> None:
    found = thirds(width, height)
    assert sum(area(place) for place in found.values()) == pytest.approx(width * height)
    assert list(found) == (["left", "middle", "right"] if width > height else ["upper", "middle", "lower"])
    longest = max(width, height)
    assert all(max(place.width, place.height) >= longest / 3 - 1e-9 for place in found.values())


weighed = st.builds(
    Weighed,
    st.builds(Box, st.floats(0, 60), st.floats(0, 60), st.floats(1, 40), st.floats(1, 40)),
    st.floats(1, 1e5),
)


@given(st.lists(weighed, min_size=1, max_size=5))
def test_weight_is_shared_out_and_balances_inside(laid: list[Weighed]) -> None:
    shares = weight_by_place(laid, thirds(100, 100))
    assert sum(shares.values()) == pytest.approx(1) and all(share >= 0 for share in shares.values())
    middle = centre_of_weight(laid)
    assert min(one.shape.x for one in laid) <= middle.x <= max(one.shape.x + one.shape.width for one in laid)
    heavier = [*laid, Weighed(Box(0, 66.7, 100, 33.3), 1e9)]
    assert weight_by_place(heavier, thirds(100, 100))["lower"] > 0.99 and centre_of_weight(heavier).y > 83


def test_nothing_that_weighs_is_refused() -> None:
    nothing = [Weighed(Box(0, 0, 10, 10), 0)]
    for refused in (lambda: weight_by_place(nothing, thirds(9, 9)), lambda: centre_of_weight([])):
        with pytest.raises(Refusal, match=r"^laid: "):
            refused()
    for pair in ((0, 1), (1, -1), (math.nan, 1)):
        with pytest.raises(Refusal, match=r"^(first|second): "):
            size_step(*pair)
    with pytest.raises(Refusal, match=r"^width: "):
        thirds(0, 10)


@given(st.floats(0.1, 1e4), st.floats(0.1, 1e4))
def test_a_step_of_size_is_the_same_both_ways(first: float, second: float) -> None:
    assert size_step(first, second) == size_step(second, first) >= 1
