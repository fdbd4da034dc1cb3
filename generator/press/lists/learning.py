"""What finished jobs have taught about the estimates: each factor in use, and the jobs that it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from generator.planning.timing.healed import Healed
from generator.planning.timing.learning import Learned, Lesson, learning_rows
from generator.planning.timing.rounding import rounded_out
from generator.press.drawings.learning import figure
from generator.press.explained.worked import as_worked, how_computed, to_formula, value_in_words
from generator.press.lists.healed import healed_blocks
from generator.press.words.addresses import address, anchor, to_record
from generator.press.words.formatted import calculated
from generator.press.words.markup import Row, heading, link, page, paragraph, table
from generator.records.families import Records
from generator.trade import clock

LEARNING = "reference/learning.md"


def learning_page(records: Records, learned: Learned, healed: Sequence[Healed] = (), here: str = LEARNING) -> str:
    """Factors by artist and technique, what they rest on, and how the work healed."""
    lessons = list(learned.values())
    blocks: list[str] = [
        paragraph(
            Markup(
                "A factor is the median of actual time over the middle of the estimate, by the formula “{}”: in "
                "the latest "
                "finished jobs of one artist with one technique, {} at most, calculated with the pace as it is on "
                "record today. A sitting of a longer piece is measured by its own share of the estimate; one "
                "that ended "
                "early teaches nothing, because nobody knows which share of its work was done. The "
                "estimate times the factor is the time that is booked: breaks, sittings, tray and the end of the day "
                "rest on it, and sheets show the plain estimate beside it. A finished job keeps its plain estimate, "
                "because it may have helped to make the factor. Settings do not depend on either. "
                "Estimates are shown rounded; middle and factor are calculated with the exact ones."
            ).format(to_formula(here, clock.learned_factor), records.studio.limits.learned_from)
        ),
        table(
            "Factors in use",
            ("Artist", "Technique", "Finished jobs", "Factor in use"),
            (_factor(lesson, records, here) for lesson in lessons),
            "No finished job has times by technique yet.",
        ),
        how_computed(
            "factors",
            (
                (_at(lesson), _of(lesson, records), as_worked(lesson.factor, records))
                for lesson in lessons
                if lesson.factor is not None
            ),
            records,
            here,
        ),
    ]
    columns = ("Job", "Finished on", "Estimate", "Middle of it", "Actual", "Actual over middle", "Factor in use")
    for lesson in lessons:
        title = _of(lesson, records)
        rows = _times(lesson, records, here)
        blocks += [
            heading(title, anchor("times", _at(lesson))),
            figure(lesson, title, in_use(lesson)),
            table(f"Times: {title}", columns, rows),
        ]
    return page("Learning from finished jobs", *blocks, *healed_blocks(records, healed, here))


def _at(lesson: Lesson) -> str:
    return anchor("learned", lesson.artist, lesson.technique)


def _of(lesson: Lesson, records: Records) -> str:
    return f"{records.people[lesson.artist].name}, {records.techniques[lesson.technique].name.lower()}"


def in_use(lesson: Lesson) -> str:
    """The factor, or why there is none."""
    if lesson.factor is not None:
        return f"{lesson.factor.low:.2f}"
    return f"none, the pace is in doubt: {lesson.why_not}" if lesson.rate_in_doubt else f"none: {lesson.why_not}"


def _factor(lesson: Lesson, records: Records, here: str) -> Row:
    return Row(
        _at(lesson),
        (
            records.people[lesson.artist].name,
            to_record(here, "techniques", lesson.technique, records.techniques[lesson.technique].name),
            str(len(lesson.jobs)),
            in_use(lesson),
        ),
    )


def _times(lesson: Lesson, records: Records, here: str) -> Iterator[Row]:
    for row in learning_rows(lesson):
        timed = row.timed
        yield Row(
            anchor("times", lesson.artist, lesson.technique, timed.job),
            (
                link(address(here, f"sheets/{timed.job}.html"), timed.job),
                timed.on.isoformat(),
                calculated(*rounded_out(*timed.planned, "duration"), "duration", records),
                value_in_words(row.estimate, records),
                value_in_words(row.actual, records),
                f"{row.ratio.low:.2f}",
                in_use(lesson),
            ),
        )
