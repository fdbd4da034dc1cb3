"""What is usual where a studio works: units, paper, clock, spelling and the order of a date.

A new studio begins with its units and its paper; pages are written with its clock, spelling and dates. From memory, as
the Unicode Common Locale Data Repository has them for English in each region, but that outside the United States dates
in digits are those of ISO 8601 (2027-06-16); paper sizes by ISO 216 (A4) and ASME Y14.1 (Letter).
"""

from typing import Literal, NamedTuple


class Customs(NamedTuple):
    """How a region measures, prints and writes."""

    units: Literal["metric", "imperial"]
    paper: Literal["A4", "Letter"]
    clock: Literal["24 h", "12 h"]
    spelling: Literal["British", "American"]
    dates: Literal["month first", "year first"]


CUSTOMS: dict[str, Customs] = {
    "EU": Customs("metric", "A4", "24 h", "British", "year first"),
    "UK": Customs("metric", "A4", "24 h", "British", "year first"),
    "US": Customs("imperial", "Letter", "12 h", "American", "month first"),
    "other": Customs("metric", "A4", "24 h", "British", "year first"),
}
