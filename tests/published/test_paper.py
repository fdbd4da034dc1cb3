"""Dots, pixels and inches against published figures."""

import pytest

from generator.trade.paper import canvas_pixels, dots_per_mm, stencil_strips
from tests.published.printed import Printed

PRINTER = "makers of thermal printers: 203 dpi is nominally 8 dots/mm"
CSS = "W3C, CSS Values and Units: 1in = 96px = 25.4mm = 72pt"
A4 = "a4papersize.org and others: A4, 210 × 297 mm, in pixels"


def test_dots_of_a_stencil_printer() -> None:
    assert Printed("7.9921", PRINTER, "B").agrees(dots_per_mm(203))
    assert Printed("8", PRINTER, "B").agrees(dots_per_mm(203))
    assert Printed("0.125", PRINTER, "B").agrees(1 / dots_per_mm(203))


def test_a_css_inch() -> None:
    assert canvas_pixels(25.4, 96) == int(Printed("96", CSS, "A").literal)
    assert canvas_pixels(25.4, 72) == int(Printed("72", CSS, "A").literal)


@pytest.mark.parametrize(
    ("resolution", "wide", "high"),
    [
        (300, Printed("2480", A4, "B"), Printed("3508", A4, "B")),
        (150, Printed("1240", A4, "B"), Printed("1754", A4, "B")),
        (96, Printed("794", A4, "B"), Printed("1123", A4, "B")),
        (72, Printed("595", A4, "B"), Printed("842", A4, "B")),
    ],
)
def test_a4_in_pixels(resolution: float, wide: Printed, high: Printed) -> None:
    assert canvas_pixels(210, resolution) == int(wide.literal)
    assert canvas_pixels(297, resolution) == int(high.literal)


def test_a4_goes_through_a_letter_printer() -> None:
    letter = float(Printed("215.9", "US Letter is 215.9 × 279.4 mm", "B").literal)
    assert stencil_strips(297, 210, letter, 5).number == 1
