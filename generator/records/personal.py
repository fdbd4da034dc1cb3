"""What may tell who a client is, or of their health, in a job: refused before anything is printed.

A job is published with the handbook. Its texts may hold no address, no number to call, no date and no word of health;
its client is a reference that nobody can read a name and a birth date from; its allergies are allergens. What looks so
and belongs to the drawing is written under `not_private` with its reason.

Nothing here can know a name. What is looked for has a form; that is common practice, and no list of all there is.
"""

import re
import unicodedata
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from pydantic import BaseModel

from generator.diagnostics import Diagnostic
from generator.records.checklist import QUOTE
from generator.records.client import NotPrivate
from generator.records.fields import Words
from generator.records.jobs import HOLD_ANSWERS, Job
from generator.records.kind import mistake_at
from generator.records.located import Text
from generator.records.not_allergens import words_of_health
from generator.records.record import kinds_of

_MONTHS = (
    r"jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?"
    r"|nov(?:ember)?|dec(?:ember)?|januar|februar|märz|mai|juni|juli|oktober|dezember|janvier|février|mars|avril|juin"
    r"|juillet|août|septembre|octobre|novembre|décembre|enero|febrero|marzo|abril|mayo|junio|julio|agosto|septiembre"
    r"|octubre|noviembre|diciembre|gennaio|febbraio|aprile|maggio|giugno|luglio|settembre|ottobre|dicembre"
)
_ORDINALS = (
    r"first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth"
    r"|sixteenth|seventeenth|eighteenth|nineteenth|twentieth|thirtieth|(?:twenty|thirty)[- ]\w+(?:st|nd|rd|th)"
)
_DAY_WORD = rf"(?:[0-3]?\d(?:st|nd|rd|th|\.)?|{_ORDINALS})"
_YEAR = r"(?:[,.]?\s*(?:\d{4}|['’]\d{2}))"
_MAIL = re.compile(
    r"[\w.+-]*\s*(?:@|\((?:at|@)\)|\[(?:at|@)\])\s*[\w-]+(?:\s*(?:\.|\(dot\)|\[dot\])\s*[\w-]+)*"
    r"|[\w.+-]+\s+at\s+[\w-]+(?:\s+dot\s+[\w-]+)+",
    re.I,
)
_WEB = re.compile(r"(?:https?://|www\.)\S+", re.I)
_PHONE = re.compile(r"(?<![\w.])\+?\(?\d(?:[\s().\-–/]*\d){6,}")
_RUN = re.compile(r"(?<!\d)(?:\d{6}|\d{8})(?!\d)")
_ROMAN = re.compile(r"(?<![A-Z])([IVX]+)\s*[.·\-–/\s]\s*([IVX]+)\s*[.·\-–/\s]\s*([MDCLXVI][MDCLXVI]+)(?![A-Z])")
# What is a date as soon as it is written so; day and month in either order.
_IN_DIGITS = (
    re.compile(r"(?<!\d)(?P<y>\d{4})\s*[-/.·]\s*(?P<a>\d{1,2})\s*[-/.·]\s*(?P<b>\d{1,2})(?!\d)"),
    re.compile(r"(?<!\d)(?P<a>\d{1,2})\s*[-/.·–]\s*(?P<b>\d{1,2})\s*[-/.·–]\s*(?P<y>\d{4}|['’]?\d{2})(?!\d)"),
    re.compile(r"(?<!\d)(?P<a>\d{1,2})\s+(?P<b>\d{1,2})\s+(?P<y>(?:19|20)\d{2})(?!\d)"),
)
_IN_WORDS = (
    re.compile(rf"\b{_DAY_WORD}\s*(?:of\s+|de\s+)?(?P<month>{_MONTHS})\b\.?{_YEAR}?", re.I),
    re.compile(rf"\b(?P<month>{_MONTHS})\b\.?\s+(?:the\s+)?{_DAY_WORD}(?!\s*(?:%|°|[a-z]))\b{_YEAR}?", re.I),
    re.compile(rf"\b(?P<month>{_MONTHS})\b[.,]?\s*(?:of\s+|de\s+|in\s+)?(?:19|20)\d{{2}}(?!\d)", re.I),
)
_MONTH_AND_YEAR = re.compile(r"(?<![\d./-])(?:0?[1-9]|1[0-2])\s*[-/.]\s*(?:19|20)\d{2}(?![\d./-]*\d)")
# Words of other meanings, which begin with a capital where they are a month.
_ALSO_A_VERB = frozenset(("may", "mar", "march", "mars", "mai", "sep", "dec", "jan"))
_BORN = re.compile(
    r"(?:\bborn\b|\bgeboren\b|\bdob\b|\bd\.\s?o\.\s?b\b\.?|\bbirth\s?day\b|\bdate of birth\b)\W{0,3}"
    r"(?:(?:in|on|the|of|im|am|year|early|late|mid|about|around|spring|summer|autumn|fall|winter)\W{1,3}){0,5}['’]?"
    r"(?:\d[\d./-]+|(?:nineteen|twenty|two thousand)[\s-]\w+(?:[\s-]\w+)?)",
    re.I,
)
_DIGIT = (
    "zero|oh|one|two|three|four|five|six|seven|eight|nine|double"
    "|null|eins|zwo|zwei|drei|vier|fünf|sechs|sieben|acht|neun"
)
_PHONE_IN_WORDS = re.compile(rf"\b(?:{_DIGIT})(?:[\s,./-]+(?:{_DIGIT})){{6,}}\b", re.I)
_REFERENCE = re.compile(r"([A-Z]{1,3})-(\d{2,6})")
# Years in which somebody may be born who sits down here.
_BORN_FROM, _BORN_UP_TO = 1900, 2015
# What a text of the job may not quote of the job itself: answers, and the client.
_ANSWERS = HOLD_ANSWERS | {"client", "last_worked", "after", "laser"}


class _Told(NamedTuple):
    """Words that tell: what they look like, and what to do with them."""

    words: str
    looks_like: str
    instead: str


_FILE = "what belongs to the client is in the consent file"


def personal_marks(job: Job) -> Iterator[Diagnostic]:
    """Everything in a job that tells of its client, and every exception that excepts nothing."""
    excepted = {_plain(one.text): one for one in job.not_private}
    used: set[str] = set()
    for diagnostic, words in (*_texts(job), *_client(job), *_allergies(job)):
        if _plain(words) in excepted:
            used.add(_plain(words))
        else:
            yield diagnostic
    for one in (one for plain, one in excepted.items() if plain not in used):
        yield mistake_at(
            "R345",
            one.text,
            expected="words of this job that would be refused, exactly as they are written",
            help_="take the exception away, or write the words as the check named them",
            says=f"nothing has to be excepted for “{one.text}”",
        )


def _plain(text: str) -> str:
    return " ".join(unicodedata.normalize("NFKC", text).casefold().split())


def _texts(job: Job) -> Iterator[tuple[Diagnostic, str]]:
    named = [("id", job.id, _told_in_a_name(job.id))]
    for name, text, said in (*named, *((name, text, _told_in(str(text))) for name, text in _free_texts(job, ""))):
        for told in said:
            yield (
                mistake_at(
                    "R342",
                    text,
                    found=f"“{told.words}”",
                    expected="a text that tells nothing of the client",
                    help_=f"take it out: {told.instead}; where it belongs to the drawing, add {_exception(told.words)}",
                    says=f"`{name}` holds {told.looks_like}",
                ),
                told.words,
            )


def _exception(words: str) -> str:
    quoted = words.replace("'", "''")
    return f"`not_private: [{{text: '{quoted}', because: REASON}}]`"


def _free_texts(record: BaseModel, path: str) -> Iterator[tuple[str, Text]]:
    """The texts of a job that are sentences or names, by their key; no codes of labels, and no exceptions."""
    for name, key, free in _fields(type(record)):
        value = getattr(record, name)
        if free and isinstance(value, Text):
            yield f"{path}{key}", value
        for item in value if isinstance(value, tuple) else (value,):
            if isinstance(item, BaseModel) and not isinstance(item, NotPrivate):
                yield from _free_texts(item, f"{path}{key}.")


@cache
def _fields(model: type[BaseModel]) -> tuple[tuple[str, str, bool], ...]:
    """The fields of a record: name, key, and whether it may hold a sentence or a name."""
    return tuple(
        (name, info.alias or name, any(isinstance(kind, Words) and not kind.code for kind in kinds_of(info)))
        for name, info in model.model_fields.items()
    )


def _told_in(text: str) -> Iterator[_Told]:
    """What a text tells, each stretch once; what is quoted is a value of a record."""
    for quote in QUOTE.finditer(text):
        path = (quote["path"] or "").strip()
        if "typed:" not in path and _ANSWERS & set(path.split(".")):
            yield _Told(quote[0], "a quote of an answer", "an answer is printed nowhere")
    left = unicodedata.normalize("NFKC", QUOTE.sub(_as_typed, text))
    found: list[re.Match[str]] = []
    for looks_like, instead, matches in (
        ("an address of mail or of the web", _FILE, (*_WEB.finditer(left), *_MAIL.finditer(left))),
        ("a date", f"{_FILE}, and the days of the sitting have their own keys", _dates(left)),
        ("digits that look like a number to call", _FILE, (*_PHONE.finditer(left), *_PHONE_IN_WORDS.finditer(left))),
    ):
        for match in matches:
            if not any(match.start() < one.end() and one.start() < match.end() for one in found):
                found.append(match)
                yield _Told(match[0].strip(), looks_like, instead)
    for word, row in words_of_health(left, allergies=False):
        yield _Told(word, f"a word of health ({row.what})", row.instead)


def _told_in_a_name(name: str) -> Iterator[_Told]:
    """What the name of a job tells, which is in every address: a day of birth, or a word of health.

    A job may be named by its number, or by the day of its sitting.
    """
    text = re.sub(r"(?<!\d)-|-(?!\d)", " ", name)
    drawn = "name the job and its file by the drawing"
    for match in _dates(text):
        if any(_BORN_FROM <= int(year) <= _BORN_UP_TO for year in re.findall(r"(?:19|20)\d\d", match[0])):
            yield _Told(match[0], "a date", drawn)
            break
    for word, row in words_of_health(text, allergies=False):
        yield _Told(word, f"a word of health ({row.what})", drawn)


def _as_typed(quote: re.Match[str]) -> str:
    """What a quote types itself is read like the text around it."""
    said = (quote["path"] or "").strip()
    return said.removeprefix("typed:").partition("because")[0] if said.startswith("typed:") else "\n"


def _dates(text: str) -> tuple[re.Match[str], ...]:
    return (
        # A day in words is one date, although “born 12” may be another.
        *(match for pattern in _IN_WORDS for match in pattern.finditer(text) if _is_month(match)),
        *_BORN.finditer(text),
        *(match for pattern in _IN_DIGITS for match in pattern.finditer(text) if _is_day(match["a"], match["b"])),
        *_MONTH_AND_YEAR.finditer(text),
        *(match for match in _ROMAN.finditer(text) if _is_day(_roman(match[1]), _roman(match[2]))),
        *(match for match in _RUN.finditer(text) if is_date_in_digits(match[0])),
    )


def _is_month(match: re.Match[str]) -> bool:
    month = match["month"]
    return month.lower() not in _ALSO_A_VERB or month[:1].isupper() or re.search(r"\d{4}$", match[0]) is not None


def _is_day(one: str | int, other: str | int) -> bool:
    low, high = sorted((int(one), int(other)))
    return 1 <= low <= 12 and 1 <= high <= 31


def _roman(text: str) -> int:
    digits = [{"I": 1, "V": 5, "X": 10}[letter] for letter in text]
    return sum(-a if a < b else a for a, b in zip(digits, [*digits[1:], 0], strict=True))


def is_date_in_digits(digits: str) -> bool:
    """Whether six or eight digits without a sign between them can be read as a day of the calendar."""
    if len(digits) == 8:
        return any(
            1900 <= int(year) <= 2099 and _is_day(rest[:2], rest[2:])
            for year, rest in ((digits[:4], digits[4:]), (digits[4:], digits[:4]))
        )
    if len(digits) != 6:
        return False
    by_month = 1900 <= int(digits[:4]) <= 2099 and 1 <= int(digits[4:]) <= 12
    return by_month or any(_is_day(rest[:2], rest[2:]) for rest in (digits[:4], digits[2:]))


def _client(job: Job) -> Iterator[tuple[Diagnostic, str]]:
    reference = _REFERENCE.fullmatch(job.client)
    if reference is None:
        return
    letters, digits = reference[1], reference[2]
    # One letter is a studio's own sign, two or three may be somebody's initials, before a year or a day and a month.
    initials = len(letters) > 1 and len(digits) == 4
    born = initials and (_BORN_FROM <= int(digits) <= _BORN_UP_TO or _is_day(digits[:2], digits[2:]))
    if not born and not is_date_in_digits(digits):
        return
    yield (
        mistake_at(
            "R343",
            job.client,
            expected="a reference that nobody can read a name or a birth date from",
            help_="give the client a number that runs on, such as `R-0100`, in the consent file too; where it is one, "
            f"add {_exception(job.client)}",
            says=f"“{job.client}” looks like initials with a date of birth",
        ),
        job.client,
    )


def _allergies(job: Job) -> Iterator[tuple[Diagnostic, str]]:
    for allergy in job.allergies or ():
        for word, row in words_of_health(allergy.to)[:1]:
            yield (
                mistake_at(
                    "R344",
                    allergy.to,
                    expected="what may touch the skin at the station, such as `latex`, `nickel` or `red ink`",
                    help_=f"take it out: {row.instead}; where something on the tray holds it, "
                    f"add {_exception(allergy.to)}",
                    says=f"“{word}” is {row.what}, and no allergen",
                ),
                str(allergy.to),
            )
