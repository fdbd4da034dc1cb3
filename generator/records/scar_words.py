"""The words a scar is described with, shared by jobs and rules. `unknown` is always allowed, and never a no."""

TYPES = ("flat", "raised", "keloid", "sunken", "stretched", "graft")
AFTER = ("injury", "surgery", "burn", "skin cancer", "radiotherapy")
COLOURS = ("pale", "brown", "pink", "red", "purple")
FEELS = ("soft", "firm", "hard")
WISHES = ("work around", "leave", "blend in", "cover", "does not mind")
DETAILS = ("broad", "medium", "fine")
