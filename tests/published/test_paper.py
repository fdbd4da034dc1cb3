"""Dots, pixels and inches against published figures."""

import pytest

from generator.trade.paper import canvas_pixels, dots_per_mm
from tests.published.printed import Document, Printed

CSS_2 = Document("Cascading Style Sheets, Level 2 Revision 1", "World Wide Web Consortium", 2004).at(
    "4.3.2, lengths, the reference pixel", "B"
)
PNG_GUIDE = Document("PNG: The Definitive Guide", "O'Reilly", 1999).at("chapter 11, physical pixel dimensions")
PNG = Document("Portable Network Graphics Specification, version 1.2", "PNG Development Group", 1999).at(
    "4.2.4.2, pHYs", "B"
)
# The pages that were read name no year.
PRINTER = Document("Resolution of stencil printers", "makers of thermal printers", None).at("203 dpi", "B")
A4 = Document("A4 paper size in pixels", "a4papersize.org", None).table("pixels", "B")

PIXEL, LASER = CSS_2("0.26"), CSS_2("0.25")
PER_METRE, STORED = PNG_GUIDE("23622.05"), PNG_GUIDE("23622")
INCH = PNG("0.0254")
EXACT, NOMINAL, DOT = PRINTER("7.9921"), PRINTER("8"), PRINTER("0.125")


def test_dots_of_a_stencil_printer() -> None:
    assert EXACT.agrees(dots_per_mm(203))
    assert NOMINAL.agrees(dots_per_mm(203))
    assert DOT.agrees(1 / dots_per_mm(203))


def test_a_pixel_at_arms_length_and_three_dots_of_a_laser_printer() -> None:
    assert PIXEL.agrees(1 / dots_per_mm(96))
    assert LASER.agrees(3 / dots_per_mm(300))


def test_600_dots_per_inch_in_metres() -> None:
    assert PER_METRE.agrees(dots_per_mm(600) * 1000)
    assert canvas_pixels(1000, 600) == int(STORED.literal)


def test_an_inch_is_an_inch() -> None:
    assert canvas_pixels(INCH.number * 1000, 96) == 96
    assert canvas_pixels(INCH.number * 1000, 72) == 72


@pytest.mark.parametrize(
    ("resolution", "wide", "high"),
    [
        (300, A4("2480"), A4("3508")),
        (150, A4("1240"), A4("1754")),
        (96, A4("794"), A4("1123")),
        (72, A4("595"), A4("842")),
    ],
)
def test_a4_in_pixels(resolution: float, wide: Printed, high: Printed) -> None:
    assert canvas_pixels(210, resolution) == int(wide.literal)
    assert canvas_pixels(297, resolution) == int(high.literal)
