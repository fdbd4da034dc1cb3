"""The scale of scars against its published bands."""

import pytest

from generator.trade.refusal import Refusal
from generator.trade.scars import scar_scale_total
from tests.published.printed import Document

SULLIVAN = Document(
    "Rating the burn scar, Journal of Burn Care and Rehabilitation 11, 256–260", "Sullivan and colleagues", 1990
).at("items of the scale", "B")
BARYZA = Document(
    "The Vancouver Scar Scale: an administration tool, Journal of Burn Care and Rehabilitation 16, 535–538",
    "Baryza and Baryza",
    1995,
).at("items of the scale", "B")
HIGHEST = {
    "pigmentation": SULLIVAN("2"),
    "vascularity": SULLIVAN("3"),
    "pliability": SULLIVAN("5"),
    "height": SULLIVAN("3"),
}
TOTAL = SULLIVAN("13")
OTHER_PIGMENTATION, OTHER_TOTAL = BARYZA("3"), BARYZA("14")


def test_the_highest_total() -> None:
    assert scar_scale_total(**{item: int(value.literal) for item, value in HIGHEST.items()}) == int(TOTAL.literal)


@pytest.mark.parametrize("item", HIGHEST)
def test_one_more_is_off_the_scale(item: str) -> None:
    scores = dict.fromkeys(HIGHEST, 0)
    scores[item] = int(HIGHEST[item].literal) + 1
    with pytest.raises(Refusal, match=r"^(height|pigmentation|pliability|vascularity): "):
        scar_scale_total(**scores)


def test_a_score_of_the_other_form_is_refused_by_name() -> None:
    scores = {item: int(value.literal) for item, value in HIGHEST.items()}
    scores["pigmentation"] = int(OTHER_PIGMENTATION.literal)
    assert sum(scores.values()) == int(OTHER_TOTAL.literal)
    with pytest.raises(Refusal, match="Sullivan 1990"):
        scar_scale_total(**scores)
