"""Where a page says that the day that counts as today was set, so that nobody takes it for today.

On a screen the sentence stands at the head of the page, in bold. On paper it stands in the upper margin of every page,
where it takes no room from a sheet; a browser that leaves margins empty still prints the set date in the page's line.
"""

from __future__ import annotations

import datetime

from markupsafe import Markup

from generator.dates import set_date
from generator.press.words.markup import under_title

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


def saying_it(html: str, as_of: datetime.date) -> str:
    """A whole page with the sentence at its head, where it has no place for it yet, and in its upper margin."""
    said = set_date(as_of)
    if not said:
        return html
    html = html.replace("<main>\n", f"<main>\n{_SAID.format(said)}\n", 1)
    return html.replace("</head>", f"{_STYLE.format(said)}</head>", 1)
