"""Styles and scripts that many pages have: a part of a page that is one file, and in the site a file for all of them.

The name of the file carries a hash of what is in it, so that a page that a browser kept never meets a newer style, and
a new page never an older one.
"""

from __future__ import annotations

import hashlib
from functools import cached_property

from markupsafe import Markup

from generator.press.words.templates import templates_of

_INLINE = {"css": Markup("<style>\n{}</style>"), "js": Markup("<script>\n{}</script>")}
_LINKED = {"css": '<link rel="stylesheet" href="../{}">', "js": '<script src="../{}"></script>'}


class Shared:
    """A style or a script that is the same on every page of its kind.

    template: its name, such as `sheet.css.j2`, in the first of the rooms that has it; values: what stands in it.
    """

    def __init__(self, rooms: tuple[str, ...], template: str, **values: object) -> None:
        self._rooms, self._template, self._values = rooms, template, values
        self._name, self._kind, _ = template.split(".")

    @cached_property
    def text(self) -> str:
        """What is in it, lines that end with a new line."""
        return templates_of(*self._rooms).get_template(self._template).render(self._values).rstrip("\n") + "\n"

    @cached_property
    def address(self) -> str:
        """Where it is in the site."""
        return f"assets/{self._name}-{hashlib.sha256(self.text.encode()).hexdigest()[:12]}.{self._kind}"

    @cached_property
    def inline(self) -> Markup:
        """What a page of one file has of it."""
        return _INLINE[self._kind].format(Markup(self.text))

    @cached_property
    def linked(self) -> str:
        """What a page has instead that stands in a folder of the site."""
        return _LINKED[self._kind].format(self.address)


def in_site(html: str, *shared: Shared) -> str:
    """A page of one file as it stands in a folder of the site, with links to what it shares with other pages."""
    for one in shared:
        html = html.replace(one.inline, one.linked)
    return html
