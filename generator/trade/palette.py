"""Inks beside each other: families of hue, strong colours, even blends and the order of laying."""

import math
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from generator.trade import colour
from generator.trade._bounds import from_zero
from generator.trade.colour import Lab
from generator.trade.refusal import Refusal

_RED, _PINK = "red", "pink"
# Every family is anchored on named web colours, so the borders between them are nobody's taste.
# Blue has two anchors: in CIELAB the blue of a clear sky lies as near to turquoise as to pure blue.
_ANCHORS = {
    "#ff0000": _RED,
    "#ffa500": "orange",
    "#ffff00": "yellow",
    "#008000": "green",
    "#40e0d0": "turquoise",
    "#00bfff": "blue",
    "#0000ff": "blue",
    "#800080": "purple",
    "#ff1493": _PINK,
}
NEUTRAL = "neutral"

LAYERS = {"black": 0, "wash": 1, "colour": 2, "white": 3}


class Evenness(NamedTuple):
    """How a blend runs: the CIEDE2000 difference of every step, and which steps jump (0 is the first)."""

    steps: tuple[float, ...]
    jumps: tuple[int, ...]


@cache
def _family_by_hue() -> dict[float, str]:
    """The families by the hue of their anchors."""
    return {colour.hue(colour.lab(swatch)): family for swatch, family in _ANCHORS.items()}


def _check_chroma_limit(argument: str, limit: float) -> None:
    """Refuse a limit of chroma that is negative or no number."""
    from_zero(
        argument,
        limit,
        "a chroma of 0 or more; most inks lie between 5 and 100",
        "set the limit in the studio's records",
    )


def hue_family(ink: Lab, neutral_below: float) -> str:
    r"""Which family of hue does an ink belong to?

    Formula:
        \text{family} = \text{neutral, if } C^* < C_n \text{; else the named colour whose hue is nearest}
    Where:
        ink: (L^* ; a^* ; b^*), -, the ink in CIELAB under D65
        neutral_below: C_n, -, chroma under which an ink counts as neutral; the studio's own limit
        return: \text{family}, -, red, orange, yellow, green, turquoise, blue, purple, pink or neutral
    Valid:
        limit from 0
    Source:
        hues of the W3C named colours red, orange, yellow, green, turquoise, deepskyblue, blue, purple and
        deeppink; the choice of eight families is common practice, no published source
    Does not know:
        what the maker calls the ink; brown counts with red or orange, olive with yellow
    """
    _check_chroma_limit("neutral_below", neutral_below)
    strength = colour.chroma(ink)
    if strength == 0 or strength < neutral_below:
        return NEUTRAL
    families = _family_by_hue()
    return families[_nearest(colour.hue(ink), families)]


def _nearest(hue: float, anchors: Iterable[float]) -> float:
    """The anchor that is nearest to a hue, either way round."""

    def apart(anchor: float) -> float:
        turn = abs(hue - anchor)
        return min(turn, 360 - turn)

    return min(anchors, key=apart)


def hue_families(inks: Mapping[str, Lab], neutral_below: float) -> dict[str, tuple[str, ...]]:
    r"""How many colours are there, when the tints and shades of one colour count once?

    Formula:
        \text{inks of one family} \mapsto \text{one colour}
    Where:
        inks: \text{inks}, -, the inks of a piece by id, in CIELAB under D65
        neutral_below: C_n, -, chroma under which an ink counts as neutral; the studio's own limit
        return: \text{families}, -, the ids of the inks under each family, in the order given
    Valid:
        limit from 0
    Source:
        common practice, no published source
    Does not know:
        whether two inks of one family are meant as two colours, such as a warm and a cold red
    """
    families: dict[str, tuple[str, ...]] = {}
    for name, ink in inks.items():
        family = hue_family(ink, neutral_below)
        families[family] = (*families.get(family, ()), name)
    return families


def strong_colours(inks: Mapping[str, Lab], chroma_from: float) -> tuple[str, ...]:
    r"""Which inks are strong enough to pull the eye?

    Formula:
        \text{strong} = \left\{ \text{ink} : C^* \ge C_s \right\}
    Where:
        inks: \text{inks}, -, the inks of a piece by id, in CIELAB under D65
        chroma_from: C_s, -, chroma from which an ink counts as strong; the studio's own limit
        return: \text{strong}, -, the ids of the strong inks in the order given
    Valid:
        limit from 0
    Source:
        common practice, no published source
    Does not know:
        how large the colour is laid, or how it heals
    """
    _check_chroma_limit("chroma_from", chroma_from)
    return tuple(name for name, ink in inks.items() if colour.chroma(ink) >= chroma_from)


def deep_red(ink: Lab, darker_than: float, vivid_from: float) -> bool:
    r"""Does a dark ink count as a red, although it is less vivid than a bright one?

    Formula:
        L^* < L_d, \; C^* \ge C_d, \; \text{nearest named colour but pink is red}
    Where:
        ink: (L^* ; a^* ; b^*), -, the ink in CIELAB under D65
        darker_than: L_d, -, lightness below which a red is a deep one; the studio's own limit
        vivid_from: C_d, -, chroma from which it still counts as a colour; the studio's own limit
        return: r, -, true where it is a deep red
    Valid:
        limits from 0
    Source:
        hues of the W3C named colours; that a deep red pulls the eye like a red, and that pink is light by its name,
        is common practice, no published source
    Does not know:
        how the ink heals
    """
    _check_chroma_limit("vivid_from", vivid_from)
    from_zero("darker_than", darker_than, "a lightness from 0", "write a lightness such as 40")
    strength = colour.chroma(ink)
    if not (ink.lightness < darker_than and strength >= vivid_from and strength > 0):
        return False
    named = {hue: family for hue, family in _family_by_hue().items() if family != _PINK}
    return named[_nearest(colour.hue(ink), named)] == _RED


def colour_weight(ink: Lab, area: float) -> float:
    r"""How heavily does an ink weigh on the eye?

    Formula:
        W = C^* \cdot A
    Where:
        ink: (L^* ; a^* ; b^*), -, the ink in CIELAB under D65
        area: A, mm², area that it covers
        return: W, -, chroma times area; black, grey and white weigh next to nothing
    Valid:
        an area of 0 or more
    Source:
        common practice, no published source: the more vivid and the larger, the louder
    Does not know:
        contrast of light and dark, which pulls the eye as well, and how the ink heals
    """
    from_zero("area", area, "an area of 0 or more", "write the area that the ink covers")
    return colour.chroma(ink) * area


def evenness(blend: Sequence[Lab], jump_from: float) -> Evenness:
    r"""Does a blend run evenly, or does one step jump?

    Formula:
        s_i = \Delta E_{00}(c_i, c_{i+1})
        \text{step } i \text{ jumps, if } s_i > q \cdot \text{mean of the other steps}
    Where:
        blend: c, -, the colours of the blend in the order in which they lie, at least two
        jump_from: q, -, how many times the mean of the other steps a step may be, 1 or more
        return: (s ; \text{jumps}), -, the difference of every step, and which steps jump, 0 for the first
    Valid:
        two colours or more; factor from 1
    Source:
        CIEDE2000 as Sharma, Wu, Dalal 2005; the rule for a jump is common practice, no published source
    Does not know:
        how well the artist can blend over a jump with whip shading or stippling
    """
    if len(blend) < 2:
        raise Refusal("blend", f"{len(blend)} colours", "two colours or more", "name its colours")
    if not (math.isfinite(jump_from) and jump_from >= 1):
        raise Refusal("jump_from", f"{jump_from:g}", "a factor of 1 or more", "write a factor such as 1.5")
    steps = tuple(colour.difference(first, second) for first, second in pairwise(blend))
    # A blend of a single step has nothing to jump against.
    others = len(steps) - 1
    total = sum(steps)
    jumps = tuple(number for number, step in enumerate(steps) if others and step > jump_from * (total - step) / others)
    return Evenness(steps, jumps)


def laying_order(kind: str, lightness: float) -> tuple[int, float]:
    r"""When is an ink laid: black, then washes, then colours from dark to light, white last?

    Formula:
        \text{key} = (\text{black } 0, \text{ wash } 1, \text{ colour } 2, \text{ white } 3 ; \; L^*)
    Where:
        kind: \text{kind}, -, black or wash or colour or white
        lightness: L^*, -, CIELAB lightness of the ink from 0 to 100
        return: \text{key}, -, a pair to sort by, the smaller is laid first
    Valid:
        the four kinds; lightness from 0 to 100
    Source:
        common practice, no published source
    Does not know:
        parts: whether the ink goes over the whole piece, or each part is finished before it swells
    """
    if kind not in LAYERS:
        raise Refusal("kind", f"'{kind}'", "black, wash, colour or white", "write the ink's kind in its record")
    if not (math.isfinite(lightness) and -1e-6 <= lightness <= 100 + 1e-6):
        raise Refusal(
            "lightness", f"{lightness:g}", "a lightness from 0 to 100", "check the ink's swatch in its record"
        )
    return LAYERS[kind], lightness
