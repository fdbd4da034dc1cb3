"""Views as data that JSON can hold, and back: every field by its name, in the order in which its class declares it.

A view read back is equal to the one that was written, so that a template makes the same bytes of it. A field that a
view was given later has a default, which stands for what an older file does not have; a key that no view has any more
is passed over. Nothing else is.
"""

from __future__ import annotations

import dataclasses
import datetime
import inspect
import sys
import types
import typing
from collections.abc import Callable, Iterable, Mapping
from enum import Enum
from functools import cache
from itertools import repeat
from typing import Any, Literal, TypeVar

from markupsafe import Markup

from generator.planning.computed import Data

T = TypeVar("T")

# The way to a value: keys of objects and places in lists.
Way = tuple[str | int, ...]


class NotAsStored(Exception):
    """What is in the way of reading a value: where it is, what is there, and what should be."""

    def __init__(self, way: Way, found: str, expected: str) -> None:
        super().__init__(f"{found} at {way}, expected {expected}")
        self.way, self.found, self.expected = way, found, expected

    def inside(self, key: str | int) -> NotAsStored:
        """The same, of what holds the value under a key or at a place."""
        return NotAsStored((key, *self.way), self.found, self.expected)


def to_stored(value: object) -> Data:
    """Any view, with nothing in it but objects, lists, texts, numbers, yes, no and nothing; a day is a text."""
    if isinstance(value, Enum):
        return {type(value).__name__: value.name}
    if value is None or isinstance(value, str | int | float):
        return str(value) if isinstance(value, str) else value
    if dataclasses.is_dataclass(value) or hasattr(value, "_asdict"):
        cls: Any = type(value)
        return {name: to_stored(getattr(value, name)) for name in _fields(cls)}
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return [[to_stored(key), to_stored(inner)] for key, inner in value.items()]
    if isinstance(value, tuple | list):
        return [to_stored(inner) for inner in value]
    raise TypeError(f"no view holds {value!r}")


def from_stored(wanted: type[T], stored: object) -> T:
    """The view of a class that `to_stored` wrote.

    Raises:
        NotAsStored: it is not one.
    """
    kind: Any = wanted
    made: T = _reader(kind)(stored)
    return made


# Gives the value that was stored; raises NotAsStored with the way to what is wrong in it.
_Reader = Callable[[object], Any]


@cache
def _reader(wanted: object) -> _Reader:
    origin, inner = typing.get_origin(wanted), typing.get_args(wanted)
    if origin in (typing.Union, types.UnionType):
        return _reader_of_one(inner)
    if origin is Literal:
        words = {word: word for word in inner}
        kinds = tuple({type(word) for word in inner})
        return _reader_of_plain(kinds, words.__getitem__, " or ".join(f"“{word}”" for word in words))
    if origin is tuple and inner[-1:] == (Ellipsis,):
        return _reader_of_list(repeat(_reader(inner[0])))
    if origin is tuple:
        return _reader_of_list(list(map(_reader, inner)), len(inner))
    if origin is not None and issubclass(origin, Mapping):
        pairs = _reader_of_list(repeat(_reader(types.GenericAlias(tuple, inner))))
        return lambda stored: dict(pairs(stored))
    if isinstance(wanted, type) and issubclass(wanted, Enum):
        name = wanted.__name__
        return _reader_of_plain((dict,), lambda stored: wanted[stored[name]], f"a name of {name}")
    if isinstance(wanted, type) and (dataclasses.is_dataclass(wanted) or hasattr(wanted, "_fields")):
        return _reader_of_view(wanted)
    return _anything if wanted is object else _reader_of_plain(*_PLAIN[wanted])


def _anything(stored: object) -> object:
    return tuple(map(_anything, stored)) if isinstance(stored, list) else stored


def _reader_of_plain(kinds: tuple[type, ...], made: Callable[[Any], object], expected: str) -> _Reader:
    """A reader of some kinds of JSON. made: what makes the value, or raises LookupError, TypeError or ValueError."""

    def read(stored: object) -> object:
        if type(stored) in kinds:
            try:
                return made(stored)
            except (LookupError, TypeError, ValueError):
                pass
        raise NotAsStored((), _said(stored), expected)

    return read


def _reader_of_one(those: tuple[object, ...]) -> _Reader:
    may_be_nothing = types.NoneType in those
    readers = [_reader(each) for each in those if each is not types.NoneType]

    def read(stored: object) -> object:
        if stored is None and may_be_nothing:
            return None
        wrong = []
        for reader in readers:
            try:
                return reader(stored)
            except NotAsStored as refused:
                # Not the exception: it knows this call, so that each would keep the other and the whole job in memory.
                wrong.append((refused.way, refused.found, refused.expected))
        # The one that came furthest is the one that was meant.
        raise NotAsStored(*max(wrong, key=lambda said: len(said[0])))

    return read


def _reader_of_list(readers: Iterable[_Reader], count: int | None = None) -> _Reader:
    """A reader of a list by one for each of its values. count: how many it has, where that is fixed."""

    def read(stored: object) -> object:
        if type(stored) is not list:
            raise NotAsStored((), _said(stored), "a list in brackets")
        if count not in (None, len(stored)):
            raise NotAsStored((), f"{len(stored)} values", f"{count} values")
        made: list[object] = []
        try:
            for reader, one in zip(readers, stored, strict=False):
                made.append(reader(one))
        except NotAsStored as refused:
            raise refused.inside(len(made)) from None
        return tuple(made)

    return read


def _reader_of_view(wanted: type) -> _Reader:
    readers = {name: _reader(kind) for name, kind in _fields(wanted).items()}
    may_lack = {at.name for at in inspect.signature(wanted).parameters.values() if at.default is not at.empty}

    def read(stored: object) -> object:
        if type(stored) is not dict:
            raise NotAsStored((), _said(stored), "an object in braces")
        found = {}
        for name, reader in readers.items():
            if name in stored:
                try:
                    found[name] = reader(stored[name])
                except NotAsStored as refused:
                    raise refused.inside(name) from None
            elif name not in may_lack:
                raise NotAsStored((), f"no “{name}”", f"the key “{name}”")
        return wanted(**found)

    return read


@cache
def _fields(cls: type) -> dict[str, object]:
    """The fields of a view with their types."""
    return typing.get_type_hints(cls)


def _as_it_is(stored: object) -> object:
    return stored


# What kinds of JSON may be stored for one that is plain, what is made of it, and what is expected.
_PLAIN: dict[object, tuple[tuple[type, ...], Callable[[Any], object], str]] = {
    # Of the same words of a thousand jobs one text is enough.
    str: ((str,), sys.intern, "a text in quotes"),
    Markup: ((str,), Markup, "a text in quotes"),
    bool: ((bool,), _as_it_is, "true or false"),
    int: ((int,), _as_it_is, "a whole number"),
    float: ((float, int), _as_it_is, "a number"),
    datetime.date: ((str,), datetime.date.fromisoformat, "a date written as year-month-day"),
    datetime.datetime: ((str,), datetime.datetime.fromisoformat, "a day and an hour"),
}


def _said(stored: object) -> str:
    if isinstance(stored, dict | list):
        return "an object" if isinstance(stored, dict) else "a list"
    return "nothing" if stored is None else f"“{str(stored)[:60]}”"
