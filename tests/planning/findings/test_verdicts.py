"""May it go ahead, why, and what is said about it."""

from __future__ import annotations

import dataclasses
import datetime
import re

import pytest

from generator.origins import NOWHERE
from generator.planning.as_json import plan_as_data
from generator.planning.findings.skin import scar_findings
from generator.planning.findings.states import State
from generator.planning.findings.verdict import RANK, Finding, Level, Verdict, verdict_of
from generator.planning.plan import JobPlan
from generator.quantities import written as quantity
from generator.records.conditions import read_condition
from generator.records.located import read_located
from generator.records.rules import ScarRule
from tests.planning.demo import (
    JOBS,
    RECORDS,
    Written,
    changed,
    demo,
    explicit_answers,
    part,
    planned,
    scar,
    simple,
    try_plan,
    with_entry,
    with_limits,
    written,
)


def verdict(**changes: object) -> tuple[str, bool]:
    made = planned(simple(**changes))
    return made.verdict.level, made.verdict.settled


def found(made: JobPlan, about: str) -> Finding:
    (finding,) = (f for f in made.findings if f.about == about)
    return finding


@pytest.mark.parametrize(
    ("job", "level", "heading"),
    [
        ("tide-table", "clear", "Clear to start"),
        ("keepers-lantern", "care", "With care"),
        ("diving-bell", "clear", "Clear to start"),
        ("sextant", "clear", "Clear to start"),
        ("signal-box", "care", "With care"),
        ("paper-boat", "wait", "Wait until 2027-07-18"),
        ("orrery", "doctor", "Ask a doctor first"),
        ("stairwell", "not here", "Not here"),
    ],
)
def test_every_demo_job_has_the_verdict_it_was_made_for(job: str, level: str, heading: str) -> None:
    made = demo(job)
    assert (made.verdict.level, made.verdict.settled, made.verdict.heading) == (level, True, heading)


def test_every_finding_names_what_it_is_about_and_the_field_that_found_it() -> None:
    silent = dict.fromkeys(("screening", "allergies", "scars", "moles", "existing_tattoos", "numbing", "girth"))
    found = [f for made in (*map(demo, JOBS), planned(simple(**silent, artist="bram"))) for f in made.findings]
    assert {"note", "care", "wait", "doctor", "not here"} == {f.level for f in found}
    assert [f.reason for f in found if not (f.about and f.rule and f.reason and f.remedy)] == []


@pytest.mark.parametrize("job", JOBS)
def test_a_plan_that_may_not_go_ahead_has_reasons_and_no_work(job: str) -> None:
    made = demo(job)
    assert (made.work is not None) == (made.verdict.level in ("clear", "care"))
    assert (plan_as_data(made)["work"] is None) == (made.work is None)
    if made.work is None:
        reasons = [f for f in made.findings if RANK[f.level] >= RANK["wait"]]
        assert reasons and all(f.reason and f.remedy for f in reasons)


def test_clear_says_what_it_does_not_say() -> None:
    assert demo("tide-table").verdict.meaning == "Nothing on file against it. Look at the skin today."


@pytest.mark.parametrize("level", ["care", "wait", "doctor", "not here"])
def test_what_is_open_is_never_called_settled(level: Level) -> None:
    made = verdict_of([Finding(level, "", "", "", NOWHERE, asks=True)])
    assert not made.settled and "ask" in made.heading and "every answer" in made.meaning
    assert made.state is (State.CARE if level == "care" else State.ASK)
    # An open point that could only mean care, such as a girth nobody taped, is mended at the chair.
    assert made.goes_ahead == (level == "care") == ("before the first line" in made.meaning)


def test_the_worst_finding_decides() -> None:
    levels: list[Level] = ["note", "care", "doctor", "wait"]
    assert verdict_of(Finding(level, "", "", "", NOWHERE) for level in levels).level == "doctor"
    assert verdict_of([Finding("note", "", "", "", NOWHERE)]) == Verdict("clear", True, None)


def test_the_longest_wait_counts_and_one_without_a_day_is_longer_than_any() -> None:
    early, late = datetime.date(2027, 6, 1), datetime.date(2027, 7, 1)
    waits = [Finding("wait", "", "", "", NOWHERE, until=day) for day in (late, early)]
    assert verdict_of(waits) == Verdict("wait", True, late)
    without = verdict_of([*waits, Finding("wait", "", "", "", NOWHERE)])
    assert without == Verdict("wait", True, None)
    open_ = verdict_of([*waits, Finding("wait", "", "", "", NOWHERE, asks=True)])
    assert open_ == Verdict("wait", False, None, questions=1, of_client=True)


# Screening.


def test_silence_about_screening_is_the_worst_answer() -> None:
    assert verdict(screening=None) == ("not here", False)


def test_an_all_clear_that_is_older_than_a_question_does_not_cover_it() -> None:
    # `changed-mole` has been asked since 2027-01-11.
    job = simple(date="2027-01-20", screening={"asked": "2027-01-10", "answers": "all clear"})
    finding = found(planned(job), "screening.asked")
    assert finding.asks and finding.level == "doctor"
    assert finding.reason == "1 question was added to the screening after 2027-01-10: ask it anew."
    assert planned(changed(job, "screening", "asked", to="2027-01-11")).verdict.level == "clear"
    # Whoever has answered it since needs not be asked again.
    answers = {**explicit_answers(job)["screening"]["answers"], "changed-mole": "no"}
    assert planned(changed(job, "screening", "answers", to=answers)).verdict.level == "clear"


def test_what_is_not_asked_anew_is_a_care_and_one_sentence_says_all_that_was_added() -> None:
    job = simple(date="2027-01-20", screening={"asked": "2027-01-10", "answers": "all clear"})
    told = found(planned(job, with_entry("screening", "changed-mole", ask_anew=False)), "screening.asked")
    assert (told.level, told.asks) == ("care", False)
    assert told.reason == "1 question was added to the screening after 2027-01-10, and the studio does not ask it anew."
    one_anew = with_entry("screening", "sunburn", added=datetime.date(2027, 1, 12), ask_anew=False)
    both = planned(job, one_anew)
    assert [f.reason for f in both.findings if f.about == "screening.asked"] == [
        "2 questions were added to the screening after 2027-01-10: ask 1 of them anew, as the studio decided."
    ]
    assert both.verdict.level == "doctor" and not both.verdict.settled


@pytest.mark.parametrize(("asked", "level"), [("2027-04-12", "clear"), ("2027-04-11", "not here")])
def test_screening_counts_for_thirty_days(asked: str, level: str) -> None:
    # The house's own limit: 30 days before 2027-05-12 is 2027-04-12.
    made = planned(simple(screening={"asked": asked, "answers": "all clear"}))
    assert (made.verdict.level, made.verdict.settled) == (level, level == "clear")


@pytest.mark.parametrize(
    ("question", "answer", "level", "until"),
    [
        ("of-age", "no", "not here", None),
        ("consent-signed", "no", "wait", None),
        ("diabetes", "yes", "doctor", None),
        ("diabetes", "2020-01-01", "doctor", None),  # a last day clears nothing where no wait is recorded
        ("sunburn", "yes", "wait", None),
        ("sunburn", "2027-05-01", "wait", "2027-05-15"),  # 14 days
        ("sunburn", "2027-04-28", "clear", None),  # over on the day
        ("isotretinoin", "2026-11-13", "wait", "2027-05-13"),  # 6 months
        ("isotretinoin", "2026-11-12", "clear", None),
        ("recent-work", "2027-04-15", "wait", "2027-05-13"),  # 4 weeks
        ("of-age", "2027-05-01", "not here", None),
    ],
)
def test_answers(question: str, answer: str, level: str, until: str | None) -> None:
    told = {str(q.id): q.clear for q in RECORDS.screening.values()} | {question: answer}
    made = planned(simple(screening={"asked": "2027-05-05", "answers": told}))
    assert made.verdict.level == level and made.verdict.settled
    assert (made.verdict.until.isoformat() if made.verdict.until else None) == until


@pytest.mark.parametrize("limit", ["same_skin_again", "after_laser"])
def test_a_question_waits_as_long_as_the_limit_that_it_names(limit: str) -> None:
    longer = with_limits(**{limit: quantity("33 days")})
    asked = longer.screening["recent-work"].model_copy(update={"wait_limit": limit})
    records = dataclasses.replace(longer, screening={**longer.screening, "recent-work": asked})
    told = {str(q.id): q.clear for q in RECORDS.screening.values()} | {"recent-work": "2027-04-10"}
    made = planned(simple(screening={"asked": "2027-05-05", "answers": told}), records)
    # 33 days after 10 April, which has 30: 13 May, the day after the sitting.
    assert (made.verdict.level, made.verdict.until) == ("wait", datetime.date(2027, 5, 13))


@pytest.mark.parametrize("question", list(RECORDS.screening))
def test_every_question_that_is_open_stops_the_work(question: str) -> None:
    told = {str(q.id): q.clear for q in RECORDS.screening.values()} | {question: "unknown"}
    made = planned(simple(screening={"asked": "2027-05-05", "answers": told}))
    assert made.verdict.level == RECORDS.screening[question].otherwise and not made.verdict.settled


# Allergies.


def test_silence_about_allergies_is_a_question() -> None:
    assert verdict(allergies=None) == ("wait", False)


def test_an_allergy_with_nothing_to_take_instead_waits() -> None:
    records = with_entry("supplies", "dressing-film", instead=None)
    assert planned(simple(allergies=["adhesive"]), records).verdict.level == "wait"
    assert planned(simple(allergies=["adhesive"])).verdict.level == "care"


def test_an_allergy_that_no_record_knows_is_said() -> None:
    finding = found(planned(simple(allergies=["propolis"])), "allergies.propolis")
    assert finding.level == "wait" and finding.asks and "no record says" in finding.reason
    assert finding.remedy.startswith("Read the labels")


@pytest.mark.parametrize(("word", "meant"), [("laytex", "latex"), ("lanoline", "lanolin"), ("adhesives", "adhesive")])
def test_a_word_that_is_nearly_one_of_a_label_is_asked_about(word: str, meant: str) -> None:
    finding = found(planned(simple(allergies=[word])), f"allergies.{word}")
    assert finding.level == "wait" and finding.remedy.startswith(f"Did you mean “{meant}”? If not: read the labels")


# Scars.


def test_silence_about_scars_and_moles_is_a_question() -> None:
    assert verdict(scars=None) == ("not here", False)
    assert verdict(moles=None) == ("wait", False)


def test_an_old_quiet_scar_that_nothing_crosses_is_no_finding() -> None:
    assert planned(simple(scars=[scar()])).findings == ()


@pytest.mark.parametrize(
    ("item", "value", "level"),
    [
        ("itch", "yes", "doctor"),
        ("pain", "yes", "doctor"),
        ("growth", "yes", "doctor"),
        ("colour", "pink", "wait"),
        ("feel", "firm", "wait"),
        ("feel", "hard", "doctor"),
        ("type", "keloid", "not here"),
        ("type", "graft", "doctor"),
        ("after", "skin cancer", "not here"),
        ("after", "radiotherapy", "doctor"),
        ("wound", "2026-06", "wait"),
        ("wound", "2025-06", "care"),
        ("wish", "cover", "care"),
    ],
)
def test_a_date_alone_never_clears_a_scar(item: str, value: str, level: str) -> None:
    assert planned(simple(scars=[scar(**{item: value})])).verdict.level == level


@pytest.mark.parametrize(
    ("item", "level"),
    [
        ("type", "not here"),
        ("height", "wait"),
        ("after", "not here"),
        ("wound", "wait"),
        ("colour", "wait"),
        ("feel", "doctor"),
        ("itch", "doctor"),
        ("pain", "doctor"),
        ("growth", "doctor"),
        ("wish", "wait"),
    ],
)
@pytest.mark.parametrize("silent", [True, False])
def test_an_item_that_nobody_looked_at_is_asked(item: str, level: str, silent: bool) -> None:
    """It counts as the worst that it could turn out to be."""
    value = None if silent else "unknown"
    made = planned(simple(scars=[scar(**{item: value})]))
    finding = found(made, f"scars.s1.{item}")
    assert finding.asks and finding.level == level
    assert not made.verdict.goes_ahead and not made.verdict.settled


@pytest.mark.parametrize(
    ("wound", "day", "level"),
    [
        ("2026-05", "2027-05-30", "wait"),  # known by month: the last day of it counts
        ("2026-05", "2027-05-31", "care"),
        ("2026-05-01", "2027-05-01", "care"),
        ("2026-05-01", "2027-04-30", "wait"),
        ("2027-05", "2027-05-12", "wait"),  # this very month
    ],
)
def test_a_wound_known_by_month_counts_from_its_last_day(wound: str, day: str, level: str) -> None:
    job = simple(date=day, screening={"asked": day, "answers": "all clear"}, scars=[scar(wound=wound)])
    assert planned(job).verdict.level == level


def test_a_wait_until_a_day_names_a_day_that_is_still_to_come() -> None:
    # A rule that waits for an age may hold for another reason, long after that age.
    rule = RECORDS.scar_rules["scar-coloured"]
    records = with_entry("scar-rules", "scar-coloured", wait_until_age=quantity("12 months"))
    assert isinstance(rule, ScarRule) and rule.wait_until_age is None
    made = planned(simple(scars=[scar(colour="red")]), records)
    assert made.verdict == Verdict("wait", True, None) and made.verdict.heading == "Wait until it is cleared"
    young = planned(simple(scars=[scar(colour="red", wound="2026-08-01")]), records)
    assert young.verdict.until == datetime.date(2027, 8, 1)


@pytest.mark.parametrize("day", ["2025-02-27", "2025-02-28", "2025-03-01"])
def test_leap_years_do_not_wait_until_today(day: str) -> None:
    job = simple(date=day, screening={"asked": day, "answers": "all clear"}, scars=[scar(wound="2024-02-29")])
    until = planned(job).verdict.until
    assert until is None or until.isoformat() > day


def crossed(**changes: object) -> JobPlan:
    """A part of which the scar lies in the middle."""
    over = {"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"], **changes}
    lamp = part("lamp", (60, 60, 30, 30), focal="yes")
    return planned(simple(parts=[part("ground", role="filler", detail="broad"), lamp], scars=[scar(**over)]))


def test_crossing_a_scar_is_slower_and_gentler() -> None:
    made = crossed()
    assert made.verdict.level == "care" and made.scars[0].crossed_by == ("ground",)
    assert made.work is not None
    (over,) = next(step for step in made.work.steps if step.part.id == "ground").over
    assert over.slower is not None and over.slower.high == 25
    assert over.passes is not None and over.passes.low == 2


def test_a_ridge_as_high_as_the_limit_is_not_crossed() -> None:
    # Sullivan 1990: the band of 2–5 mm begins at 2 mm.
    assert crossed(type="raised", height="1.9 mm").verdict.level == "care"
    assert crossed(type="raised", height="2 mm").verdict.level == "wait"
    assert crossed(type="raised", height="1–3 mm").verdict.state is State.ASK


def test_a_focal_part_may_not_lie_over_a_scar() -> None:
    over = {"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]}
    focal = simple(scars=[scar(**over)])
    assert planned(focal).verdict.level == "wait"
    # Marking nothing as focal does not clear it: the main part then counts.
    unmarked = changed(focal, "parts", 0, "focal")
    assert planned(unmarked).verdict.level == "wait"
    assert any("focal point" in f.reason for f in planned(unmarked).findings if f.level == "note")


def test_a_scar_of_no_length_is_still_there() -> None:
    assert crossed(**{"to": ["30 mm", "40 mm"]}).scars[0].crossed_by == ("ground",)


def test_a_scar_counts_at_its_widest() -> None:
    # The scar lies 15 mm above the lamp.
    assert planned(simple(scars=[scar(width="2–40 mm")])).scars[0].crossed_by == ("lamp",)
    assert planned(simple(scars=[scar(width="2–20 mm")])).scars[0].crossed_by == ()


@pytest.mark.parametrize(
    ("asked", "answers", "level"),
    [
        ("2027-05-05", "all clear", None),
        ("2027-05-05", {"changed-mole": "no"}, None),
        ("2027-05-05", {"changed-mole": "yes"}, "doctor"),
        ("2027-05-05", {"changed-mole": "unknown"}, "doctor"),
        ("2027-01-10", "all clear", "doctor"),  # the question is a day younger
        ("2027-01-11", "all clear", None),
        (None, None, "doctor"),
    ],
)
def test_a_rule_for_scars_may_hang_on_an_answer(asked: str | None, answers: object, level: str | None) -> None:
    when = read_condition(read_located("{answer.changed-mole: yes}", "a rule")[0])
    records = with_entry("scar-rules", "scar-graft", when=when)
    screening = None if asked is None else {"asked": asked, "answers": answers}
    made = planned(simple(scars=[scar()], screening=screening, date="2027-05-12"), records)
    found = list(scar_findings(records, made.job, made.scars[0]))
    levels = [f.level for f in found]
    assert levels == ([level] if level else [])
    if answers != {"changed-mole": "yes"}:
        assert all(f.asks for f in found)


@pytest.mark.parametrize("wish", ["work around", "leave"])
def test_a_scar_that_stays_free_is_not_crossed(wish: str) -> None:
    assert crossed(wish=wish).verdict.level == "wait"


# Moles.


@pytest.mark.parametrize(
    ("right", "keep", "level"),
    [(68, "8 mm", "clear"), (67, "8 mm", "wait"), (69, "10 mm", "wait"), (70, "10 mm", "clear"), (67, "5 mm", "care")],
)
def test_moles_are_kept_clear(right: int, keep: str, level: str) -> None:
    # The lamp ends at 60 mm; the house keeps 8 mm. A shorter distance is said.
    assert planned(simple(moles=[{"at": [f"{right} mm", "40 mm"], "keep": keep}])).verdict.level == level


@pytest.mark.parametrize("right", [67, 68, 95])
@pytest.mark.parametrize("said", [{}, {"keep": "unknown"}])
def test_a_distance_that_nobody_wrote_down_is_asked_for(right: int, said: Written) -> None:
    # It may be larger than the house's own, whatever that allows.
    made = planned(simple(moles=[{"at": [f"{right} mm", "40 mm"], **said}]))
    asked = found(made, "moles.1.keep")
    assert made.verdict.level == "wait" and asked.asks
    assert asked.remedy == "Look at it, and write down how far: 8\u00a0mm or more."


def test_a_mole_is_told_in_the_studios_own_units() -> None:
    records = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"units": "imperial"}))
    finding = found(planned(simple(moles=[{"at": ["40 mm", "40 mm"]}]), records), "moles.1")
    assert "5/16\u00a0in" in finding.reason and "mm" not in finding.reason


# People.


@pytest.mark.parametrize(
    ("person", "place", "level"),
    [("bram", "upper-arm-outer", "wait"), ("tilde", "upper-back", "wait"), ("mo", "upper-back", "clear")],
)
def test_who_may_do_it(person: str, place: str, level: str) -> None:
    made = planned(simple(artist=person, place=place, girth={"top": "330 mm", "bottom": "300 mm"}))
    assert made.verdict.level == level


@pytest.mark.parametrize(("place", "level"), [("upper-back", "care"), ("chest-upper", "wait")])
def test_an_apprentice_under_supervision_is_care_where_the_site_allows_it(place: str, level: str) -> None:
    block = part("block", focal="yes", lines=None, colours=[{"ink": "black-line", "area": "4 cm²"}])
    supervised = with_limits(apprentice_pieces="supervised")
    assert RECORDS.sites["upper-back"].apprentice == "supervised"
    watched = simple(artist="bram", supervisor="mo", parts=[block], place=place)
    assert planned(watched, supervised).verdict.level == level
    alone = planned(simple(artist="bram", parts=[block], place=place), supervised)
    assert alone.verdict.level == "wait" and (place != "upper-back" or not alone.verdict.settled)


def test_an_apprentice_works_on_clear_skin_alone_as_their_page_says() -> None:
    block = part("block", focal="yes", lines=None, colours=[{"ink": "black-line", "area": "4 cm²"}])
    watched = simple(artist="bram", supervisor="mo", parts=[block], place="upper-back")
    old = {"id": "o1", "box": ["70 mm", "70 mm", "9 mm", "9 mm"], "darkness": "light", "wish": "leave", "laser": "none"}
    for said, more in (
        ("a scar", {"scars": [scar()]}),
        ("an existing tattoo", {"existing_tattoos": [old]}),
        ("a point that asks for care", {"allergies": ["latex"]}),
        ("a question that nobody has answered", {"allergies": None}),
    ):
        job = {key: value for key, value in {**watched, **more}.items() if value is not None}
        made = planned(job, with_limits(apprentice_pieces="supervised"))
        (why,) = [f.reason for f in made.findings if "Not for an apprentice" in f.reason]
        assert made.verdict.level == "wait" and why.startswith(f"Not for an apprentice: there is {said}"), why


# What the job says against itself.


@pytest.mark.parametrize(
    ("job", "code"),
    [
        (simple(parts=[part("lamp", (61, 20, 40, 40))]), "J611"),
        (simple(parts=[part("lamp", (20, 61, 40, 40))]), "J611"),
        (simple(scars=[scar(wound="2027-05-13")]), "J612"),
        (simple(scars=[scar(wound="2027-06")]), "J612"),
        (simple(screening={"asked": "2027-05-13", "answers": "all clear"}), "J612"),
    ],
)
def test_contradictions_are_one_mistake_each(job: dict[str, object], code: str) -> None:
    made, report = try_plan(job)
    assert made is None and [d.code for d in report] == [code]
    assert report[0].place.line > 1 and report[0].help


# What is printed.


def test_no_health_answer_and_no_cause_of_a_scar_is_printed() -> None:
    # The questions themselves may be named, never what was answered.
    causes = re.compile(
        r"cancer|melanoma|radi|burn\b|surgery|injury|pregnan|nursing|diabet|blood|valve|isotret|"
        r"keloid|immun|epilep|faint|infection",
        re.IGNORECASE,
    )
    for rule in RECORDS.scar_rules.values():
        assert not causes.search(rule.consequence), rule.id
    bad = {"yes": "no", "no": "yes"}
    for question in RECORDS.screening.values():
        told = {str(q.id): q.clear for q in RECORDS.screening.values()} | {str(question.id): bad[question.clear]}
        made = planned(simple(screening={"asked": "2027-05-05", "answers": told}))
        (finding,) = made.findings
        assert not causes.search(finding.reason), question.id
    for cause in ("injury", "surgery", "burn", "skin cancer", "radiotherapy"):
        for finding in crossed(after=cause).findings:
            assert not causes.search(finding.reason + finding.remedy), (cause, finding)


def test_every_finding_rests_on_a_source() -> None:
    for job in (simple(scars=None, moles=None, screening=None, allergies=None), *(written(name) for name in JOBS)):
        for finding in planned(job).findings:
            assert finding.source in RECORDS.sources, finding


def test_findings_stand_worst_first() -> None:
    for name in JOBS:
        ranks = [RANK[f.level] for f in demo(name).findings]
        assert ranks == sorted(ranks, reverse=True)


# What a tired artist must not overlook.


def test_the_narrower_end_of_a_limb_wraps_farther() -> None:
    # 100 mm on a girth of 200 mm is half of the way round.
    for girth in ({"top": "300 mm", "bottom": "200 mm"}, {"top": "200 mm", "bottom": "300 mm"}):
        wrap = planned(simple(place="wrist", girth=girth)).placement.wrap
        assert wrap is not None and wrap.low == wrap.high == pytest.approx(180)


def test_a_gap_that_will_close() -> None:
    tight = planned(simple(parts=[part("lamp", focal="yes", gap="1.1 mm")]))
    assert found(tight, "parts.lamp.gap").level == "care"
    assert planned(simple(parts=[part("lamp", focal="yes", gap="1.2 mm")])).findings == ()


def test_a_limb_that_was_not_taped_is_asked() -> None:
    made = planned(simple(place="wrist"))
    assert found(made, "girth").asks and made.verdict.heading == "With care: one question open, ask first"
    # What is known to want care does not answer it.
    more = planned(simple(place="wrist", allergies=["latex"]))
    assert more.verdict.settled and (more.verdict.heading, more.verdict.meaning) == (
        made.verdict.heading,
        made.verdict.meaning,
    )


def test_a_step_that_is_too_long_for_one_go_carries_its_break_and_needs_no_care() -> None:
    long = part("block", focal="yes", lines=None, colours=[{"ink": "black-line", "area": "24 cm²"}])
    made = planned(simple(parts=[long]))
    assert made.work is not None and made.work.timetable.breaks_within == (1,)
    assert not any("break" in f.reason for f in made.findings)


def test_no_bottle_in_date_is_said_once_for_all_washes_of_it() -> None:
    washes = part("mist", focal="yes", lines=None, colours=["wash-dark", "wash-light"])
    made = planned(simple(date="2028-06-01", screening={"asked": "2028-06-01", "answers": "all clear"}, parts=[washes]))
    assert found(made, "inks.black-shade").reason == "No bottle of Shading black is in date on the day."


def test_three_strong_colours_are_a_note_and_never_more() -> None:
    loud = part("lamp", focal="yes", colours=["signal-red", "lemon", "amber"])
    made = planned(simple(parts=[loud]))
    (finding,) = (f for f in made.findings if "strong" in f.reason)
    assert finding.level == "note" and made.verdict.level == "clear"
