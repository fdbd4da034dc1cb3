"""What a stable code of a diagnostic says about itself."""

from __future__ import annotations

from typing import Literal, NamedTuple

# An error stops everything; a warning stops a strict build; a reminder is shown and stops nothing, because a review
# that is overdue must not keep a sheet from being printed.
Level = Literal["error", "warning", "reminder"]
LEVELS: tuple[Level, ...] = ("error", "warning", "reminder")

How = Literal[
    "replaced",
    "replaced everywhere",
    "renamed",
    "copied",
    "asked for",
    "begun",
    "written over",
    "quoted",
    "in the handbook",
    "renamed page",
    "emptied page",
]


class Code(NamedTuple):
    """One kind of mistake, with an example of it.

    file: where the example is, in the content folder or under `handbook/`. how: what is done with `right` to see
    the code: the text is replaced in the file, once or everywhere, the file is renamed or copied, the job is asked for
    or begun, a sheet is written to it, the quote is written on a page, the text is replaced and the handbook checked,
    or a page is renamed or emptied.
    seen_in: the file in which the mistake then shows, where it is another one.
    """

    means: str
    file: str
    right: str
    wrong: str
    level: Level = "error"
    how: How = "replaced"
    seen_in: str = ""
