"""The format in which records are written: its number, which `studio.yml` says, and the keys that it renamed.

The check answers an old key from this table, a quote of one too, and the handbook's page of changes prints it.
"""

import re
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place
from generator.records.kind import Example, Kind
from generator.records.located import Text

FORMAT = 2


class Renamed(NamedTuple):
    """One key under another name, or one word that a key may hold.

    record: the record that holds it, such as `techniques.dials`, from its family on; of a word the way to its key. new:
    empty for what is there no more. since: the format that began it. why: what the word says now, or what says the
    same, in a few words for whoever changes the files. writes: the new text, where it is made of several old keys;
    `<key>` is what is written behind a key, `<key as id>` the same as an id.
    """

    record: str
    old: str
    new: str
    since: int
    why: str
    writes: str = ""


_DECIDED = "who and when in one, `{by: ID, on: DAY}`, by the id of a person"
_DECIDED_TEXT = "{by: <decided_by as id>, on: <decided_on>}"

RENAMED: tuple[Renamed, ...] = (
    Renamed("techniques.dials", "times_over", "passes", 2, "going over the skin once is a pass"),
    Renamed("techniques", "passes", "movement", 2, "how the hand moves; a pass is going over once"),
    Renamed("techniques", "clock_rate", "pace", 2, "length or area done in a minute"),
    Renamed("scar-rules", "times_over", "passes", 2, "going over the skin once is a pass"),
    Renamed("cycles", "hold", "holding_time", 2, "how long the cycle keeps its temperature"),
    Renamed("hygiene", "product", "disinfectant", 2, "it names an entry of the disinfectants"),
    Renamed("sources", "decided_by", "decided", 2, _DECIDED, _DECIDED_TEXT),
    Renamed("sources", "decided_on", "decided", 2, _DECIDED, _DECIDED_TEXT),
    Renamed("jobs", "old_work", "existing_tattoos", 2, "tattoos that are there already"),
)

TAKEN_AWAY: tuple[Renamed, ...] = (
    Renamed(
        "studio.limits",
        "glove_pairs",
        "",
        2,
        "pairs of gloves are counted from `new_gloves` of the steps in hygiene.yml",
    ),
)
REWORDED: tuple[Renamed, ...] = (
    Renamed("supplies.per", "ink", "bottle", 2, "an ink and its washes come out of one bottle"),
)


def renamed(record: str, word: str, among: tuple[Renamed, ...] = (*RENAMED, *TAKEN_AWAY)) -> Renamed | None:
    """What became of a key of an older format, or of a word of one; `record` is the way to it, from the family on."""
    return next((entry for entry in among if (entry.record, entry.old) == (record, word)), None)


def no_format(place: Place) -> Diagnostic:
    """Records in which nothing says their format."""
    return Diagnostic(
        "R334",
        place,
        found="no `format`",
        expected=f"`format: {FORMAT}`",
        help=f"mend the keys that the check calls renamed, then write `format: {FORMAT}` as the first line",
        note="records without a format are those of format 1",
        says="nothing says in which format these records are written",
    )


class FormatNumber(Kind[int]):
    """The number of the format that the records are written in; an older or a newer one is not read."""

    takes = "the number of the format"
    needs_article = False
    example = Example(str(FORMAT))

    def read(self, text: Text) -> int:
        number = int(text) if re.fullmatch(r"[0-9]{1,9}", text) else 0
        if number == FORMAT:
            return number
        if number > FORMAT:
            raise self.wrong(
                "R336",
                text,
                help_=f"use the version of the program that format {number} came with; do not change the number alone",
                says=f"these records are in format {number}, and this program reads format {FORMAT}",
            )
        if number:
            raise self.wrong(
                "R335",
                text,
                help_=(
                    f"mend the keys that the check names, then write `format: {FORMAT}`; "
                    "the page “What changed in the format” lists them"
                ),
                says=f"these records are in format {number}, which is older than format {FORMAT}",
            )
        raise self.wrong("R309", text, expected="the number of the format", help_=f"write {self.example}")

    def bounds(self) -> str:
        return str(FORMAT)
