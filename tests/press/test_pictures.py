"""Map, day, inks, punctures and arcs: drawn from the plan's own numbers, and said in words as well."""

from __future__ import annotations

import datetime
import math
import re
from itertools import pairwise
from typing import Any

import pytest

from generator.press.job_map import ON_PAGE, ON_SHEET, job_map, outlined
from generator.press.map_told import in_words
from generator.press.pictures import Picture, pictures_of
from generator.press.printing import job_html, sheet_html
from generator.press.sheet import sheet_of
from generator.trade import body, shapes
from tests.planning.demo import JOBS, RECORDS, Written, changed, demo, part, planned, simple, written

AS_OF = datetime.date(2027, 5, 1)
CLEARANCE = RECORDS.studio.limits.mole_clearance


def pictures(job: Written) -> dict[str, Picture]:
    return {picture.anchor: picture for picture in pictures_of(RECORDS, planned(job))}


def band_job(top: int = 290, bottom: int = 330) -> Written:
    return simple(
        place="upper-arm-outer", side="left", size="240 mm x 60 mm",
        girth={"top": f"{top} mm", "bottom": f"{bottom} mm"},
        parts=[part("ring", (0, 20, 240, 20), focal="yes")],
    )  # fmt: skip


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("room", [ON_SHEET, ON_PAGE])
def test_the_letters_of_a_map_are_at_least_ten_points(job: str, room: Any) -> None:
    svg = job_map(demo(job), CLEARANCE, None, room)
    view = re.search(r'viewBox="\S+ \S+ (\S+) (\S+)"', svg)
    assert view is not None
    width, height = (float(side) for side in view.groups())
    scale = min(room.width / width, room.height / height)
    sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)"', svg)]
    assert min(sizes) * scale >= 10 * 25.4 / 72 - 0.01


def test_the_map_shows_focal_point_centre_line_scars_and_what_is_seen() -> None:
    svg = job_map(demo("keepers-lantern"), CLEARANCE, "rocks")
    for kind in ("focus", "centre", "scar", "over", "keep", "mole", "up", "bar"):
        assert f'class="{kind}"' in svg, kind
    assert "▶C" in svg
    ring = planned(band_job())
    wide = re.findall(r'class="seen" d="M([\d.]+) 0', job_map(ring, CLEARANCE, None))
    seen = body.share_seen(240, 290)
    assert [float(x) for x in wide] == pytest.approx([120 * (1 - seen), 120 * (1 + seen)], abs=0.01)
    assert "Seen at once" in in_words(ring, CLEARANCE, None)


def test_the_two_maps_share_no_id() -> None:
    plan = demo("keepers-lantern")
    small, large = (set(re.findall(r'\bid="([^"]+)"', job_map(plan, CLEARANCE, None, r))) for r in (ON_SHEET, ON_PAGE))
    assert small and large and not small & large


def test_every_shape_is_drawn_as_what_it_is() -> None:
    assert outlined(shapes.Box(1, 2, 3, 4)) == '<rect x="1" y="2" width="3" height="4"/>'
    assert outlined(shapes.Ellipse(1, 2, 4, 6)) == '<ellipse cx="3" cy="5" rx="2" ry="3"/>'
    assert outlined(shapes.Outline(((0, 0), (2, 0), (1, 3)))) == '<polygon points="0,0 2,0 1,3"/>'


def test_punctures_stand_at_the_computed_spacing() -> None:
    plan = demo("tide-table")
    assert plan.work is not None
    for picture in (p for p in pictures_of(RECORDS, plan) if p.anchor.startswith("punctures-")):
        spacing = plan.work.steps[int(picture.anchor.removeprefix("punctures-")) - 1].setting.spacing
        rows: dict[str, list[float]] = {}
        for x, y in re.findall(r'cx="([\d.]+)" cy="([\d.]+)"', picture.drawn):
            rows.setdefault(y, []).append(float(x))
        apart = [[b - a for a, b in pairwise(row)] for row in rows.values()]
        assert [sum(row) / len(row) for row in apart] == pytest.approx([spacing.low, spacing.high], abs=0.005)
        assert all(0 <= 0.2 + 5 - row[-1] < spacing.high + 0.01 for row in rows.values())


def test_the_day_is_drawn_to_scale() -> None:
    plan = demo("tide-table")
    assert plan.work is not None
    table = plan.work.timetable
    parts = [table.set_up, table.stencil, table.dry, table.working, table.breaks, table.wrap]
    middles = [(part.low + part.high) / 2 for part in parts]
    widths = [float(w) for w in re.findall(r'width="([\d.]+)" height', pictures(written("tide-table"))["day"].drawn)]
    assert widths == pytest.approx([600 * middle / sum(middles) for middle in middles], abs=0.1)


def test_inks_are_named_in_order_of_work() -> None:
    plan = demo("keepers-lantern")
    assert plan.work is not None
    named = [re.search("<b>(.*)</b>", line)[1] for line in pictures(written("keepers-lantern"))["inks"].said]  # type: ignore[index]
    assert named == list(dict.fromkeys(step.ink.name for step in plan.work.steps))


@pytest.mark.parametrize(("top", "bottom"), [(290, 330), (330, 290)])
def test_a_band_is_drawn_on_its_arc_at_true_size(top: int, bottom: int) -> None:
    drawn = pictures(band_job(top, bottom))["band-ring"].drawn
    arc = body.band(240, 30, top, bottom, 60)
    assert arc.radius is not None
    found = re.search(r'class="middle" d="M(\S+) (\S+)A(\S+) \S+ 0 0 (\d) (\S+) (\S+)"', drawn)
    assert found is not None
    x1, y1, radius, sweep, x2, y2 = (float(number) for number in found.groups())
    assert radius == pytest.approx(arc.radius, abs=0.01)
    # The arc between its drawn ends is as long as the band; it bends towards the thin end.
    assert radius * 2 * math.asin((x2 - x1) / 2 / radius) == pytest.approx(240, abs=0.1)
    assert y1 == y2
    assert sweep == (1 if top > bottom else 0)
    # One unit of the drawing is one millimetre of paper, and so is the check bar.
    size = re.search(r'width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 (\S+) (\S+)"', drawn)
    assert size is not None and size.groups()[:2] == size.groups()[2:]
    assert "v3h100v-3" in drawn


def test_no_arc_where_the_limb_does_not_taper_or_the_part_is_no_band() -> None:
    assert "band-ring" not in pictures(band_job(300, 300))
    narrow = changed(band_job(), "parts", 0, "box", to=["10 mm", "20 mm", "200 mm", "20 mm"])
    assert "band-ring" not in pictures(narrow)


def test_a_job_that_may_not_go_ahead_has_its_map_and_no_working_pictures() -> None:
    plan = demo("stairwell")
    page = job_html(RECORDS, plan, sheet_of(RECORDS, plan), AS_OF)
    assert 'class="map"' in page
    assert "punctures" not in page and pictures_of(RECORDS, plan) == ()


def test_pictures_stand_on_the_sheet_only_when_asked_for() -> None:
    plan = demo("tide-table")
    sheet = sheet_of(RECORDS, plan)
    assert "punctures-1" not in sheet_html(sheet, AS_OF)
    assert "punctures-1" in sheet_html(sheet, AS_OF, None, pictures_of(RECORDS, plan))
