"""What the client's answers to the screening questions mean.

`all clear` covers the questions that the studio asked on its day. What was added later is asked anew, or not, as the
studio decided; one sentence says so, and it is never clear. There is no “others: clear”, because leaving an answer out
must never clear it.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from generator.planning.findings.private import private_finding
from generator.planning.findings.verdict import About, Finding, level_of, worst_of
from generator.planning.timing.coming_back import days_after
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.rules import Question
from generator.records.studio import Studio

ASK = "Ask, and write the answer into the job."


def screening_findings(records: Records, job: Job) -> Iterator[Finding]:
    """One finding for each question that was not answered clear."""
    screening, studio, valid = job.screening, records.studio, records.studio.limits.screening_valid
    worst = worst_of(question.otherwise for question in records.screening.values())
    if screening is None:
        yield About("screening", job.origin_at("screening"), studio).ask(
            "The screening questions are not answered.", "Ask all of them and write the answers down.", worst
        )
        return
    if job.date - screening.asked > datetime.timedelta(days=valid.low):
        yield About(screening.asked, valid).ask(
            f"The screening was asked on {screening.asked}, too long before the sitting.",
            "Ask all questions again.",
            worst,
        )
    new = added_since(records, job)
    if new:
        yield _added(new, screening.asked, studio)
    if screening.answers is None:
        return
    answers = {str(question): answer for question, answer in screening.answers.items()}
    for question in (question for question in records.screening.values() if question not in new):
        about, answer = About(question, question, studio), answers.get(question.id)
        if answer is None:
            yield about.ask(f"The question “{question.id}” is not answered.", ASK, level_of(question.otherwise))
        elif isinstance(answer, datetime.date) and (wait := wait_of(question, studio)) is not None:
            if (until := days_after(answer, wait).closes) > job.date:
                yield private_finding(about, "wait", until)
        # A last day without a time to wait on file counts for ever.
        elif answer != (question.clear == "yes"):
            yield private_finding(about, level_of(question.otherwise))


def added_since(records: Records, job: Job) -> tuple[Question, ...]:
    """The questions that were added after the client was asked, and that nobody has answered since."""
    if job.screening is None:
        return ()
    answered, asked = {str(question) for question in job.screening.answers or ()}, job.screening.asked
    return tuple(q for q in records.screening.values() if q.added > asked and q.id not in answered)


def _added(new: tuple[Question, ...], asked: datetime.date, studio: Studio) -> Finding:
    """All of them in one sentence. What the studio does not ask anew is a care, because nobody knows the answer."""
    anew = [question for question in new if question.ask_anew]
    were, it = ("question was", "it") if len(new) == 1 else ("questions were", "them")
    remedy = "Write the answers into the job, or ask all and write the new day."
    if not anew:
        follows, remedy = f", and the studio does not ask {it} anew.", f"The answer is not known; ask {it} if in doubt."
    elif len(anew) == len(new):
        follows = f": ask {it} anew."
    else:
        follows = f": ask {len(anew)} of them anew, as the studio decided."
    return About(asked, new[0].origin_at("added"), studio).at(
        worst_of((question.otherwise for question in anew), "care"),
        f"{len(new)} {were} added to the screening after {asked}{follows}",
        remedy,
        asks=bool(anew),
    )


def is_open_question(finding: Finding) -> bool:
    """Whether it stands for one question of the screening that nobody answered."""
    return finding.asks and finding.remedy == ASK


def wait_of(question: Question, studio: Studio) -> Quantity | None:
    """How long to wait after a last day: the question's own time, or the studio's limit that it names."""
    limits = {"same_skin_again": studio.limits.same_skin_again, "after_laser": studio.limits.after_laser}
    return question.wait if question.wait_limit is None else limits[question.wait_limit]
