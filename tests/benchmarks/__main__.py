"""Measure an archive, and print each figure beside what it is to be.

    python -m tests.benchmarks                     1,000 jobs, wall seconds, the least of three runs
    python -m tests.benchmarks --jobs 30000 --runs 1
    python -m tests.benchmarks --cpu               processor seconds, for a machine that does other things too

M is what the jobs add to a run over none; P is what the same words as three Markdown pages a job add to plain MkDocs
with the same theme. Everything is measured in one run, and the ratios count. A quiet machine takes about ten minutes.
Every process finds its modules compiled, as in a studio from the second run on, whatever PYTHONDONTWRITEBYTECODE says.
"""

from __future__ import annotations

import argparse
import os
import platform
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from tests.benchmarks.archive import CONTENT, archive, first_to_come
from tests.benchmarks.plain import of_jobs, of_studio, plain

ROOT = CONTENT.parent
_BUILD = ("-m", "mkdocs", "build", "-q")
# What `mkdocs serve` does between a change and the new site, with the time of its second build.
_SERVE = """
import sys, time, pathlib
from mkdocs.config import load_config
from mkdocs.commands.build import build
for turn in range(2):
    began = time.perf_counter(), time.process_time()
    config = load_config("mkdocs.yml", strict=False)
    config.plugins.on_startup(command="serve", dirty=False)
    build(config)
    config.plugins.on_shutdown()
    took = time.perf_counter() - began[0], time.process_time() - began[1]
    if len(sys.argv) > 1:
        path = pathlib.Path(sys.argv[1])
        path.write_text(path.read_text("utf-8") + "# looked at\\n", "utf-8")
print(*took)
"""


class Took(NamedTuple):
    """Seconds on the clock and of processors, and the most memory in MB."""

    wall: float
    cpu: float
    memory: int


class Bench(NamedTuple):
    """How it is measured."""

    folder: Path
    runs: int
    cpu: bool

    def seconds(self, took: Took) -> float:
        return took.cpu if self.cpu else took.wall

    def least(self, measured: Callable[[], Took]) -> Took:
        """The fastest of several runs, with the most memory of all."""
        found = [measured() for _ in range(self.runs)]
        return min(found, key=self.seconds)._replace(memory=max(took.memory for took in found))


def run(folder: Path, *arguments: str) -> Took:
    """One Python process in a folder, with all that it starts."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONPYCACHEPREFIX"] = str(folder.parent / "compiled")
    began = time.perf_counter()
    with (folder / "said.log").open("w") as said:
        process = subprocess.Popen([sys.executable, *arguments], cwd=folder, env=environment, stdout=said, stderr=said)
        _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit((folder / "said.log").read_text("utf-8"))
    return Took(time.perf_counter() - began, used.ru_utime + used.ru_stime, used.ru_maxrss // 1024)


def project(folder: Path, number: int, finished: float = 0.9) -> Path:
    """A studio with so many jobs."""
    shutil.copytree(ROOT / "handbook", folder / "handbook")
    shutil.copy(ROOT / "mkdocs.yml", folder)
    archive(folder / "content", number, finished)
    return folder


def cold(folder: Path) -> Took:
    shutil.rmtree(folder / ".kept", ignore_errors=True)
    return run(folder, *_BUILD)


def changed(folder: Path, name: str) -> None:
    path = folder / "content" / "jobs" / f"{name}.yml"
    path.write_text(path.read_text("utf-8") + "# looked at\n", "utf-8")


def again(folder: Path) -> Took:
    changed(folder, "job-1")
    return run(folder, *_BUILD)


def served(folder: Path, *job: str) -> Took:
    took = run(folder, "-c", _SERVE, *job)
    wall, cpu = (folder / "said.log").read_text("utf-8").split()[-2:]
    return Took(float(wall), float(cpu), took.memory)


def measured(bench: Bench, number: int) -> Iterator[tuple[str, float, float | None]]:
    """Each figure as soon as it is known: what it is, its value, and what it is to be at most."""
    folder, least, seconds = bench.folder, bench.least, bench.seconds
    none = project(folder / "none", 0)
    for arguments in (_BUILD, ("-m", "generator", "check")):
        run(none, *arguments)  # compiles the modules
    python = least(lambda: run(none, "-c", "import yaml"))
    start = least(lambda: run(none, "-m", "generator", "--help"))
    yield "start of the command line / bare Python with the YAML library", seconds(start) / seconds(python), None
    without = least(lambda: cold(none))
    plain(folder / "studio", of_studio(none))
    studio = least(lambda: run(folder / "studio", *_BUILD))
    yield "build without jobs / the same pages, plugin off", seconds(without) / seconds(studio), 1.3
    many = project(folder / "many", number)
    with_jobs = least(lambda: cold(many))
    plain(folder / "empty", {})
    plain(folder / "words", of_jobs(many / "site"))
    bare, words = least(lambda: run(folder / "empty", *_BUILD)), least(lambda: run(folder / "words", *_BUILD))
    p = seconds(words) - seconds(bare)

    def added(took: Took, over: Took) -> float:
        return (seconds(took) - seconds(over)) / p

    yield "P, seconds", p, None
    yield "cold, M / P", added(with_jobs, without), 0.25
    yield "cold build, seconds a thousand jobs", (seconds(with_jobs) - seconds(without)) * 1000 / number, None
    one_changed = least(lambda: again(many))
    yield "again with one job changed, M / P", added(one_changed, without), 0.05
    serving = least(lambda: served(many, "content/jobs/job-1.yml"))
    yield "`mkdocs serve` after one changed job, M / P", added(serving, least(lambda: served(none))), 0.06
    check = ("-m", "generator", "check")
    run(many, *check)
    checked, unchecked = least(lambda: run(many, *check)), least(lambda: run(none, *check))
    yield "`check`, what the jobs add / P", added(checked, unchecked), 0.05
    few = project(folder / "few", 21)
    asked = (few, first_to_come(21)), (many, first_to_come(number))
    for where, job in asked:
        run(where, "-m", "generator", "plan", job)
    # Less than a second, of which a twentieth counts: many runs, in turns, so that both have the same moments.
    turns = [[run(where, "-m", "generator", "plan", job) for where, job in asked] for _ in range(10 * bench.runs)]
    plan_few, plan_many = (min(took, key=seconds) for took in zip(*turns, strict=True))
    yield "`plan JOB` with all jobs on file / with 21", seconds(plan_many) / seconds(plan_few), 1.05
    planned = project(folder / "planned", number, 0.0)
    unfinished = least(lambda: cold(planned))
    yield "cold, none of them finished, M / P", added(unfinished, without), 0.35
    yield "most memory, MB", max(took.memory for took in (with_jobs, unfinished, one_changed, checked)), 600


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    parser.add_argument("--jobs", type=int, default=1000)
    parser.add_argument("--runs", type=int, default=3)
    parser.add_argument("--cpu", action="store_true", help="processor seconds instead of those on the clock")
    asked = parser.parse_args()
    kind = "processor seconds" if asked.cpu else "seconds on the clock"
    sys.stdout.write(f"{asked.jobs} jobs, {kind}, the least of {asked.runs}; {os.cpu_count()} processors, ")
    sys.stdout.write(
        f"{platform.machine()}, Python {platform.python_version()}\n\n| | measured | to reach |\n|---|---|---|\n"
    )
    with tempfile.TemporaryDirectory() as name:
        for what, value, target in measured(Bench(Path(name), asked.runs, asked.cpu), asked.jobs):
            reach = "" if target is None else f"≤ {target:g}"
            sys.stdout.write(f"| {what} | {value:.3g} | {reach} |\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main()
