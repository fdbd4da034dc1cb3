"""Which values of the house nobody of this studio has decided, in the order in which that matters.

A value of the house is a suggestion until somebody of this studio has decided it: its entry, the house source that it
rests on, or its whole file. What stops the sheets has to be decided here whatever it rests on: a publication
carries the value, and the studio answers for keeping it.
"""

import datetime
from collections.abc import Collection, Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place
from generator.how_many import how_many
from generator.near_miss import did_you_mean, nearest
from generator.records.decided import Approved, Decided, HouseEntry, Rule
from generator.records.ended import is_over
from generator.records.families import STUDIO, Records
from generator.records.fields import Measure
from generator.records.kind import mistake_at
from generator.records.procedures import Review
from generator.records.references import references
from generator.records.studio import Studio

# A family, or one entry of it; what it is called, and why it matters.
Stops = Mapping[tuple[str, str], tuple[str, str]]
# What stops the sheets in every studio.
STOPS: Stops = {
    ("disinfectants", ""): ("contact times", "a surface that is wiped too early is not disinfected"),
    ("screening", ""): ("the screening", "it decides who waits, and who asks a doctor first"),
    ("scar-rules", ""): ("scar rules", "they decide what may go over a scar, and when"),
    ("values", "minimum-age"): ("the youngest age", "the law of your place decides who may be tattooed at all"),
}
# The example of the field, as the record reference shows it.
_INTERVAL = next(kind.example for kind in Review.model_fields["interval"].metadata if isinstance(kind, Measure)).text
# Why the values of a family matter, the one that can hurt most first.
_MATTERS: dict[str, str] = {
    "hygiene": "everybody works by it, and the boxes of each sheet come from it",
    "cycles": "what is sterilized by it goes into skin",
    "values": "procedures quote it",
    "barred-pigments": "an ink that holds it is not used",
    "inks": "it goes into skin",
    STUDIO.name: "every plan keeps to these limits",
    "techniques": "settings and times of every sheet come from it",
    "groupings": "needles are chosen by it",
    "machines": "dials are set by it",
    "calibrations": "dials in volts are set by it",
    "sites": "pose and cautions come from it",
    "people": "an artist's own settings go before the studio's",
    "required-training": "it decides who has to learn what, and when again",
    "supplies": "the tray is counted by it",
    "sources": "values rest on it",
}


class Undecided(NamedTuple):
    """One entry, or a whole file where `id` is empty, that nobody of this studio has decided.

    stops: what it is called where no sheet has working steps without it; empty where it stops none.
    """

    family: str
    id: str
    place: Place
    why: str
    stops: str = ""


@lru_cache(maxsize=1)
def undecided(records: Records) -> tuple[Undecided, ...]:
    """Everything that is not decided here, in the order in which it matters; found once for all jobs of a run."""
    stops = stopping(records.studio)
    order = [*STOPS, *stops, *((family, "") for family in _MATTERS)]
    ranked = []
    for family, entry, place in (*_not_on_file(records), *_not_decided(records, stops)):
        named = (family, entry) if (family, entry) in stops else (family, "")
        called, why = stops.get(named) or ("", _MATTERS[family])
        ranked.append((order.index(named), Undecided(family, entry, place, why, called)))
    return tuple(each for _, each in sorted(ranked, key=lambda pair: (pair[0], pair[1].place)))


def who_decided(entry: HouseEntry, records: Records) -> str:
    """Who decided an entry, and when, in words; “not decided here” where nobody has."""
    if entry.decided is None:
        return "not decided here"
    decided = _by_and_on(entry.decided, records)
    approved = entry.approved if isinstance(entry, Rule) else None
    return decided if approved is None else f"{decided}; approved by {_by_and_on(approved, records)}"


def _by_and_on(act: Decided | Approved, records: Records) -> str:
    person = records.people.get(act.by)
    return f"{act.by if person is None else person.name}, {act.on.isoformat()}"


def stopping(studio: Studio) -> Stops:
    """What stops the sheets here: what does so everywhere, and what the studio adds."""
    added = {}
    for name in studio.must_be_decided:
        family, _, entry = name.partition(".")
        added[family, entry] = name.replace("-", " ").replace(".", ": "), "your studio says so"
    return {**added, **STOPS}


def _not_decided(records: Records, stops: Stops) -> Iterator[tuple[str, str, Place]]:
    """The entries that are not decided, by family and id; the studio is one entry without an id."""
    for family in _MATTERS.keys() | {family for family, _ in stops}:
        if family != STUDIO.name:
            entries = records.family(family).values()
            yield from ((family, str(e.id), e.id.place) for e in entries if not is_decided(records, family, e))
        elif not is_decided(records, family, records.studio):
            yield family, "", records.studio.source.place


def _not_on_file(records: Records) -> Iterator[tuple[str, str, Place]]:
    """What stops the sheets and is not on file at all: no question, no rule, no contact time, no age."""
    for family, entry in STOPS:
        entries = records.family(family)
        if (entry not in entries if entry else not entries) and not _by_file(records, family):
            yield family, entry, Place(f"{records.folder}/{family}.yml", 1, 1, 2)


def is_decided(records: Records, family: str, entry: object) -> bool:
    """Whether somebody of this studio decided an entry, or nobody has to: it is published or common practice."""
    if family == "sources" or getattr(entry, "decided", None) is not None or _by_file(records, family, entry):
        return True
    named = [str(each) for each in references(entry) if each.family == "sources" and each in records.sources]
    rests_on = [records.sources[source] for source in named if records.sources[source].kind == "house"]
    stops = stopping(records.studio)
    if (family, getattr(entry, "id", "")) in stops or (family, "") in stops:
        return bool(rests_on) and all(source.decided is not None for source in rests_on)
    return all(source.decided is not None for source in rests_on)


def _by_file(records: Records, family: str, entry: object = None) -> bool:
    """Whether a file was decided as a whole; what was added after that day was not there to be decided."""
    review = records.reviews.get(family)
    if review is None or review.decided is None:
        return False
    added = getattr(entry, "added", None)
    return not isinstance(added, datetime.date) or added <= review.decided.on


def names_of_nothing(studio: Studio, families: Mapping[str, Collection[str]]) -> Iterator[Diagnostic]:
    """Names under `must_be_decided` of families or entries that there are not."""
    for name in studio.must_be_decided:
        part, _, entry = name.partition(".")
        known, expected = [STUDIO.name, *families], "a family of records"
        if part in known and entry:
            part, known, expected = entry, [*families.get(part, {})], f"the id of an entry in `{part}`"
        if part not in known:
            yield mistake_at(
                "L402",
                name,
                expected=expected,
                help_=did_you_mean(nearest(part, known), f"there are {', '.join(known[:12])}"),
                says=f"`must_be_decided` names `{part}`, which is not there",
            )


def undecided_findings(records: Records, as_of: datetime.date) -> Iterator[Diagnostic]:
    """Each value that is not decided here, with why it matters and the words to write, in the order of `undecided`."""
    people = ", ".join(str(p.id) for p in records.people.values() if not is_over(p.until, as_of)) or "an id of people"
    words = f"decided: {{by: ID, on: {as_of.isoformat()}}}"
    for each in undecided(records):
        what = f"`{each.id}` in {each.family}" if each.id else f"`{each.family}`"
        stops = f"no sheet has working steps without it ({each.stops}): " if each.stops else ""
        if each.family == "studio":
            where = "into the file"
        elif each.family in records.reviews:
            where = f"at the entry, or once for the file at `{each.family}` in reviews.yml"
        else:
            new = f"- {{id: {each.family}, owner: ID, interval: {_INTERVAL}, {words}}}"
            where = f"at the entry, or once for the file as an entry of reviews.yml, `{new}`"
        help_ = f"read it, mend it, and write `{words}` {where}; ID is who decides: {people}"
        yield _suggestion(each, help_, f"{stops}{each.why}", f"{what} is not decided here")


def undecided_in_short(records: Records) -> Iterator[Diagnostic]:
    """All that is not decided here in one reminder, at the first of it."""
    found = undecided(records)
    if found:
        number = how_many(len(found), "value is", "values are")
        help_ = "`check --undecided` lists them in the order in which they matter, with the words to write"
        stops = ", ".join(dict.fromkeys(each.stops for each in found if each.stops))
        yield _suggestion(found[0], help_, stops, f"{number} not decided here yet, this one first")


def _suggestion(each: Undecided, help_: str, note: str, says: str) -> Diagnostic:
    return Diagnostic(
        "H726",
        each.place,
        found="a suggestion",
        expected="a decision of somebody who works here",
        help=help_,
        note=note,
        says=says,
    )
