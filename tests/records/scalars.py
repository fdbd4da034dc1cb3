"""Every scalar of a YAML text with its span and its path, and what the schema says about that path."""

from __future__ import annotations

import types
from collections.abc import Iterator
from typing import Annotated, Any, NamedTuple, Union, get_args, get_origin

import yaml
from pydantic import BaseModel

from generator.records.conditions import ConditionField
from generator.records.fields import Words
from generator.records.mistakes import by_key
from generator.records.parts import Colour

Step = str | int


class Scalar(NamedTuple):
    """`path` leads to the value; for a key it leads to the value under it, and `key` is set."""

    text: str
    path: tuple[Step, ...]
    key: bool
    start: int
    end: int
    line: int
    column: int


def scalars(text: str) -> list[Scalar]:
    """All keys and values that are single texts, in order."""
    events = iter(yaml.parse(text, Loader=yaml.CSafeLoader))
    for event in events:
        if isinstance(event, yaml.NodeEvent):
            return list(_inside(event, events, ()))
    return []


def _inside(event: yaml.Event, events: Iterator[yaml.Event], path: tuple[Step, ...]) -> Iterator[Scalar]:
    if isinstance(event, yaml.ScalarEvent):
        yield _scalar(event, path, key=False)
    elif isinstance(event, yaml.SequenceStartEvent):
        number = 0
        while not isinstance(item := next(events), yaml.SequenceEndEvent):
            yield from _inside(item, events, (*path, number))
            number += 1
    elif isinstance(event, yaml.MappingStartEvent):
        while not isinstance(key := next(events), yaml.MappingEndEvent):
            assert isinstance(key, yaml.ScalarEvent)
            yield _scalar(key, (*path, key.value), key=True)
            yield from _inside(next(events), events, (*path, key.value))


def _scalar(event: yaml.ScalarEvent, path: tuple[Step, ...], key: bool) -> Scalar:
    start, end = event.start_mark, event.end_mark
    assert start is not None and end is not None
    return Scalar(event.value, path, key, start.index, end.index, start.line + 1, start.column + 1)


def replaced(text: str, scalar: Scalar, junk: str) -> str:
    """The text with this scalar written otherwise; a block scalar ends with its line, and so does the junk."""
    after = "\n" if text[scalar.start : scalar.end].endswith("\n") else ""
    return text[: scalar.start] + junk + after + text[scalar.end :]


def is_free_text(model: type[BaseModel], path: tuple[Step, ...]) -> bool:
    """Whether the schema takes any text at this path. Nothing is listed here by hand."""
    return any(isinstance(piece, Words) for piece in _pieces(model, (), path))


def longest_text(model: type[BaseModel], path: tuple[Step, ...]) -> int:
    """How many characters a free text may have at this path."""
    return min(piece.most for piece in _pieces(model, (), path) if isinstance(piece, Words))


def _pieces(annotation: Any, metadata: tuple[Any, ...], path: tuple[Step, ...]) -> tuple[Any, ...]:
    """What is annotated at the end of the path."""
    origin, arguments = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _pieces(arguments[0], (*arguments[1:], *metadata), path)
    if origin in (Union, types.UnionType):
        found: tuple[Any, ...] = ()
        for argument in arguments:
            if argument is not type(None):
                found += _pieces(argument, metadata, path)
        return found
    if not path or any(isinstance(piece, ConditionField) for piece in metadata):
        # An ink's id alone stands for a mapping with this id.
        return _pieces(Colour, (), ("ink",)) if annotation is Colour and not path else metadata
    step, rest = path[0], path[1:]
    if origin is tuple:
        assert isinstance(step, int)
        return _pieces(arguments[0] if arguments[-1] is Ellipsis else arguments[step], (), rest)
    if origin is dict:
        return _pieces(arguments[1], (), rest)
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        info = by_key(annotation)[str(step)]
        return _pieces(info.annotation, tuple(info.metadata), rest)
    raise AssertionError(f"no way into {annotation!r} at {step!r}")
