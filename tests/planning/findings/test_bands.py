"""Bands that run all round: the opening at each level, the angle of their ends, what closes it, and their paper."""

from __future__ import annotations

import math
from typing import Any

import pytest

from generator.planning.as_json import plan_as_data
from generator.planning.plan import JobPlan
from generator.planning.working.bands import ClosedBand, template_of
from generator.press.drawings.pictures import pictures_of
from generator.press.sheet.contents import sheet_of
from generator.quantities import written as quantity
from tests.planning.demo import RECORDS, Written, demo, job_of, part, planned, read, simple, with_limits


def ring(**changes: Any) -> Written:
    return {**part("ring", (0, 0, 280, 40), focal="yes", band="yes"), **changes}


def banded(*parts: Written, top: int = 320, bottom: int = 300, **changes: Any) -> Written:
    """A band of 280 mm round an arm of 320 mm above and 300 mm below, 40 mm apart."""
    girth = {"top": f"{top} mm", "bottom": f"{bottom} mm"}
    made = {"size": "280 mm x 40 mm", "place": "upper-arm-outer", "side": "left", "girth": girth}
    return simple(**{**made, "parts": list(parts), **changes})


def only(made: JobPlan) -> ClosedBand:
    (band,) = made.bands
    return band


def openings(band: ClosedBand) -> list[float]:
    return [level.opening.low for level in band.levels]


def asked(made: JobPlan) -> list[str]:
    return [f.about for f in made.findings if f.about.endswith("closed_by")]


def test_the_opening_at_each_level_and_the_angle_of_the_ends() -> None:
    # Geometry: between the tapes the girth is 320, 310, 300 mm; the ends lean by 10 mm in 40 mm each.
    band = only(planned(banded(ring(closed_by="drawn on the skin"))))
    assert openings(band) == [40, 30, 20] and [level.name for level in band.levels] == [
        "upper edge",
        "middle",
        "lower edge",
    ]
    assert band.angle.low == pytest.approx(2 * math.degrees(math.atan(10 / 40))) and band.wider == "above"
    turned = only(planned(banded(ring(closed_by="drawn on the skin"), top=300, bottom=320)))
    assert openings(turned) == [20, 30, 40] and turned.wider == "below"
    even = only(planned(banded(ring(closed_by="drawn on the skin"), bottom=320)))
    assert openings(even) == [40, 40, 40] and (even.angle.low, even.wider) == (0, None)


def test_a_band_between_the_tapes_is_measured_where_it_lies() -> None:
    low = part("ring", (0, 20, 280, 10), focal="yes", band="yes", closed_by="left open")
    assert openings(only(planned(banded(low)))) == [30, 27.5, 25]


def test_of_the_demo_it_is_said_on_sheet_and_picture() -> None:
    plan = demo("gear-band")
    # 326 mm above and 304 mm below, 64 mm apart: 326 − 300, and 304 − 300.
    upper, gears, lower = plan.bands
    assert openings(upper)[0] == 26 and openings(lower)[-1] == pytest.approx(4)
    assert openings(gears) == pytest.approx([326 - 22 * y / 64 - 300 for y in (10, 32, 54)])
    sheet = sheet_of(RECORDS, plan)
    (band,) = (pair.value for pair in sheet.hands_off if pair.label == "Band")
    assert band.replace("\u00a0", " ") == "4–26 mm open, wider above, ends at 20°; drawn on the skin"
    (said,) = (" ".join(p.said) for p in pictures_of(RECORDS, plan) if p.anchor == "bands")
    assert "Opening of gears: 23 mm at its upper edge, 15 mm at its middle, 7.4 mm at its lower edge." in said.replace(
        "\u00a0", " "
    )
    assert "Its ends open by 20°, wider above. Close it: drawn on the skin." in said
    data = plan_as_data(plan)["bands"][1]
    assert data["levels"][1]["opening"]["value"] == 15 and data["closed_by"] == "drawn on the skin"


@pytest.mark.parametrize(
    ("changes", "open_"),
    [
        ({}, True),
        ({"closed_by": "unknown"}, True),
        ({"closed_by": "left open"}, False),
        ({"closed_by": "drawn on the skin"}, False),
        ({"closed_by": "its own ends"}, False),
        # 254 of 300 mm are less than 85 %: it is no closed band, and nobody has to say so.
        ({"box": ["0 mm", "0 mm", "254 mm", "40 mm"]}, False),
        ({"box": ["0 mm", "0 mm", "255 mm", "40 mm"]}, True),
    ],
)
def test_what_closes_a_band_that_runs_all_round_is_asked(changes: Written, open_: bool) -> None:
    made = planned(banded(ring(**changes)))
    assert asked(made) == (["parts.ring.closed_by"] if open_ else [])
    assert (made.verdict.level, made.verdict.settled) == (("care", False) if open_ else ("clear", True))


def test_from_which_share_a_band_runs_all_round_is_the_studios_own() -> None:
    records = with_limits(closed_band=quantity("95 %"))
    assert asked(planned(banded(ring()), records)) == [] and planned(banded(ring()), records).bands == ()


@pytest.mark.parametrize(("wide", "said"), [(39, True), (40, False), (60, False)])
def test_a_part_that_closes_a_band_is_as_wide_as_the_opening(wide: int, said: bool) -> None:
    clasp = part("clasp", (280 - wide, 0, wide, 40), role="filler")
    made = planned(banded(ring(closed_by="clasp"), clasp))
    found = [f.reason.replace("\u00a0", " ") for f in made.findings if f.about.endswith("closed_by")]
    assert found == (["clasp is 39 mm wide, and the opening of band ring 40 mm."] if said else [])


@pytest.mark.parametrize(
    ("changes", "code", "help_"),
    [
        ({"closed_by": "buckel"}, "R329", "`buckle`"),
        ({"closed_by": "ring"}, "R329", "buckle"),
        ({"closed_by": "drawn on skin"}, "R307", "`drawn on the skin`"),
        ({"closed_by": "buckle", "band": "no"}, "R317", "band: yes"),
    ],
)
def test_what_cannot_close_a_band_is_a_mistake(changes: Written, code: str, help_: str) -> None:
    buckle = part("buckle", (0, 0, 60, 40), role="filler")
    job, report = read(banded(ring(**changes), buckle))
    assert job is None and [d.code for d in report] == [code] and help_ in report[0].help


def test_a_band_closed_by_its_own_ends_is_as_long_as_the_limb_is_round() -> None:
    job = banded(ring(closed_by="its own ends"))
    band = only(planned(job))
    assert openings(band) == [0, 0, 0] and band.angle.low == 0
    template = template_of(RECORDS, job_of(job))
    assert template is not None
    # The development of a cone: every arc sweeps (320 − 300) / 40 = 0.5 of a radian, and is as long as the girth there.
    for arc, girth in zip(template.arcs["ring"], (320, 310, 300), strict=True):
        assert arc.right - arc.left == pytest.approx(0.5) and (arc.right - arc.left) * arc.radius == pytest.approx(
            girth
        )
    (said,) = (" ".join(p.said) for p in pictures_of(RECORDS, planned(job)) if p.anchor == "bands")
    assert "draw it 320 mm at its upper edge, 310 mm at its middle, 300 mm at its lower edge" in said.replace(
        "\u00a0", " "
    )
    (short,) = (pair.value for pair in sheet_of(RECORDS, planned(job)).hands_off if pair.label == "Band")
    assert short.replace("\u00a0", " ") == "by its own ends, 300–320 mm long, cut along the limb"


def test_paper_is_that_of_the_arcs_and_not_of_the_drawing() -> None:
    # The chord of 280 mm on the outer radius of 320 · 40 / 20 = 640 mm is 2 · 640 · sin(280 / 1280) = 277.8 mm.
    template = template_of(RECORDS, job_of(banded(ring())))
    assert template is not None
    assert template.right - template.left == pytest.approx(2 * 640 * math.sin(280 / 1280), abs=0.01)
    # Bent by 640 · (1 − cos(280 / 1280)) = 15.3 mm at the lower edge's ends: taller than the 40 mm that are drawn.
    inner = 600
    assert template.foot - template.top == pytest.approx(640 - inner * math.cos(280 / 2 / inner), abs=0.01)
    assert template.strips == 2
    straight = banded(ring(), bottom=320)
    assert template_of(RECORDS, job_of(straight)) is None


def test_the_tray_has_paper_for_the_bent_stencil() -> None:
    # 280 × 200 mm fit on one sheet of 210 × 297 mm; on the arc of a limb of 380 mm above and 290 mm below the ends bend
    # down: 844 mm of radius above, 644 below, 844 − 644 · cos(280 / 2 / 644) = 215 mm tall.
    def sheets(**changes: Any) -> float:
        tall = part("ring", (0, 0, 280, 200), focal="yes", **changes)
        work = planned(banded(tall, top=380, bottom=290, size="280 mm x 200 mm")).work
        assert work is not None
        (paper,) = (article for article in work.tray.supplies if article.supply.per == "strip")
        return paper.number.high

    assert (sheets(), sheets(band="yes", closed_by="left open")) == (1, 2)


def test_tapes_that_no_limb_has_are_a_finding_and_no_fault() -> None:
    made = planned(banded(ring(closed_by="left open"), top=700, bottom=290))
    (finding,) = (f for f in made.findings if f.about == "girth")
    assert finding.asks and "No limb" in finding.reason and made.bands == ()
    assert made.work is not None and sheet_of(RECORDS, made).rows
    (picture,) = (p for p in pictures_of(RECORDS, made) if p.anchor == "bands")
    assert "No template" in " ".join(picture.said)


def test_wrap_and_what_is_seen_are_given_for_both_ends_of_the_limb() -> None:
    place = planned(banded(ring(closed_by="left open"))).placement
    assert [(end.name, end.wrap.low) for end in place.ends] == [
        ("above", pytest.approx(360 * 280 / 320)),
        ("below", pytest.approx(360 * 280 / 300)),
    ]
    assert [end.seen.low for end in place.ends] == pytest.approx([160 / 280, 150 / 280])
    # Beyond half of the girth the whole thickness of the limb is seen.
    assert [end.looks.low for end in place.ends] == pytest.approx([320 / math.pi, 300 / math.pi])
    assert place.wrap == place.ends[1].wrap and place.seen == place.ends[1].seen and place.looks == place.ends[1].looks
    head = {pair.label: pair.value.replace("\u00a0", " ") for pair in sheet_of(RECORDS, demo("gear-band")).head}
    assert head["Wraps"] == "331° above, 355° below"
    assert head["Seen at once"] == "54 %, 104 mm wide above; 51 %, 97 mm wide below"


def test_an_arm_that_is_equally_thick_has_one_end() -> None:
    made = planned(banded(ring(closed_by="left open"), bottom=320))
    assert [end.name for end in made.placement.ends] == [""]
    head = {pair.label: pair.value.replace("\u00a0", " ") for pair in sheet_of(RECORDS, made).head}
    assert head["Wraps"] == "315°" and head["Seen at once"] == "57 %, 102 mm wide"


def test_a_part_that_runs_all_round_is_asked_whether_it_is_a_band() -> None:
    def asked_of(**changes: Any) -> list[str]:
        made = planned(banded({**part("frame", (0, 0, 280, 40), focal="yes"), **changes}))
        return [f.reason for f in made.findings if f.about == "parts.frame.band"]

    # 280 mm of 300 mm, and the studio looks from 85 % on.
    assert asked_of() == ["frame runs 93\u00a0% of the way round; not on file whether it is a band."]
    assert asked_of(band="no") == asked_of(band="yes", closed_by="left open") == []
    assert asked_of(box=["0 mm", "0 mm", "250 mm", "40 mm"]) == []
