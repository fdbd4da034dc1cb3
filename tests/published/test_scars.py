"""The scale of scars against its published bands."""

from datetime import date

import pytest

from generator.trade.scars import (
    OffTheScarScale,
    Wound,
    earliest_date_by_age,
    maturity_months,
    scar_scale_total,
)
from tests.published.printed import Printed

SULLIVAN = "Vancouver Scar Scale, form of Sullivan 1990, two printed copies agree"
HIGHEST = {"pigmentation": "2", "vascularity": "3", "pliability": "5", "height": "3"}


def test_the_highest_total() -> None:
    highest = {item: int(Printed(literal, SULLIVAN, "B").literal) for item, literal in HIGHEST.items()}
    assert Printed("13", SULLIVAN, "B").agrees(scar_scale_total(**highest))


@pytest.mark.parametrize("item", HIGHEST)
def test_one_more_is_off_the_scale(item: str) -> None:
    scores = dict.fromkeys(HIGHEST, 0)
    scores[item] = int(HIGHEST[item]) + 1
    with pytest.raises(OffTheScarScale):
        scar_scale_total(**scores)


def test_a_score_of_the_other_form_is_refused_by_name() -> None:
    # Baryza 1995 counts pigmentation 0 to 3 and a total of 14 (B).
    with pytest.raises(OffTheScarScale, match="Sullivan 1990"):
        scar_scale_total(pigmentation=3, vascularity=3, pliability=5, height=3)


# How long to wait before a scar is tattooed is no published limit: 12 to 18 months at least, up to a full
# year, 6 months to 2 years (general article, clinic, surgeon: P). The range is counted, none of it clears.
@pytest.mark.parametrize(
    ("months", "earliest"),
    [(6, date(2024, 12, 30)), (12, date(2025, 6, 30)), (18, date(2025, 12, 30)), (24, date(2026, 6, 30))],
)
def test_the_range_of_waiting(months: int, earliest: date) -> None:
    wound = Wound(2024, 6)
    assert earliest_date_by_age(wound, months) == earliest
    assert maturity_months(wound, earliest) == months
