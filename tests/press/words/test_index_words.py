"""The search finds every word that a page shows: the index reads cells, captions and terms apart."""

from __future__ import annotations

import html
import json
import random
import re
from pathlib import Path
from typing import Any

import pytest
from material.plugins.search.plugin import Parser

from generator.press.words.index_words import index_text, words_apart
from tests.conftest import searched, turn_to

# Two neighbours of each kind, as they stand in a page without a space between them.
KINDS = {
    "td": "<table><tr><td>ember</td><td>copper</td></tr></table>",
    "th": "<table><tr><th>ember</th><th>copper</th></tr></table>",
    "th and td": '<table><tr><th scope="row">ember</th><td>copper</td></tr></table>',
    "rows": "<table><tbody><tr><td>ember</td></tr><tr><td>copper</td></tr></tbody></table>",
    "caption": "<table><caption>ember</caption><tr><td>copper</td></tr></table>",
    "dt and dd": "<dl><dt>ember</dt><dd>copper</dd></dl>",
    "dd and dt": "<dl><dd>ember</dd><dt>copper</dt></dl>",
    "li": "<ul><li>ember</li><li>copper</li></ul>",
    "text and list": "<div>ember<ul><li>copper</li></ul></div>",
    "figcaption": "<figure><figcaption>ember</figcaption>copper</figure>",
    "summary": "<details><summary>ember</summary>copper</details>",
    "button": "<button>ember</button><button>copper</button>",
    "option": "<select><option>ember</option><option>copper</option></select>",
    "label": "<label>ember</label><label>copper</label>",
    "svg text": "<svg><text>ember</text><text>copper</text></svg>",
    "svg title": "<svg><title>ember</title><text>copper</text></svg>",
    "lines of svg text": "<svg><text><tspan>ember</tspan><tspan>copper</tspan></text></svg>",
    "div": "<div>ember</div><div>copper</div>",
    "paragraph and text": "<p>ember</p>copper",
    "line break": "<td>ember<br>copper</td>",
    "line break of XHTML": "<td>ember<br/>copper</td>",
    "rule": "<div>ember<hr>copper</div>",
    "picture": '<div>ember<img alt="a > b" src="x.svg">copper</div>',
    "lines to copy": "<div>ember<pre>copper</pre></div>",
}
GLUED = {"td", "th", "th and td", "rows", "caption", "dt and dd", "summary", "svg text", "line break"}


SEPARATOR = r"[\s\-]+"


def tokens(text: str, separator: str = SEPARATOR) -> set[str]:
    """The words of an entry as the search divides it: at its separator, and at the tags that the index keeps."""
    words = re.split(separator, html.unescape(re.sub(r"<[^>]*>", " ", text)))
    return {word for word in words if word}


def not_found(shown: str, entry: set[str], separator: str) -> list[str]:
    """What is seen and cannot be found. Words are typed without the signs around them, and found by how they begin."""
    typed = {re.sub(r"^[^\w.]+|\W+$", "", word) for word in re.split(separator, shown)}
    return sorted(word for word in typed - entry if word and not any(token.startswith(word) for token in entry))


def indexed(content: str) -> set[str]:
    """What the search plugin itself makes of a page."""
    parser = Parser()
    parser.feed(content)
    parser.close()
    return tokens("".join(piece for section in parser.data for piece in section.text))


@pytest.mark.parametrize("kind", KINDS)
def test_neighbours_are_two_words(kind: str) -> None:
    assert {"ember", "copper"} <= indexed(words_apart(KINDS[kind]))
    if kind in GLUED:
        assert "embercopper" in indexed(KINDS[kind])


@pytest.mark.parametrize(
    ("content", "word"),
    [
        ("<p>hang<b>-out</b>s</p>", "outs"),
        ("<p>12<span>07</span>RL</p>", "1207RL"),
        ('<td><a href="#x">Gather</a>, then</td>', "Gather,"),
    ],
)
def test_a_word_that_runs_across_a_tag_stays_one(content: str, word: str) -> None:
    assert word in indexed(words_apart(content))


def test_lines_to_copy_and_scripts_stay_as_they_are() -> None:
    lines = "<pre><code>id: lining\n  box:\n<i>x</i><br>y</code></pre>"
    assert words_apart(lines) == f"{lines} "
    assert words_apart("a < b<td>c") == "a < b <td> c"


def sections(content: str) -> list[tuple[str, str | None, list[str], list[str]]]:
    """What the search plugin writes into the index of a page, by words; lines to copy are one of them."""
    parser = Parser()
    parser.feed(content)
    parser.close()
    return [(s.el.tag, s.id, in_words(s.title), in_words(s.text)) for s in parser.data]


def in_words(pieces: list[str]) -> list[str]:
    return re.findall(r"<pre>.*?</pre>|\S+", "".join(pieces), re.DOTALL)


# What the index does in a way of its own: white space, elements without words, and what it passes over.
HARD = (
    '<h1 id="a">A</h1><div> <table><tr><td>x</td> <td> </td>\n<td>y</td></tr></table></div><p>z</p>',
    '<h2 id="a">A</h2><p><img alt="x"></p> <p>y</p>',
    '<h2 id="a">A</h2><div>x</div> <p> </p> <div> y</div>',
    '<h2 id="a">A <a class="headerlink" href="#a">#</a></h2><dl><dt>x</dt><dd>y</dd></dl><pre>a\n  b</pre> <td>c</td>',
    '<h1 id="a">A</h1><span data-search-exclude><math>x</math></span>, y',
    '<h1 id="a">A</h1><div class="formula" data-search-exclude><math>x</math><math>y</math></div><div>z</div>',
    "<p><b>x</p>y<td>z",
    "x<td>&nbsp;</td><td>&amp;</td>",
    '<section><!-- <td> --><h3 id="a">x</h3></section>',
    "<P>x</P><TD>y</TD>",
)
_NAMES = ("div", "td", "p", "li", "ul", "code", "span", "a", "b", "h2", "h3", "sup", "section", "pre", "style", "title")
_TEXTS = (
    "x",
    " ",
    "  ",
    "\n",
    "a b",
    "&nbsp;",
    "&amp;",
    " y ",
    "&lt;b&gt;",
    " < ",
    "<br>",
    '<img alt="a > b">',
    "<br/>",
)


def _drawn(draw: random.Random, depth: int = 0) -> str:
    made = ""
    for _ in range(draw.randint(0, 4)):
        if depth > 4 or draw.random() < 0.5:
            made += draw.choice(_TEXTS)
            continue
        name = draw.choice(_NAMES)
        plain = name in ("style", "pre", "title")
        inner = draw.choice(("x", " ", "a b")) if plain else _drawn(draw, depth + 1)
        made += f"<{name}{draw.choice(('', ' id=q'))}>{inner}</{name}>"
    return made


# Where a heading with a name is inside of another element, or an element has no end, the index is divided otherwise.
_DIVIDED_OTHERWISE = re.compile(r"<h[23] id=q>|<p><b>x</p>")


def test_the_index_says_the_same_without_the_tags_that_it_drops() -> None:
    draw = random.Random(7)
    wrong, shorter, nested = [], 0, 0
    for content in (*KINDS.values(), *HARD, *(_drawn(draw) for _ in range(2500))):
        read = index_text(content)
        shorter += read.count("<") < words_apart(content).count("<")
        found, expected = sections(read), sections(words_apart(content))
        if _DIVIDED_OTHERWISE.search(content):
            nested += 1
            found, expected = letters(found), letters(expected)
        if found != expected:
            wrong.append((content, found, expected))
    assert wrong[:5] == []
    assert shorter > 100 and 0 < nested < 1500


def letters(found: list[tuple[str, str | None, list[str], list[str]]]) -> list[str]:
    """All of them in no order, without tags."""
    said = "".join(word for _, _, title, text in found for word in (*title, *text))
    return sorted(re.sub(r"</?[a-z]+>|\s", "", said))


def test_what_follows_a_heading_belongs_to_it_whatever_frame_the_heading_has() -> None:
    found = sections(index_text("<h1 id=a>A</h1>x<div><h2 id=b>B</h2>y</div> z"))
    assert [(at, text) for _, at, _, text in found] == [(None, ["x"]), ("b", ["y", "z"])]


def test_no_line_of_a_formula_is_in_the_index(site: Path) -> None:
    """The answer of a formula with two lines begins with its second symbol on the page."""
    index = json.loads((site / "search" / "search_index.json").read_text("utf-8"))
    of_formulas = [
        doc for doc in index["docs"] if doc["location"].startswith("formulas/") and "Symbols of" in doc["text"]
    ]
    found = {
        doc["location"]: re.search(r"</code>\s*</p>(.*?)Symbols of", doc["text"], re.DOTALL) for doc in of_formulas
    }
    assert {
        at: said[1].strip() if said else "no formula" for at, said in found.items() if not said or said[1].strip()
    } == {}
    assert len(found) > 80


# Sections as a reader sees them: from one heading to the next, with all folds open. The letters of a formula are
# drawn with characters of their own, so formulas are left out.
_SECTIONS = """() => {
    document.querySelectorAll("details").forEach(fold => { fold.open = true; });
    const left = ".headerlink, [data-search-exclude], math, script, style, [hidden]";
    document.querySelectorAll(left).forEach(part => part.remove());
    const article = document.querySelector("article"), selection = window.getSelection(), found = [];
    const heads = [...article.querySelectorAll("h1, h2, h3, h4, h5, h6")].filter(head => head.id);
    heads.forEach((head, n) => {
        const range = document.createRange();
        range.setStartBefore(head);
        if (heads[n + 1]) { range.setEndBefore(heads[n + 1]); } else { range.setEndAfter(article.lastChild); }
        selection.removeAllRanges();
        selection.addRange(range);
        found.push([n ? "#" + head.id : "", selection.toString()]);
    });
    return found;
}"""


def test_every_word_that_a_page_shows_is_in_the_index_of_its_section(still: Any, site: Path) -> None:
    index = json.loads((site / "search" / "search_index.json").read_text("utf-8"))
    separator = index["config"]["separator"]
    known = {doc["location"]: tokens(f"{doc['title']} {doc['text']}", separator) for doc in index["docs"]}
    pages = sorted({place.split("#")[0] for place in known if not place.startswith("jobs/")})
    # Nothing of a page is painted, which takes longer than to read it.
    still.set_viewport_size({"width": 1280, "height": 10})
    missing, words = {}, 0
    for name in pages:
        turn_to(still, site / name)
        for at, text in still.evaluate(_SECTIONS):
            words += len(text.split())
            if lost := not_found(text, known.get(f"{name}{at}", set()), separator):
                missing[f"{name}{at}"] = lost[:20]
    assert missing == {}
    assert len(pages) > 100 and words > 20_000


def test_the_search_finds_a_word_of_a_cell(page: Any, site: Path) -> None:
    """The first stands at the beginning of a cell, the others behind a bracket."""
    page.goto((site / "index.html").as_uri())
    for words, leads_to in (
        ("Gather", "reference/sites.html"),
        ("2.54", "reference/sites.html"),
        ("brochure", "reference/sources.html"),
    ):
        found = searched(page, words)
        assert [href for href in found if leads_to in href], (words, found)
