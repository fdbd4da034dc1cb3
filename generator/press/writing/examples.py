"""Jobs to copy from, the smallest one and one that shows every field, and a load. Their ids are the studio's own.

What anybody may copy is written in `templates/` as it is copied; nothing is read from it.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from string import Template

from generator.planning.working.strokes import usual_strokes
from generator.planning.working.technique import dial_row
from generator.records.families import Records
from generator.records.record import Entry

TEMPLATES = Path(__file__).parent / "templates"


def filled_in(name: str, **values: str) -> str:
    """An example as its file has it, with these values for its `$names`."""
    return Template((TEMPLATES / name).read_text("utf-8")).substitute(values)


def smallest_job(records: Records) -> str:
    """A job with no more than a plan needs."""
    return filled_in("small-job.yml", **_ids(records))


def job_with_everything(records: Records) -> str:
    """A job in which every field of the schema is once."""
    return filled_in("job-with-every-field.yml", **_ids(records))


def load_example(records: Records) -> str:
    """A load, by the first cycle and person on file."""
    cycle, who = next(iter(records.cycles), "cycles"), next(iter(records.people), "people")
    return filled_in("load.yml", cycle=cycle, who=who)


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
        **_settings(records, "lines"),
        **_settings(records, "colour"),
    }


def _settings(records: Records, work: str) -> dict[str, str]:
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
    keys = ("technique", "needle", "machine", "stroke", "dial", "hang_out")
    return {f"{work}_{key}": value for key, value in zip(keys, values, strict=True)}


def _id(entries: Iterable[Entry], otherwise: str) -> str:
    return next((str(entry.id) for entry in entries), otherwise)
