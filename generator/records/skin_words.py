"""The words for skin and for tattoos that are there already, shared by jobs and by the limits of the studio."""

TONES = ("very light", "light", "medium", "tan", "brown", "dark")
DARKNESSES = ("light", "medium", "dark")
EXISTING_TATTOO_WISHES = ("leave", "work around", "cover")
