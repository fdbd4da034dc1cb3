"""Ink against published and common figures."""

from generator.trade.supplies import ink_caps, ink_millilitres
from tests.published.printed import Printed


def test_house_rate_and_caps() -> None:
    # 0.1 mL/cm² on 50 cm² is 5 mL: six caps of 0.9 mL.
    volume = ink_millilitres(50 * 100, 0.1 / 100)
    assert Printed("5.0", "arithmetic", "C").agrees(volume)
    assert ink_caps([volume], 0.9) == 6
