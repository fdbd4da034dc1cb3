"""What a sheet says, read from its page: each thing by the name that it has on paper.

A published site keeps pages and no plans. So that two sheets can be compared, of which one is a page alone, both are
read in the same way. What may tell an answer of the client is marked there by the class `may-tell`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import NamedTuple

from generator.planning.findings.states import NOT_WORKED, State
from generator.press.sheet.differences import NOTHING

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
_MAY_TELL = "may-tell"
_STATE = re.compile(r'<div class="verdict ([\w-]+)">')
_OF_NO_PLAN = (State.FINISHED, *NOT_WORKED.values())


class SaidOnSheet(NamedTuple):
    """One thing that a sheet says. told: what may be said of it elsewhere; None where it may tell an answer."""

    said: str
    told: str | None


# Everything that a sheet says, by its name on paper.
OnSheet = Mapping[str, SaidOnSheet]


@dataclass
class _Node:
    """An element; of: what it is marked to belong to; may_tell: whether it, or what holds it, may tell an answer."""

    tag: str
    kinds: frozenset[str] = frozenset()
    of: str = ""
    may_tell: bool = False
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
        self.root = _Node("")
        self.open = [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        written, holder = dict(attrs), self.open[-1]
        kinds = frozenset((written.get("class") or "").split())
        node = _Node(tag, kinds, written.get("data-of") or "", holder.may_tell or _MAY_TELL in kinds)
        holder.inside.append(node)
        if tag not in _EMPTY:
            self.open.append(node)

    def handle_endtag(self, tag: str) -> None:
        for depth in range(len(self.open) - 1, 0, -1):
            if self.open[depth].tag == tag:
                del self.open[depth:]
                return

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)


def printed_state(html: str) -> State | None:
    """The state of the job on a sheet's page; None where there is none that this program knows."""
    found = _STATE.search(html)
    return None if found is None else next((state for state in State if state.mark == found[1]), None)


def as_printed(html: str) -> OnSheet:
    """Everything that a sheet says, in its order; what stands under one name more than once is put together.

    A page without marks was made by an older program: all of it may tell an answer.
    """
    tree = _Tree()
    tree.feed(html)
    marked = next(tree.root.all(_MAY_TELL), None) is not None
    found: dict[str, list[SaidOnSheet]] = {}
    for name, said, of in _read(tree.root, [""]):
        found.setdefault(name, []).append(SaidOnSheet(said, said if marked and not of.may_tell else None))
    state = printed_state(html)
    if "Verdict" in found and state not in _OF_NO_PLAN:
        # Lists say the word of a plan's state, and neither a day nor who is asked.
        listed = None if state is None else state.listed
        found["Verdict"] = [line._replace(told=listed) for line in found["Verdict"]]
    return {name: _together(lines) for name, lines in found.items()}


def _together(lines: list[SaidOnSheet]) -> SaidOnSheet:
    """Lines of one name; what both sides of a sheet say is said once."""
    told = [line.told for line in lines if line.told is not None]
    said = "; ".join(dict.fromkeys(line.said for line in lines))
    return SaidOnSheet(said, "; ".join(dict.fromkeys(told)) if len(told) == len(lines) else None)


def printed_differences(was: OnSheet, now: OnSheet) -> Iterator[tuple[str, SaidOnSheet, SaidOnSheet]]:
    """What two sheets say otherwise by its name, in the order of the later one."""
    nothing = SaidOnSheet(NOTHING, NOTHING)
    for name in dict.fromkeys((*now, *was)):
        before, after = was.get(name, nothing), now.get(name, nothing)
        if before.said != after.said:
            yield name, before, after


def _read(node: _Node, under: list[str]) -> Iterator[tuple[str, str, _Node]]:
    """Names, what is said under them, and where. under: the last heading, which goes on from element to element."""
    for item in node.inside:
        if isinstance(item, str) or not item.said:
            continue
        if item.tag == "h1":
            yield "Title", item.text(), item
        elif "verdict" in item.kinds:
            yield "Verdict", item.first("strong"), item
        elif item.tag == "dl":
            pairs = zip(item.all("dt"), item.all("dd"), strict=False)
            yield from ((name.text().rstrip(":"), said.text(), name) for name, said in pairs)
        elif "reasons" in item.kinds:
            yield from ((*_reason(one), one) for one in item.all("li"))
        elif item.tag == "table":
            yield from ((*step, item) for step in _steps(item))
        elif item.kinds & {"pause", "more"}:
            # A box that has moved to where there is room is the same box.
            yield from ((f"{item.of}: {one.text()}", "a box", one) for one in item.all("li"))
        elif "inks" in item.kinds:
            for one in item.all("li"):
                yield f"Ink {one.first('name')}", one.text(frozenset(("name",))), one
        elif "tray" in item.kinds:
            for one in item.all("li"):
                yield f"Tray, {one.text(frozenset('b')).rstrip(': ')}", one.first("b"), one
        elif item.tag == "h2":
            under[0] = item.text(frozenset(("aside",)))
            yield from ((*pair, item) for aside in item.all("aside") for pair in _on_a_line(aside))
        elif item.tag == "p" and "day" in item.kinds and any(True for _ in item.all("span")):
            yield from ((*pair, item) for span in item.all("span") for pair in _on_a_line(span))
        elif item.tag == "p" and (parts := [span for span in item.all("span") if span.of]):
            yield from ((span.of, span.text(), span) for span in parts)
        elif item.tag == "p" and item.kinds & {"under", "sources", "legend"}:
            label = item.first("b").rstrip(":")
            yield label or under[0] or "Note", item.text(), item
        elif item.tag == "li":
            yield f"{under[0]}: {item.text()}" if under[0] else item.text(), "said", item
        elif item.tag == "p":
            yield under[0] or "Note", item.text(), item
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
