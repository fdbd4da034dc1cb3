"""The schema of the records as data: every field with what it takes, its units, bounds and example, and for editors.

Read from the very objects that check the records, so no page and no editor can say anything else than the check. As
JSON Schema (draft 2020-12), with which an editor completes and underlines while one types, it knows words, keys and
forms; whether a number is within its bounds and whether an id is there, the check alone says. So it may take what the
check refuses, and never refuses what the check takes.
"""

from __future__ import annotations

import json
import types
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import Annotated, NamedTuple, Union, get_args, get_origin

from pydantic import BaseModel, BeforeValidator
from pydantic.fields import FieldInfo

from generator.diagnostics import Diagnostic, Place, Report
from generator.planning.computed import Data
from generator.records.conditions import ConditionField
from generator.records.families import ALL, JOBS, STUDIO, Family
from generator.records.fields import Choice, Count, OrNone, OrUnknown, Pattern, WordInstead, YesNo, none_or
from generator.records.ids import Ref
from generator.records.kind import Example, Kind
from generator.records.mistakes import by_key
from generator.records.text_file import bytes_in

JsonSchema = dict[str, Data]
_DRAFT = "https://json-schema.org/draft/2020-12/schema"
# Where a studio's folder has the schemas for its editor.
SCHEMAS = "schema"
# An editor reads some single values as numbers, and a yes in some as a truth value: all are taken.
_SINGLE: JsonSchema = {"type": ["string", "number", "boolean"]}
_UNKNOWN: JsonSchema = {"const": "unknown"}


class Shape(NamedTuple):
    """What may stand in a field. `takes` carries backticks around what is typed as it is.

    choose: the words that it may be, where there are only these. unknown: `unknown` may stand here. each: what a
    mapping holds for each of its keys. json: the same as JSON Schema.
    """

    takes: str
    units: str = ""
    bounds: str = ""
    example: Example | None = None
    nested: tuple[type[BaseModel], ...] = ()
    families: tuple[str, ...] = ()
    choose: str = ""
    unknown: bool = False
    each: str = ""
    json: JsonSchema = {}  # noqa: RUF012


class Field(NamedTuple):
    """One field of a record."""

    key: str
    required: bool
    otherwise: str
    shape: Shape
    about: str


@cache
def fields_of(model: type[BaseModel]) -> tuple[Field, ...]:
    """The fields of a record in the order of the schema, by the key that people write."""
    return tuple(
        Field(key, info.is_required(), _left_out(info), _field(info), info.description or "")
        for key, info in by_key(model).items()
    )


def json_of(model: type[BaseModel]) -> JsonSchema:
    """A record as JSON Schema."""
    fields = fields_of(model)
    return {
        "type": "object",
        "properties": {
            field.key: {**field.shape.json, **({"description": field.about} if field.about else {})} for field in fields
        },
        "required": [field.key for field in fields if field.required],
        "additionalProperties": False,
    }


def schema_file(family: Family) -> str:
    """The name of the family's schema."""
    return f"{family.name}.json"


def schema_files() -> dict[str, str]:
    """Every schema by its path in a studio's folder."""
    return {f"{SCHEMAS}/{schema_file(family)}": json_schema(family) for family in ALL}


def older_schemas(studio: Path) -> Report:
    """What is told of schemas in a studio's folder that are not those of this program; nothing where it has none."""
    there = schema_files() if (studio / SCHEMAS).is_dir() else {}
    other = [path for path, text in there.items() if _read(studio / path) != text]
    if not other:
        return ()
    return (
        Diagnostic(
            "F821",
            Place(str(studio / other[0]), 1, 1, 2),
            found=", ".join(Path(path).name for path in other),
            expected="the schemas of this program",
            help="write them anew with `python -m generator schema`; the records stay as they are",
            says="an editor may complete and underline by another format than the one that is checked",
        ),
    )


def _read(path: Path) -> str | None:
    """The text of a schema, whatever ends its lines; None where it is not there or is no text."""
    try:
        return bytes_in(path).decode()
    except (OSError, UnicodeDecodeError):
        return None


def json_schema(family: Family) -> str:
    """The schema of a family's file."""
    record = json_of(family.model)
    whole = record if family in (STUDIO, JOBS) else {"type": "array", "items": record}
    made = {"$schema": _DRAFT, "title": family.name, "description": family.holds, **whole}
    return json.dumps(made, ensure_ascii=False, indent=1) + "\n"


def nested_records(model: type[BaseModel], path: str = "") -> Iterator[tuple[str, type[BaseModel]]]:
    """Every record inside a record, with the key under which it is written, such as `parts.lines`."""
    for field in fields_of(model):
        for inner in field.shape.nested:
            under = f"{path}.{field.key}" if path else field.key
            yield under, inner
            yield from nested_records(inner, under)


def checked_together(model: type[BaseModel]) -> tuple[str, ...]:
    """What is checked across several fields of a record, in words."""
    rules = model.__pydantic_decorators__.model_validators
    return tuple(name.replace("_", " ") for name in rules if not name.startswith("_"))


def _left_out(info: FieldInfo) -> str:
    """What holds when the field is left out; a value that is merely unknown is never said to be one."""
    default = info.default
    if isinstance(default, bool):
        return "`yes`" if default else "`no`"
    if isinstance(default, int):
        return f"`{default}`"
    return "`[]`" if default == () else ""


def _field(info: FieldInfo) -> Shape:
    shape = _shape(info.annotation, info.metadata)
    if any(getattr(piece, "func", None) is none_or for piece in info.metadata):
        return shape._replace(takes=f"`none`, `unknown`, or {shape.takes}", unknown=True)
    return shape


def _shape(annotation: object, metadata: Sequence[object] = ()) -> Shape:
    for piece in metadata:
        if isinstance(piece, Kind | ConditionField):
            return _single(piece)
    made = _of_several(annotation, metadata)
    words = [piece for piece in metadata if isinstance(piece, BeforeValidator)]
    if not words:
        return made
    # A word in place of all of it, or a word alone for an entry that says no more.
    word = {"enum": [*words[0].clears, "unknown"]} if isinstance(words[0], WordInstead) else _SINGLE
    return made._replace(json={"anyOf": [word, made.json]})


def _of_several(annotation: object, metadata: Sequence[object]) -> Shape:
    arguments = get_args(annotation)
    origin = get_origin(annotation)
    if origin is Annotated:
        return _shape(arguments[0], arguments[1:])
    if origin in (Union, types.UnionType):
        # The other member is None: the field may be left out.
        return _shape(next(a for a in arguments if a is not type(None)))
    if origin is dict:
        return _mapping(_shape(arguments[0]), _shape(arguments[1]))
    if origin is tuple and arguments[-1] is Ellipsis:
        return _list(_shape(arguments[0]), metadata)
    if origin is tuple:
        return _row([_shape(argument) for argument in arguments])
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return Shape("keys and values, see below", nested=(annotation,), json=json_of(annotation))
    raise TypeError(f"no page can describe {annotation!r}")


def _single(kind: Kind[object] | ConditionField) -> Shape:
    if isinstance(kind, Ref):
        # `@family` is for any id of it; the page puts one in that is on file.
        return Shape(kind.takes, example=Example(f"@{kind.family}"), families=(kind.family,), json=_SINGLE)
    made = Shape(kind.takes, kind.unit(), kind.bounds(), kind.example, json=_json_of(kind))
    return made._replace(choose=kind.choose, unknown=kind.may_be_unknown) if isinstance(kind, Kind) else made


def _json_of(kind: Kind[object] | ConditionField) -> JsonSchema:
    if isinstance(kind, OrUnknown):
        none = {"const": "none"} if isinstance(kind, OrNone) else _UNKNOWN
        return {"anyOf": [none, _json_of(kind.kind), _UNKNOWN]}
    if isinstance(kind, YesNo):
        return {"enum": ["yes", "no", True, False]}
    if isinstance(kind, Choice):
        return {"enum": [*kind.words, *({"yes": True, "no": False}[w] for w in kind.words if w in ("yes", "no"))]}
    if isinstance(kind, Count):
        return {"type": ["integer", "string"], "minimum": kind.least, "maximum": kind.most, "pattern": r"^\d+$"}
    if isinstance(kind, Pattern):
        return {"type": ["string", "number"], "pattern": f"^(?:{kind.form})$"}
    return _SINGLE if isinstance(kind, Kind) else {}


def _list(item: Shape, metadata: Sequence[object]) -> Shape:
    least = next((piece.min_length for piece in metadata if hasattr(piece, "min_length")), 0)
    most = next((piece.max_length for piece in metadata if hasattr(piece, "max_length")), None)
    size = f", at least {least}" if least else ""
    size += f", at most {most}" if most else ""
    each = "see below" if item.nested else f"each {item.takes}"
    return item._replace(
        takes=f"list{size}; {each}",
        choose="",
        example=_within("[{}]", [item.example]),
        json={"type": "array", "items": item.json},
    )


def _row(items: list[Shape]) -> Shape:
    """A list of fixed length; neighbours of one kind are said once."""
    bounds, forms = list(dict.fromkeys(item.bounds for item in items)), [item.json for item in items]
    return Shape(
        f"list of {len(items)}; each {' and '.join(dict.fromkeys(item.takes for item in items))}",
        " and ".join(dict.fromkeys(item.units for item in items)),
        " and ".join(bounds),
        _within("[{}]", [item.example for item in items]),
        unknown=any(item.unknown for item in items),
        json={"type": "array", "prefixItems": forms, "minItems": len(forms), "maxItems": len(forms)},
    )


def _mapping(key: Shape, value: Shape) -> Shape:
    return Shape(
        f"for each {key.takes}: {value.takes}",
        value.units,
        value.bounds,
        _within("{{{}}}", [key.example, value.example], ": "),
        families=key.families + value.families,
        unknown=value.unknown,
        each=value.takes,
        json={"type": "object", "additionalProperties": value.json},
    )


def _within(form: str, examples: list[Example | None], between: str = ", ") -> Example | None:
    """Several examples as they are written one behind the other; none where one of them has none."""
    given = [example.text for example in examples if example is not None]
    return Example(form.format(between.join(given))) if len(given) == len(examples) else None
