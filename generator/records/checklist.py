"""What a box of the checklist may look at and quote: facts of the job, and things of which it has several.

    when: {job.hand: left}                                  a condition, as rules for scars have one
    for_each: scar, tick: "Scar {{ scar.name }} is ..."      one box for each scar

Neither the screening's answers nor the cause of a scar are among them, so that no box can tell one.
"""

import re
from collections.abc import Collection, Iterable
from typing import NamedTuple

from generator.near_miss import did_you_mean, nearest
from generator.records.conditions import FACTS
from generator.records.fields import Choice, Measure, Words, YesNo
from generator.records.kind import Kind, problem
from generator.records.located import Text
from generator.records.skin import DARKNESSES

# A letter or a point behind the braces; braces around anything else are only words.
QUOTE = re.compile(r"\{\{(?=\s*[.A-Za-z])(?:(?P<path>[^{}]*)\}\})?")
JOB = "job"
# What texts of the client's page quote: the sitting, and days that are counted from it.
SITTING, AFTER = "sitting", "after"
# The boxes that never go to a second sheet, whatever else a pause point holds. Each has a step of its own.
NEVER_YIELDS = (
    "hands and gloves",
    "sharps bin",
    "packs sterile and in date",
    "photo ID and consent",
    "asked again",
    "skin looked at",
)
STANDINGS = (*NEVER_YIELDS, "this job", "usual")


class Quotable(NamedTuple):
    """What a job has several of: what conditions may look at, and what texts may quote, each in words.

    may_tell: whether a box for each of them may tell what the client answered.
    """

    facts: dict[str, Kind[object]]
    quotes: dict[str, str]
    may_tell: bool = False


def _of_a_box(fact: str) -> bool:
    """Whether a fact is of a scar and may be printed."""
    return fact.startswith("scar.") and fact not in ("scar.after", "scar.scale")


def _yes_or_no(facts: str) -> dict[str, Kind[object]]:
    return dict.fromkeys(facts.split(), YesNo())


OF_THE_JOB = Quotable(
    {
        "hand": Choice(("left", "right")),
        **_yes_or_no("supervised arc aged limb mixes swaps stencil last-sitting worked-before"),
    },
    {
        "artist": "the artist",
        "pose": "the pose",
        "bands": "the bands",
        "supervisor": "who supervises",
        "asked": "day of the screening",
        "aged": "what is asked again",
        "again": "first day of the touch-up or of the next sitting",
    },
)
THINGS: dict[str, Quotable] = {
    "scar": Quotable(
        {
            **{fact.removeprefix("scar."): kind for fact, kind in FACTS.items() if _of_a_box(fact)},
            "crossed": YesNo(),
        },
        {
            "name": "its name",
            "look": "how it looked and felt",
            "parts": "the parts that cross it",
            "today": "what the rules say to do",
        },
        may_tell=True,
    ),
    "mole": Quotable(
        {"keep": Measure("length", "1 mm", "80 mm", "8 mm")},
        {"name": "its name on the map", "right": "its place across", "down": "its place down", "keep": "its ring"},
    ),
    "tattoo": Quotable(
        {"covered": YesNo(), "darkness": Choice(DARKNESSES)},
        {"name": "its name", "parts": "the parts that cover it"},
    ),
    "allergy": Quotable({"swapped": YesNo()}, {"name": "what it is"}, may_tell=True),
    "swap": Quotable(
        {"replaced": YesNo()}, {"supply": "what stays off the tray", "instead": "what is taken instead"}, may_tell=True
    ),
    "mix": Quotable({}, {"name": "the wash", "of": "its ink", "ink": "parts of ink", "water": "parts of water"}),
    "ink": Quotable(
        {"kind": Choice(("black", "wash", "colour", "white")), "mixed": YesNo(), "caution": YesNo()},
        {"name": "the ink", "caution": "its caution"},
    ),
    "machine": Quotable(
        {"dial": Choice(("Hz", "volts"))},
        {"name": "the machine", "stroke": "its stroke", "dial": "the dial of its first row"},
    ),
}

_ALL = {JOB: OF_THE_JOB, **THINGS}
# What follows from the answers of a client, of the facts that a whole job has.
_MAY_TELL = frozenset((f"{JOB}.swaps",))
CHECKLIST_FACTS: dict[str, Kind[object]] = {
    f"{name}.{fact}": kind for name, thing in _ALL.items() for fact, kind in thing.facts.items()
}
CHECKLIST_QUOTES: dict[str, str] = {
    f"{name}.{quote}": said for name, thing in _ALL.items() for quote, said in thing.quotes.items()
}


class JobText(Text):
    """A text that quotes the job for which it is printed; those quotes are filled in when the job is planned."""

    __slots__ = ()


def may_tell(thing: str | None, facts: Iterable[str]) -> bool:
    """Whether a box, printed for each of a thing or where facts hold, may tell what the client answered."""
    return (thing is not None and THINGS[thing].may_tell) or not _MAY_TELL.isdisjoint(facts)


def quotes_a_job(path: str) -> bool:
    """Whether a quote is one of a job and its things, and not of the studio's records."""
    return path.strip().partition(".")[0] in (*_ALL, SITTING, AFTER)


def quotes_of(text: str) -> list[str]:
    """What a text quotes of a job and its things, in its order."""
    paths = ((piece["path"] or "").strip() for piece in QUOTE.finditer(getattr(text, "written", text)))
    return [path for path in paths if quotes_a_job(path)]


def only_known(quotes: Iterable[str], known: Collection[str], key: str, who: str) -> None:
    """Raise a mistake at the first of the quotes in a key that nothing answers. who: what quotes, with its article."""
    for path in (path for path in quotes if path not in known):
        raise problem(
            "H701",
            key,
            found=f"“{path}”",
            expected=f"something that {who} can quote",
            help_=did_you_mean(nearest(path, known), f"write one of {', '.join(known)}"),
            says=f"`{path}` is not something that {who} can quote",
        )


class TickWords(Words):
    """The words of a box."""

    def read(self, text: Text) -> str:
        super().read(text)
        return JobText.at(text, text.place)
