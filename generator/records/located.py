"""YAML text into values that know where they were written.

Built from PyYAML's events, so nothing is guessed: every scalar stays the text that was typed, and the
schema decides what it means. Repeated keys, anchors, tags and excessive size or depth are reported.
"""

from __future__ import annotations

from collections.abc import Iterator

import yaml

from generator.diagnostics import Diagnostic, Place, Report

MOST_CHARACTERS = 4_000_000
MOST_DEPTH = 24


class Text(str):
    """A scalar as typed, with its place."""

    __slots__ = ("place",)
    place: Place

    @classmethod
    def at(cls, text: str, place: Place) -> Text:
        made = cls(text)
        made.place = place
        return made


class Mapping(dict[str, "Node"]):
    """A mapping with its place and the places of its keys."""

    place: Place
    key_places: dict[str, Place]


class Listing(list["Node"]):
    """A list with its place."""

    place: Place


Node = Text | Mapping | Listing

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class _Unreadable(Exception):
    def __init__(self, diagnostic: Diagnostic) -> None:
        self.diagnostic = diagnostic


def read_located(text: str, file: str) -> tuple[Node | None, Report]:
    """The document's value, or None where it cannot be read, and everything that is wrong with its form."""
    if len(text) > MOST_CHARACTERS:
        return None, (_mistake("Y108", Place(file, 1, 1, 2), f"{len(text)} characters", f"at most {MOST_CHARACTERS}"),)
    builder = _Builder(file, text.split("\n"))
    try:
        value = builder.document(iter(yaml.parse(text, Loader=_Loader)))
    except yaml.MarkedYAMLError as error:
        return None, (*builder.report, _syntax(error, file))
    except yaml.reader.ReaderError as error:
        before = text[: error.position].split("\n")
        place = Place(file, len(before), len(before[-1]) + 1, len(before[-1]) + 2)
        return None, (*builder.report, _mistake("Y102", place, f"character U+{ord(text[error.position]):04X}", "text"))
    except _Unreadable as error:
        return None, (*builder.report, error.diagnostic)
    return value, tuple(builder.report)


class _Builder:
    """Consumes the events of one document."""

    def __init__(self, file: str, lines: list[str]) -> None:
        self.file = file
        self.lines = lines
        self.report: list[Diagnostic] = []

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
        if isinstance(event, yaml.AliasEvent):
            self.report.append(_mistake("Y105", place, f"the alias *{event.anchor}", "the value itself"))
            return Text.at("", place)
        assert isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent)
        if event.anchor:
            self.report.append(_mistake("Y105", place, f"the anchor &{event.anchor}", "the value itself"))
        if event.tag and event.tag != "!":
            self.report.append(_mistake("Y106", place, f"the tag {event.tag}", "the value itself"))
        if isinstance(event, yaml.ScalarEvent):
            return Text.at(event.value, place)
        if isinstance(event, yaml.MappingStartEvent):
            return self.mapping(place, events, depth)
        listing = Listing()
        listing.place = place
        while not isinstance(item := next(events), yaml.SequenceEndEvent):
            listing.append(self.node(item, events, depth + 1))
        return listing

    def mapping(self, place: Place, events: Iterator[yaml.Event], depth: int) -> Mapping:
        made = Mapping()
        made.place = place
        made.key_places = {}
        while not isinstance(event := next(events), yaml.MappingEndEvent):
            key = self.node(event, events, depth + 1)
            value = self.node(next(events), events, depth + 1)
            if not isinstance(key, Text):
                self.report.append(_mistake("Y104", key.place, "a key that is itself a list or mapping", "a word"))
            elif key in made:
                first = made.key_places[key].line
                self.report.append(
                    _mistake("Y103", key.place, f"`{key}` again (first on line {first})", "each key once")
                )
            else:
                made[key] = value
                made.key_places[key] = key.place
        return made

    def place(self, event: yaml.Event) -> Place:
        start, end = event.start_mark, event.end_mark
        assert start is not None and end is not None
        line = self.lines[start.line] if start.line < len(self.lines) else ""
        last = end.column if end.line == start.line else len(line.rstrip())
        return Place(self.file, start.line + 1, start.column + 1, max(last, start.column + 1) + 1)


_MENDING = {
    "Y101": "look at this line and the one above: quotes and brackets closed, a space after every colon and dash, "
    "the same indentation for entries that belong together",
    "Y102": "save the file as UTF-8 text and take this character out",
    "Y103": "keep one of the two; nothing is chosen for you",
    "Y104": "a key is one word, then a colon, then its value",
    "Y105": "write the value out where it is needed; records do not point into each other this way",
    "Y106": "take the tag away; what a value means is decided by its field",
    "Y107": "put the second part into a file of its own, or take the line `---` away",
    "Y108": "split the file; a record is small",
    "Y109": "indent with spaces",
}


def _mistake(code: str, place: Place, found: str, expected: str) -> Diagnostic:
    return Diagnostic(code, place, f"expected {expected}, found {found}", found, expected, _MENDING[code])


def _syntax(error: yaml.MarkedYAMLError, file: str) -> Diagnostic:
    mark = error.problem_mark or error.context_mark
    place = Place(file, mark.line + 1, mark.column + 1, mark.column + 2) if mark is not None else Place(file, 1, 1, 2)
    problem = str(error.problem or "the text cannot be read as YAML")
    if "\\t" in problem or "tab" in problem:
        return _mistake("Y109", place, "a tab", "spaces")
    context = f" {error.context}" if error.context else ""
    message = f"this is not readable as YAML: {problem}{context}"
    return Diagnostic("Y101", place, message, problem, "well-formed YAML", _MENDING["Y101"])
