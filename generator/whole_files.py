"""Files written whole or not at all: beside their place first, then moved onto it in one go."""

from __future__ import annotations

import os
import secrets
import stat
from collections.abc import Callable
from pathlib import Path

# What every page that the program writes begins with.
_PAGE = "<!doctype html"


def lies_in(path: Path, folder: Path) -> bool:
    """Whether a path leads into a folder: also through links, `..`, or other capitals where they do not count."""
    if not folder.is_dir():
        return False
    real = Path(os.path.realpath(path))
    return any(around.exists() and around.samefile(folder) for around in (real, *real.parents))


def is_no_page(path: Path) -> bool:
    """Whether there is a file that is no HTML page, so that a page over it would lose something."""
    if not path.is_file():
        return False
    with path.open("rb") as file:
        begins = file.read(200)
    text = begins.decode("utf-8-sig", errors="replace").lstrip().lower()
    return begins != b"" and not text.startswith(_PAGE)


def write_whole(path: Path, text: str) -> None:
    """Write a text over what is there; after any failure the old file is as it was.

    Raises:
        OSError: the place cannot be written; `filename` is the place that was asked for.
    """
    if path.exists() and not path.is_file() and not path.is_dir():
        # A terminal, a pipe: there is nothing to keep, and it must not be replaced by a file.
        path.write_text(text, "utf-8")
        return
    _beside(path, text, os.replace)


def write_new(path: Path, text: str) -> None:
    """Write a text where nothing is.

    Raises:
        FileExistsError: something is there already; it stays as it is.
        OSError: the place cannot be written.
    """
    _beside(path, text, _linked)


def _linked(made: Path, to: Path) -> None:
    """Give a finished file its name, unless the name is taken."""
    try:
        os.link(made, to)
    except OSError:
        # A file system without links, unless the name is taken: an empty file takes it, and is then exchanged.
        to.open("x").close()
        os.replace(made, to)


def _beside(path: Path, text: str, moved: Callable[[Path, Path], None]) -> None:
    # A link is followed, so that it goes on to be one.
    to = Path(os.path.realpath(path))
    made = to.with_name(f".{secrets.token_hex(6)}.part")
    try:
        # The ends of lines are those of the text: a file that is added to keeps its own.
        with made.open("x", encoding="utf-8", newline="") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        if to.is_file():
            made.chmod(stat.S_IMODE(to.stat().st_mode))
        moved(made, to)
    except OSError as error:
        raise type(error)(error.errno, error.strerror, str(path)) from error
    finally:
        made.unlink(missing_ok=True)
