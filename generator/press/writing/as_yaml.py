"""Complete examples of records, written out as a studio would type them."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Iterable, Mapping, Sequence

from pydantic import BaseModel

from generator.press.words.formatted import number, yes_no
from generator.quantities import Quantity
from generator.records.conditions import Any_, Compare, Condition, Not, OneOf
from generator.records.days import When
from generator.records.fields import NONE_OR, Pair
from generator.records.record import Entry, kinds_of

_PLAIN = re.compile(r"[A-Za-z0-9.µ][^:#,\[\]{}\"']*")
Typed = str | Sequence["Typed"] | Mapping[str, "Typed"]
Tree = str | list["Tree"] | dict[str, "Tree"]


def fullest(entries: Iterable[Entry]) -> Entry | None:
    """The entry with the most fields filled in: it shows most of what may be written."""
    return max(entries, key=lambda entry: sum(1 for _, value in entry if value not in (None, ())), default=None)


def as_yaml(record: BaseModel, listed: bool) -> str:
    """A record as its file holds it; `listed` where the file is a list of such records."""
    lines = _block(as_tree(record))
    if not listed:
        return "\n".join(lines)
    return "\n".join(("- " if n == 0 else "  ") + line for n, line in enumerate(lines))


def as_tree(record: BaseModel) -> dict[str, Tree]:
    """What somebody wrote of a record, by key, every single value as it is typed."""
    said: dict[str, Tree] = {}
    for name, info in type(record).model_fields.items():
        inner = getattr(record, name)
        if name in record.model_fields_set and inner is not None:
            pair = any(isinstance(kind, Pair) for kind in kinds_of(info))
            # Where a list may be the word `none`, an empty one is refused.
            inner = "none" if inner == () and NONE_OR in info.metadata else inner
            said[info.alias or name] = " x ".join(map(_typed, inner)) if pair else _tree(inner)
    return said


def under_key(key: str, tree: Tree) -> list[str]:
    """The lines of one key of a record with what is under it, as its file holds them."""
    return _block({key: tree})


def as_typed(node: Typed) -> str:
    """What was read of a file, written out again with every single value as it was typed, and without comments."""
    return "\n".join(_block(_quoted(node))) + "\n"


def _quoted(node: Typed) -> Tree:
    if isinstance(node, Mapping):
        return {key: _quoted(inner) for key, inner in node.items()}
    return _typed(node) if isinstance(node, str) else [_quoted(inner) for inner in node]


def _tree(value: object) -> Tree:
    """The value as nothing but text, lists and mappings, the way it is typed; what nobody wrote is left out."""
    if isinstance(value, BaseModel):
        return as_tree(value)
    if isinstance(value, Condition):
        return _condition(value)
    if isinstance(value, When):
        if value.open:
            return f"before {(value.day + datetime.timedelta(days=1)).isoformat()}"
        if value.first == value.day:
            return value.day.isoformat()
        return value.day.strftime("%Y-%m" if value.first.month == value.day.month else "%Y")
    if isinstance(value, tuple):
        return [_tree(item) for item in value]
    if isinstance(value, Mapping):
        return {str(key): _tree(inner) for key, inner in value.items()}
    return _typed(value)


def _typed(value: object) -> str:
    if isinstance(value, Quantity):
        return value.text
    if isinstance(value, bool):
        return yes_no(value)
    if isinstance(value, int | float):
        return number(value)
    if isinstance(value, datetime.time):
        return value.strftime("%H:%M")
    if isinstance(value, datetime.date):
        return value.isoformat()
    text = str(value)
    return text if _PLAIN.fullmatch(text) and text == text.strip() else json.dumps(text, ensure_ascii=False)


def _condition(condition: Condition) -> Tree:
    if isinstance(condition, Compare):
        return {condition.fact: f"{condition.relation} {condition.limit.text}"}
    if isinstance(condition, OneOf):
        words: list[Tree] = [yes_no(v) if isinstance(v, bool) else v for v in condition.values]
        return {condition.fact: words[0] if len(words) == 1 else words}
    if isinstance(condition, Not):
        return {"not": _condition(condition.part)}
    return {"any" if isinstance(condition, Any_) else "all": [_condition(part) for part in condition.parts]}


def _block(tree: Tree) -> list[str]:
    """One key a line. What holds no further records goes on the line of its key, in brackets."""
    if isinstance(tree, str):
        return [tree]
    lines: list[str] = []
    if isinstance(tree, list):
        for item in tree:
            first, *rest = [_flow(item)] if _flat(item) else _block(item)
            lines += [f"- {first}", *(f"  {line}" for line in rest)]
        return lines
    for key, inner in tree.items():
        if _flat(inner):
            lines.append(f"{key}: {_flow(inner)}")
        else:
            lines += [f"{key}:", *(f"  {line}" for line in _block(inner))]
    return lines


def _flat(tree: Tree) -> bool:
    if isinstance(tree, str):
        return True
    return len(_flow(tree)) <= 90 and not (isinstance(tree, list) and any(len(_flow(item)) > 40 for item in tree))


def _flow(tree: Tree) -> str:
    if isinstance(tree, str):
        return tree
    if isinstance(tree, list):
        return f"[{', '.join(_flow(item) for item in tree)}]"
    return "{" + ", ".join(f"{key}: {_flow(inner)}" for key, inner in tree.items()) + "}"
