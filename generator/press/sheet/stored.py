"""Views as data that JSON can hold, and back: every field by its name, in the order in which its class declares it.

A view read back is equal to the one that was written, so that a template makes the same bytes of it. A field that a
view was given later has a default, which stands for what an older file does not have; a key that no view has any more
is passed over. Nothing else is.
"""

from __future__ import annotations

import dataclasses
import datetime
import types
import typing
from collections.abc import Callable, Mapping, Sequence
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
    """Any view, with nothing in it but objects, lists, texts, numbers, yes, no and nothing; a day is a text."""
    if isinstance(value, Enum):
        return {type(value).__name__: value.name}
    if dataclasses.is_dataclass(value) or hasattr(value, "_asdict"):
        cls: Any = type(value)
        return {name: to_stored(getattr(value, name)) for name in _fields(cls)}
    if isinstance(value, datetime.date):
        return value.isoformat()
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
    kind: Any = wanted
    try:
        made: T = _reader(kind)(stored)
    except _Otherwise:
        # Where it is and what should be there is looked for only now: hardly any value is refused.
        made = _read(wanted, stored, ())
    return made


class _Otherwise(Exception):
    """A value is not what is wanted."""


_Reader = Callable[[Any], Any]


@cache
def _reader(wanted: Any) -> _Reader:
    """What reads a type as `_read` does, and raises `_Otherwise` where that raises NotAsStored."""
    origin = typing.get_origin(wanted)
    if origin in (typing.Union, types.UnionType):
        return _reader_of_one(typing.get_args(wanted))
    if origin is tuple:
        return _reader_of_tuple(typing.get_args(wanted))
    if wanted in (str, bool, int, float, Markup):
        return _reader_of_plain(wanted)
    if isinstance(wanted, type) and (dataclasses.is_dataclass(wanted) or hasattr(wanted, "_fields")):
        return _reader_of_view(wanted)

    def read(stored: Any) -> Any:
        try:
            return _read(wanted, stored, ())
        except NotAsStored:
            raise _Otherwise from None

    return read


def _reader_of_plain(wanted: Any) -> _Reader:
    kinds = (str,) if wanted is Markup else _WANTED[wanted][0]

    def read(stored: Any) -> Any:
        if type(stored) not in kinds:
            raise _Otherwise
        return Markup(stored) if wanted is Markup else stored

    return read


def _reader_of_one(those: tuple[Any, ...]) -> _Reader:
    may_be_nothing = type(None) in those
    readers = [_reader(each) for each in those if each is not type(None)]

    def read(stored: Any) -> Any:
        if stored is None and may_be_nothing:
            return None
        for reader in readers:
            try:
                return reader(stored)
            except _Otherwise:
                continue
        raise _Otherwise

    return read


def _reader_of_tuple(inner: tuple[Any, ...]) -> _Reader:
    if inner[-1:] == (Ellipsis,):
        each = _reader(inner[0])

        def read_all(stored: Any) -> Any:
            if type(stored) is not list:
                raise _Otherwise
            return tuple([each(one) for one in stored])

        return read_all
    readers = [_reader(kind) for kind in inner]

    def read(stored: Any) -> Any:
        if type(stored) is not list or len(stored) != len(readers):
            raise _Otherwise
        return tuple([reader(one) for reader, one in zip(readers, stored, strict=True)])

    return read


def _reader_of_view(wanted: Any) -> _Reader:
    readers = {name: _reader(kind) for name, kind in _fields(wanted).items()}
    needed = [name for name in readers if name not in _defaults(wanted)]

    def read(stored: Any) -> Any:
        if type(stored) is not dict:
            raise _Otherwise
        for name in needed:
            if name not in stored:
                raise _Otherwise
        return wanted(**{name: reader(stored[name]) for name, reader in readers.items() if name in stored})

    return read


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
    if wanted is datetime.date:
        return _day(stored, way)
    if wanted is datetime.datetime:
        return _time(stored, way)
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


def _day(stored: Any, way: Way) -> datetime.date:
    try:
        return datetime.date.fromisoformat(_plain(str, stored, way))
    except ValueError:
        raise NotAsStored(way, _said(stored), "a date written as year-month-day") from None


def _time(stored: Any, way: Way) -> datetime.datetime:
    try:
        return datetime.datetime.fromisoformat(_plain(str, stored, way))
    except ValueError:
        raise NotAsStored(way, _said(stored), "a day and an hour") from None


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
