"""The schema of the records as JSON Schema (draft 2020-12), for editors that complete and underline while one types.

Made from the objects that check the records. It knows words, keys and forms; whether a number is within its bounds and
whether an id is there, the check alone says. So it may take what the check refuses, and never refuses what the check
takes. An editor reads some single values as numbers, and a yes in some as a truth value: both are taken.
"""

from __future__ import annotations

import json
import types
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, BeforeValidator
from pydantic.fields import FieldInfo

from generator.diagnostics import Diagnostic, Place, Report
from generator.records.families import ALL, JOBS, STUDIO, Family
from generator.records.fields import Choice, Count, OrNone, OrUnknown, Pattern, WordInstead, YesNo
from generator.records.kind import Kind
from generator.records.mistakes import by_key

Schema = dict[str, Any]
_DRAFT = "https://json-schema.org/draft/2020-12/schema"
FOLDER = "schema"
_SINGLE: Schema = {"type": ["string", "number", "boolean"]}


def schema_file(family: Family) -> str:
    """The name of the family's schema."""
    return f"{family.name}.json"


def schema_files() -> dict[str, str]:
    """Every schema by its path in a studio's folder."""
    return {f"{FOLDER}/{schema_file(family)}": json_schema(family) for family in ALL}


def older_schemas(studio: Path) -> Report:
    """What is told of schemas in a studio's folder that are not those of this program; nothing where it has none."""
    if not (studio / FOLDER).is_dir():
        return ()
    other = [path for path, text in schema_files().items() if _read(studio / path) != text]
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
        return path.read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        return None


def json_schema(family: Family) -> str:
    """The schema of a family's file."""
    record = _record(family.model)
    whole = record if family in (STUDIO, JOBS) else {"type": "array", "items": record}
    made = {"$schema": _DRAFT, "title": family.name, "description": family.holds, **whole}
    return json.dumps(made, ensure_ascii=False, indent=1) + "\n"


def _record(model: type[BaseModel]) -> Schema:
    fields = by_key(model)
    return {
        "type": "object",
        "properties": {key: _field(info) for key, info in fields.items()},
        "required": [key for key, info in fields.items() if info.is_required()],
        "additionalProperties": False,
    }


def _field(info: FieldInfo) -> Schema:
    return {**_value(info.annotation, info.metadata), **({"description": info.description} if info.description else {})}


def _value(annotation: Any, metadata: Sequence[Any] = ()) -> Schema:
    for piece in metadata:
        if hasattr(piece, "takes"):
            return _single(piece)
    made = _shape(annotation)
    for piece in metadata:
        if isinstance(piece, WordInstead):
            return {"anyOf": [{"enum": [*piece.clears, "unknown"]}, made]}
    if any(isinstance(piece, BeforeValidator) for piece in metadata):
        return {"anyOf": [_SINGLE, made]}  # a word alone, for an entry that says no more
    return made


def _shape(annotation: Any) -> Schema:
    arguments, origin = get_args(annotation), get_origin(annotation)
    if origin is Annotated:
        return _value(arguments[0], arguments[1:])
    if origin in (Union, types.UnionType):
        return _value(next(a for a in arguments if a is not type(None)))
    if origin in (dict, Mapping):
        return {"type": "object", "additionalProperties": _value(arguments[1])}
    if origin is tuple and arguments[-1] is Ellipsis:
        return {"type": "array", "items": _value(arguments[0])}
    if origin is tuple:
        items = [_value(argument) for argument in arguments]
        return {"type": "array", "prefixItems": items, "minItems": len(items), "maxItems": len(items)}
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return _record(annotation)
    return {}


def _single(kind: Any) -> Schema:
    if isinstance(kind, OrUnknown):
        return {"anyOf": [{"const": "none" if isinstance(kind, OrNone) else "unknown"}, _single(kind.kind), _unknown]}
    if isinstance(kind, YesNo):
        return {"enum": ["yes", "no", True, False]}
    if isinstance(kind, Choice):
        return {"enum": [*kind.words, *({"yes": True, "no": False}[w] for w in kind.words if w in ("yes", "no"))]}
    if isinstance(kind, Count):
        return {"type": ["integer", "string"], "minimum": kind.least, "maximum": kind.most, "pattern": r"^\d+$"}
    if isinstance(kind, Pattern):
        return {"type": ["string", "number"], "pattern": f"^(?:{kind.form})$"}
    return _SINGLE if isinstance(kind, Kind) else {}


_unknown: Schema = {"const": "unknown"}
