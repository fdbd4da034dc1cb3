"""Ten attempts to read a health answer or a name out of the published site; each has to come back with nothing.

A sheet may say that a job waits and until when: it lies in the hands of whoever works. Nothing else may.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Iterator
from pathlib import Path

from generator.planning.findings.private import SAID
from generator.planning.findings.states import State
from generator.records.located import Listing, Mapping, Node, Text, read_located
from generator.records.skin import AFTER
from tests.planning.demo import CONTENT, JOBS, RECORDS, demo

LISTED = {state.listed for state in State}
DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
TELLING = re.compile(
    r"\b(?:wait|doctor|ask first|not asked|not here|pregnan\w*|isotretinoin|midwife|heart)\b", re.IGNORECASE
)


def words(page: str) -> str:
    """A page without its code."""
    return html.unescape(re.sub(r"<style.*?</style>|<script.*?</script>|<[^>]*>", " ", page, flags=re.DOTALL))


def days_of_answers(node: Node | None, inside: bool = False) -> Iterator[str]:
    """Days in a job's record that belong to an answer, to a numbing product or to a scar."""
    if isinstance(node, Mapping):
        for key, value in node.items():
            yield from days_of_answers(value, inside or key in ("answers", "numbing", "laser", "wound"))
    elif isinstance(node, Listing):
        for item in node:
            yield from days_of_answers(item, inside)
    elif isinstance(node, Text) and inside and DAY.fullmatch(node):
        yield str(node)


def of_jobs(site: Path, folder: str) -> dict[str, str]:
    return {path.stem: path.read_text("utf-8") for path in sorted((site / folder).glob("*.html"))}


def test_ten_attempts_to_read_an_answer_or_a_name(site: Path) -> None:
    pages, sheets, clients = (of_jobs(site, folder) for folder in ("jobs", "sheets", "for-the-client"))
    explained = {name: text for name, text in sheets.items() if "--" in name}
    rows = re.findall(r'<tr id="jobs-([\w-]+)">(.*?)</tr>', (site / "jobs.html").read_text("utf-8"), re.DOTALL)
    found = json.loads((site / "search" / "search_index.json").read_text("utf-8"))["docs"]
    entries = {doc["location"]: doc["text"] for doc in found if doc["location"].startswith("jobs/")}
    dated = {job: read_located((CONTENT / "jobs" / f"{job}.yml").read_text("utf-8"), "").node for job in JOBS}
    told: dict[str, list[object]] = {f"attempt {number}": [] for number in range(1, 11)}
    # 1: the index: a word that is none of the few, or a day that is not that of the sitting or of its week.
    for job, row in rows:
        state = [words(cell).strip() for cell in re.findall(r"<td[^>]*>(.*?)</td>", row, re.DOTALL)]
        if not LISTED & set(state) or TELLING.search(words(row)):
            told["attempt 1"].append(job)
    # 2: what the search gives back for a job, and for a client's reference.
    told["attempt 2"] += [at for at, text in entries.items() if TELLING.search(text) or len(set(DAY.findall(text))) > 1]
    # 3: the job's own page: a reason, or the day until which it waits.
    for name, page in pages.items():
        plan = demo(name) if name in JOBS else None
        until = plan.verdict.until if plan is not None and plan.job.finished is None else None
        reasons = [said.reason for said in SAID.values() if said.reason in words(page)]
        if reasons or (until is not None and until.isoformat() in words(page)):
            told["attempt 3"].append((name, reasons))
    # 4: the front page, the days and every list: a state beside a reference, or beside a title that leads to one.
    references = {str(demo(job).job.client) for job in JOBS}
    days = [f"days/{name}.html" for name in of_jobs(site, "days")]
    for name in ("index.html", "jobs.html", "lots.html", "stamp.html", "reference/restock.html", *days):
        for line in re.findall(r"<(?:li|tr)\b.*?</(?:li|tr)>", (site / name).read_text("utf-8"), re.DOTALL):
            if ("jobs/" in line or "sheets/" in line or references & set(words(line).split())) and TELLING.search(
                words(line)
            ):
                told["attempt 4"].append((name, words(line)))
    # 5: scripts that pages are given: stamps, and nothing that differs by an answer.
    for path in sorted(site.rglob("stamps*.js")):
        keys = set(re.findall(r'"(\w+)":', re.sub(r'"[^"]*":\s*\{', "{", path.read_text("utf-8"))))
        told["attempt 5"] += sorted(keys - {"stamp", "finished", "paper", "kept", "not_worked"})
    # 6: recall sheets and the lots: more of a client than the reference.
    told["attempt 6"] += [name for name, text in of_jobs(site, "lots").items() if TELLING.search(words(text))]
    # 7: questions, answers and rules by their names or words, on any page of a job, in its code too.
    for name, page in {**pages, **sheets, **clients}.items():
        asked = [q.id for q in RECORDS.screening.values() if f"screening.{q.id}" in page or q.clears in words(page)]
        rules = [
            rule for rule in ("scar-after-burn", "scar-after-skin-cancer", "scar-after-radiotherapy") if rule in page
        ]
        told["attempt 7"] += [(name, one) for one in (*asked, *rules)]
    # 8: the cause of a scar, where only its look may be.
    causes = re.compile(rf"\b(?:after|from) (?:an? )?(?:{'|'.join(AFTER)})\b")
    told["attempt 8"] += [name for name, page in {**pages, **sheets, **explained}.items() if causes.search(words(page))]
    # 9: the day of an answer, of a wound or of a numbing product.
    for job, node in dated.items():
        own = {str(demo(job).job.date), *(d for d in DAY.findall(str(demo(job).job.finished or "")))}
        for name, page in (("jobs", pages.get(job, "")), ("explained", explained.get(f"{job}--explained", ""))):
            told["attempt 9"] += [
                (job, name, day) for day in days_of_answers(node) if day not in own and day in words(page)
            ]
    # 10: a name, an address or a number to call: there is none on file to be printed, and none in a reference.
    told["attempt 10"] += [one for one in references if not re.fullmatch(r"[A-Z]{1,3}-\d{2,6}|none yet", one)]
    told["attempt 10"] += [
        name for name, page in {**pages, **sheets, **clients}.items() if re.search(r"\w@\w+\.\w", words(page))
    ]
    assert {attempt: leaks for attempt, leaks in told.items() if leaks} == {}
    # What could have been read is there: jobs that wait, that need a doctor, and that were never asked.
    assert len({demo(job).state for job in JOBS}) > 4 and len(rows) >= len(JOBS) and days and len(entries) == len(JOBS)
