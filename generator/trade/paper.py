"""Stencils and screens: strips through a narrow printer, pixels of a canvas, gaps that will close."""

from generator.trade._bounds import above_zero, zero_or_more
from generator.trade._counts import whole_up
from generator.trade.refusal import Refusal

MILLIMETRES_IN_AN_INCH = 25.4
# Of a drawing on paper, in mm: what fits between the margins of A4 as of Letter, with a heading above it, and what is
# left free round it. A decision of this program.
STRIP, TALLEST = 184.0, 200.0
EDGE = 3.0


def _check_size(argument: str, value: float) -> None:
    """Refuse a length that is none."""
    above_zero(argument, value, "a length above 0 mm", "measure it and write it in mm")


def strips_across(side: float, printer_width: float, overlap: float) -> int:
    r"""How many strips does this side of the stencil need?

    Formula:
        n = \left\lceil \frac{b - o}{B - o} \right\rceil
    Where:
        side: b, mm, side of the stencil that must be shared out
        printer_width: B, mm, width the printer can print
        overlap: o, mm, how far neighbouring strips cover each other
        return: n, -, strips side by side
    Valid:
        side and printer width above 0; overlap from 0, below the printer width
    Source:
        geometry
    Does not know:
        whether a seam would cut a face or a letter
    """
    _check_size("side", side)
    _check_size("printer_width", printer_width)
    if not (zero_or_more(overlap) and overlap < printer_width):
        raise Refusal(
            "overlap",
            str(overlap),
            f"from 0 mm to below the printer's width, {printer_width}",
            "a few millimetres are enough to lay one strip on the next",
        )
    if side <= printer_width:
        return 1
    return whole_up((side - overlap) / (printer_width - overlap))


def stencil_sheets(width: float, height: float, paper_width: float, paper_length: float, overlap: float) -> int:
    r"""How many sheets does the stencil take, cut into strips the way that takes fewer?

    Formula:
        n = \min(n_{w,B} \cdot n_{h,L}, n_{h,B} \cdot n_{w,L})
        n_{s,P} = \left\lceil \frac{s - o}{P - o} \right\rceil
    Where:
        width: w, mm, width of the stencil
        height: h, mm, height of the stencil
        paper_width: B, mm, width of a sheet, which is that of a strip
        paper_length: L, mm, length of a sheet
        overlap: o, mm, how far neighbouring sheets cover each other
        return: n, -, sheets in all
    Valid:
        everything above 0; overlap from 0, below both sides of the sheet
    Source:
        geometry
    Does not know:
        whether a seam would cut a face or a letter
    """

    def sheets(across: float, along: float) -> int:
        return strips_across(across, paper_width, overlap) * strips_across(along, paper_length, overlap)

    return min(sheets(width, height), sheets(height, width))


def dots_per_mm(dots_per_inch: float) -> float:
    r"""How many dots does the printer set on a millimetre?

    Formula:
        k = \frac{R}{25.4}
    Where:
        dots_per_inch: R, dots/in, resolution of the printer or canvas
        return: k, dots/mm, dots on one millimetre
    Valid:
        above 0
    Source:
        NIST SP 811: one inch is 25.4 mm
    Does not know:
        how far a dot bleeds on stencil paper
    """
    above_zero(
        "dots_per_inch",
        dots_per_inch,
        "a resolution above 0 dots per inch",
        "look up the printer's or the canvas's resolution, such as 203 or 300",
    )
    return dots_per_inch / MILLIMETRES_IN_AN_INCH


def canvas_pixels(length: float, dots_per_inch: float) -> int:
    r"""How many pixels must this side of the drawing have?

    Formula:
        n = \frac{b \cdot R}{25.4}
    Where:
        length: b, mm, side of the drawing in real size, a plain number
        dots_per_inch: R, dots/in, resolution of the canvas
        return: n, -, pixels, rounded to the nearest whole one
    Valid:
        above 0
    Source:
        NIST SP 811: one inch is 25.4 mm
    Does not know:
        whether the app scales the drawing when it prints
    """
    _check_size("length", length)
    return round(length * dots_per_mm(dots_per_inch))


def will_close(gap: float, limit: float) -> bool:
    r"""Will this gap between lines, or this counter in a letter, close as it ages?

    Formula:
        g < G
    Where:
        gap: g, mm, bare skin between two lines or inside a letter
        limit: G, mm, the studio's own smallest gap, from its records
        return: c, -, true where the gap is below the limit
    Valid:
        both above 0
    Source:
        common practice, no published source
    Does not know:
        this skin: thin, sun-worn or moving skin spreads ink further
    """
    _check_size("gap", gap)
    _check_size("limit", limit)
    return gap < limit
