import math

import pint
import pytest

from generator.trade._bounds import positive, zero_or_more

UNITS = pint.get_application_registry()


@pytest.mark.parametrize("senseless", [math.nan, math.inf, -math.inf, -1.0])
def test_neither_takes_what_is_no_amount(senseless: float) -> None:
    assert not positive(senseless)
    assert not zero_or_more(senseless)
    assert not positive(senseless * UNITS.mm)
    assert not zero_or_more(senseless * UNITS.mm)


def test_they_differ_at_nothing() -> None:
    assert positive(1e-12)
    assert not positive(0.0)
    assert zero_or_more(0.0)
    assert zero_or_more(0.0 * UNITS.mm)
