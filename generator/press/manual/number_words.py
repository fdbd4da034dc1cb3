"""Quantities as people write them in a sentence: `5mm`, `10–15 min`, `two minutes`, `half an hour`, `a few days`.

Found by pattern and a few words around it. A rare quantity is rather passed than a harmless word stopped at.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from generator.quantities import Quantity, written
from generator.units import UNITS

# Numbers as words, each an alternative of the patterns below.
_ONE_TO_NINE = "one|two|three|four|five|six|seven|eight|nine"
_ONES = f"{_ONE_TO_NINE}|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
_TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
_VALUES = {word: number for number, word in enumerate(_ONES.split("|"), 1)}
_VALUES |= {word: 10 * tens for tens, word in enumerate(_TENS.split("|"), 2)}
_FACTOR_OF = {"hundred": 100, "thousand": 1000, "dozen": 12}
_FACTORS = "|".join(_FACTOR_OF)

# Units as words, and as records write them.
_WORDS = {
    "seconds?|secs?": "s",
    "minutes?|mins?": "min",
    "hours?|hrs?": "h",
    "days?": "days",
    "weeks?": "weeks",
    "fortnights?": "fortnight",
    "months?": "months",
    "years?": "years",
    "square centimet(?:re|er)s?": "cm²",
    "square inch(?:es)?": "in²",
    "millimet(?:re|er)s?": "mm",
    "centimet(?:re|er)s?": "cm",
    "met(?:re|er)s?": "m",
    "inch(?:es)?": "in",
    "feet": "ft",
    "per ?cent": "%",
    "degrees?(?: celsius)?": "°C",
    "millilit(?:re|er)s?": "mL",
    "lit(?:re|er)s?": "L",
    "milligrams?": "mg",
    "kilograms?|kilos?": "kg",
    "grams?": "g",
    "ounces?": "oz",
    "volts?": "V",
    "hertz": "Hz",
    "lux": "lx",
}
_WORD = "|".join(_WORDS)
_SYMBOLS = sorted({*UNITS, "ml", "cl", "kHz", "ppm", "rpm"}, key=len, reverse=True)
_SYMBOL = "|".join(re.escape(symbol) for symbol in _SYMBOLS)
_LONG_SYMBOL = "|".join(re.escape(symbol) for symbol in _SYMBOLS if len(symbol) > 1 and symbol != "in")

_SPACE = r"(?:[ \u00a0\t]+|[ \u00a0\t]*\n[ \u00a0\t]*)"
_GAP = rf"(?:{_SPACE}?|-)"
_BETWEEN = rf"(?:{_SPACE}?[-–—×]{_SPACE}?|{_SPACE}(?:to|or|and|by|x){_SPACE})"
_DIGITS = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*[½¼¾]?|[½¼¾])"
_SPELLED = (
    rf"(?:(?:(?:an?|{_ONES}) )?(?:{_FACTORS})(?: and (?:{_TENS}|{_ONES}))?"
    rf"|(?:{_TENS})(?:[- ](?:{_ONE_TO_NINE})\b)?|{_ONES})(?:{_SPACE}and{_SPACE}a{_SPACE}half)?"
)
_MORE = rf"(?:(?:more|full|whole|good|extra|further|working|other){_SPACE})?"

_PATTERNS = {
    "digits": re.compile(
        rf"(?<![\w.,/#-])(?P<number>[-−]?{_DIGITS}(?:{_BETWEEN}{_DIGITS})?)"
        rf"(?P<gap>{_GAP})(?P<unit>{_SYMBOL}|(?i:{_MORE}(?:{_WORD})))(?!\w)"
    ),
    "spelled": re.compile(
        rf"(?i:\b(?P<number>{_SPELLED}(?:{_BETWEEN}{_SPELLED})?)(?P<gap>{_SPACE}{_MORE}|-)(?P<unit>{_WORD}))(?!\w)"
    ),
    "symbol": re.compile(rf"\b(?P<number>(?i:{_SPELLED}))(?P<gap>{_GAP})(?P<unit>{_LONG_SYMBOL})(?!\w)"),
    "vague": re.compile(
        rf"(?i:\b(?P<number>(?:an? )?(?:few|several|couple of|half a dozen)){_SPACE}{_MORE}(?P<unit>{_WORD}))(?!\w)"
    ),
    "article": re.compile(
        rf"(?i:\b(?P<number>(?:half (?:of )?|(?:a|three) quarters? of )?an?){_SPACE}{_MORE}(?P<unit>{_WORD}))(?!\w)"
    ),
}


def _behind(words: str) -> re.Pattern[str]:
    """A text that ends with one of these words."""
    return re.compile(rf"(?i:(?:^|\s)(?:{words})\s*$)")


# Behind these words `a day` is a length of time; elsewhere it is a day of the calendar: “the order of a day”.
_LASTING = _behind(
    "for|after|within|in|under|over|than|least|most|about|nearly|almost|waits?|lasts?|takes?|half|every|another"
)
# Behind these words `a minute` is a rate: “words a minute”; “on an hour” is a time of day.
_RATE = _behind(
    "once|twice|times?|strokes|words|punctures|hours|minutes|days|weeks|clients|pieces|sittings|steps|points|much|often"
    "|on|at"
)
# Behind these words a number names something, and counts nothing.
_NAMES = _behind(
    r"steps?|rows?|items?|pages?|table|figure|section|chapter|part|paragraph|box|room|door|line|size|type|no\.?|number"
    "|class|category|grade|annex|article|form|format|version|spf|sheet|side"
)
_LATER = re.compile(r"\s+(?:that|when|which|who|on which)\b")
_INCH_ENDS = re.compile(r"[ \u00a0]*(?:[.,;:)|]|$|\n\s*\n)|[ \u00a0](?:wide|long|deep|high|thick|across|apart)\b")
_SECOND_ENDS = re.compile(r" *(?:[.,;:)]|$|\n\s*\n)| (?:at|later|before|after|long)\b")


# Numbers without a unit that no text may type either: how often, which part, how many of a thing, one to how many.
_NUMBERS = f"{_ONES}|{_TENS}"
_OFTEN = rf"(?:{_NUMBERS.removeprefix('one|')}|(?:an?{_SPACE})?(?:{_FACTORS})|\d+)"
_ANY = rf"(?:{_NUMBERS}|(?:an?{_SPACE})?(?:{_FACTORS})|\d+)"
_ONCE = rf"(?:(?<=no more than )once|(?<=gone over )once|once{_SPACE}only)"
_PARTS = r"(?:half|thirds?|quarters?|fourths?|fifths?|sixths?|eighths?|tenths?)"
_COUNTS = re.compile(
    rf"(?i:\b(?:twice|thrice|{_ONCE}|{_OFTEN}{_SPACE}times|(?:{_ONES})(?:{_SPACE}|-){_PARTS}|\d+x"
    rf"|{_ANY}{_SPACE}(?:in|out{_SPACE}of){_SPACE}(?:every{_SPACE})?{_ANY}"
    rf"|(?:{_NUMBERS}){_SPACE}to{_SPACE}(?:{_NUMBERS})"
    rf"|half{_SPACE}(?:of{_SPACE})?(?:the|its|their|your|this|that|them|it|all|what|each|every"
    rf"|an?{_SPACE}(?:bag|bottle|box|bucket|cap|cup|pack|roll|sheet|tray))"
    rf"|{_OFTEN}{_SPACE}(?:[a-z-]+{_SPACE}){{1,2}}each"
    rf"|a{_SPACE}(?:third|quarter|fourth|fifth|sixth|eighth|tenth)(?={_SPACE}(?:of|full)\b)|(?:half|quarter)(?:{_SPACE}|-)full"
    rf"|{_OFTEN}{_SPACE}(?:strong{_SPACE})?(?:cases?|complaints?|clients?|reactions?|coats?|layers?|drops?|caps?|passes"
    r"|wipes?|people|lots?|colours?|inks?|sittings?|visits?|bottles?|readings?|measurements?|samples?|sprays?|pumps?"
    r"|scoops?|cartridges?|towels?|copies|bags?)))\b"
    # A share in digits: `3/4 full`, `¾ of it`.
    rf"|(?<![\w.,/#-])(?:\d+/\d+|[½¼¾])(?=[- ]?full\b|{_SPACE}of\b)"
    # A ratio, `1:10`; two digits on both sides are a time of day.
    r"|(?<![\w.,:/#-])(?!\d\d:\d\d(?!\d))\d+ ?: ?\d+(?:\.\d+)?(?![\w:])"
    # Digits alone, where they are no code, no norm and no part of a name.
    r"|(?<![\w.,:/#*-])(?<!EN )(?<!ISO )(?<!C\.I\. )(?<!U\+)\d+(?:\.\d+)?(?![\w:/*-]|\.\d)"
)

# The first letters of every word that a number in words, a share or a count begins with.
_HEAD = re.compile(r"\b\w{1,3}")
_BEGIN = f"a|an|half|quarter|few|several|couple|once|twice|thrice|{_NUMBERS}|{_FACTORS}"
_HEADS = frozenset(word[:3] for word in _BEGIN.split("|"))

# A stretch of a text that is a quantity or a number.
NumberWords = re.Match[str]


def typed_quantities(prose: str) -> list[NumberWords]:
    """Every quantity in a text, in its order; of two that overlap the longer one that begins first."""
    return _quantities(prose, _begins(prose))


def typed_numbers(prose: str) -> list[NumberWords]:
    """Every quantity, and then every number without a unit."""
    begins = _begins(prose)
    found = _quantities(prose, begins)
    return [*found, *_counts(prose, begins, found)]


def _quantities(prose: str, begins: Sequence[int]) -> list[NumberWords]:
    found = [
        match
        for way, pattern in _PATTERNS.items()
        for match in (pattern.finditer(prose) if way == "digits" else _matches(pattern, prose, begins))
        if not _harmless(way, match, prose)
    ]
    apart: list[NumberWords] = []
    for match in sorted(found, key=lambda match: (match.start(), -match.end())):
        if not apart or match.start() >= apart[-1].end():
            apart.append(match)
    return apart


def _counts(prose: str, begins: Sequence[int], taken: Sequence[NumberWords]) -> list[NumberWords]:
    return [
        match
        for match in _matches(_COUNTS, prose, begins)
        if not any(one.start() < match.end() and match.start() < one.end() for one in taken)
        and not _NAMES.search(_before(match, prose))
    ]


def _begins(prose: str) -> list[int]:
    """Where a number may begin; few words do, and every pattern tried at every letter takes long."""
    heads = ((match.start(), match[0]) for match in _HEAD.finditer(prose))
    return [at for at, head in heads if head[0].isnumeric() or head.lower() in _HEADS]


def _matches(pattern: re.Pattern[str], prose: str, begins: Sequence[int]) -> Iterator[NumberWords]:
    """What `finditer` finds of a pattern that matches nowhere else."""
    end = 0
    for at in begins:
        if at >= end and (match := pattern.match(prose, at)):
            yield match
            end = match.end()


def _before(match: NumberWords, prose: str) -> str:
    """As much of what stands before it as its last word needs."""
    return prose[max(0, match.start() - 20) : match.start()]


def _harmless(way: str, match: NumberWords, prose: str) -> bool:
    """Whether these words mean something else here."""
    number, unit = match["number"].lower(), match["unit"].lower()
    before, after = _before(match, prose), prose[match.end() :]
    if way == "digits" and unit == "in":
        return _INCH_ENDS.match(after) is None
    if way == "digits":
        # A decade, `1990s`, and a label such as `3s`.
        return unit == "s" and not match["gap"]
    if number in ("one", "two") and unit == "feet":
        return True
    if way == "spelled" and number != "one":
        return unit in ("second", "sec") and match["gap"] != "-"  # “two second steps”
    if way in ("vague", "symbol"):
        return False
    if way == "article" and " " in number:
        return False  # “half a day” is never a day of the calendar
    if way == "article" and unit in ("volt", "hertz", "lux", "percent", "per cent"):
        return True  # “a volt dial”, “a lux meter”
    return _means_another(way, unit, before, after) or (way == "article" and _RATE.search(before) is not None)


def _means_another(way: str, unit: str, before: str, after: str) -> bool:
    """`a` or `one` before a unit that is an everyday word as well."""
    if unit == "day":
        return _LASTING.search(before) is None or _LATER.match(after) is not None
    if unit in ("second", "sec"):
        return way == "article" or _SECOND_ENDS.match(after) is None  # “a second, safe place”
    return unit in ("feet", "degree") or _LATER.match(after) is not None


def meant(words: str) -> Quantity | None:
    """The quantity as a record would hold it; None where the words leave it open, as in “a few days”."""
    text = " ".join(words.replace("−", "-").split())
    for word, unit in _WORDS.items():
        text = re.sub(rf"(?:[- ]+|(?<=\d))(?i:{word})$", f" {unit}", text)
    text = re.sub(r"^(?i:half (?:of )?an?) ", "0.5 ", text)
    text = re.sub(r"(?i: and a half\b)", " 1/2", text)
    text = re.sub(rf"(?i:\b{_SPELLED}\b)", lambda found: _number(found[0].lower()), text)
    text = re.sub(r"^(?i:an?) ", "1 ", text)
    text = re.sub(r"(?:(\d+)[ -])?(\d+)/(\d+)", _fraction, text)
    text = re.sub(r"(?<=\d) (?:to|or|and|by) (?=\d)", "–", text)
    text = re.sub(r"(?<=\d)-?(?=[A-Za-zµ%°])", " ", text)
    try:
        return written(text.replace(" ml", " mL"))
    except ValueError:
        return None


def _number(words: str) -> str:
    total = 0
    for word in re.split(r"[- ]", words):
        total = max(total, 1) * _FACTOR_OF[word] if word in _FACTOR_OF else total + _VALUES.get(word, 0)
    return str(total)


def _fraction(found: NumberWords) -> str:
    whole, upper, lower = (int(part or 0) for part in found.groups())
    return f"{whole + upper / lower:g}" if lower else found[0]
