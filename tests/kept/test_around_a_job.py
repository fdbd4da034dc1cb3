"""One job is planned by the pace of its own steps and of those of its day alone, and comes out as among all."""

from __future__ import annotations

import datetime
from collections import Counter
from pathlib import Path

import pytest

from generator.dates import as_of
from generator.kept.times import around_a_day, around_a_job, learn_from_texts
from generator.planning.each_job import diary_of, paces_of, plan_ready, ready_job
from generator.records import reading as reading_module
from generator.records.reading import JobTexts, job_files, read_job, read_records
from tests.conftest import copy_content
from tests.learned import learn, learn_from, read_finished

# Sittings of one day of two artists, one on a day of its own, and what was finished before.
JOBS = ("tide-table", "bell-pull", "keepers-lantern", "diving-bell", "sextant", "signal-box", "oil-can", "loom-shuttle")


def test_a_job_is_planned_as_among_all_and_each_file_is_looked_through_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = copy_content(tmp_path, JOBS)
    reading = read_records(content, as_of())
    everything = learn_from(content, reading)[0]
    assert any(lesson.factor is not None for lesson in everything.values())
    diary = diary_of(content, reading, everything)
    read: list[Path] = []
    before = reading_module.bytes_of

    def noting(path: Path) -> bytes:
        read.append(path)
        return before(path)

    monkeypatch.setattr(reading_module, "bytes_of", noting)
    for name, others in (("tide-table", 1), ("bell-pull", 1), ("keepers-lantern", 0)):
        ready = ready_job(read_job(content / "jobs" / f"{name}.yml", reading.known), reading)
        assert ready.job is not None
        read.clear()
        learned, day = around_a_job(content, reading, ready)
        assert {path: number for path, number in Counter(read).items() if path.parent.name == "jobs"} == dict.fromkeys(
            job_files(content), 1
        )
        assert learned and learned.keys() < everything.keys()
        assert plan_ready(ready, reading, learned, day) == plan_ready(ready, reading, everything, diary)
        assert day.day(ready.job.date) == diary.day(ready.job.date)
        assert len(day.day(ready.job.date).sittings) == 1 + others
        whole, same = around_a_day(content, reading, ready.job.date)
        assert learned.keys() <= whole.keys() < everything.keys()
        assert same.day(ready.job.date) == diary.day(ready.job.date)


def test_a_job_finished_once_more_is_not_measured_by_itself_or_by_what_came_after(tmp_path: Path) -> None:
    content = copy_content(tmp_path, JOBS)
    reading = read_records(content, as_of())
    records = reading.records
    assert records is not None
    ready = ready_job(read_job(content / "jobs" / "sextant.yml", reading.known), reading)
    assert learn_from_texts(records, reading, JobTexts(content)) == learn_from(content, reading)[0]
    earlier = [job for job in read_finished(content, reading.known) if str(job.id) == "diving-bell"]
    own, _ = around_a_job(content, reading, ready, datetime.date(2027, 3, 23))
    paces = set(paces_of(records, [ready]))
    assert own == {pace: lesson for pace, lesson in learn(records, earlier)[0].items() if pace in paces} != {}
