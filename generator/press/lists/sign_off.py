"""The sheet on which a role's procedures are signed."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from generator.press.lists.start_here import ToSign, sign_off_of
from generator.press.words.print_line import with_words_stamp
from generator.press.words.templates import templates_of
from generator.records.studio import Studio

_TEMPLATES = templates_of("lists", "words")


def sign_off_html(role: str, studio: Studio, lines: Sequence[ToSign], as_of: datetime.date) -> str:
    """The sheet on which a role's procedures are signed, as one HTML file."""
    context = {"role": role, "studio": studio.name, "paper": studio.paper, "lines": lines, "as_of": as_of.isoformat()}
    html = _TEMPLATES.get_template("sign-off.html.j2").render(context)
    return with_words_stamp(html, sign_off_of(role), studio.name, as_of)
