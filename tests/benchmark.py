"""How long an archive of jobs takes, as a ratio to PyYAML's own loader on the same files.

    python -m tests.benchmark [number of jobs]

Everything is measured in one run; the ratios count, not the seconds.
"""

from __future__ import annotations

import resource
import shutil
import sys
import tempfile
import time
from pathlib import Path

import yaml

from generator.planning.plan import plan
from generator.press.sheet.all_jobs import press_jobs
from generator.records.reading import job_files, read_jobs, read_records

CONTENT = Path(__file__).parent.parent / "content"


def archive(number: int, folder: Path) -> None:
    """The demo studio with so many copies of its demo jobs, each under an id of its own."""
    shutil.copytree(CONTENT, folder, dirs_exist_ok=True)
    originals = [path.read_text("utf-8") for path in job_files(CONTENT)]
    for path in job_files(folder):
        path.unlink()
    for count in range(number):
        text = originals[count % len(originals)]
        old = next(line for line in text.split("\n") if line.startswith("id: "))
        (folder / "jobs" / f"job-{count}.yml").write_text(text.replace(old, f"id: job-{count}"), "utf-8")


def main(number: int) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        archive(number, folder)
        begun = time.perf_counter()
        for path in job_files(folder):
            yaml.load(path.read_text("utf-8"), Loader=yaml.CSafeLoader)
        baseline = time.perf_counter() - begun
        reading = read_records(folder)
        assert reading.records is not None
        stages = {"read and checked": 0.0, "planned too": 0.0, "pressed too": 0.0}
        begun = time.perf_counter()
        for _ in read_jobs(folder, reading.known):
            pass
        stages["read and checked"] = time.perf_counter() - begun
        begun = time.perf_counter()
        for job in read_jobs(folder, reading.known):
            assert job.job is not None
            plan(reading.records, job.job)
        stages["planned too"] = time.perf_counter() - begun
        begun = time.perf_counter()
        for pressed in press_jobs(folder, reading):
            assert pressed.sheet is not None
        stages["pressed too"] = time.perf_counter() - begun
    sys.stdout.write(f"{number} jobs; PyYAML's CSafeLoader alone: 1.0 ({baseline:.2f} s)\n")
    for stage, seconds in stages.items():
        sys.stdout.write(f"{stage}: {seconds / baseline:.1f} ({seconds / number * 1000:.2f} ms a job)\n")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    sys.stdout.write(f"peak memory {peak} MiB\n")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 600)
