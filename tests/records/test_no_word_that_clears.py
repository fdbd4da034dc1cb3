"""Whoever mistypes an answer is sent back to the skin or the client, and never offered the word that clears."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Annotated, Any, NamedTuple, get_args

import pytest
from pydantic import BaseModel, BeforeValidator, TypeAdapter, ValidationError

from generator.diagnostics import Place
from generator.press.writing.schema import nested_records
from generator.records.conditions import ANSWER, FACTS
from generator.records.families import ALL
from generator.records.fields import none_or
from generator.records.kind import Kind
from generator.records.located import Text
from generator.records.mistakes import by_key

# What people write where they mean that there is nothing, or that something is as it should be.
MEANT = [
    *("one", "nne", "nine", "non", "None", "NONE", "nome", "no", "No", "NO", "nope", "nil", "nothing", "n/a", "-", "0"),
    *("n", "off", "false", "False", "yes", "Yes", "YES", "yess", "y", "on", "true", "ok", "fine", "clear", "all clean"),
    *("All clear", "all  clear", "allclear", "clean", "keine", "passd", "pased", "sofft", "palle", "flatt", "carre"),
]


class Marked(NamedTuple):
    """One kind of value in one field, with the words of it that clear."""

    where: str
    annotation: Any
    clears: tuple[str, ...]


def _pieces(annotation: Any) -> Iterator[Any]:
    if hasattr(annotation, "__metadata__"):
        yield annotation
    for argument in get_args(annotation):
        yield from _pieces(argument)


def _fields() -> Iterator[Marked]:
    for family in ALL:
        models: list[tuple[str, type[BaseModel]]] = [("", family.model), *nested_records(family.model)]
        for path, model in models:
            for key, info in by_key(model).items():
                where = ".".join(filter(None, (family.name, path, key)))
                whole = Annotated[(info.annotation, *info.metadata)] if info.metadata else info.annotation
                for annotation in _pieces(whole):
                    for piece in annotation.__metadata__:
                        if isinstance(piece, Kind | BeforeValidator):
                            single = Annotated[get_args(annotation)[0], piece]
                            yield Marked(where, single, tuple(getattr(piece, "clears", ())))


FIELDS = tuple(_fields())
CLEARING = {word for field in FIELDS for word in field.clears}


def _near(word: str) -> Iterator[str]:
    """The word with a letter too few, too many or exchanged, and in capitals."""
    yield from (word.upper(), word.capitalize(), f"{word} ", f"{word}.")
    for at in range(len(word)):
        yield from (word[:at] + word[at + 1 :], word[:at] + word[at] + word[at:], word[:at] + "x" + word[at + 1 :])


# To make one takes longer than to read a word with it; the fields that they are made for stay.
_ADAPTERS: dict[int, tuple[Any, TypeAdapter[Any]]] = {}


def _helps(annotation: Any, written: str) -> Iterator[str]:
    if id(annotation) not in _ADAPTERS:
        _ADAPTERS[id(annotation)] = annotation, TypeAdapter(annotation)
    try:
        _ADAPTERS[id(annotation)][1].validate_python(Text.at(written, Place("a.yml", 1, 1, 2)), context=[])
    except ValidationError as wrong:
        yield from (e["ctx"]["parts"].help for e in wrong.errors(include_url=False) if "parts" in e.get("ctx", {}))


def _offered(help_: str) -> set[str]:
    return set(re.findall(r"`([^`]*)`", help_)) | set(re.findall(r"“([^”]*)”", help_))


def test_the_schema_marks_the_words() -> None:
    assert {"none", "all clear", "no", "yes", "soft", "passed"} <= CLEARING
    marked = {field.where: field.clears for field in FIELDS if field.clears}
    assert marked["jobs.moles"] == marked["supplies.contains"] == ("none",)
    # Everything about a scar that has a word for a quiet one has it marked.
    for key in ("type", "after", "colour", "feel", "itch", "pain", "growth"):
        assert marked[f"jobs.scars.{key}"], key
    # `none` in place of a list is taken in one way only, which is the marked one.
    taken = [f for f in FIELDS if getattr(f.annotation.__metadata__[0], "func", None) is none_or]
    assert len(taken) > 5 and all(field.clears == ("none",) for field in taken)


@pytest.mark.parametrize("field", [f for f in FIELDS if f.clears], ids=lambda field: field.where)
def test_no_field_offers_a_word_that_clears_it(field: Marked) -> None:
    tried = {*MEANT, *(near for word in CLEARING for near in _near(word)), "", " "} - set(field.clears)
    said = {written: help_ for written in tried for help_ in _helps(field.annotation, written)}
    assert said, "nothing that was tried is a mistake here"
    assert {w: h for w, h in said.items() if _offered(h) & set(field.clears) or "mean `none`" in h} == {}


def test_no_field_at_all_offers_none_or_all_clear() -> None:
    assert len(FIELDS) > 600
    wrong = [
        (field.where, written, help_)
        for field in FIELDS
        for written in MEANT
        for help_ in _helps(field.annotation, written)
        if _offered(help_) & {"none", "all clear", "answers: all clear"}
    ]
    assert wrong == []


@pytest.mark.parametrize("fact", [*FACTS, f"{ANSWER}pregnant"])
def test_no_condition_is_mended_with_none(fact: str) -> None:
    kind = FACTS.get(fact)
    for written in MEANT if isinstance(kind, Kind) else ():
        assert not any(_offered(help_) & {"none", "all clear"} for help_ in _helps(Annotated[Any, kind], written))


def test_a_word_that_clears_nothing_is_still_suggested() -> None:
    said = {f.where: list(_helps(f.annotation, w)) for w in ("lineart", "hards", "whit") for f in FIELDS}
    assert ["did you mean `white`?"] in said.values()
    (feel,) = [f for f in FIELDS if f.where == "jobs.scars.feel"]
    assert list(_helps(feel.annotation, "hardd")) == ["did you mean `hard`?"]
    assert not any(_offered(help_) for help_ in _helps(feel.annotation, "sofd"))
