"""What records cite as published, as the documents print it. Held against the records, not the code."""

from __future__ import annotations

import datetime
from collections.abc import Callable

import pytest

from generator.quantities import Quantity, written
from generator.records.sterilizer import Cycle
from tests.planning.demo import RECORDS
from tests.published.printed import Document, Printed
from tests.published.test_disinfection import CDC_2008, SPILLS, WHO_G
from tests.published.test_sterilization import TABLE_7

# By the id of the source in the records; each document is looked up there as well, so that both name the same one.
OSHA = Document("Bloodborne pathogens, 29 CFR 1910.1030", "Occupational Safety and Health Administration", 1991)
NEHA = Document("Body Art Model Code", "National Environmental Health Association", 2024)
NEHA_ANNEX = Document("Body Art Model Code, annex", "National Environmental Health Association", 2025)
DENTAL = Document(
    "Guidelines for infection control in dental health-care settings, MMWR 52(RR-17)",
    "Centers for Disease Control and Prevention",
    2003,
)
HANDWASH = Document("How to handwash (poster)", "World Health Organization", 2009)
HANDRUB = Document("Hand hygiene, why, how and when (brochure)", "World Health Organization", 2009)
MINORS = Document("Tattooing of Minors Act", "Parliament of the United Kingdom", 1969)
HEALING = Document(
    "Healing of tattoos by biopsy, International Journal of Dermatology 26, 453–458",
    "International Journal of Dermatology",
    1987,
)
COMPLAINTS = Document(
    "Complaints of 154 tattooed people, Journal of the European Academy of Dermatology and Venereology 27, 846",
    "Journal of the European Academy of Dermatology and Venereology",
    2013,
)
STRAIN = Document("Discomfort and postures of tattooists, Applied Ergonomics", "Keester and Sommerich", 2017)
GASTRO = Document(
    "Recommendations for the Public Health Management of Gastrointestinal Infections", "Public Health England", 2019
)
UK_BLOOD = Document("Changes to donor deferral criteria", "Scottish National Blood Transfusion Service", 2017)
US_BLOOD = Document("Revised recommendations on deferral of blood donors", "Food and Drug Administration", 2020)
SUN = Document("Advice on sunscreen", "American Academy of Dermatology", 2014)
ISOTRETINOIN = Document(
    "Isotretinoin and procedures on the skin, Dermatologic Surgery 43(10), 1249", "Dermatologic Surgery", 2017
)
THICKNESS = Document("Skin thickness by ultrasound in 342 adults, Vaccine 25, 6423–6430", "Laurent and others", 2007)
INKS = Document("Regulation (EU) 2020/2081 on substances in tattoo inks", "European Commission", 2020)
# The parts of the standard with the years of those that were quoted; the record names the whole of it.
EN_455_1 = Document("EN 455-1, medical gloves, freedom from holes", "European Committee for Standardization", 2000)
EN_455_2 = Document("EN 455-2, medical gloves, physical properties", "European Committee for Standardization", 2015)
EN_455_4 = Document("EN 455-4, medical gloves, shelf life", "European Committee for Standardization", 2009)

SOURCES = {
    "us-bloodborne": OSHA,
    "neha-code": NEHA,
    "neha-annex": NEHA_ANNEX,
    "cdc-dental": DENTAL,
    "cdc-disinfection": CDC_2008,
    "who-handwash": HANDWASH,
    "who-handrub": HANDRUB,
    "minors-act": MINORS,
    "healing-1987": HEALING,
    "complaints-2013": COMPLAINTS,
    "strain-2017": STRAIN,
    "gastro-2019": GASTRO,
    "snbts-donation": UK_BLOOD,
    "fda-donation": US_BLOOD,
    "sun-2014": SUN,
    "isotretinoin-2017": ISOTRETINOIN,
    "laurent-2007": THICKNESS,
    "eu-inks": INKS,
}


@pytest.mark.parametrize(("source", "document"), SOURCES.items())
def test_records_and_checks_name_the_same_document(source: str, document: Document) -> None:
    found = RECORDS.sources[source]
    assert (found.title, found.body, found.year) == document


# The value of the record, its unit, the digits as printed.
VALUES: list[tuple[str, str, Printed]] = [
    ("glove-aql", "%", EN_455_1.at("accepted quality level", "B")("1.5")),
    ("glove-length", "mm", EN_455_2.at("length", "B")("240")),
    ("glove-shelf-life", "years", EN_455_4.at("longest shelf life", "B")("5")),
    ("spill-small", "mL", SPILLS("10")),
    ("soak", "min", WHO_G("30")),
    ("sun-again", "h", SUN.at("release of 2014, again", "B")("2")),
    ("spore-test", "weeks", DENTAL.at("biological indicator", "B")("1")),
    ("minimum-age", "years", MINORS.at("section 1")("18")),
    ("healed", "months", HEALING.at("abstract")("1")),
    ("blood-donation-uk", "months", UK_BLOOD.at("notice of November", "B")("4")),
    ("blood-donation-us", "months", US_BLOOD.at("April 2020", "B")("3")),
    ("late-complaints", "%", COMPLAINTS.at("abstract")("27")),
    ("load-records", "years", NEHA_ANNEX.at("section 6.4")("3")),
    ("training-records", "years", OSHA.at("(h), training", "B")("3")),
    ("exposure-records", "years", OSHA.at("(h), medical records", "B")("30")),
    ("training-again", "years", OSHA.at("(g)(2)", "B")("1")),
    ("plan-review", "years", OSHA.at("(c)(1)(iv)", "B")("1")),
    ("hepatitis-b-offer", "days", OSHA.at("(f)(2)(i)", "B")("10")),
    ("well-again", "h", GASTRO.at("exclusion from work", "B")("48")),
]


@pytest.mark.parametrize(("value", "unit", "printed"), VALUES)
def test_a_value_is_what_its_source_prints(value: str, unit: str, printed: Printed) -> None:
    assert RECORDS.values[value].is_ == written(f"{printed.literal} {unit}")


def is_between(found: object, low: Printed, high: Printed, unit: str) -> bool:
    return found == written(f"{low.literal}–{high.literal} {unit}")


DISCOMFORT = STRAIN.at("abstract")("53"), STRAIN.at("abstract")("94")
WASHING = HANDWASH.at("the whole poster", "B")("40"), HANDWASH.at("the whole poster", "B")("60")
RUBBING = HANDRUB.at("hand rub", "B")("20"), HANDRUB.at("hand rub", "B")("30")
CONTACT = WHO_G("10")


def test_ranges_are_those_of_their_sources() -> None:
    assert is_between(RECORDS.values["strain"].is_, *DISCOMFORT, "%")
    assert is_between(RECORDS.hygiene["hands-wash"].lasts, *WASHING, "s")
    shortest, longest = (value.number / 60 for value in RUBBING)
    rub = RECORDS.hygiene["hands-rub"].lasts
    assert rub is not None and shortest <= rub.low <= rub.high == pytest.approx(longest)
    wiped = RECORDS.hygiene["spill-disinfect"].lasts
    assert wiped is not None and wiped.low == CONTACT.number, "wiping at least 10 minutes"


FACTOR = SUN.at("release of 2014, sun protection factor", "B")("30")
WAIT = ISOTRETINOIN.at("package insert")("6")
KEPT = NEHA.at("section 6.5")("3")


def test_what_is_said_in_other_records() -> None:
    assert f"SPF {FACTOR.literal} or more" in RECORDS.hygiene["leave-sun"].do
    assert RECORDS.screening["isotretinoin"].wait == written(f"{WAIT.literal} months")
    limits = RECORDS.studio.limits
    assert (limits.retention, limits.retention_source) == (written(f"{KEPT.literal} years"), "neha-code")


MILLIMETRES = THICKNESS.at("abstract")
SKIN = {
    "upper-arm-outer": MILLIMETRES("2.02"),
    "upper-back": MILLIMETRES("2.54"),
    "waist-side": MILLIMETRES("1.91"),
    "thigh-front": MILLIMETRES("1.55"),
}


@pytest.mark.parametrize("place", SKIN)
def test_skin_is_as_thick_as_was_measured(place: str) -> None:
    assert RECORDS.sites[place].thickness == written(f"{SKIN[place].literal} mm")
    measured = {s.thickness.low for s in RECORDS.sites.values() if s.thickness is not None}
    assert measured == {value.number for value in SKIN.values()}


PIGMENT: Callable[[str], Printed] = INKS.at("entry 75, pigments with a longer time", "B")
BARRED = {"blue-15-3-eu": PIGMENT("74160"), "green-7-eu": PIGMENT("74260")}
SINCE = PIGMENT("2023-01-04")


@pytest.mark.parametrize("pigment", BARRED)
def test_pigments_that_are_barred(pigment: str) -> None:
    found = RECORDS.barred_pigments[pigment]
    assert found.pigment == f"C.I. {BARRED[pigment].literal}"
    assert found.since == datetime.date.fromisoformat(SINCE.literal)


# Table 7: air leaves by, item, temperature, hold, drying from and to.
CYCLES = [
    (method, item, *map(TABLE_7, figures.split()))
    for method, item, figures in (
        ("gravity", "wrapped instruments", "121 30 15 30"),
        ("gravity", "wrapped instruments", "132 15 15 30"),
        ("gravity", "textile packs", "121 30 15 15"),
        ("gravity", "textile packs", "132 25 15 15"),
        ("gravity", "wrapped utensils", "121 30 15 30"),
        ("gravity", "wrapped utensils", "132 15 15 30"),
        ("dynamic air removal", "wrapped instruments", "132 4 20 30"),
        ("dynamic air removal", "textile packs", "132 4 5 20"),
        ("dynamic air removal", "wrapped utensils", "132 4 20 20"),
    )
]


def row(cycle: Cycle) -> tuple[str, str, float, float, float, float]:
    dry: Quantity = cycle.dry
    figures = cycle.temperature.low, cycle.holding_time.low, dry.low, dry.high
    return cycle.method, cycle.good_for.lower().rstrip("."), *figures


@pytest.mark.parametrize("wanted", CYCLES)
def test_a_cycle_of_table_7_is_on_file(wanted: tuple[str, str, Printed, Printed, Printed, Printed]) -> None:
    method, item, *figures = wanted
    found = [c for c in RECORDS.cycles.values() if row(c) == (method, item, *(value.number for value in figures))]
    assert len(found) == 1 and found[0].source == "cdc-disinfection"


def test_no_other_cycle_is_on_file() -> None:
    # Table 7 says of dynamic air removal at 121 °C: not applicable.
    assert len(RECORDS.cycles) == len(CYCLES)
    assert not any(c.method == "dynamic air removal" and c.temperature.low == 121 for c in RECORDS.cycles.values())
    where = RECORDS.sources["cdc-disinfection"].where
    assert where is not None and "7" in where
