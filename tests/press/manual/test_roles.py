"""What the handbook's pages name: what is meant on any studio's shelf, and no article that another may not have."""

from __future__ import annotations

import dataclasses
import re
from pathlib import Path

import pytest

from generator.press.manual.quotes import quoted
from generator.press.tables.safety import hygiene_page
from generator.records.families import Records
from generator.records.hygiene import PHASES
from generator.records.roles import Roles
from tests.planning.demo import RECORDS
from tests.press.page_at import page_at

HANDBOOK = Path(__file__).parents[3] / "handbook"
# Families whose entries are this studio's own; rules, values and sources are the handbook's.
OWN = ("machines", "inks", "supplies", "disinfectants", "groupings", "people", "calibrations", "loads")


def _said(text: str, records: Records = RECORDS) -> str:
    words, report = quoted(text, "page.md", records)
    assert not report, report
    return words


def _codes(text: str, records: Records = RECORDS) -> list[tuple[str, str]]:
    return [(found.code, found.help or "") for found in quoted(text, "page.md", records)[1]]


def test_no_page_names_what_another_studio_may_not_have() -> None:
    """Neither a quote by id, nor a label, a machine or a person in the text; names of the trade are everybody's."""
    named = {str(entry) for family in ("groupings", "people") for entry in RECORDS.family(family)}
    named |= {each.name for family in ("machines", "people") for each in RECORDS.family(family).values()}  # type: ignore[attr-defined]
    words = re.compile(rf"(?i)(?<![\w./-])(?:{'|'.join(map(re.escape, sorted(named)))})(?![\w-])")
    quotes = re.compile(rf"\{{\{{\s*(?:{'|'.join(OWN)})\.[^}}]*\}}\}}")
    wrong = {
        page.relative_to(HANDBOOK).as_posix(): found
        for page in sorted(HANDBOOK.rglob("*.md"))
        if (found := words.findall(page.read_text("utf-8")) + quotes.findall(page.read_text("utf-8")))
    }
    assert wrong == {}


def test_a_role_is_what_the_studio_says_and_leads_to_its_row() -> None:
    assert "(/reference/disinfectants.md#disinfectants-surface-wipe)" in _said("{{ roles.surface_wipe.contact }}")
    assert _said("{{ roles.liner.label }}").startswith("[1207RL](/reference/groupings.md#groupings-1207RL)")
    other = RECORDS.studio.roles.model_copy(update={"liner": RECORDS.studio.roles.fine_liner})
    changed = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"roles": other}))
    assert _said("{{ roles.liner.label }}", changed).startswith("[1003RL](/reference/groupings.md#groupings-1003RL)")


def test_the_handbook_quotes_every_role_and_no_other() -> None:
    text = "".join(page.read_text("utf-8") for page in HANDBOOK.rglob("*.md"))
    assert set(re.findall(r"\{\{ roles\.(\w+)\.", text)) == set(Roles.model_fields)


@pytest.mark.parametrize(
    ("quote", "code", "helps"),
    [
        ("{{ roles.linner.label }}", "H701", "`studio.roles.liner`"),
        ("{{ roles.liner.lable }}", "H701", "`groupings.1207RL.label`"),
        ("{{ roles }}", "H702", "name one thing in it"),
    ],
)
def test_a_role_that_is_none_is_told(quote: str, code: str, helps: str) -> None:
    [(found, help_)] = _codes(quote)
    assert found == code and helps in help_


def test_a_role_that_nobody_has_is_asked_for() -> None:
    none = RECORDS.studio.model_copy(update={"roles": Roles()})
    [(code, help_)] = _codes("{{ roles.bleach.contact }}", dataclasses.replace(RECORDS, studio=none))
    assert code == "H702" and "take the quote away" in help_


def test_where_all_machines_are_in_volts_the_pages_say_volts() -> None:
    """The volts of the demo's table, for the same row; in a studio with a dial in hertz the page says hertz alone."""
    lathe = {name: each for name, each in RECORDS.machines.items() if each.dial == "volts"}
    volts = dataclasses.replace(RECORDS, machines=lathe)
    said = _said("{{ techniques.lining.dials.1.usual }}", volts).replace("\u00a0", " ")
    assert re.search(r"\d+ Hz \(Lathe, stroke 3\.5 mm: \d\.?\d* V\)", said), said
    assert " V" not in _said("{{ techniques.lining.dials.1.usual }}")
    bare = dataclasses.replace(volts, calibrations={})
    assert "not measured, measure it first" in _said("{{ techniques.lining.dials.1.speed }}", bare)


def test_the_order_of_hygiene_steps_on_a_page_is_that_of_the_record() -> None:
    turned = dataclasses.replace(RECORDS, hygiene=dict(reversed(RECORDS.hygiene.items())))
    for records in (RECORDS, turned):
        page = hygiene_page(page_at("reference/hygiene.md", records))
        for phase in PHASES:
            ids = [str(step.id) for step in records.hygiene.values() if step.phase == phase]
            assert [at for at in re.findall(r'id="hygiene-([\w-]+)"', page) if at in ids] == ids


def test_steps_of_hygiene_that_a_page_quotes_stand_in_the_order_of_the_record() -> None:
    order = list(RECORDS.hygiene)
    for page in sorted(HANDBOOK.rglob("*.md")):
        quoted_steps = re.findall(r"\{\{ hygiene\.([\w-]+)\.do \}\}", page.read_text("utf-8"))
        assert quoted_steps == sorted(quoted_steps, key=order.index), page.name
