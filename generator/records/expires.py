"""What counts only for a time: when somebody is reminded before it is over, and what it means on the day of a job.

How long an opened ink, a measured dial or a training counts stands where each of them is written. What has no such
place names the value here.
"""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.fields import Choice, Measure
from generator.records.ids import ValueId
from generator.records.record import Record, optional


class Expiry(Record):
    """What follows when something is over, or when nobody wrote down until when it counts."""

    remind: Annotated[Quantity, Measure("days", "0 days", "366 days", "30 days")]
    """how long before its last day the check reminds of it"""
    on_the_day: Annotated[str, Choice(("care", "wait"), clears=("care",))]
    """what a job that needs it gets, when it is over on the day of the job"""


class ExpiryAfter(Expiry):
    """The same of what counts for a time that is a value of the house."""

    again: ValueId = Field(description="the value that says for how long it counts")


class Expires(Record):
    """One rule for each kind of thing. A kind without a rule waits, because nobody said that a care is enough."""

    opened_inks: Expiry | None = optional("bottles of ink: by their opened life and the printed expiry")
    sterile_packs: Expiry | None = None
    """sterile packs and other articles on the shelf: by the earliest date printed on them"""
    spore_tests: ExpiryAfter | None = optional("the last spore test that passed, where anything is sterilized here")
    patch_tests: ExpiryAfter | None = optional("patch tests of clients, written in their jobs")
    calibrations: Expiry | None = optional("dials in volts: by `limits.calibration_age`")
    training: Expiry | None = optional("training that a role needs: by its own entry")
    checks: Expiry | None = optional("checks that a role needs, such as of a vaccination: by their own entry")
    local_rules: ExpiryAfter | None = optional("local rules: those not confirmed, and those confirmed too long ago")
