"""What a sheet says, read from its page: each thing by the name that it has on paper.

A published site keeps pages and no plans. So that two sheets can be compared, of which one is a page alone, both are
read in the same way.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

from generator.press.sheet.differences import NOTHING, Difference

_EMPTY = frozenset(("area", "br", "col", "hr", "img", "input", "link", "meta", "path", "source", "wbr", "circle"))
_UNREAD = frozenset(("script", "style", "svg", "title", "textarea", "button", "colgroup", "thead", "sup", "caption"))
# Said another time, drawn, for a screen alone, or the foot with stamp and day.
_NOT_SAID = frozenset(
    (
        *("narrow", "bare", "screen", "pictures", "maps", "now", "foot", "turn", "continues", "fill", "untick"),
        *("print-line", "on-phone", "appendix"),
    )
)
_CELLS = {"machine": "machine and stroke", "dial": "dial", "ink": "ink", "over": "passes at most", "minutes": "minutes"}
_STAMP = re.compile(r"stamp ([0-9a-f]{8})\b")


@dataclass
class _Node:
    tag: str
    kinds: frozenset[str]
    inside: list[_Node | str] = field(default_factory=list)

    @property
    def said(self) -> bool:
        return self.tag not in _UNREAD and not self.kinds & _NOT_SAID

    def text(self, without: frozenset[str] = frozenset()) -> str:
        """Its words, but for elements of these names or kinds."""
        return " ".join("".join(self._pieces(without)).split()).replace(" ,", ",")

    def _pieces(self, without: frozenset[str]) -> Iterator[str]:
        for item in self.inside:
            if isinstance(item, str):
                yield item
            elif item.said and not without & {item.tag, *item.kinds}:
                yield from item._pieces(without)
                yield "" if item.tag in ("a", "b", "span", "strong", "label", "i") else " "

    def all(self, name: str) -> Iterator[_Node]:
        """Every element inside of this name or kind."""
        for item in self.inside:
            if isinstance(item, _Node) and item.said:
                if name == item.tag or name in item.kinds:
                    yield item
                yield from item.all(name)

    def first(self, name: str) -> str:
        return next((node.text() for node in self.all(name)), "")


class _Tree(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.root = _Node("", frozenset())
        self.open = [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        node = _Node(tag, frozenset((dict(attrs).get("class") or "").split()))
        self.open[-1].inside.append(node)
        if tag not in _EMPTY:
            self.open.append(node)

    def handle_endtag(self, tag: str) -> None:
        for depth in range(len(self.open) - 1, 0, -1):
            if self.open[depth].tag == tag:
                del self.open[depth:]
                return

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)


def printed_stamp(html: str) -> str:
    """The stamp of a sheet's page; empty where there is none."""
    found = _STAMP.search(html)
    return found[1] if found else ""


def as_printed(html: str) -> dict[str, str]:
    """Everything that a sheet says, in its order; what stands under one name more than once is put together."""
    tree = _Tree()
    tree.feed(html)
    found: dict[str, list[str]] = {}
    for name, said in _read(tree.root, [""]):
        found.setdefault(name, []).append(said)
    return {name: "; ".join(said) for name, said in found.items()}


def printed_differences(was: dict[str, str], now: dict[str, str]) -> tuple[Difference, ...]:
    """What two sheets say otherwise, in the order of the later one."""
    return tuple(
        Difference(name, was.get(name, NOTHING), now.get(name, NOTHING))
        for name in dict.fromkeys((*now, *was))
        if was.get(name) != now.get(name)
    )


def _read(node: _Node, under: list[str]) -> Iterator[tuple[str, str]]:
    """Names and what is said under them. under: the last heading, which goes on from element to element."""
    for item in node.inside:
        if isinstance(item, str) or not item.said:
            continue
        if item.tag == "h1":
            yield "Title", item.text()
        elif "verdict" in item.kinds:
            yield "Verdict", item.first("strong")
        elif item.tag == "dl":
            pairs = zip(item.all("dt"), item.all("dd"), strict=False)
            yield from ((name.text().rstrip(":"), said.text()) for name, said in pairs)
        elif "reasons" in item.kinds:
            yield from (_reason(one) for one in item.all("li"))
        elif item.tag == "table":
            yield from _steps(item)
        elif item.kinds & {"pause", "more"}:
            # A box that has moved to where there is room is the same box.
            point = item.first("h2").removeprefix("More to tick ")
            yield from ((f"{point[:1].upper()}{point[1:]}: {one.text()}", "a box") for one in item.all("li"))
        elif "inks" in item.kinds:
            for one in item.all("li"):
                yield f"Ink {one.first('name')}", one.text(frozenset(("name",)))
        elif "tray" in item.kinds:
            yield from ((f"Tray, {one.text(frozenset('b')).rstrip(': ')}", one.first("b")) for one in item.all("li"))
        elif item.tag == "h2":
            under[0] = item.text(frozenset(("aside",)))
            yield from (pair for aside in item.all("aside") for pair in _on_a_line(aside))
        elif item.tag == "p" and "day" in item.kinds and any(True for _ in item.all("span")):
            yield from (pair for span in item.all("span") for pair in _on_a_line(span))
        elif item.tag == "p" and item.kinds & {"under", "sources", "legend"}:
            label = item.first("b").rstrip(":")
            yield label or under[0] or "Note", item.text()
        elif item.tag == "li":
            yield f"{under[0]}: {item.text()}" if under[0] else item.text(), "said"
        elif item.tag == "p":
            yield under[0] or "Note", item.text()
        else:
            yield from _read(item, under)


def _reason(one: _Node) -> tuple[str, str]:
    level, remedy = one.first("level").rstrip(":"), one.first("remedy").removeprefix("→ ")
    return f"Finding: {one.text(frozenset(('level', 'remedy')))}", f"{level}. {remedy}"


def _on_a_line(item: _Node) -> Iterator[tuple[str, str]]:
    """Labels, each with its value in bold behind it."""
    label = ""
    for part in item.inside:
        if isinstance(part, str):
            label += part
        elif part.tag == "b":
            yield " ".join(label.split()), part.text()
            label = ""


def _steps(table: _Node) -> Iterator[tuple[str, str]]:
    """Each number of a step by what it is, and the breaks by where they are."""
    last = "0"
    for row in table.all("tr"):
        if "break" in row.kinds:
            yield f"Break after step {last}", row.text()
            continue
        last = row.first("number") or last
        yield f"Step {last}, part and technique", row.first("step")
        for needle in row.all("needle"):
            yield f"Step {last}, needle", needle.text(frozenset(("beside",)))
            yield f"Step {last}, hang-out", needle.first("beside")
        for kind, name in _CELLS.items():
            yield f"Step {last}, {name}", row.first(kind)
