"""Pages of one HTML file that need nothing else: a day, a recall sheet, a sheet to sign, what a client takes home."""

from __future__ import annotations

import datetime

from generator.press.words.print_line import PRINT_LINE, with_words_stamp
from generator.press.words.shared import Shared
from generator.press.words.templates import templates_of
from generator.records.studio import Studio


class OneFile:
    """A page that is made with the template and the style of its name, such as `day.html.j2` and `day.css.j2`.

    rooms: those of `press` that have them; values: what the style is filled in with.
    """

    def __init__(self, rooms: tuple[str, ...], name: str, **values: object) -> None:
        self.style = Shared(rooms, f"{name}.css.j2", **values)
        self._rooms, self._template = rooms, f"{name}.html.j2"

    def page(self, address: str, studio: Studio, as_of: datetime.date, **said: object) -> str:
        """The page at an address of the site, stamped by its words. said: what else its template says."""
        template = templates_of(*self._rooms).get_template(self._template)
        html = template.render(
            studio=studio.name,
            paper=studio.paper,
            as_of=as_of.isoformat(),
            style=self.style.inline,
            script=PRINT_LINE.inline,
            **said,
        )
        return with_words_stamp(html, address, studio.name, as_of)
