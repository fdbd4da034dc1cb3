"""Loads of the sterilizer against their cycles. A load is out or it is not found wanting; it is never called sterile.

All loads are those of one sterilizer, in the order of their days. A biological indicator that failed puts the
sterilizer out of service: everything since the last negative one is recalled, and everything after it is out until
one has passed again.

A reading above the band ends the holding time and puts the load out; a cycle without an upper limit on file means
ask.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from generator.planning.computed import Computed, Named, Value, compute, named, recorded
from generator.records.families import Records
from generator.records.sterilizer import Cycle, Load
from generator.trade import sterilization

Standing = Literal["out", "wait", "ask", "nothing against it"]
_WORST: tuple[Standing, ...] = ("nothing against it", "ask", "wait", "out")


@dataclass(frozen=True, slots=True)
class LoadReading:
    """One load with its longest hold, its F0, and everything found against it, worst first."""

    load: Load
    cycle: Cycle
    held: Computed
    lethality: Computed
    found: tuple[tuple[Standing, str], ...]

    @property
    def standing(self) -> Standing:
        return self.found[0][0] if self.found else "nothing against it"


def read_loads(records: Records) -> tuple[LoadReading, ...]:
    """Every load, by day; of one day in the order of the file."""
    loads = sorted(records.loads.values(), key=lambda load: load.date)
    spores = _by_spores(loads)
    return tuple(_read(records, load, spores[load.id]) for load in loads)


def _read(records: Records, load: Load, spores: list[tuple[Standing, str]]) -> LoadReading:
    cycle = records.cycles[load.cycle]
    samples = tuple(sterilization.Sample(lasted.low, reading.low) for lasted, reading in load.samples)
    said = "; ".join(f"{lasted.text} at {reading.text}" for lasted, reading in load.samples)
    logged = named(samples, load.origin_at("samples"), said)
    held = compute(
        held_minutes,
        "duration",
        samples=logged,
        temperature=recorded(cycle.temperature),
        minutes=recorded(cycle.holding_time),
        upper_limit=_upper(cycle, load),
    )
    reference, z = recorded(records.studio.limits.f0_reference), recorded(records.studio.limits.f0_z)
    lethality = compute(sterilization.f0, "duration", samples=logged, reference=reference, z=z)
    found = [*_findings(load, cycle, held), *spores]
    return LoadReading(load, cycle, held, lethality, tuple(sorted(found, key=lambda f: -_WORST.index(f[0]))))


def _upper(cycle: Cycle, load: Load) -> Value | Named:
    if cycle.upper is not None:
        return recorded(cycle.upper)
    # Nothing is cut off above where no band is on file; the load is asked about instead.
    beyond = max(cycle.temperature.low, *(reading.low for _, reading in load.samples)) + 1
    return named(beyond, cycle.origin_at("upper"), "none on file")


def held_minutes(
    samples: tuple[sterilization.Sample, ...], temperature: float, minutes: float, upper_limit: float
) -> float:
    """The longest time that the load stayed between the cycle's temperature and its upper limit."""
    return sterilization.hold_against_cycle(samples, temperature, minutes, upper_limit).minutes


def _findings(load: Load, cycle: Cycle, held: Computed) -> Iterator[tuple[Standing, str]]:
    if not load.chemical_passed:
        yield "out", "a chemical indicator has not changed"
    if held.low < cycle.holding_time.low:
        asked = f"{cycle.holding_time.text} at {cycle.temperature.text}"
        yield "out", f"held too short: the cycle asks for {asked} without a break"
    if cycle.upper is None:
        yield "ask", "no upper limit of the band is on file for this cycle: ask the maker"
    elif any(reading.low > cycle.upper.low for _, reading in load.samples):
        yield "out", f"a reading lies above the band of {cycle.upper.text}: ask the maker what it means"
    if load.biological == "waiting":
        yield "wait", "the biological indicator is not read yet"


def _by_spores(loads: list[Load]) -> dict[str, list[tuple[Standing, str]]]:
    """What biological indicators say about each load, those of other loads included."""
    found: dict[str, list[tuple[Standing, str]]] = {load.id: [] for load in loads}
    since_negative: list[Load] = []
    failed: Load | None = None
    for load in loads:
        if load.biological == "passed":
            since_negative, failed = [], None
            continue
        since_negative.append(load)
        if load.biological == "failed":
            failed = load
            to_do = "take the sterilizer out of service, and recall every load since the last negative one"
            found[load.id].append(("out", f"the biological indicator failed: {to_do}"))
            for earlier in since_negative[:-1]:
                found[earlier.id].append(("out", f"recalled: the biological indicator of load {load.id} failed"))
        elif failed is not None:
            before = f"run after load {failed.id} failed its biological indicator, and before one has passed again"
            found[load.id].append(("out", before))
    return found
