"""YAML text into values that know where they were written.

Built from PyYAML's events, so nothing is guessed: every scalar stays the text that was typed, and the
schema decides what it means. Repeated keys, anchors, tags and excessive size or depth are reported.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from typing import NamedTuple, Self

import yaml

from generator.diagnostics import Diagnostic, Place, Report
from generator.origins import NOWHERE, Origin

MOST_CHARACTERS = 4_000_000
MOST_DEPTH = 24


class Text(str):
    """A scalar as typed, with its place, and its origin once its record is known."""

    __slots__ = ("origin", "place")
    place: Place
    origin: Origin

    @classmethod
    def at(cls, text: str, place: Place) -> Self:
        made = cls(text)
        made.place, made.origin = place, NOWHERE
        return made


class Mapping(dict[str, "Node"]):
    """A mapping with its place and the places of its keys.

    `incomplete`: a key of it could not be used, so that none can be called missing.
    """

    place: Place
    key_places: dict[str, Place]
    incomplete: bool = False
    origin: Origin = NOWHERE

    @classmethod
    def around(cls, key: str, value: Node) -> Mapping:
        """A mapping that nobody wrote, of the one key that a value is written for."""
        made = cls({key: value})
        made.place, made.key_places, made.origin = value.place, {key: value.place}, value.origin
        return made


class Listing(list["Node"]):
    """A list with its place."""

    place: Place
    origin: Origin = NOWHERE

    @classmethod
    def at(cls, items: Iterable[Node], place: Place, origin: Origin = NOWHERE) -> Listing:
        made = cls(items)
        made.place, made.origin = place, origin
        return made


Node = Text | Mapping | Listing


def innermost(node: Node, way: Iterable[str | int]) -> Node:
    """What is found on the way into a node, or the last before what is not there."""
    for key in way:
        inner: Node | None = None
        if isinstance(node, Mapping) and isinstance(key, str):
            inner = node.get(key)
        elif isinstance(node, Listing) and isinstance(key, int) and key < len(node):
            inner = node[key]
        if inner is None:
            break
        node = inner
    return node


_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Located(NamedTuple):
    """A document's value, None where it cannot be read, and everything that is wrong with its form.

    hollow: places whose value is not known, so that nothing more is to be said about them.
    """

    node: Node | None
    report: Report
    hollow: frozenset[Place] = frozenset()


class _Unreadable(Exception):
    def __init__(self, diagnostic: Diagnostic) -> None:
        self.diagnostic = diagnostic


def read_located(text: str, file: str) -> Located:
    """The value of a document, every scalar as it was typed."""
    if len(text) > MOST_CHARACTERS:
        found, expected = f"{len(text)} characters", f"at most {MOST_CHARACTERS}"
        return Located(None, (_mistake("Y108", Place(file, 1, 1, 2), found, expected),))
    if strange := _strange(text, file):
        # Some of them end a line for the parser and not for an editor, so that no place behind them could be trusted.
        return Located(None, strange)
    builder = _Builder(file, text.split("\n"))
    try:
        value = builder.document(iter(yaml.parse(text, Loader=_Loader)))
    except yaml.MarkedYAMLError as error:
        return Located(None, (*builder.report, builder.syntax(error)))
    except yaml.reader.ReaderError as error:
        # The parser counts bytes here, so the character is looked for instead.
        wrong = error.character if isinstance(error.character, str) else chr(error.character)
        before = text[: max(text.find(wrong), 0)].split("\n")
        place = Place(file, len(before), len(before[-1]) + 1, len(before[-1]) + 2)
        return Located(None, (*builder.report, _mistake("Y102", place, f"character U+{ord(wrong):04X}", "text")))
    except _Unreadable as error:
        return Located(None, (*builder.report, error.diagnostic))
    return Located(value, tuple(builder.report), frozenset(builder.hollow | {d.place for d in builder.report}))


class _Builder:
    """Consumes the events of one document."""

    def __init__(self, file: str, lines: list[str]) -> None:
        self.file = file
        self.lines = lines
        self.report: list[Diagnostic] = []
        self.anchors: set[str] = set()
        self.hollow: set[Place] = set()
        # The last quoted scalar that ran over several lines, and the line on which it ended.
        self.quoted: tuple[Place, int] | None = None

    def document(self, events: Iterator[yaml.Event]) -> Node | None:
        value: Node | None = None
        seen = False
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if seen:
                    raise _Unreadable(_mistake("Y107", self.place(event), "a second document", "one document a file"))
                seen = True
            elif isinstance(event, yaml.NodeEvent):
                value = self.node(event, events, 1)
        return value

    def node(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        place = self.place(event)
        if depth > MOST_DEPTH:
            raise _Unreadable(_mistake("Y108", place, f"more than {MOST_DEPTH} levels", "a flatter record"))
        if isinstance(event, yaml.ScalarEvent):
            self.plain(event, place)
            return self.scalar(event, place)
        if isinstance(event, yaml.CollectionStartEvent):
            self.plain(event, place)
            if isinstance(event, yaml.MappingStartEvent):
                return self.mapping(place, events, depth)
            listing = Listing.at((), place)
            while not isinstance(item := next(events), yaml.SequenceEndEvent):
                listing.append(self.node(item, events, depth + 1))
            return listing
        assert isinstance(event, yaml.AliasEvent)
        # One mistake with its anchor, which was reported where it is.
        if event.anchor not in self.anchors:
            self.wrong("Y105", place, f"the alias *{event.anchor}", "the value itself")
        self.hollow.add(place)
        return Text.at("", place)

    def plain(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent, place: Place) -> None:
        """Report what YAML has for a value besides writing it."""
        if event.anchor:
            self.anchors.add(event.anchor)
            self.wrong("Y105", place, f"the anchor &{event.anchor}", "the value itself")
        if event.tag and event.tag != "!":
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            self.wrong("Y106", place, f"the tag {tag}", "the value itself")

    def scalar(self, event: yaml.ScalarEvent, place: Place) -> Text:
        start, end, value = event.start_mark, event.end_mark, event.value
        runs_on = bool(start and end and end.line > start.line)
        if runs_on and end and event.style in ("'", '"'):
            self.quoted = (place, end.line)
        if not value.isprintable():  # as nearly every one is
            held = runs_on or event.style in ("|", ">")
            for character in sorted(_hidden(value) | (set() if held else set("\n\t") & set(value)))[:1]:
                # Written as an escape in a quoted text.
                self.wrong("Y102", place, f"the character U+{ord(character):04X}", "text that is seen")
        return Text.at(value, place)

    def mapping(self, place: Place, events: Iterator[yaml.Event], depth: int) -> Mapping:
        made = Mapping()
        made.place = place
        made.key_places = {}
        while not isinstance(event := next(events), yaml.MappingEndEvent):
            key = self.node(event, events, depth + 1)
            value = self.node(next(events), events, depth + 1)
            if not value and isinstance(value, Text) and value.place.line != key.place.line:
                # Nothing is written: the parser sees that only at the next word, a person behind the colon.
                value = Text.at("", Place(self.file, key.place.line, key.place.end + 1, key.place.end + 2))
            if not isinstance(key, Text):
                self.wrong("Y104", key.place, "a key that is itself a list or mapping", "a word")
                self.incomplete(made)
            elif not value and (cut := self.cut_by_a_comma(made, key, value)) is not None:
                self.report.append(cut)
            elif key == "<<" and value.place in self.hollow:
                self.incomplete(made)
            elif key in made:
                first = made.key_places[key].line
                self.wrong("Y103", key.place, f"`{key}` again (first on line {first})", "each key once")
                self.incomplete(made)
            else:
                made[key] = value
                made.key_places[key] = key.place
        return made

    def cut_by_a_comma(self, made: Mapping, key: Text, value: Node) -> Diagnostic | None:
        """In braces a decimal comma ends the value: `{dial: 7,5 V}` reads as `dial: 7` and a key `5 V`."""
        before = next(reversed(made.values()), None)
        if not (isinstance(before, Text) and before.isdigit() and key[:1].isdigit() and value == ""):
            return None
        if before.place[:2] != key.place[:2] or key.place.column != before.place.end + 1:
            return None
        place = before.place._replace(end=key.place.end)
        whole = f"{before},{key}"
        self.hollow.add(before.place)
        return Diagnostic(
            "Q205",
            place,
            found=f"“{whole}”",
            expected="a decimal point",
            help=f"write `{before}.{key}`",
            says="a comma inside a number cuts it in two here",
        )

    def wrong(self, code: str, place: Place, found: str, expected: str) -> None:
        self.report.append(_mistake(code, place, found, expected))

    def incomplete(self, made: Mapping) -> None:
        made.incomplete = True
        self.hollow.add(made.place)

    def line(self, number: int) -> str:
        return self.lines[number] if number < len(self.lines) else ""

    def place(self, event: yaml.Event) -> Place:
        start, end = event.start_mark, event.end_mark
        assert start is not None and end is not None
        line, column = start.line, start.column + 1
        last = end.column if end.line == line else len(self.line(line).rstrip())
        return Place(self.file, line + 1, column, max(last, column) + 1)

    def syntax(self, error: yaml.MarkedYAMLError) -> Diagnostic:
        """What the parser stumbled over, at the place where a person has to mend it."""
        problem = str(error.problem or "the text cannot be read as YAML")
        mark, context = error.problem_mark or error.context_mark, str(error.context or "")
        if mark is None:
            return _broken(Place(self.file, 1, 1, 2), problem, context)
        at = mark
        line, opened = self.line(mark.line), error.context_mark
        if opened is not None and (
            "simple key" in context
            or ("quoted" in context and ("stream" in problem or "document" in problem))
            or ("flow" in context and mark.line > opened.line and _indent(line) <= _indent(self.line(opened.line)))
        ):
            # Something was opened, or a key begun, and not ended; the parser noticed it only later.
            at = opened
        place = Place(self.file, at.line + 1, at.column + 1, at.column + 2)
        if "\t" in line[: mark.column + 1] and ("tab" in problem or line[mark.column : mark.column + 1] == "\t"):
            return _mistake("Y109", place, "a tab", "spaces")
        if "document start" in problem:
            return _mistake("Y107", place, "a second document", "one document a file")
        if self.quoted and self.quoted[1] == mark.line and at is mark:
            return _broken(self.quoted[0], "this quote is closed only lines later, and text follows it", "")
        return _broken(place, problem, context)


def _hidden(text: str) -> set[str]:
    """The characters of a text that nobody sees: controls, overrides of direction, of no width, line separators.

    Their Unicode categories say so: Cc, Cf, Cs, Zl and Zp. Line ends and tabs are left to the form of the text.
    """
    if text.isprintable():  # as nearly every scalar is
        return set()
    unseen = {c for c in set(text) if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp")}
    return unseen - set("\n\t\r")


def _strange(text: str, file: str) -> Report:
    """A diagnostic for each hidden character of a file, comments too: what is read there is not what is written."""
    wrong = "".join(map(re.escape, sorted(_hidden(text))))
    found: list[Diagnostic] = []
    for number, line in enumerate(text.split("\n"), 1) if wrong or "\r" in text else ():
        for at in re.finditer(f"[{wrong}]|\r(?!$)" if wrong else "\r(?!$)", line):
            place = Place(file, number, at.start() + 1, at.start() + 2)
            found.append(_mistake("Y102", place, f"the character U+{ord(at[0]):04X}", "text that is seen"))
    return tuple(found)


def _indent(line: str) -> int:
    """How far in the text of a line begins; the dash of a list counts as indentation."""
    return len(line) - len(line.lstrip(" -"))


_MENDING = {
    "Y101": "look at this line and the one above: quotes and brackets closed, a space after every colon and dash, "
    "the same indentation for entries that belong together, quotes around text that begins with a sign",
    "Y102": "take this character out; save the file as UTF-8 text",
    "Y103": "keep one of the two; nothing is chosen for you",
    "Y104": "a key is one word, then a colon, then its value",
    "Y105": "write the value out wherever it is needed; records do not point into each other this way",
    "Y106": "take the tag away; what a value means is decided by its field",
    "Y107": "put the second part into a file of its own, or take the line `---` away",
    "Y108": "split the file; a record is small",
    "Y109": "indent with spaces",
}


def _broken(place: Place, problem: str, context: str) -> Diagnostic:
    says = f"this is not readable as YAML: {problem} {context}".rstrip()
    return _mistake("Y101", place, problem, "well-formed YAML", says)


def _mistake(code: str, place: Place, found: str, expected: str, says: str = "") -> Diagnostic:
    return Diagnostic(code, place, found=found, expected=expected, help=_MENDING[code], says=says)
