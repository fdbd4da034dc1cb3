"""One client's piece. Who the client is has no place here: a reference code points to the consent file."""

import datetime
from typing import Annotated, Any

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from generator.diagnostics import Place
from generator.near_miss import did_you_mean, nearest
from generator.origins import origin_of
from generator.quantities import Quantity
from generator.records.afterwards import Earlier, Finished, FollowUp
from generator.records.client import Allergies, ClientCode, Girth, NotPrivate, Numbing, PatchTest, ScreeningOrUnknown
from generator.records.days import Clock, Date, Day, Hour
from generator.records.fields import Choice, Count, Measure, Name, NoneOr, Note, OneOrMore, OrNone, Pair, Sentence, Yes
from generator.records.ids import InkId, PersonId, Ref, Reference
from generator.records.kept_elsewhere import Drawing, PhotoCode
from generator.records.kind import clashing, problem
from generator.records.located import Listing, Mapping, Text
from generator.records.parts import WAYS_TO_CLOSE, Choices, Part, fill_broken_parts, fill_shapes
from generator.records.people import OrderOfAreas
from generator.records.record import Entry, between_keys, optional
from generator.records.skin import ExistingTattoo, Mole, Scar, Skin

CANCELLED, POSTPONED, NO_SHOW = NOT_WORKED = ("cancelled", "postponed", "no-show")
# What an enquiry may leave out, until the client is asked the questions of the screening.
_AGREED_LATER = ("client", "title", "artist", "date", "start", "side")
_LATER = "; needed once the client was asked"
NO_REFERENCE = "none yet"
# Before it is planned, an enquiry has nobody, and a day so late that nothing is laid out for it.
_NOBODY: Any = None
_NO_DAY: Any = datetime.date(2199, 12, 31)


def _left_open(key: str, at: Place | str, mend: str) -> PydanticCustomError:
    return problem(
        "R302",
        at,
        found="nothing",
        expected=f"`{key}`",
        help_=f"{mend} open, until the client was asked the questions of the screening",
        says=f"the key `{key}` is missing",
    )


# The keys of a job that hold what its client answered, or that follow from it.
HOLD_ANSWERS = frozenset(("screening", "allergies", "numbing", "patch_tests", "not_private"))


class Job(Entry, Choices):
    """One client's piece. A machine, stroke, dial or hang-out named here holds for all rows that name no other."""

    draft: Yes = False
    """`yes` while somebody still writes it: what is wrong in it stops nothing, and it has no sheet"""
    client: ClientCode = Field(default=NO_REFERENCE, description=f"reference code of the consent file{_LATER}")
    title: Name = Field(default="Enquiry", description=f"what it is, in a few words{_LATER}")
    artist: PersonId = Field(default=_NOBODY, description=f"who works{_LATER}")
    supervisor: PersonId | None = optional("the artist who has decided that they may, and watches the whole time")
    date: Annotated[Date, Day()] = Field(default=_NO_DAY, description=f"day of the sitting{_LATER}")
    start: Annotated[Hour, Clock()] = Field(default=Hour(12), description=f"when the client comes{_LATER}")
    place: Annotated[Reference, Ref("sites")] = Field(description="place on the body")
    side: Annotated[str, Choice(("left", "right", "middle"))] = Field(
        default="middle", description=f"side of the body{_LATER}"
    )
    note: Note | None = optional("what the artist has to know on the day, printed at the head of the sheet")
    drawing: Drawing | None = optional("the drawing that the parts were measured on")
    photos: tuple[PhotoCode, ...] = Field(default=(), description="photos, by the codes under which they are kept")
    pose: Sentence | None = optional("another pose than the site's usual one")
    pose_turned: Annotated[Quantity, Measure("angle", "0 °", "359 °", "90 °")] | None = None
    """how far the piece lies turned clockwise as the artist sees it; not at all where none is given"""
    girth: Girth | None = optional("needed on a limb")
    size: Annotated[tuple[Quantity, Quantity], Pair("10 mm", "1200 mm")]
    """width x height of the piece"""
    skin: Skin | None = optional("how the skin looks")
    screening: ScreeningOrUnknown = Field(default=None, description="answers to the screening questions, or `unknown`")
    allergies: Allergies = optional("`none`, or what the client reacts to: words, or mappings that say more")
    patch_tests: tuple[PatchTest, ...] = ()
    """patch tests that were made for this piece; each counts only for a time"""
    scars: NoneOr[Scar] = optional("`none`, or the scars in the area")
    moles: NoneOr[Mole] = optional("`none`, or the moles and lesions in the area")
    existing_tattoos: NoneOr[ExistingTattoo] = optional("`none`, or the tattoos that are there already")
    numbing: NoneOr[Numbing] = optional("`none`, or the numbing products on the skin")
    sitting: Annotated[int, Count(1, 30)] = Field(default=1, description="which sitting of the piece this is")
    touch_up: Yes = Field(default=False, description="whether it goes over healed work again, in the same places")
    last_worked: Annotated[Date | None, OrNone(Day("the skin was worked"))] = None
    """when this skin was last worked; needed from the second sitting, and for a touch-up"""
    earlier: tuple[Earlier, ...] = ()
    """what was worked of the piece already, the oldest first; printed at the head of the sheet"""
    longest: Annotated[Quantity, Measure("duration", "30 min", "12 h", "3 h")] | None = None
    """longest sitting that the client wants; the studio's own where none is given"""
    order: OrderOfAreas | None = None
    """order of its areas; the artist's habit where none is given, else the studio's"""
    line_ink: InkId | None = optional("ink of all lines that name none; the studio's where none is given")
    parts: OneOrMore[Part] = Field(description="the parts of the drawing")
    not_private: tuple[NotPrivate, ...] = ()
    """words that look private and are not, each with the reason why they may be printed"""
    interruptions: Annotated[int, Count(0, 30)] = 0
    """interruptions expected; each one means new gloves, in a break as far as there are any"""
    finished: Finished | None = optional("what happened, once it is done")
    healed: tuple[FollowUp, ...] = ()
    """how it healed: what was seen, each time somebody looked"""
    not_worked: Annotated[Text, Choice(NOT_WORKED)] | None = None
    """why nothing is worked on this day; a postponed job gets its new `date` when this is taken away"""

    @property
    def has_a_day(self) -> bool:
        """Whether a day was agreed; an enquiry without one is planned as if it were today."""
        return isinstance(self.date, Date) and not origin_of(self.date).default

    @property
    def has_an_artist(self) -> bool:
        """Whether somebody is named who works; an enquiry without one is planned for the first artist on file."""
        return self.artist is not None and not origin_of(self.artist).default

    @property
    def is_agreed(self) -> bool:
        """Whether it is written who works, on which day and from when, so that it takes something of that day."""
        return self.has_a_day and self.has_an_artist and "start" in self.model_fields_set and not self.draft

    @property
    def worked_before(self) -> bool:
        """Whether the same skin was worked for this piece already."""
        return self.touch_up or self.sitting > 1

    @model_validator(mode="before")
    @classmethod
    def parts_that_nobody_has_drawn_have_a_place(cls, value: object) -> object:
        if isinstance(value, Mapping) and isinstance(parts := value.get("parts"), Listing):
            fill_shapes(value, parts)
            fill_broken_parts(parts)
        return value

    @between_keys
    def only_an_enquiry_leaves_open_who_and_when(self) -> None:
        if self.screening is None and self.finished is None and not self.worked_before:
            return
        missing = [key for key in _AGREED_LATER if key not in self.model_fields_set]
        if missing:
            raise _left_open(
                missing[0], "id", f"add {' and '.join(f'`{key}`' for key in missing)}; an enquiry leaves them"
            )
        for part in self.parts:
            if "detail" not in part.model_fields_set:
                mend = "look at the drawing, and add `detail: broad`, `medium` or `fine`; an enquiry leaves it"
                raise _left_open("detail", part.id.place, mend)

    @between_keys
    def first_sittings_have_no_last_one(self) -> None:
        if not self.worked_before and self.last_worked is not None:
            raise clashing(
                self.last_worked,
                expected="`sitting: 2` or more, or `touch_up: yes`",
                help_="write which sitting this is, or that it is a touch-up, or take `last_worked` away; "
                "other work is asked about in the screening",
                says="a first sitting was not worked before",
            )

    @between_keys
    def what_is_finished_was_worked(self) -> None:
        if self.finished is not None and self.not_worked is not None:
            raise clashing(
                self.not_worked,
                expected="`finished` or `not_worked`, not both",
                help_="take away the one that is wrong",
                says=f"a job that is finished was not {self.not_worked}",
            )

    @between_keys
    def what_is_finished_is_no_draft(self) -> None:
        if self.finished is not None and self.draft:
            raise clashing(
                "draft",
                found="`draft: yes`",
                expected="no `draft` at a job that was worked",
                help_="take `draft` away: what was worked is a record",
                says="a job that is finished is no draft",
            )

    @between_keys
    def nothing_is_finished_before_its_day(self) -> None:
        if self.finished is not None and self.finished.on < self.date:
            raise clashing(
                self.finished.on,
                expected=f"{self.date} or later",
                help_="mend one of the two dates",
                says="the work was finished before the day of the sitting",
            )

    @between_keys
    def what_healed_was_worked(self) -> None:
        for look in self.healed:
            if self.finished is None or look.on < self.finished.on:
                raise clashing(
                    look.on,
                    expected="`finished`" if self.finished is None else f"{self.finished.on} or later",
                    help_="write with `finish` what happened, before how it healed"
                    if self.finished is None
                    else "mend one of the two dates",
                    says="it was looked at healed before the work was finished",
                )
            parts = [str(part.id) for part in self.parts]
            for named in (seen.part for seen in look.parts if seen.part not in parts):
                raise problem(
                    "R350",
                    named,
                    expected="a part of this job",
                    help_=did_you_mean(nearest(named, parts), f"parts: {', '.join(parts)}"),
                    says=f"the job has no part `{named}`",
                )
            used = [str(lot) for lot in self.finished.lots_used]
            for lot in (reaction.lot for reaction in look.reactions if reaction.lot not in used):
                raise problem(
                    "R351",
                    lot,
                    expected="a lot of an ink that was used in this job",
                    help_=did_you_mean(nearest(lot, used), f"lots there: {', '.join(used)}"),
                    says=f"a reaction names the lot `{lot}`, which was not used",
                )

    @between_keys
    def bands_are_closed_by_parts_that_are_there(self) -> None:
        for part in self.parts:
            others = [str(other.id) for other in self.parts if other.id != part.id]
            if part.closed_by is None or part.closed_by in (*WAYS_TO_CLOSE, *others):
                continue
            near = nearest(part.closed_by, [*others, *WAYS_TO_CLOSE])
            raise problem(
                "R329",
                part.closed_by,
                expected="another part of this job, " + ", ".join(f"`{way}`" for way in WAYS_TO_CLOSE),
                help_=did_you_mean(near, f"parts: {', '.join(others) or 'no other'}"),
                says=f"nothing called `{part.closed_by}` closes the band `{part.id}`",
            )
