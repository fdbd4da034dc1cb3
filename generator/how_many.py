"""How many of something, in words."""


def how_many(number: float, one: str, several: str = "") -> str:
    """“1 job”, “2 jobs”. several: the words for more than one, where they are not `one` with an s."""
    return f"1 {one}" if number == 1 else f"{number:.15g} {several or one + 's'}"
