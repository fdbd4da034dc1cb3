"""The demo studio's records, and jobs made out of its jobs by changing what is written in them."""

from __future__ import annotations

import dataclasses
import json
import tempfile
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

import yaml

from generator.diagnostics import Report
from generator.planning.each_job import as_enquired
from generator.planning.plan import JobPlan, plan
from generator.planning.working.steps import Step, order_of_work
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.reading import job_files, read_job, read_records

CONTENT = Path(__file__).parents[2] / "content"
_READING = read_records(CONTENT)
assert _READING.records is not None, _READING.report
RECORDS: Records = _READING.records
JOBS = tuple(path.stem for path in job_files(CONTENT))
_FOLDER = Path(tempfile.mkdtemp(prefix="jobs-"))

Written = dict[str, Any]


class _Dumper(yaml.CSafeDumper):
    """Writes every text as text, and nothing as an anchor, which jobs may not have."""

    def ignore_aliases(self, data: object) -> bool:
        return True


_Dumper.add_multi_representer(str, lambda dumper, text: dumper.represent_str(str(text)))


def written(job_id: str) -> Written:
    """What stands in a demo job's file; every value is the text that was typed."""
    found: Written = yaml.load((CONTENT / "jobs" / f"{job_id}.yml").read_text("utf-8"), Loader=yaml.CBaseLoader)
    return found


def simple(**changes: Any) -> Written:
    """A small piece with nothing on file against it; a value of None takes a key away."""
    base: Written = {
        "id": "signal-lamp",
        "client": "R-0900",
        "title": "Signal lamp",
        "artist": "quill",
        "date": "2027-05-12",
        "start": "11:00",
        "place": "upper-back",
        "side": "middle",
        "size": "100 mm x 100 mm",
        "screening": {"asked": "2027-05-05", "answers": "all clear"},
        "allergies": "none",
        "scars": "none",
        "moles": "none",
        "existing_tattoos": "none",
        "numbing": "none",
        "parts": [part("lamp", focal="yes")],
    }
    changed = {**base, **changes}
    return {key: value for key, value in changed.items() if value is not None}


def part(name: str, box: tuple[int, int, int, int] = (20, 20, 40, 40), **changes: Any) -> Written:
    """One part with lines; a value of None takes a key away."""
    base: Written = {
        "id": name,
        "role": "main",
        "box": [f"{side} mm" for side in box],
        "detail": "medium",
        "gap": "3 mm",
        "narrowest": "20 mm",
        "lines": [{"needle": "1207RL", "length": "300 mm"}],
    }
    return {key: value for key, value in {**base, **changes}.items() if value is not None}


def scar(**changes: Any) -> Written:
    """A quiet old scar in the upper left corner of the piece; a value of None takes a key away."""
    base: Written = {
        "id": "s1",
        "from": ["2 mm", "5 mm"],
        "to": ["12 mm", "5 mm"],
        "width": "4 mm",
        "height": "0 mm",
        "wound": "2017-06",
        "type": "flat",
        "after": "injury",
        "colour": "pale",
        "feel": "soft",
        "itch": "no",
        "pain": "no",
        "growth": "no",
        "wish": "blend in",
    }
    return {key: value for key, value in {**base, **changes}.items() if value is not None}


def read(job: Written) -> tuple[Job | None, Report]:
    """The job as the program reads it from a file."""
    path = _FOLDER / f"{job['id']}.yml"
    path.write_text(yaml.dump(job, Dumper=_Dumper, allow_unicode=True, sort_keys=False), "utf-8")
    reading = read_job(path, _READING.known)
    return reading.job, reading.report


def job_of(job: Written) -> Job:
    """The job, which must be without a mistake."""
    made, report = read(job)
    assert made is not None and not report, report
    return made


def try_plan(job: Written, records: Records = RECORDS) -> tuple[JobPlan | None, Report]:
    """The plan, or what has to be mended first. Nobody may change it: a job that was planned is not planned again."""
    return _tried(json.dumps(job)) if records is RECORDS else _try_plan(job, records)


@lru_cache(maxsize=500)
def _tried(job: str) -> tuple[JobPlan | None, Report]:
    return _try_plan(json.loads(job), RECORDS)


def _try_plan(job: Written, records: Records) -> tuple[JobPlan | None, Report]:
    made, report = read(job)
    return (None, report) if made is None else plan(records, as_enquired(records, made, _READING.as_of)[0])


def planned(job: Written, records: Records = RECORDS) -> JobPlan:
    """The plan of a job that can be planned."""
    made, report = try_plan(job, records)
    assert made is not None and not report, report
    return made


@cache
def demo(job_id: str) -> JobPlan:
    """The plan of a demo job, which nobody may change."""
    return planned(written(job_id))


def steps_of(job: Written, records: Records = RECORDS) -> tuple[Step, ...]:
    """The order of work, also of a job that may not go ahead."""
    made = as_enquired(records, job_of(job), _READING.as_of)[0]
    laid, report = order_of_work(records, made, records)
    assert laid is not None and not report, report
    return laid.steps


def with_limits(**limits: Any) -> Records:
    """The demo records with other house limits."""
    studio = RECORDS.studio.model_copy(update={"limits": RECORDS.studio.limits.model_copy(update=limits)})
    return dataclasses.replace(RECORDS, studio=studio)


def with_entry(family: str, entry_id: str, **changes: Any) -> Records:
    """The demo records with one entry changed."""
    entries = dict(RECORDS.family(family))
    entries[entry_id] = entries[entry_id].model_copy(update=changes)
    return dataclasses.replace(RECORDS, **{family.replace("-", "_"): entries})


def changed(job: Written, *path: str | int, to: Any = None) -> Written:
    """A copy with one value replaced; with None it is taken away."""
    made: Written = _copied(job)
    inside: Any = made
    for key in path[:-1]:
        inside = inside[key]
    if to is None:
        del inside[path[-1]]
    else:
        inside[path[-1]] = to
    return made


def _copied(found: Any) -> Any:
    """A copy that may be changed; what is no list and no mapping never is."""
    if isinstance(found, dict):
        return {key: _copied(value) for key, value in found.items()}
    return [_copied(item) for item in found] if isinstance(found, list) else found


def explicit_answers(job: Written) -> Written:
    """The same job with `all clear` written out, question by question."""
    asked = job["screening"]["asked"]
    answers = {q.id: q.clear for q in RECORDS.screening.values() if q.added.isoformat() <= asked}
    return changed(job, "screening", "answers", to={str(key): value for key, value in answers.items()})
