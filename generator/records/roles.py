"""What the handbook means by the surface wipe, the liner and the like: a name for a place on any studio's shelf."""

from generator.records.ids import DisinfectantId, GroupingId
from generator.records.record import Record, optional


class Roles(Record):
    """Which article of this studio does what; a page quotes one as `{{ roles.surface_wipe.contact }}`.

    What a studio does not have is left out, with the sentences that quote it.
    """

    surface_wipe: DisinfectantId | None = optional("wipes every surface between clients")
    floor_disinfectant: DisinfectantId | None = optional("goes over floor, basin and handles after the day")
    bleach: DisinfectantId | None = optional("goes on a spill of blood once it is cleaned up")
    bleach_powder: DisinfectantId | None = optional("takes the place of liquid bleach")
    hand_rub: DisinfectantId | None = optional("is rubbed into hands that look clean")
    skin_antiseptic: DisinfectantId | None = optional("goes on the client's skin before the stencil")
    fine_liner: GroupingId | None = optional("makes fine lines and details")
    liner: GroupingId | None = optional("makes most outlines")
    round_shader: GroupingId | None = optional("shades small areas and corners")
    magnum: GroupingId | None = optional("shades and packs most areas")
