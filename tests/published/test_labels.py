"""Wire codes against what the trade prints, and a label that a unit parser would misread."""

import pytest

from generator.trade.labels import (
    DISPUTED_WIRE,
    ImpossibleCount,
    NoWireCode,
    UnknownWire,
    read_label,
    wire_diameter,
)
from generator.trade.needles import bugpin
from tests.published.printed import Printed

TABLE = "common practice of the trade, wire codes on boxes"


@pytest.mark.parametrize(
    ("code", "printed"),
    [
        ("08", Printed("0.25", TABLE, "P")),
        ("10", Printed("0.30", TABLE, "P")),
        ("12", Printed("0.35", TABLE, "P")),
        ("14", Printed("0.40", TABLE, "P")),
    ],
)
def test_wire(code: str, printed: Printed) -> None:
    # A table value is meant exactly, not to half its last digit.
    assert wire_diameter(code) == float(printed.literal)


@pytest.mark.parametrize("printed", [Printed("0.20", TABLE, "P"), Printed("0.22", TABLE, "P")])
def test_pages_disagree_about_sixes(printed: Printed) -> None:
    assert printed.literal
    assert DISPUTED_WIRE == ("06",)
    with pytest.raises(UnknownWire):
        wire_diameter("06")


def test_label_order() -> None:
    label = read_label("1207RL")
    assert (label.code, label.count, label.configuration) == ("12", 7, "RL")


@pytest.mark.parametrize("written", ["1203M1", "1203M2", "1203CM", "1203RM"])
def test_two_rows_need_three_needles(written: str) -> None:
    # Geometry: two needles can only stand as one row.
    assert read_label(written).count == 3
    with pytest.raises(ImpossibleCount):
        read_label(written.replace("3", "2", 1))


def test_seven_rl_is_no_volume() -> None:
    # Unit parsers read "7RL" as seven ronnalitres; here it is a label without its wire.
    with pytest.raises(NoWireCode):
        read_label("7RL")


def test_bugpin_is_thirty_hundredths_and_thinner() -> None:
    limit = float(Printed("0.30", TABLE, "P").literal)
    assert bugpin(limit)
    assert bugpin(0.25)
    assert not bugpin(limit + 0.001)
