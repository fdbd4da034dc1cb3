"""`mkdocs serve`: the same code, and editing a record builds the page anew."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.exchange import leave, take
from tests.conftest import THREE_JOBS, copy_project

pytestmark = pytest.mark.long


@pytest.fixture
def served(tmp_path: Path) -> Iterator[tuple[Path, str]]:
    folder = copy_project(tmp_path, THREE_JOBS)
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{probe.getsockname()[1]}"
    with (tmp_path / "log").open("w") as log:
        command = [sys.executable, "-m", "mkdocs", "serve", "-a", address]
        temp = tmp_path / "temp"
        temp.mkdir()
        server = subprocess.Popen(command, cwd=folder, stdout=log, stderr=log, env={**os.environ, "TMPDIR": str(temp)})
        # As while a build runs: who serves does not write this site.
        building, _ = take(folder / "site")
        yield folder, f"http://{address}"
        leave(building)
        server.terminate()
        server.wait(timeout=20)
    assert "Traceback" not in (tmp_path / "log").read_text()
    assert list(temp.iterdir()) == [], "client references are left in the folder for temporary files"


def wait_for(url: str, text: str, seconds: float = 90) -> bool:
    """Whether the page shows this text before the time is up."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        try:
            with urllib.request.urlopen(url, timeout=5) as answer:
                if text in answer.read().decode():
                    return True
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            pass
        time.sleep(0.1)
    return False


def test_an_edited_record_changes_the_page_and_a_mistake_is_shown_until_it_is_mended(served: tuple[Path, str]) -> None:
    folder, address = served
    sheet = f"{address}/sheets/tide-table.html"
    assert wait_for(sheet, "Clockwork tide table")
    job = folder / "content" / "jobs" / "tide-table.yml"
    text = job.read_text("utf-8")
    job.write_text(text.replace("title: Clockwork", "titel: Clockwork"), "utf-8")
    log = folder / "log"
    until = time.monotonic() + 60
    while "error R301" not in log.read_text() and time.monotonic() < until:
        time.sleep(0.1)
    assert "tide-table.yml:" in log.read_text()
    # MkDocs itself holds its answers back until the build succeeds again.
    job.write_text(text.replace("Clockwork tide table", "Clockwork tide wheel"), "utf-8")
    assert wait_for(sheet, "Clockwork tide wheel")
