"""`publish` is check, impact, build and exchange in one, and keeps the last sites by date."""

from __future__ import annotations

import datetime
import errno
import os
import shutil
from pathlib import Path

import pytest

import generator.site_build
from generator.cli import main
from generator.dates import as_of
from generator.press.sheet.as_printed import as_printed
from generator.published import (
    Published,
    built_sites,
    kept_folder,
    kept_sites,
    last_published,
    note_published,
    published_at,
)
from generator.publishing import keeping
from tests.conftest import THREE_JOBS, copy_project
from tests.small_site import build, fail, read, write

DAY = datetime.date(2027, 5, 12)


def at(site: Path, day: datetime.date = DAY) -> Published:
    return Published(site, day, {}, {})


def publish(site: Path, text: str, day: datetime.date = DAY, number: int = 2) -> None:
    with keeping(at(site, day) if site.exists() else None, number) as done:
        build(site, text)
        done.append(site)


def test_the_last_sites_are_kept_by_the_day_on_which_they_were_published(tmp_path: Path) -> None:
    site = tmp_path / "site"
    days = [DAY, DAY, DAY, DAY + datetime.timedelta(days=1)]
    for number, day in enumerate(days):
        publish(site, f"site {number}", day)
    # The site that was there has the day on which it was published, not that on which it went.
    assert [path.name for path in kept_sites(site)] == ["2027-05-12-2", "2027-05-13"]
    assert [read(path) for path in kept_sites(site)] == ["site 1", "site 2"] and read(site) == "site 3"


def test_who_writes_into_a_page_of_a_site_changes_no_site_before_it(tmp_path: Path) -> None:
    """A page of a job that did not change is one file in both sites and among what is kept."""
    site, kept = tmp_path / "site", tmp_path / "job.page"
    kept.write_text("as published", "utf-8")
    write(site, "old")
    os.link(kept, site / "job.html")
    with keeping(at(site), 2) as done:
        build(site, "new")
        os.link(kept, site / "job.html")
        done.append(site)
    (site / "job.html").write_text("written into", "utf-8")
    (older,) = kept_sites(site)
    assert kept.read_text("utf-8") == "written into" and (older / "job.html").read_text("utf-8") == "as published"


def test_a_build_that_fails_keeps_nothing_and_leaves_the_site(tmp_path: Path) -> None:
    site = tmp_path / "site"
    write(site, "good")
    with keeping(at(site), 3):
        fail(site)
    assert read(site) == "good" and kept_sites(site) == [] and not kept_folder(site).exists()
    with pytest.raises(KeyboardInterrupt), keeping(at(site), 3):
        raise KeyboardInterrupt
    assert read(site) == "good" and not kept_folder(site).exists()


def test_a_disk_without_room_for_the_older_site_is_said_and_nothing_is_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """All files that could not be copied come as one list, which nobody reads."""
    site = tmp_path / "site"
    write(site, "good")

    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "link", full)
    monkeypatch.setattr(shutil, "copy2", full)
    with pytest.raises(OSError, match="No space left") as raised, keeping(at(site), 3):
        pytest.fail("nothing is built")
    assert str(raised.value.filename).startswith(str(kept_folder(site))) and "No space" in str(raised.value.strerror)
    assert read(site) == "good" and not kept_folder(site).exists()


def test_what_is_hidden_in_a_site_and_what_a_killed_run_left_is_not_kept(tmp_path: Path) -> None:
    site = tmp_path / "site"
    write(site, "old")
    (site / ".git").mkdir()
    (kept_folder(site) / ".next" / "half").mkdir(parents=True)
    (kept_folder(site) / "notes of somebody").mkdir()
    publish(site, "new", number=1)
    assert [(path.name, read(path)) for path in kept_sites(site)] == [("2027-05-12", "old")]
    assert (kept_folder(site) / "notes of somebody").is_dir() and not (kept_folder(site) / ".next").exists()


def test_a_site_of_another_place_is_compared_without_its_records(tmp_path: Path) -> None:
    content = tmp_path / "content"
    content.mkdir()
    write(tmp_path / "site", "one")
    write(tmp_path / "other", "two")
    (content / "studio.yml").write_text("name: One\n", "utf-8")
    note_published(content, tmp_path / "site", DAY)
    assert published_at(content, tmp_path / "nowhere") is None
    one, other = published_at(content, tmp_path / "site"), published_at(content, tmp_path / "other")
    assert one is not None and one.files == {"studio.yml": "name: One\n"} and one == last_published(content)
    assert other is not None and other.files == {} and other.site == tmp_path / "other"


def test_a_site_that_was_built_elsewhere_is_known_and_is_not_the_published_one(tmp_path: Path) -> None:
    """To look at a site in another folder is not to publish it; its pages are found when something is deleted."""
    content = tmp_path / "content"
    content.mkdir()
    for name, counts in (("site", True), ("look", False), ("web", True), ("site", True), ("look", False)):
        write(tmp_path / name, name)
        (content / "studio.yml").write_text(f"name: {name}\n", "utf-8")
        note_published(content, tmp_path / name, DAY, counts=counts)
    last = last_published(content)
    assert last is not None and last.site == tmp_path / "site"
    assert [(one.site.name, one.counts) for one in built_sites(content)] == [
        ("web", True),
        ("site", True),
        ("look", False),
    ]
    # Each is compared with the records that it was made of, and a published place stays one, whoever builds there.
    web = published_at(content, tmp_path / "web")
    assert web is not None and web.files == {"studio.yml": "name: web\n"}
    note_published(content, tmp_path / "web", DAY, counts=False)
    last = last_published(content)
    assert last is not None and last.site == tmp_path / "web"
    # What is not there any more is none.
    (tmp_path / "web" / "index.html").unlink()
    last = last_published(content)
    assert last is not None and last.site == tmp_path / "site"


def test_a_mistake_or_a_failed_build_leaves_the_last_good_site(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    project, site = copy_project(tmp_path, THREE_JOBS), tmp_path / "out"
    write(site, "good")
    command = ["publish", str(site), "--content", str(project / "content")]
    monkeypatch.setattr(generator.site_build, "build_site", lambda *_: ("the disk is full",))
    assert main(command) == 1
    said = capsys.readouterr()
    assert "the disk is full" in said.err and "nothing was published" in said.err and read(site) == "good"
    assert "tide-table: a new sheet" in said.out and not kept_folder(site).exists()
    (project / "content" / "sites.yml").write_text("- id: [", "utf-8")
    assert main(command) == 1
    assert "nothing was published" in capsys.readouterr().err and read(site) == "good"
    (project / "mkdocs.yml").unlink()
    assert main(command) == 2 and read(site) == "good"


def test_what_is_in_the_way_of_a_build_is_said_in_words_alone(tmp_path: Path) -> None:
    project = copy_project(tmp_path, ())
    said = "\n".join(generator.site_build.build_site(project / "mkdocs.yml", project / "content", None))
    assert "the site would replace" in said and "`publish`" in said and "Abort" not in said
    assert (project / "content" / "studio.yml").is_file()


@pytest.mark.nightly
def test_a_change_is_told_built_and_the_old_site_kept_until_its_job_is_deleted(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "studio").mkdir()
    project, site = copy_project(tmp_path / "studio", THREE_JOBS), tmp_path / "web" / "out"
    content = project / "content"
    command = ["publish", str(site), "--content", str(content)]
    assert main(command) == 0 and (site / "sheets" / "tide-table.html").is_file()
    assert "print it again" not in capsys.readouterr().out
    studio = content / "studio.yml"
    studio.write_text(studio.read_text("utf-8").replace("  break_length: 10 min", "  break_length: 15 min"), "utf-8")
    assert main(command) == 0
    said = capsys.readouterr().out
    assert "because of studio.limits.break_length" in said and "kept: 2027-05-12" in said
    (kept,) = kept_sites(site)
    new, old = (as_printed((at / "sheets" / "tide-table.html").read_text("utf-8")) for at in (site, kept))
    breaks = [[line.said for name, line in read.items() if name.startswith("Break after")] for read in (old, new)]
    assert all(breaks) and all("10 min" in said for said in breaks[0])
    assert all("15 min" in said for said in breaks[1])
    delete = ["delete", "tide-table", "--content", str(content)]
    assert main(delete) == 1 and kept.exists()
    assert main([*delete, "--yes"]) == 1 and not kept.exists()
    assert str(site) in capsys.readouterr().out
    assert main(command) == 0
    # The site before still had the job, and so it goes too.
    main([*delete, "--yes"])
    assert main([*delete, "--yes"]) == 0
    left = [p for p in tmp_path.rglob("*") if p.is_file() and b"R-0147" in p.read_bytes()]
    assert left == [] and as_of() is not None
