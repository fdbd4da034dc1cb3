"""The site as MkDocs builds it: complete, exchanged only when nothing failed, and open to nobody else."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.press.manual.anchors import places
from tests.conftest import ROOT, THREE_JOBS, build_site, copy_project, mkdocs
from tests.planning.demo import RECORDS
from tests.press.lists.test_asked import authored


def test_the_site_has_a_front_page_and_a_sheet_for_each_job(site: Path) -> None:
    assert (site / "index.html").is_file()
    jobs = {path.stem for path in (ROOT / "content" / "jobs").glob("*.yml")}
    assert len(jobs) >= 6
    sheets = {path.stem for path in (site / "sheets").glob("*.html")}
    explained = {stem for stem in sheets if stem.endswith("--explained")}
    assert sheets - explained == jobs
    # Only a job that goes ahead has working steps, and numbers to explain.
    assert {stem.removesuffix("--explained") for stem in explained} == {
        job for job in jobs if 'class="order"' in (site / "sheets" / f"{job}.html").read_text("utf-8")
    }


def test_a_build_says_nothing_of_the_end_of_its_builder(site: Path) -> None:
    said = (site.parent.parent / f"{site.parent.name}.log").read_text("utf-8")
    assert said and not [word for word in ("end of life", "MKDOCS_2", "successor") if word in said]


def test_every_link_between_pages_leads_somewhere(site: Path) -> None:
    """Links into sheets and anchors too; MkDocs itself does not look into generated HTML."""
    ids = {page: set(re.findall(r'\bid="([^"]+)"', page.read_text("utf-8"))) for page in site.rglob("*.html")}
    broken = []
    for page in ids:
        if page.name == "404.html":  # the theme's own page, with links from the root of a server
            continue
        for href in re.findall(r'<a[^>]*\bhref="([^"]+)"', page.read_text("utf-8")):
            if re.match(r"[a-z]+:", href):
                continue
            path, _, anchor = href.partition("#")
            target = (page.parent / path).resolve() if path else page
            if not target.is_file():
                broken.append(f"{page.relative_to(site)} -> {href}")
            elif anchor and target in ids and anchor not in ids[target]:
                broken.append(f"{page.relative_to(site)} -> {href} (no such place)")
    assert broken == []


def test_every_style_script_and_picture_of_a_page_is_there(site: Path) -> None:
    missing = []
    for page in site.rglob("*.html"):
        if page.name == "404.html":
            continue
        text = page.read_text("utf-8")
        asked = re.findall(r'<(?:script|img|iframe)[^>]*\bsrc="([^"]+)"', text)
        asked += re.findall(r'<link[^>]*\bhref="([^"]+)"', text)
        for address in asked:
            if not address.startswith("data:") and not (page.parent / address.partition("?")[0]).is_file():
                missing.append(f"{page.relative_to(site)} -> {address}")
    assert missing == []


def test_no_attribute_list_of_markdown_is_left_in_the_text(site: Path) -> None:
    """`{ .drawing }` broken over two lines is printed as it stands."""
    left, pages = [], 0
    for page in site.rglob("*.html"):
        text = re.sub(r"<(script|style|pre|code)\b.*?</\1>", "", page.read_text("utf-8"), flags=re.DOTALL)
        pages += 1
        left += [f"{page.relative_to(site)}: {found}" for found in re.findall(r"\{\s*[.#:][\w-]+[^<]{0,20}", text)]
    assert pages > 100 and left == []


def test_every_row_can_be_linked_to(site: Path) -> None:
    """Each table of the handbook: a row has an id that no other has on its page, and a link to itself."""
    rows = 0
    for page in site.rglob("*.html"):
        for table in re.findall(r'<table class="held.*?</table>', page.read_text("utf-8"), re.DOTALL):
            for row in re.findall(r"<tr id=.*?</tr>", table, re.DOTALL):
                at = re.search(r'<tr id="([^"]+)"', row)
                assert at is not None and f'<a class="here" href="#{at[1]}"' in row
                rows += 1
            assert table.count("<tr") == table.count("<tr id=") + 1
    assert rows > 1000


def test_authored_headings_are_where_the_check_of_answers_takes_them_to_be(site: Path) -> None:
    for address, text in authored().items():
        built = site / f"{address.removesuffix('.md')}.html"
        found = re.findall(r'<h[1-6] id="([^"]+)"', built.read_text("utf-8"))
        # Today's jobs are put in when the page is made.
        found = [at for at in found if (address, at) != ("index.md", "today")]
        assert [at for at, words in places({address: text})[address].at.items() if words] == found, address


def test_no_page_asks_anything_of_the_network(site: Path) -> None:
    asking = []
    for page in site.rglob("*.html"):
        text = page.read_text("utf-8")
        asking += [
            f"{page.relative_to(site)}: {found}"
            for found in re.findall(r'<(?:script|img|iframe|link)[^>]*\b(?:src|href)="(https?:[^"]+)"', text)
        ]
    assert asking == []


# The gate compares all pages but those of a changed number in `test_isolation.py`.
@pytest.mark.nightly
def test_the_same_content_and_date_give_the_same_bytes(
    tmp_path: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On any day, and whatever set the date: studio.yml for the one, mkdocs.yml over the environment for the other."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "2000000000")
    config = copy_project(tmp_path) / "mkdocs.yml"
    plain, told = "  - studio-handbook\n", f"  - studio-handbook:\n      as_of: {RECORDS.studio.as_of}\n"
    assert plain in config.read_text("utf-8")
    config.write_text(config.read_text("utf-8").replace(plain, told), "utf-8")
    assert build_site(tmp_path) == ""
    again = tmp_path / "site"
    builds = [
        {p.relative_to(folder): p.read_bytes() for p in folder.rglob("*") if p.is_file()} for folder in (site, again)
    ]
    assert builds[0].keys() == builds[1].keys()
    assert [name for name in builds[0] if builds[0][name] != builds[1][name]] == []


def test_every_procedure_says_who_looks_after_it(site: Path) -> None:
    for procedure in RECORDS.procedures.values():
        page = (site / "procedures" / f"{procedure.id}.html").read_text("utf-8")
        line = re.search(r'<p class="looked-after">.*?</p>', page)
        assert line is not None and procedure.reviewed.isoformat() in line[0], procedure.id


def test_the_menu_has_the_procedures_in_the_groups_and_the_order_of_their_records(site: Path) -> None:
    page = (site / "index.html").read_text("utf-8")
    # A group is a label before its pages; its name is in the label and once more above the open list.
    found = re.findall(
        r'md-ellipsis">\s*([^<]+?)\s*<|<a href="procedures/(?!index)([\w-]+)\.html" class="md-nav__link', page
    )
    menu: dict[str, list[str]] = {}
    group = ""
    for title, procedure in found:
        if procedure:
            menu.setdefault(group, []).append(procedure)
        elif not procedure and title in {p.group for p in RECORDS.procedures.values()}:
            group = title
    by_group: dict[str, list[str]] = {}
    for procedure in RECORDS.procedures.values():
        by_group.setdefault(procedure.group, []).append(procedure.id)
    assert list(menu.items()) == list(by_group.items())


class TestTheLastGoodSiteStands:
    @pytest.fixture
    def project(self, tmp_path: Path) -> Path:
        folder = copy_project(tmp_path, THREE_JOBS)
        (folder / "site" / "assets").mkdir(parents=True)
        (folder / "site" / "assets" / "handbook.css").touch()
        (folder / "site" / "index.html").write_text("the last good one", "utf-8")
        return folder

    def untouched(self, project: Path) -> bool:
        return (project / "site" / "index.html").read_text("utf-8") == "the last good one" and [
            p.name for p in project.iterdir() if p.name.startswith(".site")
        ] == []

    def test_after_a_mistake_in_a_record(self, project: Path) -> None:
        job = project / "content" / "jobs" / "tide-table.yml"
        job.write_text(job.read_text("utf-8").replace("150 mm x 190 mm", "150 x 190 mm"), "utf-8")
        built = mkdocs(project, "build")
        assert built.returncode == 1
        assert "content/jobs/tide-table.yml:" in built.stderr
        assert "Traceback" not in built.stderr
        assert self.untouched(project)

    def test_after_a_wrong_quote_in_an_authored_page(self, project: Path) -> None:
        page = project / "handbook" / "index.md"
        text = page.read_text("utf-8")
        page.write_text(text + "\nKeep {{ studio.limits.mole_clearanse }} away.\n", "utf-8")
        built = mkdocs(project, "build")
        line = text.count("\n") + 2
        assert built.returncode == 1
        assert f"handbook/index.md:{line}:6: error H701" in built.stderr
        assert "Traceback" not in built.stderr
        assert self.untouched(project)

    def test_after_an_answer_that_leads_nowhere(self, project: Path) -> None:
        file = project / "content" / "asked.yml"
        file.write_text(file.read_text("utf-8").replace("spill.md#steps", "spill.md#stepps"), "utf-8")
        built = mkdocs(project, "build")
        assert built.returncode == 1
        assert "content/asked.yml:" in built.stderr and "error H705" in built.stderr
        assert "did you mean `procedures/spill.md#steps`?" in built.stderr
        assert self.untouched(project)

    @pytest.mark.parametrize(
        ("quiet", "addresses"),
        [((), ("nowhere.md", "reading.md#nowhere", "jobs.md#nowhere")), (("-q",), ("jobs.md#nowhere",))],
        ids=["loud", "quiet"],
    )
    def test_after_a_warning_in_strict_mode(
        self, project: Path, quiet: tuple[str, ...], addresses: tuple[str, ...]
    ) -> None:
        page = project / "handbook" / "index.md"
        links = "".join(f"\n[nowhere]({address})\n" for address in addresses)
        page.write_text(page.read_text("utf-8") + links, "utf-8")
        built = mkdocs(project, "build", "--strict", *quiet)
        assert built.returncode == 1
        assert "Traceback" not in built.stderr
        warned = [line for line in built.stderr.split("\n") if "WARNING" in line]
        assert quiet or all(any(f"'{address}'" in line for line in warned) for address in addresses), warned
        assert self.untouched(project)

    def test_after_a_number_typed_on_a_page(self, project: Path) -> None:
        page = project / "handbook" / "index.md"
        text = page.read_text("utf-8")
        page.write_text(text + "\nWait 15 min.\n", "utf-8")
        built = mkdocs(project, "build")
        assert built.returncode == 1
        assert f"handbook/index.md:{text.count(chr(10)) + 2}:6: error H704" in built.stderr
        assert "{{ studio.limits.stencil_dry }}" in built.stderr
        assert self.untouched(project)

    def test_but_a_good_build_takes_its_place_with_an_overdue_review_and_a_changed_text(self, project: Path) -> None:
        before, after = "reviewed: 2026-11-20", "reviewed: 2021-11-20"
        records = project / "content" / "procedures.yml"
        assert before in records.read_text("utf-8")
        records.write_text(records.read_text("utf-8").replace(before, after), "utf-8")
        page = project / "handbook" / "procedures" / "spill.md"
        page.write_text(page.read_text("utf-8") + "\n- One caution more.\n", "utf-8")
        built = mkdocs(project, "build", "--strict")
        assert built.returncode == 0, built.stderr
        assert "reminder H722: the text of `spill` has changed" in built.stderr
        procedures = project / "site" / "procedures"
        assert "The text has changed" in (procedures / "spill.html").read_text("utf-8")
        assert "The review was due on 2022-11-20" in (procedures / "lining.html").read_text("utf-8")
        assert "the last good one" not in (project / "site" / "index.html").read_text("utf-8")
        assert [p.name for p in project.iterdir() if p.name.startswith(".site")] == []


def test_an_authored_page_is_never_replaced_by_a_generated_one(tmp_path: Path) -> None:
    folder = copy_project(tmp_path, THREE_JOBS)
    (folder / "handbook" / "jobs.md").write_text("# Mine\n", "utf-8")
    built = mkdocs(folder, "build")
    assert built.returncode == 1
    assert "error H715: this page is written by hand, and the program makes one of the same address" in built.stderr
    assert "jobs.md:1:1" in built.stderr
    assert "Traceback" not in built.stderr


def test_every_sheet_of_the_site_is_one_sheet_of_paper_but_the_long_ones(site: Path) -> None:
    """With what finished jobs have taught, which is printed too and takes room."""
    for path in sorted((site / "sheets").glob("*.html")):
        if path.stem.endswith("--explained"):
            continue
        (sides,) = set(re.findall(r"side \d+ of (\d+)", text := path.read_text("utf-8")))
        # A long piece in sittings, and what the pause points do not hold, go to a second sheet of paper.
        assert int(sides) <= (4 if "Sitting" in text else 3 if "More to tick" in text else 2), path.stem
