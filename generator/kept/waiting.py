"""The pages of jobs, of their days and of lots while a site is made: files beside it, which are moved in at the end.

They are finished, so that no plugin has to look at each of them, and a thousand of them take no memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from generator.kept.folder import InFile, mode_of_files

# Where they are in the site, and how an authored page names one.
FOLDERS = ("sheets", "jobs", "for-the-client", "days", "lots")
_NAMED = re.compile(rf"(?:{'|'.join(FOLDERS)})/[a-z0-9-]+\.html")


class Waiting:
    """Pages that wait in a folder. addresses: where they will be in the site."""

    def __init__(self, folder: Path, addresses: Iterable[str] = ()) -> None:
        self._folder, self._mode = folder, mode_of_files()
        self.addresses = set(addresses)

    def keep(self, address: str, page: bytes) -> None:
        """Let a page wait. One that was kept is the same file in two places.

        Where the system knows no such thing, it is written again.
        """
        self.addresses.add(address)
        to = self._folder / address
        to.parent.mkdir(exist_ok=True)
        if isinstance(page, InFile):
            try:
                page.link(to, self._mode)
                return
            except OSError:
                to.unlink(missing_ok=True)
        to.write_bytes(page)

    def aside(self, name: str) -> Path:
        """A file for the text of another page, which would take memory until its turn comes."""
        to = self._folder / "aside" / name
        to.parent.mkdir(parents=True, exist_ok=True)
        return to

    def named_in(self, texts: Iterable[str]) -> list[tuple[str, Path]]:
        """Those that authored pages lead to: where they will be, and where they are."""
        named = {found[0] for text in texts for found in _NAMED.finditer(text)}
        return [(address, self._folder / address) for address in sorted(named & self.addresses)]

    def move_into(self, site: Path) -> None:
        """Let them go where they belong. Raises OSError."""
        for made in filter(Path.is_dir, (self._folder / folder for folder in FOLDERS)):
            to = site / made.name
            if to.exists():
                for page in made.iterdir():
                    page.replace(to / page.name)
            else:
                made.rename(to)
