"""The line that every print carries: studio, page, stamp and date, and the stamp of what a page says.

A sheet has a stamp of its own, which is made from its plan; any other page is stamped from the words that it prints.
"""

from __future__ import annotations

import datetime
import hashlib
import re
from html.parser import HTMLParser
from pathlib import Path

from markupsafe import Markup

from generator.dates import set_date
from generator.press.words.set_date import saying_it

# How wide the line is at the left edge of the paper, in mm.
STRIP = 5
# Elements without an end tag open nothing that could be left again.
_VOID = frozenset(
    ("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr")
)
_UNSEEN = frozenset(("script", "style", "template", "head"))
# What paper does not show, and what changes with the day of the build alone.
_NOT_PRINTED = frozenset(("screen", "screen-only", "headerlink", "here", "swatch", "links", "back", "unstamped"))
_WRITTEN = re.compile(r'<p class="print-line unstamped" data-print="([^"\s]+) ([0-9a-f]{8})"')


def words_stamp(html: str) -> str:
    """Eight characters that change when a word or number of a page changes, and not with how it is drawn.

    Words in folds count, whether they are open or closed: somebody may have printed them open.
    """
    reader = _Words()
    reader.feed(html)
    reader.close()
    words = " ".join(" ".join(reader.words).split())
    return hashlib.sha256(words.encode()).hexdigest()[:8]


class _Words(HTMLParser):
    """Collects the words of a page, with the words that stand for its pictures, and leaves out what is not printed."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self._open: list[tuple[str, bool]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        if tag == "img" and not self._left_out():
            self.words.append(named.get("alt") or "")
        if tag not in _VOID:
            classes = (named.get("class") or "").split()
            self._open.append((tag, tag in _UNSEEN or not _NOT_PRINTED.isdisjoint(classes)))

    def handle_endtag(self, tag: str) -> None:
        # An end that was left out ends with the element around it.
        for at in range(len(self._open) - 1, -1, -1):
            if self._open[at][0] == tag:
                del self._open[at:]
                return

    def handle_data(self, data: str) -> None:
        if not self._left_out():
            self.words.append(data)

    def _left_out(self) -> bool:
        return any(left_out for _, left_out in self._open)


def with_print_line(html: str, name: str, stamp: str, studio: str, as_of: datetime.date) -> str:
    """A page with the line at its end, which only paper shows, and paper shows on every page.

    name: by what the stamp is looked up: a job for its sheet, the address in the site for any other page. Browsers that
    can number the pages of a print do so in the margin; in one that cannot, the numbers are written in by hand.
    """
    day = Markup("<b>as of {}, a set date</b>" if set_date(as_of) else "as of {}").format(as_of.isoformat())
    line = Markup(
        '<p class="print-line unstamped" data-print="{0} {1}">{2} · {0} · stamp {1} · {3}'
        '<span class="by-hand"> · page ____ of ____</span></p>\n'
    ).format(name, stamp, studio, day)
    before, end, after = saying_it(html, as_of).rpartition("</body>")
    return f"{before}{line}{end}{after}"


def with_words_stamp(html: str, here: str, studio: str, as_of: datetime.date) -> str:
    """The page with its print line, stamped by its own words; `here` is its address in the site."""
    return with_print_line(html, here, words_stamp(html), studio, as_of)


def written_stamps(site: Path) -> dict[str, str]:
    """The stamps that the pages of a finished site carry, by their addresses; sheets are left out."""
    found = (_WRITTEN.search(page.read_text("utf-8")) for page in site.rglob("*.html"))
    return dict(sorted((line[1], line[2]) for line in found if line is not None and line[1].endswith(".html")))
