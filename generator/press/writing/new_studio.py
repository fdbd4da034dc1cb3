"""A new studio's folder: what anybody may begin with, and nothing that another studio decided.

It is derived from the demo studio's own records by where their values come from. What is published or common
practice stays so; what the demo studio decided becomes a suggestion that nobody has decided; what stands on its
shelves, and who works there, is left out.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from generator.press.manual.authored import authored_pages
from generator.press.manual.procedures import FOLDER, procedure_page
from generator.press.writing.as_yaml import Typed, as_typed
from generator.press.writing.json_schema import FOLDER as SCHEMAS
from generator.press.writing.json_schema import schema_file, schema_files
from generator.records.families import LISTED, STUDIO, Family
from generator.records.located import read_located
from generator.records.regions import CUSTOMS

_Entry = dict[str, Typed]
_SUGGESTION = "suggestion"
_OWNER = "owner"
# Families that are a shelf or a list of this studio's own, each with one entry to copy.
_EXAMPLES = {
    "machines": """\
- id: first-machine
  name: First machine                  # what is written on it, or what you call it
  drive: rotary-direct
  strokes: [3.5 mm]                    # every stroke it can be set to
  dial: volts                          # or Hz, where its dial shows strokes a second
  limits: 4–10 V                       # lowest and highest setting, from its maker's sheet
  hang_out: 0–5 mm
  weight: 150 g                        # on your scale, with the cartridge
  care: Wipe it for the whole contact time, and look for ink at the vice.
  source: suggestion
""",
    "calibrations": """\
- id: first-machine-at-its-stroke      # a machine whose dial shows volts says nothing before it is measured
  machine: first-machine
  stroke: 3.5 mm
  cartridge: round
  supply: the power supply you work with
  measured: {day}
  points:                              # volts on the dial, and the strokes you counted
    - [5.0 V, 70 Hz]
    - [7.0 V, 100 Hz]
    - [9.0 V, 130 Hz]
  source: suggestion
""",
    "inks": """\
- id: first-black
  name: First black                    # the name on its label
  kind: black
  swatch: '#14120f'                    # scanned from a flat, dry sample of it
  pigments: [C.I. 77266]               # every pigment on the label, by its Colour Index number
  opened_life: 12 months               # from the label
  shelf: {{bottle: 30 mL, stock: 0 mL, reserve: 10 mL}}
  lots: []                             # such as [{{lot: A-1, expires: 2030-01-31, sealed: yes}}]
  source: suggestion
""",
    "people": """\
- id: second-person
  name: Second person                  # a first name or a word is enough
  role: artist                         # or apprentice, or assistant
  hand: right                          # the hand that works
  may: [lining]                        # the techniques they may work, from techniques.yml
  training: []                         # such as [{{what: First aid, on: {day}, counts_as: first-aid}}]
""",
    "loads": """\
- id: first-load                       # one entry for each load, where `reprocessing` in studio.yml says yes
  cycle: dynamic-instruments-132
  date: {day}
  samples: [[1 min, 120 °C], [4 min, 133 °C], [9 min, 133 °C]]
  chemical_passed: yes
  biological: waiting
  who: owner
""",
    "changes": """\
- id: gloves-shorter                   # any name of its own
  of: values.glove-wear.is             # the value, as a page quotes it
  on: {day}                       # the first day on which the new value holds
  from: 90 min
  to: 60 min
  by: owner
  why: Gloves tore in the second hour
""",
    "reviews": """\
- id: screening                        # a family of records, by the name of its file
  owner: owner
  reviewed: {day}                 # the day somebody read it through against practice and rules
  reviewed_by: owner
  interval: 12 months
""",
}


class Start(NamedTuple):
    """What a person says about the new studio; units and paper as the region has them where nothing else is said."""

    name: str
    region: str
    units: str
    paper: str
    day: datetime.date


def starting(name: str, region: str, units: str | None, paper: str | None, day: datetime.date) -> Start:
    """The choices of a new studio, filled up with what is usual in its region."""
    customs = CUSTOMS[region]
    return Start(name, region, units or customs.units, paper or customs.paper, day)


def new_studio(content: Path, handbook: Path, start: Start) -> dict[str, str]:
    """Every file of the new folder by its path, from the records and pages of the demo studio."""
    pages = {path.relative_to(handbook).as_posix(): text for path, text in authored_pages(handbook)}
    return {
        "mkdocs.yml": _SETTINGS,
        ".gitignore": _IGNORED,
        **{f"handbook/{path}": text for path, text in pages.items()},
        "content/jobs/.gitkeep": "",
        **schema_files(),
        f"content/{STUDIO.file}": _head(STUDIO) + studio_file(content, start),
        **{f"content/{each.file}": _head(each) + _listed(content / each.file, each, start, pages) for each in LISTED},
    }


def _head(family: Family) -> str:
    return f"# yaml-language-server: $schema=../{SCHEMAS}/{schema_file(family)}\n# {family.holds}\n"


def _read(path: Path) -> Typed:
    node: Typed | None = read_located(path.read_text("utf-8"), path.name).node
    assert node is not None, path
    return node


def studio_file(content: Path, start: Start) -> str:
    """The records of the studio itself: its own name, units and paper, and everything else as a suggestion."""
    own = _read(content / STUDIO.file)
    assert isinstance(own, dict)
    chosen: _Entry = {"name": start.name, "units": start.units, "paper": start.paper, "region": start.region}
    if start.units == "imperial":
        chosen["mix_volumes"] = _MIXED_IN_OUNCES
    made = {key: chosen.get(key, _common(value)) for key, value in own.items() if key not in _DROPPED["studio"]}
    if isinstance(rules := made["local_rules"], list):
        # What another studio's authorities confirmed is confirmed nowhere else.
        made["local_rules"] = [
            {**{key: value for key, value in rule.items() if key != "on"}, "confirmed": "no"}
            for rule in rules
            if isinstance(rule, dict)
        ]
    if isinstance(roles := own.get("roles"), dict):
        gone = _left_out(content)
        made["roles"] = {role: article for role, article in roles.items() if article not in gone}
    return as_typed({**made, "source": _SUGGESTION})


def _left_out(content: Path) -> set[str]:
    """The ids of all that stands on the demo studio's shelves and is not taken along."""
    listed = (entry for name in _EXAMPLES for entry in _read(content / f"{name}.yml"))
    return {str(entry["id"]) for entry in listed if isinstance(entry, dict)}


# What a measure in fluid ounces, and a gallon jug, show; and a sheet of Letter paper, by ASME Y14.1.
_MIXED_IN_OUNCES: Typed = ["8 fl oz", "16 fl oz", "32 fl oz", "1 gal"]
_LETTER_SHEET = "8.5 in x 11 in"

# What is the demo studio's own in records that stay: dates, shelves, prices, decisions, who has done what.
_DROPPED: dict[str, frozenset[str]] = {
    "studio": frozenset(("as_of", "chairs", "currency", "line_ink", "decided", "must_be_decided")),
    "groupings": frozenset(("shelf",)),
    "techniques": frozenset(("machines",)),
    "procedures": frozenset(("reviewed", "reviewed_by")),
}
_NEVER_TAKEN = frozenset(("decided", "until", "came", "approved"))


def _listed(path: Path, family: Family, start: Start, pages: Mapping[str, str]) -> str:
    example = _EXAMPLES.get(family.name, "").format(day=start.day.isoformat())
    commented = "".join(f"# {line}\n" for line in example.splitlines())
    if commented:
        commented = f"# One to copy; take the signs at the beginning of its lines away:\n{commented}"
    if family.name == "people":
        return f"{commented}{_FIRST_PERSON.format(day=start.day.isoformat())}"
    if family.name in _EXAMPLES:
        return f"{commented}[]\n"
    entries = _read(path)
    assert isinstance(entries, list)
    made = [_entry(entry, family, start, pages) for entry in entries if isinstance(entry, dict)]
    if family.name == "sources":
        made = [*(entry for entry in made if entry["kind"] != "house"), _SOURCE]
    return as_typed(made)


def _entry(entry: _Entry, family: Family, start: Start, pages: Mapping[str, str]) -> _Entry:
    dropped = _DROPPED.get(family.name, frozenset()) | _NEVER_TAKEN
    common = _common(entry)
    assert isinstance(common, dict)
    made = {key: value for key, value in common.items() if key not in dropped}
    if family.name == "screening":
        return {**made, "added": start.day.isoformat()}
    if family.name == "supplies":
        return _not_counted(made, start.paper)
    return _draft(made, start, pages[f"{FOLDER}/{made['id']}.md"]) if family.name == "procedures" else made


def _common(value: Typed) -> Typed:
    """The value with every decision of the demo studio as a suggestion."""
    if isinstance(value, dict):
        return {
            key: _SUGGESTION if key.endswith("source") and str(inner).startswith("house-") else _common(inner)
            for key, inner in value.items()
        }
    return [_common(inner) for inner in value] if isinstance(value, list) else value


def _not_counted(entry: _Entry, paper: str) -> _Entry:
    """Nothing is on the shelf yet, and nobody has read the label or knows what was paid."""
    nothing = {"pack": "1", "stock": "0", "reserve": "0", "contains": "unknown"}
    kept = {key: value for key, value in entry.items() if key not in ("instead", "first_expires", "price")}
    if "sheet" in kept and paper == "Letter":
        kept["sheet"] = _LETTER_SHEET
    return {**kept, **nothing}


def _draft(entry: _Entry, start: Start, written: str) -> _Entry:
    """A procedure that came with the program: one text, and nobody has reviewed it."""
    page = procedure_page(written, "", str(entry["id"]))
    came = "A draft that came with the program; nobody here has reviewed it."
    text = {"text": page.text, "date": start.day.isoformat(), "what": came, "wording_only": "no"}
    return {**entry, "owner": _OWNER, "revisions": [text]}


_SOURCE: _Entry = {
    "id": _SUGGESTION,
    "kind": "house",
    "title": "A suggestion that came with the program. Nobody of this studio has decided it yet.",
}
_FIRST_PERSON = """\
- id: owner                            # answers for every page until you write another id there; the id may stay
  name: The owner                      # write your name
  role: artist
  hand: right
  came: {day}                     # your first day here; what you decide, review or sign is dated from it on
  may: []                              # the techniques you may work, from techniques.yml
  training: []
"""
_SETTINGS = """\
# What this studio decides about its handbook. Theme, search and menu come with the program and are renewed with it;
# what is written here is laid over them: styles as `extra_css`, pages as `nav`, a logo as
# `theme: {name: material, logo: assets/ours.svg}`.
site_name: Studio handbook  # until you write another name, pages carry the studio's from content/studio.yml
docs_dir: handbook
strict: true  # a warning stops the build, and the last good site stands

plugins:
  - studio-handbook
"""
_IGNORED = """\
# Made by the program, or by Python; made anew at any time.
/site/
/.site.*
/.published.json
/.kept/
/.cache/
.venv/
__pycache__/
"""
