"""What happened is written into a job, and what it was worked with is kept."""

from __future__ import annotations

import argparse
import sys

from generator.commands.one_job import read_one
from generator.commands.says import MISTAKES, OK, out, refused, say
from generator.finishing import after_finishing, finishing, stamp_in, written


def run(options: argparse.Namespace) -> int:
    found = read_one(options.content, options.job, options.today)
    made, report = finishing(options.content, found.reading, found.read, options.told)
    if made is None:
        return refused(report)
    paper = _stamp_on_paper(options.stamp, ask=not made.gone_through)
    if paper is None:
        say("error: that is no stamp; write the eight letters and digits behind “stamp” at the foot of the paper")
        return MISTAKES
    written(made, paper)
    for line in after_finishing(made, paper):
        out(line)
    return OK


def _stamp_on_paper(told: str | None, *, ask: bool) -> str | None:
    """The stamp as it was told or is asked for: empty where there is none to look at, None for what is no stamp."""
    if ask and told is None and sys.stdin.isatty():
        told = input("Stamp on the paper (at its foot; empty where there is no paper): ")
    return stamp_in("" if told is None or told.strip().lower() == "none" else told)
