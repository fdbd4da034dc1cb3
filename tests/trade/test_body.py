import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.body import angle_of_ends, band, girth_at, opening, projected_width, share_seen, wrap_angle
from generator.trade.refusal import Refusal

UNITS = pint.get_application_registry()
GIRTHS = st.floats(100, 800)
SHARES = st.floats(0.01, 1)


@given(GIRTHS, SHARES)
def test_wrapping_and_seeing(girth: float, share: float) -> None:
    width = share * girth
    assert wrap_angle(width, girth) == pytest.approx(360 * share)
    seen = projected_width(width, girth)
    assert 0 < seen <= min(width, girth / math.pi) * (1 + 1e-12)
    assert share_seen(width, girth) * width <= girth / 2 * (1 + 1e-12)
    assert (share_seen(width, girth) == 1) == (share <= 0.5 or 2 * width <= girth)


@given(GIRTHS)
def test_half_a_limb_looks_as_wide_as_the_limb(girth: float) -> None:
    assert projected_width(girth / 2, girth) == pytest.approx(girth / math.pi)
    assert projected_width(girth, girth) == pytest.approx(girth / math.pi)
    assert wrap_angle(girth, girth) == 360


@given(GIRTHS, GIRTHS, st.floats(150, 500), SHARES)
def test_girth_lies_between_the_tapes(top: float, bottom: float, distance: float, part: float) -> None:
    girth = girth_at(part * distance, top, bottom, distance)
    assert min(top, bottom) * (1 - 1e-12) <= girth <= max(top, bottom) * (1 + 1e-12)
    assert girth_at(0.0, top, bottom, distance) == top
    assert girth_at(distance, top, bottom, distance) == pytest.approx(bottom)


@given(st.floats(250, 400), st.floats(150, 249), st.floats(50, 400), SHARES, SHARES)
def test_the_arc_closes_round_the_limb(thick: float, thin: float, distance: float, part: float, share: float) -> None:
    below = part * distance
    girth = girth_at(below, thick, thin, distance)
    arc = band(share * girth, below, thick, thin, distance)
    assert arc.radius is not None
    assert math.radians(arc.angle) * arc.radius == pytest.approx(share * girth)
    # Both arcs of a cut-open limb have one middle: the radii differ by the way along the skin.
    ends = [band(thin, y, thick, thin, distance).radius for y in (0.0, distance)]
    assert ends[0] is not None
    assert ends[1] is not None
    assert ends[0] - ends[1] == pytest.approx(distance)
    assert arc.thin_end == "bottom"
    assert 0 < arc.sag < share * girth / 2
    assert arc.sag == pytest.approx(arc.radius * (1 - math.cos(math.radians(arc.angle) / 2)), abs=1e-9)


@given(st.floats(250, 400), st.floats(150, 249), st.floats(50, 400))
def test_turned_upside_down_it_bends_the_other_way(thick: float, thin: float, distance: float) -> None:
    down = band(100.0, 0.25 * distance, thick, thin, distance)
    up = band(100.0, 0.75 * distance, thin, thick, distance)
    assert up.thin_end == "top"
    assert (up.radius, up.angle, up.sag) == pytest.approx((down.radius, down.angle, down.sag))


def test_a_limb_without_taper_takes_a_straight_band() -> None:
    assert band(100.0, 50.0, 300.0, 300.0, 200.0) == (None, 0.0, 0.0, None)


def test_a_limb_that_hardly_tapers_hardly_sags() -> None:
    assert 0 < band(100.0, 50.0, 300.000001, 300.0, 200.0).sag < 1e-4


def test_dimensions() -> None:
    width, girth, distance = 13 * UNITS.cm, 330 * UNITS.mm, 190 * UNITS.mm
    assert wrap_angle(width, girth).to("").magnitude == pytest.approx(wrap_angle(130.0, 330.0))
    assert share_seen(width, girth) == 1
    assert share_seen(300 * UNITS.mm, girth).to("").magnitude == pytest.approx(share_seen(300.0, 330.0))
    assert projected_width(width, girth).check("[length]")
    assert girth_at(5 * UNITS.cm, girth, 290 * UNITS.mm, distance).check("[length]")
    arc = band(width, 5 * UNITS.cm, girth, 290 * UNITS.mm, distance)
    assert arc.radius.check("[length]")
    assert arc.sag.check("[length]")
    assert arc.angle == pytest.approx(band(130.0, 50.0, 330.0, 290.0, 190.0).angle)
    assert band(width, 5 * UNITS.cm, girth, girth, distance).sag.check("[length]")


@pytest.mark.parametrize("senseless", [0.0, -1.0, math.nan, math.inf])
def test_senseless_numbers_are_refused(senseless: float) -> None:
    for asked in (wrap_angle, share_seen, projected_width):
        with pytest.raises(Refusal, match=r"^width: "):
            asked(senseless, 300.0)
        with pytest.raises(Refusal, match=r"^girth: "):
            asked(100.0, senseless)
    with pytest.raises(Refusal, match=r"^width: "):
        band(senseless, 50.0, 330.0, 290.0, 190.0)
    with pytest.raises(Refusal, match=r"^girth_top: "):
        band(100.0, 50.0, senseless, 290.0, 190.0)
    with pytest.raises(Refusal, match=r"^girth_bottom: "):
        girth_at(50.0, 330.0, senseless, 190.0)
    with pytest.raises(Refusal, match=r"^distance: "):
        girth_at(50.0, 330.0, 290.0, senseless)


def test_a_piece_wider_than_the_limb_is_refused() -> None:
    for asked in (wrap_angle, share_seen, projected_width):
        with pytest.raises(Refusal, match=r"^width: .*at most the girth"):
            asked(300.001, 300.0)
    # Narrow enough at the upper tape, too wide at its own place.
    with pytest.raises(Refusal, match=r"^width: .*at most the girth"):
        band(320.0, 190.0, 330.0, 290.0, 190.0)


@pytest.mark.parametrize("below", [-0.1, 190.1, math.nan, math.inf])
def test_outside_the_tapes_is_refused(below: float) -> None:
    with pytest.raises(Refusal, match=r"^below_top: "):
        girth_at(below, 330.0, 290.0, 190.0)


def test_a_limb_steeper_than_flat_is_refused() -> None:
    with pytest.raises(Refusal, match=r"^distance: .*more way"):
        band(100.0, 1.0, 330.0, 290.0, 6.0)


@given(st.floats(10, 500), st.floats(1, 1.5))
def test_opening_and_width_make_the_girth(width: float, more: float) -> None:
    girth = width * more
    assert opening(width, girth) + width == pytest.approx(girth) and opening(girth, girth) == 0
    assert opening(width * UNITS.mm, girth * UNITS.mm).to("mm").magnitude == pytest.approx(opening(width, girth))


@given(st.floats(0, 200), st.floats(0, 200), st.floats(1, 200))
def test_the_angle_of_the_ends_is_the_same_upside_down(above: float, below: float, height: float) -> None:
    angle = angle_of_ends(above, below, height)
    assert 0 <= angle < 180 and angle == angle_of_ends(below, above, height)
    assert math.tan(math.radians(angle / 2)) == pytest.approx(abs(above - below) / 2 / height, abs=1e-9)
    assert angle_of_ends(above * UNITS.mm, below * UNITS.mm, height * UNITS.mm) == pytest.approx(angle)


def test_ends_that_cross_and_bands_without_height_are_refused() -> None:
    for wrong in ((-1, 2, 40), (2, -1, 40), (2, 1, 0), (2, 1, math.nan)):
        with pytest.raises(Refusal, match=r"^(height|opening_above|opening_below): "):
            angle_of_ends(*wrong)
    with pytest.raises(Refusal, match=r"^width: .*at most the girth"):
        opening(301, 300)
