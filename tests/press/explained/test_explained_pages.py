"""Numbers on the reference pages that explain themselves: links to formulas, tables of how, figures, swaps."""

from __future__ import annotations

import dataclasses
import datetime
import html
import math
import re
import xml.etree.ElementTree as ET
from functools import cache

import pytest

from generator.origins import Origin
from generator.planning.computed import Named, compute
from generator.planning.working.swapping import hand_speed_kept, misleading_speed, needles_of, swap_to_show
from generator.planning.working.technique import dial_row
from generator.planning.working.widths import computed_width
from generator.press.drawings.needles import cross_sections
from generator.press.explained.origin import told
from generator.press.pages import Gathered, generated_pages
from generator.press.tables.vibration import NOT_ASSESSED
from generator.press.words.formatted import calculated
from generator.trade import labels, motion, needle_positions, vibration
from tests.planning.demo import RECORDS, demo
from tests.press.minimal import minimal


@cache
def pages_made() -> dict[str, str]:
    """All pages of the demo studio."""
    return generated_pages(RECORDS, datetime.date(2027, 5, 1), Gathered(shown=demo("keepers-lantern")))


def row(page: str, at: str) -> str:
    found = re.search(rf'<tr id="{re.escape(at)}">.*?</tr>', pages_made()[page], re.DOTALL)
    assert found, at
    return html.unescape(found[0])


@pytest.mark.parametrize(
    ("page", "at", "formula", "how"),
    [
        ("reference/groupings.md", "groupings-1207RL", "needles.html#grouping_width", "how-width-1207RL"),
        ("reference/speeds.md", "techniques-lining-dials-1", "motion.html#spacing", "how-spacing-lining-1"),
        ("reference/speeds.md", "techniques-lining-dials-1", "calibration.html#volts_for", "how-lining-1-lathe-3-5"),
        (
            "reference/disinfectants.md",
            "disinfectants-chlorine-liquid",
            "disinfection.html#mix_for",
            "how-batch-chlorine-liquid",
        ),
        (
            "reference/disinfectants.md",
            "disinfectants-chlorine-powder",
            "disinfection.html#powder_for",
            "how-batch-chlorine-powder",
        ),
        ("reference/inks.md", "inks-black-line", "dates.html#opened_ink_expiry", "how-lot-black-line-0"),
        ("reference/machines.md", "vibration-kettle", "vibration.html#daily_exposure", "how-vibration-kettle-day"),
        ("reference/swapping.md", "swap-lining-1014RL", "density.html#hand_speed_after_swap", "how-hand-lining-1014RL"),
    ],
)
def test_a_computed_value_leads_to_its_formula_and_its_inputs(page: str, at: str, formula: str, how: str) -> None:
    assert f'href="../formulas/{formula}"' in row(page, at)
    explained = row(page, how)
    assert f'href="../formulas/{formula}"' in explained
    assert "<li>" in explained and 'href="' in explained


def test_how_is_folded_and_needs_no_mouse() -> None:
    for page in pages_made().values():
        # What is folded says so in its summary, which every keyboard opens.
        assert page.count("<details") == page.count("<summary>")
        folded = page.count("<summary>How these were computed") + page.count("<summary>The list of ")
        assert page.count("<details") == folded
        assert "title=" not in page.replace('aria-title="', "")


class TestSwapping:
    def test_nine_for_fourteen(self) -> None:
        swap = swap_to_show(RECORDS)
        assert swap is not None
        assert (needles_of(swap.before), needles_of(swap.after)) == (9, 14)
        page = html.unescape(re.sub(r"<[^>]+>", "", pages_made()["reference/swapping.md"]))
        wrong = misleading_speed(swap)
        assert calculated(wrong.low, wrong.high, "frequency", RECORDS) in page
        assert "slow a large grouping down" in page

    def test_the_spacing_is_kept(self) -> None:
        swap = swap_to_show(RECORDS)
        assert swap is not None
        kept = hand_speed_kept(*swap)
        row_before, row_after = (dial_row(swap.technique, g) for g in (swap.before, swap.after))
        assert row_before is not None and row_after is not None
        for hand, before in ((kept.low, swap.technique.hand_speed.low), (kept.high, swap.technique.hand_speed.high)):
            assert motion.spacing(hand, row_after.usual.low) == pytest.approx(
                motion.spacing(before, row_before.usual.low)
            )

    def test_every_grouping_of_a_technique_stands_beside_the_others(self) -> None:
        for technique in RECORDS.techniques.values():
            for grouping in RECORDS.groupings.values():
                there = f'id="swap-{technique.id}-{grouping.id}"' in pages_made()["reference/swapping.md"]
                assert there == (dial_row(technique, grouping) is not None)

    def test_where_nothing_can_be_swapped(self) -> None:
        assert swap_to_show(minimal()) is None


class TestVibration:
    def test_one_longest_sitting(self) -> None:
        kettle = RECORDS.machines["kettle"]
        assert kettle.vibration is not None
        hours = RECORDS.studio.limits.sitting.low / 60
        shown = row("reference/machines.md", "vibration-kettle")
        exposure = vibration.daily_exposure(kettle.vibration.low, hours)
        points = vibration.exposure_points(kettle.vibration.low, hours)
        assert calculated(exposure, exposure, "acceleration", RECORDS) in shown
        assert f"{points:.1f}" in shown
        assert f"{vibration.hours_left(kettle.vibration.low, points).to_action:.1f}\u00a0h" in shown

    def test_without_the_makers_figure_nothing_is_said(self) -> None:
        for machine in RECORDS.machines.values():
            assert (NOT_ASSESSED in row("reference/machines.md", f"vibration-{machine.id}")) == (
                machine.vibration is None
            )

    def test_the_sources_are_named(self) -> None:
        assert "Directive 2002/44/EC" in pages_made()["reference/machines.md"]
        assert "HSE" in pages_made()["reference/machines.md"]


class TestFigures:
    def test_every_grouping_is_drawn_with_its_needles_at_one_scale(self) -> None:
        drawn = re.findall(r"<svg.*?</svg>", str(cross_sections(RECORDS)))
        assert len(drawn) == len(RECORDS.groupings)
        scales = set()
        for text, grouping in zip(drawn, RECORDS.groupings.values(), strict=True):
            svg = ET.fromstring(text)
            label = labels.read_label(grouping.label)
            circles = svg.findall("circle")
            assert len(circles) == label.count
            assert {float(c.get("r", "0")) for c in circles} == {label.needle_diameter / 2}
            across = max(float(c.get("cx", "0")) for c in circles) - min(float(c.get("cx", "0")) for c in circles)
            assert across + label.needle_diameter <= computed_width(grouping).high + 0.002
            said = svg.get("aria-label") or ""
            assert svg.get("role") == "img" and grouping.label in said and "1 mm" in said
            view = [float(n) for n in (svg.get("viewBox") or "").split()]
            scales.add(round(float(svg.get("width", "0")) / view[2]))
            for circle in circles:
                x, y, r = (float(circle.get(key, "0")) for key in ("cx", "cy", "r"))
                assert view[0] <= x - r and x + r <= view[0] + view[2] and view[1] <= y - r <= view[1] + view[3]
        assert len(scales) == 1

    def test_the_bar_is_one_millimetre(self) -> None:
        path = ET.fromstring(re.findall(r"<svg.*?</svg>", str(cross_sections(RECORDS)))[0]).find("path")
        assert path is not None and "h1m" in (path.get("d") or "")

    def test_up_is_up(self) -> None:
        """The middle of a curved magnum stands highest in the picture too, where y grows downwards."""
        curved = next(g for g in RECORDS.groupings.values() if g.label.endswith("CM"))
        label = labels.read_label(curved.label)
        places = needle_positions.needle_positions("CM", label.count, label.needle_diameter, curved.spread)
        records = dataclasses.replace(RECORDS, groupings={curved.id: curved})
        svg = ET.fromstring(re.findall(r"<svg.*?</svg>", str(cross_sections(records)))[0])
        top = min(svg.findall("circle"), key=lambda c: float(c.get("cy", "0")))
        highest = max(places, key=lambda place: place[1])
        assert math.isclose(float(top.get("cy", "0")), -highest[1], abs_tol=0.001)

    def test_an_empty_shelf_draws_nothing(self) -> None:
        assert cross_sections(minimal()) == ""


@pytest.mark.parametrize(
    ("where", "words", "link"),
    [
        ("machines.kettle.hang_out", "Kettle: hang-out", "../reference/machines.html#machines-kettle"),
        ("studio.limits.break_after", "the studio’s break after", "../reference/studio.html#studio-limits-break-after"),
        ("jobs.tide-table.size", "job tide-table, size", "../sheets/tide-table.html"),
        ("inks", "inks", "../reference/inks.html"),
        ("nothing done yet", "nothing done yet", ""),
    ],
)
def test_records_are_told_and_linked(where: str, words: str, link: str) -> None:
    shown = told(Named(None, "", Origin(tuple(where.split(".")))), RECORDS, "formulas/motion.md")
    assert re.sub(r"<[^>]+>", "", shown) == words
    assert re.findall(r'href="([^"]*)"', shown) == ([link] if link else [])


def test_a_number_in_the_way_to_a_value_is_an_id_or_a_place_in_a_list() -> None:
    keys = "jobs", "tide-table", "parts"
    told_ = [str(told(Named(None, "", Origin((*keys, last))), RECORDS, "jobs.html")) for last in ("1", 1)]
    assert ["parts, 1</a>" in told_[0], "parts 2</a>" in told_[1]] == [True, True]


def test_a_value_of_planning_is_told_with_its_own_inputs() -> None:
    from generator.press.explained.worked import as_worked, inputs_of

    technique = next(iter(RECORDS.techniques.values()))
    swap = swap_to_show(RECORDS)
    assert swap is not None
    spaced = compute(
        motion.spacing,
        "length",
        hand_speed=hand_speed_kept(*swap),
        frequency=dict(misleading_speed(swap).inputs)["frequency"],
    )
    lines = list(inputs_of(as_worked(spaced, RECORDS), RECORDS, "formulas/motion.md"))
    assert "computed" in lines[0] and "<ul>" in lines[0] and technique.name in lines[0]
