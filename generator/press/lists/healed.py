"""How finished work healed, on the page of what finished jobs teach: counts with what they are counted of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.planning.timing.healed import Healed, Tally, tallies
from generator.press.lists.here import Here
from generator.press.words.addresses import anchor
from generator.press.words.markup import Cells, heading, paragraph, table_of
from generator.records.quoting import name_of

_NAMED = {"techniques": "technique", "groupings": "grouping", "sites": "place"}


def healed_blocks(here: Here, jobs: Sequence[Healed]) -> Iterator[str]:
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
        "Held": _of(tally.held, tally),
        "Too light": _of(tally.light, tally),
        "Gap": _of(tally.gaps, tally),
        "Blowouts": _of(tally.blowouts, tally),
        "Touched up": f"{tally.touched_up} of {tally.worked}",
        "Share of those looked at": _share(tally, here.records.studio.limits.healed_from),
    }


def _of(number: int, tally: Tally) -> str:
    return f"{number} of {tally.looked_at}" if tally.looked_at else "not looked at"


def _share(tally: Tally, least: int) -> str:
    """Blowouts and touch-ups as shares, where enough was looked at."""
    if tally.looked_at < least:
        return f"nothing is said from fewer than {least}"
    blown = tally.blowouts / tally.looked_at * 100
    again = tally.touched_up / tally.worked * 100
    return f"{blown:.0f}\u00a0% blowouts, {again:.0f}\u00a0% of the parts worked touched up"
