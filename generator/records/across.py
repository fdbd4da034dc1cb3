"""What only shows when all families have been read: how records of one family fit those of another."""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from itertools import pairwise

from generator.dates import AsOf
from generator.diagnostics import Diagnostic
from generator.near_miss import did_you_mean, nearest
from generator.quantities import within
from generator.records.acts import acts_by_strangers, approvals_that_are_none, reviews_by_nobody
from generator.records.client_page import COUNTED_IN
from generator.records.ended import Ended, is_over, not_here
from generator.records.families import REVIEWED, Records
from generator.records.ids import Reference
from generator.records.inks import Ink
from generator.records.kind import mistake_at, repeated
from generator.records.located import Text
from generator.records.needles import Grouping, Technique
from generator.records.people import Person, RequiredTraining
from generator.records.procedures import Reviewed
from generator.records.record import Entry
from generator.records.supplies import Supply
from generator.trade import labels, needles
from generator.trade.refusal import Refusal


def nothing_is_sterilized(loads: Iterable[Text]) -> Iterator[Diagnostic]:
    """Loads, by their ids, of a studio that says it sterilizes nothing."""
    for load in loads:
        yield mistake_at(
            "R331",
            load,
            expected="no loads",
            help_="write `reprocessing: yes` in studio.yml, or take the load away",
            says=f"there is a load `{load}`, and nothing is sterilized here",
        )


def across_families(records: Records) -> Iterator[Diagnostic]:
    """Everything in which entries do not fit those of another family; the studio may be lacking."""
    for check in (
        _reviews_of_nothing,
        _signatures_without_worth,
        _points_for_no_volts,
        _habits_beyond_their_machine,
        _washes_of_other_pigments,
        _days_of_no_days,
        _lots_of_two_inks,
        _widths_that_do_not_rise,
        acts_by_strangers,
        reviews_by_nobody,
        approvals_that_are_none,
    ):
        yield from check(records)


def _reviews_of_nothing(records: Records) -> Iterator[Diagnostic]:
    """Reviews of families that there are not."""
    names = sorted(REVIEWED)
    for review in records.reviews.values():
        if review.id not in names:
            yield mistake_at(
                "L402",
                review.id,
                expected="the name of a family, as its file is called without `.yml`",
                help_=did_you_mean(nearest(review.id, names), f"families: {', '.join(names)}"),
                says=f"there is no family of records called `{review.id}`",
            )


def _signatures_without_worth(records: Records) -> Iterator[Diagnostic]:
    """Signatures by oneself, the same one twice, and those to a text that was not there, or not yet."""
    for person in records.people.values():
        for signed, first in repeated(((s.procedure, s.text, s.on.isoformat(), s.by), s) for s in person.signed):
            yield mistake_at(
                "R318",
                signed.procedure,
                expected="each signature once",
                help_="take one of the two away",
                says=f"the signature to `{signed.procedure}` stands twice (first on line {first.procedure.place.line})",
            )
        for signed in person.signed:
            if signed.by == person.id:
                yield mistake_at(
                    "L404",
                    signed.by,
                    expected="somebody else, who watched it done",
                    help_="write who watched it done, or take the line away",
                    says=f"`{person.id}` is signed off by `{person.id}`",
                )
            procedure = records.procedures.get(signed.procedure)
            if procedure is None:
                continue  # one that is not there, or could not be read, has its own diagnostic
            if signed.text not in (revision.text for revision in procedure.revisions):
                listed = ", ".join(f"`{revision.text}`" for revision in procedure.revisions)
                yield mistake_at(
                    "L403",
                    signed.text,
                    expected="the hash of a text that the procedure lists",
                    help_=f"texts of `{procedure.id}`: {listed}; list this one there, "
                    "or copy the hash from the sign-off sheet",
                    says=f"`{procedure.id}` has no text `{signed.text}` on file",
                )
            for revision in procedure.revisions:
                if revision.text == signed.text and signed.on < revision.date:
                    yield mistake_at(
                        "L405",
                        signed.on,
                        expected=f"a day from {revision.date.isoformat()} on",
                        help_="mend one of the two dates, or name the text that was read on that day",
                        says=f"signed before the text `{signed.text}` of `{signed.procedure}` was there",
                    )


def _points_for_no_volts(records: Records) -> Iterator[Diagnostic]:
    """Calibrations of machines whose dial shows no volts."""
    for calibration in records.calibrations.values():
        machine = records.machines.get(calibration.machine)
        if machine is not None and machine.dial != "volts":
            yield mistake_at(
                "L406",
                calibration.machine,
                expected="a machine with `dial: volts`",
                help_=f"name the machine that was measured, or mend `dial` of `{machine.id}`",
                says=f"the dial of `{machine.id}` shows {machine.dial}, and is not calibrated by volts",
            )


def _habits_beyond_their_machine(records: Records) -> Iterator[Diagnostic]:
    """What an artist is said to be used to on a machine that can never be set to it: no sheet would show it."""
    for person in records.people.values():
        for own in person.own_settings:
            machine = None if own.machine is None else records.machines.get(own.machine)
            if machine is None:
                continue
            for habit, ranges in (
                (own.stroke, machine.strokes),
                (own.dial, (machine.limits,)),
                (own.hang_out, (machine.hang_out,)),
            ):
                if habit is None or any(
                    habit.kind == r.kind and within(habit.low, r.low, r.high, r.kind) for r in ranges
                ):
                    continue
                yield mistake_at(
                    "R317",
                    habit,
                    expected=", ".join(r.text for r in ranges),
                    help_=f"write what `{machine.id}` can be set to, name another machine, or take it away",
                    says=f"`{machine.id}` can never be set to what `{person.id}` is said to use on it",
                )


def _washes_of_other_pigments(records: Records) -> Iterator[Diagnostic]:
    """Washes that do not list a pigment of the ink they are mixed of: a barred one would be lost with the mixing."""
    for wash in records.inks.values():
        base = None if wash.mixed is None else records.inks.get(wash.mixed.of)
        missing = [pigment for pigment in (base.pigments if base else ()) if pigment not in wash.pigments]
        if base is not None and missing:
            yield mistake_at(
                "R317",
                wash.pigments[0],
                found=", ".join(wash.pigments),
                expected=f"the pigments of `{base.id}` too",
                help_=f"add {', '.join(missing)}, or mend `of`",
                says=f"`{wash.id}` is mixed of `{base.id}` and does not list all that is in it",
            )


def _days_of_no_days(records: Records) -> Iterator[Diagnostic]:
    """Lines of the client's page that count a day by a value that is no number of days or months."""
    for line in (line for section in records.client_page.values() for line in section.lines):
        value = None if line.after is None else records.values.get(line.after)
        if value is not None and value.is_.kind not in COUNTED_IN:
            yield mistake_at(
                "L409",
                line.after,
                found=f"“{value.is_.text}”",
                expected="a value in days, weeks or months",
                help_=f"name such a value, or quote this one as `{{{{ values.{line.after}.is }}}}`",
                says=f"no day can be counted by `{line.after}`",
            )


def _lots_of_two_inks(records: Records) -> Iterator[Diagnostic]:
    """Lots that stand at two inks, or twice at one. Two makers may use one code, so that it is only a reminder."""
    lots = ((lot.lot, (lot, ink)) for ink in records.inks.values() for lot in ink.lots)
    for (lot, ink), (_, first) in repeated(lots):
        yield mistake_at(
            "L407",
            lot.lot,
            expected="a lot of one ink",
            help_="look at both labels, and mend the one that was miscopied",
            says=f"the lot `{lot.lot}` of `{ink.id}` stands at `{first.id}` already",
        )


def _widths_that_do_not_rise(records: Records) -> Iterator[Diagnostic]:
    """Lines of which those of more needles are narrower than those of fewer, of one kind."""
    kinds: dict[object, list[tuple[int, float, Grouping]]] = {}
    for grouping in records.groupings.values():
        label, spread = labels.read_label(grouping.label), grouping.spread
        letters, count, wire = label.configuration, label.count, label.needle_diameter
        if grouping.until is not None:
            continue
        with suppress(Refusal):
            line = grouping.fresh_line
            hollow = grouping.packed == "hollow"
            width = needles.grouping_width(letters, count, wire, spread, hollow) if line is None else line.low
            kinds.setdefault((letters, wire, hollow, spread), []).append((count, width, grouping))
    for kind in kinds.values():
        for (count, before, fewer), (larger, width, more) in pairwise(sorted(kind, key=lambda one: one[0])):
            if count == larger or width >= before:
                continue
            measured = [one for one in (more, fewer) if one.fresh_line is not None]
            ways = [
                f"`{one.id}` {wide:.2f} mm as {'measured' if one.fresh_line else 'calculated'}"
                for one, wide in ((more, width), (fewer, before))
            ]
            yield mistake_at(
                "L412",
                measured[0].fresh_line,
                expected="a line that is wider with more needles of one kind",
                help_="measure both lines once more, on the same skin, and mend the one that was misread"
                if len(measured) == 2
                else "measure the other one too: what is calculated from the needles is no line",
                says=" and ".join(ways),
            )


def names_what_is_over(records: Records, as_of: AsOf) -> Iterator[Diagnostic]:
    """What the records choose by default or rely on, and is not here any more. What is past keeps what it names."""
    for entry in records.entries():
        if is_over(getattr(entry, "until", None), as_of):
            continue
        for name in _relied_on(entry):
            until: Ended | None = getattr(records.family(name.family).get(name), "until", None)
            if until is not None and is_over(until, as_of):
                yield Diagnostic(
                    "L410",
                    name.place,
                    found=f"“{name}”",
                    expected="what is here",
                    help="name another one, or take it away; jobs that are finished keep it",
                    says=f"`{entry.id}` relies on `{name}`, {not_here(until)}",
                    cause=f"`{name}` in {name.family}, {not_here(until)}",
                )


def _relied_on(entry: Entry) -> Iterator[Reference]:
    """The references of an entry that choose something for days to come."""
    if isinstance(entry, Reviewed):
        yield entry.owner
    elif isinstance(entry, Person):
        yield from (own.machine for own in entry.own_settings if own.machine is not None)
    elif isinstance(entry, Technique):
        yield from (entry.usual_grouping, *entry.rounds, *entry.machines)
    elif isinstance(entry, Ink) and entry.mixed is not None:
        yield entry.mixed.of
    elif isinstance(entry, Supply) and entry.or_else is not None:
        yield entry.or_else
    elif isinstance(entry, RequiredTraining):
        yield from entry.texts
