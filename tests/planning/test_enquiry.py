"""An enquiry is answered before anybody was asked anything; it names no more than place, size and what fills it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.planning.each_job import as_enquired
from generator.planning.findings.states import State
from generator.planning.plan import Enquiry, JobPlan, plan
from generator.press.sheet.client_page import client_page_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.enquiry import answer_to_enquiry
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.printing import job_html, sheet_html
from generator.quantities import written
from generator.records.inks import Ink
from generator.records.reading import read_records
from tests.planning.demo import CONTENT, RECORDS, Written, job_of, part, planned, read, simple

PLACE = {"id": "kite", "place": "upper-back", "size": "90 mm x 140 mm"}
LADDER = part("ladder", focal="yes", colours=[{"ink": "black-shade", "area": "10–20 cm²"}, "amber"])
LEAST: Written = {**PLACE, "parts": [{key: value for key, value in LADDER.items() if key not in ("box", "role")}]}
ASKED = ("screening", "allergies", "scars", "moles", "existing_tattoos", "numbing")
UNPRICED = RECORDS.__class__(
    **{
        **RECORDS.__dict__,
        "supplies": {n: s.model_copy(update={"price": None}) for n, s in RECORDS.supplies.items()},
        "inks": {n: i.model_copy(update={"price": None}) for n, i in RECORDS.inks.items()},
    }
)


def answered(made: JobPlan) -> Enquiry:
    assert made.enquiry is not None
    return made.enquiry


def unasked(job: Written) -> Written:
    return {key: value for key, value in job.items() if key not in ASKED}


def test_no_more_than_place_size_and_what_fills_it_is_answered() -> None:
    made = planned(LEAST)
    enquiry = answered(made)
    assert made.state is State.NOT_ASKED and made.work is None
    assert 0 < enquiry.whole.low < enquiry.whole.high
    assert list(enquiry.questions) == [question.ask for question in RECORDS.screening.values()]
    said = plan_text(RECORDS, made)
    page = job_html(RECORDS, made, sheet_of(RECORDS, made), made.job.date)
    answer = answer_to_enquiry(RECORDS, made)
    assert answer is not None
    for text in ("EUR", *(pair.value for pair in answer.told), *answer.questions):
        assert text in said and text.replace("'", "&#39;") in page


def test_parts_that_nobody_has_drawn_share_the_piece_and_are_asked_about() -> None:
    """No shape and no fineness: the finest is reckoned with, and both are asked."""
    bare = {key: value for key, value in LADDER.items() if key not in ("box", "role", "detail", "focal")}
    two = {**LEAST, "parts": [bare, {**bare, "id": "lamp"}]}
    made = planned(two)
    assert made.state is State.NOT_ASKED
    assert [[round(side.low, 2) for side in one.box] for one in made.job.parts if one.box] == [
        [0, 0, 90, 70],
        [0, 70, 90, 70],
    ]
    asked = " ".join(finding.reason for finding in made.findings if finding.asks)
    assert "for ladder, lamp: the place." in asked and "for ladder, lamp: the fineness." in asked
    fine = planned({**LEAST, "parts": [{**bare, "detail": "fine"}, {**bare, "id": "lamp", "detail": "fine"}]})
    assert answered(made).whole == answered(fine).whole


@pytest.mark.parametrize("size", ["70 mm x 160 mm", "4 in x 3 in", "20 mm x 10 mm"])
def test_what_nobody_measured_is_shared_in_whole_millimetres(size: str) -> None:
    parts = [{"id": name, "lines": [{"needle": "1207RL", "length": "10 mm"}]} for name in ("a", "b", "c")]
    (job, report), high = read({**PLACE, "size": size, "parts": parts}), float(written(size.split(" x ")[1]).low)
    assert job is not None and report == ()
    heights = [found.box[3].low for found in job.parts if found.box is not None]
    assert sum(heights) == pytest.approx(high) and max(heights) - min(heights) < 2
    assert all(height == int(height) for height in heights[:-1])


@pytest.mark.parametrize("lacking", ["detail", "box"])
def test_once_the_client_was_asked_the_parts_are_drawn(lacking: str) -> None:
    whole = [part("ladder", (0, 0, 40, 60), focal="yes"), part("lamp", (45, 0, 40, 60))]
    job = simple(parts=[{key: value for key, value in one.items() if key != lacking} for one in whole])
    codes = {one.code for one in read(job)[1]}
    assert codes == {"R302" if lacking == "detail" else "R316"}


def test_its_sheet_says_so_and_has_no_working_steps() -> None:
    made = planned(LEAST)
    sheet = sheet_of(RECORDS, made)
    html = sheet_html(sheet, made.job.date)
    assert sheet.verdict == "Not asked yet" and "Not asked yet" in html
    assert not (sheet.rows or sheet.times or sheet.pauses or sheet.inks or sheet.tray)
    assert {pair.label: pair.value for pair in sheet.head}["Day"] == "not agreed yet"
    assert made.job.date.isoformat() not in client_page_of(RECORDS, made.job, made).head


def _minutes(said: str) -> list[int]:
    """The ends of a time such as “2 h 15 min to 4 h”."""
    found = re.findall(r"(?:(\d+) h ?)?(?:(\d+) min)?", said)
    return [int(hours or 0) * 60 + int(minutes or 0) for hours, minutes in found if hours or minutes]


def test_time_and_sittings_are_those_of_the_same_piece_when_it_may_go_ahead() -> None:
    job = simple(size="300 mm x 300 mm", parts=[part("lamp", (20, 20, 200, 200), focal="yes", colours=["black-shade"])])
    asked, before = planned(job), planned(unasked(job))
    assert asked.enquiry is None and asked.work is not None
    enquiry = answered(before)
    whole = asked.work.timetable.whole
    assert (enquiry.whole.low, enquiry.whole.high) == (whole.low, whole.high)
    assert len(enquiry.each) == len(asked.work.sittings) > 1
    assert sum(each.high for each in enquiry.each) == pytest.approx(whole.high)
    answer = answer_to_enquiry(RECORDS, before)
    assert answer is not None and f"in {len(enquiry.each)} sittings" in answer.told[0].value
    # Whoever adds up the sittings finds the whole, in the steps of the clock.
    said = [pair.value.replace("\u00a0", " ") for pair in answer.told[: len(enquiry.each) + 1]]
    found = [_minutes(text) for text in (said[0].partition(", in")[0], *said[1:])]
    whole_said, *each_said = found
    assert whole_said == [sum(ends) for ends in zip(*each_said, strict=True)]
    assert all(end % 5 == 0 for ends in found for end in ends) and whole_said[1] >= enquiry.whole.high


def test_a_known_reason_against_it_is_no_enquiry_any_more() -> None:
    gone = planned({**unasked(simple()), "screening": {"asked": "2027-05-05", "answers": {"of-age": "no"}}})
    assert gone.enquiry is None and gone.work is None


def test_the_cost_is_the_share_of_each_pack_and_bottle_that_has_a_price() -> None:
    cost = answered(planned(LEAST)).cost
    assert cost is not None and cost.currency == RECORDS.studio.currency
    tray = planned({**simple(size=LEAST["size"], parts=[{**LADDER, "box": ["0 mm", "0 mm", "90 mm", "140 mm"]}])})
    assert tray.work is not None
    used = tray.work.tray
    for end in ("low", "high"):
        by_hand = sum(getattr(a.number, end) / a.supply.pack * a.supply.price for a in used.supplies if a.supply.price)
        by_hand += sum(_bottle(p.ink) * getattr(p.millilitres, end) for p in used.inks)
        assert getattr(cost.amount, end) == pytest.approx(by_hand)
    assert cost.without_price == tuple(a.supply.name for a in used.supplies if not a.supply.price)


def _bottle(ink: Ink) -> float:
    """What a millilitre costs."""
    assert ink.price is not None and ink.shelf is not None
    return ink.price / ink.shelf.bottle.low


def test_nothing_is_shown_where_no_price_is_on_file() -> None:
    job = as_enquired(UNPRICED, job_of(LEAST), read_records(CONTENT).as_of)[0]
    made, _ = plan(UNPRICED, job)
    assert made is not None and answered(made).cost is None
    assert "Consumables" not in plan_text(UNPRICED, made) and "EUR" not in plan_text(UNPRICED, made)


@pytest.mark.parametrize("asked", [{"screening": {"asked": "2027-05-05", "answers": "all clear"}}, {"sitting": "2"}])
def test_once_the_client_was_asked_it_is_known_who_and_when(asked: Written) -> None:
    made, report = read({**LEAST, **asked})
    assert made is None and [d.code for d in report] == ["R302"]
    assert all(f"`{key}`" in report[0].help for key in ("client", "artist", "date", "start", "side"))


def test_an_artist_who_is_named_by_nobody_lends_no_pace() -> None:
    made = planned(LEAST)
    assert not made.job.has_an_artist and not made.job.has_a_day
    assert "not named yet" in plan_text(RECORDS, made)
    named = planned({**LEAST, "artist": "mo", "date": "2027-06-01"})
    assert named.job.has_an_artist and named.job.has_a_day


def test_the_demo_has_one_that_a_reader_can_copy() -> None:
    file = Path(CONTENT) / "jobs" / "rope-ladder.yml"
    keys = {line.partition(":")[0] for line in file.read_text("utf-8").splitlines() if line[0] not in "# "}
    assert keys == {"id", "title", "place", "size", "parts"}
