"""What a command says, and how it ends."""

from __future__ import annotations

import io
import sys
from collections.abc import Sequence

from generator.dates import AsOf, not_today
from generator.diagnostics import Diagnostic, as_text, summary

OK, MISTAKES, WRONG_CALL = 0, 1, 2


def out(text: str) -> None:
    sys.stdout.write(text.rstrip("\n") + "\n")


def say(text: str) -> None:
    sys.stderr.write(text + "\n")


def say_set_date(day: AsOf) -> None:
    """Beside what a command hands out, because that may go into a file."""
    if said := not_today(day):
        say(said)


def bold(text: str) -> str:
    """In bold on a terminal; plain in a file."""
    return f"\N{ESCAPE}[1m{text}\N{ESCAPE}[0m" if sys.stdout.isatty() else text


def refused(report: Sequence[Diagnostic]) -> int:
    """Say everything that is wrong; the status with which a command then ends."""
    say(f"{as_text(report)}\n\n{summary(report)}")
    return MISTAKES


def speak_utf8() -> None:
    """What goes into a file or another program is UTF-8, as sheets and JSON have to be; a terminal keeps its own code.

    A sign that it cannot show, or a file name that is no text, is written out as its number and stops nothing.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            code = stream.encoding if stream.isatty() else "utf-8"
            stream.reconfigure(encoding=code, errors="backslashreplace")
