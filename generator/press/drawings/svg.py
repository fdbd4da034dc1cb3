"""Numbers as drawings write them."""

from __future__ import annotations


def n(number: float) -> str:
    """A coordinate with two decimals at most."""
    return f"{number:.2f}".rstrip("0").rstrip(".")
