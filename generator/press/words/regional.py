"""Dates, hours and spelling as the studio's region writes them, put into a whole page when it is finished.

Everything before this writes days as records have them (2027-06-16), hours from 00:00 to 23:59 and British spelling.
What was typed as code stays as it is, and so do the names of records: a label is written as it is on the bottle.
"""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator

from generator.records.families import LISTED, Records
from generator.records.regions import CUSTOMS

# The beginning or the whole of a word as a pattern -> how it is spelled in the United States (common usage there).
_US_SPELLING = (
    (r"((?:dis|multi|water|)col|(?:dis|)fav|(?:mis|)behavi|neighb|lab|od|hum|tum|vap|rum|harb|hon)our", r"\1or"),
    (r"grey", "gray"),
    (r"centred", "centered"),
    (r"centring", "centering"),
    (r"((?:epi|)cent|(?:milli|centi|)lit|fib|calib)re", r"\1er"),
    (r"(milli|centi|kilo|micro|)metre(?=s?\b)", r"\1meter"),
    (r"(licen|defen|offen)ce", r"\1se"),
    (r"practis(?=e|ing)", "practic"),
    (r"catalogue", "catalog"),
    (r"programme(?=s?\b)", "program"),
    (r"judgement", "judgment"),
    (r"ageing", "aging"),
    (r"cheque", "check"),
    (r"draught", "draft"),
    (r"kerb", "curb"),
    (r"tyre", "tire"),
    (r"plough", "plow"),
    (r"mould", "mold"),
    (r"aluminium", "aluminum"),
    (r"sulph", "sulf"),
    (r"diarrhoea", "diarrhea"),
    (r"oe(?=dema|str)", "e"),
    (r"foet", "fet"),
    (r"(an|)aesthe(?=tic|si)", r"\1esthe"),
    (r"(an|h|leuk)aem", r"\1em"),
    (r"paed", "ped"),
    (r"gynaec", "gynec"),
    (r"(label|cancel|travel|level|channel|signal|dial|pencil|model|swivel|bevel|fuel|tunnel)l(?=ed|ing|er)", r"\1"),
    (r"(skil|wil)ful", r"\1lful"),
    (r"(ful|enrol|instal|distil)(fil|)(?=s?\b|ment)(?<=fil|rol|tal|til)", r"\1\2l"),
    (r"towards\b", "toward"),
    (r"whilst\b", "while"),
    (r"(anal|paral|catal|dial)ys(?=e|ing)", r"\1yz"),
    (
        r"(organ|recogn|steril|minim|maxim|optim|summar|standard|special|author|moistur|neutral|normal|critic|immun"
        r"|character|emphas|final|memor|priorit|real|util|visual|custom|categor|colon|polymer|apolog|pulver)is"
        r"(?=e|ing|ation)",
        r"\1iz",
    ),
)
_DATES = {
    "month first": ("{month}/{day}/{year}", "{month} {day}, {year}"),
    "year first": ("{year}-{month}-{day}", "{day} {month} {year}"),
}
_Spelling = tuple[tuple[str, str], ...]
# How pages are written before they are put into the region's words: dates, clock and spelling.
_AS_WRITTEN = ("year first", "24 h", "British")


# What is no text to be read: comments, and what holds code or is typed as it is.
_MARKUP = re.compile(
    r"(<!--.*?-->|<(?P<held>script|style|code|pre|textarea|kbd)\b.*?</(?P=held)\s*>|<[^>]+>)", re.DOTALL
)
_SAID = re.compile(r"(?<=\s)((?:alt|title|aria-label)=\")([^\"]*)(?=\")")
_DAY = r"(?<![\w/-])(?P<year>\d{4})-(?P<month>0[1-9]|1[0-2])-(?P<day>[0-2]\d|3[01])(?![\w-])"
_MONTHS = "January|February|March|April|May|June|July|August|September|October|November|December"
_LONG_DAY = rf"(?<![\w/-])(?P<long_day>[1-9]|[12]\d|3[01])\s(?P<named>{_MONTHS})\s(?P<long_year>\d{{4}})\b"
_CLOCK = r"(?:[01]\d|2[0-3]):[0-5]\d"
_HOURS = (
    rf"(?<![\d:.])(?P<from>{_CLOCK})(?:(?P<dash>\s?[–-]\s?)(?P<to>{_CLOCK}))?(?![\d:]|(?:\s?[–-]\s?{_CLOCK})?\s?[AP]M)"
)


def has_habits(records: Records) -> bool:
    """Whether the studio's region writes in another way than the program does."""
    customs = CUSTOMS[records.studio.region]
    return (customs.dates, customs.clock, customs.spelling) != _AS_WRITTEN


def in_region(records: Records) -> Callable[[str], str]:
    """What makes of a finished page, or of a plain text, one as the studio's region writes it."""
    if not has_habits(records):
        return lambda page: page
    customs = CUSTOMS[records.studio.region]
    (date, in_words), spelling = _DATES[customs.dates], _US_SPELLING if customs.spelling == "American" else ()
    kept = "|".join(sorted({re.escape(name) for name in _names(records, spelling)}, key=len, reverse=True))
    words = "|".join(re.sub(r"\((?!\?)", "(?:", pattern) for pattern, _ in spelling)  # without the groups of each
    pattern = re.compile(
        rf"(?P<kept>{kept or r'(?!)'})|{_DAY}|{_LONG_DAY}|{_HOURS}|\b(?P<word>{words or r'(?!)'})",
        re.IGNORECASE,
    )

    def long_date(found: re.Match[str]) -> str:
        return in_words.format(month=found["named"], day=found["long_day"], year=found["long_year"])

    def marked(piece: str) -> str:
        # A style may hold the sentence that paper shows in its margin.
        if piece.startswith("<style"):
            return re.sub(_LONG_DAY, long_date, piece)
        return _SAID.sub(lambda said: said[1] + text(said[2]), piece)

    def one(found: re.Match[str]) -> str:
        if found["kept"]:
            return found[0]
        if found["year"]:
            return date.format(year=found["year"], month=found["month"], day=found["day"])
        if found["named"]:
            return long_date(found)
        if found["from"]:
            return _hours(found) if customs.clock == "12 h" else found[0]
        return _spelled(found["word"], found, spelling)

    def text(words_: str) -> str:
        return pattern.sub(one, words_)

    def page(whole: str) -> str:
        pieces = _MARKUP.split(whole)
        # Text, markup and the name of an element that holds code come in turns.
        return "".join(text(piece) if at % 3 == 0 else marked(piece) for at, piece in enumerate(pieces) if at % 3 != 2)

    return page


def _names(records: Records, spelling: _Spelling) -> Iterator[str]:
    """Names and titles of records that have a word which would be spelled in another way."""
    changed = re.compile("|".join(rf"\b{pattern}" for pattern, _ in spelling), re.IGNORECASE)
    entries = (entry for family in LISTED for entry in records.family(family.name).values())
    for entry in (records.studio, *entries):
        for field in ("name", "title", "body", "where"):
            value = getattr(entry, field, None)
            if isinstance(value, str) and changed.search(value):
                yield html.escape(value, quote=False)


def _hours(found: re.Match[str]) -> str:
    begin, end = found["from"], found["to"]
    if end is None:
        return _twelve(begin)
    first, last = _twelve(begin), _twelve(end)
    # A half of the day that both are in is said once.
    return f"{first[:-3] if first[-2:] == last[-2:] else first}{found['dash']}{last}"


def _twelve(clock: str) -> str:
    hour = int(clock[:2])
    return f"{hour % 12 or 12}{clock[2:]}\u00a0{'AM' if hour < 12 else 'PM'}"


def _spelled(word: str, found: re.Match[str], spelling: _Spelling) -> str:
    """The word of the table in the region's spelling, with the capitals that it had."""
    rest = found.string[found.end("word") :]
    for pattern, spelled in spelling:
        if matched := re.match(pattern, word + rest, re.IGNORECASE):
            changed = matched.expand(spelled)
            if word.isupper():
                return changed.upper()
            return changed[:1].upper() + changed[1:] if word[:1].isupper() else changed
    return word
