"""Time: lines, areas, breaks, sittings, and what finished jobs teach about the estimates."""

from collections.abc import Sequence
from statistics import median

from generator.trade._bounds import above_zero, from_zero, positive
from generator.trade._counts import whole_up
from generator.trade.refusal import Refusal

# Below this many finished jobs a factor is chance; beyond this factor the pace itself is wrong.
_LEAST_JOBS = 3
LARGEST_FACTOR = 2.0


class NothingLearned(Refusal):
    """The finished jobs do not yield a factor."""


class RateInDoubt(Refusal):
    """The factor is so large that the pace is wrong, not the estimate."""


def line_minutes(length: float, pace: float) -> float:
    r"""How long does lining take by the clock?

    Formula:
        t = \frac{l}{r}
    Where:
        length: l, mm, length of all the lines of one weight
        pace: r, mm/min, lined length a minute with dips, wipes and stretching included
        return: t, min, time by the clock
    Valid:
        length from 0; pace above 0
    Source:
        arithmetic
    Does not know:
        how the client sits; the hand's speed along a line is no pace and would give a fraction of this
    """
    from_zero("length", length, "0 mm or more", "measure the lines on the drawing")
    above_zero("pace", pace, "a rate above 0", "time one finished job from first to last line")
    return length / pace


def area_minutes(area: float, pace: float, passes: float) -> float:
    r"""How long does shading or packing an area take by the clock?

    Formula:
        t = \frac{A n}{r}
    Where:
        area: A, mm², skin to be covered
        pace: r, mm²/min, skin covered once a minute with dips and wipes included
        passes: n, -, how many times the needle goes over the same skin
        return: t, min, time by the clock
    Valid:
        area from 0; pace above 0; passes from 1
    Source:
        arithmetic
    Does not know:
        skin that takes ink badly; going over more often than planned is a sign to stop, not to plan longer
    """
    from_zero("area", area, "0 mm² or more", "take the area from the part's shape")
    above_zero("pace", pace, "a rate above 0", "time one finished area by the clock")
    if not (positive(passes) and passes >= 1):
        raise Refusal("passes", f"{passes:g}", "1 or more", "write how often it is gone over")
    return area * passes / pace


def breaks_needed(working_minutes: float, between: float) -> int:
    r"""How many breaks does a stretch of work need?

    Formula:
        n = \max\left(0, \left\lceil \frac{t}{b} \right\rceil - 1\right)
    Where:
        working_minutes: t, min, time at work without the breaks
        between: b, min, longest stretch from one break to the next
        return: n, -, number of breaks, none after the last stretch
    Valid:
        working time from 0; time between breaks above 0
    Source:
        arithmetic
    Does not know:
        the client: a break is taken when they or the artist's hand ask for one
    """
    from_zero("working_minutes", working_minutes, "0 min or more", "check the parts' times")
    above_zero("between", between, "more than 0 min", "write how long you work between breaks")
    return max(0, whole_up(working_minutes / between) - 1)


def sittings(total_minutes: float, longest_sitting: float) -> int:
    r"""In how many sittings is the piece done?

    Formula:
        n = \max\left(1, \left\lceil \frac{t}{s} \right\rceil\right)
    Where:
        total_minutes: t, min, all the time in the chair with breaks
        longest_sitting: s, min, longest sitting the studio and this client agree on
        return: n, -, number of sittings, one at least
    Valid:
        total from 0; longest sitting above 0
    Source:
        arithmetic
    Does not know:
        where the piece can be parted: a zone is finished before the sitting ends, so one more may be needed
    """
    from_zero("total_minutes", total_minutes, "0 min or more", "check the parts' times")
    above_zero("longest_sitting", longest_sitting, "more than 0 min", "write the longest sitting in the records")
    return max(1, whole_up(total_minutes / longest_sitting))


def learned_factor(jobs: Sequence[tuple[float, float]]) -> float:
    r"""By how much do finished jobs say that estimates are off?

    Formula:
        f = \text{median}_i \, \frac{t_{\text{actual}, i}}{t_{\text{estimated}, i}}
        \frac{1}{2} \le f \le 2
    Where:
        jobs: t_i, min, estimated and actual time of every finished job
        return: f, -, what to multiply estimates by
    Valid:
        three jobs or more, all times above 0; a factor from a half to two
    Source:
        common practice, no published source; the median lets one odd job pass
    Does not know:
        why a job ran over; beyond a factor of two the pace on record is wrong and is timed again
    """
    if len(jobs) < _LEAST_JOBS:
        raise NothingLearned(
            "jobs", f"{len(jobs)} finished", f"{_LEAST_JOBS} or more", "write the times of more finished jobs"
        )
    for estimated, actual in jobs:
        if not (positive(estimated) and positive(actual)):
            raise NothingLearned(
                "jobs",
                f"{estimated:g} estimated, {actual:g} actual",
                "times above 0",
                "correct this job's times",
            )
    factor: float = median(actual / estimated for estimated, actual in jobs)
    if factor > LARGEST_FACTOR or factor < 1 / LARGEST_FACTOR:
        raise RateInDoubt(
            "jobs",
            f"a factor of {factor:.2f}",
            f"a factor from {1 / LARGEST_FACTOR:g} to {LARGEST_FACTOR:g}",
            "the pace in the technique's record is wrong: time it again, do not correct by a factor",
        )
    return factor
