"""The words of a page are read in two ways, which give the same."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.press.words.printed_words import printed_words, read_at_once, read_by_the_parser


def _joined(words: list[str]) -> str:
    return " ".join(" ".join(words).split())


CERTAIN = {
    "<p>One<!-- not this --> two</p>": "One two",
    '<p class="a screen b">No<br>no</p><p>yes &amp; &lt;more&gt;</p>': "yes & <more>",
    '<head><title>No</title></head><img alt="A &quot;map&quot;"><img>': 'A "map"',
    '<div class="back"><p>no<span>no</div>yes': "yes",
    "<svg><path d='x'/></svg>": "",
    "<script>if (a < b) { '</p>' }</script>after": "after",
    "<style>p > a {}</style><ul><li>one<li>two</ul></li>three": "one two three",
    "<P Class=Screen>yes</P><p CLASS=screen>no</p>": "yes",
    '<p class="backdrop">yes</p><p class="a&#32;screen">no</p>yes': "yes yes",
    '<p title="it > is">5 > 4</p><p title="a > b" class="screen">no</p>': "5 > 4",
    "<div class='here'>no</div><p class=\"here\"><title>no</title><br><svg/></p>yes": "yes",
    "no tag at all": "no tag at all",
    "": "",
}
UNCERTAIN = (
    "a < b",
    "<p title='it > is' class='screen'>no</p>",
    "<p",
    "<![CDATA[x]]>",
    "<textarea><b></textarea>",
    "</>",
    "a<!-- <p> -->b",
    '<p><span class="screen">no</p>yes',
)


def test_well_formed_pages_are_read_at_once() -> None:
    for page, words in CERTAIN.items():
        assert _joined(read_by_the_parser(page)) == words == printed_words(page), page
        assert read_at_once(page) is not None or "='" in page, page


@pytest.mark.parametrize("page", UNCERTAIN)
def test_what_is_not_certain_is_left_to_the_parser(page: str) -> None:
    found = read_at_once(page)
    assert found is None or _joined(found) == _joined(read_by_the_parser(page))
    assert printed_words(page) == _joined(read_by_the_parser(page))


def test_pages_of_a_site_are_read_alike(site: Path) -> None:
    pages = sorted(site.rglob("*.html"))[::6]
    assert len(pages) > 20
    found = {page.name: (read_at_once(text), text) for page in pages for text in (page.read_text("utf-8"),)}
    assert [name for name, (words, _) in found.items() if words is None] == []
    assert [n for n, (words, text) in found.items() if _joined(words or []) != _joined(read_by_the_parser(text))] == []
