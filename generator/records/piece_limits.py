"""The studio's limits for the drawing itself: what closes, what covers, what is seen, what the eye rests on."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.fields import Count, Measure, Number
from generator.records.ids import Source
from generator.records.kind import Example
from generator.records.record import Record

Lightness = Annotated[float, Number(0, 100, Example("40"))]


class CoverLightness(Record):
    """How light, in CIELAB L*, the darkest ink over an existing tattoo may be, by its darkness."""

    light: Lightness = Field(description="over a light existing tattoo")
    medium: Lightness = Field(description="over an existing tattoo of medium darkness")
    dark: Lightness = Field(description="over a dark existing tattoo")


class Composition(Record):
    """From when on the eye says something about a drawing. Notes, never more."""

    third: Annotated[Quantity, Measure("share", "34 %", "100 %", "70 %")]
    """share of the weight of colour, chroma times area, in one third of the piece, that is noted"""
    strong_third: Annotated[Quantity, Measure("share", "34 %", "100 %", "85 %")]
    """share of the strong colour in one third of the piece, from which it is collected there"""
    off_centre: Annotated[Quantity, Measure("share", "1 %", "50 %", "15 %")]
    """how far the weight of colour may balance beside the middle, of the width or of the height"""
    ink_in_parts: Annotated[int, Count(1, 5)]
    """parts in which a colour is found at least, where the piece has so many"""
    filler_louder: Annotated[Quantity, Measure("share", "10 %", "500 %", "100 %")]
    """weight of colour of a filler over that of the main part, above which the filler is louder"""
    size_step: Annotated[float, Number(1, 5, Example("1.5"))]
    """how many times as large one of main, secondary and filler is as the next, at least"""
    deep_red_lightness: Annotated[float, Number(0, 100, Example("40"))]
    """CIELAB lightness below which a red is a deep one"""
    deep_red_chroma: Annotated[float, Number(0, 150, Example("30"))]
    """CIELAB chroma from which a deep red counts as a strong colour, as a red"""
    source: Source = Field(description="where these come from")


class PieceLimits(Record):
    """The part of the limits that judges a drawing."""

    girth_change: Annotated[Quantity, Measure("share", "1 %", "50 %", "5 %")]
    """change of the girth from standing to the pose, from which the stencil is placed again"""
    counter_gap: Annotated[Quantity, Measure("length", "0.3 mm", "10 mm", "1.5 mm")]
    """smallest counter of a letter that stays open"""
    after_laser: Annotated[Quantity, Measure("days", "14 days", "730 days", "8 weeks")]
    """time from the last laser session before an existing tattoo is worked over"""
    cover_ratio: Annotated[float, Number(1, 10, Example("2"))]
    """area of a cover-up over the area of what it covers, at least"""
    cover_lightness: CoverLightness = Field(description="how dark the inks over an existing tattoo have to be")
    beside: Annotated[Quantity, Measure("length", "0 mm", "50 mm", "2 mm")]
    """gap up to which two parts count as beside each other when inks are laid"""
    darker_by: Annotated[float, Number(1, 100, Example("20"))]
    """difference in CIELAB lightness from which an ink counts as darker than one beside it"""
    blend_chroma: Annotated[float, Number(0, 100, Example("12"))]
    """CIELAB chroma from which inks of one hue are laid as one blend"""
    one_place: Annotated[Quantity, Measure("share", "34 %", "100 %", "90 %")]
    """share of a strong colour in one of the nine places of a piece, from which it sits in one only"""
    blend_jump: Annotated[float, Number(1, 10, Example("2.5"))]
    """how many times the mean of its other steps a step of a blend may be before it jumps"""
    quiet_ink: Annotated[float, Number(0, 50, Example("8"))]
    """estimated CIEDE2000 difference from the skin under which an ink reads quietly"""
    strip_overlap: Annotated[Quantity, Measure("length", "2 mm", "50 mm", "10 mm")]
    """how far the strips of a template that is wider than the paper lie on one another"""
    closed_band: Annotated[Quantity, Measure("share", "50 %", "100 %", "85 %")]
    """share of the girth from which a band runs all round, so that its ends have to be closed"""
    seen_flat: Annotated[Quantity, Measure("share", "64 %", "100 %", "80 %")]
    """width that a wrapped piece shows from the front over its drawn one, under which its sides are lost"""
    composition: Composition = Field(description="from when on the eye says something about a drawing")
    scar_margin: Annotated[Quantity, Measure("length", "0 mm", "20 mm", "2 mm")]
    """how far beside a scar still counts as over it: for passes, for time, and where a part is moved"""
    left_to_round: Annotated[Quantity, Measure("share", "0.5 %", "50 %", "5 %")]
    """share of an area that a magnum does not reach, from which a row of its own is planned for a round"""
    white_area: Annotated[Quantity, Measure("area", "0.1 cm²", "500 cm²", "6 cm²")]
    """area of white in a piece; more is a note"""
