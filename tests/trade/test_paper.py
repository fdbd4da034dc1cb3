import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.paper import canvas_pixels, dots_per_mm, stencil_sheets, strips_across, will_close
from generator.trade.refusal import Refusal

UNITS = pint.get_application_registry()
SIDES = st.floats(10, 1500)
PRINTERS = st.floats(50, 300)
OVERLAPS = st.floats(0, 20)


@given(SIDES, PRINTERS, OVERLAPS)
def test_the_strips_reach_and_none_is_wasted(side: float, printer: float, overlap: float) -> None:
    number = strips_across(side, printer, overlap)
    assert number * (printer - overlap) + overlap >= side - 1e-6
    if number > 1:
        assert (number - 1) * (printer - overlap) + overlap < side + 1e-6


@given(SIDES, SIDES, PRINTERS, PRINTERS, OVERLAPS)
def test_the_better_way_is_never_worse_than_either(
    width: float, height: float, wide: float, long: float, overlap: float
) -> None:
    best = stencil_sheets(width, height, wide, long, overlap)
    upright = strips_across(width, wide, overlap) * strips_across(height, long, overlap)
    turned = strips_across(height, wide, overlap) * strips_across(width, long, overlap)
    assert best == min(upright, turned) == stencil_sheets(height, width, wide, long, overlap)


def test_an_exact_fit_costs_no_strip() -> None:
    assert strips_across(200.0 * 3 - 2 * 5.1, 200.0, 5.1) == 3
    assert strips_across(200.0, 200.0, 5.0) == 1
    assert strips_across(200.001, 200.0, 5.0) == 2


def test_a_long_piece_lies_along_the_sheet() -> None:
    # A4 is 210 mm by 297 mm (ISO 216), so with 5 mm over each other n sheets reach 205 n + 5 across, 292 n + 5 along.
    assert stencil_sheets(280, 180, 210, 297, 5) == 1  # turned: 1 across 180, 1 along 280
    assert stencil_sheets(400, 250, 210, 297, 5) == 2  # upright: 2 across 400, 1 along 250; turned it would be 2 by 2
    assert stencil_sheets(400, 310, 210, 297, 5) == 4  # 2 by 2 either way


@given(SIDES, st.floats(72, 1200))
def test_pixels_cover_the_side_to_half_a_pixel(side: float, resolution: float) -> None:
    dots = dots_per_mm(resolution)
    assert abs(canvas_pixels(side, resolution) / dots - side) <= 0.5001 / dots


@given(st.floats(0.1, 10), st.floats(0.1, 5))
def test_gaps(gap: float, limit: float) -> None:
    assert will_close(gap, limit) == (gap < limit)
    assert not will_close(limit, limit)


def test_dimensions() -> None:
    mm = UNITS.mm
    assert strips_across(40 * UNITS.cm, 210 * mm, 5 * mm) == 2
    assert stencil_sheets(40 * UNITS.cm, 180 * mm, 210 * mm, 297 * mm, 5 * mm) == 2
    assert dots_per_mm(203 / UNITS.inch).check("1/[length]")
    assert will_close(0.1 * UNITS.cm, 1.5 * mm)


@pytest.mark.parametrize("senseless", [0.0, -1.0, math.nan, math.inf])
def test_senseless_numbers_are_refused(senseless: float) -> None:
    for sides in ((senseless, 210.0), (300.0, senseless)):
        with pytest.raises(Refusal, match=r"^(printer_width|side): "):
            strips_across(*sides, 5.0)
        with pytest.raises(Refusal, match=r"^(gap|limit): "):
            will_close(*sides)
    with pytest.raises(Refusal, match=r"^side: "):
        stencil_sheets(100.0, senseless, 210.0, 297.0, 5.0)
    with pytest.raises(Refusal, match=r"^length: "):
        canvas_pixels(senseless, 300)
    with pytest.raises(Refusal, match=r"^dots_per_inch: "):
        canvas_pixels(100.0, senseless)
    with pytest.raises(Refusal, match=r"^dots_per_inch: "):
        dots_per_mm(senseless)


@pytest.mark.parametrize("overlap", [-1.0, 210.0, math.nan, math.inf])
def test_an_overlap_that_brings_nothing_is_refused(overlap: float) -> None:
    with pytest.raises(Refusal, match=r"^overlap: "):
        strips_across(300.0, 210.0, overlap)
