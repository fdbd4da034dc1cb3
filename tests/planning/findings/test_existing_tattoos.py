"""Old tattoo work in the area: asked about, left free, or covered well enough."""

from __future__ import annotations

import datetime

import pytest

from generator.planning.plan import JobPlan
from tests.planning.demo import Written, part, planned, simple, try_plan


def old(**changes: object) -> Written:
    base: Written = {
        "id": "o1",
        "box": ["30 mm", "30 mm", "20 mm", "20 mm"],
        "darkness": "medium",
        "wish": "cover",
        "laser": "none",
    }
    return {key: value for key, value in {**base, **changes}.items() if value is not None}


def covered(found: Written, box: tuple[int, int, int, int] = (20, 20, 40, 40), *inks: str) -> JobPlan:
    """A part of 16 cm² over old work of 4 cm², unless said otherwise."""
    lamp = part("lamp", box, focal="yes", colours=list(inks or ("black-shade",)))
    return planned(simple(parts=[lamp], existing_tattoos=[found]))


def rules(made: JobPlan) -> list[tuple[str, str]]:
    return [(finding.level, finding.rule) for finding in made.findings if finding.level != "note"]


def test_silence_is_a_question() -> None:
    made = planned(simple(existing_tattoos=None))
    assert (made.verdict.level, made.verdict.settled, made.work) == ("wait", False, None)


@pytest.mark.parametrize("key", ["darkness", "wish", "laser"])
@pytest.mark.parametrize("word", [None, "unknown"])
def test_what_nobody_looked_at_is_asked(key: str, word: str | None) -> None:
    made = covered(old(**{key: word}))
    (finding,) = (f for f in made.findings if f.about == f"existing_tattoos.o1.{key}")
    assert (finding.level, finding.asks) == ("wait", True) and not made.verdict.settled


def test_a_good_cover_up_is_no_finding() -> None:
    assert rules(covered(old())) == []


@pytest.mark.parametrize("wish", ["leave", "work around"])
def test_what_the_client_wants_left_free_is_not_crossed(wish: str) -> None:
    assert covered(old(wish=wish)).verdict.level == "wait"
    beside = old(wish=wish, box=["70 mm", "70 mm", "20 mm", "20 mm"])
    assert covered(beside).verdict.level == "clear"


@pytest.mark.parametrize(
    ("shape", "small"),
    [
        ({"box": ["30 mm", "30 mm", "40 mm", "20 mm"]}, False),  # 8 cm² under 16 cm²: just twice
        ({"box": ["30 mm", "30 mm", "41 mm", "20 mm"]}, True),
        # An ellipse of these sides has 6.4 cm², an outline of half the box 4.1 cm².
        ({"ellipse": ["30 mm", "30 mm", "41 mm", "20 mm"], "box": None}, False),
        ({"outline": [["30 mm", "30 mm"], ["71 mm", "30 mm"], ["30 mm", "50 mm"]], "box": None}, False),
    ],
)
def test_a_cover_up_is_at_least_twice_as_large(shape: Written, small: bool) -> None:
    # Common practice, no published source: two to three times the old piece.
    made = covered(old(**shape))
    assert (("care", "studio.limits.cover_ratio") in rules(made)) == small


def test_parts_that_lie_on_each_other_cover_the_skin_once() -> None:
    # 16 cm² twice over the same skin are 16 cm², and 8.2 cm² of old work want 16.4 cm².
    lamp = part("lamp", focal="yes", colours=["black-shade"])
    haze = part("haze", role="filler", colours=["black-shade"])
    made = planned(simple(parts=[lamp, haze], existing_tattoos=[old(box=["30 mm", "30 mm", "41 mm", "20 mm"])]))
    assert ("care", "studio.limits.cover_ratio") in rules(made)


@pytest.mark.parametrize(
    ("darkness", "ink", "light"),
    [
        # CIELAB L* of the swatches: 11, 23, 42, 59, 79.
        ("dark", "black-shade", False),
        ("dark", "deep-blue", False),
        ("dark", "rust", True),
        ("medium", "rust", False),
        ("medium", "brass", True),
        ("light", "brass", False),
        ("light", "sand", True),
        ("light", "white", True),
    ],
)
def test_a_cover_up_is_as_dark_as_what_it_covers(darkness: str, ink: str, light: bool) -> None:
    made = covered(old(darkness=darkness), (20, 20, 40, 40), ink)
    assert (("care", "studio.limits.cover_lightness") in rules(made)) == light


def test_lasered_skin_rests() -> None:
    # The house's own: eight weeks from the last session, 2027-03-18 to 2027-05-13.
    made = covered(old(laser=["2026-11-01", "2027-03-18"]))
    assert (made.verdict.level, made.verdict.until) == ("wait", datetime.date(2027, 5, 13))
    assert covered(old(laser=["2027-03-17"])).verdict.level == "clear"
    apart = old(laser=["2027-05-01"], box=["70 mm", "70 mm", "10 mm", "10 mm"], wish="leave")
    assert covered(apart).verdict.level == "clear"


def test_a_laser_after_the_sitting_is_a_mistake() -> None:
    made, report = try_plan(simple(existing_tattoos=[old(laser=["2027-05-13"])]))
    assert made is None and [d.code for d in report] == ["J612"]


@pytest.mark.parametrize(("area", "said"), [("1 cm²", True), ("3.9 cm²", True), ("4.1 cm²", False), (None, False)])
def test_a_dot_of_black_covers_no_dark_block(area: str | None, said: bool) -> None:
    # The old block fills 4 cm². A dark ink without an area shares its whole part: nobody wrote how much.
    inks = [{"ink": "black-shade", "area": area}, {"ink": "amber", "area": "8 cm²"}]
    lamp = part("lamp", (20, 20, 40, 40), focal="yes", colours=[{k: v for k, v in i.items() if v} for i in inks])
    made = planned(
        simple(parts=[lamp], existing_tattoos=[old(box=["30 mm", "30 mm", "20 mm", "20 mm"], darkness="dark")])
    )
    assert any("fill less than it does" in finding.reason for finding in made.findings) == said
