"""How finished work healed: counted by technique, grouping and place, of what was looked at, and no more."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from generator.planning.for_lists import lots_of_worked
from generator.planning.plan import plan
from generator.planning.supplies.tracing import Thing, Trace, letters_of, traces, unreported_reactions
from generator.planning.timing.healed import Healed, Tally, tallies
from generator.press.lists.learning import LEARNING, learning_page
from generator.press.lists.recall import recall_sheets
from generator.press.sheet.afterwards import Afterwards, afterwards_in, healed_as_worked, words_of
from generator.press.sheet.frozen import wrong_steps
from generator.press.words.addresses import lot_address
from generator.press.writing.next_job import Follows, next_job
from generator.records.jobs import Job
from tests.planning.demo import JOBS, RECORDS, Written, job_of, part, read, simple, written
from tests.press.page_at import page_at

LAMP = part("lamp", focal="yes", colours=[{"ink": "brass", "area": "4 cm²"}])
POST = part("post", (60, 60, 30, 30), role="filler")
LOT = "BR-2291"
FINISHED = {"on": "2027-05-12", "took": "90 min", "lots": ["LB-7031", LOT], "ended": "Done."}
LOOKED = {"on": "2027-05-12", "seen": "Settled.", "photo": "F-0900-1"}


def done(*parts: Written, **changes: Any) -> Job:
    """A finished job whose lamp is lined and packed, whose post is lined alone, and how they came out."""
    healed = [{**LOOKED, "parts": list(parts)}] if parts else None
    return job_of(simple(**{"parts": [LAMP, POST], "finished": FINISHED, "healed": healed, **changes}))


def left(job: Job) -> Healed:
    made = healed_as_worked(job, words(job).steps)
    assert made is not None
    return made


def words(job: Job) -> Any:
    made, report = plan(RECORDS, job.model_copy(update={"finished": None, "healed": ()}))
    assert made is not None and made.work is not None, report
    return words_of(RECORDS, made.work)


def tally(family: str, entry: str, *jobs: Job) -> Tally:
    return tallies(RECORDS, [left(job) for job in jobs])[family][entry]


def test_what_nobody_looked_at_is_worked_and_not_held() -> None:
    assert tally("techniques", "lining", done()) == Tally(2, 0, 0, 0, 0, 0, 0)
    assert tally("sites", "upper-back", done()) == Tally(2, 0, 0, 0, 0, 0, 0)


def test_a_blowout_counts_for_the_technique_of_its_step_and_held_for_all() -> None:
    own = [step for step in left(done()).steps if step.part == "lamp" and step.technique == "lining"]
    job = done({"part": "lamp", "came": "spread", "step": f"{own[0].number}"}, {"part": "post", "came": "held"})
    assert tally("techniques", "lining", job) == Tally(2, 2, 1, 0, 0, 1, 0)
    assert tally("techniques", "packing", job) == Tally(1, 0, 0, 0, 0, 0, 0)
    assert tally("sites", "upper-back", job) == Tally(2, 2, 1, 0, 0, 1, 0)


def test_without_its_step_it_counts_by_technique_only_where_there_is_one() -> None:
    job = done({"part": "lamp", "came": "light"}, {"part": "post", "came": "gap"})
    assert tally("techniques", "lining", job) == Tally(2, 1, 0, 0, 1, 0, 0)
    assert tally("sites", "upper-back", job) == Tally(2, 2, 0, 1, 1, 0, 0)


def test_the_needle_that_was_really_used_is_counted() -> None:
    used = {**FINISHED, "steps": [{"step": "1", "needle": "1205RL"}, {"step": "2", "needle": "1205RL"}]}
    job = done({"part": "post", "came": "held"}, finished=used)
    by_grouping = tallies(RECORDS, [left(job)])["groupings"]
    assert by_grouping["1205RL"].worked == 2 and "1207RL" not in by_grouping


def test_a_touch_up_counts_with_the_piece_that_it_goes_over() -> None:
    first = done({"part": "post", "came": "light"})
    again = job_of(
        simple(
            id="later-lamp",
            touch_up="yes",
            last_worked="2027-03-12",
            earlier=[{"job": "signal-lamp", "on": "2027-03-12", "left": "Done."}],
            parts=[POST],
            finished=FINISHED,
        )
    )
    assert tally("techniques", "lining", first, again) == Tally(2, 1, 0, 1, 0, 0, 1)
    assert tally("sites", "upper-back", again, first) == Tally(2, 1, 0, 1, 0, 0, 1)


def test_the_page_says_shares_only_from_as_many_as_are_asked_for() -> None:
    least = RECORDS.studio.limits.healed_from
    seen = [done({"part": "post", "came": "spread"}), *[done({"part": "post", "came": "held"})] * (least - 1)]
    few = learning_page(page_at(LEARNING), {}, [left(job) for job in seen[:3]])
    assert f"nothing is said from fewer than {least}" in few and "1 of 3" in few
    assert "\u00a0% blowouts" not in few
    enough = learning_page(page_at(LEARNING), {}, [left(job) for job in seen])
    assert f"{100 / least:.0f}\u00a0% blowouts" in enough and f"1 of {least}" in enough


def told(job: Job) -> Afterwards:
    made = afterwards_in(words(job), job)
    assert made is not None
    return made


def reacted(**reaction: Any) -> Job:
    healed = [{**LOOKED, "reactions": [{"ink": "brass", "lot": LOT, **reaction}]}]
    return done(healed=healed)


def test_a_reaction_leads_to_the_recall_sheet_and_to_whom_it_is_reported() -> None:
    job = reacted()
    (look,) = told(job).healed
    (one,) = look.reactions
    assert (one.ink, one.lot, one.reported) == (RECORDS.inks["brass"].name, LOT, "not reported yet")
    assert one.recall == lot_address(Thing("inks", "brass", letters_of(LOT)))
    found = traces(RECORDS, [lots_of_worked(RECORDS, job, words(job).steps)])
    sheets = dict(recall_sheets(RECORDS, found, job.date))
    to = RECORDS.studio.reactions_to
    assert (
        to is not None and to in sheets[one.recall] and "A reaction to this lot is on file in 1" in sheets[one.recall]
    )
    others = [address for address, text in sheets.items() if "A reaction to" in text and address != one.recall]
    assert others == [lot_address(Thing("inks", "brass"))]
    (reminder,) = unreported_reactions(RECORDS, job)
    assert reminder.code == "J640" and reminder.level == "reminder"
    assert not list(unreported_reactions(RECORDS, reacted(reported="2027-05-12")))


def test_nobody_on_file_to_report_to_is_asked() -> None:
    studio = RECORDS.studio.model_copy(update={"reactions_to": None})
    records = RECORDS.__class__(**{**RECORDS.__dict__, "studio": studio})
    (reminder,) = unreported_reactions(records, reacted())
    assert "ask the health authority" in reminder.help
    trace: Trace = next(
        t for t in traces(records, [lots_of_worked(records, reacted(), words(reacted()).steps)]) if t.reactions
    )
    assert "ask the health authority" in dict(recall_sheets(records, [trace], reacted().date))[lot_address(trace.thing)]


def test_what_is_seen_healed_was_worked_before_and_is_of_this_job() -> None:
    wrong = [
        ({"healed": [{**LOOKED, "parts": [{"part": "pots", "came": "held"}]}], "finished": FINISHED}, "R350"),
        ({"healed": [{**LOOKED, "reactions": [{"ink": "brass", "lot": "BR-2292"}]}], "finished": FINISHED}, "R351"),
        ({"healed": [LOOKED]}, "R317"),
        ({"healed": [{**LOOKED, "on": "2027-05-11"}], "finished": FINISHED}, "R317"),
    ]
    found = [[d.code for d in read(simple(parts=[LAMP, POST], **changes))[1]] for changes, _ in wrong]
    assert found == [[code] for _, code in wrong]
    job = done({"part": "lamp", "came": "held", "step": "33"})
    (unknown,) = wrong_steps(job, {1: "lamp", 2: "lamp", 3: "post"})
    assert (unknown.code, unknown.found, unknown.expected) == ("J631", "step 33", "one of the steps 1, 2, 3")
    (other,) = wrong_steps(job, {33: "post", 1: "lamp"})
    assert (other.code, other.expected) == ("J631", "one of the steps of lamp: 1")
    assert [d.expected for d in wrong_steps(job, {})] == ["no step: the sheet has none"]
    assert not list(wrong_steps(job, {33: "lamp"}))


def test_a_touch_up_is_begun_with_the_parts_that_need_one() -> None:
    job = done({"part": "lamp", "came": "held"}, {"part": "post", "came": "gap"})
    text = next_job(RECORDS, job, "later-lamp", Follows.TOUCH_UP)
    assert "id: post" in text and "id: lamp" not in text


def test_the_site_counts_the_jobs_that_are_kept_as_they_were_worked(site: Path) -> None:
    text = (site / "reference" / "learning.html").read_text("utf-8")
    finished = [name for name in JOBS if "finished" in written(name)]
    looked_at = [name for name in finished if "healed" in written(name)]
    assert looked_at and f"Of {len(finished)} finished jobs, {len(looked_at)} were looked at healed" in text
    page = (site / "jobs" / "oil-can.html").read_text("utf-8")
    recall = re.search(r'href="\.\./(lots/[^"]+)"', page)
    assert recall and "A reaction to this lot is on file" in (site / recall[1]).read_text("utf-8")
