"""A value as a source prints it, and how close a computed one must come to it."""

from decimal import Decimal
from typing import NamedTuple


class Printed(NamedTuple):
    """One published value.

    literal: the digits exactly as printed, source: where, sure: A read in the source's own text,
    B read where another page quotes it, C computed and reproducible, P common practice of the trade,
    M from memory.
    """

    literal: str
    source: str
    sure: str

    @property
    def tolerance(self) -> float:
        """Half of the last printed digit."""
        exponent = Decimal(self.literal).as_tuple().exponent
        assert isinstance(exponent, int)
        return 0.5 * 10.0**exponent

    def agrees(self, computed: float) -> bool:
        """Whether the computed value rounds to what is printed."""
        # The last bits of a float must not decide about a value that sits on the edge.
        return abs(float(computed) - float(self.literal)) <= self.tolerance * (1 + 1e-9)
