"""What the client's answers mean: screening questions and allergies.

`all clear` covers the questions that the studio asked on its day. What was added later is asked anew, or not, as the
studio decided; one sentence says so, and it is never clear. There is no
“others: clear”, because leaving an answer out must never clear it. An allergy that no record knows waits, and so does
a near miss, although its remedy says “did you mean”: only whoever asked the client knows.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from dateutil.relativedelta import relativedelta

from generator.near_miss import nearest
from generator.origins import origin_of
from generator.planning.findings.inks_meant import inks_meant
from generator.planning.findings.private import private_finding
from generator.planning.findings.verdict import RANK, Finding, Level
from generator.quantities import Quantity
from generator.records.allergies import Allergy
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
            job.origin_at("screening").resting_on(records.studio.source),
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
            origin_of(records.studio.limits.screening_valid),
            asks=True,
        )
    new = added_since(records, job)
    if new:
        yield _added(new, screening.asked, records.studio)
    for question in records.screening.values():
        if screening.answers is None or question in new:
            continue
        answer = next((a for asked, a in screening.answers.items() if asked == question.id), None)
        if answer is None:
            yield _unanswered(question, "is not answered", records.studio)
        elif isinstance(answer, datetime.date):
            yield from _since(question, answer, job.date, records.studio)
        elif answer != (question.clear == "yes"):
            yield _otherwise(question, records.studio)


def added_since(records: Records, job: Job) -> tuple[Question, ...]:
    """The questions that were added after the client was asked, and that nobody has answered since."""
    if job.screening is None:
        return ()
    answered, asked = {str(question) for question in job.screening.answers or ()}, job.screening.asked
    return tuple(q for q in records.screening.values() if q.added > asked and q.id not in answered)


def _added(new: tuple[Question, ...], asked: datetime.date, studio: Studio) -> Finding:
    """All of them in one sentence. What the studio does not ask anew is a care, because nobody knows the answer."""
    anew = [question for question in new if question.ask_anew]
    one = len(new) == 1
    said = f"{len(new)} {'question was' if one else 'questions were'} added to the screening after {asked}"
    it = "it" if one else "them"
    if not anew:
        said, remedy = (
            f"{said}, and the studio does not ask {it} anew.",
            f"The answer is not known; ask {it} if in doubt.",
        )
    elif len(anew) == len(new):
        said, remedy = f"{said}: ask {it} anew.", "Write the answers into the job, or ask all and write the new day."
    else:
        said = f"{said}: ask {len(anew)} of them anew, as the studio decided."
        remedy = "Write the answers into the job, or ask all and write the new day."
    level: Level = max((_level(question) for question in anew), key=lambda level: RANK[level], default="care")
    by = new[0].origin_at("added").resting_on(studio.source)
    return Finding(level, said, remedy, "screening.asked", by, asks=bool(anew))


def allergy_findings(records: Records, job: Job) -> Iterator[Finding]:
    """Whether allergies are on file, and whether something on the tray is among them."""
    if job.allergies is None:
        yield Finding(
            "wait",
            "Allergies are not on file.",
            "Ask, and write “none” or what it is.",
            "allergies",
            job.origin_at("allergies").resting_on(records.studio.source),
            asks=True,
        )
        return
    yield from _told_long_ago(records, job)
    for supply in records.supplies.values():
        if supply.contains is None and job.allergies:
            yield Finding(
                "wait",
                f"Nobody has read what {supply.name} contains.",
                "Read the label, and write it into the record.",
                supply.origin.path,
                supply.origin_at("contains"),
                asks=True,
                looked_up=True,
            )
    for allergy in {allergy.to: allergy for allergy in job.allergies}.values():
        yield from _allergy(records, job, allergy)


def _told_long_ago(records: Records, job: Job) -> Iterator[Finding]:
    """Allergies that were taken over from an earlier job and not asked about since: there may be another by now."""
    valid = records.studio.limits.screening_valid
    told = min((allergy.told for allergy in job.allergies or () if allergy.told is not None), default=None)
    if told is not None and job.date - told > datetime.timedelta(days=valid.low):
        yield Finding(
            "wait",
            f"Allergies were asked about on {told}, too long before the sitting.",
            "Ask again, write down what there is now, and take `told` away or write the new day.",
            "allergies",
            origin_of(valid),
            asks=True,
        )


def _allergy(records: Records, job: Job, allergy: Allergy) -> Iterator[Finding]:
    """What contains it stays off the tray. With nothing on file to take instead, somebody makes sure of it first."""
    word, about, checked = allergy.to, f"allergies.{allergy.to}", allergy.checked
    if checked is not None and not checked.not_on_tray:
        yield Finding(
            "wait",
            f"Allergy to {word}: something on the tray contains it.",
            "Take it off the tray, find something instead, and check all labels again.",
            about,
            origin_of(word).resting_on(records.studio.source),
        )
    valid = datetime.timedelta(days=records.studio.limits.screening_valid.low)
    counts = checked is not None and datetime.timedelta(0) <= job.date - checked.on <= valid
    if checked is not None and not counts:
        yield Finding(
            "wait",
            f"Allergy to {word}: the tray was checked on {checked.on}, "
            f"{'after' if checked.on > job.date else 'too long before'} the sitting.",
            "Read the labels again, and write the day down.",
            about,
            origin_of(records.studio.limits.screening_valid),
            asks=True,
            looked_up=True,
        )
    seen = None
    if checked is not None and counts and checked.not_on_tray:
        seen = (
            f"{records.people[checked.by].name} read the labels of this tray on {checked.on}. Read what is added to it."
        )
    holders = [supply for supply in records.supplies.values() if word in (supply.contains or ())]
    for supply in holders:
        level: Level = "care" if supply.instead or seen else "wait"
        remedy = supply.instead or seen or "Nothing is on file to take instead: find something before the day."
        yield Finding(
            level,
            f"Allergy to {word}: {supply.name} must stay off the tray.",
            remedy,
            about,
            supply.origin,
        )
    for ink in inks_meant(records, job, word):
        yield Finding(
            "care" if seen else "wait",
            f"Allergy to {word}: {ink.name} may be meant, and it is planned.",
            seen or "Plan another ink, or find out which one it was and read what this one holds.",
            about,
            ink.origin,
            asks=seen is None,
            looked_up=True,
        )
    if not holders:
        known = sorted({word for supply in records.supplies.values() for word in supply.contains or ()})
        near = nearest(word, known)
        read = "Read the labels of all that touches the client before it goes on the tray."
        meant = f"Did you mean “{near}”? If not: {read[0].lower()}{read[1:]}" if near else read
        yield Finding(
            "care" if seen else "wait",
            f"Allergy to {word}: no record says what contains it.",
            f"{f'Did you mean “{near}”? If not: ' if near else ''}{seen}" if seen else meant,
            about,
            origin_of(allergy.to).resting_on(records.studio.source),
            asks=seen is None,
            looked_up=True,
        )


def _worst(records: Records) -> Level:
    levels: list[Level] = [q.otherwise for q in records.screening.values()]  # type: ignore[misc]
    return max(levels, key=lambda level: RANK[level], default="wait")


def _unanswered(question: Question, how: str, studio: Studio) -> Finding:
    return Finding(
        _level(question),
        f"The question “{question.id}” {how}.",
        ASK,
        question.origin.path,
        question.origin.resting_on(studio.source),
        asks=True,
    )


def is_open_question(finding: Finding) -> bool:
    """Whether it stands for one question of the screening that nobody answered."""
    return finding.asks and finding.remedy == ASK


def _since(question: Question, last: datetime.date, on: datetime.date, studio: Studio) -> Iterator[Finding]:
    """An answer that names a last day: it counts until the wait is over, and for ever where none is recorded."""
    wait = wait_of(question, studio)
    if wait is None:
        yield _otherwise(question, studio)
        return
    until = after(last, wait)
    if until > on:
        yield private_finding("wait", question.origin.path, question.origin, studio, until)


def wait_of(question: Question, studio: Studio) -> Quantity | None:
    """How long to wait after a last day: the question's own time, or the studio's limit that it names."""
    limits = {"same_skin_again": studio.limits.same_skin_again, "after_laser": studio.limits.after_laser}
    return question.wait if question.wait_limit is None else limits[question.wait_limit]


def _otherwise(question: Question, studio: Studio) -> Finding:
    return private_finding(_level(question), question.origin.path, question.origin, studio)


def _level(question: Question) -> Level:
    return question.otherwise  # type: ignore[return-value]


def after(day: datetime.date, wait: Quantity) -> datetime.date:
    """The day that is a recorded number of months or days later."""
    step = relativedelta(months=int(wait.high)) if wait.kind == "months" else relativedelta(days=int(wait.high))
    return day + step
