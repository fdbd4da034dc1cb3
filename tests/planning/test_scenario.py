"""A job that the project has never seen: what is wrong with it is found, at its level, and nothing besides."""

from __future__ import annotations

from generator.planning.findings.verdict import Finding
from generator.planning.plan import JobPlan
from tests.planning.demo import Written, changed, explicit_answers, part, planned, scar, simple

# A weather vane on the upper back: the scar runs under the vane on which the eye rests, one question was never
# put, and three inks pull the eye. Everything else is as a careful studio would have it.
SCREENING = {"asked": "2027-05-05", "answers": "all clear"}
SCAR = scar(**{"from": ["70 mm", "60 mm"], "to": ["90 mm", "62 mm"]})
VANE = part(
    "vane",
    (45, 35, 70, 60),
    focal="yes",
    gap="2 mm",
    colours=[
        {"ink": "black-shade", "area": "5 cm²"},
        {"ink": "signal-red", "area": "6 cm²"},
        {"ink": "amber", "area": "6 cm²"},
    ],
)
ROOF = part(
    "roof",
    (40, 112, 80, 24),
    role="filler",
    detail="broad",
    gap="3 mm",
    lines=[{"needle": "1210RL", "length": "350 mm"}],
    colours=[{"ink": "lemon", "area": "8 cm²"}],
)


def job(**changes: object) -> Written:
    base = {
        "id": "weather-vane",
        "title": "Weather vane over a roof",
        "size": "160 mm x 160 mm",
        "skin": {"tone": "medium"},
        "screening": SCREENING,
        "scars": [SCAR],
        "parts": [VANE, ROOF],
    }
    return simple(**{**base, **changes})


def unasked(one: Written) -> Written:
    """The job with its answers written out, and one of them left out."""
    return changed(explicit_answers(one), "screening", "answers", "fits-or-faints")


def rules(made: JobPlan) -> dict[tuple[str, str], Finding]:
    return {(finding.level, finding.rule): finding for finding in made.findings}


def test_exactly_these_findings_at_these_levels() -> None:
    made = planned(unasked(job()))
    found = rules(made)
    assert len(found) == len(made.findings)
    assert set(found) == {
        ("doctor", "screening.fits-or-faints"),
        ("wait", "scar-rules.scar-focal"),
        ("note", "studio.limits.strong_colours"),
    }
    open_ = found["doctor", "screening.fits-or-faints"]
    assert open_.asks and "fits-or-faints" in open_.reason
    assert found["wait", "scar-rules.scar-focal"].about == "scars.s1"
    assert found["note", "studio.limits.strong_colours"].reason.startswith("3 strong colours: Amber, Lemon, Signal red")
    assert made.verdict.heading == "Ask first: one question open, ask the client" and made.work is None
    assert all(finding.reason and finding.remedy and finding.source for finding in made.findings)


CALM = {**VANE, "colours": [{"ink": "black-shade", "area": "5 cm²"}, {"ink": "signal-red", "area": "6 cm²"}]}
CALM_ROOF = {**ROOF, "colours": [{"ink": "signal-red", "area": "3 cm²"}]}


def test_each_goes_when_its_cause_goes() -> None:
    for without, gone in (
        (job(), "screening.fits-or-faints"),
        (unasked(job(scars="none")), "scar-rules.scar-focal"),
        (unasked(job(parts=[CALM, CALM_ROOF])), "studio.limits.strong_colours"),
    ):
        whole = {rule for _, rule in rules(planned(unasked(job())))}
        left = {rule for _, rule in rules(planned(without))}
        assert gone not in left and left <= whole


def test_the_rest_of_it_is_clear() -> None:
    made = planned(job(scars="none", parts=[CALM, CALM_ROOF]))
    assert made.findings == () and made.verdict.heading == "Clear to start" and made.work is not None
