"""The recall sheet of a lot as one HTML file.

It prints although another job has a mistake, and says then that its list may be short: a client who has to be called
must not wait for that.
"""

from __future__ import annotations

import datetime
from typing import Any

from generator.press.words.print_line import with_words_stamp
from generator.press.words.templates import templates_of

_TEMPLATES = templates_of("lists", "words")


def lot_html(context: dict[str, Any], here: str, as_of: datetime.date) -> str:
    """The recall sheet of a lot, from what `lists/lots.py` puts together; `here` is its address in the site."""
    html = _TEMPLATES.get_template("lot.html.j2").render({**context, "as_of": as_of.isoformat()})
    return with_words_stamp(html, here, context["studio"], as_of)
