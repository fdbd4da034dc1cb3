"""Values that carry the place from which they were read: numbers, days and words that are otherwise as ever."""

from typing import Any, SupportsIndex, TypeVar

from generator.origins import Origin
from generator.quantities import Quantity
from generator.records.located import Listing, Mapping, Node, Text

T = TypeVar("T")


class Carrying:
    """Copies and pickles keep what it carries, which those of days and hours would not by themselves."""

    origin: Origin

    def __reduce_ex__(self, protocol: SupportsIndex) -> tuple[object, ...]:
        made = super().__reduce_ex__(protocol)
        assert isinstance(made, tuple)
        return made[0], made[1], self.__dict__


class Whole(Carrying, int):
    """A whole number of a record."""


class Ratio(Carrying, float):
    """A number of a record that has no unit."""


class Word(Carrying, str):
    """A word of a record that is not spelled as it was typed, such as a colour in small letters."""


def noted(value: T, origin: Origin) -> T:
    """The same value with its origin. What can carry none is returned as it is: yes and no, and what is not there."""
    made: Any = value
    if isinstance(made, Quantity):
        made = Quantity(made.low, made.high, made.kind, made.text, made.place, origin)
    elif type(made) is tuple:
        made = tuple(noted(item, origin) for item in made)
    elif type(made) is int:
        made = Whole(made)
    elif type(made) is float:
        made = Ratio(made)
    elif type(made) is str:
        made = Word(made)
    if isinstance(made, Text | Carrying):
        made.origin = origin
    elif hasattr(made, "_replace") and hasattr(made, "origin"):
        made = made._replace(origin=origin)
    carrying: T = made
    return carrying


def source_beside(key: str) -> str:
    """The key that names the source of one field alone, where it is another than that of its record."""
    return f"{key}_source"


def note(node: Node, way: tuple[str | int, ...], source: str, own: tuple[str, ...] = (), house: str = "") -> None:
    """Tell every value below a node its way and the nearest source.

    own: keys of the node whose values the studio itself counted, so that they rest on its source, `house`.
    """
    if isinstance(node, Mapping):
        source = _text(node, "source") or source
        for key, value in node.items():
            named = _text(node, source_beside(key)) or (house if key in own else source)
            note(value, (*way, key), named)
    elif isinstance(node, Listing):
        for number, item in enumerate(node):
            named = _text(item, "id") if isinstance(item, Mapping) else ""
            note(item, (*way, named or number), source)
    node.origin = Origin(way, source)


def _text(node: Mapping, key: str) -> str:
    found = node.get(key)
    return str(found) if isinstance(found, Text) else ""
