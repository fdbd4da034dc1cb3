"""Map, day, inks, punctures and arcs: drawn from the plan's own numbers, and said in words as well."""

from __future__ import annotations

import datetime
import math
import re
from itertools import pairwise
from typing import Any

import pytest

from generator.planning.timing.day import SKIN, WORK, days_of
from generator.planning.working.steps import LINES
from generator.press.drawings.map import ON_PAGE, ON_SHEET, drawn_map, outlined
from generator.press.drawings.map_words import in_words
from generator.press.drawings.pictures import pictures_of
from generator.press.drawings.svg import Picture
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import job_html, sheet_html
from generator.press.words.estimates import clock_rounded
from generator.trade import body, labels, shapes
from generator.units import SYSTEMS
from tests.planning.demo import JOBS, RECORDS, Written, demo, part, planned, simple, written

AS_OF = datetime.date(2027, 5, 1)
CLEARANCE = RECORDS.studio.limits.mole_clearance


def pictures(job: Written) -> dict[str, Picture]:
    return {picture.anchor: picture for picture in pictures_of(RECORDS, planned(job))}


def band_job(top: int = 290, bottom: int = 330, **changes: Any) -> Written:
    """A ring of 240 mm, 20 mm high, in the middle of 60 mm between the tapes."""
    return simple(
        **{
            "place": "upper-arm-outer",
            "side": "left",
            "size": "240 mm x 60 mm",
            "girth": {"top": f"{top} mm", "bottom": f"{bottom} mm"},
            "parts": [part("ring", (0, 20, 240, 20), focal="yes", band="yes")],
            **changes,
        }
    )


def test_the_map_shows_focal_point_centre_line_scars_and_what_is_seen() -> None:
    svg = drawn_map(demo("keepers-lantern"), CLEARANCE, "rocks").svg
    for kind in ("focus", "centre", "scar", "over", "keep", "mole", "up", "bar"):
        assert f'class="{kind}"' in svg, kind
    assert "▶C" in svg
    ring = planned(band_job())
    wide = re.findall(r'class="seen" d="M([\d.]+) 0', drawn_map(ring, CLEARANCE, None).svg)
    seen = body.share_seen(240, 290)
    assert [float(x) for x in wide] == pytest.approx([120 * (1 - seen), 120 * (1 + seen)], abs=0.01)
    assert "Seen at once" in in_words(ring, CLEARANCE, None, SYSTEMS["metric"])


def test_the_two_maps_share_no_id() -> None:
    plan = demo("keepers-lantern")
    small, large = (
        set(re.findall(r'\bid="([^"]+)"', drawn_map(plan, CLEARANCE, None, r).svg)) for r in (ON_SHEET, ON_PAGE)
    )
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


def test_every_line_is_in_one_picture_of_punctures() -> None:
    for job in JOBS:
        work = demo(job).work
        if work is not None:
            lines = [p.said for p in pictures_of(RECORDS, demo(job)) if p.anchor.startswith("punctures-")]
            said = " ".join(str(line) for of in lines for line in of)
            named = sorted(int(number) for number in re.findall(r"[Ss]tep (\d+),", said))
            assert named == [n for n, step in enumerate(work.steps, 1) if step.section == LINES]


def drawn_minutes(picture: Picture) -> list[float]:
    """The widths of a bar's stretches in minutes, by the hours that stand under it."""
    hours = [float(x) for x in re.findall(r'class="hour" d="M([\d.]+) ', picture.drawn)]
    an_hour = (hours[-1] - hours[0]) / (len(hours) - 1)
    return [float(width) / an_hour * 60 for width in re.findall(r'<rect [^>]*width="([\d.]+)"', picture.drawn)]


@pytest.mark.parametrize("job", ["tide-table", "clock-tower", "gear-band"])
def test_each_sitting_is_drawn_to_scale_by_the_clock(job: str) -> None:
    plan = demo(job)
    assert plan.work is not None
    days = days_of(RECORDS, plan.job, plan.work.steps, plan.work.sittings)
    bars = [p for p in pictures_of(RECORDS, plan) if p.anchor.startswith("day-")]
    assert len(bars) == len(days) == len(plan.work.sittings)
    for day, bar in zip(days, bars, strict=True):
        assert drawn_minutes(bar) == pytest.approx([stretch.minutes for stretch in day.stretches], abs=0.2)
        assert len(bar.said) == len(day.stretches)
        for stretch, line in zip(day.stretches, bar.said, strict=True):
            initial = {"stencil": "T", "clean and wrap": "W", SKIN: "C"}.get(stretch.kind, stretch.kind[0].upper())
            assert str(line).startswith(f"{stretch.step if stretch.kind == WORK else initial} ")
            assert f" {clock_rounded(stretch.begins):%H:%M}" in line


def test_what_is_said_of_a_day_adds_up_with_its_rests() -> None:
    lamp = part("lamp", (0, 0, 80, 80), focal="yes", colours=[{"ink": "black-line", "area": "30 cm²"}])
    (said,) = (p.note for p in pictures(simple(parts=[lamp])).values() if p.anchor == "day-1")
    *added, whole = ([int(each) for each in re.findall(r"\d+", told)] for told in said.split(","))
    assert "rests besides" in said and "breaks" in said
    for end in (0, -1):
        assert sum(told[end] for told in added) == whole[end]


def test_the_sitting_at_hand_is_named_and_the_others_have_their_days() -> None:
    titles = [p.title for p in pictures(written("clock-tower")).values() if p.anchor.startswith("day-")]
    assert titles == [
        "Sitting 1 of 4 by the clock, over",
        "Sitting 2 of 4 by the clock, this one: 2027-05-18",
        "Sitting 3 of 4 by the clock, 2027-06-15 at the earliest",
        "Sitting 4 of 4 by the clock, 2027-07-13 at the earliest",
    ]


def test_groupings_are_drawn_in_order_of_work_at_one_scale() -> None:
    plan = demo("tide-table")
    assert plan.work is not None
    drawn = pictures(written("tide-table"))["needles"].drawn
    used = list(dict.fromkeys(RECORDS.groupings[step.setting.grouping.id].label for step in plan.work.steps))
    assert re.findall(r"<figcaption>(\w+),", drawn) == used
    scales = {
        round(float(width) / float(view), 1)
        for view, width in re.findall(r'viewBox="\S+ \S+ (\S+) \S+" width="(\S+)"', drawn)
    }
    assert len(scales) == 1
    needles = [figure.count("<circle") for figure in drawn.split("<figure>")[1:]]
    assert needles == [labels.read_label(label).count for label in used]


def test_inks_are_named_in_order_of_work() -> None:
    plan = demo("keepers-lantern")
    assert plan.work is not None
    named = [re.search("<b>(.*)</b>", line)[1] for line in pictures(written("keepers-lantern"))["inks"].said]  # type: ignore[index]
    assert named == list(dict.fromkeys(step.ink.name for step in plan.work.steps))


@pytest.mark.parametrize(("top", "bottom"), [(290, 330), (330, 290)])
def test_a_band_is_drawn_on_its_arc_at_true_size(top: int, bottom: int) -> None:
    drawn = pictures(band_job(top, bottom))["bands"].drawn
    arc = body.band(240, 30, top, bottom, 60)
    assert arc.radius is not None
    found = re.findall(r'class="middle" d="M(\S+) (\S+)A(\S+) \S+ 0 0 (\d) (\S+) (\S+)"', drawn)
    assert len(found) == 2  # 240 mm do not fit on one strip
    x1, y1, radius, sweep, x2, y2 = (float(number) for number in found[0])
    assert radius == pytest.approx(arc.radius, abs=0.01)
    # The arc between its drawn ends is as long as the band; it bends towards the thin end.
    assert radius * 2 * math.asin((x2 - x1) / 2 / radius) == pytest.approx(240, abs=0.1)
    assert y1 == y2
    assert sweep == (1 if top > bottom else 0)


def test_one_unit_of_a_template_is_one_millimetre_of_paper() -> None:
    drawn = pictures(band_job())["bands"].drawn
    sizes = re.findall(r'width="([\d.]+)mm" height="([\d.]+)mm" viewBox="\S+ 0 (\S+) (\S+)"', drawn)
    assert len(sizes) == drawn.count("v2h100v-2") == drawn.count("v2h101.6v-2") == 2
    assert drawn.count("100 mm, below it 4 in") == 2
    assert all((width, height) == (wide, high) for width, height, wide, high in sizes)


def test_strips_lie_on_one_another_where_their_crosses_are() -> None:
    overlap = RECORDS.studio.limits.strip_overlap.low
    first, second = pictures(band_job())["bands"].drawn.split("<svg")[1:]
    (left, wide), (next_left, _) = (
        map(float, re.search(r'viewBox="(\S+) 0 (\S+) ', strip).groups())  # type: ignore[union-attr]
        for strip in (first, second)
    )
    assert left + wide - next_left == pytest.approx(overlap)
    crosses = [re.findall(r'class="cross" d="M(\S+) (\S+)h', strip) for strip in (first, second)]
    assert crosses[0] == crosses[1] and len(crosses[0]) == 2
    laps = [float(re.search(r'class="lap" d="M(\S+) ', strip)[1]) for strip in (first, second)]  # type: ignore[index]
    assert laps == pytest.approx([next_left, left + wide])
    # All of the band is on one strip or the other.
    ends = [float(x) for x in re.findall(r'class="edge" d="M(\S+) \S+A', first)]
    assert left <= min(ends) and all(-x <= next_left + wide for x in ends)


def test_a_band_that_fits_the_paper_has_one_strip_and_no_seam() -> None:
    narrow = band_job(parts=[part("ring", (30, 20, 160, 20), focal="yes", band="yes")])
    drawn = pictures(narrow)["bands"].drawn
    assert drawn.count("<svg") == 1 and "lap" not in drawn and "cut" not in drawn


def test_the_template_follows_the_band_and_no_other_part_that_spans_the_piece() -> None:
    ring = part("ring", (20, 40, 100, 10), focal="yes", band="yes")
    ground = part("ground", (0, 0, 240, 60), role="filler")
    drawn = pictures(band_job(parts=[ring, ground]))["bands"].drawn
    radii = [float(radius) for radius in re.findall(r'class="\w+" d="M\S+ \S+A(\S+) ', drawn)]
    assert radii == pytest.approx([body.band(100, y, 290, 330, 60).radius or 0 for y in (40, 45, 50)], abs=0.01)
    assert "bands" not in pictures(band_job(parts=[{**ring, "band": "no"}, ground]))


def test_a_band_beside_the_middle_of_the_piece_is_drawn_there() -> None:
    drawn = pictures(band_job(parts=[part("ring", (130, 20, 100, 20), focal="yes", band="yes")]))["bands"].drawn
    (ends,) = re.findall(r'class="middle" d="M(\S+) \S+A\S+ \S+ \S+ \S+ \S+ (\S+) ', drawn)
    radius = body.band(100, 30, 290, 330, 60).radius
    assert radius is not None
    assert [float(x) for x in ends] == pytest.approx([radius * math.sin(at / radius) for at in (10, 110)], abs=0.01)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"girth": {"top": "300 mm", "bottom": "300 mm"}}, "as thick above as below"),
        ({"place": "upper-back", "side": "middle", "girth": None}, "no girth is on file"),
        # The lower tape is narrower than the piece that the upper one was checked for.
        (
            {
                "girth": {"top": "700 mm", "bottom": "245 mm"},
                "size": "240 mm x 260 mm",
                "parts": [part("ring", (0, 20, 240, 200), focal="yes", band="yes")],
            },
            "the paper is too short",
        ),
    ],
)
def test_where_no_template_can_be_drawn_the_words_say_why(changes: Written, says: str) -> None:
    found = pictures(band_job(**changes))["bands"]
    assert found.drawn == "" and says in " ".join(found.said)


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
