"""What a span of days takes from the shelf, and what is ordered for it."""

from __future__ import annotations

import dataclasses
import datetime
import math
import shutil
from pathlib import Path
from typing import Any

import pytest

from generator.cli import main
from generator.planning.computed import Computed, explained
from generator.planning.for_lists import needs_of
from generator.planning.supplies.restock import GROUPINGS, INKS, SUPPLIES, Line, Restock, Span, restock, span_ahead
from generator.records.families import Records
from generator.records.reading import read_family, read_records
from generator.trade import supplies
from tests.planning.demo import CONTENT, JOBS, RECORDS, demo, part, planned, simple, with_entry

SPAN = Span(datetime.date(2027, 5, 1), datetime.date(2027, 6, 30))


def made(*jobs: Any, records: Records = RECORDS, span: Span = SPAN) -> Restock:
    found = (needs_of(records, planned(job, records)) for job in jobs)
    return restock(records, span, [needs for needs in found if needs is not None])


def line(found: Restock, family: str, entry: str) -> Line:
    (one,) = (line for line in found.lines if (line.family, line.entry) == (family, entry))
    return one


def job(number: int, date: str = "2027-05-12", **changes: Any) -> dict[str, Any]:
    return simple(id=f"lamp-{number}", date=date, **changes)


def test_needs_are_summed_over_the_jobs_and_named_after_them() -> None:
    one, three = (made(*(job(n) for n in range(count))) for count in (1, 3))
    for before, after in zip(one.lines, three.lines, strict=True):
        assert after.need.low == pytest.approx(3 * before.need.low)
        assert after.need.high == pytest.approx(3 * before.need.high)
    need = line(three, SUPPLIES, "gloves").need
    assert isinstance(need, Computed) and [name for name, _ in need.inputs] == ["lamp-0", "lamp-1", "lamp-2"]


def test_packs_are_ordered_for_the_larger_end_so_that_the_reserve_stays() -> None:
    records = with_entry("supplies", "towels", stock=510, reserve=500, pack=250)
    found = line(made(job(1), records=records), SUPPLIES, "towels")
    # A signal lamp takes 56 min at least: 19 towels or more, of which 10 may be taken.
    assert 10 < found.need.low < found.need.high < 260
    assert found.order is not None and (found.order.low, found.order.high) == (1, 1)
    assert found.order.function is supplies.packs_to_order
    assert {name: value.low for name, value in found.order.inputs if name != "need"} == {
        "stock": 510,
        "reserve": 500,
        "pack": 250,
    }


def test_an_order_may_depend_on_how_long_it_takes() -> None:
    need = line(made(job(1)), SUPPLIES, "towels").need
    records = with_entry("supplies", "towels", stock=500 + math.floor(need.low), reserve=500, pack=250)
    found = line(made(job(1), records=records), SUPPLIES, "towels")
    assert found.order is not None and (found.order.low, found.order.high) == (0, 1)


def test_a_shelf_below_its_reserve_is_filled_without_any_job() -> None:
    records = with_entry("supplies", "razor", stock=19, reserve=20, pack=50)
    found = line(made(records=records), SUPPLIES, "razor")
    assert found.need.high == 0 and found.order is not None and found.order.high == 1


@pytest.mark.parametrize(
    ("day", "counts"),
    [("2027-04-30", 0), ("2027-05-01", 1), ("2027-06-30", 1), ("2027-07-01", 0)],
)
def test_the_first_and_the_last_day_are_within(day: str, counts: int) -> None:
    asked = {"asked": day, "answers": "all clear"}
    assert len(made(job(1, day, screening=asked)).counted) == counts


def test_a_job_that_may_not_go_ahead_takes_nothing_and_is_listed() -> None:
    both = made(job(1), job(2, screening=None))
    assert [j.job for j in both.counted] == ["lamp-1"]
    assert [(j.job, j.needs) for j in both.left_out] == [("lamp-2", ())]
    assert both.left_out[0].state == "not yet"
    assert both.lines == made(job(1)).lines


def test_a_finished_job_has_taken_its_things_already() -> None:
    assert needs_of(RECORDS, demo("diving-bell")) is None


def test_an_order_is_the_same_whatever_a_client_may_not_touch() -> None:
    read = {"not_on_tray": "yes", "by": "quill", "on": "2027-05-10"}
    allergens = {word for supply in RECORDS.supplies.values() for word in supply.contains or ()}
    lines = made(job(1)).lines
    assert len(allergens) > 8 and line(made(job(1)), SUPPLIES, "grip-wrap").need.high > 0
    differ = [
        word for word in sorted(allergens) if made(job(1, allergies=[{"to": word, "checked": read}])).lines != lines
    ]
    assert differ == []


def test_of_two_articles_of_which_one_is_taken_enough_of_each_is_ordered() -> None:
    film, pad = (line(made(job(1)), SUPPLIES, name).need for name in ("dressing-film", "pad"))
    # 100 mm x 100 mm: one piece for 60 cm² each, and one for 100 cm² each.
    assert (film.low, film.high) == (0, 2) and (pad.low, pad.high) == (0, 1)


def test_cartridges_are_counted_by_grouping() -> None:
    two = part("second", (62, 20, 20, 20), lines=[{"needle": "1209RL", "length": "300 mm"}])
    found = made(job(1, parts=[part("lamp", focal="yes"), two]), job(2))
    each = RECORDS.supplies["cartridges"].amount
    assert line(found, GROUPINGS, "1207RL").need.low == 2 * each
    assert line(found, GROUPINGS, "1209RL").need.low == each
    assert line(found, GROUPINGS, "1215CM").need.low == 0
    # They stand with their groupings, not once more in the cupboard.
    assert [one for one in found.lines if one.entry == "cartridges"] == []


def test_a_wash_is_taken_from_the_bottle_that_it_is_mixed_of() -> None:
    # Light wash: 1 part ink and 9 parts water. 20 cm² at 0.03–0.06 mL/cm² are 0.6–1.2 mL.
    wash = part("sky", focal="yes", lines=None, colours=[{"ink": "wash-light", "area": "20 cm²"}])
    found = made(job(1, parts=[wash]))
    need = line(found, INKS, "black-shade").need
    assert (need.low, need.high) == (0.06, 0.12)
    assert [one for one in found.lines if one.entry == "wash-light"] == []


def test_what_nobody_counted_is_asked_and_never_guessed() -> None:
    records = with_entry("inks", "black-line", shelf=None)
    records = dataclasses.replace(
        records,
        groupings={**records.groupings, "1207RL": records.groupings["1207RL"].model_copy(update={"shelf": None})},
    )
    found = made(job(1), records=records)
    for family, entry in ((INKS, "black-line"), (GROUPINGS, "1207RL")):
        one = line(found, family, entry)
        assert one.need.low > 0 and one.stock is None and one.order is None


def test_every_number_says_where_it_comes_from() -> None:
    found = made(job(1), job(2))
    for one in found.lines:
        for value in (one.need, one.stock, one.reserve, one.pack, one.order):
            assert value is not None
            data = explained(value)
            assert data.get("record") or data["inputs"], one


def test_the_span_of_the_page_is_as_long_as_the_studio_plans() -> None:
    span = span_ahead(RECORDS, datetime.date(2027, 1, 1))
    assert (span.last - span.first).days == RECORDS.studio.limits.plan_ahead.low


def test_the_demo_has_something_to_order_and_something_left_out() -> None:
    needs = [needs_of(RECORDS, demo(name)) for name in JOBS]
    found = restock(RECORDS, SPAN, [n for n in needs if n is not None])
    coming = [made for made in map(demo, JOBS) if made.job.has_a_day and SPAN.first <= made.job.date <= SPAN.last]
    coming = [made for made in coming if made.job.finished is None and made.job.not_worked is None]
    assert {j.job for j in found.counted} == {str(made.job.id) for made in coming if made.verdict.goes_ahead}
    assert {j.job for j in found.left_out} == {str(made.job.id) for made in coming if not made.verdict.goes_ahead}
    assert {"tide-table", "keepers-lantern"} <= {j.job for j in found.counted}
    assert {"paper-boat", "orrery", "stairwell"} <= {j.job for j in found.left_out}
    assert any(one.order is not None and one.order.high > 0 for one in found.lines)


class TestTheRecords:
    @pytest.mark.parametrize(
        ("family", "right", "wrong", "code"),
        [
            ("supplies", "per: interruption, amount: 1,", "per: interruption, by_grouping: yes, amount: 1,", "R317"),
            (
                "inks",
                "lots: [], mixed: {of: black-shade, parts_ink: 1, parts_water: 2}",
                "shelf: {bottle: 60 mL, stock: 0 mL, reserve: 0 mL}, lots: [], mixed: {of: black-shade, parts_ink: 1, "
                "parts_water: 2}",
                "R317",
            ),
            ("groupings", "shelf: {pack: 20, stock: 18, reserve: 4,", "shelf: {pack: 20, stock: 18,", "R302"),
        ],
    )
    def test_contradictions_about_the_shelf(
        self, family: str, right: str, wrong: str, code: str, tmp_path: Path
    ) -> None:
        from generator.records.families import LISTED

        text = (CONTENT / f"{family}.yml").read_text("utf-8")
        assert right in text
        (tmp_path / f"{family}.yml").write_text(text.replace(right, wrong, 1), "utf-8")
        read = read_family(tmp_path / f"{family}.yml", next(f for f in LISTED if f.name == family))
        assert [d.code for d in read.report] == [code]


class TestTheCommand:
    def run(self, *arguments: str, content: Path = CONTENT) -> int:
        return main(["restock", "--content", str(content), *arguments])

    def test_a_span(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert self.run("--from", "2027-05-01", "--to", "2027-06-30") == 0
        said = capsys.readouterr().out
        assert said.startswith("What to order for 2027-05-01 to 2027-06-30\n")
        assert "tide-table: clear" in said
        assert said.index("Left out, because they may not go ahead:") < said.index("orrery: not yet")
        order = said[said.index("To order") : said.index("Enough on the shelf")]
        assert "1210RL" in order and "1 box" in order and "1 bottle" in order

    def test_without_days_it_begins_on_the_day_of_the_build(
        self, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setenv("SOURCE_DATE_EPOCH", "1810080000")
        assert self.run() == 0
        assert "for 2027-05-12 to 2027-12-08" in capsys.readouterr().out

    def test_days_the_wrong_way_round(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert self.run("--from", "2027-06-01", "--to", "2027-05-01") == 1
        said = capsys.readouterr()
        assert said.out == "" and "exchange --from and --to" in said.err

    def test_no_day_at_all(self, capsys: pytest.CaptureFixture[str]) -> None:
        with pytest.raises(SystemExit) as left:
            self.run("--from", "May")
        assert left.value.code == 2 and "expected a date" in capsys.readouterr().err

    def test_a_job_that_cannot_be_read_stops_the_order(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        content = tmp_path / "content"
        shutil.copytree(CONTENT, content)
        file = content / "jobs" / "tide-table.yml"
        file.write_text(file.read_text("utf-8").replace("start: 11:00", "start: 25:00"), "utf-8")
        assert self.run("--from", "2027-05-01", content=content) == 1
        said = capsys.readouterr()
        assert said.out == "" and "R312" in said.err

    def test_mistakes_in_the_records_stop_it_too(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        content = tmp_path / "content"
        shutil.copytree(CONTENT, content)
        (content / "people.yml").unlink()
        assert read_records(content).records is None
        assert self.run(content=content) == 1
        assert "F801" in capsys.readouterr().err
