"""Records as they were before the format had a number, made of today's; and a hand that writes what the check says.

The check says line by line what to change. `mend` does that and nothing else: it takes the words in backticks behind
“write”, “add” and “take away”, and looks at no record.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from generator.diagnostics import Diagnostic

# By file: what is written today, and what stood there then. In this order, because one key took the name of another.
_THEN = (
    ("studio.yml", r"^format: 2\n", ""),
    ("studio.yml", r"^  (blend_chroma|closed_band|seen_flat|scar_margin|zone_worked|clean_skin|lot_cases): .*\n", ""),
    ("studio.yml", r"^  cap: 1 mL\n", "  cap: 1 mL\n  glove_pairs: 9\n"),
    ("techniques.yml", r"(?<=[ {])passes: ", "times_over: "),
    ("techniques.yml", r"(?<=  )movement: ", "passes: "),
    ("techniques.yml", r"(?<=  )pace: ", "clock_rate: "),
    ("scar-rules.yml", r"(?<=[ {])passes: ", "times_over: "),
    ("cycles.yml", r"(?<=[ {])holding_time: ", "hold: "),
    ("hygiene.yml", r"(?<=[ {])disinfectant: ", "product: "),
    ("supplies.yml", r"per: bottle\b", "per: ink"),
    ("sources.yml", r"^  decided: \{by: (\w+), on: (\S+)\}\n", r"  decided_by: \1\n  decided_on: \2\n"),
    ("people.yml", r"^  came: .*\n", ""),
    ("procedures.yml", r"^  reviewed_by: .*\n", ""),
    ("reviews.yml", r", reviewed_by: \w+", ""),
    ("jobs/*.yml", r"^existing_tattoos: ", "old_work: "),
)


def as_before(content: Path) -> int:
    """Write the records as they were then; how many places that were others."""
    places = 0
    for name, now, then in _THEN:
        for file in content.glob(name):
            text, number = re.subn(now, then, file.read_text("utf-8"), flags=re.MULTILINE)
            file.write_text(text, "utf-8")
            places += number
    return places


def mend(report: Iterable[Diagnostic]) -> int:
    """Write what the check says, from the last line to the first, so that no place moves; how many of it."""
    done = 0
    for one in sorted(report, key=lambda d: (d.place.file, d.place.line, d.place.column), reverse=True):
        file = Path(one.place.file)
        lines = file.read_text("utf-8").split("\n") if file.is_file() else []
        done += _written(one, lines)
        file.write_text("\n".join(lines), "utf-8")
    return done


def _written(one: Diagnostic, lines: list[str]) -> bool:
    at, column, help_ = one.place.line - 1, one.place.column - 1, one.help
    if "an empty family is written `[]`" in help_:
        lines[:] = ["[]", ""]
    elif first := re.search(r"write `([^`]+)` as the first line", help_):
        lines.insert(0, first[1])
    elif help_.startswith("take this line away"):
        del lines[at]
    elif place := re.match(r"write `([^`]+)` in its place", help_):
        head, tail = lines[at][:column], lines[at][column:]
        key, colon, value = place[1].partition(":")
        if not colon:
            lines[at] = head + place[1] + tail[len(one.found.strip("“”`")) :]
        elif "{" in value:
            lines[at] = head + place[1]
        else:
            lines[at] = f"{head}{key}{tail[tail.index(':') :]}"
    elif added := re.match(r"add `([^`]+)`", help_):
        key_ = re.match(r"( *)(- )?(\{)?", lines[at])
        assert key_ is not None
        if key_[3]:
            lines[at] = f"{lines[at][: key_.end()]}{added[1]}, {lines[at][key_.end() :]}"
        else:
            lines.insert(at + 1, f"{key_[1]}{'  ' if key_[2] else ''}{added[1]}")
    else:
        return False
    return True
