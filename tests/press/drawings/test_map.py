"""What the map of a piece shows, what it says instead, and which of its numbers the stamp holds."""

from __future__ import annotations

import datetime
import re
from typing import Any

import pytest

from generator.planning.working.steps import LINES
from generator.press.drawings.map import drawn_map
from generator.press.drawings.map_words import geometry_of, in_words, letters_of_place
from generator.press.drawings.pictures import pictures_of
from generator.press.sheet.contents import first_lined, sheet_of
from generator.press.sheet.printing import sheet_html
from generator.press.sheet.stamp import stamp_of
from generator.units import SYSTEMS
from tests.planning.demo import JOBS, RECORDS, Written, changed, demo, part, planned, simple, written

CLEARANCE = RECORDS.studio.limits.mole_clearance


def existing_tattoos(**changes: Any) -> Written:
    base = {
        "id": "o1",
        "box": [f"{side} mm" for side in (50, 50, 70, 30)],
        "darkness": "dark",
        "wish": "cover",
        "laser": "none",
    }
    return {key: value for key, value in {**base, **changes}.items() if value is not None}


def drawn(job: Written) -> str:
    return drawn_map(planned(job), CLEARANCE, None).svg


@pytest.mark.parametrize("job", JOBS)
def test_every_map_has_area_centre_focus_arrow_bar_and_start(job: str) -> None:
    plan = demo(job)
    start = first_lined(plan.work)
    svg = drawn_map(plan, CLEARANCE, start).svg
    for kind in ("area", "centre", "up", "bar"):
        assert svg.count(f'class="{kind}"') >= 1, kind
    # Who asks first for a piece does not say yet which part is its focal point.
    assert (svg.count('class="focus"') >= 1) is any(part.focal for part in plan.job.parts)
    assert svg.count('class="part') == len(plan.job.parts)
    assert svg.count('class="mole"') == len(plan.job.moles or ())
    assert svg.count('class="scar"') == len(plan.job.scars or ())
    assert svg.count('class="old"') == len(plan.job.existing_tattoos or ())
    lined = plan.work is not None and any(step.section == LINES for step in plan.work.at_hand.steps)
    assert svg.count("▶") == lined


def test_existing_tattoos_is_dotted_by_its_darkness() -> None:
    radii = []
    for dark in ("light", "medium", "dark"):
        svg = drawn(simple(existing_tattoos=[existing_tattoos(darkness=dark)]))
        pattern = re.search(rf'<pattern id="(dots-{dark}-[^"]+)" [^>]*>.*?r="([\d.]+)"', svg)
        assert pattern is not None and f'class="old" fill="url(#{pattern[1]})"' in svg
        radii.append(float(pattern[2]))
    assert radii == sorted(set(radii))
    unknown = drawn(simple(existing_tattoos=[existing_tattoos(darkness=None)]))
    assert 'class="old" fill="none"' in unknown and "dots-" not in unknown


def test_existing_tattoos_has_its_letter_its_words_and_its_line_on_the_sheet() -> None:
    plan = planned(
        simple(
            existing_tattoos=[existing_tattoos(), existing_tattoos(id="o2", box=["70 mm", "85 mm", "20 mm", "10 mm"])]
        )
    )
    svg, words = drawn_map(plan, CLEARANCE, None).svg, in_words(plan, CLEARANCE, None, SYSTEMS["metric"])
    assert ">o1</text>" in svg and ">o2</text>" in svg
    assert (
        "Existing tattoo o1, dark, the darker the denser its dots: 50 mm from the left, 50 mm down, 70 by 30 mm; "
        in words
    )
    assert "covered by lamp, hatched there." in words and "covered by nothing." in words
    told = {pair.label: pair.value for pair in sheet_of(RECORDS, plan).hands_off}
    assert told["Existing tattoo o1"] == "covered by lamp" and told["Existing tattoo o2"] == "stays free"


def test_what_lies_on_something_is_hatched_there_and_only_there() -> None:
    two = [part("lamp", focal="yes"), part("foot", (20, 85, 20, 10), role="secondary")]
    svg = drawn(simple(existing_tattoos=[existing_tattoos()], moles=[{"at": ["62 mm", "30 mm"]}], parts=two))
    assert re.findall(r'class="over" clip-path="url\(#on-(\w+)-small', svg) == ["lamp", "lamp"]
    assert svg.count('fill="url(#thin-small-signal-lamp)"') == 2
    # It reaches beyond the piece by 20 mm and is cut at the edge.
    clip = '<clipPath id="piece-small-signal-lamp"><rect width="100" height="100"/></clipPath>'
    assert clip in svg and '<g clip-path="url(#piece-small-signal-lamp)"><rect x="50"' in svg


def test_the_bar_of_a_piece_of_any_size_is_long_enough_to_be_compared_with() -> None:
    small = simple(size="10 mm x 12 mm", parts=[part("lamp", (1, 1, 8, 8), focal="yes")])
    large = simple(size="900 mm x 1100 mm", place="upper-back", side="middle", parts=[part("lamp", focal="yes")])
    for plan in (*map(demo, JOBS), planned(small), planned(large)):
        drawn = drawn_map(plan, CLEARANCE, None)
        bar = re.search(r'class="bar" d="M\S+ [^"]*?h([\d.]+)', drawn.svg)
        view = re.search(r'viewBox="\S+ \S+ (\S+) ', drawn.svg)
        assert bar is not None and view is not None and f"{bar[1]} mm</text>" in drawn.svg
        assert 5 <= float(bar[1]) * drawn.width / float(view[1]) <= 15


def test_the_geometry_is_numbers_and_words_that_no_class_name_is_part_of() -> None:
    shapes = [
        part("lamp", focal="yes"),
        part("cord", ellipse=["5 mm", "5 mm", "9 mm", "9 mm"], role="secondary"),
        part("base", outline=[["5 mm", "70 mm"], ["30 mm", "70 mm"], ["20 mm", "95 mm"]], role="secondary"),
    ]
    for one in shapes[1:]:
        del one["box"]
    numbers = geometry_of(planned(simple(parts=shapes, existing_tattoos=[existing_tattoos()])), CLEARANCE)
    assert all(isinstance(value, str | float | int | None) for row in numbers for value in row)
    assert ("part", "lamp", True, "box", 20, 20, 40, 40) in numbers
    assert ("part", "cord", False, "ellipse", 5, 5, 9, 9) in numbers
    assert ("part", "base", False, "outline", 5, 70, 30, 70, 20, 95) in numbers
    assert ("existing tattoo", "o1", "dark", "box", 50, 50, 70, 30) in numbers


@pytest.mark.parametrize(
    ("key", "to"),
    [
        ("box", ["26 mm", "40 mm", "68 mm", "65 mm"]),
        ("darkness", "dark"),
        ("id", "o2"),
    ],
)
def test_the_stamp_holds_existing_tattoos(key: str, to: Any) -> None:
    job = written("steam-boiler")
    other = changed(job, "existing_tattoos", 0, key, to=to)
    one, two = (stamp_of(sheet_of(RECORDS, planned(made))) for made in (job, other))
    assert one != two


def test_after_z_come_aa_and_ab() -> None:
    """As columns of a spreadsheet are named: A to Z, AA to AZ, BA; the 703rd is AAA (from memory)."""
    places = {0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"}
    assert {place: letters_of_place(place) for place in places} == places
    assert len({letters_of_place(place).lower() for place in range(2000)}) == 2000


@pytest.mark.parametrize("number", [27, *(pytest.param(n, marks=pytest.mark.nightly) for n in (53, 120))])
def test_a_piece_of_many_parts_has_letters_sheet_and_map(number: int) -> None:
    spots = [(n % 12 * 8, n // 12 * 8, 7, 7) for n in range(number)]
    short = [{"needle": "1207RL", "length": "10 mm"}]
    parts = [part(f"p{n}", spot, focal="yes" if n == 0 else None, lines=short) for n, spot in enumerate(spots)]
    plan = planned(simple(parts=parts))
    drawn_letters = re.findall(r"<text[^>]*>([A-Z]+)</text>", drawn_map(plan, CLEARANCE, None).svg)
    assert set(drawn_letters) >= {letters_of_place(n) for n in range(number)}
    assert plan.work is not None
    sheet = sheet_of(RECORDS, plan)
    steps = [f"{letters_of_place(int(step.part.id[1:]))} {step.part.id}" for step in plan.work.at_hand.steps]
    assert steps and [row.part for row in sheet.rows if row.part] == steps
    assert all(name in sheet_html(sheet, datetime.date(2027, 1, 1)) for name in steps)
    assert len(pictures_of(RECORDS, plan)) > 0
    assert (
        in_words(plan, CLEARANCE, None, SYSTEMS["metric"]).count(f"{letters_of_place(number - 1)}, p{number - 1}") == 1
    )
