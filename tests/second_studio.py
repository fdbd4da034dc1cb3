"""A small American studio, made by `new-studio` and filled in: two machines in volts, three inks, two people, a job."""

from __future__ import annotations

import re
from pathlib import Path

from generator.cli import main

NAME = "Salt flat"
DAY = "2027-03-01"
_MACHINES = """\
- {id: anvil, name: Anvil, drive: rotary-direct, strokes: [3.5 mm], dial: volts, limits: 4–10 V, hang_out: 0–5 mm,
   weight: 5.5 oz, care: Wipe it and look under the vice., source: suggestion}
- {id: ratchet, name: Ratchet, drive: rotary-slider, strokes: [3 mm], dial: volts, limits: 5–11 V, hang_out: 0–5 mm,
   weight: 6 oz, care: Wipe it and look under the vice., source: suggestion}
"""
_CALIBRATIONS = """\
- {id: anvil-in-november, machine: anvil, stroke: 3.5 mm, cartridge: round, supply: the bench supply,
   measured: 2027-02-20, points: [[4.5 V, 60 Hz], [6 V, 85 Hz], [8 V, 112 Hz], [10 V, 140 Hz]], source: suggestion}
- {id: anvil-with-magnums, machine: anvil, stroke: 3.5 mm, cartridge: row, supply: the bench supply,
   measured: 2027-02-20, points: [[4.5 V, 58 Hz], [6 V, 82 Hz], [8 V, 108 Hz], [10 V, 135 Hz]], source: suggestion}
- {id: ratchet-in-november, machine: ratchet, stroke: 3 mm, cartridge: round, supply: the bench supply,
   measured: 2027-02-20, points: [[5 V, 62 Hz], [7 V, 92 Hz], [9 V, 120 Hz], [11 V, 142 Hz]], source: suggestion}
"""
_INKS = """\
- {id: pitch, name: Pitch, kind: black, swatch: '#14120f', pigments: [C.I. 77266], opened_life: 12 months,
   shelf: {bottle: 1 fl oz, stock: 1 fl oz, reserve: 0 fl oz}, source: suggestion,
   lots: [{lot: P-17, expires: 2029-01-31, opened: 2027-02-02}]}
- {id: clay, name: Clay, kind: colour, swatch: '#96502f', pigments: [C.I. 77491], opened_life: 12 months,
   shelf: {bottle: 1 fl oz, stock: 1 fl oz, reserve: 0 fl oz}, source: suggestion,
   lots: [{lot: C-04, expires: 2029-01-31, opened: 2027-02-02}]}
"""
_PEOPLE = """\
- {id: owner, name: Jun, role: artist, hand: right, may: [lining, packing, fine-detail], training: [], came: 2026-01-04}
- {id: pell, name: Pell, role: artist, hand: left, may: [lining], training: [], came: 2026-01-04}
"""
_JOB = """\
id: water-tower
client: C-001
title: A water tower
artist: owner
date: 2027-03-03
start: 11:00
place: upper-arm-outer
side: left
girth: {top: 13 in, bottom: 12 in}
size: 4 in x 6 in
skin: {tone: medium}
screening: {asked: 2027-03-01, answers: all clear}
allergies: none
scars: none
moles: none
existing_tattoos: none
numbing: none
parts:
  - {id: tank, role: main, focal: yes, box: [1 in, 1 in, 2 in, 3 in], detail: medium, gap: 1.8 mm, narrowest: 7 mm,
     lines: [{needle: 1207RL, length: 24 in}], colours: [{ink: clay, area: 1 in²}]}
"""


def second_studio(folder: Path) -> Path:
    """The studio's folder, below the one that is given, as `new-studio` writes it and this script fills it in."""
    made = folder / "salt-flat"
    assert main(["new-studio", str(made), "--region", "US"]) == 0
    content = made / "content"
    for name, text in (
        ("machines", _MACHINES),
        ("calibrations", _CALIBRATIONS),
        ("inks", _INKS),
        ("people", _PEOPLE),
        ("jobs/water-tower", _JOB),
    ):
        (content / f"{name}.yml").write_text(text, "utf-8")
    studio = content / "studio.yml"
    studio.write_text(f"{studio.read_text('utf-8')}as_of: {DAY}\n", "utf-8")
    # Everything in the folder is of this day, also where the program wrote the day of the run.
    for path in (content / "procedures.yml", content / "screening.yml"):
        path.write_text(re.sub(r"(?<=date: |dded: )\d{4}-\d\d-\d\d", DAY, path.read_text("utf-8")), "utf-8")
    return made
