"""What a picture of a plan is."""

from __future__ import annotations

from typing import NamedTuple

from markupsafe import Markup


class Picture(NamedTuple):
    """A picture with its heading and what is said beside it, so that nothing rests on the drawing alone.

    drawn: empty where there is nothing to draw and the words say why. said: one line each; note: below the lines.
    """

    anchor: str
    title: str
    drawn: Markup
    said: tuple[Markup, ...]
    note: Markup = Markup("")
