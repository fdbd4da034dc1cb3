"""What drawings are made of: elements of SVG, numbers short, everything escaped here; and a picture with its words."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from markupsafe import Markup, escape


def n(number: float, digits: int = 2) -> str:
    """A coordinate with two decimals at most, or as many as are asked for; a nought has no sign."""
    said = f"{number:z.{digits}f}"
    return said.rstrip("0").rstrip(".") if digits else said


def round_step(least: float) -> float:
    """The next of … 1, 2, 5, 10, 20, 50 …, for the lines of a scale and for a bar that gives one."""
    ten = 10.0 ** math.floor(math.log10(least))
    return next(ten * step for step in (1, 2, 5, 10) if ten * step >= least)


def element(name: str, *inside: str, **attributes: str | float) -> Markup:
    """One element; what stands inside is escaped unless it is markup, and a number is written by `n`.

    attributes: in their order, named as Python can: `class_`, and `text_anchor` for text-anchor. Put together as text,
    because one job has hundreds of elements.
    """
    said = "".join(
        f' {attribute.rstrip("_").replace("_", "-")}="{escape(value) if isinstance(value, str) else n(value)}"'
        for attribute, value in attributes.items()
    )
    return Markup(f"<{name}{said}>{''.join(map(escape, inside))}</{name}>" if inside else f"<{name}{said}/>")


def drawing(said: str, view: Iterable[float], *inside: str, **attributes: str | float) -> Markup:
    """A whole drawing. said: its text alternative; view: left, top, width and height in its own units."""
    box = " ".join(map(n, view))
    return element("svg", *inside, **attributes, viewBox=box, role="img", aria_label=said)


def path(role: str, d: str, **attributes: float) -> Markup:
    """A path of one role, which the style sheet draws."""
    return element("path", class_=role, d=d, **attributes)


def words(x: str | float, y: str | float, said: str, **attributes: str | float) -> Markup:
    """A text at its foot."""
    return element("text", said, x=x, y=y, **attributes)


class Picture(NamedTuple):
    """A picture with its heading and what is said beside it, so that nothing rests on the drawing alone.

    drawn: empty where there is nothing to draw and the words say why. said: one line each; note: below the lines.
    """

    anchor: str
    title: str
    drawn: Markup
    said: tuple[Markup, ...]
    note: Markup = Markup("")
