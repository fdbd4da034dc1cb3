"""What the handbook means by the surface wipe, the liner and the like: a name for a place on any studio's shelf."""

from typing import Annotated

from pydantic import Field

from generator.records.fields import Ref, Reference
from generator.records.record import Record

_Product = Annotated[Reference, Ref("disinfectants")] | None
_Grouping = Annotated[Reference, Ref("groupings")] | None


class Roles(Record):
    """Which article of this studio does what; a page quotes one as `{{ roles.surface_wipe.contact }}`.

    What a studio does not have is left out, with the sentences that quote it.
    """

    surface_wipe: _Product = Field(default=None, description="wipes every surface between clients")
    floor_disinfectant: _Product = Field(default=None, description="goes over floor, basin and handles after the day")
    bleach: _Product = Field(default=None, description="goes on a spill of blood once it is cleaned up")
    bleach_powder: _Product = Field(default=None, description="takes the place of liquid bleach")
    hand_rub: _Product = Field(default=None, description="is rubbed into hands that look clean")
    skin_antiseptic: _Product = Field(default=None, description="goes on the client's skin before the stencil")
    fine_liner: _Grouping = Field(default=None, description="makes fine lines and details")
    liner: _Grouping = Field(default=None, description="makes most outlines")
    round_shader: _Grouping = Field(default=None, description="shades small areas and corners")
    magnum: _Grouping = Field(default=None, description="shades and packs most areas")
