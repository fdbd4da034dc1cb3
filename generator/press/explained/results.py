"""What a formula answers, in words with its unit, rounded as the trade does."""

from __future__ import annotations

import datetime
import math
from collections.abc import Callable, Iterable, Mapping, Sequence

from generator.press.words.formatted import calculated, number, spelled, yes_no
from generator.quantities import shown, significant
from generator.records.families import Records
from generator.trade import body, disinfection, labels, shapes, sterilization
from generator.units import KINDS, READ_AS

# The unit that a docstring names -> the kind of quantity that is shown in it. Other units stand behind the number.
_KIND_OF = {unit: kind for kind, (_, unit) in KINDS.items() if kind not in READ_AS} | {
    "degrees": "angle",
    "°C difference": "temperature difference",
}

# Answers of several parts: the unit of each part that has not the unit of the whole.
_PARTS: dict[type, dict[str, str]] = {
    body.Band: {"radius": "mm", "angle": "degrees", "sag": "mm"},
    shapes.Box: dict.fromkeys(("x", "y", "width", "height"), "mm"),
    sterilization.Hold: {"minutes": "min", "lowest": "°C", "highest": "°C"},
    labels.Label: {"needle_diameter": "mm"},
    disinfection.PowderMix: {"powder": "g", "water": "mL"},
}
_SHOWN_OF_MANY = 3
# What docstrings write where a value has no unit.
_NO_UNITS = ("-", "date", "date and time")
# What is measured in steps of one system of units is no longer right when it is rounded in the other.
_OF_ONE_SYSTEM = (disinfection.Mix, disinfection.PowderMix)
# A dose is rounded to the side that makes nothing weaker: product up, water down.
_ROUNDED: dict[str, Callable[[float], float]] = {"g/L": math.ceil, "parts": math.floor}


def kind_of(unit: str) -> str:
    """The kind of quantity that a unit of a docstring belongs to; a plain number where it is none of ours."""
    return _KIND_OF.get(unit, "number")


def number_in_words(low: float, high: float, unit: str, records: Records) -> str:
    """A computed number or range. `unit` is the one that the formula's docstring names."""
    if unit in _KIND_OF:
        return calculated(low, high, _KIND_OF[unit], records)
    if unit in _ROUNDED:
        low, high = (_to_the_safe_side(value, _ROUNDED[unit]) for value in (low, high))
    text = _plain(low) if low == high else f"{_plain(low)}–{_plain(high)}"
    if unit == "fraction":
        return f"{low * 100:.0f}\u00a0%"
    # A unit of its own, such as points.
    return text if unit in _NO_UNITS else f"{text}\u00a0{unit}"


def in_words(answer: object, unit: str, records: Records) -> str:
    """Any answer of a formula: a number, a day, a word, or several of them under their names."""
    if answer is None:
        return "none"
    if isinstance(answer, bool):
        return yes_no(answer)
    if isinstance(answer, int | float):
        return number_in_words(answer, answer, unit, records)
    if isinstance(answer, datetime.datetime):
        return f"{answer:%Y-%m-%d, %H:%M}"
    if isinstance(answer, datetime.date):
        return answer.isoformat()
    if isinstance(answer, str):
        return answer
    if isinstance(answer, Mapping):
        return _mapping(answer, unit, records)
    if names := _names(answer):
        units = _PARTS.get(type(answer), {})
        parts = [(getattr(answer, name), units.get(name, unit)) for name in names]
        if isinstance(answer, _OF_ONE_SYSTEM) and all(of in _KIND_OF for _, of in parts):
            said = [shown(part, part, _KIND_OF[of], records.studio.shows) for part, of in parts]
        else:
            said = [in_words(part, of, records) for part, of in parts]
        return "; ".join(f"{spelled(name)} {words}" for name, words in zip(names, said, strict=True))
    assert isinstance(answer, Iterable)
    return _list(tuple(answer), unit, records)


def _names(answer: object) -> tuple[str, ...]:
    """The parts of an answer that has names for them."""
    return getattr(answer, "_fields", None) or tuple(getattr(answer, "__dataclass_fields__", ()))


def _mapping(answer: Mapping[object, object], unit: str, records: Records) -> str:
    said = [f"{spelled(str(key))}: {in_words(value, unit, records)}" for key, value in answer.items()]
    # Whole boxes one after the other are no help; the first ones show what is meant.
    if any(_names(value) for value in answer.values()) and len(said) > _SHOWN_OF_MANY:
        return "; ".join([*said[: _SHOWN_OF_MANY - 1], f"{len(said)} in all"])
    return "; ".join(said) or "none"


def _list(answer: Sequence[object], unit: str, records: Records) -> str:
    several = [item for item in answer if isinstance(item, tuple) and not _names(item)]
    if answer and len(several) == len(answer):
        pairs = [" and ".join(in_words(part, unit, records) for part in item) for item in several[:_SHOWN_OF_MANY]]
        more = f"; {len(answer)} in all" if len(answer) > _SHOWN_OF_MANY else ""
        return "; ".join(pairs) + more
    return ", ".join(in_words(item, unit, records) for item in answer) or "none"


def _to_the_safe_side(value: float, rounded: Callable[[float], float]) -> float:
    """Three digits as `_plain` shows them, of which the last is rounded up or down."""
    step = 10.0 ** (math.floor(math.log10(abs(value))) - 2) if value and math.isfinite(value) else 1.0
    # Nine digits, so that the last bits of a float do not add a step.
    return significant(rounded(round(value / step, 9)) * step)


def _plain(value: float) -> str:
    """Three digits are enough to follow an example; what is counted stays whole."""
    if value == int(value) or not math.isfinite(value):
        return f"{value:.0f}"
    return number(float(f"{value:.3g}"))
