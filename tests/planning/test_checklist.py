"""The boxes of the pause points: what always counts, what this piece asks, and nothing that tells an answer."""

from __future__ import annotations

import copy
import dataclasses
import json
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

import pytest

from generator.planning.as_json import plan_as_data
from generator.planning.checklist import PausePoint, TickBox, WorkOfDay, checklist_of
from generator.planning.plan import JobPlan
from generator.planning.working.scars import read_scars
from generator.planning.working.steps import Step
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.sides import sides_of
from generator.records.checklist import CHECKLIST_FACTS, CHECKLIST_QUOTES, NEVER_YIELDS, THINGS, JobText
from generator.records.conditions import read_condition
from generator.records.families import LISTED, Records
from generator.records.hygiene import MOST_AT_A_PAUSE
from generator.records.jobs import Job
from generator.records.located import read_located
from generator.records.quoting import fill_in
from generator.records.reading import read_family
from tests.planning.demo import (
    CONTENT,
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
    with_entry,
    with_limits,
    written,
)


@cache
def plans() -> dict[str, JobPlan]:
    """The plan of each demo job that is worked."""
    return {job: plan for job in JOBS if (plan := demo(job)).work is not None}


PACKED = part("block", lines=None, focal="yes", colours=[{"ink": "rust", "technique": "packing", "area": "4 cm²"}])


def boxes(points: Iterable[PausePoint]) -> Iterator[TickBox]:
    for point in points:
        yield from (*point.boxes, *point.more)


def of(plan: JobPlan) -> list[TickBox]:
    assert plan.work is not None, plan.verdict.heading
    return list(boxes(plan.work.checklist))


def texts(plan: JobPlan) -> list[str]:
    return [box.text for box in of(plan)]


def without(plan: JobPlan, job: Job, steps: tuple[Step, ...] | None = None) -> list[TickBox]:
    """The boxes of the same sitting for a job that lacks something; the tray is the sitting's, counted again."""
    assert plan.work is not None
    today = plan.work.at_hand
    kept = today.steps if steps is None else steps
    inks = {step.ink.id for step in kept}
    allergens = {allergy.to for allergy in job.allergies or ()}
    tray = dataclasses.replace(
        today.tray,
        inks=tuple(poured for poured in today.tray.inks if poured.ink.id in inks),
        supplies=tuple(
            counted if allergens & set(counted.supply.contains or ()) else dataclasses.replace(counted, instead="")
            for counted in today.tray.supplies
        ),
    )
    coming = plan.work.next_sitting
    again = plan.work.touch_up.answer.opens if coming is None else coming.earliest
    day = WorkOfDay(kept, tray, today.timetable.stencil is not None, coming is None, again)
    return list(boxes(checklist_of(RECORDS, job, read_scars(RECORDS, job), day)))


def gone(plan: JobPlan, job: Job, steps: tuple[Step, ...] | None = None) -> tuple[set[TickBox], set[TickBox]]:
    """The boxes that are there no more, and those that are new."""
    before, after = set(of(plan)), set(without(plan, job, steps))
    return before - after, after - before


def test_removing_one_thing_removes_exactly_its_boxes() -> None:
    tried: dict[str, int] = {}
    wrong = []
    for name, plan in plans().items():
        job = plan.job
        assert gone(plan, job) == (set(), set()), name
        for key, each in (
            ("scars", "scar"),
            ("moles", "mole"),
            ("existing_tattoos", "tattoo"),
            ("allergies", "swap"),
        ):
            things = getattr(job, key) or ()
            for number, thing in enumerate(things):
                left = (*things[:number], *things[number + 1 :])
                lost, new = gone(plan, job.model_copy(update={key: left}))
                tried[each] = tried.get(each, 0) + 1
                mine = _boxes_of(plan, each, thing, left)
                # A tattoo that nothing covers today has no box.
                if (lost, new) != (mine, set()) or not (mine or each == "tattoo"):
                    wrong.append((name, key, number, lost ^ mine, new))
        assert plan.work is not None
        steps = plan.work.at_hand.steps
        for poured in plan.work.at_hand.tray.inks:
            kept = tuple(step for step in steps if step.ink.id != poured.ink.id)
            lost, new = gone(plan, job, kept)
            machines = {step.setting.machine.name for step in kept}
            mine = {
                box
                for box in of(plan)
                if (box.step.for_each in ("ink", "mix") and box.of == poured.ink.name)
                or (box.step.for_each == "machine" and box.of not in machines)
            }
            # A machine that was set for this ink first is set for another now: its box has other words.
            reset = {box for box in lost - mine if box.step.for_each == "machine"}
            if lost - reset != mine or {box.of for box in new} != {box.of for box in reset}:
                wrong.append((name, "ink", poured.ink.id, lost ^ mine, new))
            if poured.ink.mixed is not None:
                tried["mix"] = tried.get("mix", 0) + 1
        for machine in {step.setting.machine.id: step.setting.machine for step in steps}.values():
            kept = tuple(step for step in steps if step.setting.machine.id != machine.id)
            lost, new = gone(plan, job, kept)
            inks = {step.ink.name for step in kept}
            mine = {
                box
                for box in of(plan)
                if (box.step.for_each == "machine" and box.of == machine.name)
                or (box.step.for_each in ("ink", "mix") and box.of not in inks)
            }
            tried["machine"] = tried.get("machine", 0) + 1
            # What lies under a part that is not worked any more is free, and its box says so, or is gone with it.
            crossed = {box for box in lost - mine if box.step.for_each in ("scar", "tattoo")}
            freed = {box.of for box in crossed if box.step.for_each == "scar"}
            if lost - crossed != mine or {box.of for box in new} != freed:
                wrong.append((name, "machine", machine.id, lost ^ mine, new))
    assert wrong == []
    assert set(tried) == {"scar", "mole", "tattoo", "swap", "mix", "machine"} and min(tried.values()) > 0, tried


def _boxes_of(plan: JobPlan, each: str, thing: object, left: tuple[object, ...]) -> set[TickBox]:
    """The boxes of one scar or mole, or those of the articles that only this allergy takes off the tray."""
    found = {box for box in of(plan) if box.step.for_each == each}
    if each in ("scar", "tattoo"):
        return {box for box in found if box.of == str(thing.id)}  # type: ignore[attr-defined]
    if each == "mole":
        at = " mm, ".join(f"{side.low:g}" for side in thing.at) + " mm"  # type: ignore[attr-defined]
        return {box for box in found if box.of.replace("\N{NO-BREAK SPACE}", " ") == at}
    others = {allergy.to for allergy in left}  # type: ignore[attr-defined]
    word = thing.to  # type: ignore[attr-defined]
    articles = {
        supply.name
        for supply in RECORDS.supplies.values()
        if word in (supply.contains or ()) and not others & set(supply.contains or ())
    }
    own = {box for box in of(plan) if box.step.for_each == "allergy" and box.of == word}
    return {box for box in found if box.of in articles} | own


def test_a_supervisor_has_a_box_and_nothing_else_has_changed() -> None:
    alone, watched = (planned(simple(artist="quill", **more)) for more in ({}, {"supervisor": "mo"}))
    assert set(texts(watched)) - set(texts(alone)) == {"Mo is at the chair and watches the whole time"}
    assert set(texts(alone)) <= set(texts(watched))


def test_what_never_yields_is_on_every_sheet_and_on_its_first_one() -> None:
    crowded = planned(_crowded())
    for name, plan in (*plans().items(), ("crowded", crowded)):
        assert plan.work is not None
        here = {box.step.standing for point in plan.work.checklist for box in point.boxes}
        assert set(NEVER_YIELDS) <= here, name
        assert all(len(point.boxes) <= MOST_AT_A_PAUSE for point in plan.work.checklist), name


def _crowded() -> Written:
    """A piece that asks more than its pause points hold."""
    return simple(
        artist="mo",
        allergies=["adhesive", "latex"],
        scars=[scar(id=f"s{n}", **{"from": ["2 mm", f"{n} mm"], "to": ["9 mm", f"{n} mm"]}) for n in range(1, 7)],
        moles=[{"at": ["95 mm", f"{n} mm"], "keep": "2 mm"} for n in range(10, 60, 10)],
        parts=[part("lamp", focal="yes", colours=["black-shade", "wash-dark", "wash-mid", "signal-red"])],
    )


def test_what_a_pause_does_not_hold_is_on_a_second_sheet_and_nothing_is_lost() -> None:
    plan = planned(_crowded())
    sheet = sheet_of(RECORDS, plan)
    sides = sides_of(sheet)
    printed = {(pause.title, side.sheet): pause for side in sides for pause in side.more}
    printed |= {(p.title, side.sheet): p for side in sides if "pauses" in side.blocks for p in sheet.pauses}
    assert {sheet for title, sheet in printed if title.startswith("More to tick")} == {2}
    assert {sheet for title, sheet in printed if not title.startswith("More to tick")} == {1}
    shown = [item for pause in printed.values() for item in pause.items]
    assert sorted(shown) == sorted(texts(plan)) and len(shown) > 3 * MOST_AT_A_PAUSE - 5
    first = next(pause for (title, _), pause in printed.items() if title == "Before the first line")
    more = next(p for (title, _), p in printed.items() if title == "More to tick before the first line")
    assert first.more == len(more.items) > 0
    # What is usual goes before what this piece asks.
    assert plan.work is not None
    for point in plan.work.checklist:
        assert not point.more or "usual" not in {box.step.standing for box in point.boxes}


def test_the_terminal_and_the_data_of_a_plan_hold_every_box() -> None:
    plan = planned(_crowded())
    text = plan_text(RECORDS, plan)
    assert [one for one in texts(plan) if f"[ ] {one}" not in text] == []
    points = plan_as_data(plan)["work"]["checklist"]
    assert [b["text"] for p in points for b in (*p["boxes"], *p["more"])] == texts(plan)
    assert json.dumps(points) and {b["step"] for p in points for b in p["boxes"]} <= set(RECORDS.hygiene)


def test_what_a_piece_asks_is_said_in_its_own_words() -> None:
    found = texts(demo("keepers-lantern"))
    expected = (
        "Station mirrored for Mo’s left hand",
        "No barrier film here: use plain bags and sleeves",
        "Dark wash: 1 Shading black + 2 sterile water, then thrown away",
    )
    assert [one for one in expected if one not in found] == []
    assert any(one.startswith("Kettle: needle seen; first 3.5\u00a0mm, ") for one in found), found
    assert any(one.startswith("Scar s1 ") for one in found)
    assert any(one.startswith("Signal red: allergic reactions") for one in texts(planned(_crowded())))
    assert any("on its arc" in one for one in texts(demo("gear-band"))), texts(demo("gear-band"))
    assert not any("on its arc" in one or "mirrored" in one for one in texts(demo("tide-table")))


def test_a_sitting_has_the_boxes_of_its_own_day() -> None:
    """The clock tower takes several sittings; a later one that runs no lines places no stencil."""
    first = written("clock-tower")
    count = len(demo("clock-tower").work.sittings)  # type: ignore[union-attr]
    later = {**first, "sitting": str(count), "last_worked": "2026-06-01"}
    begun, ended = texts(demo("clock-tower")), texts(planned(later))
    assert any(text.startswith("Next sitting agreed, from 20") for text in begun)
    assert any(text.startswith("Touch-up agreed, from 20") for text in ended)
    stencil = "Stencil dry, client has said yes to it"
    assert stencil in begun and stencil not in ended


def test_an_answer_that_has_aged_is_asked_again_whatever_it_was() -> None:
    asked = [text for text in texts(planned(simple())) if text.startswith("Asked too: ")]
    assert asked == ["Asked too: new spots, sun on the area"]
    older = changed(simple(), "screening", "asked", to="2027-04-20")
    assert any(text.startswith("Asked too: new medicine, ") for text in texts(planned(older)))
    fresh = changed(simple(), "screening", "asked", to="2027-05-12")
    assert not any(text.startswith("Asked too: ") for text in texts(planned(fresh)))


def test_no_box_looks_at_an_answer_or_at_the_cause_of_a_scar() -> None:
    names = {*CHECKLIST_FACTS, *CHECKLIST_QUOTES}
    assert not {name for name in names if name.startswith("answer.") or name in ("scar.after", "scar.scale")}
    seen = {tuple(texts(planned(simple(scars=[scar(after=after)])))) for after in ("injury", "surgery", "burn")}
    assert len(seen) == 1
    # A rule of the studio's own that rests on an answer adds a box's words, and none that tell it.
    when = read_condition(read_located("{answer.changed-mole: no}", "a rule")[0])
    records = with_entry("scar-rules", "scar-graft", when=when, verdict="care", today="ask the heart doctor")
    plan = planned({**explicit_answers(simple()), "scars": [_crossing()], "parts": _two_parts()}, records)
    found = [box.text for box in of(plan) if box.of == "s1"]
    assert found and "as the consent file says" in found[0] and "heart" not in found[0]


def _crossing() -> Written:
    return scar(**{"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]})


def _two_parts() -> list[Written]:
    return [part("ground", role="filler", detail="broad"), part("lamp", (60, 60, 30, 30), focal="yes")]


def test_every_fact_and_every_quote_is_filled_in_for_a_job() -> None:
    """Each of them once in a box of a job that has one of every thing; none is left as it was typed."""
    records = RECORDS
    for name in THINGS:
        own = [q for q in CHECKLIST_QUOTES if q.partition(".")[0] in (name, "job")]
        tick = JobText.at("; ".join(f"{{{{ {quote} }}}}" for quote in own), RECORDS.studio.name.place)  # type: ignore[attr-defined]
        records = _with_step(records, f"try-{name}", tick, name)
    old = {"id": "o1", "box": ["90 mm", "90 mm", "8 mm", "8 mm"], "darkness": "light", "wish": "leave", "laser": "none"}
    more = {"allergies": ["adhesive", {"to": "propolis", "checked": CHECKED}], "existing_tattoos": [old]}
    plan = planned({**_crowded(), **more}, records)
    tried = [box for box in of(plan) if box.step.id.startswith("try-")]
    assert {box.step.for_each for box in tried} == set(THINGS)
    assert not any("{{" in box.text for box in tried)


CHECKED = {"not_on_tray": "yes", "by": "tilde", "on": "2027-05-12"}


def _with_step(records: Records, name: str, tick: str, each: str) -> Records:
    like = RECORDS.hygiene["client-mole"]
    made = like.model_copy(update={"id": type(like.id)(name), "tick": tick, "for_each": each, "when": None})
    return dataclasses.replace(records, hygiene={**records.hygiene, name: made})


def test_a_condition_that_cannot_be_known_has_its_box() -> None:
    when = read_condition(read_located("{scar.width: below 3 mm}", "a step")[0], CHECKLIST_FACTS, False)
    records = with_entry("hygiene", "client-scar-free", when=when)
    for width, there in (("2 mm", True), ("4 mm", False), ("2–4 mm", True)):
        found = texts(planned(simple(scars=[scar(width=width)]), records))
        assert any(text.startswith("Scar s1 stays free") for text in found) is there, width


def test_an_apprentice_works_only_beside_an_artist_who_is_named() -> None:
    job = copy.deepcopy(simple(artist="bram", parts=[PACKED]))
    named, allowed = {**job, "supervisor": "quill"}, with_limits(apprentice_pieces="supervised")
    watched = planned(named, allowed)
    assert watched.verdict.level == "care" and "Quill is at the chair" in " ".join(texts(watched))
    # An artist who is named answers for no authority and no insurer.
    assert RECORDS.studio.limits.apprentice_pieces == "ask"
    assert (
        planned(named).verdict.level == planned(named, with_limits(apprentice_pieces="never")).verdict.level == "wait"
    )
    for supervisor in (None, "bram", "tilde"):
        other = job if supervisor is None else {**job, "supervisor": supervisor}
        for records in (RECORDS, allowed):
            assert planned(other, records).verdict.level == "wait", supervisor


@pytest.mark.parametrize(
    ("right", "wrong", "code"),
    [
        ("for_each: mole, tick", "tick", "R317"),
        ("{{ mole.keep }} ring", "{{ mole.kepe }} ring", "H701"),
        ("when: {job.hand: left}", "when: {answer.of-age: yes}", "C502"),
        ("when: {job.hand: left}", "when: {scar.itch: yes}", "R317"),
        ("when: {job.hand: left}", "when: {job.hand: lefty}", "R307"),
        ("standing: sharps bin,", "standing: sharps bin, when: {job.hand: left},", "R317"),
        ("lasts: 40–60 s, source: who-handwash,", "source: who-handwash, when: {job.hand: left},", "R317"),
    ],
)
def test_a_box_that_cannot_be_is_a_mistake_at_its_line(tmp_path: Path, right: str, wrong: str, code: str) -> None:
    text = (CONTENT / "hygiene.yml").read_text("utf-8")
    assert text.count(right) == 1
    file = tmp_path / "hygiene.yml"
    file.write_text(text.replace(right, wrong), "utf-8")
    (family,) = [one for one in LISTED if one.name == "hygiene"]
    (found,) = read_family(file, family, "").report
    line = text[: text.index(right)].count("\n") + 1
    assert found.code == code and abs(found.place.line - line) <= 2, found


def test_a_box_may_quote_the_records_and_the_job_and_is_read_twice_alike() -> None:
    like = RECORDS.hygiene["client-mole"]
    tick = JobText.at("{{ mole.keep }} ring, {{ values.sharps-full.is }}", like.id.place)
    step = like.model_copy(update={"tick": tick})
    once, report = fill_in(dataclasses.replace(RECORDS, hygiene={"client-mole": step}))
    twice, again = fill_in(once)
    assert report == again == () and once.hygiene["client-mole"].tick == "{{ mole.keep }} ring, 75\u00a0%"
    assert twice.hygiene["client-mole"].tick == once.hygiene["client-mole"].tick


def test_a_box_of_a_scar_is_a_few_words_and_no_sentences() -> None:
    cares = [rule for rule in RECORDS.scar_rules.values() if rule.verdict == "care"]
    assert [rule.id for rule in cares if rule.today is None] == []
    crossed = planned(
        simple(
            scars=[scar(**{"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"], "wish": "does not mind"})],
            parts=[
                part("lamp", lines=[{"needle": "1003RL", "length": "90 mm"}]),
                part("post", (70, 70, 20, 20), focal="yes"),
            ],
        )
    )
    (box,) = (text for text in texts(crossed) if text.startswith("Scar s1 "))
    assert "fine lines broader, or beside it" in box and "said yes" in box and ". " not in box
