"""The stable codes of all diagnostics, each with what it means and how it is mended.

`right` stands in the demo studio's records; `wrong` in its place earns the code. The handbook shows both, and
a test tries every pair.
"""

from __future__ import annotations

from generator.diagnostic_code import Code
from generator.record_codes import RECORD_CODES

_TIDE, _BOAT, _LANTERN = "jobs/tide-table.yml", "jobs/paper-boat.yml", "jobs/keepers-lantern.yml"
_LINE = "{needle: 1210RL, length: 290 mm}"

CODES: dict[str, Code] = {
    **RECORD_CODES,
    # J: a job against the records
    "J601": Code(
        "No technique is usual for this work, and the job names none.",
        "techniques.yml",
        "usual_for: [wash]",
        "usual_for: []",
        seen_in="jobs",
    ),
    "J602": Code("The technique has no speed for such a grouping.", _TIDE, _LINE, "{needle: 1215CM, length: 290 mm}"),
    "J603": Code(
        "The machine has no stroke for the technique that it was measured with.",
        "calibrations.yml",
        "stroke: 3.5 mm",
        "stroke: 2.5 mm",
        seen_in=_LANTERN,
    ),
    "J604": Code(
        "A dial setting in another unit than the machine's dial shows.",
        _TIDE,
        _LINE,
        "{needle: 1210RL, length: 290 mm, machine: kettle, dial: 6.5 V}",
    ),
    "J605": Code("A dial setting outside the technique's speeds.", _TIDE, "95 Hz", "140 Hz"),
    "J606": Code(
        "A dial setting that the machine cannot be set to.",
        _TIDE,
        _LINE,
        "{needle: 1210RL, length: 290 mm, machine: metronome, dial: 125 Hz}",
    ),
    "J607": Code(
        "A hang-out outside what technique, grouping and machine allow.",
        _TIDE,
        _LINE,
        "{needle: 1210RL, length: 290 mm, hang_out: 5 mm}",
    ),
    "J608": Code(
        "Technique, grouping and machine have no hang-out in common.",
        "groupings.yml",
        "spread: 1.25, hang_out: 1.5–3 mm",
        "spread: 1.25, hang_out: 3.5–4 mm",
        seen_in="jobs/stairwell.yml",
    ),
    "J609": Code(
        "A technique for areas on lines, or for lines on an area.",
        _TIDE,
        "{needle: 1205RL, length: 270 mm, dial: 95 Hz}",
        "{needle: 1205RL, length: 270 mm, technique: stippling}",
    ),
    "J610": Code(
        "There are lines to run, and no black ink.",
        "inks.yml",
        "kind: black",
        "kind: colour",
        how="replaced everywhere",
        seen_in="jobs",
    ),
    "J611": Code(
        "A part that reaches beyond the piece.",
        _TIDE,
        "box: [35 mm, 15 mm, 80 mm, 80 mm]",
        "box: [75 mm, 15 mm, 80 mm, 80 mm]",
    ),
    "J612": Code(
        "A wound or an answer that is dated after the sitting.", _BOAT, "wound: 2026-07-18", "wound: 2027-07-18"
    ),
    "J613": Code(
        "A mole, scar or existing tattoo that lies outside the piece.",
        _BOAT,
        "from: [20 mm, 96 mm], to: [48 mm, 101 mm]",
        "from: [20 cm, 96 mm], to: [48 cm, 101 mm]",
    ),
    "J622": Code(
        "A lot in a finished job that no ink has on file.",
        "jobs/diving-bell.yml",
        "BR-2291",
        "BR-2219",
        level="reminder",
    ),
    "J621": Code(
        "Finished jobs took more than twice, or less than half, what this pace says.",
        "techniques.yml",
        "pace: 1.5–2.5 cm/min",
        "pace: 0.6–0.9 cm/min",
        level="warning",
    ),
    # A: arithmetic that cannot answer
    "A901": Code("A needle label that cannot be read.", "groupings.yml", "label: 1206F", "label: 6F"),
    "A902": Code("A formula that has no answer for these values.", _BOAT, "bottom: 185 mm", "bottom: 70 mm"),
    # F: files
    "F801": Code(
        "A folder or file that is not there or cannot be read.",
        "people.yml",
        "people.yml",
        ".people.yml.old",
        how="renamed",
    ),
    "F802": Code("A file that is not one of those that are read.", _TIDE, _TIDE, "jobs/tide-table.yaml", how="renamed"),
    "F803": Code("There is no job of this name.", _TIDE, "tide-table", "tide-tabel", how="asked for"),
    "F804": Code(
        "A new job under the id of one that is there; nothing is written over it.",
        _TIDE,
        "tide-tables",
        "tide-table",
        how="begun",
    ),
    "F805": Code(
        "There is no folder of pages beside the records, so that none is checked.",
        "handbook",
        "handbook",
        "pages",
        level="reminder",
        how="renamed page",
    ),
    "F806": Code(
        "A sheet that would be written among the records, or over a file that is no sheet.",
        _TIDE,
        "sheet.html",
        f"content/{_TIDE}",
        how="written over",
    ),
    "F807": Code(
        "Files of jobs whose names differ only in capitals, which some systems take for one.",
        _TIDE,
        _TIDE,
        "jobs/Tide-Table.yml",
        how="copied",
    ),
    # H: the handbook's pages: quotes, procedures, reviews
    "H701": Code(
        "A quote that does not name a value of a record.",
        "a page of the handbook",
        "{{ machines.kettle.limits }}",
        "{{ machines.kettel.limits }}",
        how="quoted",
    ),
    "H702": Code(
        "A quote of something that has no single value, or none yet.",
        "a page of the handbook",
        "{{ machines.kettle.weight }}",
        "{{ machines.kettle }}",
        how="quoted",
    ),
    "H703": Code(
        "A number that is typed on purpose, without the reason.",
        "a page of the handbook",
        "{{ typed: 100 mm, because the bar on the sheet proves the scale }}",
        "{{ typed: 100 mm }}",
        how="quoted",
    ),
    "H704": Code(
        "A number that is typed on a page or in a text of a record, where a quote of its record belongs.",
        "handbook/reading.md",
        "The handbook shows",
        "Wait 15 min. The handbook shows",
        how="in the handbook",
    ),
    "H705": Code(
        "An answer that leads to a page, or to a place in one, which the handbook does not have.",
        "asked.yml",
        "spill.md#where-it-fell",
        "spill.md#where-it-fel",
        how="in the handbook",
    ),
    "H711": Code(
        "A page among the procedures that has no record.",
        "handbook/reading.md",
        "handbook/reading.md",
        "handbook/procedures/reading.md",
        how="renamed page",
    ),
    "H712": Code(
        "A procedure's record that has no page.",
        "handbook/procedures/stock.md",
        "handbook/procedures/stock.md",
        "handbook/procedures/stock.md.old",
        how="renamed page",
    ),
    "H713": Code(
        "A procedure that lacks one of the sections that each procedure has.",
        "handbook/procedures/lining.md",
        "**Purpose.**",
        "**Aim.**",
        level="reminder",
        how="in the handbook",
    ),
    "H714": Code(
        "A procedure's page on which nothing is written.",
        "handbook/procedures/stock.md",
        "handbook/procedures/stock.md",
        "nothing",
        how="emptied page",
    ),
    "H721": Code(
        "A review that is overdue.",
        "procedures.yml",
        "reviewed: 2026-11-20",
        "reviewed: 2025-11-20",
        level="reminder",
        how="in the handbook",
    ),
    "H722": Code(
        "A procedure whose text has changed since the last one that its record lists.",
        "handbook/procedures/lining.md",
        "# Lining",
        "# Lines",
        level="reminder",
        how="in the handbook",
    ),
    "H723": Code(
        "A family of records that nobody reviews.",
        "reviews.yml",
        "- {id: people, owner: quill, reviewed: 2026-10-13, interval: 6 months}\n",
        "",
        level="reminder",
        how="in the handbook",
    ),
    "H724": Code(
        "A dial in volts that was last measured longer ago than that counts.",
        "calibrations.yml",
        "stroke: 3.5 mm\n  cartridge: round\n  supply: bench supply with foot switch\n  measured: 2026-11-20",
        "stroke: 3.5 mm\n  cartridge: round\n  supply: bench supply with foot switch\n  measured: 2026-01-04",
        level="reminder",
        how="in the handbook",
    ),
    "H725": Code(
        "A training that a role needs, and that a person has not had, or not lately enough.",
        "people.yml",
        "{what: First aid, on: 2026-04-20, counts_as: first-aid}",
        "{what: First aid, on: 2024-04-20, counts_as: first-aid}",
        level="reminder",
        how="in the handbook",
    ),
}
