"""The last sites, kept by date beside the published one.

A site is copied before the build that takes its place, and gets its name only when that build has ended well. Files are
linked and not copied where the disk can: a site is exchanged whole, and no file of one is ever written again. A page
that the next site may have as its own file too is copied, so that nobody who writes into that changes what was.
"""

from __future__ import annotations

import datetime
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from generator.published import BEGUN, Published, kept_folder, kept_sites


@contextmanager
def keeping(before: Published | None, number: int) -> Iterator[list[Path]]:
    """Keep the site that is there while another takes its place, and at most so many in all.

    The body adds the site to the list when it is published; otherwise nothing is kept that was not kept before. What
    was deleted because it was too old is gone.
    """
    done: list[Path] = []
    if before is None:
        yield done
        return
    site = Path(os.path.realpath(before.site))
    begun = kept_folder(site) / BEGUN
    shutil.rmtree(begun, ignore_errors=True)
    begun.parent.mkdir(mode=0o700, exist_ok=True)  # what is kept holds client references
    try:
        # What is hidden in a site, such as `.git`, goes on with the new one.
        _copy(site, begun)
        yield done
        if done:
            begun.rename(_free_name(begun.parent, before.day))
    finally:
        shutil.rmtree(begun, ignore_errors=True)
        with suppress(OSError):
            begun.parent.rmdir()  # only where it is empty
    if done:
        for old in kept_sites(site)[:-number]:
            shutil.rmtree(old)


def _copy(site: Path, to: Path) -> None:
    """Raises OSError: the first of all that are in the way."""
    try:
        shutil.copytree(site, to, symlinks=True, ignore=_hidden, copy_function=_linked)
    except shutil.Error as several:
        _, place, why = several.args[0][0]
        raise OSError(None, str(why), str(place)) from several


def _hidden(folder: str, names: list[str]) -> list[str]:
    return [name for name in names if name.startswith(".")]


def _linked(source: str, to: str) -> None:
    if os.stat(source, follow_symlinks=False).st_nlink == 1:
        with suppress(OSError):
            os.link(source, to)
            return
    shutil.copy2(source, to, follow_symlinks=False)


def _free_name(folder: Path, day: datetime.date) -> Path:
    """The day, with a number behind it where it was published more than once on it."""
    number, path = 1, folder / day.isoformat()
    while path.exists():
        number += 1
        path = folder / f"{day.isoformat()}-{number}"
    return path
