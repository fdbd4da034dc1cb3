"""What a studio's folder does not hold and inherits: the look of the site, its scripts, its menu.

It is renewed with the program. A studio adds to it in its own `mkdocs.yml` and its own `handbook/` folder; a file of
the same name there goes before the one of the program.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

_HERE = Path(__file__).parent
SETTINGS = _HERE / "mkdocs.yml"
FIRST_AFTERNOON = _HERE / "first-afternoon.md"


def assets() -> Iterator[tuple[str, Path]]:
    """Every style, script and drawing of the program: its address in the site, and where it is."""
    for path in sorted((_HERE / "assets").rglob("*")):
        if path.is_file():
            yield path.relative_to(_HERE).as_posix(), path


def demo() -> Path:
    """The folder with the demo studio's `content` and `handbook`: inside the wheel, else the checkout itself."""
    packed = _HERE / "demo"
    return packed if packed.is_dir() else _HERE.parent.parent
