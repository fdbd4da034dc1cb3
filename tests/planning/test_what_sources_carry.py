"""A record rests on a publication only for what the publication says; verdicts and routines are the studio's own."""

from __future__ import annotations

import datetime

import pytest

from generator.press.manual.anchors import places
from generator.press.manual.authored import authored_pages
from generator.press.pages import Gathered, generated_pages
from tests.planning.demo import CONTENT, RECORDS, planned, simple

FAMILIES = ("screening", "scar_rules", "hygiene", "values", "disinfectants", "inks", "sites", "supplies", "asked")


def resting_on(source: str) -> set[str]:
    return {
        f"{family}.{entry.id}"
        for family in FAMILIES
        for entry in getattr(RECORDS, family).values()
        if entry.source == source
    }


def test_lists_of_contents_carry_no_sentence_of_the_studio() -> None:
    # EN 17169:2020 and the toolkit of the Chartered Institute of Environmental Health, 2013: contents alone were read.
    for source in ("en-17169", "uk-toolkit"):
        assert {one.split(".")[0] for one in resting_on(source)} == {"asked"}
        assert "chapter" in (RECORDS.sources[source].where or "")


def test_three_quarters_are_the_advice_of_the_fda_and_not_of_the_regulation() -> None:
    # FDA, advice on sharps disposal containers, quoted in the annex of the model code; 29 CFR 1910.1030 (d)(4)(iii)(A)
    # says that a container is not overfilled.
    assert resting_on("fda-sharps") == {"hygiene.waste-full", "values.sharps-full"}
    for step in RECORDS.hygiene.values():
        if step.source == "us-bloodborne":
            assert "quarter" not in step.do and "75" not in step.do
    assert RECORDS.values["sharps-full"].is_.text == "75 %"


@pytest.mark.parametrize("source", ["minors-act", "serup-2016", "fda-numbing"])
def test_who_scores_or_describes_gives_no_verdict(source: str) -> None:
    verdicts = {one for one in resting_on(source) if one.startswith(("scar_rules", "screening"))}
    assert verdicts == set()


def test_the_appendix_on_dilution_carries_no_contact_time() -> None:
    # CDC, Best Practices for Environmental Cleaning, 2019, Appendix E: parts of water and grams of powder.
    assert "cdc-cleaning" not in RECORDS.sources
    assert RECORDS.values["soak"].source == "who-ari"


def test_how_long_a_step_takes_rests_on_a_document_only_where_that_says_so() -> None:
    # WHO, poster and brochure of 2009: 40–60 s and 20–30 s. No other document that was read times a step.
    timed = {step.id: step.source for step in RECORDS.hygiene.values() if step.lasts is not None}
    published = {step for step, source in timed.items() if RECORDS.sources[source].kind == "published"}
    assert published == {"hands-wash", "hands-rub"}


def test_care_after_a_needlestick_rests_on_the_guideline_for_work() -> None:
    assert "occupational" in RECORDS.sources[RECORDS.values["stick-course"].source].title
    assert not [s for s in RECORDS.sources.values() if "outside of work" in s.title]


# Kluger and De Cuyper, Am J Clin Dermatol 2018;19:167–180, and Kluger, Curr Probl Dermatol 2015;48:76–87, abstracts.
REVIEWED = {
    "blood-thinners": ("kluger-2018",),
    "diabetes": ("kluger-2018",),
    "weak-defences": ("kluger-2018",),
    "skin-condition": ("kluger-2018",),
    "spreading-skin-disease": ("kluger-2018",),
    "changed-mole": ("kluger-2015",),
    "heart-valve": ("kluger-2015",),
    "pregnant-or-nursing": ("adis-2018",),
    "skin-cancer-in-area": ("adis-2018",),
}


@pytest.mark.parametrize("question", REVIEWED)
def test_questions_that_reviews_of_skin_doctors_ask(question: str) -> None:
    assert RECORDS.screening[question].source in REVIEWED[question]


@pytest.mark.parametrize("disease", ["sarcoidosis", "psoriasis", "lichen planus", "vitiligo"])
def test_a_disease_that_spreads_into_fresh_tattoos_is_asked_about_anywhere(disease: str) -> None:
    asking = [q for q in RECORDS.screening.values() if disease in q.ask]
    assert [q.id for q in asking] == ["spreading-skin-disease"]
    assert "anywhere" in asking[0].ask and "in the area" not in asking[0].ask
    answers = {str(q.id): q.clear for q in RECORDS.screening.values()}
    for said, level in (("yes", "doctor"), ("unknown", "doctor"), ("no", "clear")):
        told = {**answers, "spreading-skin-disease": said}
        made = planned(simple(screening={"asked": "2027-05-05", "answers": told}))
        assert made.verdict.level == level and made.verdict.settled == (said != "unknown")


PUBLISHED = [str(s.id) for s in RECORDS.sources.values() if s.kind == "published"]


@pytest.mark.parametrize("source", PUBLISHED)
def test_a_published_source_says_what_of_it_is_meant(source: str) -> None:
    found = RECORDS.sources[source]
    assert found.body and found.year and found.where and len(found.where.split()) >= 3


def test_every_source_is_cited_and_the_page_of_sources_says_where() -> None:
    handbook = CONTENT.parent / "handbook"
    read = places({path.relative_to(handbook).as_posix(): text for path, text in authored_pages(handbook)})
    page = generated_pages(RECORDS, datetime.date(2027, 5, 12), Gathered(authored=read))["reference/sources.md"]
    assert "nothing yet" not in page
    for source, where in {
        "fda-ink": "inks-and-lots",
        "fda-numbing": "comfort-and-breaks",
        "serup-2016": "complaints-and-reactions",
    }.items():
        row = page.partition(f'id="sources-{source}"')[2].partition("</tr>")[0]
        assert f"procedures/{where}.html" in row or f"procedures/{where}.md" in row, source
