"""The archive that is measured is one: distinct, mostly finished, over ten years, and without a mistake."""

from __future__ import annotations

import datetime
import re
from collections import Counter
from functools import cache
from pathlib import Path

from generator.diagnostics import has_errors
from generator.press.sheet.frozen import read_frozen
from generator.records.reading import read_job, read_records
from tests.benchmarks.archive import CONTENT, YEARS, files, first_to_come
from tests.benchmarks.plain import as_markdown

_DATE = r"(?m)^date: (\d{4}-\d{2}-\d{2})"


@cache
def _sixty() -> dict[str, str]:
    return dict(files(60))


def test_no_two_jobs_are_alike_and_most_are_finished_over_ten_years(tmp_path: Path) -> None:
    made = _sixty()
    jobs = {name: text for name, text in made.items() if name.endswith(".yml")}
    assert len(jobs) == 60 and len(set(jobs.values())) == 60 and len(made) == 60 + 54
    assert made == dict(files(60))
    days = [found[1] for text in jobs.values() if (found := re.search(r"(?m)^  on: (\d{4})-", text))]
    assert len(days) == 54 and len(set(days)) >= 10
    known = read_records(CONTENT).known
    for name in (*list(jobs)[:2], *list(jobs)[-2:]):
        path = tmp_path / name
        path.write_text(made[name], "utf-8")
        assert not has_errors(read_job(path, known).report), name
        if kept := made.get(name.replace(".yml", ".worked.json")):
            worked = path.with_suffix(".worked.json")
            worked.write_text(kept, "utf-8")
            assert read_frozen(worked)[1] == ()


def test_sittings_to_come_lie_as_the_studio_works() -> None:
    """About as many a week as the ten years had, and a bit more; some days have two of them, and none has more."""
    jobs = [text for name, text in _sixty().items() if name.endswith(".yml") and "\nfinished:" not in text]
    days = sorted(datetime.date.fromisoformat(found[1]) for text in jobs if (found := re.search(_DATE, text)))
    assert len(days) == len(jobs) == 6
    a_week, had = (len(days) - 1) * 7 / (days[-1] - days[0]).days, 54 * 7 / (YEARS * 365)
    assert had < a_week < 1.4 * had
    assert set(Counter(days).values()) == {1, 2}
    assert {day.isoweekday() for day in days} <= {2, 3, 4, 5, 6}
    # The next one is the same piece in an archive of any size.
    few, many = dict(files(1, 0.0))["job-0.yml"], _sixty()[f"{first_to_come(60)}.yml"]
    assert few.partition("place:")[2][:60] == many.partition("place:")[2][:60] != ""


def test_the_words_of_a_page_are_all_in_its_markdown() -> None:
    page = "<head><title>x</title></head><h2>One &amp; two</h2><table><tr><td>a</td><td>b</td></tr></table><p>c</p>"
    assert as_markdown(page).split() == ["##", "One", "&", "two", "-", "a", "\\|", "b", "c"]
