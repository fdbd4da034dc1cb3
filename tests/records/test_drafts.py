"""A job that is being written stops nothing, has no sheet, and is in no list."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.cli import main
from generator.dates import as_of
from generator.diagnostics import has_errors
from generator.site import read_site
from tests.checked import check_all
from tests.conftest import ROOT, copy_content

TIDE = (ROOT / "content" / "jobs" / "tide-table.yml").read_text("utf-8")
DRAFT = TIDE.replace("id: tide-table\n", "id: tide-table\ndraft: yes\n")
# Each as half a job can be: not readable, lacking, misnamed, impossible, or of something that is gone.
HALF = {
    "unreadable": "id: unreadable\ndraft: yes   # not done\nparts: [{id: a\n",
    "tabs": "id: tabs\ndraft: yes\n\tclient: R-0147\n",
    "bare": "id: bare\ndraft: yes\n",
    "quoted": "id: quoted\n'draft': 'yes'\nclient: A. Client\n",
    "two-lines": "draft: yes\r\nid: two-lines\r\nclient:\r\n",
    "misnamed": DRAFT,
    "gone": DRAFT.replace("id: tide-table", "id: gone").replace("artist: quill", "artist: nobody"),
    "too-wide": DRAFT.replace("id: tide-table", "id: too-wide").replace("box: [35 mm, 15 mm", "box: [75 mm, 15 mm"),
    "typed": DRAFT.replace("id: tide-table", "id: typed").replace("side: middle", "side: middle\npose: Wait 15 min"),
    "key": DRAFT.replace("id: tide-table", "id: key").replace("allergies: none", "alergies: none"),
    "fit": DRAFT.replace("id: tide-table", "id: fit"),
}


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    content = copy_content(tmp_path_factory.mktemp("studio"), ("tide-table",))
    for name, text in HALF.items():
        (content / "jobs" / f"{name}.yml").write_text(text, "utf-8", newline="")
    (content / "jobs" / "other-end.yaml").write_text("id: other-end\ndraft: yes\n", "utf-8")
    return content


def test_drafts_stop_nothing_and_each_is_told(content: Path) -> None:
    addresses: list[str] = []
    site = read_site(content, None, as_of(), lambda address, _: addresses.append(address), pages=False)
    assert not has_errors(site.report)
    assert {d.level for d in site.report} == {"reminder"}
    told = {Path(d.place.file).stem for d in site.report if d.code == "J633"}
    assert told == {*HALF, "other-end"}
    wrong = {Path(d.place.file).stem for d in site.report if d.code != "J633"}
    assert wrong == {*HALF, "other-end"} - {"fit"}
    assert all("is a draft" in d.note for d in site.report if d.code != "J633")
    assert [job.id for job in site.gathered.jobs] == ["tide-table"]
    of_jobs = [address for address in addresses if address.startswith(("sheets/", "jobs/", "for-the-client/"))]
    assert {Path(address).stem.removesuffix("--explained") for address in of_jobs} == {"tide-table"}
    assert not [address for address in addresses if Path(address).stem in HALF]


def test_the_same_jobs_stop_everything_where_they_are_no_drafts(content: Path, tmp_path: Path) -> None:
    other = copy_content(tmp_path, ("tide-table",))
    for file in (content / "jobs").glob("*.yml"):
        text = file.read_text("utf-8").replace("'draft': 'yes'\n", "").replace("draft: yes", "draft: no")
        (other / "jobs" / file.name).write_text(text, "utf-8")
    wrong = {Path(d.place.file).stem for d in check_all(other, as_of()) if d.level == "error"}
    assert wrong == {*HALF} - {"fit"}


def test_commands_go_on_without_drafts_and_print_no_sheet_of_one(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here = ["--content", str(content)]
    lists = [["restock", *here], ["recall", "LB-7031", *here], ["day", "2027-05-12", *here]]
    assert [main(command) for command in lists] == [0, 0, 0]
    with_drafts = capsys.readouterr()
    assert main(["plan", "fit", *here]) == 0 and capsys.readouterr().out
    for command in (["sheet", "fit"], ["sheet", "fit", "--client"], ["finish", "fit", "--stamp", "none"]):
        assert main([*command, *here]) == 1
        said = capsys.readouterr()
        assert said.out == "" and "draft" in said.err and "Traceback" not in said.err
    for name in [*HALF, "other-end"]:
        for file in (content / "jobs").glob(f"{name}.y*ml"):
            file.unlink()
    assert [main(command) for command in lists] == [0, 0, 0]
    assert capsys.readouterr() == with_drafts


def test_what_was_worked_is_no_draft(tmp_path: Path) -> None:
    content = copy_content(tmp_path, ("diving-bell",))
    file = content / "jobs" / "diving-bell.yml"
    file.write_text(file.read_text("utf-8").replace("id: diving-bell\n", "id: diving-bell\ndraft: yes\n"), "utf-8")
    assert [(d.code, d.level, d.place.line) for d in check_all(content, as_of())] == [("R317", "error", 3)]
