"""What finished jobs have taught: each factor of the estimates with the jobs that it rests on, and how they healed.

How they healed is said in counts, each with what it is counted of.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from generator.planning.timing.healed import Healed, Tally, tallies
from generator.planning.timing.learning import Learned, LearningRow, Lesson, learning_rows
from generator.planning.timing.rounding import middle_rounded
from generator.press.drawings.learning import figure
from generator.press.explained.worked import value_in_words
from generator.press.lists.here import Here
from generator.press.words.addresses import anchor
from generator.press.words.markup import Cells, heading, page, paragraph, table_of
from generator.records.families import Records
from generator.records.quoting import name_of
from generator.trade import clock

LEARNING = "reference/learning.md"
_NAMED = {"techniques": "technique", "groupings": "grouping", "sites": "place"}


def learning_page(here: Here, learned: Learned, healed: Sequence[Healed] = ()) -> str:
    """Factors by artist and technique, what they rest on, and how the work healed."""
    records, lessons = here.records, list(learned.values())
    factors = [(_at(lesson), _factor(lesson, here)) for lesson in lessons]
    how = ((_at(lesson), _of(lesson, records), lesson.factor) for lesson in lessons if lesson.factor is not None)
    blocks: list[str] = [
        paragraph(
            Markup(
                "A factor is the median of actual time over the middle of the estimate, by the formula “{}”: in the "
                "latest finished jobs of one artist with one technique, {} at most, calculated with the pace as it is "
                "on record today. A sitting of a longer piece is measured by its own share of the estimate; one that "
                "ended early teaches nothing, because nobody knows which share of its work was done. The estimate "
                "times the factor is the time that is booked: breaks, sittings, tray and the end of the day rest on "
                "it, and sheets show the plain estimate beside it. A finished job keeps its plain estimate, because "
                "it may have helped to make the factor. Settings do not depend on either. Estimates are shown "
                "rounded, and each job’s ratio is calculated with the exact middle; the factor is the median of "
                "these ratios."
            ).format(here.to_formula(clock.learned_factor), records.studio.limits.learned_from)
        ),
        table_of("Factors in use", factors, "No finished job has times by technique yet."),
        here.how_computed("factors", how),
    ]
    for lesson in lessons:
        title = _of(lesson, records)
        rows = (
            (anchor("times", lesson.artist, lesson.technique, row.timed.job), _times(lesson, row, here))
            for row in learning_rows(lesson)
        )
        blocks += [
            heading(title, anchor("times", _at(lesson))),
            figure(lesson, title, in_use(lesson)),
            table_of(f"Times: {title}", rows),
        ]
    return page("Learning from finished jobs", *blocks, *_how_it_healed(here, healed))


def _at(lesson: Lesson) -> str:
    return anchor("learned", lesson.artist, lesson.technique)


def _of(lesson: Lesson, records: Records) -> str:
    return f"{records.people[lesson.artist].name}, {records.techniques[lesson.technique].name.lower()}"


def in_use(lesson: Lesson) -> str:
    """The factor, or why there is none."""
    if lesson.factor is not None:
        return f"{lesson.factor.low:.2f}"
    return f"none, the pace is in doubt: {lesson.why_not}" if lesson.rate_in_doubt else f"none: {lesson.why_not}"


def _factor(lesson: Lesson, here: Here) -> Cells:
    technique = here.records.techniques[lesson.technique]
    return {
        "Artist": here.records.people[lesson.artist].name,
        "Technique": here.to_record("techniques", technique.id, technique.name),
        "Finished jobs": str(len(lesson.jobs)),
        "Factor in use": in_use(lesson),
    }


def _times(lesson: Lesson, row: LearningRow, here: Here) -> Cells:
    timed, middle = row.timed, middle_rounded(row.estimate.low)
    return {
        "Job": here.to(f"sheets/{timed.job}.html", timed.job),
        "Finished on": timed.on.isoformat(),
        "Estimate": here.calculated(*timed.printed, "duration"),
        "Middle of it": here.calculated(middle, middle, "duration"),
        "Actual": value_in_words(row.actual, here.records),
        "Actual over middle": f"{row.ratio.low:.2f}",
        "Factor in use": in_use(lesson),
    }


def _how_it_healed(here: Here, jobs: Sequence[Healed]) -> Iterator[str]:
    """The chapter: what is counted, then a table by technique, by grouping and by place."""
    finished = [job for job in jobs if not job.touches_up]
    looked_at = sum(job.looked_at for job in finished)
    least = here.records.studio.limits.healed_from
    yield heading("How it healed", "healed")
    yield paragraph(
        f"Of {len(finished)} finished jobs, {looked_at} were looked at healed. Counted are parts of a piece, those of "
        "a touch-up with the piece that it goes over. A blowout is a line that spread. What nobody looked at is not "
        "counted as held, and a part that came out in two ways is counted in both. Where a part was worked with "
        "several techniques or groupings and nobody wrote which step it was, it counts by place alone. "
        f"A share is said from {least} parts on that were looked at; fewer say nothing."
    )
    for family, counts in tallies(here.records, jobs).items():
        yield table_of(
            f"Healed, by {_NAMED[family]}",
            ((anchor("healed", family, entry), _healed(family, entry, tally, here)) for entry, tally in counts.items()),
            "No finished job yet.",
        )


def _healed(family: str, entry: str, tally: Tally, here: Here) -> Cells:
    known = here.records.family(family).get(entry)
    return {
        _NAMED[family].capitalize(): entry if known is None else here.to_record(family, entry, name_of(known)),
        "Parts worked": str(tally.worked),
        "Looked at healed": f"{tally.looked_at} of {tally.worked}",
        "Held": _counted(tally.held, tally),
        "Too light": _counted(tally.light, tally),
        "Gap": _counted(tally.gaps, tally),
        "Blowouts": _counted(tally.blowouts, tally),
        "Touched up": f"{tally.touched_up} of {tally.worked}",
        "Share of those looked at": _share(tally, here.records.studio.limits.healed_from),
    }


def _counted(number: int, tally: Tally) -> str:
    return f"{number} of {tally.looked_at}" if tally.looked_at else "not looked at"


def _share(tally: Tally, least: int) -> str:
    """Blowouts and touch-ups as shares, where enough was looked at."""
    if tally.looked_at < least:
        return f"nothing is said from fewer than {least}"
    blown = tally.blowouts / tally.looked_at * 100
    again = tally.touched_up / tally.worked * 100
    return f"{blown:.0f}\u00a0% blowouts, {again:.0f}\u00a0% of the parts worked touched up"
