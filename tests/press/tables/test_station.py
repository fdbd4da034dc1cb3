"""What is looked up at the station: dials by machine, contact times, mixes, conversions, scar rules, and sorting."""

from __future__ import annotations

import dataclasses
import datetime
import html
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.planning.supplies.mixes import measured_mix
from generator.planning.working.technique import dial_row
from generator.press.pages import generated_pages
from generator.press.tables.conversions import conversions_page, round_numbers, spans_of
from generator.press.tables.dials import dials_page
from generator.press.tables.disinfectants import disinfectants_page
from generator.press.tables.scars import by_fact, scar_rules_page
from generator.press.words.formatted import measured
from generator.press.words.markup import link, table_of, valued, worth_of
from generator.quantities import Quantity, to_canonical, written
from generator.records.conditions import All, Any_, Compare, Not, OneOf, facts_named, in_words
from generator.records.rules import VERDICTS
from generator.trade.refusal import Refusal
from tests.planning.demo import RECORDS
from tests.press.minimal import minimal
from tests.press.page_at import page_at

DIALS = dials_page(page_at("reference/dials.md"))
SCARS = scar_rules_page(page_at("reference/scar-rules.md"))
MIXES = disinfectants_page(page_at("reference/disinfectants.md"))


def row(page: str, at: str) -> str:
    found = re.search(rf'<tr id="{re.escape(at)}">(.*?)</tr>', page, re.DOTALL)
    assert found, at
    return found[1]


def cells(page: str, at: str) -> list[str]:
    """The words of a row, cell by cell."""
    found = re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row(page, at), re.DOTALL)
    return [html.unescape(re.sub(r"<[^>]+>", "", cell)).strip() for cell in found]


class TestWorth:
    def test_a_cell_is_sorted_by_its_value_in_one_unit(self) -> None:
        made = table_of("t", [("x", {"a": "one", "b": measured(written("1 in"), RECORDS)})])
        assert 'data-value="25.4"' in made

    def test_a_range_by_its_lower_end_first(self) -> None:
        assert 'data-value="90 120"' in table_of("t", [("x", {"a": "one", "b": valued("90–120", 90, 120)})])

    def test_a_plain_number_is_its_own_value_and_words_have_none(self) -> None:
        assert worth_of("12") == (12.0,)
        assert worth_of("not measured – measure it") == worth_of("2027-05-01") == ()

    def test_a_link_is_worth_what_its_text_is(self) -> None:
        assert worth_of(link("#x", valued("3 mm", 3))) == (3,)

    def test_a_row_has_a_link_of_its_own(self) -> None:
        assert 'href="#x" aria-label="link"></a>' in table_of("t", [("x", {"a": "one", "b": "two"})])

    def test_a_row_with_a_cell_too_few_is_a_fault(self) -> None:
        with pytest.raises(ValueError, match="shorter"):
            table_of("t", [("w", {"a": "1", "b": "2", "c": "3"}), ("x", {"a": "one", "b": "two"})])


class TestDials:
    def test_every_machine_has_a_section_in_its_own_setting(self) -> None:
        for machine in RECORDS.machines.values():
            section = DIALS.split(f"## {machine.name} ")[1].split("\n## ")[0]
            for technique in RECORDS.techniques.values():
                for place in range(len(technique.dials)):
                    there = f'id="dial-{machine.id}-{technique.id}-{place}"' in section
                    assert there == (machine.id in technique.machines), (machine.id, technique.id)
            settings = re.findall(r'<span class="dial">(.*?)</span>', section)
            wrong = "V" if machine.dial == "Hz" else "Hz"
            assert settings and not [s for s in settings if re.search(rf"\d\u00a0{wrong}\b", s)]

    def test_the_dial_for_a_seven_needle_liner_on_the_second_machine(self) -> None:
        second = list(RECORDS.machines.values())[1]
        lining = RECORDS.techniques["lining"]
        fitting = [n for n, d in enumerate(lining.dials) if "RL" in d.configurations and d.fewest <= 7 <= d.most]
        place = fitting[0]
        found = cells(DIALS, f"dial-{second.id}-lining-{place}")
        assert found[1] == "round liner (RL)"
        assert "1207RL" in found[3]
        usual = lining.dials[place].usual.low
        assert found[4] == f"{usual:.0f}\u00a0Hz"

    def test_the_shelf_of_a_row_is_what_its_speeds_hold_for(self) -> None:
        for technique in RECORDS.techniques.values():
            for place, dial in enumerate(technique.dials):
                fitting = [g.label for g in RECORDS.groupings.values() if dial_row(technique, g) is dial]
                machine = technique.machines[0]
                assert cells(DIALS, f"dial-{machine}-{technique.id}-{place}")[3] == (", ".join(fitting) or "none")

    def test_a_label_is_explained(self) -> None:
        first = next(iter(RECORDS.groupings.values()))
        assert f"{first.label} is 3 needles of" in DIALS
        assert "RL: round liner" in DIALS and "CM: curved magnum" in DIALS

    def test_volts_that_nobody_measured_are_not_filled_in(self) -> None:
        page = dials_page(page_at("reference/dials.md", dataclasses.replace(RECORDS, calibrations={})))
        assert cells(page, "dial-lathe-lining-1")[4] == "not measured – measure it"
        set_to = re.search(r'<td data-label="Set the dial to"([^>]*)>', row(page, "dial-lathe-lining-1"))
        assert set_to is not None and set_to[1] == ""


def _parts(words: str) -> list[float]:
    """Canonical amounts of a cell such as “143 mL (4.9 fl oz)”, the first system first."""
    found = []
    for number, unit in re.findall(r"([\d.]+)\s(mL|fl oz|g|oz|%)", words):
        found.append(to_canonical(float(number), unit))
    return found


class TestMixes:
    def test_a_printed_mix_is_never_weaker_than_asked_and_at_most_five_per_cent_stronger(self) -> None:
        """Read back from the printed page: product and water of each system, and the strength that they give."""
        printed = 0
        for product in RECORDS.disinfectants.values():
            if product.stock is None or product.mixed_to is None:
                continue
            for place in range(len(RECORDS.studio.mix_volumes)):
                _, _, taken, water, _, strength, *_ = cells(MIXES, f"mix-{product.id}-{place}")
                for took, fill, said in zip(*map(_parts, (taken, water, strength)), strict=True):
                    whole = fill if product.form == "powder" else took + fill
                    reached = product.stock.low * took / whole
                    assert 1 - 1e-6 <= reached / product.mixed_to.low <= 1.05, (product.id, place, taken, water)
                    assert said == pytest.approx(reached, rel=1e-3) and said >= product.mixed_to.low
                    printed += 1
        assert printed == 21

    @pytest.mark.parametrize("system", ["metric", "imperial"])
    @given(st.floats(0.01, 100), st.floats(0.001, 0.999), st.floats(50, 20_000), st.sampled_from(["liquid", "powder"]))
    def test_every_mix_that_is_shown_holds(
        self, system: str, stock: float, weaker: float, volume: float, form: str
    ) -> None:
        bought, asked = Quantity(stock, stock, "share"), Quantity(stock * weaker, stock * weaker, "share")
        product = RECORDS.disinfectants["chlorine-liquid"].model_copy(
            update={"form": form, "stock": bought, "mixed_to": asked}
        )
        found = measured_mix(product, Quantity(volume, volume, "volume"), system, RECORDS)
        if isinstance(found, Refusal):
            assert found.remedy
            return
        took, fill = (_parts(words)[0] for words in (found.product_in_words, found.water_in_words))
        whole = fill if form == "powder" else took + fill
        assert 1 - 1e-6 <= stock * took / whole / asked.low <= 1.05 + 1e-6

    def test_the_published_examples(self) -> None:
        """CDC, Best Practices for Environmental Cleaning, Appendix E: 3.5 % to 0.5 % is 1 part and 6 parts water, so
        a litre takes 142.9 mL; 35 % powder to 0.5 % is 14.3 g to a litre. 4.8 fl oz would give 0.497 %."""
        assert cells(MIXES, "mix-chlorine-liquid-2")[1:4] == [
            "1\u00a0L",
            "143\u00a0mL (4.9\u00a0fl oz)",
            "857\u00a0mL (28.9\u00a0fl oz)",
        ]
        assert cells(MIXES, "mix-chlorine-liquid-2")[5] == "0.5005\u00a0% (0.5074\u00a0%)"
        assert cells(MIXES, "mix-chlorine-powder-2")[2] == "14.3\u00a0g"

    def test_what_no_measure_reaches_is_left_out_and_said(self) -> None:
        """3.57 g is 0.126 oz: a scale of tenths shows 0.1 oz (0.40 %) or 0.2 oz (0.79 %)."""
        assert cells(MIXES, "mix-chlorine-powder-0")[2:4] == ["3.6\u00a0g", "250\u00a0mL"]
        assert "oz" in cells(MIXES, "mix-chlorine-powder-3")[2]
        assert "Bleach powder (hypochlorite), 250\u00a0mL, in imperial units" in html.unescape(MIXES)

    def test_the_batch_is_the_same_mix_in_both_tables_and_in_its_explanation(self) -> None:
        for product in RECORDS.disinfectants.values():
            if product.batch is None:
                continue
            place = [volume.low for volume in RECORDS.studio.mix_volumes].index(product.batch.low)
            taken, water = cells(MIXES, f"mix-{product.id}-{place}")[2:4]
            batch = cells(MIXES, f"disinfectants-{product.id}")[6]
            assert taken in batch and water in batch
            assert cells(MIXES, f"how-batch-{product.id}")[1].startswith(taken.partition(" (")[0])

    def test_in_an_imperial_studio_ounces_come_first(self) -> None:
        studio = RECORDS.studio.model_copy(update={"units": "imperial"})
        page = disinfectants_page(page_at("reference/disinfectants.md", dataclasses.replace(RECORDS, studio=studio)))
        assert cells(page, "mix-chlorine-liquid-2")[2] == "4.9\u00a0fl oz (143\u00a0mL)"
        assert cells(page, "mix-chlorine-powder-0")[2] == "3.6\u00a0g"

    def test_contact_times_stand_in_one_table(self) -> None:
        for product in RECORDS.disinfectants.values():
            found = cells(MIXES, f"contact-{product.id}")
            assert found[:3] == [product.name, product.contact.text.replace(" ", "\u00a0"), product.used_on]

    def test_where_nothing_is_mixed(self) -> None:
        assert "every product is ready to use" in disinfectants_page(page_at("reference/disinfectants.md", minimal()))


class TestConversions:
    def test_two_values_of_each_pair(self) -> None:
        """1 in = 25.4 mm, 1 fl oz (US) = 29.5735 mL, 1 oz = 28.3495 g: NIST SP 811, Appendix B; °F = 1.8 °C + 32."""
        page = conversions_page(page_at("reference/conversions.md"))
        assert cells(page, "frequency-hz-95") == ["95\u00a0Hz", "5700\u00a0strokes/min"]
        assert "frequency-hz-2-5" not in page  # nothing that only a procedure quotes stretches the table
        assert cells(page, "length-mm-4") == ["4\u00a0mm", "0.1575\u00a0in"]
        assert cells(page, "length-in-1") == ["1\u00a0in", "25.4\u00a0mm"]
        assert cells(page, "volume-fl-oz-1") == ["1\u00a0fl oz", "29.57\u00a0mL"]
        assert cells(page, "temperature-deg-c-121") == ["121\u00a0°C", "249.8\u00a0°F"]
        assert cells(page, "weight-oz-5") == ["5\u00a0oz", "141.7\u00a0g"]

    def test_they_reach_as_far_as_the_records(self) -> None:
        low, high = spans_of(RECORDS)["frequency"]
        named = [q for m in RECORDS.machines.values() if m.dial == "Hz" for q in (m.limits.low, m.limits.high)]
        assert low <= min(named) and max(named) <= high
        assert round_numbers(low, high)[0] <= low and round_numbers(low, high)[-1] >= high

    @pytest.mark.parametrize(("low", "high"), [(40, 150), (0.03, 330), (121, 135), (5, 5), (1, 10.0), (0.2, 1.9)])
    def test_round_numbers_enclose_the_span(self, low: float, high: float) -> None:
        found = round_numbers(low, high)
        assert found == sorted(set(found)) and found[0] <= low and found[-1] >= high
        assert found[1] > low if len(found) > 1 else True
        assert len(found) <= 32 or high / low > 10

    def test_a_studio_without_machines_has_no_speeds(self) -> None:
        assert "Machine speeds" not in conversions_page(page_at("reference/conversions.md", minimal()))


class TestScars:
    def test_the_most_severe_stands_first(self) -> None:
        order = re.findall(r'<tr id="decide-([^"]+)"', SCARS)
        ranks = [VERDICTS.index(RECORDS.scar_rules[rule].verdict) for rule in order]
        assert len(order) == len(RECORDS.scar_rules) and ranks == sorted(ranks, reverse=True)

    def test_every_condition_stands_in_a_column(self) -> None:
        """Or in words before all columns, where one row cannot say it: such as one fact that is asked for twice."""
        in_columns = 0
        for rule in RECORDS.scar_rules.values():
            said = row(SCARS, f"decide-{rule.id}")
            tests = by_fact(rule.when)
            if tests is None:
                assert in_words(rule.when) in cells(SCARS, f"decide-{rule.id}")
            else:
                assert set(tests) == set(facts_named(rule.when))
                in_columns += 1
            for words in (tests or {}).values():
                assert words in said
            assert rule.verdict in said and rule.consequence.rstrip(".") in html.unescape(said)
        assert in_columns >= len(RECORDS.scar_rules) - 2

    def test_alternatives_are_told_from_what_has_to_hold_together(self) -> None:
        assert set((by_fact(RECORDS.scar_rules["scar-restless"].when) or {}).values()) == {"any: yes"}
        assert set((by_fact(RECORDS.scar_rules["scar-after-burn"].when) or {}).values()) == {"burn", "yes"}

    def test_what_does_not_fit_into_columns_is_said_in_words(self) -> None:
        one, two = OneOf("scar.itch", (True,)), OneOf("scar.pain", (True,))
        nested = Any_((All((one, two)), OneOf("scar.feel", ("hard",))))
        twice = All((Any_((one, two)), Any_((OneOf("scar.growth", (True,)), OneOf("scar.feel", ("firm",))))))
        assert by_fact(nested) is by_fact(twice) is by_fact(Not(All((one, two)))) is None
        assert by_fact(Not(one)) == {"scar.itch": "not yes"}
        rule = next(iter(RECORDS.scar_rules.values())).model_copy(update={"when": nested})
        alone = dataclasses.replace(RECORDS, scar_rules={rule.id: rule})
        page = scar_rules_page(page_at("reference/scar-rules.md", alone))
        assert in_words(nested) in cells(page, f"decide-{rule.id}")

    def test_when_may_a_ten_month_old_scar_be_looked_at_again(self) -> None:
        until = RECORDS.scar_rules["scar-young"].wait_until_age
        assert until is not None
        found = cells(SCARS, "age-10")
        left = f"in {until.low - 10:.0f} months, when it is {until.low:.0f} months old"
        assert found[:3] == ["10 months", "wait", left]

    def test_the_age_that_is_asked_for_moves_the_table(self) -> None:
        young = RECORDS.scar_rules["scar-young"]
        longer = young.model_copy(
            update={
                "when": Compare("scar.age", "below", written("18 months")),
                "wait_until_age": written("18 months"),
            }
        )
        moved = dataclasses.replace(RECORDS, scar_rules={**RECORDS.scar_rules, young.id: longer})
        page = scar_rules_page(page_at("reference/scar-rules.md", moved))
        assert cells(page, "age-10")[2] == "in 8 months, when it is 18 months old"
        assert cells(page, "age-17")[1] == "wait"

    def test_old_enough_is_no_permission(self) -> None:
        assert cells(SCARS, "age-24")[1:3] == ["no rule by age", "no wait for its age"]
        assert "every other rule still holds" in cells(SCARS, "age-24")[3]


def test_the_station_has_its_pages() -> None:
    pages = generated_pages(RECORDS, datetime.date(2027, 5, 1))
    assert {"reference/dials.md", "reference/conversions.md"} <= set(pages)
