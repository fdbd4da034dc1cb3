"""Two jobs to copy from: the smallest one, and one that shows every field. Their ids are the studio's own."""

from __future__ import annotations

from collections.abc import Iterable
from string import Template

from generator.planning.working.strokes import usual_strokes
from generator.planning.working.technique import dial_row
from generator.records.families import Records
from generator.records.record import Entry

_SMALLEST = Template("""\
id: paper-kite
client: R-0100
title: Paper kite on a string
artist: $artist
date: 2027-05-12
start: 11:00
place: $site
side: left
girth: {top: 330 mm, bottom: 290 mm}
size: 130 mm x 190 mm
screening: {asked: 2027-05-10, answers: all clear}
allergies: none
scars: none
moles: none
existing_tattoos: none
numbing: none
parts:
  - id: kite
    role: main
    focal: yes
    box: [35 mm, 20 mm, 60 mm, 90 mm]
    detail: medium
    gap: 1.8 mm                               # between its lines, where they are nearest
    narrowest: 7 mm                           # where it is filled, at the narrowest
    lines: [{needle: $liner, length: 900 mm}]
    colours: [{ink: $colour, area: 6 cm²}]     # what is shaded or filled; the lines bring their own black
""")

_EVERYTHING = Template("""\
id: moth-and-lamp
client: R-0101
title: Moth and lamp, 4 July 1889
artist: $artist
supervisor: $supervisor
date: 2027-05-12
start: 11:00
place: $site
side: left
note: The client brings a photo of the lamp; look at it together before the stencil.
drawing: {code: D-0148, version: 3}
photos: [F-0148-1, F-0148-2]
pose: Seated, arm on the rest, palm down.
pose_turned: 90 °
girth: {top: 330 mm, bottom: 290 mm, in_pose: {top: 335 mm, bottom: 290 mm}}
size: 130 mm x 190 mm
skin: {tone: medium, measured: {lightness: 58, b: 17}}
screening:
  asked: 2027-05-10
  answers:
$answers
allergies: [adhesive, {to: propolis, told: 2027-05-10, checked: {not_on_tray: yes, by: $artist, on: 2027-05-10}}]
patch_tests: [{ink: $colour, on: 2027-04-28, nothing_seen: yes}]
scars:
  - id: s1
    from: [38 mm, 150 mm]
    to: [74 mm, 158 mm]
    width: 3–4 mm
    height: 0 mm
    wound: 2017-06
    type: flat
    after: injury
    colour: pale
    feel: soft
    itch: no
    pain: no
    growth: no
    wish: work around
    scale: {pigmentation: 0, vascularity: 0, pliability: 1, height: 0}
moles:
  - {at: [110 mm, 40 mm], keep: 8 mm}
existing_tattoos:
  - {id: old-star, box: [4 mm, 168 mm, 10 mm, 10 mm], darkness: light, wish: leave, laser: [2026-03-10]}
numbing:
  - {product: lidocaine cream, by: client, on: 2027-05-12}
sitting: 2
touch_up: no
last_worked: 2027-03-30
earlier: [{job: lamp-lines, on: 2027-03-30, left: All lines.}]
longest: 3 h
order: by part
line_ink: $black
parts:
  - id: lamp
    role: main
    focal: yes
    box: [35 mm, 20 mm, 60 mm, 90 mm]
    detail: medium
    gap: 1.8 mm
    narrowest: 9 mm
    lines:
      - {technique: $lining, needle: $liner, machine: $machine, stroke: $stroke, dial: $dial, hang_out: $hang_out, \
length: 900 mm}
    colours:
      - $black
      - {ink: $colour, area: 8–10 cm², narrowest: 8 mm, technique: $packing, needle: $magnum, machine: $packer, \
stroke: $packing_stroke, dial: $packing_dial, hang_out: $packing_hang_out}
    note: The glass stays skin.
  - id: moth
    role: secondary
    focal: no
    band: yes
    closed_by: left open
    ellipse: [20 mm, 112 mm, 90 mm, 36 mm]
    detail: medium
    machine: $machine
    stroke: $stroke
    lines: [{length: 600 mm}]
  - id: flame
    role: filler
    outline: [[50 mm, 4 mm], [70 mm, 18 mm], [40 mm, 18 mm]]
    detail: broad
    lines: [{length: 80 mm}]
not_private: [{text: 4 July 1889, because: The day on which the lamp in the drawing was lit}]
interruptions: 1
finished:
  on: 2027-05-12
  took: 190 min
  worked:
    - {technique: $lining, took: 55 min}
    - {technique: $packing, took: 40 min}
  steps: [{step: 2, passes: 1}]
  lots: [L-2291]
  cartridges: [{grouping: $liner, lot: C-0417, expires: 2029-04-30}]
  stopped: done
  dressing: film
  ended: Done as drawn.
  corrections: [{on: 2027-05-12, by: $artist, why: The label was read again., lot: C-0417, right: C-0471},
    {on: 2027-05-12, by: $artist, why: The clock was read wrongly., of: took, right: 200 min}]
healed:
  - on: 2027-05-12
    seen: Calm and closed; one light spot.
    photo: F-0148-3
    parts: [{part: lamp, came: light, step: 2, photo: F-0148-4}]
    reactions: [{ink: $colour, lot: L-2291, reported: 2027-05-12}]
""")


def smallest_job(records: Records) -> str:
    """A job with no more than a plan needs."""
    return _SMALLEST.substitute(_ids(records))


def job_with_everything(records: Records) -> str:
    """A job in which every field of the schema is once."""
    return _EVERYTHING.substitute(_ids(records))


_PACKING = ("packing", "magnum", "packer", "packing_stroke", "packing_dial", "packing_hang_out")


def _ids(records: Records) -> dict[str, str]:
    """Ids and settings of this studio that go together. Where a family is empty its name is written."""
    artists = [person for person in records.people.values() if person.role == "artist" and person.until is None]
    return {
        "artist": _id(artists, "people"),
        "supervisor": _id(artists[1:] or artists, "people"),
        "site": _id((s for s in records.sites.values() if s.limb), "sites"),
        "black": _id((i for i in records.inks.values() if i.kind == "black" and i.until is None), "inks"),
        "colour": _id((i for i in records.inks.values() if i.kind == "colour" and i.until is None), "inks"),
        "answers": "\n".join(f"    {q.id}: {q.clear}" for q in records.screening.values()) or "    screening: no",
        **_settings(records, "lines", ("lining", "liner", "machine", "stroke", "dial", "hang_out")),
        **_settings(records, "colour", _PACKING),
    }


def _settings(records: Records, work: str, names: tuple[str, ...]) -> dict[str, str]:
    """Technique, grouping, machine, stroke, dial and hang-out of the technique that is usual for this work."""
    values = ("techniques", "groupings", "machines", "3.5 mm", "100 Hz", "3 mm")
    technique = next((t for t in records.techniques.values() if work in t.usual_for), None)
    if technique is not None and technique.machines:
        grouping = records.groupings[technique.usual_grouping]
        # A setting in hertz is meant for a machine whose dial shows hertz.
        machines = [records.machines[m] for m in technique.machines]
        machine = next((m for m in machines if m.dial == "Hz"), machines[0])
        row = dial_row(technique, grouping)
        hang_out = max(limits.low for limits in (technique.hang_out, grouping.hang_out, machine.hang_out))
        dial = row.usual.text if row is not None and machine.dial == "Hz" else machine.limits.text
        stroke = next(iter(usual_strokes(technique, machine.strokes)), machine.strokes[0])
        values = (technique.id, grouping.id, machine.id, stroke.text, dial, f"{hang_out:g} mm")
    return dict(zip(names, values, strict=True))


def _id(entries: Iterable[Entry], otherwise: str) -> str:
    return next((str(entry.id) for entry in entries), otherwise)
