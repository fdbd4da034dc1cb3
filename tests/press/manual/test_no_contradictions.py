"""What records, authored pages and sheets say of one thing is the same, and each decision is stated on its page."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

import pytest

from generator.press.sheet.afterwards import _cartridge, words_of
from generator.press.tables.safety import hygiene_page
from generator.records.afterwards import Cartridge
from tests.planning.demo import RECORDS, part, planned, simple
from tests.press.page_at import page_at

PAGES = Path(__file__).parents[3] / "handbook" / "procedures"


def page(name: str) -> str:
    return " ".join((PAGES / f"{name}.md").read_text("utf-8").split())


def test_the_expiry_of_a_cartridge_is_kept_everywhere() -> None:
    # NEHA Body Art Model Code, 2024, section 7: a job's record holds lot and expiry of the instruments.
    assert "expiry of each ink and cartridge" in RECORDS.hygiene["ink-lots"].do
    assert "kept" in (RECORDS.asked["neha-instruments"].gap or "")
    assert "not kept" not in (RECORDS.asked["neha-instruments"].gap or "")
    for name in ("records-and-retention", "inks-and-lots"):
        assert re.search(r"cartridges?( and packs)? with lot and expiry|cartridge: lot and expiry", page(name))


@pytest.mark.parametrize(
    ("expires", "said"),
    [
        ("2029-03-31", "good until 2029-03-31"),
        ("2027-05-12", "good until 2027-05-12"),
        ("2027-05-11", "expired on 2027-05-11"),
        (None, "expiry not written down"),
    ],
)
def test_a_finished_job_says_the_expiry_of_its_cartridges(expires: str | None, said: str) -> None:
    day = None if expires is None else datetime.date.fromisoformat(expires)
    used = Cartridge.model_construct(grouping="1207RL", lot="C7-3301", expires=day)
    assert _cartridge(words_of(RECORDS, None), used, datetime.date(2027, 5, 12)) == f"C7-3301, 1207RL, {said}"


def test_an_apprentice_who_may_pack_still_asks_for_each_piece() -> None:
    assert RECORDS.techniques["packing"].may_apprentice and "packing" in RECORDS.people["bram"].may
    assert RECORDS.studio.limits.apprentice_pieces == "ask"
    only_packed = part("lamp", focal="yes", lines=None, colours=[{"ink": "black-shade", "area": "4 cm²"}])
    made = planned(simple(artist="bram", parts=[only_packed]))
    assert made.verdict.level == "wait"
    assert "studio.limits.apprentice_pieces" in {f.rule for f in made.findings if f.level == "wait"}
    assert "no piece of an apprentice is started, packing included" in page("apprentices")


def test_two_pages_name_the_same_signatures_before_a_used_needle_is_touched() -> None:
    learn = page("apprentices").split("1. Learn ")[1].split(" first,")[0]
    first = page("break-down").split("An apprentice only after ")[1].split(" are signed")[0]
    links = r"\]\(([a-z-]+)\.md\)"
    assert re.findall(links, learn) == re.findall(links, first) and len(re.findall(links, first)) == 4
    for name in re.findall(links, first):
        assert "apprentice" in RECORDS.procedures[name].read_by


def test_the_length_of_a_step_is_no_contact_time_and_never_shorter_than_one() -> None:
    shown = hygiene_page(page_at("reference/hygiene.md"))
    assert "no contact time" in shown and "The step takes" in shown
    for step in RECORDS.hygiene.values():
        if step.disinfectant is not None and step.lasts is not None:
            contact = RECORDS.disinfectants[step.disinfectant].contact
            assert step.lasts.low >= contact.high, step.id
