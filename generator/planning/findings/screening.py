"""What the client's answers mean: screening questions and allergies."""

from __future__ import annotations

import datetime
import difflib
from collections.abc import Iterator

from dateutil.relativedelta import relativedelta

from generator.planning.findings.private import private_finding
from generator.planning.findings.verdict import RANK, Finding, Level
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.rules import Question
from generator.records.studio import Studio

ASK = "Ask, and write the answer into the job."


def screening_findings(records: Records, job: Job) -> Iterator[Finding]:
    """One finding for each question that was not answered clear."""
    if job.screening is None:
        yield Finding(
            _worst(records),
            "The screening questions are not answered.",
            "Ask all of them and write the answers down.",
            "screening",
            "screening",
            records.studio.source,
            asks=True,
        )
        return
    screening = job.screening
    if job.date - screening.asked > datetime.timedelta(days=records.studio.limits.screening_valid.low):
        yield Finding(
            _worst(records),
            f"The screening was asked on {screening.asked}, too long before the sitting.",
            "Ask all questions again.",
            "screening.asked",
            "studio.limits.screening_valid",
            records.studio.source,
            asks=True,
        )
    for question in records.screening.values():
        if screening.answers is None:
            if question.added > screening.asked:
                yield _unanswered(question, "was not asked yet when all was found clear", records.studio)
            continue
        answer = next((a for asked, a in screening.answers.items() if asked == question.id), None)
        if answer is None:
            yield _unanswered(question, "is not answered", records.studio)
        elif isinstance(answer, datetime.date):
            yield from _since(question, answer, job.date, records.studio)
        elif answer != (question.clear == "yes"):
            yield _otherwise(question, records.studio)


def allergy_findings(records: Records, job: Job) -> Iterator[Finding]:
    """Whether allergies are on file, and whether something on the tray is among them."""
    if job.allergies is None:
        yield Finding(
            "wait",
            "Allergies are not on file.",
            "Ask, and write `none` or what it is.",
            "allergies",
            "allergies",
            records.studio.source,
            asks=True,
        )
        return
    for supply in records.supplies.values():
        if supply.contains is None and job.allergies:
            yield Finding(
                "wait",
                f"Nobody has read what {supply.name} contains.",
                "Read the label, and write it into the record.",
                f"supplies.{supply.id}",
                f"supplies.{supply.id}.contains",
                supply.source,
                asks=True,
            )
        for allergen in sorted(set(supply.contains or ()) & set(job.allergies)):
            level: Level = "care" if supply.instead else "wait"
            remedy = supply.instead or "Nothing is on file to take instead: find something before the day."
            yield Finding(
                level,
                f"Allergy to {allergen}: {supply.name} stays off the tray.",
                remedy,
                f"allergies.{allergen}",
                f"supplies.{supply.id}",
                supply.source,
            )
    known = {word for supply in records.supplies.values() for word in supply.contains or ()}
    for allergen in sorted(set(job.allergies) - known):
        near = difflib.get_close_matches(allergen, sorted(known), n=1)
        yield Finding(
            "wait",
            f"Allergy to {allergen}: no record says what contains it.",
            (f"Did you mean “{near[0]}”? If not: read" if near else "Read")
            + " the labels of all that touches the client before it goes on the tray.",
            f"allergies.{allergen}",
            "supplies",
            records.studio.source,
            asks=True,
        )


def _worst(records: Records) -> Level:
    levels: list[Level] = [q.otherwise for q in records.screening.values()]  # type: ignore[misc]
    return max(levels, key=lambda level: RANK[level], default="wait")


def _unanswered(question: Question, how: str, studio: Studio) -> Finding:
    return Finding(
        _level(question),
        f"The question “{question.id}” {how}.",
        ASK,
        f"screening.{question.id}",
        f"screening.{question.id}",
        studio.source,
        asks=True,
    )


def is_open_question(finding: Finding) -> bool:
    """Whether it stands for one question of the screening that nobody answered."""
    return finding.asks and finding.remedy == ASK


def _since(question: Question, last: datetime.date, on: datetime.date, studio: Studio) -> Iterator[Finding]:
    """An answer that names a last day: it counts until the wait is over, and for ever where none is recorded."""
    if question.wait is None:
        yield _otherwise(question, studio)
        return
    until = after(last, question.wait)
    if until > on:
        yield private_finding("wait", f"screening.{question.id}", f"screening.{question.id}", studio, until)


def _otherwise(question: Question, studio: Studio) -> Finding:
    return private_finding(_level(question), f"screening.{question.id}", f"screening.{question.id}", studio)


def _level(question: Question) -> Level:
    return question.otherwise  # type: ignore[return-value]


def after(day: datetime.date, wait: Quantity) -> datetime.date:
    """The day that is a recorded number of months or days later."""
    step = relativedelta(months=int(wait.high)) if wait.kind == "months" else relativedelta(days=int(wait.high))
    return day + step
