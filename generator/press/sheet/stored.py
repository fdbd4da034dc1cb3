"""Views as data that JSON can hold, and back: every field by its name, in the order in which its class declares it.

A view read back is equal to the one that was written, so that a template makes the same bytes of it. A field that a
view was given later has a default, which stands for what an older file does not have; a key that no view has any more
is passed over. Nothing else is.
"""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Mapping, Sequence
from enum import Enum
from functools import cache
from typing import Any, Literal, TypeVar

from markupsafe import Markup

T = TypeVar("T")

# The way to a value: keys of objects and places in lists.
Way = tuple[str | int, ...]


class NotAsStored(Exception):
    """What is in the way of reading a value: where it is, what is there, and what should be."""

    def __init__(self, way: Way, found: str, expected: str) -> None:
        super().__init__(f"{found} at {way}, expected {expected}")
        self.way, self.found, self.expected = way, found, expected


def to_stored(value: Any) -> Any:
    """Any view, with nothing in it but objects, lists, texts, numbers, yes, no and nothing."""
    if isinstance(value, Enum):
        return {type(value).__name__: value.name}
    if dataclasses.is_dataclass(value) or hasattr(value, "_asdict"):
        cls: Any = type(value)
        return {name: to_stored(getattr(value, name)) for name in _fields(cls)}
    if isinstance(value, Mapping):
        return [[to_stored(key), to_stored(inner)] for key, inner in value.items()]
    if isinstance(value, tuple | list):
        return [to_stored(inner) for inner in value]
    return str(value) if isinstance(value, str) else value


def from_stored(wanted: type[T], stored: Any) -> T:
    """The view of a class that `to_stored` wrote.

    Raises:
        NotAsStored: it is not one.
    """
    made: T = _read(wanted, stored, ())
    return made


@cache
def _fields(cls: Any) -> dict[str, Any]:
    """The fields of a view with their types."""
    hints = typing.get_type_hints(cls)
    names = cls._fields if hasattr(cls, "_fields") else [field.name for field in dataclasses.fields(cls)]
    return {name: hints[name] for name in names}


@cache
def _defaults(cls: Any) -> dict[str, Any]:
    if hasattr(cls, "_field_defaults"):
        return dict(cls._field_defaults)
    return {f.name: f.default for f in dataclasses.fields(cls) if f.default is not dataclasses.MISSING}


def _read(wanted: Any, stored: Any, way: Way) -> Any:
    origin = typing.get_origin(wanted)
    if origin in (typing.Union, types.UnionType):
        return _one_of(typing.get_args(wanted), stored, way)
    if origin is Literal:
        if stored in typing.get_args(wanted):
            return stored
        raise NotAsStored(way, _said(stored), " or ".join(f"“{word}”" for word in typing.get_args(wanted)))
    if origin is tuple:
        return _tuple(typing.get_args(wanted), stored, way)
    if origin is not None and issubclass(origin, Mapping):
        key, inner = typing.get_args(wanted)
        pairs = [_tuple((key, inner), pair, (*way, place)) for place, pair in enumerate(_listed(stored, way))]
        return dict(pairs)
    if wanted is object:
        return tuple(_read(object, inner, way) for inner in stored) if isinstance(stored, list) else stored
    if wanted is Markup:
        return Markup(_plain(str, stored, way))
    if isinstance(wanted, type) and issubclass(wanted, Enum):
        name = stored.get(wanted.__name__) if isinstance(stored, dict) else None
        if not isinstance(name, str) or name not in wanted.__members__:
            raise NotAsStored(way, _said(stored), f"a name of {wanted.__name__}")
        return wanted[name]
    if dataclasses.is_dataclass(wanted) or hasattr(wanted, "_fields"):
        return _view(wanted, stored, way)
    return _plain(wanted, stored, way)


def _view(wanted: Any, stored: Any, way: Way) -> Any:
    if not isinstance(stored, dict):
        raise NotAsStored(way, _said(stored), "an object in braces")
    found, defaults = {}, _defaults(wanted)
    for name, inner in _fields(wanted).items():
        if name in stored:
            found[name] = _read(inner, stored[name], (*way, name))
        elif name not in defaults:
            raise NotAsStored(way, f"no “{name}”", f"the key “{name}”")
    return wanted(**found)


def _one_of(those: Sequence[Any], stored: Any, way: Way) -> Any:
    wrong = None
    for each in those:
        try:
            return _read(each, stored, way)
        except NotAsStored as refused:
            # The one that came furthest is the one that was meant.
            wrong = refused if wrong is None or len(refused.way) > len(wrong.way) else wrong
    assert wrong is not None
    raise wrong


def _tuple(inner: tuple[Any, ...], stored: Any, way: Way) -> tuple[Any, ...]:
    listed = _listed(stored, way)
    if inner[-1:] == (Ellipsis,):
        return tuple(_read(inner[0], each, (*way, place)) for place, each in enumerate(listed))
    if len(listed) != len(inner):
        raise NotAsStored(way, f"{len(listed)} values", f"{len(inner)} values")
    return tuple(_read(kind, each, (*way, at)) for at, (kind, each) in enumerate(zip(inner, listed, strict=True)))


def _listed(stored: Any, way: Way) -> list[Any]:
    if not isinstance(stored, list):
        raise NotAsStored(way, _said(stored), "a list in brackets")
    return stored


_WANTED: dict[Any, tuple[tuple[type, ...], str]] = {
    str: ((str,), "a text in quotes"),
    bool: ((bool,), "true or false"),
    int: ((int,), "a whole number"),
    float: ((float, int), "a number"),
    type(None): ((type(None),), "null"),
}


def _plain(wanted: Any, stored: Any, way: Way) -> Any:
    kinds, expected = _WANTED[wanted]
    if not isinstance(stored, kinds) or (isinstance(stored, bool) and wanted is not bool):
        raise NotAsStored(way, _said(stored), expected)
    return stored


def _said(stored: Any) -> str:
    if isinstance(stored, dict | list):
        return "an object" if isinstance(stored, dict) else "a list"
    return "nothing" if stored is None else f"“{str(stored)[:60]}”"
