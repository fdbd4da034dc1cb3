"""The stable codes of all diagnostics, each with what it means and how it is mended.

`right` stands in the demo studio's records; `wrong` in its place earns the code. The handbook shows both, and
a test tries every pair.
"""

from __future__ import annotations

from typing import Literal, NamedTuple


class Code(NamedTuple):
    """One kind of mistake. `file` is where the example stands in the content folder."""

    means: str
    file: str
    right: str
    wrong: str
    level: Literal["error", "warning"] = "error"


CODES: dict[str, Code] = {}
