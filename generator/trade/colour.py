"""Numbers for a colour: CIELAB under D65, chroma, hue and difference."""

import math
import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from generator.trade.refusal import Refusal

if TYPE_CHECKING:
    from coloraide import Color

_HEX = re.compile(r"#(?:[0-9a-fA-F]{3}|[0-9a-fA-F]{6})")


class Lab(NamedTuple):
    """A colour in CIELAB under D65: lightness 0 to 100, a from green to red, b from blue to yellow."""

    lightness: float
    a: float
    b: float


@lru_cache(maxsize=4096)
def _swatch(swatch: str) -> "Color":
    """The swatch as coloraide's colour; converting is slow and a studio's inks come back in every job."""
    from coloraide import Color

    if not _HEX.fullmatch(swatch):
        raise Refusal(
            "swatch",
            f"'{swatch}'",
            "'#' and three or six hexadecimal digits, such as #a3452c",
            "read the sRGB value of the swatch with a colour picker and write it as #rrggbb",
        )
    return Color(swatch)


@lru_cache(maxsize=4096)
def _lab(swatch: str) -> Lab:
    # Plain "lab" is D50 in this library; swatches, screens and skin readings are D65.
    lightness, a, b = _swatch(swatch).convert("lab-d65").coords()
    return Lab(lightness, a, b)


def _checked(lab: Lab, argument: str) -> Lab:
    """The colour, or a refusal when it holds something that is no number or no lightness."""
    # The last bits of a conversion may leave white a hair above 100.
    if not (all(map(math.isfinite, lab)) and -1e-6 <= lab.lightness <= 100 + 1e-6):
        raise Refusal(
            argument,
            f"L* {lab.lightness}, a* {lab.a}, b* {lab.b}",
            "three finite numbers with a lightness L* from 0 to 100",
            "convert the ink's swatch again, or read the tone again with the colour meter",
        )
    return lab


def lab(swatch: str) -> Lab:
    r"""Where does an sRGB swatch lie in CIELAB under daylight D65?

    Formula:
        L^* = 116 f\left(\frac{Y}{Y_n}\right) - 16
        a^* = 500 \left(f\left(\frac{X}{X_n}\right) - f\left(\frac{Y}{Y_n}\right)\right)
        b^* = 200 \left(f\left(\frac{Y}{Y_n}\right) - f\left(\frac{Z}{Z_n}\right)\right)
    Where:
        swatch: \text{sRGB}, -, the colour as # and three or six hexadecimal digits
        return: (L^* ; a^* ; b^*), -, lightness from 0 to 100, green to red, blue to yellow
    Valid:
        colours a screen can show; three or six hexadecimal digits
    Source:
        CIE 15 (CIELAB), IEC 61966-2-1 (sRGB), D65 and the 2 degree observer; converted by coloraide
    Does not know:
        how far the swatch is from the ink in the bottle, or from the ink healed in skin
    """
    return _lab(swatch)


def chroma(colour: Lab) -> float:
    r"""How strong is a colour, from grey outwards?

    Formula:
        C^* = \sqrt{a^{*2} + b^{*2}}
    Where:
        colour: (L^* ; a^* ; b^*), -, the colour in CIELAB under D65
        return: C^*, -, chroma, 0 for grey
    Valid:
        finite numbers, lightness from 0 to 100
    Source:
        CIE 15 (CIELAB)
    Does not know:
        how much of that strength is left when the ink has healed
    """
    _checked(colour, "colour")
    return math.hypot(colour.a, colour.b)


def hue(colour: Lab) -> float:
    r"""Which way round the colour circle does a colour lie?

    Formula:
        h = \operatorname{atan2}(b^*, a^*)
    Where:
        colour: (L^* ; a^* ; b^*), -, the colour in CIELAB under D65
        return: h, degrees, from 0 up to but not 360; red lies near 40, yellow near 103, blue near 306
    Valid:
        any colour but a pure grey, which has no hue
    Source:
        CIE 15 (CIELAB)
    Does not know:
        whether the chroma is high enough for the hue to be seen at all
    """
    _checked(colour, "colour")
    if colour.a == 0 and colour.b == 0:
        raise Refusal("colour", "a pure grey", "a colour with some chroma", "treat it as neutral")
    angle = math.degrees(math.atan2(colour.b, colour.a)) % 360
    # A tiny negative angle is rounded up to 360 by the remainder.
    return angle if angle < 360 else 0.0


def difference(first: Lab, second: Lab) -> float:
    r"""How different do two colours look?

    Formula:
        \Delta E_{00} = \text{CIEDE2000}(L^*_1 ; a^*_1 ; b^*_1, \; L^*_2 ; a^*_2 ; b^*_2)
    Where:
        first: (L^*_1 ; a^*_1 ; b^*_1), -, one colour in CIELAB under D65
        second: (L^*_2 ; a^*_2 ; b^*_2), -, the other
        return: \Delta E_{00}, -, 0 for the same colour, 100 from black to white
    Valid:
        finite numbers, lightness from 0 to 100; meant for small and middling differences
    Source:
        Sharma, Wu, Dalal, Color Research and Application 2005;30(1):21-30; computed by coloraide
    Does not know:
        how the two look through healed skin, or from across a room
    """
    from coloraide import Color

    one = Color("lab-d65", list(_checked(first, "first")))
    other = Color("lab-d65", list(_checked(second, "second")))
    return float(one.delta_e(other, method="2000"))
