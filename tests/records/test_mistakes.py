"""Mistakes as people make them, each in a content folder of its own: one diagnostic, in the right place."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from generator.cli import main
from generator.dates import as_of
from generator.diagnostics import as_json, as_text, has_errors
from generator.quantities import Quantity, parse
from generator.units import KINDS
from tests.checked import check_all
from tests.conftest import THREE_JOBS, copy_content, copy_project, leave_jobs, put_back

TIDE, BOAT, LANTERN = "jobs/tide-table.yml", "jobs/paper-boat.yml", "jobs/keepers-lantern.yml"
SEXTANT = "jobs/sextant.yml"


class Slip(NamedTuple):
    """In `file`, `right` becomes `wrong`. The diagnostic points at `at`, the first such text from there on."""

    code: str
    file: str
    right: str
    wrong: str
    at: str


SLIPS = {
    "a wash without a pigment of its ink": Slip(
        "R317",
        "inks.yml",
        "swatch: '#aeaaa5', pigments: [C.I. 77266]",
        "swatch: '#aeaaa5', pigments: [C.I. 77891]",
        "C.I. 77891",
    ),
    "the name of a device": Slip("R326", "inks.yml", "id: amber", "id: LPT3", "LPT3"),
    "a part that is another in capitals": Slip("R327", TIDE, "id: gears", "id: Dial", "Dial"),
    "tab indentation": Slip("Y109", "machines.yml", "  drive: rotary-direct", "\tdrive: rotary-direct", "\t"),
    "unclosed quote": Slip("Y101", "people.yml", "name: Quill", 'name: "Quill', '"Quill'),
    "unclosed quote at the end": Slip("Y101", TIDE, "{needle: 1210RL", "{needle: '1210RL", "'1210RL"),
    "unclosed bracket": Slip("Y101", "machines.yml", "[3.0 mm, 3.5 mm]", "[3.0 mm, 3.5 mm", "[3.0 mm"),
    "no space after a colon": Slip("Y101", "machines.yml", "weight: 182 g", "weight:182 g", "weight:182"),
    "a colon inside a text": Slip("Y101", TIDE, "Clockwork tide table", "Clockwork: tide table", ": tide"),
    "wrong indentation": Slip("Y101", TIDE, "side: middle", " side: middle", ": middle"),
    "repeated key": Slip("Y103", TIDE, "moles: none", "moles: none\nmoles: []", "moles: []"),
    "anchor and alias": Slip("Y105", TIDE, "gap: 2 mm", "gap: &gap 2 mm", "&gap"),
    "merge key": Slip("Y105", TIDE, "skin: {tone: light}", "skin: {<<: *usual}", "*usual"),
    "tag": Slip("Y106", TIDE, "interruptions: 1", "interruptions: !!int 1", "!!int 1"),
    "second document": Slip("Y107", TIDE, "scars: none", "---\nscars: none", "---"),
    "control character": Slip("Y102", TIDE, "Clockwork", "Clock\x0bwork", "\x0bwork"),
    "list instead of mapping": Slip("R303", TIDE, "skin: {tone: light}", "skin: [light]", "[light]"),
    "mapping instead of list": Slip("R303", TIDE, "scars: none", "scars: {id: s1}", "{id: s1}"),
    "one word instead of a list": Slip("R303", TIDE, "allergies: none", "allergies: latex", "latex"),
    "empty list": Slip("R303", "machines.yml", "strokes: [3.0 mm, 3.5 mm]", "strokes: []", "[]"),
    "misspelt key": Slip("R301", TIDE, "client:", "cleint:", "cleint"),
    "misspelt key of an entry": Slip("R301", "machines.yml", "weight: 182 g", "wieght: 182 g", "wieght"),
    "missing key": Slip("R302", TIDE, "place: upper-back\n", "", "id: tide-table"),
    "nothing behind a key": Slip("R304", TIDE, "artist: quill", "artist:", ":\ndate"),
    "colour without quotes": Slip("R304", "inks.yml", "swatch: '#14120f'", "swatch: #14120f\n  ", " #14120f"),
    "unknown id with a near miss": Slip("L401", TIDE, "artist: quill", "artist: qiull", "qiull"),
    "unknown ink in a list": Slip("L401", TIDE, "{ink: deep-blue, area: 7 cm²}", "deep-bleu", "deep-bleu"),
    "unknown question": Slip("L401", "jobs/orrery.yml", "diabetes: no", "diabetis: no", "diabetis"),
    "unknown source": Slip(
        "L401",
        "machines.yml",
        "source: house-machines\n- id: lathe",
        "source: house-machine\n- id: lathe",
        "house-machine\n",
    ),
    "duplicate id": Slip("R318", "people.yml", "id: bram", "id: mo", "mo\n  name: Bram"),
    "duplicate part": Slip("R318", TIDE, "id: gears", "id: dial", "dial\n    role: secondary"),
    "technique listed twice": Slip(
        "R318", "techniques.yml", "machines: [kettle, lathe, metronome]", "machines: [kettle, lathe, kettle]", "kettle]"
    ),
    "decimal comma": Slip("Q205", "machines.yml", "vibration: 2.1 m/s²", "vibration: 2,1 m/s²", "2,1"),
    "decimal comma in braces": Slip(
        "Q205",
        LANTERN,
        "{needle: 1209RL, length: 460 mm, machine: lathe}",
        "{needle: 1209RL, length: 70,5 mm, machine: lathe}",
        "70,5",
    ),
    "fraction without a unit": Slip("Q201", TIDE, "gap: 2 mm", "gap: 1/4", "1/4"),
    "thousands": Slip("Q205", TIDE, "length: 450 mm", "length: '1,500 mm'", "'1,500"),
    "no unit": Slip("Q202", TIDE, "dial: 95 Hz", "dial: 95", "95}"),
    "wrong kind of unit": Slip("Q203", TIDE, "dial: 95 Hz", "dial: 95 mm", "95 mm"),
    "revolutions": Slip("Q204", TIDE, "dial: 95 Hz", "dial: 5700 rpm", "5700"),
    "unit in capitals": Slip("Q204", TIDE, "dial: 95 Hz", "dial: 95 HERTZ", "95 HERTZ"),
    "number and unit in one word": Slip("Q206", TIDE, "dial: 95 Hz", "dial: 95Hz", "95Hz"),
    "reversed range": Slip("Q207", "machines.yml", "limits: 40–120 Hz", "limits: 120–40 Hz", "120–40"),
    "range where one value belongs": Slip("Q207", TIDE, "dial: 95 Hz", "dial: 90-100 Hz", "90-100"),
    "comparison sign": Slip("Q210", TIDE, "length: 450 mm", "length: '≥450 mm'", "'≥450"),
    "not a number": Slip("Q209", TIDE, "length: 450 mm", "length: nan mm", "nan mm"),
    "exponent": Slip("Q209", TIDE, "length: 450 mm", "length: 7.5e2 mm", "7.5e2"),
    "absurd": Slip("Q208", TIDE, "length: 450 mm", "length: 750 m", "750 m}"),
    "absurd volts": Slip("Q208", "machines.yml", "limits: 4–10 V", "limits: 4–1000 V", "4–1000"),
    "on for yes": Slip("R308", "studio.yml", "reprocessing: no", "reprocessing: on", "on"),
    "true for yes": Slip(
        "R308",
        "techniques.yml",
        "may_apprentice: yes\n  source: common-practice\n- id: soft-shading",
        "may_apprentice: true\n  source: common-practice\n- id: soft-shading",
        "true",
    ),
    "a day that does not exist": Slip("R311", TIDE, "date: 2027-05-12", "date: 2027-02-30", "2027-02-30"),
    "a month that does not exist": Slip("R311", BOAT, "wound: 2026-07-18", "wound: 2026-13", "2026-13"),
    "a date the other way round": Slip("R311", TIDE, "date: 2027-05-12", "date: 12.05.2027", "12.05.2027"),
    "an hour that does not exist": Slip("R312", TIDE, "start: 11:00", "start: 25:00", "25:00"),
    "box with three numbers": Slip("R303", TIDE, "[20 mm, 102 mm, 58 mm, 46 mm]", "[20 mm, 102 mm, 58 mm]", "[20 mm"),
    "box with two numbers": Slip("R303", TIDE, "[20 mm, 102 mm, 58 mm, 46 mm]", "[20 mm, 102 mm]", "[20 mm"),
    "box with five numbers": Slip(
        "R303", TIDE, "[20 mm, 102 mm, 58 mm, 46 mm]", "[20 mm, 102 mm, 58 mm, 46 mm, 1 mm]", "[20 mm"
    ),
    "size in one number": Slip("R315", TIDE, "150 mm x 190 mm", "150 mm", "150 mm"),
    "a size without its first unit": Slip("Q202", TIDE, "150 mm x 190 mm", "150 x 190 mm", "150 x"),
    "part outside the piece": Slip(
        "J611", TIDE, "[20 mm, 102 mm, 58 mm, 46 mm]", "[120 mm, 102 mm, 58 mm, 46 mm]", "120 mm"
    ),
    "scar in centimetres": Slip(
        "J613", BOAT, "from: [20 mm, 96 mm], to: [48 mm, 101 mm]", "from: [20 cm, 96 mm], to: [48 cm, 101 mm]", "20 cm"
    ),
    "mole in centimetres": Slip("J613", LANTERN, "[14 mm, 60 mm]", "[14 mm, 60 cm]", "60 cm"),
    "old work outside the piece": Slip(
        "J613",
        TIDE,
        "existing_tattoos: none",
        "existing_tattoos: [{id: star, box: [20 mm, 19.1 cm, 2 cm, 2 cm]}]",
        "19.1 cm",
    ),
    "a day beyond the calendar": Slip("R311", TIDE, "date: 2027-05-12", "date: 20271-05-12", "20271"),
    "a year that is too late": Slip("R311", TIDE, "date: 2027-05-12", "date: 2270-05-12", "2270"),
    "no for none": Slip("R303", TIDE, "allergies: none", "allergies: no", "no\n"),
    "a misspelt none": Slip("R303", TIDE, "allergies: none", "allergies: nne", "nne"),
    "signature by oneself": Slip(
        "L404", "people.yml", "on: 2026-11-20, by: mo}", "on: 2026-11-20, by: quill}", "quill}"
    ),
    "signature twice": Slip(
        "R318",
        "people.yml",
        "  signed:\n",
        "  signed:\n    - {procedure: cover-ups, text: 3a7feb, on: 2026-11-20, by: mo}\n",
        "cover-ups, text: 3a7feb, on: 2026-11-20, by: mo}\n    - {procedure: stat",
    ),
    "signature before the text": Slip(
        "L405", "people.yml", "eeeb26, on: 2026-11-20", "eeeb26, on: 2026-09-13", "2026-09-13"
    ),
    "revisions out of order": Slip(
        "R323", "procedures.yml", 'date: 2026-11-16, what: "Where', 'date: 2026-11-02, what: "Where', "2026-11-02"
    ),
    "work longer than the sitting": Slip(
        "R324", "jobs/diving-bell.yml", "\n  took: ", "\n  took: 95 min  # ", "95 min"
    ),
    "opened after it expired": Slip("R317", "inks.yml", "opened: 2027-02-15", "opened: 2028-07-01", "2028-07-01"),
    "an ink twice in a part": Slip(
        "R318", TIDE, "{ink: brass, area: 5 cm²}", "{ink: black-shade, area: 5 cm²}", "black-shade, area: 5"
    ),
    "overlapping speeds": Slip(
        "R325", "techniques.yml", "[RL], fewest: 5, most: 9", "[RL], fewest: 4, most: 9", "RL], fewest: 4"
    ),
    "a habit that its machine cannot do": Slip(
        "R317", "people.yml", "hang_out: 3.5 mm, source", "hang_out: 5 mm, source", "5 mm, source"
    ),
    "a habit of a stroke that its machine has not": Slip(
        "R317", "people.yml", "hang_out: 3.5 mm, source", "stroke: 4 mm, source", "4 mm, source"
    ),
    "a habit in volts on a dial in hertz": Slip(
        "R317", "people.yml", "hang_out: 3.5 mm, source", "dial: 7 V, source", "7 V, source"
    ),
    "points of a machine in hertz": Slip(
        "L406", "calibrations.yml", "id: lathe-three\n  machine: lathe", "id: lathe-three\n  machine: kettle", "kettle"
    ),
    "wound after the sitting": Slip("J612", BOAT, "wound: 2026-07-18", "wound: 2027-07", "2027-07"),
    "screening after the sitting": Slip("J612", TIDE, "asked: 2027-05-05", "asked: 2027-06-05", "2027-06-05"),
    "finished before the sitting": Slip("R317", SEXTANT, "on: 2027-03-23", "on: 2027-03-22", "2027-03-22"),
    "id unlike the file's name": Slip("R320", TIDE, "id: tide-table", "id: tide-chart", "tide-chart"),
    "calibration not rising": Slip("Q211", "calibrations.yml", "[7.0 V, 97 Hz]", "[7.0 V, 79 Hz]", "7.0 V"),
    "dial outside the machine": Slip("J606", TIDE, "dial: 95 Hz", "dial: 160 Hz", "160 Hz"),
    "hang-out outside": Slip("J607", TIDE, "length: 450 mm}", "length: 750 mm, hang_out: 5 mm}", "5 mm}"),
    "needle for another technique": Slip("J602", TIDE, "needle: 1207RL", "needle: 1215CM", "1215CM"),
    "unknown fact": Slip("C502", "scar-rules.yml", "{scar.type: keloid}", "{scar.typ: keloid}", "scar.typ"),
    "unknown word in a condition": Slip(
        "R307", "scar-rules.yml", "{scar.type: keloid}", "{scar.type: keloids}", "keloids"
    ),
    "comparison without relation": Slip(
        "C503", "scar-rules.yml", "{scar.age: below 12 months}", "{scar.age: 12 months}", "12 months"
    ),
    "unknown question in a rule": Slip(
        "L401", "scar-rules.yml", "{scar.type: keloid}", "{answer.keloids: yes}", "answer.keloids"
    ),
    "client by name": Slip("R314", TIDE, "client: R-0147", "client: Somebody Invented", "Somebody"),
    "label without wire": Slip("A901", "groupings.yml", "label: 1206F", "label: 6F", "6F"),
    "two waiting times": Slip(
        "R317",
        "screening.yml",
        "wait_limit: same_skin_again",
        "wait: 28 days\n  wait_limit: same_skin_again",
        "same_skin_again",
    ),
    "a long name": Slip("R305", TIDE, "Clockwork tide table", "Clockwork " * 9, "Clockwork Clock"),
}


# The jobs in which something is written wrongly here, beside those that every small copy has.
WRONGED = {Path(slip.file).stem for slip in SLIPS.values() if slip.file.startswith("jobs/")}


@pytest.fixture(scope="module")
def one_content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return copy_content(tmp_path_factory.mktemp("mistakes"), {*THREE_JOBS, *WRONGED})


@pytest.fixture
def content(one_content: Path) -> Iterator[Path]:
    with put_back(one_content.parent):
        yield one_content


def _checked(content: Path, capsys: pytest.CaptureFixture[str], command: bool = False) -> list[dict[str, str | int]]:
    """What is said as JSON, after the same was said as text; by the command where that is the question."""
    if command:
        status = main(["check", "--content", str(content)])
        text = capsys.readouterr().out
        assert main(["check", "--content", str(content), "--format", "json"]) == status
        said = capsys.readouterr().out
    else:
        report = check_all(content, as_of())
        status, text, said = int(has_errors(report)), as_text(report), as_json(report)
    # The records stand here without a handbook, and what is due depends on the day.
    found: list[dict[str, str | int]] = [d for d in json.loads(said) if d["level"] != "reminder"]
    assert status == (1 if found else 0)
    assert re.findall(r"^(.+:\d+:\d+): error ([A-Z]\d{3}): (.*)$", text, re.MULTILINE) == [
        (f"{d['file']}:{d['line']}:{d['column']}", d["code"], d["message"]) for d in found
    ]
    return found


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_is_one_diagnostic_in_its_place(name: str, content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    slip = SLIPS[name]
    file = content / slip.file
    if file.parent.name == "jobs":
        leave_jobs(content, {"stairwell", file.stem})
    before = file.read_text("utf-8")
    assert slip.right in before
    start = before.index(slip.right)
    text = before.replace(slip.right, slip.wrong, 1)
    file.write_text(text, "utf-8")
    at = text.rindex(slip.at, 0, start) if slip.code == "R302" else text.index(slip.at, start)
    if text[at] == ":" and slip.code == "R304":
        at += 1  # where the value would begin
    line = text[:at].count("\n") + 1
    column = at - (text.rfind("\n", 0, at) + 1) + 1
    found = _checked(content, capsys)
    assert [(d["code"], d["file"], d["line"], d["column"]) for d in found] == [(slip.code, str(file), line, column)]
    assert all(found[0][part] for part in ("message", "found", "expected", "help"))
    if slip.code[0] == "Q" and slip.code not in ("Q208", "Q211"):
        _assert_repairs_are_right(str(found[0]["help"]))


def _assert_repairs_are_right(help_: str) -> None:
    offered = re.findall(r"`([^`]*\d[^`]*)`", help_)
    assert offered
    for text in offered:
        for half in text.split(" x "):
            assert isinstance(parse(half, tuple(KINDS), None, spans=True), Quantity), text


def test_every_mistake_of_one_run_is_shown_at_once(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    chosen = [
        SLIPS[name]
        for name in (
            "decimal comma",
            "misspelt key",
            "unknown id with a near miss",
            "duplicate part",
            "on for yes",
            "unknown fact",
            "no unit",
            "unknown question",
        )
    ]
    for slip in chosen:
        file = content / slip.file
        file.write_text(file.read_text("utf-8").replace(slip.right, slip.wrong, 1), "utf-8")
    found = _checked(content, capsys, command=True)
    # The job with a misspelt key is not read further than its keys and references.
    assert sorted(str(d["code"]) for d in found) == sorted(s.code for s in chosen if s.code != "R318")


def test_one_word_in_place_of_a_mapping_is_told_the_mapping_to_write(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A bare day behind `until`, or a bare name behind `decided`, says which keys it needs."""
    people, reviews = content / "people.yml", content / "reviews.yml"
    text = people.read_text("utf-8")
    people.write_text(text.replace("- id: bram\n", "- id: bram\n  until: 2027-05-01\n"), "utf-8")
    text = reviews.read_text("utf-8")
    reviews.write_text(text.replace("{by: quill, on: 2026-11-02}", "quill", 1), "utf-8")
    found = {str(d["help"]) for d in _checked(content, capsys, command=True) if d["code"] == "R303"}
    assert {re.sub(r"\d{4}-\d\d-\d\d", "DAY", help_) for help_ in found} == {
        "write `until: {on: DAY, why: left}`",
        "write `decided: {by: BY, on: DAY}`",
    }


WHOLE_FILES = {
    "Latin-1 bytes": ("Y102", TIDE, "Gezeitentafel für".encode("latin-1"), (1, 16)),
    "empty file": ("R303", TIDE, b"", (1, 1)),
    "only a comment": ("R303", "people.yml", b"# nobody yet\n", (1, 1)),
    "list instead of mapping": ("R303", TIDE, b"- id: tide-table\n", (1, 1)),
    "mapping instead of list": ("R303", "people.yml", b"id: quill\n", (1, 1)),
    "a single word": ("R303", "people.yml", b"\nnobody\n", (2, 1)),
    "stray file": ("F802", "notes.txt", b"buy gloves", (1, 1)),
    "job with another ending": ("F802", "jobs/new.yaml", b"id: new", (1, 1)),
    "folder in jobs": ("F802", "jobs/2027/new.yml", b"id: new", (1, 1)),
}


@pytest.mark.parametrize("name", WHOLE_FILES)
def test_a_file_that_cannot_be_read_is_one_diagnostic(
    name: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, file, written, at = WHOLE_FILES[name]
    (content / file).parent.mkdir(exist_ok=True)
    (content / file).write_bytes(written)
    found = _checked(content, capsys)
    assert [(d["code"], d["file"], (d["line"], d["column"])) for d in found] == [(code, str(content / file), at)]


@pytest.mark.parametrize("file", ["machines.yml", "studio.yml", "jobs/tide-table.yml"])
def test_a_byte_order_mark_and_windows_line_ends_are_no_mistakes(
    file: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (content / file).read_text("utf-8").replace("\n", "\r\n")
    (content / file).write_bytes(b"\xef\xbb\xbf" + text.encode())
    assert _checked(content, capsys) == []


def test_a_file_under_a_wrong_name_is_not_also_a_missing_one(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (content / "machines.yml").rename(content / "machine.yml")
    found = _checked(content, capsys)
    assert [(d["code"], d["help"]) for d in found] == [("F802", "name it `machines.yml`")]


def test_hidden_files_are_the_editors_business(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (content / "jobs" / ".tide-table.yml").write_text("half a", "utf-8")
    (content / ".notes").write_text("anything", "utf-8")
    assert _checked(content, capsys) == []


def test_an_entry_with_a_mistake_still_defines_its_id_and_a_wrong_id_opens_its_family(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = content / "machines.yml"
    before = file.read_text("utf-8")
    for right, wrong in (("weight: 168 g", "weight: much"), ("id: kettle", "id: '?'")):
        file.write_text(before.replace(right, wrong), "utf-8")
        assert len(_checked(content, capsys)) == 1


def test_no_job_is_planned_on_broken_records(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for file, right, wrong in ((TIDE, "dial: 95 Hz", "dial: 60 Hz"), ("people.yml", "hand: left", "hand: both")):
        text = (content / file).read_text("utf-8")
        (content / file).write_text(text.replace(right, wrong, 1), "utf-8")
    assert [d["code"] for d in _checked(content, capsys)] == ["R307"]


def test_an_alias_is_one_mistake_with_its_anchor(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = content / TIDE
    text = file.read_text("utf-8").replace("gap: 2 mm", "gap: &gap 2 mm").replace("gap: 1.4 mm", "gap: *gap")
    file.write_text(text.replace("skin: {tone: light}", "skin: {<<: *gap}"), "utf-8")
    # An alias before its anchor is one of its own.
    assert [d["code"] for d in _checked(content, capsys)] == ["Y105", "Y105"]


def _first(
    content: Path, file: str, right: str, wrong: str, capsys: pytest.CaptureFixture[str]
) -> dict[str, str | int]:
    path = content / file
    before = path.read_text("utf-8")
    assert right in before
    path.write_text(before.replace(right, wrong, 1), "utf-8")
    return _checked(content, capsys)[0]


@pytest.mark.parametrize(
    ("written", "says"),
    [("20.05.2027", "written as year-month-day"), ("2270-05-12", "from 1900 to 2199"), ("2027-02-30", "that exists")],
)
def test_three_ways_in_which_a_date_is_wrong(
    written: str, says: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert says in str(_first(content, TIDE, "date: 2027-05-12", f"date: {written}", capsys)["message"])


def test_a_size_is_mended_with_its_own_unit(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = _first(content, BOAT, "80 mm x 120 mm", "80 x 120 mm", capsys)
    assert str(found["help"]).startswith("write `80 mm x 120 mm`")


def test_a_mole_just_outside_is_allowed_within_its_distance(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = content / BOAT
    before = path.read_text("utf-8")
    for across, codes in (("84 mm", []), ("89 mm", ["J613"])):
        path.write_text(before.replace("moles: none", f"moles: [{{at: [{across}, 20 mm], keep: 8 mm}}]"), "utf-8")
        assert [d["code"] for d in _checked(content, capsys)] == codes


def test_an_ink_worked_in_two_ways_is_no_repetition(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = content / TIDE
    path.write_text(
        path.read_text("utf-8").replace(
            "{ink: brass, area: 5 cm²}", "{ink: black-shade, area: 5 cm², technique: stippling}"
        ),
        "utf-8",
    )
    assert _checked(content, capsys) == []


def test_a_handbook_that_was_named_has_to_be_there(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    nowhere = content / "nowhere"
    assert main(["check", "--content", str(content), "--handbook", str(nowhere)]) == 1
    assert f"{nowhere}:1:1: error F801" in capsys.readouterr().out
    assert main(["check", "--content", str(content)]) == 0


def test_pages_that_cannot_be_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = copy_project(tmp_path, THREE_JOBS)
    page = project / "handbook" / "procedures" / "stock.md"
    page.write_bytes(b"# Stock\n\nA caf\xe9.\n")
    folder = project / "handbook" / "folder.md"
    folder.mkdir()
    assert main(["check", "--content", str(project / "content")]) == 1
    found = re.findall(r"^(.+:\d+:\d+): error ([A-Z]\d{3})", capsys.readouterr().out, re.MULTILINE)
    assert found == [(f"{folder}:1:1", "F801"), (f"{page}:3:6", "Y102")]


def test_a_changed_text_is_listed_only_when_its_page_is_mended(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project = copy_project(tmp_path, THREE_JOBS)
    page = project / "handbook" / "procedures" / "stock.md"
    before = page.read_text("utf-8")
    told = {}
    for words in ("Wait a while.", "Wait 15 min."):
        page.write_text(f"{before}\n{words}\n", "utf-8")
        main(["check", "--content", str(project / "content")])
        told[words] = {"H704", "H722"} & set(re.findall(r" ([A-Z]\d{3}): ", capsys.readouterr().out))
    assert told == {"Wait a while.": {"H722"}, "Wait 15 min.": {"H704"}}


def test_a_recall_names_the_jobs_that_have_to_be_asked_about(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = content / "jobs" / "diving-bell.yml"
    job.write_text(job.read_text("utf-8").replace("BR-2291", "BR-2219"), "utf-8")
    assert main(["check", "--content", str(content)]) == 0
    assert "no ink has a lot `BR-2219` on file\n" in (said := capsys.readouterr().out)
    assert "the nearest on file is `BR-2291`" in said
    assert main(["recall", "BR-2291", "--content", str(content)]) == 0
    asked = [line for line in capsys.readouterr().err.split("\n") if line.startswith("ask: ")]
    assert re.fullmatch(r"ask: R-\d+, \d{4}-\d\d-\d\d, diving-bell, with BR-2219, which no ink has on file", asked[0])
