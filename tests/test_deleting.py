"""After a deletion nothing of a job is left, and nothing of any other job is gone."""

from __future__ import annotations

import datetime
import gzip
from pathlib import Path

import pytest

from generator.cli import main
from generator.published import NAME, kept_folder, note_published
from tests.conftest import THREE_JOBS, copy_content


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    content = copy_content(tmp_path, THREE_JOBS)
    jobs = content / "jobs"
    (jobs / "diving-bell-2.yml").write_text(
        (jobs / "stairwell.yml").read_text("utf-8").replace("id: stairwell", "id: diving-bell-2"), "utf-8"
    )
    for leftover in ("diving-bell.yml~", ".diving-bell.yml.swp"):
        (jobs / leftover).write_text("an editor's copy", "utf-8")
    site = tmp_path / "site"
    site.mkdir()
    (site / "jobs.html").write_text("<a href='jobs/diving-bell.html'>R-0139</a> diving-bell-2", "utf-8")
    (site / "sitemap.xml.gz").write_bytes(gzip.compress(b"<loc>/jobs/diving-bell.html</loc>"))
    (site / "diving-bell--explained.html").write_text("no word of it", "utf-8")
    (site / "other.html").write_text("diving-bell-2 and a bell", "utf-8")
    return tmp_path


def delete(studio: Path, *arguments: str) -> int:
    return main(["delete", *arguments, "--content", str(studio / "content")])


def files(studio: Path) -> set[str]:
    return {path.name for path in (studio / "content" / "jobs").iterdir()}


@pytest.mark.parametrize("arguments", [("diving-bell",), ("--client", "R-0139")])
def test_a_job_goes_with_everything_that_is_beside_it(
    arguments: tuple[str, ...], studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = files(studio)
    assert delete(studio, *arguments) == 1 and files(studio) == before
    assert "nothing was deleted" in capsys.readouterr().err
    assert delete(studio, *arguments, "--yes") == 1
    gone = {"diving-bell.yml", "diving-bell.worked.json", "diving-bell.yml~", ".diving-bell.yml.swp"}
    assert before - files(studio) == gone
    said = capsys.readouterr().out
    for left in ("jobs.html", "sitemap.xml.gz", "diving-bell--explained.html"):
        assert f"site/{left}" in said
    assert "other.html" not in said
    # What the next build does: the old site is exchanged for one without the job.
    for page in (studio / "site").iterdir():
        page.unlink()
    assert delete(studio, *arguments, "--yes") == 0
    assert "nothing here names" in capsys.readouterr().out
    words = (b"R-0139", b"Diving bell")
    assert [p for p in studio.rglob("*") if p.is_file() and any(word in p.read_bytes() for word in words)] == []


def test_a_file_with_a_mistake_counts_by_its_reference(studio: Path) -> None:
    file = studio / "content" / "jobs" / "diving-bell.yml"
    file.write_text(file.read_text("utf-8").replace("place: forearm-outer", "place: [forearm"), "utf-8")
    delete(studio, "--client", "R-0139", "--yes")
    assert "diving-bell.yml" not in files(studio)


def test_one_of_the_two_is_named(studio: Path) -> None:
    before = files(studio)
    assert delete(studio, "--yes") == 2
    assert delete(studio, "diving-bell", "--client", "R-0139", "--yes") == 2
    assert delete(studio, "../machines", "--yes") in (0, 1)
    assert files(studio) == before and (studio / "content" / "machines.yml").is_file()


def test_no_older_site_holds_a_byte_of_it(studio: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Kept sites that name it go whole; those that do not stay. The published site may be elsewhere."""
    site = tmp_path.parent / f"{tmp_path.name}-web" / "site"
    for day, text in (("2027-05-01", "R-0139"), ("2027-05-02", "another job"), (".next", "R-0139")):
        (kept_folder(site) / day).mkdir(parents=True)
        (kept_folder(site) / day / "index.html").write_text(text, "utf-8")
    site.mkdir()
    (site / "index.html").write_text("diving-bell", "utf-8")
    note_published(studio / "content", site, datetime.date(2027, 5, 12))
    for page in (studio / "site").iterdir():
        page.unlink()
    assert delete(studio, "--client", "R-0139") == 1
    assert f"would be deleted: {kept_folder(site) / '2027-05-01'}" in capsys.readouterr().out
    assert delete(studio, "--client", "R-0139", "--yes") == 1
    said = capsys.readouterr().out
    assert str(site / "index.html") in said and NAME in said
    assert [path.name for path in kept_folder(site).iterdir()] == ["2027-05-02"]
