"""Where a page says in a browser that it is older than today, so that nobody works by what was true last week.

The page carries the day of its build; what asks the browser for today is a few lines of script, which need no network.
A page whose day was set says that instead, and is the same on every day.
"""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path

from generator.dates import AsOf, in_words
from generator.press.words.shared import Shared

_SAID = Path(__file__).parent / "templates" / "built.html.j2"
STYLE, SCRIPT = SHARED = Shared(("words",), "built.css.j2"), Shared(("words",), "built.js.j2")


def saying_its_age(html: str, as_of: datetime.date) -> str:
    """A whole page that says how old it is. Not one of a set day, and not a kept one, which has a day of its own."""
    if not isinstance(as_of, AsOf) or as_of.set_by:
        return html
    before, end, after = html.rpartition("</body>")
    return f"{before}{_said(as_of)}{end}{after}"


@cache
def _said(day: AsOf) -> str:
    said = _SAID.read_text("utf-8").replace("ISO-DAY", day.isoformat()).replace("DAY-IN-WORDS", in_words(day))
    return f"{STYLE.inline}\n{said}{SCRIPT.inline}\n"
