"""Kept pages are those that a run with nothing kept makes, whatever was changed in between."""

from __future__ import annotations

import datetime
import os
import pickle
import random
import re
import shutil
import stat
import sys
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from generator.dates import AsOf, as_of
from generator.kept import jobs as jobs_module
from generator.kept import keys, made, second, times
from generator.kept.folder import NAME, Folder, InFile
from generator.kept.jobs import make_jobs
from generator.kept.keys import base_of
from generator.kept.made import Facts, Made, MadeFrom, Run, as_bytes, from_bytes
from generator.kept.times import learn_from_kept
from generator.planning import each_job, plan
from generator.planning.each_job import diary_of
from generator.planning.timing import learning
from generator.planning.timing.learning import Learned, Lesson
from generator.press.words.templates import templates_of
from generator.records.families import Known
from generator.records.reading import JobReading, read_records
from tests.benchmarks import archive
from tests.conftest import ROOT, THREE_JOBS, copy_content
from tests.learned import learn_from

Pages = dict[str, bytes]
Results = tuple[Pages, tuple[Facts, ...], object, tuple[Facts, ...]]


def run(content: Path, day: AsOf | None = None) -> Results:
    """What a check and a build make of a folder: pages, what lists need, what was learned, and what a check says."""
    reading = read_records(content, day or as_of())
    kept, base = Folder(content), base_of(content, reading)
    empty: Pages = {}
    checked = make_jobs(kept, base, Run(content, reading, False), empty.__setitem__)
    pages: Pages = {}
    found = make_jobs(kept, base, Run(content, reading, True), pages.__setitem__)
    assert empty.keys() == pages.keys() and set(empty.values()) <= {b""}
    learned = found.learned, found.doubts
    assert learned == (checked.learned, checked.doubts) == learn_from_kept(kept, base, content, reading)
    # A check makes no pages, and so no stamps; where a build has, it takes what that kept.
    said = tuple(
        facts._replace(stamps=(), summary=None if facts.summary is None else replace(facts.summary, stamp=""))
        for facts in checked.facts
    )
    return pages, found.facts, learned, said


def test_a_page_is_made_anew_when_another_job_of_its_day_changes(tmp_path: Path) -> None:
    content = copy_content(tmp_path, ("tide-table", "bell-pull"))
    before = run(content)
    bell = content / "jobs" / "bell-pull.yml"
    bell.write_text(bell.read_text("utf-8").replace("artist: mo", "artist: quill"), "utf-8")
    now = run(content)
    shutil.rmtree(tmp_path / NAME)
    assert now == run(content)
    sheet = "sheets/tide-table.html"
    assert b"Quill is needed by" in now[0][sheet] and b"Quill is needed by" not in before[0][sheet]
    bell.unlink()
    assert run(content)[0][sheet] == before[0][sheet]
    # What was kept of the other named it, and is gone too.
    assert not [p.name for p in (tmp_path / NAME).iterdir() if b"bell-pull" in p.name.encode() + p.read_bytes()]


def test_a_job_is_read_once_and_planned_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What a finished one teaches leaves with it; what others of its day take is known from their plans."""
    names = ("diving-bell", "loom-shuttle", "oil-can", "tide-table", "bell-pull")
    content = copy_content(tmp_path, names)
    counted: Counter[tuple[str, str]] = Counter()

    def counting(module: ModuleType, name: str, job: Callable[..., str]) -> None:
        before = getattr(module, name)

        def noting(*given: Any) -> Any:
            counted[name, job(*given)] += 1
            return before(*given)

        monkeypatch.setattr(module, name, noting)

    for module in (times, each_job):
        counting(module, "read_job", lambda path, known: str(path.stem))
    for module in (plan, learning):
        counting(module, "order_of_work", lambda records, job, here: str(job.id))
    counting(plan, "work_out", lambda laid, job, *rest: str(job.id))
    reading = read_records(content, as_of())
    found = make_jobs(Folder(content), base_of(content, reading), Run(content, reading, True), lambda *page: None)
    assert counted == {(how, name): 1 for how in ("read_job", "order_of_work", "work_out") for name in names}
    assert ("mo", "packing") in found.learned


def test_jobs_too_old_to_count_are_not_planned_for_their_times(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    content = copy_content(tmp_path, ("signal-box",))
    studio, jobs = content / "studio.yml", content / "jobs"
    studio.write_text(studio.read_text("utf-8").replace("learned_from: 12", "learned_from: 3"), "utf-8")
    text = (jobs / "signal-box.yml").read_text("utf-8")
    for path in jobs.iterdir():
        path.unlink()
    for day in range(13, 23):
        moved = text.replace("id: signal-box", f"id: box-{day}").replace("2027-04-13", f"2027-04-{day}")
        (jobs / f"box-{day}.yml").write_text(moved, "utf-8")
    planned: list[str] = []
    before = times.read_job

    def noting(path: Path, known: Known) -> JobReading:
        planned.append(path.stem)
        return before(path, known)

    monkeypatch.setattr(times, "read_job", noting)

    def asked() -> list[str]:
        """The jobs that are planned for their times; what all of them teach is the same."""
        planned.clear()
        reading = read_records(content, as_of())
        found = learn_from_kept(Folder(content), base_of(content, reading), content, reading)
        assert found == learn_from(content, reading) and found[0]
        return sorted(planned)

    assert asked() == ["box-20", "box-21", "box-22"]
    assert asked() == []
    (jobs / "box-21.yml").unlink()
    assert asked() == ["box-19"]
    # A day written in another way is a day: the oldest one is now the latest.
    oldest = jobs / "box-13.yml"
    oldest.write_text(oldest.read_text("utf-8").replace("  on: 2027-04-13", '  on: "2027-05-\\x30\\x31"'), "utf-8")
    assert asked() == ["box-13"]
    # So is one in other digits; and what expires later was not finished later.
    two = oldest.with_name("box-14.yml")
    two.write_text(two.read_text("utf-8").replace("  on: 2027-04-14", '  on: "２０２７-０５-０２"'), "utf-8")
    old = oldest.with_name("box-15.yml")
    lots = "  cartridges: [{grouping: 1207RL, lot: C7-3301, expires: 2029-01-26}]\n"
    old.write_text(old.read_text("utf-8").replace("  on: 2027-04-15\n", f"  on: 2027-04-15\n{lots}"), "utf-8")
    assert asked() == ["box-14"]


def test_a_finished_job_whose_day_has_a_page_rests_on_the_pace(tmp_path: Path) -> None:
    """The page of its day says until when it was booked, which rests on what others taught."""
    content = copy_content(tmp_path, ("diving-bell", "sextant", "signal-box"))
    near, sextant = (content / "jobs" / f"{name}.yml" for name in ("signal-box", "sextant"))
    near.write_text(near.read_text("utf-8").replace("2027-04-13", "2027-05-07"), "utf-8")
    before = run(content)
    slower = re.sub(r"took: (\d+) min\}", lambda took: f"took: {int(took[1]) * 2} min}}", sextant.read_text("utf-8"))
    sextant.write_text(slower, "utf-8")
    now = run(content)
    shutil.rmtree(tmp_path / NAME)
    assert now == run(content)
    then, later = (next(f for f in of[1] if f.job == "signal-box").on_its_day for of in (before, now))
    assert then is not None and later is not None and then.booked != later.booked


def made_in(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The jobs that are made from here on, by their ids."""
    found: list[str] = []
    before = jobs_module.made_of

    def noting(path: Path, all_from: MadeFrom, *rest: Any) -> Made:
        found.extend([path.stem] if all_from.run.pages else [])
        return before(path, all_from, *rest)

    monkeypatch.setattr(jobs_module, "made_of", noting)
    return found


@pytest.fixture(scope="module")
def ran(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Results]:
    """A folder after its first run, with what that made; tests work on copies of it."""
    folder = tmp_path_factory.mktemp("kept")
    copy_content(folder, THREE_JOBS)
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        return folder, run(Path("content"))


@pytest.fixture
def content(ran: tuple[Path, Results], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The records of a studio beside what an earlier run kept."""
    shutil.copytree(ran[0], tmp_path, dirs_exist_ok=True)
    monkeypatch.chdir(tmp_path)
    return Path("content")


@pytest.fixture
def first(ran: tuple[Path, Results]) -> Results:
    """What the earlier run made."""
    return ran[1]


def test_what_did_not_change_is_not_made_again(content: Path, first: Results, monkeypatch: pytest.MonkeyPatch) -> None:
    made_now = made_in(monkeypatch)
    assert run(content) == first
    assert made_now == []
    job = content / "jobs" / "tide-table.yml"
    job.write_text(job.read_text("utf-8").replace("450 mm", "460 mm"), "utf-8")
    again = run(content)
    assert made_now == ["tide-table"] and again != first


def test_a_check_takes_what_a_build_has_kept_and_a_build_makes_the_pages_that_a_check_has_not(
    content: Path, first: Results, monkeypatch: pytest.MonkeyPatch
) -> None:
    made_now: list[str] = []

    def noting(path: Path, *rest: Any) -> Made:
        made_now.append(path.stem)
        return made.made_of(path, *rest)

    monkeypatch.setattr(jobs_module, "made_of", noting)
    reading = read_records(content, as_of())

    def make(pages: bool) -> int:
        made_now.clear()
        make_jobs(Folder(content), base_of(content, reading), Run(content, reading, pages), lambda *page: None)
        return len(made_now)

    assert make(pages=False) == 0
    Folder(content).clear()
    assert [make(pages) for pages in (False, False, True, True, False)] == [3, 0, 3, 0, 0]
    # A change that was checked and undone costs no page.
    reading = read_records(content, as_of(datetime.date(2027, 6, 1)))
    assert make(pages=False) > 0 and make(pages=False) == 0
    reading = read_records(content, as_of())
    assert make(pages=True) == 0


def _in(file: str, old: str, new: str) -> Callable[[Path], None]:
    def change(content: Path) -> None:
        path = content / file
        text = path.read_text("utf-8")
        assert old in text or new in text
        path.write_text(text.replace(new, old) if new in text else text.replace(old, new), "utf-8")

    return change


CHANGES: dict[str, Callable[[Path], None]] = {
    "a job": _in("jobs/tide-table.yml", "length: 4", "length: 40"),
    "a finished job": _in("jobs/diving-bell.yml", "title: ", "title: The other "),
    "a time of a finished job": _in("jobs/diving-bell.yml", "took: ", "took: 1"),
    "a record": _in("values.yml", "is: 1 months", "is: 2 months"),
    "a record of an ink": _in("inks.yml", "name: ", "name: Other "),
    "the studio": _in("studio.yml", "name: ", "name: Other "),
    "a mistake in a job": _in("jobs/stairwell.yml", "artist: ", "artist: un"),
}


def _same_as_clean(content: Path, day: AsOf | None = None) -> None:
    kept = run(content, day)
    (content.parent / NAME).rename(content.parent / "kept before")
    anew = run(content, day)
    Folder(content).clear()
    (content.parent / "kept before").rename(content.parent / NAME)
    assert kept[0] == anew[0]
    assert repr(kept[1:]) == repr(anew[1:])


def _random_changes(content: Path, number: int, seed: int) -> None:
    chance = random.Random(seed)
    day = None
    for _ in range(number):
        name = chance.choice([*CHANGES, "another day", "deleted or back"])
        job, away = content / "jobs" / "tide-table.yml", content.parent / "away.yml"
        if name == "another day":
            plain = datetime.date(2027, 5, 12) + datetime.timedelta(days=chance.randrange(9))
            day = AsOf.of(plain, chance.choice(["", "`--as-of`"]), plain)
        elif name == "deleted or back":
            (job.rename(away) if job.exists() else away.rename(job))
        elif name != "a job" or job.exists():
            CHANGES[name](content)
        _same_as_clean(content, day)


def test_after_random_changes_all_is_as_from_nothing(content: Path) -> None:
    _random_changes(content, 3, seed=3)


@pytest.mark.nightly
def test_after_many_random_changes_all_is_as_from_nothing(content: Path) -> None:
    _random_changes(content, 300, seed=datetime.date.today().toordinal())


@pytest.mark.nightly
@pytest.mark.parametrize("what", sorted(CHANGES))
def test_after_each_change_all_is_as_from_nothing(content: Path, what: str) -> None:
    run(content)
    CHANGES[what](content)
    _same_as_clean(content)


def test_each_input_changes_the_key(content: Path) -> None:
    base = base_of(content, read_records(content, as_of()))
    job = (b"+artist: quill", b"-")
    found = {
        keys.key_of(base, job, ""),
        keys.key_of(base, (b"+artist: mo", b"-"), ""),
        keys.key_of(base, (b"+artist: quill", b"+{}"), ""),
        keys.key_of(base, job, "learned"),
        keys.key_of(base._replace(day="2027-05-13 "), job, ""),
        keys.key_of(base._replace(made_of="another program"), job, ""),
    }
    assert len(found) == 6


def test_program_and_records_are_part_of_the_key(content: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    reading = read_records(content, as_of())
    before = base_of(content, reading)
    CHANGES["a record"](content)
    assert base_of(content, reading).made_of != before.made_of
    CHANGES["a record"](content)
    assert base_of(content, reading) == before
    monkeypatch.setattr(keys, "program", lambda: "other code")
    assert base_of(content, reading).made_of != before.made_of


def test_every_file_of_the_program_counts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Code, templates and styles: each kind of file that shapes a page."""
    program = keys.program.__wrapped__
    (tmp_path / "kept").mkdir()
    monkeypatch.setattr(keys, "__file__", str(tmp_path / "kept" / "keys.py"))
    seen = {program()}
    for name in ("a.py", "kept/b.j2", "c.css", "d.js", "e.svg", "f.yml"):
        for text in ("one", "two"):
            (tmp_path / name).write_text(text, "utf-8")
            seen.add(program())
    assert len(seen) == 13


def test_what_is_damaged_or_foreign_is_not_read(content: Path, first: Results, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = content.parent / NAME
    made_now = made_in(monkeypatch)
    for path in sorted(folder.iterdir()):
        whole, kept = path.read_bytes(), Folder(content)
        key = whole.split(b"\n")[1].decode(errors="replace")
        for damaged in (b"", whole + b"x", b"kept 1 00\n" + whole, b"\0" * 40, whole[:-1]):
            path.write_bytes(damaged)
            assert (kept.times() == {}) == (path.name == "times.rows")
            assert path.suffix != ".pages" or kept.kept(path.stem, key, wanted=True) is None
        path.write_bytes(whole[:-1] if path.stem == "diving-bell" else whole)
    # Whole, and of another job or of another kind.
    (folder / "tide-table.pages").write_bytes((folder / "stairwell.pages").read_bytes())
    (folder / "times.rows").write_bytes((folder / "stairwell.pages").read_bytes())
    assert run(content) == first
    assert sorted(made_now) == ["diving-bell", "tide-table"]


def test_a_page_that_somebody_wrote_into_is_made_again(
    content: Path, first: Results, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page of a site is the kept file, so that an editor can reach it; nothing of ours writes into it."""
    made_now = made_in(monkeypatch)
    sheet = Folder(content).path / next(name for name in _names(content) if name.startswith("stairwell."))
    page = InFile.of(sheet.read_bytes(), sheet)
    page.link(tmp_path / "page.html", stat.S_IMODE(sheet.stat().st_mode))
    assert (tmp_path / "page.html").samefile(sheet)
    (tmp_path / "page.html").write_text("other words", "utf-8")
    assert run(content) == first and made_now == ["stairwell"]
    assert (tmp_path / "page.html").read_text("utf-8") == "other words" and sheet.read_bytes() == page


def test_a_page_has_the_rights_of_its_own_site(content: Path, tmp_path: Path) -> None:
    """A site that only one may read stays so when another one is made that everybody may read."""
    sheet = Folder(content).path / min(_names(content))
    for name, mode in (("private", 0o600), ("public", 0o644), ("private again", 0o600)):
        InFile.of(sheet.read_bytes(), sheet).link(tmp_path / name, mode)
        assert (tmp_path / name).samefile(sheet)
    rights = {name: stat.S_IMODE((tmp_path / name).stat().st_mode) for name in ("private", "public", "private again")}
    assert rights == {"private": 0o600, "public": 0o644, "private again": 0o600}
    assert len({(tmp_path / name).read_bytes() for name in rights}) == 1


def test_of_a_job_only_its_pages_of_today_are_kept(content: Path) -> None:
    before = _names(content)
    CHANGES["a job"](content)
    run(content)
    now = _names(content)
    assert len(now) == len(before) and 0 < len(now - before) < len(now)
    assert {name.partition(".")[0] for name in now - before} == {"tide-table"}
    Folder(content).forget(["tide-table"])
    assert not [name for name in _names(content) if name.startswith("tide-table.")]


def test_a_page_that_is_the_same_on_another_day_stays_the_same_file(content: Path) -> None:
    files = {path: path.stat().st_ino for path in Folder(content).path.glob("diving-bell.*.page")}
    plain = datetime.date(2027, 5, 20)
    run(content, AsOf.of(plain, "", plain))
    now = {path: path.stat().st_ino for path in Folder(content).path.glob("diving-bell.*.page")}
    assert len(files) == len(now) and files.items() & now.items()


def _names(content: Path) -> set[str]:
    return {path.name for path in Folder(content).path.glob("*.page")}


def test_a_place_that_cannot_be_written_stops_nothing(content: Path) -> None:
    Folder(content).clear()
    (content.parent / NAME).write_text("a file", "utf-8")
    assert "sheets/tide-table.html" in run(content)[0]
    assert (content.parent / NAME).read_text("utf-8") == "a file"


def test_nothing_is_left_of_a_deleted_job(content: Path) -> None:
    folder = content.parent / NAME
    assert {path.name for path in folder.iterdir()} >= {"diving-bell.pages", "times.rows"}
    Folder(content).forget(["diving-bell"])
    assert [path.name for path in folder.iterdir() if b'"diving-bell"' in path.read_bytes()] == []
    (folder / "diving-bell.pages").write_bytes(b"")
    for path in (content / "jobs").glob("diving-bell*"):
        path.unlink()
    run(content)
    assert [path.name for path in folder.iterdir() if b"diving-bell" in path.read_bytes()] == []


def test_a_job_is_kept_as_it_was_made(content: Path) -> None:
    reading = read_records(content, as_of())
    for name in THREE_JOBS:
        all_from = MadeFrom(Run(content, reading, True), {}, diary_of(content, reading, {}))
        job = made.made_of(content / "jobs" / f"{name}.yml", all_from, str)
        assert from_bytes(as_bytes(job.facts)) == job.facts and len(job.pages) == len(job.facts.addresses)
        assert from_bytes(as_bytes(job.facts)[:-1]) is None


@pytest.mark.parametrize("copied", [True, False])
def test_a_second_process_makes_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, copied: bool) -> None:
    """A copy of this one, where it has no other threads, or one that is started anew."""
    jobs = ("diving-bell", "loom-shuttle", "oil-can", "sextant", "stairwell", "tide-table", "bell-pull")
    content = copy_content(tmp_path, jobs)
    reading = read_records(content, as_of())

    def make() -> tuple[Pages, tuple[Facts, ...], Learned]:
        pages: Pages = {}
        Folder(content).clear()
        found = make_jobs(Folder(content), base_of(content, reading), Run(content, reading, True), pages.__setitem__)
        assert len(list((content.parent / NAME).glob("*.pages"))) == len(jobs)
        return pages, found.facts, found.learned

    alone = make()
    monkeypatch.setattr(second, "_FROM", 1)
    monkeypatch.setattr(second, "_processors", lambda: 2)
    monkeypatch.setattr(second, "_copies", lambda: copied)
    monkeypatch.setattr(second, "_AT_A_TIME", 2)
    made_now = made_in(monkeypatch)
    assert make() == alone
    assert len(made_now) <= len(jobs) - 2


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere no process is copied")
def test_a_copy_holds_nothing_open_that_the_first_process_opened(content: Path) -> None:
    """So that the lock of a site ends with the first one, whatever ends that."""
    end, held = os.pipe()
    os.set_blocking(end, False)
    reading = read_records(content, as_of())
    copy = second._copied(Run(content, reading, True))
    assert copy is not None
    try:
        assert second._sent(copy, []) and pickle.load(copy.stdout) == []
        os.close(held)
        assert os.read(end, 1) == b""
    finally:
        copy.kill()
        copy.wait()
        os.close(end)


def test_what_a_second_process_does_not_do_is_done(
    content: Path, first: Results, monkeypatch: pytest.MonkeyPatch
) -> None:
    Folder(content).clear()
    monkeypatch.setattr(second, "_FROM", 1)
    monkeypatch.setattr(second, "_processors", lambda: 2)
    monkeypatch.setattr(second, "_copies", lambda: False)
    monkeypatch.setattr(second, "_CODE", "import sys; sys.stdin.buffer.read(1); sys.exit(1)")
    assert run(content) == first


def test_without_records_nothing_is_kept(content: Path) -> None:
    Folder(content).clear()
    (content / "values.yml").write_text("- {id: x}\n", "utf-8")
    pages, facts, _, _ = run(content)
    assert pages == {} and all(each.summary is None for each in facts)
    assert not (content.parent / NAME).exists()


def test_jobs_of_one_day_that_is_over_are_made_once_and_follow_each_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every day of the archive has two of them: an old archive has several jobs on each day."""
    monkeypatch.setattr(archive, "YEARS", 1 / 365)
    finished = sum(path.name.endswith(".worked.json") for path in (ROOT / "content" / "jobs").iterdir())
    archive.archive(tmp_path / "content", 2 * finished, 1.0)
    content, day = tmp_path / "content", AsOf.of(datetime.date(2027, 8, 2), "", datetime.date(2027, 8, 2))
    planned = []
    monkeypatch.setattr(times, "_made", lambda path, reading: planned.append(path.stem))
    now = made_in(monkeypatch)
    run(content, day)
    assert planned == [] and sorted(now) == sorted(f"job-{n}" for n in range(2 * finished))
    now.clear()
    changed = content / "jobs" / "job-0.yml"
    changed.write_text(changed.read_text("utf-8") + "# looked at\n", "utf-8")
    _same_as_clean(content, day)
    assert sorted(now[:2]) == ["job-0", f"job-{finished}"]


def test_records_saved_while_they_are_read_are_never_taken_for_what_was_made(content: Path) -> None:
    """Somebody who saves twice while the site is served: the first build may have read the records of before."""
    reading = read_records(content, as_of())
    CHANGES["the studio"](content)
    found = [base_of(content, reading) for _ in range(2)]
    make_jobs(Folder(content), found[0], Run(content, reading, True), lambda *page: None)
    assert found[0] != found[1]
    _same_as_clean(content)


@pytest.mark.parametrize(("written", "tick"), [("tide-table", 0), ("bell-pull", 0), ("bell-pull", keys._TICK)])
def test_a_job_saved_while_its_day_is_made_is_kept_by_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, written: str, tick: int
) -> None:
    """The other job of the day was found by what stood there before, and may say what stands there now."""
    content = copy_content(tmp_path, ("tide-table", "bell-pull"))
    file, text = content / "jobs" / f"{written}.yml", ""

    def saved(*given: Any) -> Made:
        nonlocal text
        if not text:  # the keys are made, and nothing is read for a plan yet
            text, other = file.read_text("utf-8"), {"mo": "quill", "quill": "mo"}
            file.write_text(re.sub(r"(?m)^artist: (\w+)", lambda of: f"artist: {other[of[1]]}", text), "utf-8")
        return made.made_of(*given)

    monkeypatch.setattr(jobs_module, "made_of", saved)
    monkeypatch.setattr(keys, "_TICK", tick)
    reading = read_records(content, as_of())
    make_jobs(Folder(content), base_of(content, reading), Run(content, reading, True), lambda *page: None)
    monkeypatch.setattr(jobs_module, "made_of", made.made_of)
    file.write_text(text, "utf-8")
    _same_as_clean(content)


def test_files_that_stand_on_the_disk_as_they_did_are_not_read_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = copy_content(tmp_path, ("tide-table", "bell-pull", "diving-bell"))
    monkeypatch.setattr(keys, "_TICK", 0)
    read: Counter[str] = Counter()

    def noted(path: Path) -> tuple[bytes, bytes]:
        read[path.stem] += 1
        return keys.job_bytes(path)

    monkeypatch.setattr(jobs_module, "job_bytes", noted)
    reading = read_records(content, as_of())
    make_jobs(Folder(content), base_of(content, reading), Run(content, reading, False), lambda *page: None)
    assert read == {"tide-table": 1, "bell-pull": 1, "diving-bell": 1}


def test_whatever_is_written_stands_on_the_disk_in_another_way(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    job, kept = tmp_path / "a.yml", tmp_path / "a.worked.json"
    job.write_text("one", "utf-8")
    assert keys.on_disk([job]) is None  # written a moment ago
    monkeypatch.setattr(keys, "_TICK", 0)
    seen = [keys.on_disk([job])]
    at = job.stat()
    time.sleep(0.02)
    job.write_text("two", "utf-8")
    os.utime(job, ns=(at.st_atime_ns, at.st_mtime_ns))  # the same size and the same time
    seen.append(keys.on_disk([job]) if sys.platform != "win32" else -1)
    job.write_text("three", "utf-8")
    seen.append(keys.on_disk([job]))
    kept.write_text("{}", "utf-8")
    seen.append(keys.on_disk([job]))
    job.unlink()
    seen += [keys.on_disk([job]), keys.on_disk([job, job])]
    assert None not in seen and len(set(seen)) == 6
    kept.unlink()
    assert keys.on_disk([job]) == keys.on_disk([job])


def test_what_names_a_job_that_is_forgotten_goes_with_it(tmp_path: Path) -> None:
    folder = Folder(tmp_path / "content")
    rows = {"gone": "x", "beside": "wants what gone wants", "other": "y"}
    folder.keep_times({job: ("k", job) for job in rows}, {})
    for job, said in rows.items():
        folder.keep(job, "k", said.encode(), [b"names gone" if job == "beside" else job.encode()], True)
    folder.forget(["gone"])
    assert list(folder.times()) == ["beside", "other"]
    assert [job for job in rows if folder.kept(job, "k", wanted=True)] == ["other"]
    assert not [path for path in folder.path.iterdir() if b"gone" in path.read_bytes() or "gone" in path.name]


def test_what_a_check_kept_goes_when_what_a_build_kept_is_taken_or_made_anew(tmp_path: Path) -> None:
    """It may name a job that was deleted since, and no check would write it anew."""
    folder = Folder(tmp_path / "content")

    def left_after(then: Callable[[], object]) -> int:
        folder.keep("beside", "alone", b"", [b"page"], True)
        folder.keep("beside", "with gone", b"names gone", [], False)
        then()
        return len([path for path in folder.path.iterdir() if b"gone" in path.read_bytes()])

    assert left_after(lambda: folder.kept("beside", "with gone", False)) == 1
    assert left_after(lambda: folder.kept("beside", "alone", False)) == 0
    assert left_after(lambda: folder.kept("beside", "alone", True)) == 0
    assert left_after(lambda: folder.keep("beside", "another", b"", [b"another page"], True)) == 0


def test_what_is_kept_on_another_disk_is_cleared(tmp_path: Path) -> None:
    folder, elsewhere = Folder(tmp_path / "content"), tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "letter.txt").write_text("not ours", "utf-8")
    folder.path.symlink_to(elsewhere)
    (elsewhere / f"{'0' * 12}.part").write_bytes(b"what a killed run left")
    folder.keep_only([], set())
    assert [path.name for path in elsewhere.iterdir()] == ["letter.txt"]
    folder.keep("job", "k", b"", [b"page"], True)
    folder.keep_times({"job": ("k", "x")}, {})
    assert len(list(elsewhere.iterdir())) == 4
    folder.forget(["ours"])
    assert folder.clear() and [path.name for path in elsewhere.iterdir()] == ["letter.txt"]
    assert not folder.clear() and folder.path.is_symlink()
    # A folder of ours goes with the last file of ours, and stays for what somebody else put there.
    folder.path.unlink()
    folder.keep_times({"job": ("k", "x")}, {})
    (folder.path / "letter.txt").write_text("not ours", "utf-8")
    assert folder.clear() and [path.name for path in folder.path.iterdir()] == ["letter.txt"]
    (folder.path / "letter.txt").unlink()
    folder.keep_times({"job": ("k", "x")}, {})
    assert folder.clear() and not folder.path.exists()


def test_an_artist_written_with_a_backslash_has_a_pace_too() -> None:
    paces = keys.Paces({("mo", "packing"): Lesson("mo", "packing", (), None)})
    assert paces.of(b'artist: "m\\x6f"') == paces.of(b"artist: mo") != paces.of(b"artist: quill") == ""


def test_a_run_goes_on_with_the_templates_it_began_with() -> None:
    """What is made is kept under the hash of the program as it was then, also while a site is served for hours."""
    assert not templates_of("sheet").auto_reload
