"""What a number with a unit is: how it is written, what kind it is, how it converts, how it is shown.

This is the only module that imports pint. Text that a person wrote is matched against a grammar and an
allow-list of units first; pint only ever sees the names in `UNITS`, and builds the factors from them.
Inside the program every value is a float in its kind's canonical unit, rounded to nine significant digits.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, NamedTuple

import pint

from generator.diagnostics import Place
from generator.units import KINDS as KINDS
from generator.units import SHOWN as SHOWN
from generator.units import SPELLINGS
from generator.units import UNITS as UNITS

SIGNIFICANT_DIGITS = 9

_REGISTRY: Any = pint.UnitRegistry(cache_folder=None)


def _linear(unit: str) -> tuple[float, float]:
    """Factor and offset that take a number in this unit to its kind's canonical unit."""
    kind, name = UNITS[unit]
    target = UNITS[KINDS[kind][1]][1]
    if kind == "temperature":
        at = [_REGISTRY.Quantity(x, name).to(target).magnitude for x in (0.0, 1.0)]
        return at[1] - at[0], at[0]
    return float((_REGISTRY.Quantity(1.0, name) / _REGISTRY.Quantity(1.0, target)).to("").magnitude), 0.0


_FACTORS = {unit: _linear(unit) for unit in UNITS}


def to_canonical(number: float, unit: str) -> float:
    """A number in one of `UNITS` as its kind's canonical unit, to nine significant digits."""
    factor, offset = _FACTORS[unit]
    return significant(number * factor + offset)


def from_canonical(number: float, unit: str) -> float:
    """The canonical value of a kind as a number in one of `UNITS`."""
    factor, offset = _FACTORS[unit]
    return significant((number - offset) / factor)


def significant(number: float) -> float:
    """Rounded to nine significant digits, so that millimetres and inches of the same thing are equal."""
    return float(f"{number:.{SIGNIFICANT_DIGITS}g}")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value or a range of one kind, in the kind's canonical unit; `text` and `place` are where it was written."""

    low: float
    high: float
    kind: str
    text: str = field(default="", compare=False)
    place: Place | None = field(default=None, compare=False, repr=False)

    @property
    def value(self) -> float:
        """The one value; ask only where the record allows no range."""
        return self.low

    @property
    def unit(self) -> str:
        return KINDS[self.kind][1]

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


class Mistake(NamedTuple):
    """Why a text is not a quantity of the expected kind; `repairs` are texts that would be one."""

    code: str
    message: str
    found: str
    expected: str
    help: str
    repairs: tuple[str, ...] = ()


_NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
_SINGLE = re.compile(rf"(?P<low>-?{_NUMBER})(?P<gap> ?)(?P<unit>[^\d\s.,+-][^,]*)?")
_RANGE = re.compile(
    rf"(?P<low>-?{_NUMBER})(?P<first> ?[^\d\s.,+-][^\d,]*?)??(?: ?- ?| to )"
    rf"(?P<high>-?{_NUMBER})(?P<gap> ?)(?P<unit>[^\d\s.,+-][^,]*)?"
)
_DASHES = re.compile("[\u2010-\u2015\u2212]")
_FRACTION = re.compile(r"(?:(\d{1,6})[ -])?(\d{1,6})/(\d{1,6})")
_COMMA = re.compile(r"(?<=\d),(?=\d)")
_THOUSANDS = re.compile(r"[1-9]\d{0,2}(,\d{3})+(?!\d)")
_GROUPED = re.compile(r"(?<=\d) (?=\d{3}(?!\d))")
_HEDGE = re.compile(
    r"(?:[<>≤≥~≈±=]+|(?:about|circa|ca\.?|approx\.?|up to|at least|at most|below|above|min\.?|max\.?)(?![a-z]))\s*",
    re.IGNORECASE,
)
_ODD_NUMBER = re.compile(r"[+-]?(?:nan|inf(?:inity)?|\.nan|\.inf|\d+(?:\.\d+)?e[+-]?\d+|0x[0-9a-f]+)\b", re.IGNORECASE)


def parse(text: str, kinds: tuple[str, ...], place: Place | None, spans: bool) -> Quantity | Mistake:
    """Read `number, space, unit` or a range of two numbers.

    kinds: the kinds that the field allows; spans: whether a range may stand here.
    Returns the quantity in canonical units, or the mistake with texts that would be right.
    """
    cleaned = " ".join(text.split())
    plain = _DASHES.sub("-", cleaned)
    expected = " or ".join(KINDS[kind][0] for kind in kinds)

    def mistake(code: str, message: str, help_: str, *texts: str | None) -> Mistake:
        repairs = tuple(dict.fromkeys(t for t in texts if t and _right(t, kinds, spans)))
        return Mistake(code, message, f"“{text}”", expected, help_, repairs)

    if hedge := _HEDGE.match(plain):
        rest = _repaired(plain[hedge.end() :], kinds)
        return mistake(
            "Q210",
            f"“{hedge.group().strip()}” cannot be computed with",
            "one value, or a range from low to high" if spans else "one value",
            *rest,
        )
    if _ODD_NUMBER.match(plain):
        return mistake("Q209", "this is not a plain number", "digits only, and the unit")
    if _COMMA.search(plain):
        # Thousands are only offered where the commas could stand for them.
        whole = _repaired(_COMMA.sub("", plain), kinds) if _THOUSANDS.match(plain) else ()
        return mistake(
            "Q205",
            "a comma inside a number can be read in two ways",
            "a decimal is written with a point",
            *_repaired(_COMMA.sub(".", plain), kinds),
            *whole,
        )
    if _FRACTION.search(plain):
        decimal = _repaired(_FRACTION.sub(_as_decimal, plain), kinds)
        return mistake("Q201", "a fraction is not read", "fractions are written as decimals", *decimal)
    matched = _matched(plain)
    if matched is None:
        return mistake(
            "Q201",
            f"expected {expected}, found something else",
            "a number, a space, a unit",
            *_repaired(_GROUPED.sub("", plain), kinds),
        )
    if not matched.unit:
        return mistake(
            "Q202",
            f"expected {expected}, found a number without a unit",
            "the unit is never guessed",
            *_repaired(plain, kinds),
        )
    first, last = _known(matched.first_unit or matched.unit), _known(matched.unit)
    if first is None or last is None:
        return _unknown_unit(mistake, matched, matched.unit if last is None else matched.first_unit, kinds)
    wrong = [UNITS[u][0] for u in (first, last) if UNITS[u][0] not in kinds]
    if wrong or UNITS[first][0] != UNITS[last][0]:
        found = KINDS[wrong[0]][0] if wrong else "two kinds of unit"
        return mistake("Q203", f"expected {expected}, found {found}", f"units here: {_allowed(kinds)}")
    if not matched.spaced:
        return mistake(
            "Q206", "no space between the number and its unit", "a number, a space, a unit", *_repaired(plain, kinds)
        )
    low = to_canonical(float(matched.low), first)
    high = to_canonical(float(matched.high), last) if matched.high else low
    if matched.high and not spans:
        return mistake(
            "Q207",
            "expected one value, found a range",
            "choose one",
            f"{matched.low} {first}",
            f"{matched.high} {last}",
        )
    if high < low:
        turned = (matched.high, last, matched.low, first)
        return mistake(
            "Q207", "the range runs from the larger to the smaller", "the smaller comes first", _spanned(*turned)
        )
    return Quantity(low, high, UNITS[last][0], cleaned, place)


def _as_decimal(fraction: re.Match[str]) -> str:
    whole, over, under = (int(part or 0) for part in fraction.groups())
    return f"{whole + over / under:.4f}".rstrip("0").rstrip(".") if under else fraction.group()


def written(text: str) -> Quantity:
    """A quantity that the program itself writes, such as the bound of a field. Raises ValueError when it cannot."""
    parsed = parse(text, tuple(KINDS), None, spans=True)
    if isinstance(parsed, Mistake):
        raise ValueError(f"{text}: {parsed.message}")
    return parsed


def shown(low: float, high: float, kind: str, system: str) -> str:
    """A canonical value or range in the units that this system shows, rounded as the trade does."""
    table = SHOWN[kind]
    unit, steps = table.get(system) or table["metric"]
    ends = [from_canonical(x, unit) for x in ((low,) if low == high else (low, high))]
    decimals = next(d for below, d in steps if abs(ends[-1]) < below)
    texts = _even([_rounded(x, decimals, kind == "length") for x in ends])
    if len(set(texts)) == 1:
        texts = texts[:1]
    space = "" if unit == "°" else "\u00a0"
    return "–".join(texts) + space + unit


def in_both(low: float, high: float, kind: str, first: str) -> str:
    """The studio's first system, with the other beside it where the kind has two."""
    second = "imperial" if first == "metric" else "metric"
    one = shown(low, high, kind, first)
    return f"{one} ({shown(low, high, kind, second)})" if len(SHOWN[kind]) > 1 else one


def _even(texts: list[str]) -> list[str]:
    """The ends of a range below one with as many decimals as the longer one: 0.20–0.39, but 0.5–1.2."""
    if any("." not in text or not text.startswith("0") for text in texts):
        return texts
    longest = max(len(text) for text in texts)
    return [text.ljust(longest, "0") for text in texts]


def _rounded(number: float, decimals: int, small_in_full: bool) -> str:
    """Without zeros at the end; a length below one keeps them, as the trade writes 0.30 mm."""
    text = f"{number:.{decimals}f}"
    if "." in text and (abs(float(text)) >= 1 or not small_in_full):
        text = text.rstrip("0").rstrip(".")
    elif float(text) == 0:
        text = "0"
    return text.replace("-", "−") if float(text) else text.lstrip("-")


def _known(unit: str) -> str | None:
    if unit in UNITS:
        return unit
    return SPELLINGS.get(unit)


def _allowed(kinds: tuple[str, ...]) -> str:
    return ", ".join(u for u, (kind, _) in UNITS.items() if kind in kinds)


class _Matched(NamedTuple):
    low: str
    first_unit: str
    high: str
    unit: str
    spaced: bool


def _matched(text: str) -> _Matched | None:
    if found := _RANGE.fullmatch(text):
        first = (found["first"] or "").strip()
        return _Matched(found["low"], first, found["high"], found["unit"] or "", bool(found["gap"]))
    if found := _SINGLE.fullmatch(text):
        return _Matched(found["low"], "", "", found["unit"] or "", bool(found["gap"]))
    return None


def _right(text: str, kinds: tuple[str, ...], spans: bool) -> bool:
    return isinstance(parse(text, kinds, None, spans), Quantity)


def _repaired(text: str, kinds: tuple[str, ...]) -> tuple[str, ...]:
    """The text with its spaces put right and, where it has no unit, with the usual one of each kind."""
    matched = _matched(text.strip())
    if matched is None:
        return ()
    units = [_known(matched.unit)] if matched.unit else [SHOWN[kind]["metric"][0] for kind in kinds]
    return tuple(_with_unit(matched, unit) for unit in units if unit is not None)


def _with_unit(matched: _Matched, unit: str) -> str:
    if not matched.high:
        return f"{matched.low} {unit}"
    return _spanned(matched.low, _known(matched.first_unit) or unit, matched.high, unit)


def _spanned(low: str, low_unit: str, high: str, high_unit: str) -> str:
    return f"{low}–{high} {high_unit}" if low_unit == high_unit else f"{low} {low_unit} – {high} {high_unit}"


def _unknown_unit(mistake: Callable[..., Mistake], matched: _Matched, unit: str, kinds: tuple[str, ...]) -> Mistake:
    message = f"“{unit}” is not a unit that this field takes"
    if unit.lower() in ("rpm", "r/min", "u/min"):
        return mistake(
            "Q204",
            message,
            "a needle makes strokes, not revolutions",
            _with_unit(matched, "strokes/min"),
            _with_unit(matched, "Hz"),
        )
    allowed = [u for u, (kind, _) in UNITS.items() if kind in kinds]
    alike = [u for u in (*allowed, *SPELLINGS) if u.casefold() == unit.casefold()]
    near = alike or difflib.get_close_matches(unit, allowed, n=1, cutoff=0.5)
    repairs = [_with_unit(matched._replace(first_unit=""), _known(u) or u) for u in near[:1]]
    return mistake("Q204", message, f"units here: {_allowed(kinds)}", *repairs)
