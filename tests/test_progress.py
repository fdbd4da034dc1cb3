"""How far a long run has come is said on a terminal, after a while, and nowhere else."""

from __future__ import annotations

import io

import pytest

from generator import progress
from generator.progress import counted


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    now = [0.0]
    monkeypatch.setattr(progress.time, "monotonic", lambda: now[0])
    return now


def _run(clock: list[float], stream: io.StringIO, seconds: float) -> str:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(progress.sys, "stderr", stream)
        with progress.progress(3, "jobs") as one_done:
            for _ in range(3):
                clock[0] += seconds
                one_done()
    return stream.getvalue()


def test_a_terminal_says_what_takes_long_and_is_clean_afterwards(clock: list[float]) -> None:
    said = _run(clock, _Terminal(), 1.1)
    assert "\r2 of 3 jobs" in said and "1 of 3 jobs" not in said
    assert said.endswith("\r" + " " * len("3 of 3 jobs") + "\r")


def test_what_is_short_says_nothing(clock: list[float]) -> None:
    assert _run(clock, _Terminal(), 0.1) == ""


def test_a_pipe_is_told_nothing(clock: list[float]) -> None:
    assert _run(clock, io.StringIO(), 60) == ""


def test_counted_items_are_all_there_and_a_line_is_not_written_all_the_time(
    clock: list[float], monkeypatch: pytest.MonkeyPatch
) -> None:
    stream = _Terminal()
    monkeypatch.setattr(progress.sys, "stderr", stream)
    for _ in counted(range(1000), "jobs"):
        clock[0] += 0.01
    assert 0 < stream.getvalue().count("of 1000 jobs") <= 8 / 0.2 + 1
