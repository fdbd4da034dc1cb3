"""The label on a box of cartridges or needles, read into wire, count and configuration."""

import re
from dataclasses import dataclass
from functools import lru_cache

from generator.trade.needles import LARGEST_ROUND
from generator.trade.refusal import Refusal

# Needle diameter in mm by wire code, as the trade commonly prints it; no standard is behind it
# (the gauge numbers of ISO 9626 are for hollow tubing and run the other way).
WIRE_DIAMETERS = {"08": 0.25, "10": 0.30, "12": 0.35, "14": 0.40}

# Codes seen on boxes on whose diameter the published tables disagree.
DISPUTED_WIRE = ("06",)

CONFIGURATIONS = {
    "RL": "round liner",
    "RS": "round shader",
    "M1": "weaved single-stack magnum",
    "M2": "double-stack magnum",
    "CM": "curved magnum",
    "RM": "curved magnum",
    "F": "flat",
}
ROUNDS = ("RL", "RS")

# Fewer needles than this cannot stand in the configuration: two rows need three needles, a row needs two.
_FEWEST = {"RL": 1, "RS": 1, "M1": 3, "M2": 3, "CM": 3, "RM": 3, "F": 2}

_HYPHENS = "\u2010\u2011\u2013-"  # the plain hyphen last: inside a set it would mean a range
# Wire code and count run together only as two digits each: 127RL could be a 1207RL with a digit lost.
_LABEL = re.compile(
    rf"#?(?P<code>[0-9]{{2}})(?:[\s{_HYPHENS}]+(?P<apart>[0-9]{{1,2}})|(?P<joined>[0-9]{{2}}))"
    rf"[\s{_HYPHENS}]*(?P<configuration>[A-Za-z][A-Za-z0-9]*)"
)
_WITHOUT_WIRE = re.compile(rf"[0-9]{{1,2}}[\s{_HYPHENS}]*[A-Za-z][A-Za-z0-9]*")


@dataclass(frozen=True)
class Label:
    """A grouping's label: wire code, needle diameter in mm, count, configuration, canonical writing."""

    code: str
    needle_diameter: float
    count: int
    configuration: str
    written: str


def wire_diameter(code: str) -> float:
    r"""How thick is a needle of this wire code?

    Formula:
        d = \text{the diameter in the trade's table for the wire code}
    Where:
        code: c, -, wire code as two digits, such as 12 ("twelves")
        return: d, mm, needle diameter, the full wire before the taper
    Valid:
        08, 10, 12 and 14; 06 is refused because published tables disagree about it
    Source:
        common practice, no published source
    Does not know:
        what a certain maker means by the code; the diameter printed on the box wins
    """
    if code in WIRE_DIAMETERS:
        return WIRE_DIAMETERS[code]
    remedy = "write the needle diameter in mm from the box in the grouping's record"
    if code in DISPUTED_WIRE:
        raise Refusal("code", f"#{code}", "a wire code whose diameter the trade agrees on", remedy)
    raise Refusal("code", f"#{code}", "one of #" + ", #".join(WIRE_DIAMETERS), remedy)


def read_label(written: str) -> Label:
    r"""What does the label on the box say?

    Formula:
        \text{label} = \text{wire code}\ \text{count}\ \text{configuration}
    Where:
        written: L, -, the label as a person or a box writes it, such as 1207RL, 12-07 RL or 1215cm
        return: g, -, wire code, needle diameter, count, configuration and canonical writing
    Valid:
        wire code of two digits, then the count, then RL, RS, M1, M2, CM, RM or F
    Source:
        common practice, no published source
    Does not know:
        taper, spread, tight or hollow, finish: these stand in the grouping's record
    """
    return _read_label(written)


@lru_cache(maxsize=1024)  # the same few boxes are on the shelf for every job
def _read_label(written: str) -> Label:
    text = written.strip()
    match = _LABEL.fullmatch(text)
    if match is None:
        if _WITHOUT_WIRE.fullmatch(text):
            raise Refusal(
                "written",
                repr(written),
                "the wire code before the count, as in 1207RL",
                "put the two digits of the wire code from the box in front, as in 1207RL",
            )
        raise Refusal(
            "written",
            repr(written),
            "wire code, count, configuration, as in 1207RL",
            "write two digits for the wire, two for the count and the letters, such as 1207RL",
        )
    code = match["code"]
    count = int(match["apart"] or match["joined"])
    configuration = known_configuration(match["configuration"])
    diameter = wire_diameter(code)
    _check_count(count, configuration)
    return Label(code, diameter, count, configuration, f"{code}{count:02d}{configuration}")


def known_configuration(letters: str) -> str:
    r"""Which configuration do these letters name?

    Formula:
        \text{configuration} = \text{the letters in capitals, if the trade uses them}
    Where:
        letters: k, -, the letters at the end of a label, upper or lower case
        return: K, -, RL, RS, M1, M2, CM, RM or F
    Valid:
        RL, RS, M1, M2, CM, RM, F
    Source:
        common practice, no published source
    Does not know:
        letters of a maker's own; write the configuration they stand for
    """
    capitals = letters.strip().upper()
    if capitals in CONFIGURATIONS:
        return capitals
    everything = ", ".join(f"{short} {name}" for short, name in CONFIGURATIONS.items())
    near = [short for short in CONFIGURATIONS if capitals.startswith(short[0])]
    remedy = f"did you mean {' or '.join(near)}?" if near else f"write one of {everything}"
    raise Refusal("configuration", repr(letters), f"one of {everything}", remedy)


def _check_count(count: int, configuration: str) -> None:
    """Refuse a count that cannot stand in the configuration.

    Weaved magnums commonly hold an odd number, but nothing published says that they must.
    """
    fewest = _FEWEST[configuration]
    name = CONFIGURATIONS[configuration]
    if count < fewest:
        raise Refusal(
            "count",
            str(count),
            f"at least {fewest} in a {name}",
            "read the count on the box again: it stands between the wire code and the letters",
        )
    if configuration in ROUNDS and count > LARGEST_ROUND:
        raise Refusal(
            "count",
            str(count),
            f"at most {LARGEST_ROUND} in a {name}",
            "read the count on the box again; the bundles of larger rounds are not on file",
        )
