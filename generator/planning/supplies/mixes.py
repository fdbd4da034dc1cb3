"""A disinfectant as it is mixed: with what a measure or a scale can show, never weaker than asked, hardly stronger."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from generator.planning.computed import Named, Operand, named, recorded, values_of
from generator.quantities import Quantity, from_canonical, printed, shown_in, to_canonical
from generator.records.families import Records
from generator.records.hygiene import Disinfectant
from generator.trade import disinfection
from generator.trade.refusal import Refusal
from generator.units import DECIMALS, MEASURES

SYSTEMS = ("metric", "imperial")


class Measured(NamedTuple):
    """One amount of mix in one system of units: what is taken in mL or g, water in mL, the strength it gives in %."""

    system: str
    function: Callable[..., tuple[float, float]]
    inputs: tuple[tuple[str, Operand], ...]
    taken: float
    kind: str
    water: float
    strength: float

    @property
    def product_in_words(self) -> str:
        """What is taken, in the units of this system, with every digit that was measured."""
        return shown_in(MEASURES[self.system][self.kind], self.taken, self.taken, self.kind)

    @property
    def water_in_words(self) -> str:
        return shown_in(MEASURES[self.system]["volume"], self.water, self.water, "volume")

    @property
    def strength_in_words(self) -> str:
        """To four digits, so that a mix which is a little stronger is seen to be."""
        return f"{self.strength:.4g}\u00a0%"


def measured_mixes(product: Disinfectant, volume: Quantity, records: Records) -> tuple[Measured, ...]:
    """The mix in each system that can measure it, that of the studio first.

    None where the trade's sums refuse, or where no measure comes near. volume: how much mix is wanted.
    """
    systems = sorted(SYSTEMS, key=lambda system: system != records.studio.units)
    found = (measured_mix(product, volume, system, records) for system in systems)
    return tuple(mix for mix in found if not isinstance(mix, Refusal))


def measured_mix(product: Disinfectant, volume: Quantity, system: str, records: Records) -> Measured | Refusal:
    """The mix in one system of units, or why it cannot be made with what that system measures."""
    stock, desired = product.stock, product.mixed_to
    if stock is None or desired is None or product.batch is None or product.mix_life is None:
        return Refusal("product", "ready to use", "a product that is mixed here", "use it as it is")
    powder = product.form == "powder"
    what, kind = ("powder", "weight") if powder else ("product", "volume")
    function: Callable[..., tuple[float, float]] = disinfection.powder_for if powder else disinfection.mix_for
    # About how much it will be decides which measure is taken for it.
    about = volume.low * min(1.0, desired.low / stock.low)
    inputs: dict[str, Operand] = {
        "wanted": recorded(volume),
        what: recorded(stock),
        "desired": recorded(desired),
        f"{what}_step": _step(about, kind, system),
        "water_step": _step(volume.low if powder else volume.low - about, "volume", system),
    }
    try:
        taken, water = function(**values_of(inputs))
        strength = (disinfection.dissolved_strength if powder else disinfection.mixed_strength)(stock.low, taken, water)
    except Refusal as refusal:
        return refusal
    most = records.studio.limits.mix_stronger
    if strength > desired.low * (1 + most.high / 100):
        return Refusal(
            "wanted",
            f"{strength:.3g} % instead of {desired.low:g} %",
            f"at most {most.text} stronger than asked",
            "mix more at once, so that a measure can show it",
        )
    return Measured(system, function, tuple(inputs.items()), taken, kind, water, strength)


def _step(amount: float, kind: str, system: str) -> Named:
    """The last digit that is shown of such an amount in this system, in canonical units."""
    unit = MEASURES[system][kind]
    number = from_canonical(amount, unit)
    digits = next(decimals for below, decimals in DECIMALS[unit] if number < below)
    last = float(f"1e-{digits}")
    return named(to_canonical(last, unit), None, f"{last:g}\u00a0{printed(unit)}")
