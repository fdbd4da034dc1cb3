"""The demo studio's hygiene, sources and screening against what is published; the body is named at each."""

from __future__ import annotations

import re

import pytest

from generator.quantities import written
from generator.records.hygiene import MOST_AT_A_PAUSE, HygieneStep
from tests.planning.demo import CONTENT, JOBS, RECORDS, demo

STEPS = RECORDS.hygiene
# Reg. (EU) 2020/2081: may not be used since 4 January 2023.
BARRED = {"C.I. 74160", "C.I. 74260"}


def step(needle: str, phase: str | None = None) -> HygieneStep:
    (found,) = (s for s in STEPS.values() if needle in s.do and phase in (None, s.phase))
    return found


@pytest.mark.parametrize(
    ("name", "lasts"),
    [
        ("hands-wash", "40–60 s"),  # WHO poster, May 2009
        ("hands-rub", "20–30 s"),  # WHO brochure
    ],
)
def test_hands(name: str, lasts: str) -> None:
    found, published = STEPS[name].lasts, written(lasts)
    assert found is not None and published.low <= found.low <= found.high <= published.high


def test_hand_rub_stays_wet_as_long_as_hands_are_rubbed() -> None:
    # WHO brochure: 20–30 s.
    assert written("20 s").low <= RECORDS.disinfectants["hand-rub"].contact.low <= written("30 s").low


@pytest.mark.parametrize("product", ["chlorine-liquid", "chlorine-powder"])
def test_chlorine_stays_at_least_ten_minutes(product: str) -> None:
    # WHO, Infection prevention and control of ARI (2014), Annex G, Table G.1: wiping at least 10 min.
    # CDC, Best Practices for Environmental Cleaning, Appendix E, examples 1 and 2: 3.5 % and 35 % to 0.5 %.
    chlorine = RECORDS.disinfectants[product]
    assert chlorine.contact.low >= written("10 min").low
    assert chlorine.mixed_to == written("0.5 %")
    assert chlorine.mix_life is not None and chlorine.mix_life.high <= written("24 h").high


def test_steps_that_disinfect_last_as_long_as_the_contact_time() -> None:
    # CDC 2008: the label's contact time is kept; the label comes before any table.
    for found in STEPS.values():
        if found.disinfectant is not None and found.lasts is not None:
            assert found.lasts.low >= RECORDS.disinfectants[found.disinfectant].contact.low, found.id


def test_a_break_lasts_as_long_as_the_studio_says() -> None:
    assert STEPS["work-break"].lasts == RECORDS.studio.limits.break_length


def test_a_spill_is_cleaned_before_it_is_disinfected() -> None:
    # CDC 2008; CIEH toolkit 2013 on blood spills.
    spill = [s.id for s in STEPS.values() if s.phase == "spill"]
    assert spill[0] == "spill-cover" and "spill-disinfect" in spill[1:]


def test_needlestick() -> None:
    # NHS occupational health: wash with soap under running water, no scrubbing, no sucking, cover, report, be
    # seen within the hour. Public Health Service, exposures at work, 2013: at once, 4 weeks (abstract); nobody here has
    # read a latest hour, so none is named. Squeezing: sources conflict, no rule.
    text = " ".join(s.do for s in STEPS.values() if s.phase == "needlestick").lower()
    for said in ("soap under running water", "do not scrub", "do not suck", "cover", "go to a doctor at once"):
        assert said in text, said
    assert "squeez" not in text
    assert RECORDS.values["stick-seen"].is_ == written("1 h")
    assert STEPS["stick-clock"].source == "exposure-2013" == RECORDS.values["stick-course"].source
    pages = (
        CONTENT.parent / "handbook" / "procedures" / "needlestick.md",
        CONTENT / "sources.yml",
        CONTENT / "values.yml",
    )
    assert not [path for path in pages if re.search(r"72 h|seventy-two", path.read_text("utf-8"))]
    assert RECORDS.values["stick-course"].is_ == written("28 days")


def test_ink_is_never_thinned_with_water_that_is_not_sterile() -> None:
    # MMWR 2012;61(33):653–656.
    assert "sterile water only" in step("Thin ink").do
    assert step("Thin ink").source == "mmwr-ink-water"
    for ink in RECORDS.inks.values():
        if ink.mixed is not None:
            assert ink.caution is not None and "sterile water" in ink.caution, ink.id
    assert "sterile-water" in RECORDS.supplies


def test_only_one_ink_on_the_shelf_is_barred_and_it_says_so() -> None:
    # Reg. (EU) 2020/2081: C.I. 74160 and C.I. 74260 barred since 4 January 2023.
    barred = [ink for ink in RECORDS.inks.values() if BARRED & set(ink.pigments)]
    assert [ink.id for ink in barred] == ["old-turquoise"], "the demo keeps one to show what becomes of it"
    for ink in barred:
        assert ink.caution is not None and "barred" in ink.caution
    assert {barred.source for barred in RECORDS.barred_pigments.values()} == {"eu-inks"}


def test_nothing_is_poured_back_and_caps_are_new() -> None:
    # FDA final guidance of 25 October 2024: uncovered ink and containers are insanitary conditions.
    assert "nothing is poured back" in step("Pour into new caps").do


def test_sharps() -> None:
    # 29 CFR 1910.1030 (d)(4)(iii)(A): labelled, leakproof, upright; FDA advice: closed at three quarters.
    sharps = STEPS["station-sharps"].do
    assert all(said in sharps for said in ("labelled", "leakproof", "upright", "before it is overfilled"))
    assert "filled to 75\u00a0%" in STEPS["waste-full"].do
    assert all(said in STEPS["leave-sharps"].do for said in ("without capping", "bending", "breaking"))


def test_lots_stand_on_paper_before_the_gloves_go_on() -> None:
    # NEHA Body Art Model Code, section 7: ink lot and expiry, instrument lot, date and time, complications.
    assert "before the gloves go on" in STEPS["ink-lots"].do and STEPS["ink-lots"].pause == "client sits down"


def test_warning_signs() -> None:
    # Public advice: redness that spreads or does not fade, pus, red streaks, fever: to a doctor the same day.
    text = STEPS["leave-warning"].do
    assert all(said in text for said in ("spreads", "grows instead of fading", "pus", "red", "fever", "same day"))


def test_pauses_fit_a_paper_checklist() -> None:
    # Gawande's checklist for checklists: fewer than ten items at a pause point.
    assert MOST_AT_A_PAUSE < 10
    # Those that every sheet has leave room for what a piece asks.
    always = [s.pause for s in STEPS.values() if s.pause and s.when is None and s.for_each is None]
    assert all(always.count(pause) < MOST_AT_A_PAUSE for pause in always)


def test_screening_waits() -> None:
    # Package insert, as in Dermatologic Surgery 2017;43(10):1249: six months after the last dose.
    isotretinoin = RECORDS.screening["isotretinoin"].wait
    assert isotretinoin is not None and isotretinoin.low >= written("6 months").low
    # Tattooing of Minors Act 1969, section 1: 18 in Great Britain, and never a reason to wait a little.
    assert "18" in RECORDS.screening["of-age"].ask and RECORDS.screening["of-age"].otherwise == "not here"


def test_proud_scars_are_left_alone() -> None:
    # A spokesperson of the British Association of Dermatologists: with such a history, no trauma to the skin.
    assert RECORDS.scar_rules["scar-keloid"].verdict == "not here"
    assert RECORDS.screening["keloid-history"].otherwise in ("doctor", "not here")


def test_a_high_scar_begins_at_two_millimetres() -> None:
    # Vancouver Scar Scale in the form of Sullivan 1990: 2–5 mm is the band above “below 2 mm”.
    when = RECORDS.scar_rules["scar-high"].when
    assert written("2 mm") in [getattr(part, "limit", None) for part in when.parts]  # type: ignore[union-attr]


def test_numbing_is_refused_here_and_asked_for() -> None:
    # FDA, March 2024: not above 4 % lidocaine, not heavily over large areas, not under wrap.
    assert RECORDS.screening["numbing-product"].otherwise == "wait"
    assert "No numbing product" in RECORDS.studio.numbing


def test_the_invented_machines_are_below_the_action_value() -> None:
    # Directive 2002/44/EC: action value 2.5 m/s². Without a figure it is not assessed: test_unknown_records.py.
    figures = [machine.vibration for machine in RECORDS.machines.values()]
    assert all(figure.low < 2.5 for figure in figures if figure is not None)


def test_skin_thickness_is_as_published() -> None:
    # Laurent et al., Vaccine 2007;25:6423–30: deltoid 2.02, waist 1.91, suprascapular 2.54, thigh 1.55 mm, of which it
    # names no side: the front has it, and no other side does.
    published = {
        **dict.fromkeys(("upper-arm-outer", "shoulder-cap"), 2.02),
        **dict.fromkeys(("upper-back", "shoulder-blade"), 2.54),
        "thigh-front": 1.55,
        "waist-side": 1.91,
    }
    found = {site.id: site.thickness for site in RECORDS.sites.values() if site.thickness is not None}
    assert {site: (one.low, one.high) for site, one in found.items()} == {s: (mm, mm) for s, mm in published.items()}
    said = RECORDS.sources["laurent-2007"].where or ""
    assert [mm for mm in published.values() if f"{mm:.2f} mm" not in said] == []
    for site in RECORDS.sites.values():
        assert (site.source == "laurent-2007") == (site.id in published), site.id


# What a body has to be tattooed on, by the words of a place; the demo studio began with arms and trunk alone.
PLACES = (
    *(
        "thigh",
        "calf",
        "shin",
        "knee",
        "ankle",
        "foot",
        "toes",
        "neck",
        "throat",
        "behind the ear",
        "ribs",
        "back",
        "spine",
    ),
    *("hand", "palm", "fingers", "wrist, inner", "wrist, outer", "arm, inner", "arm, outer", "elbow", "chest", "hip"),
)
FIRST = (
    *("upper-arm-outer", "upper-arm-inner", "forearm-outer", "forearm-inner", "wrist", "shoulder-cap", "upper-back"),
    *("lower-back", "waist-side", "chest-upper", "ribs", "hand-back"),
)


def test_the_places_reach_from_neck_to_toes_and_each_says_what_to_look_out_for() -> None:
    sites = RECORDS.sites
    assert len(sites) >= 30 and set(FIRST) <= set(sites)
    names = [site.name for site in sites.values()]
    assert len(set(names)) == len(names)
    assert [place for place in PLACES if not any(place in name for name in names)] == []
    for key in ("stretch", "cautions"):  # a pose serves several places
        said = [getattr(site, key) for site in sites.values()]
        assert len(set(said)) == len(said), key
    # A place whose girth is taped is one that a piece can go round, and no other is.
    round_it = ("arm", "wrist", "elbow", "thigh", "knee", "shin", "calf", "ankle", "neck", "throat")
    assert [s.id for s in sites.values() if s.limb != any(word in s.name for word in round_it)] == []


def test_no_demo_job_is_on_a_leg() -> None:
    leg = ("thigh", "knee", "shin", "calf", "ankle", "foot", "toes")
    assert [job for job in JOBS if any(word in demo(job).site.name for word in leg)] == []
