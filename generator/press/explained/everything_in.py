"""Everything that a value holds: all that a plan was made of, or what a page calculated."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass

from pydantic import BaseModel


def everything_in(value: object, seen: set[int]) -> Iterator[object]:
    """The value, and what is inside of it however deep, in the order in which it stands there.

    seen: by identity what is passed over; what holds something is added, so that each of those comes once. The value
    has to live as long as that is used.
    """
    if id(value) in seen:
        return
    yield value
    inside: Iterable[object]
    if isinstance(value, BaseModel):
        inside = (getattr(value, name) for name in type(value).model_fields)
    elif is_dataclass(value):
        inside = (getattr(value, field.name) for field in fields(value))
    elif isinstance(value, Mapping):
        inside = value.values()
    elif isinstance(value, tuple | list):
        inside = value
    else:
        return
    seen.add(id(value))
    for item in inside:
        yield from everything_in(item, seen)
