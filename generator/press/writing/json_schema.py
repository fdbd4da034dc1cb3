"""The schema of the records as JSON Schema (draft 2020-12), for editors that complete and underline while one types.

It knows words, keys and forms; whether a number is within its bounds and
whether an id is there, the check alone says. So it may take what the check refuses, and never refuses what the check
takes.
"""

from __future__ import annotations

import json
from pathlib import Path

from generator.diagnostics import Diagnostic, Place, Report
from generator.press.writing.schema import json_of
from generator.records.families import ALL, JOBS, STUDIO, Family
from generator.records.text_file import bytes_in

_DRAFT = "https://json-schema.org/draft/2020-12/schema"
FOLDER = "schema"


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
        return bytes_in(path).decode()
    except (OSError, UnicodeDecodeError):
        return None


def json_schema(family: Family) -> str:
    """The schema of a family's file."""
    record = json_of(family.model)
    whole = record if family in (STUDIO, JOBS) else {"type": "array", "items": record}
    made = {"$schema": _DRAFT, "title": family.name, "description": family.holds, **whole}
    return json.dumps(made, ensure_ascii=False, indent=1) + "\n"
