"""Quotes of records in authored pages."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.press.manual.quotes import quoted
from generator.press.words.addresses import PAGE_OF
from generator.records.families import LISTED, Records
from generator.records.located import Text
from tests.planning.demo import RECORDS

ROOT = Path(__file__).parents[3]


def told(text: str, records: Records = RECORDS) -> str:
    replaced, report = quoted(text, "page.md", records)
    assert report == ()
    return replaced


@pytest.mark.parametrize(
    ("quote", "words", "at"),
    [
        (
            "techniques.lining.dials.0.speed",
            RECORDS.techniques["lining"].dials[0].speed.text.replace(" ", "\u00a0"),
            "reference/speeds.md#techniques-lining",
        ),
        ("studio.limits.break_after", "75\u00a0min", "reference/studio.md#studio-limits-break-after"),
        ("studio.limits.same_skin_again", "4\u00a0weeks", "reference/studio.md#studio-limits-same-skin-again"),
        ("studio.limits.sitting", "4\u00a0h", "reference/studio.md#studio-limits-sitting"),
        ("studio.units", "metric", "reference/studio.md#studio-units"),
        ("disinfectants.surface-wipe.contact", "2\u00a0min", "reference/disinfectants.md#disinfectants-surface-wipe"),
        (
            "disinfectants.chlorine-liquid.stock",
            "3.5\u00a0%",
            "reference/disinfectants.md#disinfectants-chlorine-liquid",
        ),
        ("machines.lathe.limits", "4–10\u00a0V", "reference/machines.md#machines-lathe"),
        ("machines.kettle.strokes.1", "3.5\u00a0mm", "reference/machines.md#machines-kettle"),
        ("machines.kettle.name", "Kettle", "reference/machines.md#machines-kettle"),
        ("techniques.packing.may_apprentice", "yes", "reference/speeds.md#techniques-packing"),
        ("techniques.lining.usual_grouping", "1207RL", "reference/speeds.md#techniques-lining"),
        ("calibrations.lathe-three.measured", "2026-11-04", "reference/machines.md#calibrations-lathe-three"),
        ("calibrations.lathe-three.points.0.1", "70\u00a0Hz", "reference/machines.md#calibrations-lathe-three"),
        ("scar-rules.scar-young.when", "age below 12 months", "reference/scar-rules.md#scar-rules-scar-young"),
        (
            "scar-rules.scar-thin-and-settling.when.scar.age",
            "24\u00a0months",
            "reference/scar-rules.md#scar-rules-scar-thin-and-settling",
        ),
        (
            "scar-rules.scar-high.when.scar.height",
            "2\u00a0mm",
            "reference/scar-rules.md#scar-rules-scar-high",
        ),
        ("supplies.apron.pack", "100", "reference/supplies.md#supplies-apron"),
    ],
)
def test_a_quote_becomes_the_value_linked_to_its_row(quote: str, words: str, at: str) -> None:
    # A quantity is marked as a value: it has a unit behind a space that does not break.
    linked = f"[{words}](/{at})" + ("{ .value }" if "\u00a0" in words else "")
    assert told(f"about {{{{ {quote} }}}} or so") == f"about {linked} or so"
    assert told(f"{{{{{quote}}}}}") == linked


def test_the_other_system_comes_first_where_the_studio_says_so() -> None:
    imperial = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"units": "imperial"}))
    assert "[3.5\u00a0mm]" in told("{{ machines.kettle.strokes.1 }}", imperial)
    assert "5.9\u00a0oz (168\u00a0g)" in told("{{ machines.kettle.weight }}", imperial)


@pytest.mark.parametrize(
    ("text", "code", "column", "helps"),
    [
        ("a {{ machines.kettel.name }}", "H701", 3, "`machines.kettle`"),
        ("{{ machine.kettle.name }}", "H701", 1, "`machines`"),
        ("{{ machines.kettle.limit }}", "H701", 1, "`machines.kettle.limits`"),
        ("{{ machines.kettle.strokes.9 }}", "H701", 1, "0, 1, 2"),
        ("{{ machines.kettle.weight.unit }}", "H701", 1, "machines.kettle.weight"),
        ("{{ jobs.orrery.title }}", "H701", 1, "studio, roles, sources"),
        ("{{ machines.kettle.name | upper }}", "H701", 1, "nothing is computed"),
        ("{{ }}", "H701", 1, "machines.kettle.hang_out"),
        ("and {{ machines.kettle.name", "H701", 5, "{{ family.id.field }}"),
        ("{{ machines }}", "H702", 1, "machines.kettle"),
        ("{{ machines.kettle }}", "H702", 1, "machines.kettle.name"),
        ("{{ machines.kettle.strokes }}", "H702", 1, "machines.kettle.strokes.0"),
        ("{{ sites.upper-arm-inner.thickness }}", "H702", 1, "take the quote away"),
        ("{{ inks.black-line.mixed.parts_ink }}", "H702", 1, "take the quote away"),
        ("{{ studio.limits }}", "H702", 1, "studio.limits."),
        # A limit in a rule's condition: no such comparison, and two of them.
        ("{{ scar-rules.scar-young.when.over.crosses }}", "H701", 1, "known there: scar.age"),
        (
            "{{ scar-rules.scar-young.when.scar.agee }}",
            "H701",
            1,
            "did you mean `scar-rules.scar-young.when.scar.age`?",
        ),
        ("{{ scar-rules.scar-keloid.when.scar.type }}", "H701", 1, "known there: nothing"),
        ("{{ scar-rules.scar-settling.when.scar.age }}", "H702", 1, "quote the rule that has only the limit you mean"),
        ("{{ studio }}", "H702", 1, "studio.name"),
    ],
)
def test_a_wrong_quote_is_one_diagnostic_at_its_place(text: str, code: str, column: int, helps: str) -> None:
    replaced, report = quoted(f"first line\n{text}", "handbook/page.md", RECORDS)
    (wrong,) = report
    assert (wrong.code, wrong.place.file, wrong.place.line, wrong.place.column) == (code, "handbook/page.md", 2, column)
    assert helps in wrong.help
    assert replaced.endswith(text)


def test_what_has_to_be_typed_is_shown_with_its_reason() -> None:
    shown = told("a bar of {{ typed: 100 mm, because it proves the <scale>, always }} here")
    assert shown == (
        'a bar of <span class="typed">100 mm <small>(typed here, because it proves the &#60;scale&#62;, always)</small>'
        "</span> here"
    )


@pytest.mark.parametrize(
    "quote",
    ["{{ typed: 100 mm }}", "{{ typed: because it is }}", "{{ typed: 5 mm, because }}", "{{ typed: , because of it }}"],
)
def test_a_typed_number_without_a_reason_is_refused(quote: str) -> None:
    replaced, report = quoted(f"a {quote}", "page.md", RECORDS)
    assert [(d.code, d.place.column) for d in report] == [("H703", 3)]
    assert replaced == f"a {quote}"


def test_every_wrong_quote_of_a_page_is_told() -> None:
    _, report = quoted("{{ a }} {{ machines.kettle.name }} {{ b }}\n{{ c }}", "page.md", RECORDS)
    assert [(d.place.line, d.place.column) for d in report] == [(1, 1), (1, 36), (2, 1)]


@pytest.mark.parametrize(
    "text",
    [
        "write `{{ machines.kettle.name }}` here",
        "write ``{{ a }} ` {{ b }}`` here",
        "```\n{{ nothing.at.all }}\n```",
        "~~~ yaml\n{{ nothing }}\n```\n{{ still }}\n~~~",
        "1. step\n\n    ```\n    {{ nothing }}\n    ```",
        "---\ntitle: {{ nothing }}\n---\ntext",
    ],
)
def test_code_and_settings_are_left_alone(text: str) -> None:
    assert told(text) == text


def test_after_code_quotes_count_again() -> None:
    assert told("```\n{{ a }}\n```\n{{ studio.units }}").endswith("[metric](/reference/studio.md#studio-units)")


def test_text_of_a_record_never_becomes_markup() -> None:
    name = "<b>*Kettle*</b> & `x` | [y](z) {{ studio.units }}"
    kettle = RECORDS.machines["kettle"].model_copy(update={"name": name})
    records = dataclasses.replace(RECORDS, machines={**RECORDS.machines, "kettle": kettle})
    replaced = told("{{ machines.kettle.name }}", records)
    inner = replaced.removeprefix("[").removesuffix("](/reference/machines.md#machines-kettle)")
    assert not set("<>*`|[]{}") & set(inner)
    assert "&#60;b&#62;&#42;Kettle&#42;" in inner


@given(st.text(alphabet="{}`~.ab \n-|", max_size=60))
def test_no_text_raises_and_text_without_quotes_stays(text: str) -> None:
    replaced, report = quoted(text, "page.md", RECORDS)
    if "{{" not in text:
        assert (replaced, report) == (text, ())


def test_every_family_has_a_page() -> None:
    assert set(PAGE_OF) == {"studio", *(family.name for family in LISTED)}


def test_every_quote_of_the_handbook_is_right() -> None:
    for page in sorted((ROOT / "handbook").rglob("*.md")):
        assert quoted(page.read_text("utf-8"), str(page), RECORDS)[1] == ()


def test_an_id_may_hold_anything_that_an_id_may_hold() -> None:
    kettle = RECORDS.machines["kettle"].model_copy(update={"id": Text("Kettle-2")})
    records = dataclasses.replace(RECORDS, machines={"Kettle-2": kettle})
    assert told("{{ machines.Kettle-2.name }}", records) == "[Kettle](/reference/machines.md#machines-Kettle-2)"
