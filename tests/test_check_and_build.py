"""What stops a build, the check says before: fifty things broken, looked at by both.

A build that stops names what it stopped at. Where the check passes, the build has to pass too.
"""

from __future__ import annotations

import contextlib
import io
import logging
import re
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException

from generator.cli import main
from tests.conftest import THREE_JOBS, copy_project


class Broken(NamedTuple):
    """One thing broken: a text of a file replaced, a file moved, or one written. sign: what both say of it."""

    file: str
    old: str
    new: str
    sign: str


READING, STOCK, INDEX = "handbook/reading.md", "handbook/procedures/stock.md", "handbook/index.md"
TITLE, TIDE = "# About reading it\n", "content/jobs/tide-table.yml"

# What stops records from being read.
RECORDS = (
    Broken("content/machines.yml", "weight: 168 g", "wieght: 168 g", "wieght"),
    Broken("content/people.yml", "id: bram", "id: bram the apprentice", "bram the apprentice"),
    Broken("content/inks.yml", "'#14120f'", "'14120f'", "14120f"),
    Broken("content/techniques.yml", "pace: 1.5–2.5 cm/min", "pace: 2.5–1.5 cm/min", "2.5–1.5 cm/min"),
    Broken("content/supplies.yml", "amount: 1, area: 100 cm²", "amount: 1", "supplies.yml"),
    Broken("content/hygiene.yml", "standing: sharps bin", "standing: sharp bin", "sharp bin"),
    Broken("content/reviews.yml", "id: cycles", "id: cycle", "`cycle`"),
    Broken("content/scar-rules.yml", "{scar.type: keloid}", "{scar.kind: keloid}", "scar.kind"),
    Broken("content/calibrations.yml", "[7.0 V, 97 Hz]", "[7.0 V, 79 Hz]", "calibrations.yml"),
    Broken("content/groupings.yml", "label: 1206F", "label: 6F", "6F"),
    Broken("content/studio.yml", "learned_from: 12", "learned_from: twelve", "twelve"),
    Broken("content/notes.yml", "", "- a note", "notes.yml"),
    Broken(TIDE, "[{needle: 1207RL, length: 450 mm}]", "[{needle: 1207RL, length: 450 mm}", "tide-table.yml"),
    Broken("content/jobs/diving-bell.yml", "client: R-", "client: R", "diving-bell.yml"),
)
# What stops jobs and pages, on records that can be read.
PAGES = (
    Broken(TIDE, "box: [35 mm, 15 mm, 80 mm, 80 mm]", "box: [75 mm, 15 mm, 80 mm, 80 mm]", "tide-table.yml"),
    Broken("content/jobs/stairwell.yml", "id: stairwell\n", "id: stair-well\n", "stair-well"),
    Broken(READING, "The handbook shows", "{{ machines.kettel.limits }}. The handbook shows", "kettel"),
    Broken("handbook/procedures/spill.md", "## Steps", "{{ machines.kettle }}\n\n## Steps", "{{ machines.kettle }}"),
    Broken("handbook/procedures/lining.md", "**Purpose.**", "**Purpose.** Wait 15 min.", "15 min"),
    Broken("handbook/procedures/stencil.md", "**Purpose.**", "**Purpose.** Wait fifteen minutes.", "fifteen minutes"),
    Broken("content/asked.yml", "spill.md#where-it-fell", "spill.md#where-it-fel", "where-it-fel"),
    Broken(STOCK, "-> handbook/procedures/stocks.md", "", "procedures/stocks.md"),
    Broken("handbook/procedures/waste-and-sharps.md", "-> ", "", "waste-and-sharps.md"),
)
# What MkDocs warns of, or what this program says beside it; a strict build stops over each of them.
LINKS = (
    Broken(READING, TITLE, f"{TITLE}\nSee [stock](procedures/stocks.md).\n", "procedures/stocks.md"),
    Broken(READING, TITLE, f"{TITLE}\nSee [steps](procedures/stock.md#step).\n", "procedures/stock.md#step"),
    Broken(READING, TITLE, f"{TITLE}\nSee [here](#nowhere-here).\n", "#nowhere-here"),
    Broken(READING, TITLE, f"{TITLE}\nSee [a job](jobs/no-job.html).\n", "jobs/no-job.html"),
    Broken(READING, TITLE, f"{TITLE}\nSee [a sheet](sheets/no-sheet.html).\n", "sheets/no-sheet.html"),
    Broken(READING, TITLE, f"{TITLE}\nSee [a table](reference/ink.md).\n", "reference/ink.md"),
    Broken(READING, TITLE, f"{TITLE}\nSee [a row](reference/inks.md#no-row).\n", "reference/inks.md#no-row"),
    Broken(READING, TITLE, f"{TITLE}\nSee [a folder](procedures/).\n", "procedures/"),
    Broken(READING, TITLE, f"{TITLE}\nSee [from the root](/reading-it.md).\n", "/reading-it.md"),
    Broken(READING, TITLE, f"{TITLE}\nSee [by name][far].\n\n[far]: far-away.md\n", "far-away.md"),
    Broken(INDEX, "\n## ", "\n![a picture](assets/station.png)\n\n## ", "assets/station.png"),
    Broken(STOCK, "## Steps", "![shelf](shelf.svg)\n\n## Steps", "shelf.svg"),
    Broken("mkdocs.yml", "plugins:", "extra_css: [assets/ours.css]\nplugins:", "assets/ours.css"),
    Broken("mkdocs.yml", "plugins:", "extra_javascript: [assets/ours.js]\nplugins:", "assets/ours.js"),
    Broken("mkdocs.yml", "plugins:", "theme: {name: material, logo: assets/our-mark.svg}\nplugins:", "our-mark.svg"),
    Broken("mkdocs.yml", "plugins:", "nav:\n  - Ours: our-own.md\nplugins:", "our-own.md"),
)
# What stops MkDocs at once, so that each stands for itself.
SETTINGS = (
    Broken("mkdocs.yml", "docs_dir: handbook", "docs_dir: handbok", "handbok"),
    Broken("mkdocs.yml", "plugins:", "plugins: [", "mkdocs.yml"),
    Broken("mkdocs.yml", "plugins:", "theme: nowhere\nplugins:", "nowhere"),
    Broken("mkdocs.yml", "plugins:", "sitename: Ours\nplugins:", "sitename"),
    Broken("mkdocs.yml", "plugins:", "plugins:\n  - serch", "serch"),
    Broken("mkdocs.yml", "plugins:", "markdown_extensions: [tabels]\nplugins:", "tabels"),
    Broken("mkdocs.yml", "- studio-handbook", "- studio-handbook:\n      as_off: 2027-05-12", "as_off"),
    Broken("mkdocs.yml", "- studio-handbook", "- studio-handbook:\n      as_of: 2027-02-30", "day is out of range"),
    Broken("mkdocs.yml", "- studio-handbook", "- studio-handbook:\n      content: contents", "contents"),
    Broken("mkdocs.yml", "plugins:", "site_dir: handbook\nplugins:", "handbook"),
    Broken("mkdocs.yml", "plugins:", "validation: {links: {anchors: sometimes}}\nplugins:", "validation"),
    Broken("mkdocs.yml", "plugins:", "hooks: [ours.py]\nplugins:", "ours.py"),
    Broken("mkdocs.yml", "plugins:", "theme: {name: material, custom_dir: ours}\nplugins:", "ours"),
    Broken("mkdocs.yml", "plugins:", "INHERIT: ours.yml\nplugins:", "ours.yml"),
    Broken("mkdocs.yml", "site_name:", "- site_name:", "mkdocs.yml"),
    Broken("handbook/own.md", "", "\ufeff\ud800", "own.md"),
    Broken("site/notes.txt", "", "not a site", "site"),
    Broken(READING, TITLE, f"---\ntemplate: poster.html\n---\n{TITLE}", "poster.html"),
    Broken(READING, "-> handbook/jobs.md", "", "jobs.md"),
    Broken(INDEX, "-> handbook/start.md", "", "index"),
    Broken("mkdocs.yml", "plugins:", "exclude_docs: index.md\nplugins:", "index.html"),
    Broken("mkdocs.yml", "plugins:", "use_directory_urls: true\nplugins:", "use_directory_urls"),
    Broken("mkdocs.yml", "plugins:", "nav: procedures\nplugins:", "nav"),
    Broken("mkdocs.yml", "plugins:", "extra_templates: [none.html]\nplugins:", "none.html"),
    Broken("mkdocs.yml", "plugins:", "strict: perhaps\nplugins:", "strict"),
    Broken("mkdocs.yml", "plugins:", "site_url: our own\nplugins:", "site_url"),
    Broken(READING, TITLE, f"---\nsearch: no\n---\n{TITLE}", "search"),
    Broken("handbook/README.md", "", "# Again\n", "README.md"),
    Broken("handbook/start-here.md", "", "# Again\n", "start-here.md"),
    Broken("handbook/gone.svg", "=> nowhere.svg", "", "gone.svg"),
)


def _break(project: Path, broken: Broken) -> None:
    file = project / broken.file
    if broken.old.startswith("-> "):
        to = broken.old.removeprefix("-> ")
        file.rename(project / to) if to else file.unlink()
    elif broken.old.startswith("=> "):
        file.symlink_to(broken.old.removeprefix("=> "))
    elif not broken.old:
        file.parent.mkdir(exist_ok=True)
        file.write_text(broken.new, "utf-8", errors="surrogatepass")
    else:
        text = file.read_text("utf-8")
        assert broken.old in text, broken
        file.write_text(text.replace(broken.old, broken.new, 1), "utf-8")


def _checked(project: Path) -> tuple[bool, str]:
    """Whether the check passes, and what it says."""
    said = io.StringIO()
    with contextlib.redirect_stdout(said), contextlib.chdir(project):
        status = main(["check", "--format", "json"])
    return status == 0, re.sub(r"\\(.)", r"\1", said.getvalue())


def _built(project: Path, caplog: pytest.LogCaptureFixture) -> tuple[bool, str]:
    """Whether a build passes, and what it says."""
    caplog.clear()
    with contextlib.chdir(project), caplog.at_level(logging.WARNING, logger="mkdocs"):
        try:
            build(load_config("mkdocs.yml"))
            stopped = ""
        except (MkDocsException, ValueError) as why:  # YAML breaks off at a day that there is not
            stopped = f"stopped: {why}"
    return not stopped, "\n".join([*caplog.messages, stopped])


def _all_at_once(project: Path, broken: Iterable[Broken], caplog: pytest.LogCaptureFixture) -> None:
    for one in broken:
        _break(project, one)
    (passes, checked), (made, built) = _checked(project), _built(project, caplog)
    assert not passes and not made
    assert [one.sign for one in broken if one.sign not in checked] == [], checked
    assert [one.sign for one in broken if one.sign not in built] == [], built


@pytest.mark.parametrize("broken", [RECORDS, PAGES, LINKS], ids=["records", "jobs and pages", "links and files"])
def test_what_stops_a_build_the_check_says(
    broken: tuple[Broken, ...], tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    _all_at_once(copy_project(tmp_path, THREE_JOBS), broken, caplog)


@pytest.mark.nightly
@pytest.mark.parametrize("broken", [*RECORDS, *PAGES, *LINKS, *SETTINGS], ids=lambda one: f"{one.file} {one.sign}")
def test_check_and_build_agree(broken: Broken, tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    _all_at_once(copy_project(tmp_path, THREE_JOBS), [broken], caplog)
