"""What a number with a unit is: how it is written, what kind it is, how it converts, how it is shown.

Text that a person wrote is matched against a grammar and an allow-list of units.
Inside the program every value is a float in its kind's canonical unit, rounded to nine significant digits.

Ends of a range: below one both carry as many decimals as the longer (0.20–0.39), from one on no nought is kept
(0.5–1.2). A length below one keeps two decimals, as the trade writes 0.30 mm.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache, lru_cache
from typing import NamedTuple

from generator.diagnostics import Place
from generator.near_miss import nearest
from generator.origins import NOWHERE, Origin
from generator.units import (
    DECIMALS,
    DIFFERENCES,
    IMPERIAL,
    KINDS,
    OUNCES,
    READ_AS,
    RULER,
    SPELLINGS,
    SYSTEMS,
    TAPE,
    UNITS,
    ZERO,
    Shows,
    bands,
)

SIGNIFICANT_DIGITS = 9


def to_canonical(number: float, unit: str) -> float:
    """A number in one of `UNITS` as its kind's canonical unit, to nine significant digits."""
    return significant((number - ZERO.get(unit, 0.0)) * UNITS[unit][1])


def from_canonical(number: float, unit: str) -> float:
    """The canonical value of a kind as a number in one of `UNITS`."""
    return significant(number / UNITS[unit][1] + ZERO.get(unit, 0.0))


@cache
def units_of(kinds: tuple[str, ...]) -> tuple[str, ...]:
    """The units that a field of these kinds takes, as people write them."""
    return tuple(dict.fromkeys(printed(unit) for unit, (kind, _) in UNITS.items() if _as_one_of(kind, kinds)))


def printed(unit: str) -> str:
    """A unit as a page shows it: a difference of temperature is in °C or °F as well."""
    return DIFFERENCES.get(unit, unit)


def significant(number: float) -> float:
    """Rounded to nine significant digits, so that millimetres and inches of the same thing are equal."""
    return float(f"{number:.{SIGNIFICANT_DIGITS}g}")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value or a range of one kind, in the kind's canonical unit.

    `text` and `place` are how and where it was written, `origin` the field of the record that holds it.
    """

    low: float
    high: float
    kind: str
    text: str = field(default="", compare=False)
    place: Place | None = field(default=None, compare=False, repr=False)
    origin: Origin = field(default=NOWHERE, compare=False, repr=False)

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
# Inches, ounces and gallons are read off a tape or a measure, with a whole number, a space and a fraction.
_PART = r"(?:\d{1,6} )?\d{1,6}/[1-9]\d{0,5}"
_TAPED = re.compile(
    rf"(?:{_NUMBER}|{_PART})(?: ?(?:-|to) ?(?:{_NUMBER}|{_PART}))? (?:in|inch|inches|\"|ft|feet|fl oz|oz|gal|gallons?)"
)
# A half behind a dash may be one and a half, or the end of a range.
_DASHED = re.compile(r"(?<![/\d])\d{1,6}-\d{1,6}/")
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
    read = _parsed(str(text), kinds, spans)
    return read if isinstance(read, Mistake) else Quantity(read.low, read.high, read.kind, read.text, place)


@lru_cache(maxsize=4096)  # the records of a studio write the same few sizes again and again
def _parsed(text: str, kinds: tuple[str, ...], spans: bool) -> Quantity | Mistake:
    cleaned = " ".join(text.split())
    plain = _DASHES.sub("-", cleaned)
    expected = " or ".join(KINDS[kind][0] for kind in kinds)

    def mistake(code: str, message: str, help_: str, *texts: str | None) -> Mistake:
        right = [t for t in texts if t and isinstance(_parsed(t, kinds, spans), Quantity)]
        return Mistake(code, message, f"“{text}”", expected, help_, tuple(dict.fromkeys(right)))

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
    if _TAPED.fullmatch(plain) and not _DASHED.search(plain):
        plain = _FRACTION.sub(_exactly, plain)
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
    first, last = _known(matched.first_unit or matched.unit, kinds), _known(matched.unit, kinds)
    if first is None or last is None:
        return _unknown_unit(mistake, matched, matched.unit if last is None else matched.first_unit, kinds)
    wrong = [UNITS[u][0] for u in (first, last) if not _as_one_of(UNITS[u][0], kinds)]
    if wrong or UNITS[first][0] != UNITS[last][0]:
        found = KINDS[wrong[0]][0] if wrong else "two kinds of unit"
        fluid = [_with_unit(matched, OUNCES[unit], kinds) for unit in (matched.unit,) if unit in OUNCES]
        note = "an ounce is a weight; " if fluid and "volume" in kinds else ""
        return mistake("Q203", f"expected {expected}, found {found}", f"{note}units here: {_allowed(kinds)}", *fluid)
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
            f"{matched.low} {printed(first)}",
            f"{matched.high} {printed(last)}",
        )
    if high < low:
        turned = (matched.high, printed(last), matched.low, printed(first))
        return mistake(
            "Q207", "the range runs from the larger to the smaller", "the smaller comes first", _spanned(*turned)
        )
    return Quantity(low, high, _as_one_of(UNITS[last][0], kinds), cleaned)


def _as_decimal(fraction: re.Match[str]) -> str:
    whole, over, under = (int(part or 0) for part in fraction.groups())
    return f"{whole + over / under:.4f}".rstrip("0").rstrip(".") if under else fraction.group()


def _exactly(fraction: re.Match[str]) -> str:
    whole, over, under = (int(part or 0) for part in fraction.groups())
    return f"{whole + over / under:.12f}"


def _as_one_of(kind: str, kinds: tuple[str, ...]) -> str:
    """The kind of a field that takes what a unit is of: its own one, or one that is read in its units; else nothing."""
    return next((one for one in kinds if kind in (one, READ_AS.get(one))), "")


def written(text: str, kinds: tuple[str, ...] = tuple(KINDS)) -> Quantity:
    """A quantity that the program itself writes, such as the bound of a field. Raises ValueError when it cannot."""
    parsed = _parsed(text, kinds, spans=True)
    if isinstance(parsed, Mistake):
        raise ValueError(f"{text}: {parsed.message}")
    return parsed


def shown(low: float, high: float, kind: str, system: str | Shows, text: str = "") -> str:
    """A canonical value or range in the units that a studio shows, rounded as the trade does.

    system: the name of a system, or what a studio shows each kind in. text: how a person wrote it, for a value of a
    record. What was written in a unit of the system that is shown loses no digit.
    """
    return shown_in(_unit_shown(high, kind, _shows(system), text), low, high, kind, text)


def _shows(system: str | Shows) -> Shows:
    return SYSTEMS[system] if isinstance(system, str) else system


def _unit_shown(high: float, kind: str, shows: Shows, text: str) -> str:
    """The unit of a number of this size; one that was written in ounces or inches stays in them."""
    fitting = bands(kind, shows)
    of_the_size = next(unit for below, unit in fitting if abs(high) < below)
    if text and of_the_size not in IMPERIAL and set(_units_written(text, kind)) & IMPERIAL:
        return next((unit for _, unit in fitting if unit in IMPERIAL), of_the_size)
    return of_the_size


@lru_cache(maxsize=4096)  # the limits and rates of a studio are shown with every job
def shown_in(unit: str, low: float, high: float, kind: str, text: str = "") -> str:
    """A canonical value or range in one unit, whatever the studio shows: as a measure has it. text: as in `shown`."""
    steps = DECIMALS[unit]
    ends = [from_canonical(x, unit) for x in ((low,) if low == high else (low, high))]
    usual = next(d for below, d in steps if abs(ends[-1]) < below)
    decimals, exact = [usual] * len(ends), False
    if text:
        written_in = _units_written(text, kind)
        if written_in and _kept(written_in, unit):
            return as_written(text)
        for place, own in enumerate(written_in[-len(ends) :]):
            if (own in IMPERIAL) == (unit in IMPERIAL) and own != "drops" != unit:
                needed = _decimals_of(ends[place], usual)
                if needed is None and not (unit == "in" and _is_on_a_ruler(ends[place])):
                    return as_written(text)
                decimals[place] = usual if needed is None else needed
                exact = True
    texts = _parts(ends, unit, kind, exact)
    if texts is None:
        texts = _even([_rounded(x, d, KINDS[kind][1] == "mm") for x, d in zip(ends, decimals, strict=True)])
    if len(set(texts)) == 1:
        texts = texts[:1]
    space = "" if unit == "°" else "\u00a0"
    return "–".join(texts) + space + printed(unit)


# Units that nothing is turned into, and that stay where they were written.
_AS_READ = frozenset(("ft", "gal"))


def _kept(written_in: tuple[str, ...], unit: str) -> bool:
    """Whether a text stays as it was written: in feet or gallons beside ounces and inches, in drops where drops are."""
    return (_AS_READ.issuperset(written_in) and unit in IMPERIAL) or (set(written_in) == {"drops"} and unit == "drops")


def _is_on_a_ruler(inches: float) -> bool:
    """Whether so many inches are parts of one that a ruler has, to the digits that are kept of a length."""
    return to_canonical(inches, "in") == to_canonical(round(inches * RULER) / RULER, "in")


def _parts(ends: list[float], unit: str, kind: str, exact: bool) -> list[str] | None:
    """Inches as a tape shows them, or as they were typed; None for what is shown in decimals."""
    if unit != "in" or kind != "length" or min(ends) < 0:
        return None
    if exact:
        return [_as_fraction(end, RULER) for end in ends] if all(_is_on_a_ruler(end) for end in ends) else None
    parts = next(p for below, p in TAPE if ends[-1] < below)
    return [_as_fraction(end, parts) for end in ends]


def _as_fraction(number: float, parts: int) -> str:
    """A number to the nearest of so many parts, such as 5 1/8."""
    whole, over = divmod(round(number * parts), parts)
    if not over:
        return str(whole)
    common = math.gcd(over, parts)
    return f"{f'{whole}' + chr(0xA0) if whole else ''}{over // common}/{parts // common}"


def as_printed(low: float, high: float, kind: str) -> tuple[Quantity, ...]:
    """A value or range as it is read again when somebody types what a page shows of it, in each system."""
    texts = {shown(low, high, kind, system) for system in SYSTEMS}
    return tuple(written(text.replace("\u00a0", " "), (kind,)) for text in sorted(texts))


def end_as_typed(value: float, low: float, high: float, kind: str) -> float:
    """The end of a range that a value is, when somebody types what a page shows of it; else the value itself."""
    for printed_ in as_printed(low, high, kind):
        if value in (printed_.low, printed_.high):
            return low if value == printed_.low else high
    return value


def within(value: float, low: float, high: float, kind: str) -> bool:
    """Whether a value lies in a range, or is one of its ends as a page shows it."""
    return low <= value <= high or low <= end_as_typed(value, low, high, kind) <= high


def in_both(low: float, high: float, kind: str, first: str | Shows, text: str = "") -> str:
    """What the studio shows, with the other system beside it where that has another unit; `text` as in `shown`."""
    shows = _shows(first)
    one, unit = shown(low, high, kind, shows, text), _unit_shown(high, kind, shows, text)
    second = SYSTEMS["metric" if unit in IMPERIAL else "imperial"]
    beside = shown(low, high, kind, second, text)
    return one if _unit_shown(high, kind, second, text) == unit or beside == one else f"{one} ({beside})"


def as_written(text: str) -> str:
    """A quantity as a person wrote it, with the dash and the space that a page has."""
    dashed = re.sub(r"(?<=[^\s–-])\s*(?:[-\u2010-\u2015\u2212]|\bto\b)\s*(?=[-.\d\u2212])", "–", " ".join(text.split()))
    return _ONE.sub(r"1 \1", dashed).replace(" ", "\u00a0")


_ONE = re.compile(r"^1 (day|week|month|year)s$")
_MORE_DECIMALS = 4


@lru_cache(maxsize=4096)
def _units_written(text: str, kind: str) -> tuple[str, ...]:
    """The unit of each end, as it was written; none where the text is no quantity."""
    plain = _DASHES.sub("-", " ".join(text.split()))
    matched = _matched(_FRACTION.sub(_exactly, plain) if _TAPED.fullmatch(plain) else plain)
    if matched is None:
        return ()
    last = _known(matched.unit, (kind,))
    first = _known(matched.first_unit, (kind,)) if matched.first_unit else last
    if first is None or last is None:
        return ()
    return (first, last) if matched.high else (last,)


def _decimals_of(number: float, at_least: int) -> int | None:
    """How many decimals it takes to lose nothing; None when it is no short decimal in this unit."""
    for decimals in range(at_least, at_least + _MORE_DECIMALS + 1):
        if abs(round(number, decimals) - number) <= abs(number) * 10.0**-SIGNIFICANT_DIGITS:
            return decimals
    return None


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


def _known(unit: str, kinds: tuple[str, ...]) -> str | None:
    """The unit of the list that is meant; where only a difference can stand, °C and °F are those of a difference."""
    known = unit if unit in UNITS else SPELLINGS.get(unit)
    if known is not None and not _as_one_of(UNITS[known][0], kinds):
        return next((d for d, written in DIFFERENCES.items() if written == known and UNITS[d][0] in kinds), known)
    return known


def _allowed(kinds: tuple[str, ...]) -> str:
    return ", ".join(units_of(kinds))


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


def _repaired(text: str, kinds: tuple[str, ...]) -> tuple[str, ...]:
    """The text with its spaces put right and, where it has no unit, with the usual one of each kind."""
    matched = _matched(text.strip())
    if matched is None:
        return ()
    units = [_known(matched.unit, kinds)] if matched.unit else [bands(kind, SYSTEMS["metric"])[0][1] for kind in kinds]
    return tuple(_with_unit(matched, unit, kinds) for unit in units if unit is not None)


def _with_unit(matched: _Matched, unit: str, kinds: tuple[str, ...]) -> str:
    if not matched.high:
        return f"{matched.low} {printed(unit)}"
    first = _known(matched.first_unit, kinds) or unit
    return _spanned(matched.low, printed(first), matched.high, printed(unit))


def _spanned(low: str, low_unit: str, high: str, high_unit: str) -> str:
    return f"{low}–{high} {high_unit}" if low_unit == high_unit else f"{low} {low_unit} – {high} {high_unit}"


def _unknown_unit(mistake: Callable[..., Mistake], matched: _Matched, unit: str, kinds: tuple[str, ...]) -> Mistake:
    message = f"“{unit}” is not a unit that this field takes"
    if unit.lower() in ("rpm", "r/min", "u/min"):
        return mistake(
            "Q204",
            message,
            "a needle makes strokes, not revolutions",
            _with_unit(matched, "strokes/min", kinds),
            _with_unit(matched, "Hz", kinds),
        )
    allowed = list(units_of(kinds))
    if unit in OUNCES and "volume" in kinds:
        return mistake("Q204", message, "ounces of a volume are fluid ounces", _with_unit(matched, OUNCES[unit], kinds))
    alike = [u for u in (*allowed, *SPELLINGS) if u.casefold() == unit.casefold()]
    near = next(iter(alike), "") or nearest(unit, allowed)
    repairs = [_with_unit(matched._replace(first_unit=""), _known(near, kinds) or near, kinds)] if near else []
    return mistake("Q204", message, f"units here: {_allowed(kinds)}", *repairs)
