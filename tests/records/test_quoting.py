"""Texts of records quote numbers: a text follows its field, and a number that is typed there is found."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pydantic import BaseModel

from generator.planning.each_job import plan_jobs
from generator.press.manual.number_words import meant, typed_numbers, typed_quantities
from generator.press.manual.typed_numbers import job_findings, record_findings
from generator.quantities import Quantity
from generator.records import quoting
from generator.records.checklist import QUOTE, JobText, quotes_a_job
from generator.records.families import LISTED, STUDIO, Records
from generator.records.located import Text
from generator.records.quoting import Filled
from generator.records.reading import read_records
from tests.conftest import copy_content, copy_project
from tests.planning.demo import JOBS, RECORDS, job_of, written

NOWHERE = 9137  # a number that no text of the demo holds


def unfilled(value: Any) -> Any:
    """A record with its texts as they were typed."""
    if isinstance(value, Filled):
        return (JobText if "{{" in value else Text).at(value.written, value.place)
    if isinstance(value, tuple):
        return tuple(unfilled(item) for item in value)
    if isinstance(value, BaseModel):
        return value.model_copy(update={name: unfilled(getattr(value, name)) for name in type(value).model_fields})
    return value


def numbers(value: Any) -> Iterator[Any]:
    """Quantities and counts of an entry, those of its conditions too."""
    if isinstance(value, Quantity) or (isinstance(value, int | float) and not isinstance(value, bool)):
        yield value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from numbers(getattr(value, name))
    elif isinstance(value, tuple):
        for item in value:
            yield from numbers(item)
    elif dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield from numbers(getattr(value, field.name))


def with_another(value: Any, old: Any) -> Any:
    """The entry with this number changed wherever its fields hold it."""
    if isinstance(value, Quantity) and value == old:
        unit = value.text.split()[-1] if value.text else ""
        return dataclasses.replace(value, low=NOWHERE, high=NOWHERE, text=f"{NOWHERE} {unit}")
    if isinstance(value, int | float) and not isinstance(value, bool) and value == old:
        return NOWHERE
    if isinstance(value, BaseModel):
        names = type(value).model_fields
        return value.model_copy(update={name: with_another(getattr(value, name), old) for name in names})
    if isinstance(value, tuple):
        return tuple(with_another(item, old) for item in value)
    if dataclasses.is_dataclass(value) and not isinstance(value, type | Quantity):
        fields = {field.name: with_another(getattr(value, field.name), old) for field in dataclasses.fields(value)}
        return type(value)(**fields)
    return value


def texts(value: Any) -> Iterator[str]:
    if isinstance(value, Text):
        yield value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from texts(getattr(value, name))
    elif isinstance(value, tuple):
        for item in value:
            yield from texts(item)


def replaced(records: Records, family: str, entry_id: str, entry: Any) -> Records:
    if family == STUDIO.name:
        return dataclasses.replace(records, studio=entry)
    entries = {**records.family(family), entry_id: entry}
    return dataclasses.replace(records, **{family.replace("-", "_"): entries})


ENTRIES = [(STUDIO.name, ""), *((f.name, str(i)) for f in LISTED for i in RECORDS.family(f.name))]
# What a document says, and history, do not follow a number of the studio.
FOLLOW = [entry for entry in ENTRIES if entry[0] not in ("sources", "asked", "procedures", "barred-pigments")]


def entry_of(family: str, entry_id: str) -> Any:
    return RECORDS.studio if family == STUDIO.name else RECORDS.family(family)[entry_id]


@pytest.mark.parametrize("family", sorted({family for family, _ in FOLLOW}))
def test_texts_follow_each_number_of_their_entry(family: str) -> None:
    for entry_id in [entry_id for name, entry_id in FOLLOW if name == family]:
        written = unfilled(entry_of(family, entry_id))
        own = f"{family}.{entry_id}" if entry_id else family
        for old in set(numbers(written)):
            changed = with_another(written, old)
            assert changed != written, own
            records, report = replaced(RECORDS, family, entry_id, changed), []  # type: Records, list[Any]
            for text in texts(quoting._record(changed, own, records, report)):
                if " " not in text:
                    continue
                if isinstance(old, Quantity):
                    assert all(meant(one[0]) != old for one in typed_quantities(text)), (own, old, text)
                else:
                    assert f"{old:g}" not in [one[0] for one in typed_numbers(text)], (own, old, text)
            assert not report


QUOTED = [
    (f"{family}.{entry_id}", text)
    for family, entry_id in ENTRIES
    for text in texts(entry_of(family, entry_id))
    if isinstance(text, Filled)
]


def test_the_demo_quotes_and_no_brace_is_left() -> None:
    assert len(QUOTED) > 15
    for own, text in QUOTED:
        # What a box of the checklist quotes of its job is filled in for each job.
        left = [quote["path"] or "" for quote in QUOTE.finditer(text)]
        assert "{{" in text.written and all(map(quotes_a_job, left)), own


def test_no_text_of_the_demo_types_a_number() -> None:
    assert record_findings(RECORDS) == ()


def edited(tmp_path: Path, file: str, was: str, now: str) -> list[Any]:
    folder = copy_project(tmp_path)
    path = folder / "content" / file
    text = path.read_text("utf-8")
    assert text.count(was) == 1
    path.write_text(text.replace(was, now), "utf-8")
    reading = read_records(folder / "content")
    assert reading.records is None or not reading.report
    return list(reading.report if reading.records is None else record_findings(reading.records))


WAIT = "not before {{ .wait_until_age }} from the wound"
LINE = "consequence: Too young to be worked; {}."


@pytest.mark.parametrize(
    ("now", "code", "found"),
    [
        ("not before twelve months from the wound", "H704", "twelve months"),
        ("not before 18 months from the wound", "H704", "18 months"),
        ("gone over twice, from the wound", "H704", "twice"),
        ("two cases on one lot", "H704", "two cases"),
        ("filled to three quarters", "H704", "three quarters"),
        ("not before {{ .wait_until }} from the wound", "H701", "{{ .wait_until }}"),
        ("not before {{ scar-rules.scar-yung.wait_until_age }}", "H701", "{{ scar-rules.scar-yung.wait_until_age }}"),
        ("not before {{ .passes }} from the wound", "H702", "{{ .passes }}"),
        ("not before {{ .clears }} from the wound", "H702", "{{ .clears }}"),
        ("not before {{ typed: 12 months }}", "H703", "{{ typed: 12 months }}"),
        ("not before {{ .wait_until_age from the wound", "H701", "{{"),
    ],
)
def test_what_is_wrong_in_a_text_is_told_at_its_line(tmp_path: Path, now: str, code: str, found: str) -> None:
    wrong = edited(tmp_path, "scar-rules.yml", LINE.format(WAIT), LINE.format(now).replace("e: ", 'e: "', 1) + '"')
    assert [(d.code, d.found) for d in wrong] == [(code, f"“{found}”")]
    place = wrong[0].place
    row = Path(place.file).read_text("utf-8").splitlines()[place.line - 1]
    assert now in row
    assert code == "H704" or row[place.column - 1 :].startswith("{{")


@pytest.mark.parametrize(
    "now",
    [
        WAIT,
        "not before {{ scar-rules.scar-young.wait_until_age }} from the wound",
        "not before {{ typed: 12 months, because the law says so }}",
        "braces {{ 7*7 }} are words",
    ],
)
def test_what_is_right_in_a_text_is_no_diagnostic(tmp_path: Path, now: str) -> None:
    assert edited(tmp_path, "scar-rules.yml", LINE.format(WAIT), LINE.format(now).replace("e: ", 'e: "', 1) + '"') == []


def test_a_filled_text_reads_as_the_value() -> None:
    young = RECORDS.scar_rules["scar-young"]
    assert young.consequence == "Too young to be worked; not before 12\u00a0months from the wound."
    assert RECORDS.hygiene["waste-full"].do.endswith("filled to 75\u00a0%.")


POSED = "pose: Standing for the stencil; then seated, the arm on the rest and turned three times."


def posed(tmp_path: Path, pose: str) -> tuple[list[Any], str]:
    """What is said of a job with this pose, and the pose as its plan has it."""
    content = copy_content(tmp_path, ("gear-band",))
    path = content / "jobs" / "gear-band.yml"
    assert POSED in path.read_text("utf-8")
    path.write_text(path.read_text("utf-8").replace(POSED, f'pose: "{pose}"'), "utf-8")
    reading = read_records(content)
    assert reading.records is not None
    (planned,) = plan_jobs(content, reading)
    assert planned.job is not None
    told = [*planned.report, *job_findings(reading.records, planned.job)]
    return [(one.code, one.found, one.place.line) for one in told], str(planned.job.pose)


@pytest.mark.parametrize(
    ("pose", "code", "found"),
    [
        ("Seated, {{ .girht.top }} round", "H701", "{{ .girht.top }}"),
        ("Seated, {{ .girth }} round", "H702", "{{ .girth }}"),
        ("Seated, {{ jobs.tide-table.size.0 }} wide", "H701", "{{ jobs.tide-table.size.0 }}"),
        ("Seated for {{ typed: 10 min }}", "H703", "{{ typed: 10 min }}"),
        ("Seated for half an hour", "H704", "half an hour"),
        ("Seated, the arm 320 mm round", "H704", "320 mm"),
    ],
)
def test_what_is_wrong_in_a_text_of_a_job_is_told_at_its_line(tmp_path: Path, pose: str, code: str, found: str) -> None:
    assert posed(tmp_path, pose)[0] == [(code, f"“{found}”", 10)]


@pytest.mark.parametrize(
    ("pose", "reads"),
    [
        ("Seated and turned three times", "Seated and turned three times"),
        ("A break after {{ studio.limits.break_after }}", "A break after 75\u00a0min"),
        ("{{ .girth.top }} round", "326\u00a0mm (12\u00a07/8\u00a0in) round"),
        ("{{ jobs.gear-band.girth.top }} round", "326\u00a0mm (12\u00a07/8\u00a0in) round"),
        ("Seated for {{ typed: 10 min, because the client asks for it }}", "Seated for 10 min"),
    ],
)
def test_a_text_of_a_job_quotes_records_and_the_job_itself(tmp_path: Path, pose: str, reads: str) -> None:
    assert posed(tmp_path, pose) == ([], reads)


def test_no_text_of_a_demo_job_types_a_quantity() -> None:
    assert [told for name in JOBS for told in job_findings(RECORDS, job_of(written(name)))] == []
