"""How finished work healed, on the page of what finished jobs teach: counts with what they are counted of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from generator.planning.timing.healed import Healed, Tally, tallies
from generator.press.words.addresses import anchor, to_record
from generator.press.words.markup import Row, heading, paragraph, table
from generator.records.families import Records
from generator.records.quoting import name_of

_NAMED = {"techniques": "technique", "groupings": "grouping", "sites": "place"}
_COLUMNS = (
    "Parts worked",
    "Looked at healed",
    "Held",
    "Too light",
    "Gap",
    "Blowouts",
    "Touched up",
    "Share of those looked at",
)


def healed_blocks(records: Records, jobs: Sequence[Healed], here: str) -> Iterator[str]:
    """The chapter: what is counted, then a table by technique, by grouping and by place."""
    finished = [job for job in jobs if not job.touches_up]
    looked_at = sum(job.looked_at for job in finished)
    least = records.studio.limits.healed_from
    yield heading("How it healed", "healed")
    yield paragraph(
        f"Of {len(finished)} finished jobs, {looked_at} were looked at healed. Counted are parts of a piece, those of "
        "a touch-up with the piece that it goes over. A blowout is a line that spread. What nobody looked at is not "
        "counted as held, and a part that came out in two ways is counted in both. Where a part was worked with "
        "several techniques or groupings and nobody wrote which step it was, it counts by place alone. "
        f"A share is said from {least} parts on that were looked at; fewer say nothing."
    )
    for family, counts in tallies(records, jobs).items():
        yield table(
            f"Healed, by {_NAMED[family]}",
            (_NAMED[family].capitalize(), *_COLUMNS),
            _rows(records, family, counts, here),
            "No finished job yet.",
        )


def _rows(records: Records, family: str, counts: Mapping[str, Tally], here: str) -> Iterator[Row]:
    least = records.studio.limits.healed_from
    for entry, tally in counts.items():
        known = records.family(family).get(entry)
        yield Row(
            anchor("healed", family, entry),
            (
                entry if known is None else to_record(here, family, entry, name_of(known)),
                str(tally.worked),
                f"{tally.looked_at} of {tally.worked}",
                *(_of(number, tally) for number in (tally.held, tally.light, tally.gaps, tally.blowouts)),
                f"{tally.touched_up} of {tally.worked}",
                _share(tally, least),
            ),
        )


def _of(number: int, tally: Tally) -> str:
    return f"{number} of {tally.looked_at}" if tally.looked_at else "not looked at"


def _share(tally: Tally, least: int) -> str:
    """Blowouts and touch-ups as shares, where enough was looked at."""
    if tally.looked_at < least:
        return f"nothing is said from fewer than {least}"
    blown = tally.blowouts / tally.looked_at * 100
    again = tally.touched_up / tally.worked * 100
    return f"{blown:.0f}\u00a0% blowouts, {again:.0f}\u00a0% of the parts worked touched up"
