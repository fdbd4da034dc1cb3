"""Values that carry the place from which they were read: numbers, days and words that are otherwise as ever."""

import datetime
from typing import Any, SupportsIndex

from generator.diagnostics import Place
from generator.origins import Origin
from generator.quantities import Quantity
from generator.records.located import Listing, Mapping, Node, Text


class _Carrying:
    """Copies and pickles keep what it carries, which those of days and hours would not by themselves."""

    origin: Origin

    def __reduce_ex__(self, protocol: SupportsIndex) -> tuple[Any, ...]:
        made = super().__reduce_ex__(protocol)
        assert isinstance(made, tuple)
        return made[0], made[1], self.__dict__


class Whole(_Carrying, int):
    """A whole number of a record."""


class Ratio(_Carrying, float):
    """A number of a record that has no unit."""


class Word(_Carrying, str):
    """A word of a record that is not spelled as it was typed, such as a colour in small letters."""


class Date(_Carrying, datetime.date):
    """A day that knows where it was written, and what had been done by then where it says so (`days.Day`)."""

    place: Place
    past: str = ""


class Hour(_Carrying, datetime.time):
    """A time of day that knows where it was written."""

    place: Place


def noted(value: Any, origin: Origin) -> Any:
    """The same value with its origin. What can carry none is returned as it is: yes and no, and what is not there."""
    if isinstance(value, Text):
        value.origin = origin
        return value
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, Quantity):
        return Quantity(value.low, value.high, value.kind, value.text, value.place, origin)
    if type(value) is tuple:
        return tuple(noted(item, origin) for item in value)
    made: Any = value
    if type(value) is int:
        made = Whole(value)
    elif type(value) is float:
        made = Ratio(value)
    elif type(value) is str:
        made = Word(value)
    elif type(value) is datetime.time:
        made = Hour(value.hour, value.minute, value.second, value.microsecond)
    if isinstance(made, _Carrying):
        made.origin = origin
    elif hasattr(made, "_replace") and hasattr(made, "origin"):
        made = made._replace(origin=origin)
    return made


def source_beside(key: str) -> str:
    """The key that names the source of one field alone, where it is another than that of its record."""
    return f"{key}_source"


def note(node: Node, path: str, source: str, own: tuple[str, ...] = (), house: str = "") -> None:
    """Tell every value below a node its path and the nearest source.

    own: keys of the node whose values the studio itself counted, so that they rest on its source, `house`.
    """
    if isinstance(node, Mapping):
        source = _text(node, "source") or source
        for key, value in node.items():
            named = _text(node, source_beside(key)) or (house if key in own else source)
            note(value, f"{path}.{key}", named)
    elif isinstance(node, Listing):
        for number, item in enumerate(node):
            named = _text(item, "id") if isinstance(item, Mapping) else ""
            note(item, f"{path}.{named or number}", source)
    node.origin = Origin(path, source)


def _text(node: Mapping, key: str) -> str:
    found = node.get(key)
    return str(found) if isinstance(found, Text) else ""
