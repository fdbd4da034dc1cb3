"""The sine model and strokes per minute against figures outside the project."""

from generator.trade.motion import (
    frequency_of,
    mean_tip_speed,
    needle_down_share,
    peak_acceleration,
    peak_tip_speed,
    strokes_per_minute,
)
from tests.published.printed import Printed

HARMONIC = "simple harmonic motion, computed by hand, reproducible"
BROCHURE = "SI Brochure, units accepted for use with the SI: 1 min = 60 s"
TRIGONOMETRY = "table of cosines: cos 60° = 1/2, cos 90° = 0"


def test_three_millimetres_at_a_hundred_strokes() -> None:
    # Published in m/s; the tip's speed is in mm/s here.
    assert Printed("0.94248", HARMONIC, "C").agrees(peak_tip_speed(3.0, 100.0) / 1000)
    assert Printed("0.6000", HARMONIC, "C").agrees(mean_tip_speed(3.0, 100.0) / 1000)
    assert Printed("592.18", HARMONIC, "C").agrees(peak_acceleration(3.0, 100.0))


def test_two_millimetres_at_fifty_strokes() -> None:
    assert Printed("0.31416", HARMONIC, "C").agrees(peak_tip_speed(2.0, 50.0) / 1000)


def test_strokes_a_minute() -> None:
    assert Printed("60", BROCHURE, "M").agrees(strokes_per_minute(1.0))
    # A unit library that takes strokes for revolutions makes 628 Hz (radians) out of these.
    assert Printed("100", "6000 strokes a minute are 100 a second", "C").agrees(frequency_of(6000.0))


def test_share_in_the_skin() -> None:
    assert Printed("0.3333", TRIGONOMETRY, "M").agrees(needle_down_share(1.0, 4.0))
    assert Printed("0.5000", TRIGONOMETRY, "M").agrees(needle_down_share(2.0, 4.0))
    assert Printed("0.6667", TRIGONOMETRY, "M").agrees(needle_down_share(3.0, 4.0))
