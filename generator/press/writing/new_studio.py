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
from generator.press.writing.examples import filled_in
from generator.press.writing.schema import SCHEMAS, schema_file, schema_files
from generator.records.families import LISTED, STUDIO, Family
from generator.records.located import read_located
from generator.records.regions import CUSTOMS

_Entry = dict[str, Typed]
_SUGGESTION = "suggestion"
_OWNER = "owner"
# Families that are a shelf or a list of this studio's own; `templates/` has one entry of each to copy.
SHELVES = ("machines", "calibrations", "inks", "people", "loads", "changes", "reviews")


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
        "mkdocs.yml": filled_in("mkdocs.yml"),
        ".gitignore": filled_in("gitignore"),
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
    listed = (entry for name in SHELVES for entry in _read(content / f"{name}.yml"))
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
    if family.name in SHELVES:
        day = start.day.isoformat()
        copied = filled_in(family.file, day=day).splitlines()
        commented = "".join(f"# {line}\n" for line in copied)
        there = filled_in("owner.yml", day=day) if family.name == "people" else "[]\n"
        return f"# One to copy; take the signs at the beginning of its lines away:\n{commented}{there}"
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
