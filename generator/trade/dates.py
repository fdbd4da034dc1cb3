"""Days to wait for, to come back on, and to throw things away after. Today is always an argument."""

from datetime import date
from typing import NamedTuple

from dateutil.relativedelta import relativedelta

from generator.trade.refusal import Refusal


class Window(NamedTuple):
    """From which day to which day, both included."""

    opens: date
    closes: date


def _later(start: date, argument: str, amount: int, step: relativedelta) -> date:
    """The day so much later, or a refusal that names the argument."""
    expected, remedy = "a whole number from 0 that stays within the calendar", "check the studio's records"
    if amount < 0:
        raise Refusal(argument, f"{amount}", expected, remedy)
    try:
        return start + step
    except (ValueError, OverflowError) as beyond:
        raise Refusal(argument, f"{amount}", expected, remedy) from beyond


def add_months(start: date, months: int) -> date:
    r"""Which day is so many months later?

    Formula:
        \text{same day of the month, or the last day where the month is shorter}
    Where:
        start: d_0, date, the day to count from
        months: m, months, how many months later
        return: d, date, the day
    Valid:
        whole months from 0
    Source:
        arithmetic of the calendar
    Does not know:
        the studio's closing days
    """
    return _later(start, "months", months, relativedelta(months=months))


def add_weeks(start: date, weeks: int) -> date:
    r"""Which day is so many weeks later?

    Formula:
        d = d_0 + 7 n
    Where:
        start: d_0, date, the day to count from
        weeks: n, weeks, how many weeks later
        return: d, date, the day, on the same day of the week
    Valid:
        whole weeks from 0
    Source:
        arithmetic of the calendar
    Does not know:
        the studio's closing days
    """
    return _later(start, "weeks", weeks, relativedelta(weeks=weeks))


def touch_up_window(done: date, first_weeks: int, last_weeks: int) -> Window:
    r"""Between which days does the client come back for the touch-up?

    Formula:
        d_1 = d_0 + 7 n_1
        d_2 = d_0 + 7 n_2
    Where:
        done: d_0, date, day of the last sitting
        first_weeks: n_1, weeks, earliest by the studio's records; later on scars and heavy colour
        last_weeks: n_2, weeks, latest by the studio's records
        return: (d_1 ; d_2), date, first and last day
    Valid:
        whole weeks from 0, the latest not before the earliest
    Source:
        common practice, no published source: 6 to 8 weeks, 8 to 12 on scars or heavy colour
    Does not know:
        whether the skin has healed by then: it is looked at before it is worked
    """
    if last_weeks < first_weeks:
        raise Refusal(
            "last_weeks",
            f"{last_weeks}",
            f"{first_weeks} weeks or more",
            "swap the two in the studio's records",
        )
    opens = _later(done, "first_weeks", first_weeks, relativedelta(weeks=first_weeks))
    return Window(opens, _later(done, "last_weeks", last_weeks, relativedelta(weeks=last_weeks)))


def next_sitting_earliest(done: date, weeks: int) -> date:
    r"""From which day on may the same skin be worked again?

    Formula:
        d = d_0 + 7 n
    Where:
        done: d_0, date, day of the last sitting on this skin
        weeks: n, weeks, how long the studio's records want it left alone
        return: d, date, earliest day
    Valid:
        whole weeks from 0
    Source:
        common practice, no published source: four weeks at least; complete healing took about a month by
        biopsy, International Journal of Dermatology 1987;26:453-458
    Does not know:
        how this skin healed: it is looked at before it is worked
    """
    return _later(done, "weeks", weeks, relativedelta(weeks=weeks))


def opened_ink_expiry(opened: date, life_months: int, printed: date) -> date:
    r"""Until which day may an opened bottle be used?

    Formula:
        d = \min(d_{\text{opened}} + m, \; d_{\text{printed}})
    Where:
        opened: d_{\text{opened}}, date, the day the bottle was opened
        life_months: m, months, how long the maker lets an opened bottle be used
        printed: d_{\text{printed}}, date, expiry printed on the bottle
        return: d, date, the earlier of the two
    Valid:
        whole months from 0
    Source:
        common practice, no published source: the earlier day counts
    Does not know:
        a bottle left open, touched or diluted, which is thrown away at once
    """
    return min(_later(opened, "life_months", life_months, relativedelta(months=life_months)), printed)


def retention_end(last_entry: date, years: int) -> date:
    r"""Until which day is a record kept?

    Formula:
        d = d_0 + a \text{ years}
    Where:
        last_entry: d_0, date, day of the last entry or of the end of employment
        years: a, years, how long the studio's rules ask for
        return: d, date, the last day it is kept; 29 February becomes 28 in other years
    Valid:
        whole years from 0
    Source:
        arithmetic of the calendar
    Does not know:
        a complaint, claim or inspection that is still open, for which it is kept longer
    """
    return _later(last_entry, "years", years, relativedelta(years=years))


def next_review(reviewed: date, months: int) -> date:
    r"""When is a procedure looked at again?

    Formula:
        d = d_0 + m \text{ months}
    Where:
        reviewed: d_0, date, day of the last review
        months: m, months, interval in the procedure's record
        return: d, date, the day it is due
    Valid:
        whole months from 0
    Source:
        arithmetic of the calendar
    Does not know:
        a new law, product or accident, which calls for a review at once
    """
    return _later(reviewed, "months", months, relativedelta(months=months))


def overdue(due: date, on: date) -> bool:
    r"""Has a due day gone by?

    Formula:
        d_{\text{due}} < d_{\text{on}}
    Where:
        due: d_{\text{due}}, date, the last day in time
        on: d_{\text{on}}, date, the day to judge on
        return: \text{yes or no}, -, no on the due day itself
    Valid:
        any two days
    Source:
        arithmetic of the calendar
    Does not know:
        whether the thing was done and not written down
    """
    return due < on
