"""Bundles of needles against the published packings of equal circles in a circle."""

import math

import pytest

from generator.trade.needle_positions import ring_positions, round_positions, weaved_positions
from generator.trade.needles import LARGEST_ROUND, hollow_ring, tightest_bundle, tightest_packing
from tests.published.printed import Document, Printed

# Ratio of the enclosing radius to the circle's, for 1 to 20 circles.
BIRGIN = Document(
    "New and improved results for packing identical unitary radius circles within triangles, rectangles and strips, "
    "Computers & Operations Research 37, 1318–1327",
    "Birgin and Gentil",
    2010,
).table("numerical results, circles in a circle")
RATIOS = tuple(
    map(
        BIRGIN,
        (
            "1",
            "2",
            "2.1547005384",
            "2.4142135624",
            "2.7013016167",
            "3",
            "3",
            "3.3047648710",
            "3.6131259298",
            "3.8130256314",
            "3.9238044002",
            "4.0296019301",
            "4.2360679775",
            "4.3284285549",
            "4.5213569647",
            "4.6154255949",
            "4.7920337483",
            "4.8637033052",
            "4.8637033052",
            "5.1223207370",
        ),
    )
)

OEIS = "The On-Line Encyclopedia of Integer Sequences"


def decimals(name: str, title: str, year: int) -> Document:
    return Document(f"{name}, decimal expansion of {title}", OEIS, year)


# The year is that in which the entry was made or the remark about circles was written.
SODDY = decimals("A176053", "(3 + 2 sqrt(3)) / 3", 2010).at("example")("2.15470053837925152901")
SILVER = decimals("A014176", "1 + sqrt(2)", 2013).at("remark on circles")("2.41421356237309504880")
FIVE = decimals("A121570", "csc(Pi/5)", 2006).at("digits, and remark on 5 circles")("1.70130161670407986436")
SEVEN = decimals("A367480", "the radius of a circle surrounded by seven", 2023).at("example")("1.3047648709624865052")
NINE = decimals("A121601", "csc(Pi/8)", 2006).at("example, and remark on 9 circles")("2.61312592975275305571")
TEN = decimals("A281115", "the greatest separation of ten points in a circle", 2017).at("remarks")
ELEVEN = decimals("A121602", "csc(Pi/9)", 2006).at("example, and remark on 11 circles")("2.92380440016308725223")
PHI = decimals("A098317", "2 + sqrt(5) = 1 + csc(Pi/10)", 2012).at("digits")("4.23606797749978969640")
SEPARATION, RADIUS_OF_TEN, PART_OF_TEN = TEN("0.71097823556124655083"), TEN("3.81302563"), TEN("0.26225892")

# Who proved which radius, as an encyclopaedia quotes it: three decimals, cut off and not rounded.
GRAHAM = Document("Sets of points with given minimum separation, American Mathematical Monthly 75", "Graham", 1968)
PIRL = Document(
    "Der Mindestabstand von n in der Einheitskreisscheibe gelegenen Punkten, Mathematische Nachrichten 40", "Pirl", 1969
)
MELISSEN = Document(
    "Densest packings of eleven congruent circles in a circle, Geometriae Dedicata 50", "Melissen", 1994
)
FODOR_19 = Document("The densest packing of 19 congruent circles in a circle, Geometriae Dedicata 74", "Fodor", 1999)
FODOR_12 = Document("The densest packing of 12 congruent circles in a circle", "Fodor", 2000)
FODOR_13 = Document("The densest packing of 13 congruent circles in a circle", "Fodor", 2003)
PROVED = {
    5: GRAHAM.at("5 circles", "B")("2.701"),
    6: GRAHAM.at("6 circles", "B")("3.000"),
    8: PIRL.at("8 circles", "B")("3.304"),
    9: PIRL.at("9 circles", "B")("3.613"),
    10: PIRL.at("10 circles", "B")("3.813"),
    11: MELISSEN.at("11 circles", "B")("3.923"),
    12: FODOR_12.at("12 circles", "B")("4.029"),
    13: FODOR_13.at("13 circles", "B")("4.236"),
    19: FODOR_19.at("19 circles", "B")("4.863"),
}


def reach(places: tuple[tuple[float, float], ...]) -> float:
    """Radius of the circle around the middle that holds all needles of diameter 2."""
    return max(math.hypot(x, y) for x, y in places) + 1


def nearest(places: tuple[tuple[float, float], ...]) -> float:
    """The smallest distance of two needles."""
    return min((math.dist(one, other) for n, one in enumerate(places) for other in places[:n]), default=math.inf)


@pytest.mark.parametrize(("count", "printed"), list(enumerate(RATIOS, start=1)))
def test_ratio(count: int, printed: Printed) -> None:
    assert printed.agrees(tightest_packing(count).ratio)
    if "." not in printed.literal:
        assert tightest_packing(count).ratio == printed.number


@pytest.mark.parametrize("count", PROVED)
def test_radii_that_were_proved(count: int) -> None:
    packing = tightest_packing(count)
    assert f"{math.floor(packing.ratio * 1000) / 1000:.3f}" == PROVED[count].literal
    assert packing.standing == f"proved, {PROVED[count].document.body} {PROVED[count].document.year}"


def test_the_table_goes_as_far_as_the_published_one() -> None:
    assert len(RATIOS) == LARGEST_ROUND == 20


@pytest.mark.parametrize(("count", "printed"), list(enumerate(RATIOS, start=1)))
def test_a_drawn_round_fills_its_circle_and_no_more(count: int, printed: Printed) -> None:
    """No needle in another, and none beyond the tightest circle."""
    places = round_positions(count, 2.0)
    assert len(places) == count
    assert reach(places) == pytest.approx(printed.number, abs=5e-10)
    assert nearest(places) >= 2 - 1e-9


# What is added to the digits is said in the remark: the ring's circle, or the circle in the middle.
@pytest.mark.parametrize(
    ("count", "digits", "more"),
    [(3, SODDY, 0), (4, SILVER, 0), (5, FIVE, 1), (9, NINE, 1), (11, ELEVEN, 1), (13, PHI, 0)],
)
def test_rounds_against_another_source(count: int, digits: Printed, more: int) -> None:
    assert tightest_packing(count).ratio == pytest.approx(digits.number + more, abs=1e-9)
    assert tightest_bundle(count, 0.35) == pytest.approx(0.35 * (digits.number + more), abs=1e-9)


@pytest.mark.parametrize(
    ("count", "digits", "more"),
    [(4, SILVER, 0), (5, FIVE, 1), (7, SEVEN, 2), (8, NINE, 1), (9, ELEVEN, 1), (10, PHI, 0)],
)
def test_hollow_rings(count: int, digits: Printed, more: int) -> None:
    """Circles round a middle one touch each other: its radius is csc(π/n) − 1, and that of all csc(π/n) + 1."""
    assert hollow_ring(count, 1.0) == pytest.approx(digits.number + more, abs=1e-12)
    assert reach(ring_positions(count, 2.0)) == pytest.approx(digits.number + more, abs=1e-9)


def test_ten_needles() -> None:
    """The radius is 1 + 2 / d, where d is how far ten points in the unit circle can lie apart."""
    ratio = tightest_packing(10).ratio
    assert 2 / (ratio - 1) == pytest.approx(SEPARATION.number, abs=1e-10)
    assert RADIUS_OF_TEN.agrees(ratio)
    assert PART_OF_TEN.agrees(1 / ratio)


def test_rows_of_a_magnum_stand_as_three_circles_that_touch() -> None:
    """The outer Soddy circle of three is as large as the ratio: its middle lies ratio − 1 from theirs."""
    places = weaved_positions(3, 2.0, 1.0)
    rows = sorted({round(y, 9) for _, y in places})
    # Two thirds of the height of the triangle of their middles.
    assert (rows[1] - rows[0]) * 2 / 3 == pytest.approx(SODDY.number - 1, abs=1e-9)
