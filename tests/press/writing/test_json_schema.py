"""The JSON Schema of each family: a general validator takes the whole demo studio, and refuses what is no record."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator

import pytest
import yaml
from jsonschema import Draft202012Validator

from generator.press.writing.schema import fields_of, json_schema, nested_records
from generator.records.families import ALL, JOBS, STUDIO, Family
from generator.records.kind import Example
from tests.conftest import ROOT

SCHEMAS = {family.name: json.loads(json_schema(family)) for family in ALL}
CONTENT = ROOT / "content"


class _Editors(yaml.CSafeLoader):
    """Single values as YAML 1.2 has them, and with it editors: numbers are numbers, a yes and a day are text."""


_Editors.yaml_implicit_resolvers = {
    first: [(tag, form) for tag, form in resolvers if tag.rpartition(":")[2] in ("int", "float", "null")]
    for first, resolvers in yaml.CSafeLoader.yaml_implicit_resolvers.items()
}


def _files(family: Family) -> Iterator[tuple[str, str]]:
    for path in sorted((CONTENT / "jobs").glob("*.yml")) if family is JOBS else [CONTENT / family.file]:
        yield path.name, path.read_text("utf-8")


def test_each_schema_is_one_and_describes_every_key() -> None:
    for family in ALL:
        schema = SCHEMAS[family.name]
        Draft202012Validator.check_schema(schema)
        record = schema if family in (STUDIO, JOBS) else schema["items"]
        assert all(field.get("description") for field in record["properties"].values()), family.name


def test_every_field_says_what_it_holds_beside_it_or_under_it() -> None:
    records = [
        model for family in ALL for model in (family.model, *(inner for _, inner in nested_records(family.model)))
    ]
    assert [f"{m.__name__}.{field.key}" for m in records for field in fields_of(m) if not field.about] == []


def test_the_demo_is_taken_whole_as_it_is_typed_and_as_editors_read_it() -> None:
    wrong = []
    for family in ALL:
        validator = Draft202012Validator(SCHEMAS[family.name])
        for name, text in _files(family):
            for loader in (yaml.CBaseLoader, _Editors):
                read = yaml.load(text, Loader=loader)
                wrong += [(name, list(e.absolute_path), e.message[:120]) for e in validator.iter_errors(read)]
    assert wrong == []


@pytest.mark.parametrize("family", [f for f in ALL if f.name not in ("loads",)], ids=lambda f: f.name)
def test_it_refuses_a_key_that_is_not_known_and_misses_one_that_is_needed(family: Family) -> None:
    validator = Draft202012Validator(SCHEMAS[family.name])
    _, text = next(_files(family))
    read = yaml.load(text, Loader=yaml.CBaseLoader)
    record = read if family in (STUDIO, JOBS) else read[0]
    wrapped = (lambda one: one) if family in (STUDIO, JOBS) else (lambda one: [one])
    assert validator.is_valid(wrapped(record))
    assert not validator.is_valid(wrapped({**record, "colour_of_the_wall": "green"}))
    schema = SCHEMAS[family.name]
    for key in (schema if family in (STUDIO, JOBS) else schema["items"])["required"]:
        lacking = copy.copy(record)
        del lacking[key]
        assert not validator.is_valid(wrapped(lacking)), key


def test_it_refuses_a_word_that_is_none_of_those_to_choose_from() -> None:
    validator = Draft202012Validator(SCHEMAS["studio"])
    read = yaml.load((CONTENT / "studio.yml").read_text("utf-8"), Loader=yaml.CBaseLoader)
    assert validator.is_valid(read)
    for key, wrong in (("units", "cubits"), ("paper", "A5"), ("reprocessing", "maybe"), ("name", ["a", "b"])):
        assert not validator.is_valid({**read, key: wrong}), key


def test_an_example_of_a_field_says_whether_it_is_typed_as_it_stands() -> None:
    examples = [
        field.shape.example
        for family in ALL
        for model in (family.model, *(inner for _, inner in nested_records(family.model)))
        for field in fields_of(model)
        if field.shape.example is not None
    ]
    assert len(examples) > 200 and {type(example) for example in examples} == {Example}
    assert {example.typed for example in examples} == {True, False}
    assert [str(Example("4 mm")), str(Example("a sentence", typed=False))] == ["`4 mm`", "a sentence"]
