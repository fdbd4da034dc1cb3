"""Skin as measured, not as judged: the typology angle, and how an ink may read on a tone."""

import math
from functools import lru_cache
from typing import NamedTuple

from generator.trade import colour
from generator.trade._bounds import above_zero, from_zero
from generator.trade.refusal import Refusal

# Chardon 1991: the angle above which each class begins.
_CLASSES = ((55.0, "very light"), (41.0, "light"), (28.0, "intermediate"), (10.0, "tan"))
_DARK_BELOW = -30.0


class InkOnSkin(NamedTuple):
    """An estimate: the colour seen, its CIEDE2000 difference from the skin, its change of L*, and words."""

    seen: str
    difference: float
    lightness_change: float
    words: str


def typology_angle(lightness: float, b: float) -> float:
    r"""What is the individual typology angle of a skin reading?

    Formula:
        \text{ITA} = \frac{180}{\pi} \arctan\frac{L^* - 50}{b^*}
    Where:
        lightness: L^*, -, CIELAB lightness of the skin as read by a colour meter, from 0 to 100
        b: b^*, -, CIELAB yellowness of the same reading, above 0
        return: \text{ITA}, degrees, the larger the angle the lighter the reading
    Valid:
        readings under D65; b* above 0, as it is on skin
    Source:
        the angle as skin science publishes it, after Chardon 1991
    Does not know:
        undertone, tan lines and the tone a hand's width away: one arm may span two classes
    """
    if not (math.isfinite(lightness) and 0 <= lightness <= 100):
        raise Refusal("lightness", f"{lightness:g}", "L* from 0 to 100", "read the skin again with the colour meter")
    above_zero("b", b, "b* above 0", "read the skin again, away from ink and redness")
    return math.degrees(math.atan((lightness - 50) / b))


def skin_class(angle: float) -> str:
    r"""Which of the six published classes does a typology angle fall in?

    Formula:
        55 < \text{very light}
        41 < \text{light} \le 55
        28 < \text{intermediate} \le 41
        10 < \text{tan} \le 28
        -30 \le \text{brown} \le 10
        \text{dark} < -30
    Where:
        angle: \text{ITA}, degrees, the individual typology angle
        return: \text{class}, -, the name of the class
    Valid:
        from -90 to 90; 55, 41, 28 and 10 belong to the class below them, -30 belongs to brown
    Source:
        classes after Chardon 1991; which side 41, 28 and 10 belong to is decided here
    Does not know:
        the person: a class describes one reading, the tone picker and healed photos decide about colours
    """
    if not (math.isfinite(angle) and -90 <= angle <= 90):
        raise Refusal(
            "angle", f"{angle:g}", "an angle from -90 to 90 degrees", "compute it from a reading of L* and b*"
        )
    for above, name in _CLASSES:
        if angle > above:
            return name
    return "dark" if angle < _DARK_BELOW else "brown"


def ink_on_skin(ink: str, skin: str, quiet_below: float) -> InkOnSkin:
    r"""How may an ink read on a tone of skin, as an estimate?

    Formula:
        c_{\text{seen}} = c_{\text{ink}} \cdot c_{\text{skin}}
        \Delta E_{00} = \text{CIEDE2000}(c_{\text{seen}}, c_{\text{skin}})
    Where:
        ink: c_{\text{ink}}, -, swatch of the ink as # and hexadecimal digits
        skin: c_{\text{skin}}, -, swatch of the client's skin, from the tone picker or a photo in daylight
        quiet_below: \Delta E_q, -, difference under which the colour is called quiet; the studio's own limit
        return: \text{estimate}, -, colour seen, difference from the skin, change of lightness, words
    Valid:
        opaque sRGB swatches; limit from 0
    Source:
        multiply blend, W3C Compositing and Blending Level 1, in linear light; as a picture of ink under skin
        it is common practice, no published source
    Does not know:
        how the ink heals, the pigment's cover, undertone and lamp: an opaque white reads brighter when fresh
    """
    from_zero("quiet_below", quiet_below, "0 or more", "set the limit in the studio's records")
    seen, stands_out, lighter = _seen_through(skin, ink)
    reads, advice = "clearly", "the tone picker and healed photos decide"
    if stands_out < quiet_below:
        reads, advice = "quietly", "let line and dark carry the shape, and decide by the tone picker and healed photos"
    words = f"estimated to read {reads} on this tone (difference about {stands_out:.0f}): {advice}"
    return InkOnSkin(seen, stands_out, lighter, words)


@lru_cache(maxsize=4096)
def _seen_through(skin: str, ink: str) -> tuple[str, float, float]:
    """The colour seen, its difference from the skin, and how much lighter than it; slow, and asked for in every job."""
    from coloraide import Color

    tone = colour.lab(skin)
    colour.lab(ink)
    # Skin lies over the ink and filters its light; filters multiply in linear light only.
    under, over = (Color(swatch).convert("srgb-linear").coords() for swatch in (ink, skin))
    filtered = Color("srgb-linear", [low * high for low, high in zip(under, over, strict=True)])
    seen = filtered.convert("srgb").to_string(hex=True)
    lightness, a, b = filtered.convert("lab-d65").coords()
    return seen, colour.difference(colour.Lab(lightness, a, b), tone), lightness - tone.lightness
