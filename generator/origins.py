"""Where a value stands in the records, and what it rests on. A value is given its origin when it is read."""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Origin:
    """The way to a field, such as `machines.kettle.strokes.0`, and the id of its source, if it has one.

    keys: family, id of the entry, keys as they are written; an item of a list by its own id, else by its number
    from 0. default: the field is not written, and its value is what the record reference says of it then.
    """

    keys: tuple[str | int, ...] = ()
    source: str = ""
    default: bool = False

    @property
    def path(self) -> str:
        """The way in one word."""
        return ".".join(map(str, self.keys))

    @property
    def family(self) -> Origin:
        """The family alone, for what must not tell which of its entries it comes from; no source either."""
        return Origin(self.keys[:1])

    def resting_on(self, source: str) -> Origin:
        """The same field with another source, for what somebody decides of it who is not its own source."""
        return replace(self, source=source)


NOWHERE = Origin()


def origin_of(value: object) -> Origin:
    """The origin that a value carries; NOWHERE for what no record holds, such as a value that code has made.

    An origin stands for itself.
    """
    found = value if isinstance(value, Origin) else getattr(value, "origin", NOWHERE)
    return found if isinstance(found, Origin) else NOWHERE
