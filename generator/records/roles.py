"""What the handbook means by the surface wipe, the liner and the like: a name for a place on any studio's shelf."""

from pydantic import Field

from generator.records.ids import DisinfectantId, GroupingId
from generator.records.record import Record


class Roles(Record):
    """Which article of this studio does what; a page quotes one as `{{ roles.surface_wipe.contact }}`.

    What a studio does not have is left out, with the sentences that quote it.
    """

    surface_wipe: DisinfectantId | None = Field(default=None, description="wipes every surface between clients")
    floor_disinfectant: DisinfectantId | None = None
    """goes over floor, basin and handles after the day"""
    bleach: DisinfectantId | None = Field(default=None, description="goes on a spill of blood once it is cleaned up")
    bleach_powder: DisinfectantId | None = Field(default=None, description="takes the place of liquid bleach")
    hand_rub: DisinfectantId | None = Field(default=None, description="is rubbed into hands that look clean")
    skin_antiseptic: DisinfectantId | None = None
    """goes on the client's skin before the stencil"""
    fine_liner: GroupingId | None = Field(default=None, description="makes fine lines and details")
    liner: GroupingId | None = Field(default=None, description="makes most outlines")
    round_shader: GroupingId | None = Field(default=None, description="shades small areas and corners")
    magnum: GroupingId | None = Field(default=None, description="shades and packs most areas")
