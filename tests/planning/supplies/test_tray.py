"""What lies on the tray: caps, bottles, gloves, and what a client may not touch."""

from __future__ import annotations

import dataclasses
import datetime
import math

import pytest
from hypothesis import given

from generator.planning.computed import Computed
from generator.planning.plan import JobPlan, Work
from generator.planning.supplies.tray import Counted, exchanged, in_date, ink_in_wash, pieces, pieces_by_area
from generator.planning.working.steps import COLOURS, WHITES
from generator.press.sheet.plan_text import plan_text
from generator.quantities import written as quantity
from generator.records.ended import Ended
from generator.records.ids import Reference
from tests.planning.demo import (
    RECORDS,
    Written,
    demo,
    part,
    planned,
    simple,
    try_plan,
    with_limits,
    written,
)
from tests.planning.random_jobs import parts
from tests.planning.test_permissiveness import often


def work_of(made: JobPlan) -> Work:
    assert made.work is not None
    return made.work


def counted(made: JobPlan, supply: str) -> Counted:
    (found,) = (c for c in work_of(made).tray.supplies if c.supply.id == supply)
    return found


def number(made: JobPlan, supply: str) -> tuple[float, float]:
    found = counted(made, supply).number
    return found.low, found.high


@often
@given(parts())
def test_caps_one_at_least_for_each_ink_and_whole_pieces_of_everything(found: list[Written]) -> None:
    made = planned(simple(size="200 mm x 200 mm", parts=found))
    tray = work_of(made).tray
    assert len({p.ink.id for p in tray.inks}) == len(tray.inks)
    # Besides the inks that are worked there is the bottle that a wash is mixed of.
    worked = {s.ink.id for s in work_of(made).steps}
    assert {p.ink.id for p in tray.inks if p.caps is not None} == worked
    assert {p.ink.id for p in tray.inks} - worked <= {"black-shade"}
    for poured in tray.inks:
        if poured.caps is None:
            assert poured.in_washes is not None and poured.in_washes.high == poured.millilitres.high
            continue
        neat = [getattr(poured.millilitres, end) for end in ("low", "high")]
        if poured.in_washes is not None:
            neat = [neat[0] - poured.in_washes.low, neat[1] - poured.in_washes.high]
        assert poured.caps.low >= 1
        for end, millilitres in zip(("low", "high"), neat, strict=True):
            wanted = max(1, math.ceil(round(millilitres, 8)))  # a cap holds 1 mL here
            # What is worked over several sittings is poured anew in each.
            assert wanted <= getattr(poured.caps, end) < wanted + len(work_of(made).sittings)
    caps = [sum(getattr(p.caps, end) for p in tray.inks if p.caps is not None) for end in ("low", "high")]
    assert list(number(made, "ink-caps")) == caps
    for piece in tray.supplies:
        assert piece.number.low == int(piece.number.low) and piece.number.high == int(piece.number.high)
        assert 0 < piece.number.low <= piece.number.high


def test_millilitres_by_the_house_rate() -> None:
    # 0.03–0.06 mL/cm² over 40 cm²; 300 mm of line count as a strip of 2 mm, 6 cm².
    block = part("lamp", focal="yes", colours=[{"ink": "black-shade", "area": "40 cm²"}])
    (poured,) = work_of(planned(simple(parts=[block], line_ink="black-shade"))).tray.inks
    assert (poured.millilitres.low, poured.millilitres.high) == (pytest.approx(46 * 0.03), pytest.approx(46 * 0.06))
    assert (poured.caps.low, poured.caps.high) == (2, 3)


def test_areas_that_the_job_leaves_open_are_shared_out() -> None:
    # 45 % of a box of 40 mm by 40 mm for two inks, 2 % for one white: 3.6, 3.6 and 0.32 cm².
    lamp = part("lamp", focal="yes", lines=None, colours=["deep-blue", "rust", "white"])
    amounts = [s.amount.low for s in work_of(planned(simple(parts=[lamp]))).steps]
    assert amounts == [pytest.approx(360), pytest.approx(360), pytest.approx(32)]
    # What the job measures is taken as it is, and the rest shared by those that are left.
    lamp = part("lamp", focal="yes", lines=None, colours=["deep-blue", {"ink": "rust", "area": "5 cm²"}])
    assert [s.amount.low for s in work_of(planned(simple(parts=[lamp]))).steps] == [pytest.approx(720), 500]
    # Two whites share what is left white.
    lamp = part("lamp", focal="yes", lines=None, colours=["white", "white-dim"])
    assert [s.amount.low for s in work_of(planned(simple(parts=[lamp]))).steps] == [pytest.approx(16)] * 2


@pytest.mark.parametrize(
    ("area", "interruptions", "pairs"),
    [
        ("18 cm²", "0", (6, 6)),
        ("18 cm²", "3", (9, 9)),
        ("24 cm²", "0", (7, 7)),
        ("60 cm²", "1", (8, 8)),
        ("60 cm²", "3", (9, 9)),
    ],
)
def test_gloves_one_pair_for_each_interruption(area: str, interruptions: str, pairs: tuple[int, int]) -> None:
    # Shaving, stencil, work, final clean, dressing, break-down; one for each break, and one for each interruption that
    # is expected beyond the number of breaks: what can wait is done in a break.
    block = part("block", focal="yes", lines=None, colours=[{"ink": "black-line", "area": area}])
    made = planned(simple(parts=[block], interruptions=interruptions, size="200 mm x 200 mm"))
    assert number(made, "gloves") == pairs


def test_every_sitting_is_set_up_again() -> None:
    block = part("block", focal="yes", lines=None, colours=[{"ink": "black-line", "area": "150 cm²"}])
    made = planned(simple(parts=[block], size="200 mm x 200 mm"))
    assert work_of(made).timetable.sittings.high == 3
    assert number(made, "razor") == (3, 3)
    # 500 min of packing at the slow end: two breaks in each of the first two sittings, of 200 min, and one in the
    # last; six pairs for each sitting.
    assert number(made, "gloves") == (18 + 5, 18 + 5)


LATER = {"sitting": "2", "last_worked": "2027-03-01", "size": "400 mm x 300 mm"}
LINED = {"lines": [{"needle": "1210RL", "length": "3000 mm"}], "focal": "yes"}


def test_a_later_sitting_without_lines_needs_no_stencil() -> None:
    # 3 m of line fill the first sitting; what is left is colour on parts that have their lines.
    filled = [{"ink": "deep-blue", "area": "40 cm²"}]
    made = planned(simple(parts=[part("lamp", (20, 20, 90, 70), colours=filled, **LINED)], **LATER))
    _, second = work_of(made).sittings
    assert {made.work.steps[stint.number - 1].section for stint in second.stints} == {COLOURS}  # type: ignore[union-attr]
    today = work_of(made).at_hand
    taken = {str(c.supply.id) for c in today.tray.supplies}
    assert {"stencil-paper", "stencil-fluid"} & taken == set() and "razor" in taken
    table = today.timetable
    assert (table.stencil, table.dry) == (None, None) and table.clean_skin is not None
    # 10 min of cleaning the skin in place of 20 min of stencil and 15 min of drying; 15 min of wrap.
    assert table.whole.high == pytest.approx(table.chair.high + 10 + 15)
    text = plan_text(RECORDS, made)
    assert "No stencil; skin shaved, cleaned: 10\u00a0min" in text and "Stencil paper" not in text
    # One pair less than with a stencil: five, and the breaks.
    gloves = next(c.number for c in today.tray.supplies if c.supply.id == "gloves")
    assert gloves.high == 5 + table.break_count.high
    # A part without lines has no edge on the skin but the stencil's.
    bare = part("sky", (150, 20, 90, 70), lines=None, colours=filled)
    with_bare = planned(simple(parts=[part("lamp", (20, 20, 90, 70), **LINED), bare], **LATER))
    assert work_of(with_bare).at_hand.timetable.stencil is not None


def test_the_tray_of_a_later_sitting_is_its_own() -> None:
    filled = [{"ink": "deep-blue", "area": "40 cm²"}]
    lamp, sky = part("lamp", (20, 20, 150, 200), **LINED), part("sky", (200, 20, 120, 75), colours=filled)
    made = planned(simple(parts=[lamp, {**sky, "lines": LINED["lines"][:1]}], **LATER))
    today = work_of(made).at_hand
    worked = {str(step.part.id) for step in today.steps}
    assert worked == {"sky"}
    dressed = next(c for c in today.tray.supplies if c.supply.id == "dressing-film")
    # 120 mm x 75 mm are 90 cm², and a film serves 60 cm².
    assert (dressed.number.low, dressed.number.high) == (2, 2)
    assert all(c.number.low == int(c.number.low) for c in today.tray.supplies)
    # The tray of the piece is the sum of all its sittings.
    assert number(made, "razor") == (len(work_of(made).sittings),) * 2


@pytest.mark.parametrize(("sitting", "sheets", "portions"), [("1", 4, 6), ("2", 1, 1)])
def test_a_later_stencil_is_of_what_is_still_to_be_lined(sitting: str, sheets: int, portions: int) -> None:
    # First all of 400 mm x 300 mm is placed, 1200 cm²; then the 120 mm x 75 mm of the part that has no lines yet.
    lamp, sky = part("lamp", (20, 20, 150, 200), **LINED), part("sky", (200, 20, 120, 75), lines=LINED["lines"])
    worked = {"last_worked": "2027-03-01"} if sitting != "1" else {}
    made = planned(simple(parts=[lamp, sky], sitting=sitting, size="400 mm x 300 mm", **worked))
    taken = {str(c.supply.id): c.number for c in work_of(made).at_hand.tray.supplies}
    assert (taken["stencil-paper"].high, taken["stencil-fluid"].high) == (sheets, portions)


def test_the_tray_of_a_piece_is_of_its_one_sitting_or_of_both() -> None:
    def of(area: str) -> JobPlan:
        block = part("block", focal="yes", lines=None, colours=[{"ink": "black-line", "area": area}])
        return planned(simple(parts=[block], size="200 mm x 200 mm"))

    one, two = of("20 cm²"), of("100 cm²")
    assert work_of(one).tray == work_of(one).at_hand.tray and number(one, "razor") == (1, 1)
    assert len(work_of(two).sittings) == 2 and number(two, "razor") == (2, 2)


@pytest.mark.parametrize(
    ("closed_by", "bottom", "width", "height"),
    [
        # Geometry: 320 mm above and 300 mm below, 40 mm apart, are arcs of 640 mm and 600 mm, which turn by half a
        # radian all round. A band of 280 mm turns less, and its chord is no wider than it lay flat.
        ("left open", 300, 280, 640 - 600 * math.cos(280 / 2 / 600)),
        ("its own ends", 300, 2 * 640 * math.sin(0.25), 640 - 600 * math.cos(0.25)),
        ("left open", 320, 280, 40),
    ],
)
def test_the_stencil_of_a_band_is_as_wide_and_as_tall_as_its_arc(
    closed_by: str, bottom: int, width: float, height: float
) -> None:
    ring = part("ring", (0, 0, 280, 40), focal="yes", band="yes", closed_by=closed_by)
    girth = {"top": "320 mm", "bottom": f"{bottom} mm"}
    limb = {"size": "280 mm x 40 mm", "place": "upper-arm-outer", "side": "left", "girth": girth}
    sheets = dict(counted(planned(simple(parts=[ring], **limb)), "stencil-paper").number.inputs)["number"]
    assert isinstance(sheets, Computed)
    sides = dict(sheets.inputs)
    assert (sides["width"].high, sides["height"].high) == (pytest.approx(width), pytest.approx(height))


def test_film_and_pads_are_alternatives() -> None:
    made = demo("sand-glass")
    film = counted(made, "dressing-film")
    assert film.or_else is not None and film.or_else.supply.id == "pad"
    assert [c for c in work_of(made).tray.supplies if c.supply.id == "pad"] == []
    said = f"  Film dressing: {film.number.low:g}\n  Non-adherent dressing: or {film.or_else.number.low:g}\n"
    assert said in plan_text(RECORDS, made)
    # Who may not touch the one takes the other.
    other = demo("keepers-lantern")
    assert counted(other, "dressing-film").instead and number(other, "pad") == (3, 3)


def test_an_article_in_place_of_another_is_lost_in_no_chain() -> None:
    """Each stands once, whatever is taken in place of what: also round in a circle."""
    for way in ({"razor": "apron", "apron": "pad"}, {"razor": "apron", "apron": "razor"}, {"pad": "dressing-film"}):
        entries = dict(RECORDS.supplies)
        for name, other in way.items():
            entries[name] = entries[name].model_copy(
                update={"or_else": Reference.to(other, "supplies", entries[name].id.place)}
            )
        made = planned(simple(), dataclasses.replace(RECORDS, supplies=entries))
        both = [one for c in work_of(made).tray.supplies for one in (c, c.or_else) if one is not None]
        assert sorted(str(one.supply.id) for one in both) == sorted(RECORDS.supplies), way


def test_what_an_allergy_may_exchange_holds_something_or_was_never_read_or_is_one_of_two() -> None:
    assert {"gloves", "grip-wrap", "dressing-film", "pad"} <= exchanged(RECORDS)
    assert not {"towels", "ink-caps", "apron"} & exchanged(RECORDS)
    unread = {**RECORDS.supplies, "towels": RECORDS.supplies["towels"].model_copy(update={"contains": None})}
    assert exchanged(dataclasses.replace(RECORDS, supplies=unread)) == exchanged(RECORDS) | {"towels"}


@pytest.mark.parametrize(
    ("size", "sheets"),
    [("210 mm x 297 mm", 1), ("297 mm x 210 mm", 1), ("220 mm x 280 mm", 2), ("400 mm x 300 mm", 4)],
)
def test_stencil_paper_by_strips(size: str, sheets: int) -> None:
    # Sheets of 210 mm x 297 mm that lie 10 mm on one another.
    assert number(planned(simple(size=size)), "stencil-paper") == (sheets, sheets)


def test_grip_wrap_for_each_machine_and_a_bag_for_each_bottle() -> None:
    made = demo("sand-glass")
    machines = {step.setting.machine.id for step in work_of(made).steps}
    assert number(made, "grip-wrap") == (len(machines), len(machines))
    # Line black, shading black for itself and two washes, ochre, umber, white.
    assert number(made, "bottle-bag") == (5, 5)


def test_a_round_lies_ready_where_a_row_is_planned_and_nobody_has_measured_how_narrow_it_gets() -> None:
    def cartridges(width: int, narrowest: str | None) -> float:
        lamp = part("lamp", (20, 20, width, 40), lines=None, focal="yes", narrowest=narrowest, colours=["rust"])
        return number(planned(simple(parts=[lamp])), "cartridges")[1]

    # Two of each. Measured; not measured; not measured, and so narrow by its box that a round is planned already.
    assert [cartridges(40, "20 mm"), cartridges(40, None), cartridges(3, None)] == [2, 4, 2]


def test_ink_includes_what_its_washes_take() -> None:
    # 10 cm² of black and 20 cm² of light wash, 1 to 9: at 0.06 mL/cm² 0.6 mL, and a tenth of 1.2 mL.
    colours = [{"ink": "black-shade", "area": "10 cm²"}, {"ink": "wash-light", "area": "20 cm²"}]
    tray = work_of(planned(simple(parts=[part("mist", lines=None, focal="yes", colours=colours)]))).tray
    black, light = tray.inks
    assert (black.ink.id, light.ink.id) == ("black-shade", "wash-light")
    assert black.millilitres.high == pytest.approx(0.6 + 0.12) and light.millilitres.high == pytest.approx(1.2)
    assert black.in_washes is not None and black.in_washes.high == pytest.approx(0.12)
    assert black.caps is not None and black.caps.high == 1
    # Without any of it neat, its bottle is still on the tray, without a cap.
    tray = work_of(planned(simple(parts=[part("mist", lines=None, focal="yes", colours=colours[1:])]))).tray
    assert [(str(p.ink.id), p.caps is None) for p in tray.inks] == [("black-shade", True), ("wash-light", False)]


def test_a_wash_takes_its_part_and_an_area_its_share() -> None:
    # Two parts in five of 10 mL; two pieces for each 100 mm².
    assert ink_in_wash(10, 2, 3) == 4 and pieces_by_area(250, 100, 2) == 5


def test_by_area_and_by_the_hour() -> None:
    made = demo("keepers-lantern")
    # 130 mm x 185 mm are 240.5 cm²: portions for 200 cm² each, pads for 100 cm² each.
    assert number(made, "stencil-fluid") == (2, 2) and number(made, "pad") == (3, 3)
    hours = [end / 60 for end in (work_of(made).timetable.whole.low, work_of(made).timetable.whole.high)]
    assert number(made, "towels") == tuple(math.ceil(20 * h) for h in hours)
    # White is laid with a needle that has touched no other ink.
    groupings = {(s.setting.grouping.id, s.section == WHITES) for s in work_of(made).steps}
    assert number(made, "cartridges") == (2 * len(groupings), 2 * len(groupings))


def test_pieces_are_rounded_up_and_the_last_bits_of_a_float_do_not_add_one() -> None:
    assert 100 * 0.07 > 7
    assert (pieces(100, 0.07), pieces(100, 0.071), pieces(1, 0.1), pieces(2, 1)) == (7, 8, 1, 2)


@pytest.mark.parametrize("supply", [s for s in RECORDS.supplies.values() if s.contains and s.instead])
def test_what_contains_an_allergen_is_off_the_tray_and_its_replacement_named(supply: object) -> None:
    allergen = supply.contains[0]  # type: ignore[attr-defined]
    name, instead = supply.name, supply.instead  # type: ignore[attr-defined]
    made = planned(simple(allergies=[allergen]))
    assert counted(made, supply.id).instead == instead  # type: ignore[attr-defined]
    # Names are of one thing or of many: “Razor”, “Nitrile gloves”.
    finding = next(f for f in made.findings if f.reason == f"Allergy to {allergen}: {name} must stay off the tray.")
    assert finding.remedy == instead and made.verdict.level == "care"
    text = plan_text(RECORDS, made)
    tray = text.split("\nTray\n")[1].split("\nInks\n")[0]
    assert f"\n  {name}:" not in tray and f"Off this tray: {name}" in tray
    assert f"[ ] No {name.lower()} here: {instead[0].lower()}{instead[1:].rstrip('.')}" in text
    assert f"{name}:" in plan_text(RECORDS, planned(simple())).split("\nTray\n")[1]


def test_bottles_in_date() -> None:
    line, moss = RECORDS.inks["black-line"], RECORDS.inks["moss"]
    # Opened on 2027-02-15 with twelve months of life; the other one is closed until 2028-11-30.
    assert [lot.lot for lot in in_date(line, datetime.date(2028, 2, 15))] == ["LB-7031", "LB-7102"]
    assert [lot.lot for lot in in_date(line, datetime.date(2028, 2, 16))] == ["LB-7102"]
    assert [lot.lot for lot in in_date(line, datetime.date(2028, 12, 1))] == []
    assert [lot.lot for lot in in_date(moss, datetime.date(2027, 5, 12))] == ["MO-2377"]


@pytest.mark.parametrize(
    ("why", "in_date_on"),
    [
        ("used up", [True, True, False]),  # its last day is a day with it
        ("recalled", [False, False, False]),  # also before the recall
    ],
)
def test_a_lot_that_has_ended(why: str, in_date_on: list[bool]) -> None:
    line = RECORDS.inks["black-line"]
    ended = line.lots[0].model_copy(update={"until": Ended(on=datetime.date(2027, 5, 12), why=why)})
    ink = line.model_copy(update={"lots": (ended, *line.lots[1:])})
    days = [datetime.date(2027, 5, day) for day in (11, 12, 13)]
    assert [ended in in_date(ink, day) for day in days] == in_date_on


def test_a_wash_is_poured_from_the_bottle_it_is_mixed_of() -> None:
    mist = part("mist", focal="yes", lines=None, colours=["wash-light"])
    black, poured = work_of(planned(simple(parts=[mist]))).tray.inks
    assert black.lots == poured.lots
    assert [lot.lot for lot in poured.lots] == ["SB-6620"]


def test_a_smaller_cap_takes_more_of_them() -> None:
    few, many = planned(written("tide-table")), planned(written("tide-table"), with_limits(cap=quantity("0.2 mL")))
    assert number(many, "ink-caps")[1] > number(few, "ink-caps")[1]
    assert try_plan(written("tide-table"))[1] == ()
