"""What the consumables of a piece cost, by the prices on file: the share of each pack and bottle that is used up.

Nothing is guessed for what has no price; it is named beside the sum, so that a sum of half the tray is not taken for
the whole. A wash is counted at the bottle that it is mixed of.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.planning.computed import Computed, Value, compute, recorded, total
from generator.planning.supplies.tray import Tray
from generator.records.families import Records


@dataclass(frozen=True, slots=True)
class Cost:
    """The sum in the studio's currency, and the names of what has no price on file."""

    currency: str
    amount: Computed
    without_price: tuple[str, ...]


def cost_of(records: Records, tray: Tray) -> Cost | None:
    """What a tray costs; None where no price is on file, or no currency."""
    currency = records.studio.currency
    parts = list(_parts(tray))
    priced: list[Value] = [amount for _, amount in parts if amount is not None]
    if currency is None or not priced:
        return None
    lacking = tuple(dict.fromkeys(name for name, amount in parts if amount is None))
    return Cost(currency, total(priced, "number"), lacking)


def _parts(tray: Tray) -> Iterator[tuple[str, Computed | None]]:
    """Each article and ink that is used up, with what it costs where that is known."""
    for article in tray.supplies:
        supply = article.supply
        if article.instead:
            continue  # it stays off the tray
        if supply.price is None:
            yield supply.name, None
        else:
            price, pack = recorded(supply.price), recorded(supply.pack)
            yield supply.name, compute(part_of_a_pack, "number", used=article.number, pack=pack, price=price)
    for poured in tray.inks:
        ink = poured.ink
        if ink.mixed is not None:
            continue
        if ink.price is None or ink.shelf is None:
            yield ink.name, None
        else:
            price, bottle = recorded(ink.price), recorded(ink.shelf.bottle)
            yield ink.name, compute(part_of_a_bottle, "number", poured=poured.millilitres, bottle=bottle, price=price)


def part_of_a_pack(used: float, pack: float, price: float) -> float:
    """used / pack · price: what is used of a pack, at the price of a pack."""
    return used / pack * price


def part_of_a_bottle(poured: float, bottle: float, price: float) -> float:
    """poured / bottle · price: what is poured of a bottle, at the price of a bottle."""
    return poured / bottle * price
