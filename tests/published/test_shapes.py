"""Areas against published figures."""

import pytest

from generator.trade.shapes import Ellipse, Outline, area
from tests.published.printed import Document, Printed
from tests.published.test_needles import OEIS

QUARTER_PI = Document("A003881, decimal expansion of Pi/4", OEIS, 2013).at("remark on the circle in its square")(
    "0.785398163397448309615660845819875721"
)
PI = Document("A000796, decimal expansion of Pi", OEIS, 2025).at("remark on the area of the unit circle")(
    "3.1415926535897932384626433832795028841971"
)
POSTGIS = Document("PostGIS 1.5 manual, ST_Area", "The PostGIS project", 2010).at("examples")
ARCMAP = Document("ArcMap 10.7 help, ST_Area", "Esri", 2019).at("examples")
FOOT = 0.3048


def test_the_area_of_a_circle() -> None:
    assert area(Ellipse(0, 0, 1, 1)) == pytest.approx(QUARTER_PI.number, abs=1e-12)
    assert area(Ellipse(0, 0, 2, 2)) == pytest.approx(PI.number, abs=1e-12)


PLOT = ((743238, 2967416), (743238, 2967450), (743265, 2967450), (743265.625, 2967416))


@pytest.mark.parametrize(("unit", "printed"), [(1, POSTGIS("928.625")), (FOOT, POSTGIS("86.27208552"))])
def test_a_plot_in_feet_and_in_metres(unit: float, printed: Printed) -> None:
    corners = tuple(((x - 743238) * unit, (y - 2967416) * unit) for x, y in PLOT)
    assert area(Outline(corners)) == pytest.approx(printed.number, abs=1e-8)


@pytest.mark.parametrize(
    ("corners", "printed"),
    [
        (((0, 0), (0, 10), (10, 10), (10, 0)), ARCMAP("100")),
        (((20, 0), (30, 20), (40, 0)), ARCMAP("200")),
        (((20, 30), (25, 35), (30, 30)), ARCMAP("25")),
    ],
)
def test_footprints(corners: tuple[tuple[float, float], ...], printed: Printed) -> None:
    assert area(Outline(corners)) == printed.number
