"""Which families of records there are, in which file each is written, and what it holds."""

from dataclasses import dataclass
from typing import NamedTuple

from generator.diagnostics import Place
from generator.records.asked import Asked
from generator.records.client_page import ClientSection
from generator.records.decided import Change
from generator.records.hygiene import Disinfectant, HygieneStep
from generator.records.inks import BarredPigment, Ink
from generator.records.jobs import Job
from generator.records.located import Text
from generator.records.machines import Calibration, Machine
from generator.records.needles import Grouping, Technique
from generator.records.people import Person, RequiredTraining
from generator.records.procedures import Procedure, Review
from generator.records.record import Entry, Record
from generator.records.rules import Question, ScarRule
from generator.records.sites import Site
from generator.records.sources import SourceRecord
from generator.records.sterilizer import Cycle, Load
from generator.records.studio import Studio
from generator.records.supplies import Supply
from generator.records.values import Value


class Family(NamedTuple):
    """One family: its name in references, its model, what it holds in one sentence.

    own: keys under which the studio writes what it counted itself, wherever the entry's other values come from.
    """

    name: str
    model: type[Record]
    holds: str
    own: tuple[str, ...] = ()

    @property
    def file(self) -> str:
        return f"{self.name}.yml"


STUDIO = Family("studio", Studio, "The studio: units, paper, the limits it keeps, local rules to confirm.")
JOBS = Family("jobs", Job, "One client's piece in a file of its own, named after its id.")
# How the name of the kept values of a finished job ends.
WORKED = ".worked.json"
LISTED: tuple[Family, ...] = (
    Family("sources", SourceRecord, "Where values and rules come from."),
    Family("machines", Machine, "The machines and what their dials show."),
    Family("calibrations", Calibration, "Measured points: dial volts against frequency."),
    Family("groupings", Grouping, "The needle groupings on the shelf.", own=("shelf",)),
    Family("techniques", Technique, "Ways of working, with speeds, hang-out and pace."),
    Family("inks", Ink, "Inks with pigments and lots.", own=("shelf",)),
    Family("barred-pigments", BarredPigment, "Pigments that may not be used, by region and date."),
    Family("sites", Site, "Places on the body."),
    Family("scar-rules", ScarRule, "What may go over which scar."),
    Family("screening", Question, "What is asked before a client sits down."),
    Family("disinfectants", Disinfectant, "Disinfectants with contact times and dilutions."),
    Family("hygiene", HygieneStep, "Hygiene step by step."),
    Family("cycles", Cycle, "Sterilizer cycles: temperature, hold and drying."),
    Family("loads", Load, "Loads of the sterilizer, where anything is sterilized here."),
    Family("supplies", Supply, "What is used up."),
    Family("values", Value, "Numbers that procedures quote and that no other record holds."),
    Family("client-page", ClientSection, "What the client reads and takes home, in plain words."),
    Family("asked", Asked, "What published lists want in writing, and where the handbook answers it."),
    Family("people", Person, "Who works here."),
    Family(
        "required-training", RequiredTraining, "The trainings and checks that a role needs, and when each is repeated."
    ),
    Family("procedures", Procedure, "The procedures: who answers for each, who reads it, how its text changed."),
    Family("changes", Change, "What changed in the studio's rules: which value, when, by whom and why."),
    Family("reviews", Review, "Who looks after each family of records, and when it is looked at again."),
)
ALL: tuple[Family, ...] = (STUDIO, *LISTED, JOBS)
# Procedures say themselves when they are reviewed; a job is done and not reviewed.
REVIEWED: tuple[str, ...] = (
    STUDIO.name,
    *(f.name for f in LISTED if f.name not in ("procedures", "changes", "reviews")),
)


@dataclass(frozen=True, eq=False)
class Records:
    """Everything the studio wrote down but its jobs, each family by id in the order of its file.

    They are equal to themselves alone, so that what was found in them can be kept.
    """

    folder: str
    studio: Studio
    sources: dict[str, SourceRecord]
    machines: dict[str, Machine]
    calibrations: dict[str, Calibration]
    groupings: dict[str, Grouping]
    techniques: dict[str, Technique]
    inks: dict[str, Ink]
    barred_pigments: dict[str, BarredPigment]
    sites: dict[str, Site]
    scar_rules: dict[str, ScarRule]
    screening: dict[str, Question]
    disinfectants: dict[str, Disinfectant]
    hygiene: dict[str, HygieneStep]
    cycles: dict[str, Cycle]
    loads: dict[str, Load]
    supplies: dict[str, Supply]
    values: dict[str, Value]
    client_page: dict[str, ClientSection]
    asked: dict[str, Asked]
    people: dict[str, Person]
    required_training: dict[str, RequiredTraining]
    procedures: dict[str, Procedure]
    changes: dict[str, Change]
    reviews: dict[str, Review]

    def family(self, name: str) -> dict[str, Entry]:
        """The entries of a family by the name that references use."""
        return getattr(self, name.replace("-", "_"))  # type: ignore[no-any-return]

    def entries(self) -> list[Entry]:
        """The entries of all families."""
        return [entry for family in LISTED for entry in self.family(family.name).values()]


class Known(NamedTuple):
    """What references may point to: the ids of each family, and the families whose ids are not all known."""

    ids: dict[str, dict[Text, Place]]
    open: frozenset[str]
