"""Random jobs out of the demo records, and everything in a job that answers a question of safety."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import Any

from hypothesis import strategies as st

from generator.planning.findings.existing_tattoos import QUESTIONS
from generator.planning.findings.skin import ITEMS
from generator.records.parts import DETAILS
from generator.records.skin import AFTER, COLOURS, DARKNESSES, EXISTING_TATTOO_WISHES, FEELS, TYPES, WISHES
from tests.planning.demo import RECORDS, Written, changed, explicit_answers, part, scar, simple

LINERS = [g.id for g in RECORDS.groupings.values() if g.label.endswith("RL")]
# An ink with a barred pigment makes any piece wait; such a piece has a test of its own.
BARRED = {barred.pigment for barred in RECORDS.barred_pigments.values()}
INKS = [ink.id for ink in RECORDS.inks.values() if not BARRED & set(ink.pigments)]
DAY = datetime.date(2027, 5, 12)
days_before = st.integers(0, 4000).map(lambda n: (DAY - datetime.timedelta(days=n)).isoformat())
lately = st.integers(0, 60).map(lambda n: (DAY - datetime.timedelta(days=n)).isoformat())


def millimetres(low: int, high: int) -> st.SearchStrategy[str]:
    return st.integers(low, high).map(lambda n: f"{n} mm")


def words(*choice: str) -> st.SearchStrategy[str]:
    return st.sampled_from([*choice, "unknown"])


# What a scar may be besides old, flat, pale, soft and quiet.
ITEM = {
    "type": words(*TYPES),
    "after": words(*AFTER),
    "colour": words(*COLOURS),
    "feel": words(*FEELS),
    "wish": words(*WISHES),
    "itch": words("yes", "no"),
    "pain": words("yes", "no"),
    "growth": words("yes", "no"),
    "height": words("0 mm", "1 mm", "1–3 mm", "2 mm"),
    "wound": st.one_of(
        days_before,
        days_before.map(lambda day: day[:7]),
        days_before.map(lambda day: f"before {day[:7]}"),
        st.just("unknown"),
    ),
}
assert set(ITEM) == {key for key, _, _ in ITEMS}, "every item that is asked about is drawn here"


@st.composite
def scars(draw: st.DrawFn, name: str = "s1") -> Written:
    """A quiet old scar but for two items, one of them perhaps not written down; anywhere in the piece."""
    found = {key: draw(ITEM[key]) for key in draw(st.sets(st.sampled_from(sorted(ITEM)), max_size=2))}
    ends = {end: [draw(millimetres(0, 200)), draw(millimetres(0, 200))] for end in ("from", "to")}
    made = scar(id=name, **found, **ends, width=draw(st.sampled_from(["2 mm", "4 mm", "2–4 mm"])))
    for key in draw(st.sets(st.sampled_from(sorted(ITEM)), max_size=1)) & draw(st.sets(st.sampled_from(sorted(ITEM)))):
        del made[key]
    return made


moles = st.fixed_dictionaries(
    {"at": st.tuples(millimetres(0, 200), millimetres(0, 200)).map(list), "keep": millimetres(2, 15)}
)


lasered = st.lists(lately, min_size=1, max_size=2, unique=True)


@st.composite
def existing_tattoos(draw: st.DrawFn, name: str = "o1") -> Written:
    """A tattoo somewhere in the piece; one of the questions about it perhaps not answered."""
    made: Written = {
        "id": name,
        "box": [draw(millimetres(0, 150)), draw(millimetres(0, 150)), "20 mm", "20 mm"],
        "darkness": draw(words(*DARKNESSES)),
        "wish": draw(words(*EXISTING_TATTOO_WISHES)),
        "laser": draw(st.one_of(st.sampled_from(["none", "unknown"]), lasered)),
    }
    for key in draw(st.sets(st.sampled_from([key for key, _ in QUESTIONS]), max_size=1)):
        if draw(st.booleans()):
            del made[key]
    return made


numbing = st.fixed_dictionaries(
    {"product": st.just("lidocaine cream"), "by": st.sampled_from(["client", "studio"]), "on": lately}
)


@st.composite
def parts(draw: st.DrawFn) -> list[Written]:
    """One to four parts inside a piece of 200 mm x 200 mm."""
    made = []
    for name in ("one", "two", "three", "four")[: draw(st.integers(1, 4))]:
        x, y, across, down = (draw(st.integers(low, high)) for low, high in ((0, 140), (0, 140), (10, 60), (10, 60)))
        inks = draw(st.lists(st.sampled_from(INKS), max_size=4, unique=True))
        colours = [
            {"ink": ink, "area": f"{draw(st.integers(1, 30))} cm²"} if draw(st.booleans()) else ink for ink in inks
        ]
        lines = [{"needle": draw(st.sampled_from(LINERS)), "length": f"{draw(st.integers(20, 900))} mm"}]
        made.append(
            part(
                name,
                (x, y, across, down),
                focal=draw(st.sampled_from(["yes", "no", "no"])),
                role=draw(st.sampled_from(["main", "secondary", "filler", "lettering"])),
                detail=draw(st.sampled_from(DETAILS)),
                colours=colours or None,
                lines=lines if draw(st.booleans()) or not colours else None,
            )
        )
    return made


@st.composite
def screenings(draw: st.DrawFn) -> Written | None:
    """Clear but for a question or two, some of them answered with a last day, or asked long ago."""
    asked = (DAY - datetime.timedelta(days=draw(st.sampled_from([0, 7, 7, 7, 30, 31, 150])))).isoformat()
    if draw(st.booleans()):
        return draw(st.sampled_from([{"asked": asked, "answers": "all clear"}, None]))
    found = {str(q.id): q.clear for q in RECORDS.screening.values()}
    waiting = [str(q.id) for q in RECORDS.screening.values() if q.wait is not None]
    for question in draw(st.sets(st.sampled_from(waiting), max_size=1)):
        found[question] = draw(lately)
    for question in draw(st.sets(st.sampled_from(sorted(found)), max_size=1)):
        found[question] = draw(st.one_of(st.sampled_from(["yes", "no", "unknown"]), lately))
    return {"asked": asked, "answers": found}


CHECKED = {"to": "propolis", "checked": {"not_on_tray": "yes", "by": "tilde", "on": DAY.isoformat()}}


@st.composite
def jobs(draw: st.DrawFn) -> Written:
    """A job with nothing against it but for up to three subjects, of which anything may be on file or not."""
    wild: dict[str, st.SearchStrategy[Any]] = {
        "screening": screenings(),
        "allergies": st.sampled_from([["adhesive"], ["latex", "fragrance"], ["nickel"], ["propolis"], [CHECKED], None]),
        "scars": st.one_of(scars().map(lambda s: [s]), st.tuples(scars("s1"), scars("s2")).map(list), st.none()),
        "moles": st.one_of(st.lists(moles, min_size=1, max_size=2), st.none()),
        "artist": st.sampled_from(["mo", "bram"]),
        "existing_tattoos": st.one_of(st.lists(existing_tattoos(), min_size=1, max_size=1), st.none()),
        "numbing": st.one_of(st.lists(numbing, min_size=1, max_size=1), st.none()),
        "last_worked": st.one_of(lately, st.none()),
    }
    subjects = draw(st.sets(st.sampled_from(sorted(wild)), max_size=3))
    return simple(
        size="200 mm x 200 mm",
        date=DAY.isoformat(),
        parts=draw(parts()),
        place=draw(st.sampled_from(list(RECORDS.sites))),
        girth={"top": "420 mm", "bottom": "400 mm"},
        sitting="2" if "last_worked" in subjects else None,
        **{name: draw(wild[name]) for name in sorted(subjects)},
    )


def without_one_answer(job: Written, each_question: bool = True) -> Iterator[tuple[str, Written]]:
    """The job with each of its safety answers taken away, and set to unknown.

    each_question: also the questions that `all clear` stands for.
    """
    for number, allergy in enumerate(job["allergies"] if isinstance(job.get("allergies"), list) else ()):
        for key in ("to", "checked") if isinstance(allergy, dict) else ():
            yield f"allergy {number} without {key}", changed(job, "allergies", number, key)
        for key in allergy["checked"] if isinstance(allergy, dict) and "checked" in allergy else ():
            yield f"allergy {number}, checked without {key}", changed(job, "allergies", number, "checked", key)
    for key in ("screening", "allergies", "scars", "moles", "existing_tattoos", "numbing", "last_worked"):
        if key in job:
            yield f"no {key}", changed(job, key)
            yield f"{key} unknown", changed(job, key, to="unknown")
    if isinstance(job.get("screening"), dict):
        yield "not asked on a day", changed(job, "screening", "asked")
        yield "asked on an unknown day", changed(job, "screening", "asked", to="unknown")
        yield "asked a year ago", changed(job, "screening", "asked", to="2026-05-12")
        yield "no answers", changed(job, "screening", "answers")
        told = explicit_answers(job) if job["screening"]["answers"] == "all clear" else job
        for question in told["screening"]["answers"] if each_question or told is job else ():
            yield f"{question} not answered", changed(told, "screening", "answers", question)
            yield f"{question} unknown", changed(told, "screening", "answers", question, to="unknown")
    if isinstance(job.get("scars"), list):
        for number, found in enumerate(job["scars"]):
            for key in found:
                yield f"scar {number} without {key}", changed(job, "scars", number, key)
                yield f"scar {number}, {key} unknown", changed(job, "scars", number, key, to="unknown")
    if isinstance(job.get("moles"), list):
        for number in [number for number, found in enumerate(job["moles"]) if "keep" in found]:
            yield f"mole {number} without keep", changed(job, "moles", number, "keep")
            yield f"mole {number}, keep unknown", changed(job, "moles", number, "keep", to="unknown")
    if isinstance(job.get("existing_tattoos"), list):
        for number, found in enumerate(job["existing_tattoos"]):
            for key in [key for key, _ in QUESTIONS if key in found]:
                yield f"old work {number} without {key}", changed(job, "existing_tattoos", number, key)
                yield f"old work {number}, {key} unknown", changed(job, "existing_tattoos", number, key, to="unknown")
