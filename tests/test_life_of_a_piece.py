"""A piece from the enquiry to the healed touch-up, in real files and by the commands that a studio has."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
import yaml

from generator.cli import main
from tests.conftest import THREE_JOBS, copy_content
from tests.planning.demo import Written

ANSWERS = dict.fromkeys(("allergies", "scars", "moles", "existing_tattoos", "numbing"), "none")
PARTS = [
    {
        "id": "bell",
        "focal": "yes",
        "box": ["10 mm", "10 mm", "90 mm", "100 mm"],
        "detail": "medium",
        "gap": "2 mm",
        "narrowest": "9 mm",
        "lines": [{"length": "500 mm"}],
        "colours": [{"ink": "black-shade", "area": "25 cm²"}],
    }
]


class Studio:
    """A copy of the demo's records, and its commands on a day."""

    def __init__(self, content: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.content, self.capsys, self.day = content, capsys, "2027-05-12"

    def run(self, *command: str) -> str:
        status = main([*command, "--content", str(self.content), "--as-of", self.day])
        said = self.capsys.readouterr()
        assert status == 0, said
        return said.out

    def file(self, job: str) -> Path:
        return self.content / "jobs" / f"{job}.yml"

    def write(self, job: str, **changes: object) -> None:
        """What a person types into a job's file; None takes a line away."""
        made: Written = {**yaml.load(self.file(job).read_text("utf-8"), Loader=yaml.CBaseLoader), **changes}
        kept = {key: value for key, value in made.items() if value is not None}
        self.file(job).write_text(yaml.safe_dump(kept, allow_unicode=True, sort_keys=False), "utf-8")

    def answered(self, job: str, day: str) -> None:
        asked = {"asked": self.day, "answers": "all clear"}
        self.write(job, draft=None, date=day, start="11:00", screening=asked, **ANSWERS)

    def finished(self, job: str, day: str) -> None:
        """Printed, worked on its day with that paper, and gone through by the artist."""
        paper = self.content.parent / f"{job}.html"
        self.run("sheet", job, "-o", str(paper))
        stamp = re.search(r"stamp ([0-9a-f]{8})", paper.read_text("utf-8"))
        self.day = day
        assert stamp and "The paper carries the same stamp" in self.run("finish", job, "--stamp", stamp[1])
        assert f"keeps what happened, as {self.file(job)} says it" in self.run("finish", job)


def test_from_the_enquiry_to_the_healed_touch_up(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    studio = Studio(copy_content(tmp_path, THREE_JOBS), capsys)
    # Asked for: where, how large, what fills it.
    studio.run("new-job", "hand-bell")
    agreed = {"client": "R-0700", "artist": "quill", "date": "2027-05-20", "start": "11:00", "side": "left"}
    piece = {"place": "upper-back", "size": "110 mm x 120 mm", "longest": "60 min", "girth": None, "parts": PARTS}
    studio.write("hand-bell", **agreed, **piece, draft=None, skin=None, screening="unknown")
    said = studio.run("plan", "hand-bell")
    assert "Not asked yet" in said and re.search(r"Time from seat to door: .* in 2 sittings", said)
    assert re.search(r"Consumables: \d+\.\d\d–\d+\.\d\d\sEUR", said) and "No working steps" in said
    # The questions are answered; the first sitting is printed and worked.
    studio.answered("hand-bell", "2027-05-20")
    assert "1 of 2" in studio.run("plan", "hand-bell")
    studio.finished("hand-bell", "2027-05-20")
    # The next sitting asks anew, and waits for the skin.
    studio.run("new-job", "hand-bell-2", "--from", "hand-bell", "--sitting")
    assert "unknown" in studio.file("hand-bell-2").read_text("utf-8")
    studio.write("hand-bell-2", draft=None, date="2027-06-01", start="11:00")
    assert "Not asked yet" in studio.run("plan", "hand-bell-2")
    studio.day = "2027-06-20"
    studio.answered("hand-bell-2", "2027-06-25")
    second = studio.run("plan", "hand-bell-2")
    assert "2 of 2" in second and "Worked already: 2027-05-20" in second and "Healed where it was worked" in second
    studio.finished("hand-bell-2", "2027-06-25")
    # Looked at healed: the black came out light.
    look = {"on": "2027-08-10", "seen": "Closed; the black is light.", "photo": "F-0700-1"}
    studio.day = "2027-08-10"
    studio.write("hand-bell-2", healed=[{**look, "parts": [{"part": "bell", "came": "light"}]}])
    # The touch-up goes over it again without a stencil, because no line is run.
    studio.run("new-job", "hand-bell-3", "--from", "hand-bell-2", "--touch-up")
    again = {**PARTS[0], "colours": [{"ink": "black-shade", "area": "6 cm²"}]}
    studio.write("hand-bell-3", parts=[{key: value for key, value in again.items() if key != "lines"}])
    studio.answered("hand-bell-3", "2027-08-20")
    third = json.loads(studio.run("plan", "hand-bell-3", "--json"))
    assert third["work"]["at_hand"]["timetable"]["stencil"] is None
    assert "Sitting: touch-up" in studio.run("plan", "hand-bell-3")
    studio.finished("hand-bell-3", "2027-08-20")
    studio.day = "2027-10-15"
    studio.write("hand-bell-3", healed=[{"on": "2027-10-15", "parts": [{"part": "bell", "came": "held"}]}])
    assert "hand-bell" not in studio.run("check")
