"""What is said to have been done was done by the day that counts as today; each date field declares which it is."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from pydantic import BaseModel

from generator.cli import main
from generator.dates import AsOf, as_of, not_today, set_date
from generator.press.writing.schema import fields_of, nested_records
from generator.records.days import UP_TO_TODAY
from generator.records.families import ALL
from generator.records.reading import read_records
from tests.checked import check_all
from tests.conftest import copy_content

# Days that may lie ahead, each with what it is.
MAY_LIE_AHEAD = {
    "studio.as_of": "the day that counts as today itself",
    "jobs.date": "a sitting is planned before it comes",
    "jobs.finished.cartridges.expires": "printed expiry",
    "inks.lots.expires": "printed expiry",
    "groupings.shelf.first_expires": "printed expiry",
    "supplies.first_expires": "printed expiry",
    "barred-pigments.since": "a law is made before it holds",
    **{
        f"{what}.until.on": "an end is known before it comes"
        for what in ("people", "machines", "inks", "inks.lots", "groupings", "supplies", "procedures")
    },
}
# Past days of the demo, in two runs because jobs are looked at only on records without a mistake: the file, the text,
# and the same with a day to come.
_RECORDS = (
    ("inks.yml", "opened: 2027-03-01", "opened: 2027-05-13"),
    ("calibrations.yml", "measured: 2026-11-04", "measured: 2027-05-13"),
    ("reviews.yml", "reviewed: 2027-0", "reviewed: 2028-0"),
    ("people.yml", "text: 960abf, on: 2026-11-20", "text: 960abf, on: 2027-05-13"),
    ("people.yml", "on: 2026-10-12", "on: 2027-05-13"),
    ("screening.yml", "added: 20", "added: 21"),
    ("sources.yml", "decided: {by: tilde, on: 20", "decided: {by: tilde, on: 21"),
    ("reviews.yml", "decided: {by: tilde, on: 20", "decided: {by: tilde, on: 21"),
    ("people.yml", "came: 2026-11-09", "came: 2027-05-13"),
)
_JOBS = (
    ("jobs/sextant.yml", "  on: 2027-03-23", "  on: 2027-05-13"),
    ("jobs/diving-bell.yml", "- on: 2027-05-04", "- on: 2027-05-13"),
    ("jobs/oil-can.yml", "reported: 2027-05-10", "reported: 2027-05-13"),
    ("jobs/clock-tower.yml", "asked: 2027-05-11", "asked: 2027-05-13"),
    ("jobs/clock-tower.yml", "recent-work: 2027-04-14", "recent-work: 2027-05-13"),
    ("jobs/clock-tower.yml", "last_worked: 2027-04-14", "last_worked: 2027-05-13"),
    ("jobs/paper-boat.yml", "wound: 2026-07-18", "wound: 2027-05-13"),
    ("jobs/steam-boiler.yml", "laser: none", "laser: [2020-01-01, 2027-05-13]"),
    ("jobs/star-finder.yml", "numbing: none", "numbing: [{product: gel, by: client, on: 2027-05-13}]"),
)


def _dates(model: type[BaseModel], path: str) -> dict[str, bool]:
    """Every date field of a record, and whether it says what was done."""
    found = {}
    for under, record in [("", model), *nested_records(model)]:
        for field in fields_of(record):
            if field.shape.takes.startswith(("date", "a date")) or "a last day" in field.shape.takes:
                found[".".join(filter(None, (path, under, field.key)))] = field.shape.bounds == UP_TO_TODAY
    return found


def test_each_date_field_says_what_was_done_or_why_it_may_lie_ahead() -> None:
    dates: dict[str, bool] = {}
    for family in ALL:
        dates |= _dates(family.model, family.name)
    assert len(dates) > 20
    assert {path for path, past in dates.items() if not past} == set(MAY_LIE_AHEAD)


@pytest.mark.parametrize("slips", [_RECORDS, _JOBS])
def test_each_of_them_after_the_day_is_a_mistake_at_its_place(
    slips: tuple[tuple[str, str, str], ...], tmp_path: Path
) -> None:
    content = copy_content(tmp_path, {Path(file).stem for file, *_ in _JOBS})
    wanted = set()
    for file, was, becomes in slips:
        path = content / file
        text = path.read_text("utf-8")
        assert was in text, (file, was)
        wanted.add((str(path), text[: text.index(was)].count("\n") + 1))
        path.write_text(text.replace(was, becomes, 1), "utf-8")
    found = [d for d in check_all(content, as_of()) if d.code == "R328"]
    assert {(d.place.file, d.place.line) for d in found} == wanted and len(found) == len(slips)
    for diagnostic in found:
        text = Path(diagnostic.place.file).read_text("utf-8").split("\n")[diagnostic.place.line - 1]
        assert text[diagnostic.place.column - 1 :].startswith(diagnostic.found.strip("“”")[:7])
        assert diagnostic.expected == "a day up to 2027-05-12, which `as_of` in studio.yml sets as today"
        assert "take it away until it is done; or set `as_of` in studio.yml to the day that is meant" in diagnostic.help


def test_a_mistake_in_studio_leaves_open_which_day_it_is(tmp_path: Path) -> None:
    content = copy_content(tmp_path, ["diving-bell"])
    studio = content / "studio.yml"
    studio.write_text(studio.read_text("utf-8").replace("paper: A4", "paper: A3"), "utf-8")
    assert [d.code for d in check_all(content, as_of())] == ["R307"]


class TestTheDayOfARun:
    TOLD, EPOCH = datetime.date(2028, 1, 31), "1830000000"  # 2027-12-28

    def test_what_was_told_goes_over_the_environment_over_the_studio_over_the_clock(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        content = copy_content(tmp_path, ["diving-bell"])
        monkeypatch.setenv("SOURCE_DATE_EPOCH", self.EPOCH)
        days = [read_records(content, as_of(told)).as_of for told in (self.TOLD, None)]
        monkeypatch.delenv("SOURCE_DATE_EPOCH")
        days += [read_records(content, as_of()).as_of]
        studio = content / "studio.yml"
        studio.write_text(studio.read_text("utf-8").replace("as_of: 2027-05-12", ""), "utf-8")
        days += [read_records(content, as_of()).as_of]
        assert [day.isoformat() for day in days] == [
            "2028-01-31",
            "2027-12-28",
            "2027-05-12",
            datetime.date.today().isoformat(),
        ]
        assert [day.set_by for day in days] == ["`--as-of`", "SOURCE_DATE_EPOCH", "`as_of` in studio.yml", ""]

    def test_a_day_that_was_set_says_so_and_a_command_only_where_it_is_another(self) -> None:
        clock = datetime.date(2027, 6, 1)
        june = AsOf.of(clock, "`--as-of`", clock)
        assert (set_date(AsOf.of(clock, "", clock)), set_date(clock), not_today(june)) == ("", "", "")
        assert set_date(june) == "This is as of 1 June 2027, a date that was set. It may not be today."
        july = AsOf.of(datetime.date(2027, 7, 1), "`--as-of`", clock)
        assert not_today(july) == "This is as of 1 July 2027, not today. `--as-of` sets it."

    def test_a_command_takes_it_and_refuses_no_day_at_all(self, capsys: pytest.CaptureFixture[str]) -> None:
        with pytest.raises(SystemExit):
            main(["check", "--as-of", "1.6.2027"])
        assert (
            "argument --as-of: expected a date written as year-month-day, found “1.6.2027”" in capsys.readouterr().err
        )
