"""The words of pages, records and sheets: the field's own, and plain ones, wherever somebody reads them."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from generator.press.manual.authored import prose_lines
from tests.conftest import ROOT

# What is not written, and what is written instead.
NOT_WRITTEN = {
    r"needle-?\s?sticks?(?<!needlestick)(?<!needlesticks)": "needlestick",
    r"(?<!\w)prick(s|ed|ing)?\b|\bstuck\b": "needlestick, needle or sharps injury, pierced",
    r"times[ -]over\b": "passes at most",
    r"\bclock[ -]rates?\b": "pace",
    r"\bown pace\b": "the artist's own factor (learned)",
    r"(?<!ready )\breckon\w*": "calculated",
    r"\bwhence\b|\bwherein\b": "source, from which",
    r"\bhouse bin\b|\blined (waste )?(bin|bag)s?\b": "clinical waste bin or bag, general waste",
    r"\bday and hand\b": "date and initials",
    r"\bheld back\b": "quarantine shelf",
    r"\bphoto document\b|\bdocument (was )?seen\b": "photo ID",
    r"\bchlorine mix\b|\bmix of chlorine\b|\b(liquid|with|after) chlorine\b": "bleach solution",
    r"\blight box(es)?\b": "UV cabinet",
    r"\bhousehold wrap\b": "cling film",
    r"\bpads? (that|which) do(es)? not stick\b|\bdressing film\b(?! dressing)": "non-adherent dressing, film dressing",
    r"\bswollen nodes\b|\bheart flutter\b|\bnumb mouth\b": "lymph nodes, palpitations, numbness round the mouth",
    r"\btrial spots?\b": "test spot or patch test",
    r"\bexposure plan\b": "exposure control plan",
    r"\bpulps?\b": "overworked skin",
    r"\bold work\b": "existing tattoo",
    r"\bdrunk\b": "has had water; alcohol",
    r"\bit will do\b|\bwill not do\b": "yes, aloud; does not",
    r"\bthe plan (then )?waits\b|\buntil then it rests\b|\blet it rest\b": "do not start",
    r"\bstands? (under|once|on no|on the sheet|in the (consent|file)|with the day)\b": "is",
    r"\blines over a scar go first\b": "blow out first",
    r"\b(even|second) step (in|from)\b|\bgentler steps\b": "pass",
}
WRONG = re.compile("|".join(f"(?:{words})" for words in NOT_WRITTEN), re.IGNORECASE)
# What a source is called, a key and a typed command are left as they are.
_UNREAD = re.compile(r"<(script|style|code|pre|svg)\b.*?</\1>|<[^>]*>", re.DOTALL)


def wrong(text: str) -> list[str]:
    """Each place, with a few words around it."""
    flat = " ".join(text.split())
    return [flat[max(0, at.start() - 50) : at.end() + 30] for at in WRONG.finditer(flat)]


def test_the_pattern_finds_what_it_is_for() -> None:
    for said in (
        "A needle-stick.",
        "Needle stick",
        "a prick through a glove",
        "Times over, then stop",
        "the artist's own pace",
        "is reckoned from its swatch",
        "day and hand",
        "into the lined bin",
        "the client has drunk",
        "shine or pulp",
        "it stands under people",
        "old work",
    ):
        assert wrong(said), said
    for said in ("A needlestick.", "needlesticks happen", "the HSE’s ready reckoner", "client stands up", "one pass"):
        assert wrong(said) == [], said


@pytest.mark.parametrize("file", sorted((ROOT / "handbook").rglob("*.md")), ids=lambda path: path.stem)
def test_an_authored_page_has_the_words_of_the_trade(file: Path) -> None:
    prose = "\n".join(line for _, line in prose_lines(file.read_text("utf-8")))
    assert wrong(re.sub(r"\{\{.*?\}\}|\]\([^)]*\)", " ", prose)) == []


def _strings(value: object, key: str = "") -> Iterator[str]:
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from _strings(inner, name)
    elif isinstance(value, list):
        for inner in value:
            yield from _strings(inner, key)
    elif isinstance(value, str) and key not in ("id", "source", "procedure", "where", "body", "answered_in"):
        yield value


@pytest.mark.parametrize("file", sorted((ROOT / "content").rglob("*.yml")), ids=lambda path: path.stem)
def test_the_texts_of_records_have_the_words_of_the_trade(file: Path) -> None:
    said = list(_strings(yaml.load(file.read_text("utf-8"), Loader=yaml.CBaseLoader)))
    assert [found for text in said for found in wrong(text)] == []


def test_no_page_and_no_sheet_of_the_site_has_another_word(site: Path) -> None:
    found = {}
    for path in sorted(site.rglob("*.html")):
        if "assets" in path.relative_to(site).parts:
            continue
        said = wrong(html.unescape(_UNREAD.sub(" ", path.read_text("utf-8"))))
        if said:
            found[str(path.relative_to(site))] = said[:4]
    assert found == {}


# What one page asks for and another forbids is found by reading; these are the pairs that once disagreed.
@pytest.mark.parametrize(
    ("page", "says", "never"),
    [
        ("lining", "Fine lines over a scar blow out first.", "go first"),
        ("lining", "Nothing goes over a scar younger than", "young scar"),
        ("groupings", "no fine lines over one until", "not at all over a young scar"),
        ("scars", "no fine lines over a scar until", "leave the fine ones out"),
        ("stencil", "Go on only when the client says yes aloud.", "is a no"),
        ("comfort-and-breaks", "had water", "drunk enough"),
        ("break-down", "14. Take gloves and apron off, wash hands", "carrying a needle"),
        ("spill", "12. Take off the gloves, then the apron", "change gloves, and close the bag"),
        ("hands-and-gloves", "Taken off in this order: gloves, apron", "apron, gloves"),
    ],
)
def test_pages_agree_on_what_could_hurt(page: str, says: str, never: str) -> None:
    text = " ".join((ROOT / "handbook" / "procedures" / f"{page}.md").read_text("utf-8").split())
    assert says in text and never not in text


def test_limits_for_a_scar_are_quoted_from_the_rules() -> None:
    for page in ("lining", "groupings"):
        text = (ROOT / "handbook" / "procedures" / f"{page}.md").read_text("utf-8")
        assert "{{ scar-rules.scar-young.wait_until_age }}" in text
        assert "{{ scar-rules.scar-thin-and-settling.when.scar.age }}" in text


def test_water_is_water_and_alcohol_is_alcohol_on_the_sheet(site: Path) -> None:
    sheet = html.unescape((site / "sheets" / "keepers-lantern.html").read_text("utf-8"))
    assert "has had water" in sheet and "alcohol" in sheet
