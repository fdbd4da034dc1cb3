"""Each finding once: a job that trips it, its level, and how it stands on the sheet with source and remedy."""

from __future__ import annotations

import datetime
from typing import Any, NamedTuple

import pytest

from generator.planning.findings.screening import is_open_question
from generator.planning.plan import JobPlan
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.printing import sheet_html
from generator.quantities import written as quantity
from generator.records.families import Records
from tests.planning.demo import RECORDS, Written, explicit_answers, part, planned, scar, simple, with_entry

AS_OF = datetime.date(2027, 5, 1)


class Case(NamedTuple):
    """A job that trips the finding of a rule at a level; with other records where the demo studio has no reason."""

    level: str
    rule: str
    job: Written
    records: Records = RECORDS


def answered(question: str, answer: str) -> Written:
    job = explicit_answers(simple())
    job["screening"]["answers"][question] = answer
    return job


def crossing(focal: bool = False, needle: str = "1207RL", **changes: Any) -> Written:
    """A scar in the middle of a part; the eye rests on another one, where `focal` does not say otherwise."""
    over = {"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"], **changes}
    lines = [{"needle": needle, "length": "300 mm"}]
    ground = part("ground", role="filler", lines=lines, focal="yes" if focal else None)
    lamp = part("lamp", (60, 60, 30, 30), focal="yes")
    return simple(parts=[ground] if focal else [ground, lamp], scars=[scar(**over)])


def inked(
    *inks: str, area: str = "2 cm²", box: tuple[int, int, int, int] = (20, 20, 40, 40), **changes: Any
) -> Written:
    colours = [{"ink": ink, "area": area} for ink in inks]
    return simple(parts=[part("lamp", box, focal="yes", colours=colours)], **changes)


def existing_tattoos(**changes: Any) -> Written:
    base = {
        "id": "o1",
        "box": ["30 mm", "30 mm", "20 mm", "20 mm"],
        "darkness": "medium",
        "wish": "cover",
        "laser": "none",
    }
    return inked("black-shade", existing_tattoos=[{**base, **changes}])


def beside() -> Written:
    star = part("star", (10, 40, 20, 20), lines=[{"needle": "1207RL", "length": "90 mm", "ink": "sand"}])
    sky = part("sky", (32, 30, 40, 40), focal="yes", lines=None, colours=[{"ink": "deep-blue", "area": "4 cm²"}])
    return simple(parts=[star, sky])


NARROW = part(
    "rope",
    (40, 20, 4, 60),
    focal="yes",
    narrowest="4 mm",
    lines=None,
    colours=[{"ink": "umber", "area": "1 cm²", "needle": "1215CM"}],
)
WAIST = {"top": "330 mm", "bottom": "300 mm"}
GIVEN = tuple(one for one in RECORDS.people["quill"].training if one.counts_as == "infection-control")
BOTTLE = RECORDS.inks["black-line"].lots[0]

CASES = {
    # Stop and wait.
    "screening": Case("doctor", "screening.blood-thinners", answered("blood-thinners", "yes")),
    "age not on file": Case("not here", "screening.of-age", answered("of-age", "unknown")),
    "consent not on file": Case("wait", "screening.consent-signed", answered("consent-signed", "unknown")),
    "a skin cancer in the area": Case(
        "not here", "screening.skin-cancer-in-area", answered("skin-cancer-in-area", "yes")
    ),
    "a scar after skin cancer": Case(
        "not here", "scar-rules.scar-after-skin-cancer", simple(scars=[scar(after="skin cancer")])
    ),
    "a keloid": Case("not here", "scar-rules.scar-keloid", simple(scars=[scar(type="keloid")])),
    "a young scar": Case("wait", "scar-rules.scar-young", simple(scars=[scar(wound="2026-10-01")])),
    "a focal point over a scar": Case("wait", "scar-rules.scar-focal", crossing(focal=True)),
    "not healed": Case("wait", "studio.limits.same_skin_again", simple(sitting="2", last_worked="2027-05-01")),
    "a mole in a part": Case(
        "wait", "studio.limits.mole_clearance", simple(moles=[{"at": ["30 mm", "30 mm"], "keep": "8 mm"}])
    ),
    "an apprentice": Case("wait", "techniques.lining.may_apprentice", simple(artist="bram")),
    "old work left free": Case("wait", "jobs.signal-lamp.existing_tattoos.o1.wish", existing_tattoos(wish="leave")),
    "a barred ink": Case("wait", "barred-pigments.blue-15-3-eu", inked("old-turquoise")),
    "an allergy nobody knows": Case("wait", "jobs.signal-lamp.allergies.0", simple(allergies=["propolis"])),
    # Care.
    "fine detail over a scar": Case("care", "scar-rules.scar-fine-detail", crossing(needle="1003RL")),
    "a gap that closes": Case(
        "care", "studio.limits.line_gap", simple(parts=[part("lamp", focal="yes", gap="1.1 mm")])
    ),
    "a narrow fill": Case("care", "groupings.1215CM", simple(parts=[NARROW])),
    "light beside dark": Case("care", "studio.limits.darker_by", beside()),
    "longer than the house's limit": Case(
        "care", "studio.limits.sitting", inked("rust", area="300 cm²", box=(0, 0, 100, 100))
    ),
    "longer than the client's limit": Case(
        "care", "jobs.signal-lamp.longest", inked("rust", area="60 cm²", box=(0, 0, 100, 100), longest="60 min")
    ),
    "a cover-up too small": Case(
        "care", "studio.limits.cover_ratio", existing_tattoos(box=["20 mm", "20 mm", "40 mm", "40 mm"])
    ),
    "a cover-up too light": Case(
        "care", "studio.limits.cover_lightness", {**existing_tattoos(darkness="dark"), "parts": inked("sand")["parts"]}
    ),
    "an allergy on the tray": Case("care", "supplies.barrier-film", simple(allergies=["adhesive"])),
    "numbing": Case(
        "wait",
        "studio.numbing_allowed",
        simple(numbing=[{"product": "lidocaine cream", "by": "client", "on": "2027-05-12"}]),
    ),
    "an ink out of date": Case(
        "care",
        "inks.black-line.lots",
        simple(date="2031-06-01", screening={"asked": "2031-06-01", "answers": "all clear"}),
    ),
    "a mix that goes off": Case(
        "care",
        "disinfectants.chlorine-liquid.mix_life",
        simple(),
        with_entry("disinfectants", "chlorine-liquid", mix_life=quantity("59 min")),
    ),
    "vibration": Case(
        "care",
        "machines.kettle.vibration",
        inked("black-line", area="15 cm²"),
        with_entry("machines", "kettle", vibration=quantity("20 m/s²")),
    ),
    "vibration that nobody assessed": Case(
        "care", "machines.kettle.vibration", simple(), with_entry("machines", "kettle", vibration=None)
    ),
    "a dial measured too long ago": Case(
        "care",
        "values.calibration-age",
        simple(
            date="2027-06-02",
            screening={"asked": "2027-06-02", "answers": "all clear"},
            parts=[part("lamp", focal="yes", lines=[{"needle": "1207RL", "length": "300 mm", "machine": "lathe"}])],
        ),
    ),
    "training that is not on file": Case(
        "care", "required-training.first-aid", simple(), with_entry("people", "quill", training=GIVEN)
    ),
    "a bottle opened on an unknown day": Case(
        "care",
        "inks.black-line.lots",
        simple(),
        with_entry("inks", "black-line", lots=(BOTTLE.model_copy(update={"opened": None}),)),
    ),
    "a girth that changes": Case(
        "care",
        "studio.limits.girth_change",
        simple(place="upper-arm-outer", girth={**WAIST, "in_pose": {"top": "350 mm", "bottom": "300 mm"}}),
    ),
    # Notes.
    "colours": Case("note", "studio.limits.strong_colours", inked("signal-red", "lemon", "amber")),
    "centre": Case(
        "note", "jobs.signal-lamp.parts.lamp.role", simple(parts=[part("lamp", (10, 20, 40, 40), focal="yes")])
    ),
    "repetition": Case(
        "note",
        "studio.limits.one_place",
        simple(
            parts=[
                part("lamp", (30, 30, 40, 40), focal="yes"),
                part("star", (5, 5, 20, 20), role="secondary", colours=[{"ink": "signal-red", "area": "1 cm²"}]),
            ]
        ),
    ),
    "wrap out of sight": Case(
        "note", "sites.wrist", simple(place="wrist", girth={"top": "190 mm", "bottom": "190 mm"})
    ),
    "contrast": Case("note", "studio.limits.quiet_ink", inked("sand", skin={"tone": "dark"})),
    "a blend that jumps": Case("note", "studio.limits.blend_jump", inked("black-line", "black-shade", "wash-light")),
    "white": Case("note", "studio.limits.white_area", inked("white", area="7 cm²")),
}


@pytest.mark.parametrize("name", CASES)
def test_a_finding_is_printed_with_reason_source_and_remedy(name: str) -> None:
    case = CASES[name]
    plan = planned(case.job, case.records)
    (finding,) = (f for f in plan.findings if f.rule == case.rule and f.level == case.level)
    assert finding.reason and finding.remedy and finding.source in case.records.sources
    sheet, text = sheet_of(case.records, plan), plan_text(case.records, plan)
    goes = case.level in ("care", "note")
    assert (plan.work is not None) == goes == sheet.goes_ahead
    printed = "1 question of the screening is not answered." if is_open_question(finding) else finding.reason
    (reason,) = (r for r in (*sheet.reasons, *sheet.notes) if r.reason == printed)
    assert reason.remedy == finding.remedy and sheet.sources[reason.source - 1]
    assert finding.reason in text and f"→ {finding.remedy}" in text
    html = sheet_html(sheet, AS_OF)
    assert ('class="order"' in html) == goes and ("No working steps" in text) != goes


def test_without_its_cause_none_of_them_is_found() -> None:
    rules = {(f.level, f.rule) for f in planned(simple()).findings}
    assert not rules & {(case.level, case.rule) for case in CASES.values()}


def test_no_stop_prints_a_cause_or_an_answer() -> None:
    for name in ("screening", "a skin cancer in the area", "a scar after skin cancer", "a keloid"):
        plan: JobPlan = planned(CASES[name].job)
        words = sheet_html(sheet_of(RECORDS, plan), AS_OF).lower()
        assert not [word for word in ("cancer", "keloid", "blood", "thinner") if word in words], name
