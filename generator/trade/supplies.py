"""What lies on the tray and what has to be bought: ink, caps, packs."""

from collections.abc import Sequence

from generator.trade._bounds import above_zero, from_zero
from generator.trade._counts import whole_up


def ink_millilitres(area: float, house_rate: float) -> float:
    r"""How much ink does an area take by the studio's own rate?

    Formula:
        V = A v
    Where:
        area: A, mm², skin to be covered with this ink
        house_rate: v, mL/mm², ink poured for each area, what is wiped off included; 1 mL/cm² is 0.01 mL/mm²
        return: V, mL, ink to pour
    Valid:
        area from 0; house rate above 0
    Source:
        arithmetic
    Does not know:
        how wet the artist works: the rate comes from caps weighed before and after
    """
    from_zero("area", area, "0 mm² or more", "take the area from the part's shape")
    above_zero("house_rate", house_rate, "more than 0", "weigh the caps before and after one area")
    return area * house_rate


def ink_caps(millilitres: Sequence[float], cap: float) -> int:
    r"""How many ink caps are set out?

    Formula:
        n = \sum_i \max\left(1, \left\lceil \frac{V_i}{V_c} \right\rceil\right)
    Where:
        millilitres: V_i, mL, ink to pour of every ink and tint, one entry each
        cap: V_c, mL, what one cap holds as filled
        return: n, -, caps, one at least for each ink and tint
    Valid:
        amounts from 0; cap above 0
    Source:
        arithmetic; one cap for each ink and tint is common practice, no published source
    Does not know:
        rinse cups and spare caps for a colour mixed at the chair
    """
    above_zero("cap", cap, "more than 0 mL", "write what one cap holds")
    for amount in millilitres:
        from_zero("millilitres", amount, "0 mL or more", "check the amount of this ink")
    return sum(max(1, whole_up(amount / cap)) for amount in millilitres)


def packs_to_order(need: float, stock: float, reserve: float, pack: float) -> int:
    r"""How many packs are ordered, so that the need is met and the reserve stays?

    Formula:
        n = \max\left(0, \left\lceil \frac{N + R - S}{P} \right\rceil\right)
    Where:
        need: N, pieces or mL, what the coming jobs take
        stock: S, pieces or mL, what is on the shelf and not expired
        reserve: R, pieces or mL, what must stay on the shelf
        pack: P, pieces or mL, what one pack holds
        return: n, -, packs to order
    Valid:
        need, stock and reserve from 0; pack above 0
    Source:
        arithmetic
    Does not know:
        delivery times, and stock that was not counted or expires before it is used
    """
    for argument, amount in (("need", need), ("stock", stock), ("reserve", reserve)):
        from_zero(argument, amount, "0 or more", "count the shelf again")
    above_zero("pack", pack, "more than 0", "write what one pack holds")
    return max(0, whole_up((need + reserve - stock) / pack))
