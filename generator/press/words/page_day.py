"""Where a page says which day it is of: that the day was set, or how old it is, so that nobody takes it for today.

On a screen the sentence stands at the head of the page, in bold. A set day stands on paper in the upper margin of every
page, where it takes no room from a sheet; a browser that leaves margins empty still prints it in the page's line. A
page of the clock's own day carries that; a few lines of script ask the browser for today, which needs no network.
"""

from __future__ import annotations

import datetime
from functools import cache

from markupsafe import Markup

from generator.dates import AsOf, in_words, set_date
from generator.press.words.markup import under_title
from generator.press.words.shared import Shared
from generator.press.words.templates import templates_of

STYLE, SCRIPT = SHARED = Shared(("words",), "built.css.j2"), Shared(("words",), "built.js.j2")
_SAID = Markup('<p class="set-date screen unstamped"><strong>{}</strong></p>')
# The sentence is letters, digits and full stops, so that nothing in it can end the text of the style.
_STYLE = """<style>
.set-date {{ border: .6mm solid; padding: 1.5mm 3mm; margin: 0 0 3mm; }}
@page {{ @top-left {{ content: "{}"; font: bold 9pt "DejaVu Sans", Verdana, sans-serif; color: #000; }} }}
@media print {{ .set-date {{ display: none; }} }}
</style>
"""


def with_set_date(markdown: str, as_of: datetime.date) -> str:
    """A page of the handbook with the sentence under its title; an emergency comes before it."""
    said = set_date(as_of)
    return under_title(markdown, _SAID.format(said)) if said else markdown


def saying_its_day(html: str, as_of: datetime.date) -> str:
    """A whole page that says at its head that its day was set, or else how old it is. A kept one has its own day."""
    if said := set_date(as_of):
        html = html.replace("<main>\n", f"<main>\n{_SAID.format(said)}\n", 1)
        return html.replace("</head>", f"{_STYLE.format(said)}</head>", 1)
    if not isinstance(as_of, AsOf):
        return html
    before, end, after = html.rpartition("</body>")
    return f"{before}{_age(as_of)}{end}{after}"


@cache
def _age(day: AsOf) -> str:
    said = templates_of("words").get_template("built.html.j2").render(day=day.isoformat(), in_words=in_words(day))
    return f"{STYLE.inline}\n{said}\n{SCRIPT.inline}\n"
