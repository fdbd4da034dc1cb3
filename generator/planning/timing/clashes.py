"""Sittings of one day that want one person, chair or machine at once, or follow too soon upon one another.

Everything is held against the slow ends: what only might happen is said, so that somebody can look.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations, pairwise
from typing import Literal, NamedTuple

from generator.grouped import grouped
from generator.planning.timing.booked import Booked
from generator.planning.working.vibration import over_a_day
from generator.records.families import Records
from generator.trade import vibration

Kind = Literal["person", "turn-round", "chair", "machine", "vibration"]


class Cleaning(NamedTuple):
    """What lies between two clients at one station, in minutes. None: not on file.

    minutes: the turn-round of the studio, or contact time and airing where these take longer.
    """

    minutes: float
    turn_round: float | None
    contact: float | None
    airing: float | None


class Clash(NamedTuple):
    """What two or more sittings want at once.

    what: the person or the machine, by id; for chairs, and between two clients of one chair, nothing. For a turn-round
    `begins` is when the first sitting ends, and `ends` when the setting up for the second one begins. amount: of
    vibration, in m/s² over eight hours.
    """

    kind: Kind
    what: str
    jobs: tuple[str, ...]
    begins: datetime.datetime
    ends: datetime.datetime
    amount: float = 0.0


class DayBooked(NamedTuple):
    """All sittings of a day by their beginning, the chair of each where there is one for it, and what clashes."""

    sittings: tuple[Booked, ...]
    chairs: Mapping[str, int]
    clashes: tuple[Clash, ...]


class _Held(NamedTuple):
    """A person who is held by a sitting, as its artist or as who watches."""

    begins: datetime.datetime
    ends: datetime.datetime
    job: str
    works: bool


def cleaning_between(records: Records) -> Cleaning:
    """What the studio keeps to between two clients."""
    limits, wipe = records.studio.limits, records.studio.roles.surface_wipe
    turn_round = None if limits.turn_round is None else limits.turn_round.high
    airing = None if limits.airing is None else limits.airing.high
    contact = None if wipe is None else records.disinfectants[wipe].contact.high
    return Cleaning(max(turn_round or 0.0, (contact or 0.0) + (airing or 0.0)), turn_round, contact, airing)


def day_booked(records: Records, booked: Iterable[Booked]) -> DayBooked:
    """The sittings of one day, held against one another."""
    sittings = tuple(sorted(booked, key=lambda one: (one.begins, one.job)))
    chairs, of_chairs = _chairs(records, sittings)
    found = [
        *_of_people(records, sittings),
        *of_chairs,
        *_of_machines(records, sittings),
        *_of_hands(records, sittings),
    ]
    return DayBooked(sittings, chairs, tuple(dict.fromkeys(found)))


def _of_people(records: Records, sittings: Sequence[Booked]) -> Iterator[Clash]:
    """Whoever works or watches has eyes for one client."""
    held: dict[str, list[_Held]] = {}
    for one in sittings:
        held.setdefault(one.artist, []).append(_Held(one.begins, one.ends, one.job, True))
        if one.supervisor and one.supervisor != one.artist:
            held.setdefault(one.supervisor, []).append(_Held(one.seated, one.ends, one.job, False))
    for person, times in held.items():
        times.sort()
        for first, second in combinations(times, 2):
            if second.begins < first.ends:
                jobs = (first.job, second.job)
                yield Clash("person", person, jobs, second.begins, min(first.ends, second.ends))
        for first, second in pairwise(one for one in times if one.works):
            if first.ends <= second.begins < first.ends + _minutes(cleaning_between(records).minutes):
                yield Clash("turn-round", person, (first.job, second.job), first.ends, second.begins)


def _chairs(records: Records, sittings: Sequence[Booked]) -> tuple[dict[str, int], list[Clash]]:
    """A chair for each sitting, the first that is clean by then; else the one that is free for longest."""
    number, needed = records.studio.chairs, _minutes(cleaning_between(records).minutes)
    if number is None:
        return {}, []
    at: dict[str, int] = {}
    last: dict[int, Booked] = {}
    clashes: list[Clash] = []
    for one in sittings:
        free = [chair for chair in range(1, number + 1) if chair not in last or last[chair].ends <= one.begins]
        clean = [chair for chair in free if chair not in last or last[chair].ends + needed <= one.begins]
        if not free:
            others = [other for other in last.values() if other.ends > one.begins]
            until = min(one.ends, *(other.ends for other in others))
            clashes.append(Clash("chair", "", (*sorted(o.job for o in others), one.job), one.begins, until))
            continue
        chair = clean[0] if clean else min(free, key=lambda chair: (last[chair].ends, chair))
        if not clean and last[chair].artist != one.artist:  # of one artist it is said already
            clashes.append(Clash("turn-round", "", (last[chair].job, one.job), last[chair].ends, one.begins))
        at[one.job], last[chair] = chair, one
    return at, clashes


def _of_machines(records: Records, sittings: Sequence[Booked]) -> Iterator[Clash]:
    """More sittings than there are of a machine, each with the time that it takes to wipe it afterwards."""
    wiped = _minutes(cleaning_between(records).contact or 0.0)
    wanted = grouped((use.machine, (use, one.job)) for one in sittings for use in one.uses)
    for machine, uses in wanted.items():
        number = int(records.machines[machine].count)
        spans: dict[tuple[str, ...], tuple[datetime.datetime, datetime.datetime]] = {}
        for use, _ in uses:
            at_once = [(u, job) for u, job in uses if u.begins <= use.begins < u.ends + wiped]
            jobs = tuple(sorted({job for _, job in at_once}))
            if len(jobs) > number:
                begins, ends = use.begins, min(u.ends + wiped for u, _ in at_once)
                before = spans.get(jobs, (begins, ends))
                spans[jobs] = (min(before[0], begins), max(before[1], ends))
        yield from (Clash("machine", machine, jobs, *span) for jobs, span in spans.items())


def exposure(records: Records, sittings: Iterable[Booked]) -> float | None:
    """What the hand of one artist takes over these sittings, as m/s² over eight hours; None without a figure."""
    minutes = grouped(each for one in sittings for each in one.minutes)
    figures = [(records.machines[machine].vibration, sum(worked)) for machine, worked in minutes.items()]
    assessed = [(figure, worked) for figure, worked in figures if figure is not None]
    return over_a_day(assessed) if assessed and len(assessed) == len(figures) else None


def of_each_artist(sittings: Iterable[Booked]) -> dict[str, list[Booked]]:
    """The sittings of a day by artist, in the order in which the artists begin."""
    return grouped((one.artist, one) for one in sittings)


def _of_hands(records: Records, sittings: Sequence[Booked]) -> Iterator[Clash]:
    """Several sittings whose vibration comes together to the action value; that of one alone is found with its job."""
    for artist, own in of_each_artist(sittings).items():
        taken = exposure(records, own) if len(own) > 1 else None
        if taken is not None and taken >= vibration.ACTION_VALUE:
            yield Clash("vibration", artist, tuple(one.job for one in own), own[0].seated, own[-1].ends, taken)


def _minutes(number: float) -> datetime.timedelta:
    return datetime.timedelta(minutes=number)
