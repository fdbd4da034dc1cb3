"""An inspector's copy: `jobs: no` in the plugin's settings builds a handbook in which no byte belongs to a job."""

from __future__ import annotations

import gzip
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.dates import as_of
from generator.press.lists.jobs import JOBS
from generator.press.words.addresses import LOTS
from generator.records.located import Listing, Mapping, Node, Text, read_located
from generator.site import read_site
from tests.conftest import ROOT, build_site, copy_project

# Words that are a client's or a drawing's alone, wherever they are in a job.
TELLING = {"id", "client", "title", "pose", "note", "ended", "dressing", "code", "photos", "why"}


def told(node: Node | None, key: str = "") -> Iterator[str]:
    """Every text of a job that is in no other record: names of parts are words of the language, and left out."""
    if isinstance(node, Mapping):
        for name, value in node.items():
            if name != "parts":
                yield from told(value, name)
    elif isinstance(node, Listing):
        for item in node:
            yield from told(item, key)
    elif isinstance(node, Text) and key in TELLING and len(node) > 3:
        yield str(node)


def words_of_jobs() -> re.Pattern[str]:
    files = sorted((ROOT / "content" / "jobs").glob("*.yml"))
    words = {word for path in files for word in told(read_located(path.read_text("utf-8"), path.name).node)}
    assert len(words) > 3 * len(files)
    return re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, sorted(words, key=len, reverse=True)))})(?![\w-])")


def test_no_generated_page_of_the_copy_tells_of_a_job() -> None:
    site = read_site(ROOT / "content", ROOT / "handbook", as_of(), with_jobs=False)
    assert site.gathered.jobs == () and site.job_stamps == {} and not [d for d in site.report if d.level == "error"]
    pattern = words_of_jobs()
    assert {name: found for name, text in site.generated.items() if (found := pattern.findall(text))} == {}
    assert "holds no jobs" in site.generated[JOBS] and "holds no jobs" in site.generated[LOTS]


@pytest.mark.nightly
def test_no_byte_of_the_copy_belongs_to_a_job(tmp_path: Path) -> None:
    project = copy_project(tmp_path)
    settings = project / "mkdocs.yml"
    settings.write_text(settings.read_text("utf-8").replace("- studio-handbook", "- studio-handbook: {jobs: no}"))
    assert build_site(project) == ""
    site = project / "site"
    assert [name for name in ("jobs", "sheets", "for-the-client", "lots") if (site / name).exists()] == []
    pattern = words_of_jobs()
    found = {}
    for path in site.rglob("*"):
        if path.is_file():
            raw = path.read_bytes()
            text = (gzip.decompress(raw) if path.suffix == ".gz" else raw).decode("utf-8", "replace")
            found[path.relative_to(site).as_posix()] = set(pattern.findall(text))
    assert {name: said for name, said in found.items() if said} == {}
    assert "holds no jobs" in (site / "lots.html").read_text("utf-8")
    assert "search/search_index.json" in found and len(found) > 100
