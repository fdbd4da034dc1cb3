"""The line that every print carries: studio, page, stamp and date, and the stamp of what a page says.

A sheet has a stamp of its own, which is made from its plan; any other page is stamped from the words that it prints.
"""

from __future__ import annotations

import datetime
import hashlib
import re
from pathlib import Path

from markupsafe import Markup

from generator.dates import set_date
from generator.press.words.page_day import saying_its_day
from generator.press.words.printed_words import printed_words
from generator.press.words.shared import Shared

# What a page of one file runs that has no script of its own.
PRINT_LINE = Shared(("words",), "print-line.js.j2")
_WRITTEN = re.compile(r'<p class="print-line unstamped" data-print="([^"\s]+\.html) ([0-9a-f]{8})"')
_OF_A_SHEET = re.compile(r'<p class="print-line unstamped" data-print="[^".\s]+ ([0-9a-f]{8})"')


def words_stamp(html: str) -> str:
    """Eight characters that change when a word or number of a page changes, and not with how it is drawn.

    Words in folds count, whether they are open or closed: somebody may have printed them open.
    """
    return hashlib.sha256(printed_words(html).encode()).hexdigest()[:8]


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
    before, end, after = saying_its_day(html, as_of).rpartition("</body>")
    return f"{before}{line}{end}{after}"


def with_words_stamp(html: str, here: str, studio: str, as_of: datetime.date) -> str:
    """The page with its print line, stamped by its own words; `here` is its address in the site."""
    return with_print_line(html, here, words_stamp(html), studio, as_of)


def written_stamp(html: str) -> str:
    """The stamp that a page of the site carries; nothing for a sheet, which goes by its job, and for other pages."""
    line = _WRITTEN.search(html)
    return "" if line is None else line[2]


def printed_stamp(html: str) -> str:
    """The stamp that a sheet's page carries; empty for any other page."""
    line = _OF_A_SHEET.search(html)
    return "" if line is None else line[1]


def written_stamps(site: Path) -> dict[str, str]:
    """The stamps that the pages of a finished site carry, by their addresses; sheets are left out."""
    found = (_WRITTEN.search(page.read_text("utf-8")) for page in site.rglob("*.html"))
    return dict(sorted((line[1], line[2]) for line in found if line is not None))
