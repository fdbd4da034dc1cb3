"""By which technique a piece of work is done, and which of its rows of speeds holds for a grouping."""

from __future__ import annotations

from generator.planning.working.calibration import cartridge_for, cartridge_of
from generator.planning.working.pieces import NoSetting, Piece
from generator.records.families import Records
from generator.records.needles import Dial, Grouping, Technique
from generator.records.parts import Colour, Lines, Part
from generator.trade import labels


def technique_for(records: Records, part: Part, work: Lines | Colour) -> Technique:
    """The technique the job names, or the one whose record says it is usual for such work."""
    if work.technique is not None:
        return records.techniques[work.technique]
    if isinstance(work, Colour):
        wanted = [records.inks[work.ink].kind]
    else:
        wanted = ["fine lines", "lines"] if part.detail == "fine" else ["lines"]
    for need in wanted:
        for technique in records.techniques.values():
            if need not in technique.usual_for:
                continue
            chosen = records.groupings[work.needle or technique.usual_grouping]
            if need != "fine lines" or dial_row(technique, chosen) is not None:
                return technique
    place = work.ink.place if isinstance(work, Colour) else part.id.place
    raise NoSetting(
        "J601",
        place,
        found=wanted[-1],
        expected="a technique with it in `usual_for`",
        help=f"name a `technique` here, or add `{wanted[-1]}` to `usual_for` of one in techniques.yml",
        says=f"no technique is usual for {wanted[-1]}",
    )


def dial_row(technique: Technique, grouping: Grouping) -> Dial | None:
    """The row of the technique's speeds that holds for this grouping."""
    label = labels.read_label(grouping.label)
    for row in technique.dials:
        if label.configuration in row.configurations and row.fewest <= label.count <= row.most:
            return row
    return None


def nearest_row(piece: Piece) -> Dial:
    """The row that holds for the grouping, else the one of the groupings most like it.

    Raises NoSetting for a row of needles on lines.
    """
    technique, grouping = piece.technique, piece.grouping
    label = labels.read_label(grouping.label)
    worked_with = {letters for row in technique.dials for letters in row.configurations}
    if technique.works == "lines" and label.configuration not in (*labels.ROUNDS, *worked_with):
        raise NoSetting(
            "J602",
            piece.place,
            found=f"“{grouping.label}”",
            expected=f"a grouping that {technique.id} is worked with ({', '.join(sorted(worked_with))})",
            help=f"choose another needle or technique, or add {grouping.label} to `dials` of {technique.id}",
            says=f"{grouping.label} is a row of needles and runs no line",
        )

    def unlike(row: Dial) -> tuple[bool, bool, int]:
        kinds = {cartridge_for(letters) for letters in row.configurations}
        apart = max(row.fewest - label.count, label.count - row.most, 0)
        return label.configuration not in row.configurations, cartridge_of(grouping) not in kinds, apart

    return dial_row(technique, grouping) or min(technique.dials, key=unlike)
