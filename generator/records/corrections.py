"""Mistakes in what was written down of a finished job: each is corrected beside the old value, which stays.

A correction names the value by its way in the block `finished`: `took`, `ended`, `worked.lining`, `steps.3.dial`,
`cartridges.1207RL.expires`; a lot of an ink is named by itself. What was never written down may be added so too.
"""

import re
from collections.abc import Iterator
from copy import deepcopy

from generator.near_miss import did_you_mean, nearest
from generator.records.kind import Example, Kind
from generator.records.located import Listing, Mapping, Node, Text

# The lists of the block: by what an item is found, and what of it is meant where the way ends at the item.
_LISTED = {"worked": ("technique", "took"), "steps": ("step", ""), "cartridges": ("grouping", "lot")}
_ALONE = ("on", "took", "stopped", "dressing", "ended")


class Way(Kind[Text]):
    """The way to a value of the block."""

    takes = "way to a value of `finished`, with points between its keys"
    example = Example("worked.lining")

    def read(self, text: Text) -> Text:
        first, *rest = text.split(".")
        keys = {"worked": (1,), "steps": (2,), "cartridges": (1, 2)}.get(first, (0,) if first in _ALONE else ())
        if len(rest) in keys and all(re.fullmatch(r"[\w-]+", key) for key in rest):
            return text
        near = nearest(first, (*_ALONE, *_LISTED))
        raise self.wrong(
            "R352",
            text,
            help_=did_you_mean(
                near if near != first else "",
                "write `took`, `on`, `stopped`, `dressing` or `ended`, `worked.TECHNIQUE`, `steps.NUMBER.dial` "
                "or `cartridges.GROUPING.expires`",
            ),
            says=f"“{text}” is the way to no value of a finished job",
        )


def corrected(finished: Mapping) -> Mapping | None:
    """The block as it was read, with every correction carried out; None where none of them names a value by its way."""
    listed = finished.get("corrections")
    ways = [
        (str(one["of"]), one["right"])
        for one in (listed if isinstance(listed, Listing) else ())
        if isinstance(one, Mapping) and isinstance(one.get("of"), Text) and isinstance(one.get("right"), Text)
    ]
    if not ways:
        return None
    made = deepcopy(finished)
    for way, right in ways:
        _set(made, way.split("."), right)
    return made


def _set(block: Mapping, way: list[str], right: Node) -> None:
    first, *rest = way
    if not rest:
        block[first] = right
        block.key_places.setdefault(first, right.place)
        return
    found_by, meant = _LISTED[first]
    listed = block.get(first)
    if not isinstance(listed, Listing):
        listed = Listing.at((), right.place, block.origin)
        block[first] = listed
        block.key_places.setdefault(first, right.place)
    item = next((one for one in listed if isinstance(one, Mapping) and one.get(found_by) == rest[0]), None)
    if item is None:
        name = Text.at(rest[0], right.place)
        name.origin = right.origin
        item = Mapping.around(found_by, name)
        listed.append(item)
    key = rest[1] if len(rest) > 1 else meant
    item[key] = right
    item.key_places.setdefault(key, right.place)


def written_of(block: Mapping) -> Iterator[tuple[str, Text]]:
    """Each value of a block by its way, as it was typed; lots together. The corrections are not among them."""
    for key, value in block.items():
        if isinstance(value, Text):
            yield key, value
        elif isinstance(value, Listing) and key in _LISTED:
            for item in value:
                yield from _of_an_item(key, item)
        elif isinstance(value, Listing) and key != "corrections":
            yield key, Text.at(", ".join(sorted(str(item) for item in value)), value.place)


def _of_an_item(listed: str, item: Node) -> Iterator[tuple[str, Text]]:
    if not isinstance(item, Mapping):
        return
    found_by, meant = _LISTED[listed]
    for key, value in item.items():
        if key != found_by and isinstance(value, Text):
            yield f"{listed}.{item.get(found_by)}" + ("" if key == meant else f".{key}"), value
