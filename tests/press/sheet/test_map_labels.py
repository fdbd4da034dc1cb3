"""Nothing of a map is written on: no tag over a ring, a scar, an edge or another tag, whatever the piece looks like.

The geometry is read from the picture itself, and measured by shapely.
"""

from __future__ import annotations

import dataclasses
import datetime
import itertools
import re
from typing import Any

import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from shapely import affinity

from generator.planning.working.shapes import shape_of
from generator.press.drawings import map as piece_map
from generator.press.drawings import map_labels
from generator.press.drawings.map import ON_PAGE, ON_PHONE, ON_SHEET, ON_SHEET_FLAT, DrawnMap, Room, drawn_map, is_flat
from generator.press.drawings.map_words import part_letters
from generator.press.sheet.contents import first_lined, sheet_of
from generator.press.sheet.printing import job_html, sheet_html
from generator.press.words.text_width import POINT, width_of
from generator.records.jobs import Job
from generator.trade import shapes
from tests.planning.demo import JOBS, RECORDS, Written, demo, part, planned, scar, simple, try_plan
from tests.planning.random_jobs import jobs

AS_OF = datetime.date(2027, 5, 1)
CLEARANCE = RECORDS.studio.limits.mole_clearance
# Coordinates are written with two decimals.
ROUNDED = 0.02
# What the piece itself had, in mm on paper, when its names were still written on it: it never gets smaller again.
ROOM_OF_OLD = {"small": (32.08, 29.88), "flat": (112.08, 29.88), "large": (142.08, 123.88)}


def many(number: int, across: int, size: str, step: tuple[int, int], box: tuple[int, int], **changes: Any) -> Written:
    """So many parts in rows; the first of them is the focal point."""
    return simple(
        size=size,
        girth={"top": "420 mm", "bottom": "400 mm"},
        parts=[
            part(
                f"part-{at}",
                (2 + step[0] * (at % across), 2 + step[1] * (at // across), *box),
                role="secondary" if at else "main",
                focal="no" if at else "yes",
            )
            for at in range(number)
        ],
        **changes,
    )


def shapeless(name: str, **changes: Any) -> Written:
    return {key: value for key, value in part(name, **changes).items() if key != "box"}


def mole(x: int, y: int, keep: int) -> Written:
    return {"at": [f"{x} mm", f"{y} mm"], "keep": f"{keep} mm"}


def old(name: str, x: int, y: int, width: int, height: int) -> Written:
    box = [f"{side} mm" for side in (x, y, width, height)]
    return {"id": name, "box": box, "darkness": "dark", "wish": "cover", "laser": "none"}


MARKED: Written = {
    "moles": [mole(50, 50, 6), mole(1, 99, 15), mole(99, 1, 15)],
    "scars": [
        scar(**{"from": ["0 mm", "0 mm"], "to": ["100 mm", "100 mm"]}),
        scar(id="s2", **{"from": ["100 mm", "0 mm"], "to": ["0 mm", "100 mm"]}),
        scar(id="s3", **{"from": ["30 mm", "30 mm"], "to": ["30 mm", "30 mm"], "width": "20 mm"}),
    ],
    "existing_tattoos": [old("o1", 50, 50, 70, 30), old("a-faded-anchor-with-a-long-name", 0, 0, 20, 20)],
}
STAR = [[f"{x} mm", f"{y} mm"] for x, y in ((50, 40), (55, 55), (70, 60), (55, 65), (50, 80), (45, 65), (30, 60))]
AT_FOOT = ["95 mm", "100 mm"]
PIECES: dict[str, Written] = {
    "53 parts": many(53, 8, "200 mm x 200 mm", (24, 27), (20, 20)),
    "53 parts in a band": many(53, 27, "300 mm x 60 mm", (11, 28), (9, 20)),
    "one part": simple(),
    "one part that is the piece": simple(parts=[part("lamp", (0, 0, 100, 100), focal="yes")]),
    "tiny parts in one row": many(8, 8, "100 mm x 100 mm", (12, 0), (2, 1)),
    "tiny piece in a large ring": many(2, 2, "10 mm x 10 mm", (4, 0), (3, 3), moles=[mole(8, 8, 15)]),
    "band": many(8, 8, "300 mm x 40 mm", (36, 0), (30, 30), moles=[mole(150, 20, 8), mole(20, 39, 8)]),
    "ribbon": many(3, 3, "400 mm x 10 mm", (100, 0), (90, 6)),
    "upright ribbon": many(8, 1, "12 mm x 300 mm", (0, 36), (8, 30), moles=[mole(6, 40, 8)]),
    "all marks": simple(**MARKED),
    "all marks in a grid": {**many(16, 4, "100 mm x 100 mm", (24, 24), (20, 20)), **MARKED},
    "parts in parts": simple(
        parts=[
            part(f"p{at}", (5 + 8 * at, 5 + 8 * at, 90 - 16 * at, 90 - 16 * at), focal="no" if at else "yes")
            for at in range(5)
        ]
    ),
    "round and pointed parts": simple(
        parts=[
            {**shapeless("lamp", focal="yes"), "ellipse": ["5 mm", "5 mm", "60 mm", "40 mm"]},
            {**shapeless("star", role="secondary"), "outline": STAR},
            {**shapeless("cord", role="secondary"), "outline": [["90 mm", "0 mm"], ["100 mm", "0 mm"], AT_FOOT]},
        ],
        **MARKED,
    ),
    "two sittings": {**many(9, 3, "300 mm x 300 mm", (95, 95), (90, 90)), "sitting": "2", "last_worked": "2027-01-11"},
}


def marks_of(job: Job) -> dict[str, Any]:
    """Everything that no label may stand over, in mm of skin: edges of parts and old work, whole scars and rings."""
    found = {f"part {part.id}": _edge(shape_of(part)) for part in job.parts}
    piece = shapely.box(0, 0, job.size[0].low, job.size[1].low)
    found |= {f"old {old.id}": _edge(shape_of(old)).intersection(piece) for old in job.existing_tattoos or ()}
    for scar_ in job.scars or ():
        ends = [(end[0].low, end[1].low) for end in (scar_.from_, scar_.to)]
        line = shapely.Point(ends[0]) if ends[0] == ends[1] else shapely.LineString(ends)
        found[f"scar {scar_.id}"] = line.buffer(scar_.width.high / 2)
    for at, mole_ in enumerate(job.moles or (), 1):
        keep = (mole_.keep or CLEARANCE).low
        found[f"mole {at}"] = shapely.Point(mole_.at[0].low, mole_.at[1].low).buffer(keep)
    return {"the piece": piece.boundary, **found}


def _edge(shape: shapes.Shape) -> Any:
    if isinstance(shape, shapes.Outline):
        return shapely.Polygon(shape.points).boundary
    box = shapely.box(shape.x, shape.y, shape.x + shape.width, shape.y + shape.height)
    if isinstance(shape, shapes.Box):
        return box.boundary
    middle = box.centroid
    circle = affinity.scale(middle.buffer(1, quad_segs=48), shape.width / 2, shape.height / 2)
    return circle.boundary


def labels_of(svg: str) -> list[tuple[str, Any]]:
    """Every word of a map with the box that it takes, and every tag round a word."""
    found = []
    for x, y, size, more, words in re.findall(
        r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)"([^>]*)>([^<]+)', svg
    ):
        wide = width_of(words, 1, bold=True) / POINT * float(size)
        left = float(x) - (wide / 2 if "middle" in more else 0)
        box = shapely.box(left, float(y) - 0.75 * float(size), left + wide, float(y))
        found.append((words, box))
    return found


def tags_of(svg: str) -> list[Any]:
    boxes = re.findall(r'class="tag" x="([-\d.]+)" y="([-\d.]+)" width="([\d.]+)" height="([\d.]+)"', svg)
    return [shapely.box(x, y, x + w, y + h) for x, y, w, h in (map(float, box) for box in boxes)]


def leaders_of(svg: str) -> list[Any]:
    ways = re.findall(r'class="leader" d="M([^"]+)"', svg)
    return [shapely.LineString([tuple(map(float, spot.split())) for spot in way.split("L")]) for way in ways]


def look_at(job: Job, drawn: DrawnMap, room: Room) -> None:
    """Everything that holds for every map."""
    svg = str(drawn.svg)
    labels, tags, leaders = labels_of(svg), tags_of(svg), leaders_of(svg)
    named = len(job.parts) + sum(len(kind or ()) for kind in (job.scars, job.moles, job.existing_tattoos))
    assert len(tags) == len(leaders) == named and len(labels) == named + 2
    left, top, wide, tall = map(float, re.search(r'viewBox="(\S+) (\S+) (\S+) (\S+)"', svg).groups())  # type: ignore[union-attr]
    view, marks = shapely.box(left, top, left + wide, top + tall), marks_of(job)
    piece = shapely.box(0, 0, job.size[0].low, job.size[1].low)
    names = [words for words, _ in labels]
    boxes = [*zip(names, tags, strict=False), *labels[-2:]]
    for words, box in boxes:
        # Whole on the paper, and over nothing that is drawn.
        assert view.buffer(ROUNDED).contains(box), words
        for name, mark in marks.items():
            assert not box.buffer(-ROUNDED).intersects(mark), (words, name)
    for (one, first), (other, second) in itertools.combinations(boxes, 2):
        assert not first.buffer(-ROUNDED).intersects(second.buffer(-ROUNDED)), (one, other)
    for words, text, tag in zip(names, (box for _, box in labels), tags, strict=False):
        assert tag.buffer(ROUNDED).contains(text), words
    # A leader begins at the edge of what it names, in the order of the tags, and ends at its tag.
    ends = [mark for name, mark in marks.items() if name.startswith("part")]
    ends += [_edge(shape_of(old)).convex_hull.intersection(piece).boundary for old in job.existing_tattoos or ()]
    ends += [mark.boundary for name, mark in marks.items() if name.startswith(("scar", "mole"))]
    size = float(re.search(r'font-size="([\d.]+)"', svg)[1])  # type: ignore[index]
    for words, leader, tag, edge in zip(names, leaders, tags, ends, strict=False):
        begin, end = shapely.Point(leader.coords[0]), shapely.Point(leader.coords[-1])
        # A scar is drawn wider than it is, with its edge; old work ends where the piece does.
        assert edge.distance(begin) <= size / 5 + ROUNDED, words
        assert tag.boundary.distance(end) <= ROUNDED, words
        for other, box in zip(names, tags, strict=False):
            assert other == words or not leader.intersects(box.buffer(-ROUNDED)), (words, other)
    # Ten points at the width for which it is drawn, and never wider than its room.
    assert size * drawn.width / wide >= 10 * POINT - 0.01
    assert drawn.width <= room.widest + 0.1


def rooms(job: Job) -> tuple[Room, ...]:
    width, height = (side.low for side in job.size)
    return ON_SHEET_FLAT if is_flat(width, height) else ON_SHEET, ON_PAGE, ON_PHONE


@pytest.mark.parametrize("job", JOBS)
def test_no_label_of_a_demo_job_hides_anything(job: str) -> None:
    plan = demo(job)
    for room in rooms(plan.job):
        drawn = drawn_map(plan, CLEARANCE, first_lined(plan.work), room)
        look_at(plan.job, drawn, room)
        # On these pieces leaders do not cross each other, and cross no ring and no scar on their way.
        leaders = leaders_of(str(drawn.svg))
        assert not any(one.crosses(other) for one, other in itertools.combinations(leaders, 2))
        size = float(re.search(r'font-size="([\d.]+)"', drawn.svg)[1])  # type: ignore[index]
        hands_off = {name: mark for name, mark in marks_of(plan.job).items() if name.startswith(("scar", "mole"))}
        for name, mark in hands_off.items():
            assert sum(leader.distance(mark) <= size / 4 for leader in leaders) == 1, name


@pytest.mark.parametrize("piece", PIECES)
def test_no_label_of_a_piece_unlike_others_hides_anything(piece: str) -> None:
    plan = planned(PIECES[piece])
    start = str(plan.job.parts[-1].id)
    for room in rooms(plan.job):
        drawn = drawn_map(plan, CLEARANCE, start, room)
        look_at(plan.job, drawn, room)
        assert f">▶{part_letters(plan.job)[start]}</text>" in drawn.svg


@settings(max_examples=settings.default.max_examples * 3 // 10, suppress_health_check=[HealthCheck.too_slow])
@given(jobs())
def test_no_label_of_a_random_job_hides_anything(job: Written) -> None:
    plan, _ = try_plan(job)
    if plan is not None:
        for room in rooms(plan.job):
            look_at(plan.job, drawn_map(plan, CLEARANCE, first_lined(plan.work), room), room)


@pytest.mark.parametrize("job", [*JOBS, *PIECES])
def test_the_piece_is_drawn_as_large_as_its_room(job: str) -> None:
    """A ring that reaches far over the edge of a tiny piece may take some of it; the ring is drawn whole then."""
    plan = demo(job) if job in JOBS else planned(PIECES[job])
    width, height = plan.job.size[0].low, plan.job.size[1].low
    for room in rooms(plan.job)[:2]:
        drawn = drawn_map(plan, CLEARANCE, None, room)
        wide = float(re.search(r'viewBox="\S+ \S+ (\S+) ', drawn.svg)[1])  # type: ignore[index]
        across, down = ROOM_OF_OLD["flat" if room is ON_SHEET_FLAT else room.name]
        assert drawn.width / wide >= min(across / width, down / height) - 0.01 or job == "tiny piece in a large ring"


def test_a_leader_that_is_not_looked_at_would_not_have_been_chosen(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of the ways of a leader few are measured against what is in their way; the choice is that among all of them."""
    chosen, all_ways, measured = map_labels._cheapest, 0, 0

    def among_all(ways: list[Any], at: int, rest: dict[int, Any], *room: Any) -> Any:
        nonlocal all_ways, measured
        one = chosen(ways, at, rest, *room)
        all_ways, measured = all_ways + len(ways), measured + sum("cost" in vars(way) for way in ways)
        costs = [way.cost + map_labels._beside(way, at, rest, *room) for way in ways]
        assert one is ways[costs.index(min(costs))]
        return one

    monkeypatch.setattr(map_labels, "_cheapest", among_all)
    for plan in (planned(PIECES["all marks"]), planned(PIECES["tiny piece in a large ring"]), demo("tide-table")):
        drawn_map(plan, CLEARANCE, None, ON_PAGE)
    assert 0 < measured < all_ways


def test_a_map_that_is_only_measured_is_not_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(map_labels, "element", None)
    monkeypatch.setattr(piece_map, "element", None)
    drawn = drawn_map(demo("tide-table"), CLEARANCE, None)
    assert drawn.width > 0 and drawn.height > 0
    with pytest.raises(TypeError):
        str(drawn.svg)


def test_every_part_has_a_letter_of_its_own() -> None:
    letters = list(part_letters(planned(PIECES["53 parts"]).job).values())
    assert len(set(letters)) == 53 and letters[25:28] == ["Z", "AA", "AB"] and letters[51:] == ["AZ", "BA"]


def test_a_long_name_of_existing_tattoos_has_a_short_one_on_the_map_that_the_words_explain() -> None:
    plan = planned(PIECES["all marks"])
    names = [words for words, _ in labels_of(drawn_map(plan, CLEARANCE, None).svg)]
    assert "o1" in names and "o2" in names
    said = {pair.label for pair in sheet_of(RECORDS, plan).hands_off}
    assert {"Existing tattoo o1", "Existing tattoo o2 a-faded-anchor-with-a-long-name"} <= said


def test_a_mole_does_not_hide_its_ring() -> None:
    for job in JOBS:
        svg = drawn_map(demo(job), CLEARANCE, None).svg
        rings, spots = (re.findall(rf'class="{kind}" [^>]*r="([\d.]+)"', svg) for kind in ("keep", "mole"))
        assert all(float(spot) <= 0.5 * float(ring) for ring, spot in zip(rings, spots, strict=True))


def test_every_letter_of_a_map_is_named_on_its_sheet() -> None:
    for job in JOBS:
        plan = demo(job)
        sheet = sheet_of(RECORDS, plan)
        said = " ".join(pair.value for pair in sheet.hands_off) + " ".join(row.part for row in sheet.rows)
        for part_id, letter in part_letters(plan.job).items():
            assert f"{letter} {part_id}" in said, (job, part_id)


# The one map that is seen, and the height of its letters in points as the browser draws them (1 px = 0.75 pt).
_SEEN = """() => [...document.querySelectorAll('svg.map')].filter(map => map.getBoundingClientRect().width > 0).map(
    map => [...map.querySelectorAll('text')].map(
        text => parseFloat(text.getAttribute('font-size')) * map.getScreenCTM().a * 0.75))"""


@pytest.mark.parametrize(
    "job",
    ["gear-band", "keepers-lantern", "53 parts", pytest.param("53 parts in a band", marks=pytest.mark.nightly)],
)
def test_letters_have_ten_points_on_every_map_in_a_browser(page: Any, job: str) -> None:
    plan = demo(job) if job in JOBS else planned(PIECES[job])
    both = RECORDS.studio.model_copy(update={"paper": "Letter"})
    for records in (RECORDS, dataclasses.replace(RECORDS, studio=both)):
        sheet = sheet_of(records, plan, both_units=records is not RECORDS)
        for html in (sheet_html(sheet, AS_OF), job_html(records, plan, sheet, AS_OF)):
            page.set_content(html)
            for width, medium in ((360, "screen"), (1280, "screen"), (730, "print"), (752, "print")):
                page.set_viewport_size({"width": width, "height": 900})
                page.emulate_media(media=medium)
                (letters,) = page.evaluate(_SEEN)
                assert min(letters) >= 9.95, (width, medium)
                assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
