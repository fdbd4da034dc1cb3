"""A folder for a studio of its own, that checks and builds."""

from __future__ import annotations

import argparse
from pathlib import Path

from generator.commands.says import OK, out, refused
from generator.diagnostics import Diagnostic, Place
from generator.press.writing.new_studio import new_studio, starting
from generator.shipped import FIRST_AFTERNOON, demo
from generator.whole_files import write_new


def run(options: argparse.Namespace) -> int:
    folder: Path = options.folder
    if folder.is_file() or (folder.is_dir() and any(folder.iterdir())):
        return refused([_not_empty(folder)])
    name = " ".join(folder.resolve().name.replace("_", " ").replace("-", " ").split()).capitalize() or "New studio"
    start = starting(name[:80], options.region, options.units, options.paper, options.today)
    beginning = demo()
    files = new_studio(beginning / "content", beginning / "handbook", start)
    files["handbook/first-afternoon.md"] = FIRST_AFTERNOON.read_text("utf-8")
    for path, text in files.items():
        to = folder / path
        to.parent.mkdir(parents=True, exist_ok=True)
        write_new(to, text)
    out(
        f"{folder} is there: {start.units} units, {start.paper} paper. Go into it and run `python -m generator check`; "
        f"then read handbook/first-afternoon.md"
    )
    return OK


def _not_empty(folder: Path) -> Diagnostic:
    return Diagnostic(
        "F820",
        Place(str(folder), 1, 1, 2),
        found="a file" if folder.is_file() else "a folder that holds something",
        expected="a folder that is not there yet, or is empty",
        help="nothing was written; give the new studio another folder",
        says="a new studio is not written over what is there",
    )
