"""Scars: how old, and how they score on a published scale. Nothing here clears a scar."""

from datetime import MAXYEAR, date

from dateutil.relativedelta import relativedelta

from generator.trade.refusal import Refusal

# Sullivan 1990: the highest score of each item. The form of Baryza 1995 gives pigmentation up to 3.
_HIGHEST = {"pigmentation": 2, "vascularity": 3, "pliability": 5, "height": 3}


def maturity_months(wound: date, on: date) -> int:
    r"""How many whole months old is a scar on a given day?

    Formula:
        m = \left\lfloor \text{months from wound to day} \right\rfloor
    Where:
        wound: \text{wound}, date, the last day on which it can have happened: of a month its last day
        on: \text{day}, date, the day to judge, such as the day of the sitting
        return: m, months, whole months gone by
    Valid:
        the day is not before the wound
    Source:
        arithmetic of the calendar; the later day is common practice, the careful side
    Does not know:
        later injuries or operations on the same scar: each starts the count again;
        how the scar looks and feels: colour, softness, itch, pain, growth. A date alone never clears a scar;
        the artist looks at the skin on the day
    """
    if on < wound:
        raise Refusal("wound", wound.isoformat(), f"a day up to {on.isoformat()}", "ask again when it happened")
    age = relativedelta(on, wound)
    return age.years * 12 + age.months


def earliest_date_by_age(wound: date, months: int) -> date:
    r"""From which day on is a scar as old as the studio asks for?

    Formula:
        \text{day} = \text{last possible day of the wound} + m \text{ months}
    Where:
        wound: \text{wound}, date, when the wound happened; its last possible day counts
        months: m, months, the age the studio's records ask for
        return: \text{day}, date, first day with that age; a day the month does not have becomes its last
    Valid:
        whole months from 0 up to the end of the calendar
    Source:
        arithmetic of the calendar
    Does not know:
        how the scar looks and feels on that day. A date alone never clears a scar: this is the earliest day
        to look at it, not a permission
    """
    if months < 0 or wound.year + months / 12 >= MAXYEAR:
        raise Refusal("months", f"{months}", "whole months from 0", "write the studio's limit, such as 12 months")
    return wound + relativedelta(months=months)


def scar_scale_total(pigmentation: int, vascularity: int, pliability: int, height: int) -> int:
    r"""What does a scar score on the Vancouver Scar Scale, in the form of Sullivan 1990?

    Formula:
        T = P + V + S + H
    Where:
        pigmentation: P, -, 0 to 2 in this form
        vascularity: V, -, 0 normal to 3 purple
        pliability: S, -, 0 normal to 5 contracture
        height: H, -, 0 flat to 3 above 5 mm
        return: T, -, from 0 like the skin beside it to 13
    Valid:
        whole scores inside the bounds of Sullivan 1990; Baryza 1995 counts pigmentation to 3, a total of 14
    Source:
        Vancouver Scar Scale in the form of Sullivan 1990, as two printed copies agree
    Does not know:
        itch, pain and growth, and whether the scar may be tattooed: the scale describes, it does not permit
    """
    scores = {
        "pigmentation": pigmentation,
        "vascularity": vascularity,
        "pliability": pliability,
        "height": height,
    }
    for item, score in scores.items():
        if score not in range(_HIGHEST[item] + 1):
            raise Refusal(
                item,
                f"{score}",
                f"a whole score from 0 to {_HIGHEST[item]} (form of Sullivan 1990)",
                "score again by the form of Sullivan 1990; Baryza 1995 counts pigmentation up to 3",
            )
    return sum(scores.values())


def added_over_scar(slower: float, share: float) -> float:
    r"""How much longer does a piece of work take, when a share of it lies over a scar?

    Formula:
        a = q \cdot s
    Where:
        slower: q, %, added working time where the skin is scarred; the studio's own rule
        share: s, fraction, share of the work that lies over the scar
        return: a, %, added to the time of the whole piece of work
    Valid:
        a share from 0 to 1
    Source:
        arithmetic; that scarred skin is worked more slowly is common practice, no published source
    Does not know:
        how this scar takes ink
    """
    if not 0 <= share <= 1:
        raise Refusal("share", f"{share:g}", "a share from 0 to 1", "calculate it from the shapes of part and scar")
    return slower * share
