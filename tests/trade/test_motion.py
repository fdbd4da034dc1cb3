import itertools
import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.motion import (
    OTHER_DRIVES,
    SINE_DRIVES,
    DepthBeyondStroke,
    NoFrequency,
    NoHandSpeed,
    NoMark,
    NoSpacing,
    NoStroke,
    NotASineDrive,
    frequency_of,
    hand_speed_for_spacing,
    mean_tip_speed,
    needle_down_share,
    overlap,
    peak_acceleration,
    peak_tip_speed,
    spacing,
    strokes_per_minute,
    tip_motion,
)

UNITS = pint.UnitRegistry()
FREQUENCIES = st.floats(1, 300)
STROKES = st.floats(0.5, 6)
SENSELESS = [0.0, -1.0, math.nan, math.inf]


@given(FREQUENCIES)
def test_strokes_a_minute_and_back(frequency: float) -> None:
    assert frequency_of(strokes_per_minute(frequency)) == pytest.approx(frequency)


@given(st.floats(0, 100), FREQUENCIES)
def test_spacing_and_hand_speed_undo_each_other(hand_speed: float, frequency: float) -> None:
    assert hand_speed_for_spacing(spacing(hand_speed, frequency), frequency) == pytest.approx(hand_speed)


@given(st.floats(0.1, 5), st.floats(0.01, 5))
def test_overlap_is_one_where_marks_just_touch(mark_width: float, distance: float) -> None:
    assert overlap(mark_width, mark_width) == 1
    assert (overlap(mark_width, distance) > 1) == (mark_width > distance)


@given(STROKES, FREQUENCIES)
def test_the_sine_agrees_with_its_own_steps(stroke: float, frequency: float) -> None:
    steps = 20_000
    path = [stroke / 2 * (1 - math.cos(2 * math.pi * i / steps)) for i in range(0, steps + 1, 10)]
    pause = 10 / steps / frequency
    fastest = max(abs(b - a) for a, b in itertools.pairwise(path)) / pause
    assert peak_tip_speed(stroke, frequency) == pytest.approx(fastest, rel=1e-4)
    way = sum(abs(b - a) for a, b in itertools.pairwise(path))
    assert mean_tip_speed(stroke, frequency) == pytest.approx(way * frequency, rel=1e-6)
    hardest = abs(path[2] - 2 * path[1] + path[0]) / pause**2 / 1000
    assert peak_acceleration(stroke, frequency) == pytest.approx(hardest, rel=1e-4)


@given(STROKES, st.floats(0, 1))
def test_share_in_the_skin_by_counting(stroke: float, part: float) -> None:
    depth = part * stroke
    steps = 10_001
    # Measured from the deepest point, the tip is in the skin while it is less than the depth away.
    inside = sum(stroke / 2 * (1 - math.cos(2 * math.pi * i / steps)) < depth for i in range(steps))
    assert needle_down_share(depth, stroke) == pytest.approx(inside / steps, abs=2e-4)


@given(STROKES)
def test_share_at_both_ends(stroke: float) -> None:
    assert needle_down_share(0.0, stroke) == 0
    assert needle_down_share(stroke, stroke) == 1


@pytest.mark.parametrize("drive", SINE_DRIVES)
def test_a_drive_that_fits(drive: str) -> None:
    motion = tip_motion(drive, 3.5, 95.0, 1.5)
    assert motion.peak_speed == peak_tip_speed(3.5, 95.0)
    assert motion.mean_speed == mean_tip_speed(3.5, 95.0)
    assert motion.peak_acceleration == peak_acceleration(3.5, 95.0)
    assert motion.down_share == needle_down_share(1.5, 3.5)


@pytest.mark.parametrize("drive", [*OTHER_DRIVES, "", "rotary", "Coil"])
def test_other_drives_are_refused(drive: str) -> None:
    with pytest.raises(NotASineDrive) as refused:
        tip_motion(drive, 3.5, 95.0, 1.5)
    assert ("sine" in refused.value.remedy) == (drive in OTHER_DRIVES)


def test_dimensions() -> None:
    speed, frequency, stroke = 8 * UNITS.mm / UNITS.s, 95 / UNITS.s, 3.5 * UNITS.mm
    assert strokes_per_minute(frequency).check("1/[time]")
    assert frequency_of(frequency).check("1/[time]")
    assert spacing(speed, frequency).check("[length]")
    assert hand_speed_for_spacing(0.1 * UNITS.mm, frequency).check("[speed]")
    assert overlap(0.5 * UNITS.mm, 0.1 * UNITS.cm).check("[]")
    assert peak_tip_speed(stroke, frequency).check("[speed]")
    assert mean_tip_speed(stroke, frequency).check("[speed]")
    assert peak_acceleration(stroke, frequency).check("[acceleration]")
    assert needle_down_share(0.15 * UNITS.cm, stroke) == pytest.approx(needle_down_share(1.5, 3.5))


@pytest.mark.parametrize("senseless", SENSELESS)
def test_senseless_numbers_are_refused(senseless: float) -> None:
    for refused in (strokes_per_minute, frequency_of):
        with pytest.raises(NoFrequency):
            refused(senseless)
    with pytest.raises(NoFrequency):
        spacing(8.0, senseless)
    with pytest.raises(NoFrequency):
        hand_speed_for_spacing(0.1, senseless)
    with pytest.raises(NoSpacing):
        overlap(0.5, senseless)
    with pytest.raises(NoMark):
        overlap(senseless, 0.1)
    for model in (peak_tip_speed, mean_tip_speed, peak_acceleration):
        with pytest.raises(NoStroke):
            model(senseless, 95.0)
        with pytest.raises(NoFrequency):
            model(3.5, senseless)
    with pytest.raises(NoStroke):
        needle_down_share(1.0, senseless)


@pytest.mark.parametrize("senseless", SENSELESS[1:])
def test_a_resting_hand_is_fine_but_nothing_less(senseless: float) -> None:
    assert spacing(0.0, 95.0) == 0
    assert hand_speed_for_spacing(0.0, 95.0) == 0
    with pytest.raises(NoHandSpeed):
        spacing(senseless, 95.0)
    with pytest.raises(NoSpacing):
        hand_speed_for_spacing(senseless, 95.0)


@pytest.mark.parametrize("depth", [3.500001, -0.1, math.nan, math.inf])
def test_a_depth_the_stroke_cannot_reach_is_refused(depth: float) -> None:
    with pytest.raises(DepthBeyondStroke):
        needle_down_share(depth, 3.5)
