"""pydantic's findings about one record as diagnostics: one for each mistake, at the place it was made."""

import re
from typing import get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from generator.diagnostics import Diagnostic, Place
from generator.how_many import how_many
from generator.near_miss import did_you_mean, likeness, nearest
from generator.records.format import RENAMED, REWORDED, FormatNumber, Renamed, no_format, renamed
from generator.records.kind import Example, Parts
from generator.records.located import Mapping, Node, Text, innermost
from generator.records.record import described, kinds_of

# The keys and numbers on the way from a record to a value in it.
Loc = tuple[int | str, ...]
# The way to a key, and the mapping that holds it or lacks it.
Key = tuple[Loc, Mapping]
_SHAPES = {
    "model_type": "a mapping of keys and values",
    "dict_type": "a mapping of keys and values",
    "tuple_type": "a list",
}
_SIZES = {"too_short": ("at least", "min_length"), "too_long": ("at most", "max_length")}
_ENTRIES = "entry", "entries"


def diagnostics(error: ValidationError, model: type[BaseModel], whole: Node, family: str) -> list[Diagnostic]:
    """Everything wrong with one record of a family."""
    found: list[Diagnostic] = []
    lacking: dict[int, dict[str, Key]] = {}
    unknown: list[Key] = []
    rows: set[int] = set()
    for detail in error.errors(include_url=False):
        kind, value, loc = detail["type"], detail["input"], detail["loc"]
        if kind == "extra_forbidden":
            parent = innermost(whole, loc[:-1])
            assert isinstance(parent, Mapping)
            unknown.append((loc, parent))
            continue
        loc = tuple(part for part in loc if part != "[key]")
        if kind == "missing" and isinstance(value, Mapping):
            if not value.incomplete:
                lacking.setdefault(id(value), {})[str(loc[-1])] = (loc, value)
        elif kind == "missing":
            # A list of fixed length: pydantic counts each item that is not there, a person forgot them at once.
            if id(value) not in rows:
                found.append(_other(detail, loc[:-1], model, whole))
            rows.add(id(value))
        elif not _follows(detail):
            found.append(_in_new_words(_other(detail, loc, model, whole), family, loc, value))
    return found + _keys(unknown, lacking, model, family)


def _follows(detail: ErrorDetails) -> bool:
    """Whether a finding only follows from another mistake that is reported already."""
    value, context = detail["input"], detail.get("ctx", {})
    if detail["type"] == "too_short":
        # pydantic counts the good items; a person sees the list as it is written.
        return isinstance(value, list) and len(value) >= context["min_length"]
    # What a record lacks as a whole cannot be known when one of its keys could not be used.
    return "parts" in context and isinstance(value, Mapping) and value.incomplete


def _keys(
    unknown: list[Key], lacking: dict[int, dict[str, Key]], model: type[BaseModel], family: str
) -> list[Diagnostic]:
    """Unknown and missing keys. A misspelt key is one mistake: it takes the missing key it most resembles with it.

    So does a key of an older format, with the key that it has become.
    """
    found: list[Diagnostic] = []
    misspelt: list[Key] = []
    for loc, parent in unknown:
        record = ".".join([family, *(part for part in loc[:-1] if isinstance(part, str))])
        entry = renamed(record, str(loc[-1]))
        if entry is None:
            misspelt.append((loc, parent))
        else:
            lacking.get(id(parent), {}).pop(entry.new, None)
            found.append(_old_key(entry, parent))
    unknown = misspelt
    pairs = [
        (likeness(str(loc[-1]), name), number, name)
        for number, (loc, parent) in enumerate(unknown)
        for name in lacking.get(id(parent), {})
    ]
    meant: dict[int, str] = {}
    for _, number, name in sorted(pairs, key=lambda pair: -pair[0]):
        missing = lacking[id(unknown[number][1])]
        if number not in meant and name in missing:
            meant[number] = name
            del missing[name]
    found += [
        _unknown_key(str(loc[-1]), meant.get(number), parent, _fields(model, loc[:-1]))
        for number, (loc, parent) in enumerate(unknown)
    ]
    for missing in lacking.values():
        found += [_missing_key(key, parent, model, loc) for key, (loc, parent) in missing.items()]
    return found


def _fixed_length(annotation: object) -> int:
    """How many entries a list of fixed length has, also one that may be left out; 0 for any other field."""
    arguments = get_args(annotation)
    if get_origin(annotation) is tuple:
        return 0 if arguments[-1] is Ellipsis else len(arguments)
    return max((_fixed_length(argument) for argument in arguments), default=0) if type(None) in arguments else 0


def _unknown_key(key: str, meant: str | None, parent: Mapping, fields: dict[str, FieldInfo]) -> Diagnostic:
    allowed = list(fields)
    near = meant or nearest(key, [k for k in allowed if k not in parent])
    return Diagnostic(
        "R301",
        parent.key_places[key],
        found=f"`{key}`",
        expected=f"one of {', '.join(allowed)}",
        help=did_you_mean(near, f"keys here: {', '.join(allowed)}"),
        note=f"`{meant}` is needed here and is not there" if meant else "",
        says=f"`{key}` is not a key of this record",
    )


def _old_key(entry: Renamed, parent: Mapping) -> Diagnostic:
    """A key of an older format. What is written behind it is not looked at before it has its new name."""
    place = parent.key_places[entry.old]
    if not entry.new:
        return Diagnostic(
            "R333",
            place,
            found=f"`{entry.old}`",
            expected="no such key any more",
            help=f"take this line away: {entry.why}",
            note=f"taken away in format {entry.since}",
            says=f"`{entry.old}` is there no more",
        )
    together = [other.old for other in RENAMED if other.record == entry.record and other.new == entry.new]
    here = [key for key in together if key in parent]
    says = f"`{entry.old}` is now `{entry.new}`"
    if entry.new in parent:
        help_ = f"keep `{entry.new}`, and take `{entry.old}` away"
        says += ", which is there as well"
    elif here[0] != entry.old:
        help_ = f"take this line away: what it says is in `{entry.new}` then, which takes the place of `{here[0]}`"
    else:
        beside = "".join(f", and take `{key}` away" for key in here[1:])
        help_ = f"write `{entry.new}:{_behind(entry, parent)}` in its place{beside}"
    note = f"{entry.new}: {entry.why}; renamed in format {entry.since}"
    return Diagnostic(
        "R333", place, found=f"`{entry.old}`", expected=f"`{entry.new}`", help=help_, note=note, says=says
    )


# A value that can be written behind a key as it is; of any other one the key alone is said.
_PLAIN = re.compile(r"[^\W_](?:[\w .–/²³°%()-]*[\w²³°%)])?")


def _behind(entry: Renamed, parent: Mapping) -> str:
    """What stands behind the new key, with the space before it; nothing where it stays as it is written."""
    if entry.writes:
        return " " + re.sub(
            r"<(\w+)( as id)?>", lambda piece: _piece(parent.get(piece[1]), *piece.groups()), entry.writes
        )
    value = parent.get(entry.old)
    return f" {value}" if isinstance(value, Text) and _PLAIN.fullmatch(value) else ""


def _piece(value: Node | None, key: str, as_id: str | None) -> str:
    """What stands behind an old key; what has to be written, in capitals, where nothing does."""
    text = str(value) if isinstance(value, Text) else key.upper()
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-") if as_id else text


def _in_new_words(one: Diagnostic, family: str, loc: Loc, value: object) -> Diagnostic:
    """A word of an older format is answered with the one that it is now."""
    key = ".".join([family, *(part for part in loc if isinstance(part, str))])
    entry = renamed(key, value, REWORDED) if isinstance(value, Text) else None
    if entry is None or one.code != "R307":
        return one
    return Diagnostic(
        "R333",
        one.place,
        found=f"“{entry.old}”",
        expected=f"`{entry.new}`",
        help=f"write `{entry.new}` in its place",
        note=f"{entry.new}: {entry.why}; another word since format {entry.since}",
        says=f"“{entry.old}” is now `{entry.new}`",
    )


def _missing_key(key: str, parent: Mapping, model: type[BaseModel], loc: Loc) -> Diagnostic:
    info = _fields(model, loc[:-1]).get(key)
    # The entry's first key is shown for the entry: a caret under the opening dash says nothing.
    place = next(iter(parent.key_places.values()), parent.place)
    if any(isinstance(piece, FormatNumber) for piece in kinds_of(info)):
        return no_format(place)
    example = _example(info)
    added = f"add `{key}: {example.text}`" if example.typed else f"add `{key}:` with {example}"
    note, says = _described(key, info), f"the key `{key}` is missing"
    return Diagnostic("R302", place, expected=f"`{key}`", help=added, note=note, says=says)


def _other(detail: ErrorDetails, loc: Loc, model: type[BaseModel], whole: Node) -> Diagnostic:
    kind, value, context = detail["type"], detail["input"], detail.get("ctx", {})
    name = next((str(part) for part in reversed(loc) if isinstance(part, str)), "")
    info = _field(model, loc)
    note, place = _described(name, info), _place(value, whole, loc)
    parts = context.get("parts")
    if isinstance(parts, Parts):
        written = value.items() if isinstance(value, Mapping) else ()
        at = next((key for key, one in written if one.place == parts.at), parts.at)
        if isinstance(at, Place):
            place = at
        elif isinstance(at, str) and isinstance(value, Mapping):
            place = getattr(value.get(at), "place", None) or value.key_places.get(at, place)
            note = _described(at, _field(model, (*loc, at))) or note
        return parts.diagnostic(place, note)
    if kind == "missing":
        # A pair inside a list, such as a measured point, has its size farther in.
        size = 0 if info is None or isinstance(loc[-1], int) else _fixed_length(info.annotation)
        expected = how_many(size, *_ENTRIES) if size else "as many entries as the field says"
    elif kind in _SIZES:
        words, bound = _SIZES[kind]
        expected = f"{words} {how_many(context[bound], *_ENTRIES)}"
    else:
        assert kind in _SHAPES, f"no diagnostic for {kind}"
        expected = _SHAPES[kind]
    help_ = _shape_help(kind, name, info)
    return Diagnostic("R303", place, found=_shown(value), expected=expected, help=help_, note=note)


def _shape_help(kind: str, name: str, info: FieldInfo | None) -> str:
    if kind == "tuple_type":
        return (f"write `{name}: [...]`, or " if name else "") + "one entry a line, each behind a dash"
    if kind in _SIZES:
        return "add what is missing, or take away what is too much"
    if kind == "missing":
        return "add what is missing; the record reference has an example"
    written = None if info is None else info.annotation
    inner = [one for one in get_args(written) or (written,) if one is not type(None)]
    if len(inner) == 1 and isinstance(inner[0], type) and issubclass(inner[0], BaseModel):
        return f"write `{name}: {_whole(inner[0]).text}`"
    return "write `key: value`, one a line, indented under this"


def _shown(value: object) -> str:
    if isinstance(value, Text):
        return f"“{value}”" if value else "nothing"
    if isinstance(value, Mapping):
        return "a mapping"
    if isinstance(value, list | tuple):
        return f"a list of {how_many(len(value), *_ENTRIES)}"
    return "nothing"


def _place(value: object, whole: Node, loc: Loc) -> Place:
    """Where the value is written; failing that, the nearest thing around it that has a place."""
    own: Place | None = getattr(value, "place", None)
    return innermost(whole, loc).place if own is None else own


def _described(key: str, info: FieldInfo | None) -> str:
    return f"{key}: {info.description}" if info is not None and info.description else ""


def _example(info: FieldInfo | None) -> Example:
    """What the field's kind gives as its example."""
    for piece in kinds_of(info):
        if isinstance(example := getattr(piece, "offered", None), Example):
            return example
    inner = None if info is None else info.annotation
    if isinstance(inner, type) and issubclass(inner, BaseModel):
        return _whole(inner)
    return Example("what the record reference says", typed=False)


def _whole(model: type[BaseModel]) -> Example:
    """A mapping with every key that the model needs."""
    needed = {key: _example(field) for key, field in by_key(model).items() if field.is_required()}
    shown = (f"{key}: {each.text if each.typed else key.upper()}" for key, each in needed.items())
    return Example("{" + ", ".join(shown) + "}")


def _field(model: type[BaseModel], loc: Loc) -> FieldInfo | None:
    while loc and not isinstance(loc[-1], str):
        loc = loc[:-1]
    return _fields(model, loc[:-1]).get(str(loc[-1])) if loc else None


def _fields(model: type[BaseModel], loc: Loc) -> dict[str, FieldInfo]:
    """The fields of the model found by walking down `loc`, by the key that people write."""
    current: type[BaseModel] | None = model
    for part in loc:
        if current is None or not isinstance(part, str):
            continue
        info = by_key(current).get(part)
        current = inner_model(info.annotation) if info else None
    return by_key(current) if current else {}


def by_key(model: type[BaseModel]) -> dict[str, FieldInfo]:
    """The model's fields by the key that people write."""
    return {info.alias or name: info for name, info in described(model).items()}


def inner_model(annotation: object) -> type[BaseModel] | None:
    """The record inside a list, an option or an annotation, if there is one."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for argument in get_args(annotation):
        if (found := inner_model(argument)) is not None:
            return found
    return None
