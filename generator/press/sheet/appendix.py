"""How the numbers of a sheet came about: every computed number with its formula, its inputs and their sources.

It comes behind the two sides and is no part of them: the stamp is theirs alone.

Every computed value of a sheet is in it once, on a numbered line, and inputs that were computed refer to their line:
written out in full, one job would fill 120 pages.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from markupsafe import Markup, escape

from generator.planning.computed import Computed, Named, Operand, Recorded, add, sources_of
from generator.planning.plan import JobPlan, Work
from generator.planning.working.bands import ClosedBand
from generator.planning.working.placement import LimbEnd, Placement
from generator.press.explained.docstrings import documented, formulas
from generator.press.explained.origin import told
from generator.press.explained.worked import WorkedOut, answers, as_worked, to_formula, value_in_words
from generator.press.sheet.number_links import Explained, Of, OfStep, Once
from generator.press.sheet.view import Sheet
from generator.press.words.addresses import PAGE_OF, address, explained_address, to_record
from generator.press.words.formatted import short_citation, spelled
from generator.press.words.markup import link
from generator.records.families import Records


class AppendixLine(NamedTuple):
    """One computed number. `of` says whose it is; `sources` are numbers of the list below."""

    number: int
    of: str
    value: str
    formula: Markup
    answers: str
    inputs: tuple[Markup, ...]
    sources: Markup


class Chapter(NamedTuple):
    """All numbers of one kind, such as the dials."""

    title: str
    lines: tuple[AppendixLine, ...]


class Appendix(NamedTuple):
    """The whole of it; the sources begin with those of the two sides, under the same numbers.

    linked: the same sources, each leading to its row. lines: on which line a number is, by its chapter and what
    it is the number of.
    """

    chapters: tuple[Chapter, ...]
    sources: tuple[str, ...]
    linked: tuple[Markup, ...]
    lines: Mapping[tuple[Explained, Of], int]


_Rows = Iterable[tuple[Of, Operand | WorkedOut]]
# None for a number that a plan has not.
_PlanRows = Iterable[tuple[Of, Operand | WorkedOut | None]]


class _Entry(NamedTuple):
    """A value with its line and everything that it is the value of."""

    number: int
    of: list[Of]
    value: Operand | WorkedOut


def appendix_of(records: Records, plan: JobPlan, sheet: Sheet) -> Appendix:
    """Every computed number of a sheet, each once, with links from its page to records and formulas."""
    index = _Index()
    found = [(title, [(of, v) for of, v in rows if v is not None]) for title, rows in _chapters(records, plan)]
    written = [(title, _grouped(rows, index)) for title, rows in found]
    lines = {(title, of): number for title, rows in found for of, value in rows if (number := index.line_of(value))}
    written.append((Explained.BENEATH, _beneath(written, index)))
    writer = _Writer(records, explained_address(plan.job.id), index, list(sheet.sources))
    chapters = tuple(
        Chapter(title.value, tuple(writer.line(entry) for entry in entries)) for title, entries in written if entries
    )
    return Appendix(chapters, tuple(writer.cited), tuple(writer.linked()), lines)


def _chapters(records: Records, plan: JobPlan) -> Iterator[tuple[Explained, _PlanRows]]:
    place = plan.placement
    wider = [row for end in place.ends if end.wrap is not place.wrap for row in _around(end, f", {end.name}")]
    yield Explained.PLACE, [(Once.AREA, place.area), *_around(place), *wider, *_of_bands(plan.bands)]
    if plan.work is None:
        return
    yield from _settings(plan.work)
    yield Explained.TIMETABLE, _times(plan.work)
    tray = plan.work.at_hand.tray
    yield Explained.INK, [(poured.ink.name, poured.millilitres) for poured in tray.inks]
    yield Explained.CAPS, [(poured.ink.name, poured.caps) for poured in tray.inks]
    articles = [one for each in tray.supplies for one in (each, each.or_else) if one is not None and not one.instead]
    yield Explained.TRAY, [(counted.supply.name, counted.number) for counted in articles]
    coming = plan.work.next_sitting
    if coming is None:
        yield Explained.TOUCH_UP, [(Once.TOUCH_UP, as_worked(plan.work.touch_up, records))]
    elif coming.rested is not None:
        yield Explained.NEXT_SITTING, [(Once.NEXT_SITTING, as_worked(coming.rested, records))]


def _around(limb: Placement | LimbEnd, of: str = "") -> Iterator[tuple[Of, Operand | None]]:
    """How far it wraps and what is seen of it. of: at which end of the limb, where that is not the one of the sheet."""
    for once, value in ((Once.WRAP, limb.wrap), (Once.SEEN, limb.seen), (Once.LOOKS, limb.looks)):
        yield f"{once.value}{of}" if of else once, value


def _of_bands(bands: tuple[ClosedBand, ...]) -> Iterator[tuple[Of, Operand]]:
    """Where the ends of bands meet."""
    for band in bands:
        yield from ((f"opening of {band.part.id}, {level.name}", level.opening) for level in band.levels)
        yield f"angle of the ends of {band.part.id}", band.angle


def _settings(work: Work) -> Iterator[tuple[Explained, _PlanRows]]:
    steps = [(OfStep(str(stint.number)), step) for stint, step in work.at_hand.numbered]
    yield Explained.DIAL, [(of, step.setting.dial) for of, step in steps]
    yield Explained.HANG_OUT, [(of, step.setting.hang_out) for of, step in steps]
    yield Explained.SPACING, [(of, step.setting.spacing) for of, step in steps]
    over = [(f"step {of.number} over scar {over.scar}", over.passes) for of, step in steps for over in step.over]
    yield Explained.PASSES, [*((of, step.passes) for of, step in steps), *over]
    yield Explained.MINUTES, [(of, step.booked) for of, step in steps]
    yield Explained.PLAIN, [(of, step.minutes) for of, step in steps if step.minutes_learned is not None]


def _times(work: Work) -> Iterator[tuple[Of, Operand | None]]:
    table = work.at_hand.timetable
    yield Once.STENCIL, table.stencil
    yield Once.DRYING, table.dry
    yield Once.CLEANING, table.clean_skin
    yield Once.WORKING, table.working
    yield Once.BREAKS, table.breaks
    yield Once.WRAPPING, table.wrap
    yield Once.CHAIR, table.chair
    yield Once.WHOLE, table.whole
    yield Once.SITTINGS, work.timetable.sittings
    yield Once.PLAIN, None if table.plain is None else table.plain.working


class _Index:
    """Gives the same number to values that came about in the same way, and remembers them in order."""

    def __init__(self) -> None:
        self._contents: dict[object, int] = {}
        self._known: dict[int, int] = {}
        self.listed: dict[int, int] = {}

    def content(self, value: Operand | WorkedOut) -> int:
        """Equal for values of the same function, inputs and result. Values live as long as the plan does."""
        if id(value) not in self._known:
            made: object
            if isinstance(value, Computed | WorkedOut):
                result = value.words if isinstance(value, WorkedOut) else (value.low, value.high)
                made = value.function, result, tuple((name, self.content(inner)) for name, inner in value.inputs)
            else:
                made = (value.said, value.origin.keys) if isinstance(value, Named) else value
            self._known[id(value)] = self._contents.setdefault(made, len(self._contents))
        return self._known[id(value)]

    def enter(self, value: Operand | WorkedOut) -> int:
        """The line of a value, which is the next one when it has none yet."""
        return self.listed.setdefault(self.content(value), len(self.listed) + 1)

    def line_of(self, value: Operand | WorkedOut) -> int | None:
        return self.listed.get(self.content(value))


def _grouped(rows: _Rows, index: _Index) -> list[_Entry]:
    """The values of a chapter, those that came about in the same way as one; what is further up is left out."""
    found: dict[int, _Entry] = {}
    for of, value in rows:
        known = index.line_of(value)
        if known is not None and known not in found:
            continue
        number = index.enter(value)
        found.setdefault(number, _Entry(number, [], value)).of.append(of)
    return list(found.values())


def _beneath(chapters: list[tuple[Explained, list[_Entry]]], index: _Index) -> list[_Entry]:
    """The computed inputs that have no line of their own yet, all the way down."""
    waiting = [entry for _, entries in chapters for entry in entries]
    found = []
    for entry in waiting:
        for name, inner in entry.value.inputs if isinstance(entry.value, Computed | WorkedOut) else ():
            if isinstance(inner, Computed) and index.line_of(inner) is None:
                made = _Entry(index.enter(inner), [f"{spelled(name)} in no. {entry.number}"], inner)
                found.append(made)
                waiting.append(made)
    return found


def _joined(those: list[Of]) -> str:
    """What a line is of, in words; several steps together are “steps 1, 4”."""
    steps = [of.number for of in those if isinstance(of, OfStep)]
    if len(steps) == len(those) > 1:
        return f"steps {', '.join(steps)}"
    return ", ".join(
        f"step {of.number}" if isinstance(of, OfStep) else of.value if isinstance(of, Once) else of for of in those
    )


class _Writer(NamedTuple):
    """What every line needs to be put into words."""

    records: Records
    here: str
    known: _Index
    cited: list[str]

    def line(self, entry: _Entry) -> AppendixLine:
        """A value with its formula and inputs; a recorded one with its record."""
        value = entry.value
        linked = Markup("")
        said = value.words if isinstance(value, WorkedOut) else value_in_words(value, self.records, alone=True)
        if isinstance(value, Named | Recorded):
            sentence, cited = "Taken as recorded.", {value.origin.source}
            inputs: tuple[Markup, ...] = (told(value, self.records, self.here),)
        else:
            formula, name = value.function, spelled(value.function.__name__)
            linked = to_formula(self.here, formula, name)
            sentence = answers(formula)
            if formula in formulas():
                sentence = f"{sentence} ({documented(formula).source})"
            inputs, cited = tuple(self.inputs(value)), set().union(*(sources_of(inner) for _, inner in value.inputs))
        return AppendixLine(
            entry.number, _joined(entry.of), said, linked, sentence, inputs, self.numbers(sorted(cited))
        )

    def inputs(self, value: Computed | WorkedOut) -> Iterator[Markup]:
        """Each input with its record, or with the line that says how it was computed."""
        if value.function is add:
            yield Markup("; ").join(self.input("", inner) for _, inner in value.inputs)
            return
        for name, inner in value.inputs:
            yield self.input(f"{spelled(name)}:", inner)

    def input(self, name: str, inner: Operand) -> Markup:
        said, number = value_in_words(inner, self.records, alone=True), self.known.line_of(inner)
        if isinstance(inner, Computed) and number is not None:
            origin = f'see <a href="#number-{number}">no. {number}</a>'
        else:
            origin = "" if isinstance(inner, Computed) else told(inner, self.records, self.here)
        return Markup(f"{escape(f'{name} {said}')}, {origin}")

    def linked(self) -> Iterator[Markup]:
        """The sources, each leading to its row; a citation that several sources share leads to the page of them all."""
        ids: dict[str, list[str]] = {}
        for source in self.records.sources.values():
            ids.setdefault(short_citation(source, self.records), []).append(source.id)
        for text in self.cited:
            if len(ids.get(text, ())) == 1:
                yield to_record(self.here, "sources", ids[text][0], text)
            else:
                yield link(address(self.here, PAGE_OF["sources"]), text)

    def numbers(self, ids: list[str]) -> Markup:
        """The numbers of sources, each entered into the list when it is first named."""
        numbers = set()
        for source in ids:
            if source in self.records.sources:
                text = short_citation(self.records.sources[source], self.records)
                if text not in self.cited:
                    self.cited.append(text)
                numbers.add(self.cited.index(text) + 1)
        return Markup(", ".join(f'<a href="#source-{number}">{number}</a>' for number in sorted(numbers)))
