"""What all records share: closed, frozen, located."""

from __future__ import annotations

import ast
import inspect
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache
from itertools import chain, pairwise
from types import NoneType
from typing import Annotated, Self, TypeVar, get_args

from pydantic import BaseModel, ConfigDict, Field, PrivateAttr, model_validator
from pydantic.fields import FieldInfo
from pydantic.functional_validators import ModelWrapValidatorHandler

from generator.origins import NOWHERE, Origin, origin_of
from generator.records.ids import Id
from generator.records.kind import lacking
from generator.records.located import Text
from generator.records.noted import noted, source_beside

R = TypeVar("R", bound="Record")
T = TypeVar("T")


@cache
def described(model: type[BaseModel]) -> Mapping[str, FieldInfo]:
    """The fields of a record with what each holds: said beside it or, where the two do not fit on one line, under it.

    It is read from the source when somebody asks; to read it at every start would take a tenth of a second.
    """
    for kind in model.__mro__[: model.__mro__.index(BaseModel)]:
        for name, words in _said_under(kind.__module__).get(kind.__name__, ()):
            model.model_fields[name].description = words
    return model.model_fields


@cache
def _said_under(module: str) -> Mapping[str, Sequence[tuple[str, str]]]:
    """For each class at the top of a module its fields under which words stand, with them."""
    top = ast.parse(inspect.getsource(sys.modules[module])).body
    return {kind.name: tuple(_with_words(kind)) for kind in top if isinstance(kind, ast.ClassDef)}


def _with_words(kind: ast.ClassDef) -> Iterator[tuple[str, str]]:
    for field, under in pairwise(kind.body):
        match field, under:
            case ast.AnnAssign(target=ast.Name(id=name)), ast.Expr(value=ast.Constant(value=str(words))):
                yield name, " ".join(words.split())


def kinds_of(info: FieldInfo | None) -> list[object]:
    """The field's own kinds, also those inside `X | None`."""
    if info is None:
        return []
    inside = (getattr(argument, "__metadata__", ()) for argument in get_args(info.annotation))
    return [*info.metadata, *chain.from_iterable(inside)]


def between_keys(rule: Callable[[R], None]) -> object:
    """A rule between the keys of one record, which raises a `problem`; the record reference prints its name."""

    def keeping(record: R) -> R:
        rule(record)
        return record

    return model_validator(mode="after")(keeping)


def optional(description: str) -> T | None:
    """A field that may be left out, and holds nothing then."""
    return Field(default=None, description=description)


class Record(BaseModel):
    """A mapping with a fixed set of keys, which knows where it stands."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)
    _origin: Origin = PrivateAttr(default_factory=lambda: NOWHERE)

    @property
    def origin(self) -> Origin:
        """Where the record itself stands."""
        # Asked for all the time, and a private field is looked up by its name in a roundabout way.
        private = self.__pydantic_private__
        return NOWHERE if private is None else private["_origin"]

    def origin_at(self, name: str) -> Origin:
        """Where one of its fields stands, also of a value that carries no origin: a list, or one that is not there."""
        record, fields = self.origin, type(self).model_fields
        if not record.keys:
            return NOWHERE
        beside = source_beside(name)
        own = (getattr(self, beside) if beside in fields else None) or record.source
        return Origin((*record.keys, fields[name].alias or name), str(own), name not in self.model_fields_set)

    @model_validator(mode="wrap")
    @classmethod
    def _knows_where_it_stands(cls, value: object, handler: ModelWrapValidatorHandler[Self]) -> Self:
        made = handler(value)
        made._origin = origin_of(value)
        for name in _with_a_value_by_default(cls) - made.model_fields_set:
            # Nobody has seen the record yet; from here on it is frozen.
            made.__dict__[name] = noted(made.__dict__[name], made.origin_at(name))
        return made


# What nearly every value is; a tuple of types is asked faster than a union of them.
_PLAIN = (str, float, NoneType)


def singles(value: object) -> Iterator[object]:
    """Every single value inside a record, or inside a list or a mapping of them; a named tuple is one value."""
    waiting = [value]
    while waiting:
        one = waiting.pop()
        if isinstance(one, _PLAIN):
            yield one
        elif isinstance(one, BaseModel):
            waiting += reversed(one.__dict__.values())
        elif isinstance(one, tuple | list) and not hasattr(one, "_fields"):
            waiting += reversed(one)
        elif isinstance(one, Mapping):
            waiting += reversed([*one.keys(), *one.values()])
        else:
            yield one


def both_or_none(record: Entry, one: str, other: str) -> None:
    """Raise a mistake where only one of two fields is written."""
    missing = [name for name in (one, other) if getattr(record, name) is None]
    if len(missing) == 1:
        raise lacking(
            missing[0],
            help_=f"add `{missing[0]}`, or take the other away",
            says=f"`{one}` and `{other}` belong together; `{missing[0]}` is not there",
        )


@cache
def _with_a_value_by_default(model: type[Record]) -> frozenset[str]:
    """The fields that have a value also where none is written, of a kind that can carry its origin."""
    return frozenset(n for n, info in model.model_fields.items() if type(info.default) in (int, float, str))


class Entry(Record):
    """A record with an id of its own in its family."""

    id: Annotated[Text, Id()]
    """the name by which other records, quotes and commands call it; once in its family"""
