"""No cartridge is opened for less than the least time on file. Common practice, from memory: nobody changes a needle
for a few seconds of work, and a narrower needle may always do what is left for a wider one."""

from __future__ import annotations

from collections import defaultdict

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.diagnostics import Place
from generator.planning.working.reach import NARROW, WIDE
from generator.planning.working.shapes import shape_of
from generator.planning.working.steps import LINES, WHITES, Step
from generator.planning.working.technique import dial_row
from generator.planning.working.widths import compared_width, width_of
from generator.records.families import Records
from generator.records.ids import Reference
from generator.trade import shapes
from tests.planning.demo import RECORDS, Written, part, simple, steps_of, with_entry, with_limits
from tests.planning.random_jobs import INKS, LINERS
from tests.planning.test_permissiveness import often

AT = Place("techniques.yml", 1, 1, 2)
LIMIT = RECORDS.studio.limits.cartridge
assert LIMIT is not None
LEAST = LIMIT.least_work.low
ALWAYS_OPENED = with_limits(cartridge=None)


def worked(*parts: Written, records: Records = RECORDS) -> list[Step]:
    return list(steps_of(simple(size="150 mm x 150 mm", parts=list(parts)), records))


def corner(
    area: str = "1 cm²", box: tuple[float, float, float, float] = (20, 20, 40, 40), **changes: object
) -> Written:
    """A part that is wide but for a twentieth of it: at 0.3 cm² a minute 10 s of a square centimetre."""
    ink: Written = {"ink": "black-shade", "area": area, "narrowest": "3 mm"}
    return part("area", box, **{"lines": None, "narrowest": None, "colours": [ink], "focal": "yes", **changes})


def needles(steps: list[Step]) -> list[tuple[str, str, str]]:
    return sorted((str(step.part.id), step.places, str(step.setting.grouping.id)) for step in steps)


LINE = {"needle": "1207RL", "length": "400 mm"}


def test_ten_seconds_are_done_with_the_liner_that_is_open() -> None:
    assert ("area", NARROW, "1214RS") in needles(worked(corner(lines=[LINE]), records=ALWAYS_OPENED))
    steps = worked(corner(lines=[LINE]))
    assert needles(steps) == [("area", "", "1207RL"), ("area", NARROW, "1207RL"), ("area", WIDE, "1215CM")]
    narrow = next(step for step in steps if step.places == NARROW)
    assert narrow.minutes.high == pytest.approx(0.05 / 0.3)
    # Its dial is that of packing with a round, not the one for lines.
    row = dial_row(narrow.setting.technique, narrow.setting.grouping)
    assert row is not None and narrow.setting.speed is not None and narrow.setting.speed.low == row.usual.low


def test_where_no_open_needle_fits_a_cartridge_is_opened_all_the_same() -> None:
    assert needles(worked(corner())) == needles(worked(corner(), records=ALWAYS_OPENED))


def test_what_takes_longer_has_a_needle_of_its_own() -> None:
    long = corner(area="8 cm²", lines=[LINE])
    assert LEAST < 8 * 0.05 / 0.3
    assert needles(worked(long)) == needles(worked(long, records=ALWAYS_OPENED))


def test_the_round_does_the_little_that_is_left_for_the_magnum_in_one_row() -> None:
    # The magnum, 4.025 mm wide, reaches (4.2² - 4.025²) / (4.2² - 3²) of a taper from 4.2 mm to 3 mm: 17 %.
    thin = corner(area="1.5 cm²", box=(20, 20, 4.2, 60))
    before, now = worked(thin, records=ALWAYS_OPENED), worked(thin)
    assert [step.places for step in before] != [""] and next(s for s in before if s.places == WIDE).minutes.high < LEAST
    (step,) = now
    assert (step.places, step.piece.narrowest, step.amount.low) == ("", 3.0, pytest.approx(150))
    assert step.minutes.high == pytest.approx(sum(each.minutes.high for each in before))


@pytest.mark.parametrize(("left", "needle"), [(61, "1207RL"), (90, "1214RS")])
def test_a_part_beside_it_lends_its_needle_and_one_far_away_does_not(left: int, needle: str) -> None:
    other = part("frame", (left, 20, 20, 40), lines=[LINE], focal="no")
    assert ("area", NARROW, needle) in needles(worked(corner(), other))


def test_a_needle_that_is_named_is_taken_and_white_has_its_own() -> None:
    white = {"ink": "white", "area": "0.2 cm²"}
    named = {"ink": "plum", "area": "0.1 cm²", "needle": "1005RS", "narrowest": "3 mm"}
    steps = worked(corner(lines=[LINE], colours=[named, white]))
    assert {(str(s.ink.id), str(s.setting.grouping.id)) for s in steps if s.section != LINES} == {
        ("plum", "1005RS"),
        ("white", "1005RS"),
    }


def test_what_is_opened_because_nothing_else_fits_does_all_that_was_planned_with_it() -> None:
    """A wash has no dial with a liner, so its round is opened; then no ink that was planned with it has another."""
    colours = [
        {"ink": ink, "area": "0.05 cm²", "narrowest": "0.85 mm"}
        for ink in ("rust", "plum", "wash-mid", "deep-blue", "lemon")
    ]
    steps = worked(corner(lines=[{"needle": "1205RL", "length": "400 mm"}], colours=colours, box=(20, 20, 1.2, 60)))
    assert {str(step.setting.grouping.id) for step in steps if step.section != LINES} == {"1005RS"}


def test_a_liner_of_more_and_thicker_needles_does_not_go_where_a_small_round_is_planned() -> None:
    """Its measured line is narrower than the five needles of the round are calculated; its seven needles are not."""
    (technique,) = {step.setting.technique.id for step in worked(corner())}
    small = with_entry("techniques", technique, rounds=(Reference.to("1005RS", "groupings", AT),))
    narrow = corner(lines=[LINE], colours=[{"ink": "rust", "area": "1 cm²", "narrowest": "0.5 mm"}])
    assert width_of(RECORDS.groupings["1207RL"]).high < width_of(RECORDS.groupings["1005RS"]).high
    assert ("area", NARROW, "1005RS") in needles(worked(narrow, records=small))


@st.composite
def drawn(draw: st.DrawFn) -> list[Written]:
    """Parts side by side, touching or not, each with some ink and a narrowest place."""
    made = []
    for number, name in enumerate(("one", "two", "three")[: draw(st.integers(1, 3))]):
        narrow = {"narrowest": f"{draw(st.integers(8, 45)) / 10} mm"}
        inks = draw(st.lists(st.sampled_from(INKS), min_size=1, max_size=3, unique=True))
        colours = [{"ink": ink, "area": f"{draw(st.integers(5, 250)) / 100} cm²"} for ink in inks]
        lines = (
            [{"needle": draw(st.sampled_from(LINERS)), "length": "200 mm"}]
            if number == 0 or draw(st.booleans())
            else None
        )
        box = (number * draw(st.sampled_from([21, 40])), 20, 20, draw(st.integers(6, 60)))
        made.append(part(name, box, focal="no", colours=colours, lines=lines, **narrow))
    return made


def cartridges(steps: list[Step]) -> dict[tuple[str, bool], list[Step]]:
    """The steps by what is in the hand for them."""
    found: dict[tuple[str, bool], list[Step]] = defaultdict(list)
    for step in steps:
        found[str(step.setting.grouping.id), step.section == WHITES].append(step)
    return found


def amounts(steps: list[Step]) -> dict[tuple[str, str, str], tuple[float, float]]:
    """Area or length and slow minutes of each part with each ink."""
    found: dict[tuple[str, str, str], tuple[float, float]] = defaultdict(lambda: (0.0, 0.0))
    for step in steps:
        key = str(step.part.id), str(step.ink.id), step.section
        found[key] = found[key][0] + step.amount.low, found[key][1] + step.minutes.high
    return found


@often
@given(drawn())
def test_less_than_the_least_only_where_no_open_needle_fits(parts: list[Written]) -> None:
    before, now = worked(*parts, records=ALWAYS_OPENED), worked(*parts)
    assert amounts(now) == {key: pytest.approx(both) for key, both in amounts(before).items()}
    held = cartridges(now)
    assert len(held) <= len(cartridges(before))
    opened = {
        key
        for key, steps in held.items()
        if any(step.section == LINES for step in steps) or sum(step.minutes.high for step in steps) >= LEAST
    }
    narrowest = {str(one["id"]): float(one["narrowest"].split()[0]) for one in parts}
    for step in (step for step in now if step.section != LINES and step.places != WIDE):
        # As narrow as it has to be, or as the technique has it.
        wide = width_of(step.setting.grouping).high
        finest = min((width_of(RECORDS.groupings[one]).high for one in step.setting.technique.rounds), default=wide)
        assert wide <= max(narrowest[str(step.part.id)], finest)

    def others(step: Step) -> list[str]:
        """Open needles at hand that do for a step, by their width alone."""
        return [
            name
            for name, white in opened
            for other in held[name, white]
            if white == (step.section == WHITES)
            and shapes.gap(shape_of(other.part), shape_of(step.part)) <= RECORDS.studio.limits.beside.low
            and dial_row(step.setting.technique, other.setting.grouping) is not None
            and compared_width(other.setting.grouping) <= compared_width(step.setting.grouping)
        ]

    # What is opened for less is so for a step that nothing else does.
    for cartridge, steps in held.items():
        assert cartridge in opened or not all(map(others, steps)), cartridge
