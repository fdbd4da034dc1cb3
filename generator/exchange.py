"""How a finished site takes the place of the one before, so that one whole site is there whatever stops a build.

Beside `site` a build keeps, under the lock `.site.lock`:

- `.site.next`: work that may be deleted at any time. The new site and all other files of the build are made here.
- `.site.ready`: a finished new site.
- `.site.old`: the whole site before it.

The names belong to the builds: what else has one of them is deleted once a site is in its place. The last two come
and go by one rename each. Whichever rename was the last before a kill, `take` can tell what to put right.
"""

from __future__ import annotations

import errno
import os
import shutil
import stat
from collections.abc import Iterable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from filelock import FileLock, Timeout

INDEX = "index.html"
# What every site of this program has: a folder without it is somebody else's.
_OURS = "assets/handbook.css"
_WITH = "with `publish`, `-d` or `site_dir`"
ELSEWHERE = f"choose another folder {_WITH}"
_NOT_YOURS = f"You may not write there: have the folder given to you, or choose another {_WITH}"
HELP = {
    errno.ENOSPC: "The disk is full: make room on it and build again",
    errno.EDQUOT: "Your share of the disk is used up: make room and build again",
    errno.EFBIG: "This file is larger than files may be here: raise the limit and build again",
    errno.EROFS: f"It is on a disk that cannot be written: {ELSEWHERE}",
    errno.EACCES: _NOT_YOURS,
    errno.EPERM: _NOT_YOURS,
    errno.ELOOP: "A link leads in a circle, or is where none may be: mend or delete it",
    errno.EISDIR: "A folder is where a file has to be: move it away",
    errno.ENOTDIR: f"A file is where a folder has to be: {ELSEWHERE}",
    errno.EEXIST: f"A file is where a folder has to be: {ELSEWHERE}",
    errno.ENAMETOOLONG: f"The name is too long: choose a shorter one {_WITH}",
}


class Refused(Exception):
    """The site cannot be written. The text says what was found and what to do."""


@dataclass(frozen=True)
class TakenSite:
    """The place of one site, held by this process from `take` to `leave`. `site` is the folder that links lead to."""

    site: Path
    lock: FileLock

    @property
    def work(self) -> Path:
        """What may be deleted at any time."""
        return _beside(self.site, "next")

    @property
    def new(self) -> Path:
        """The folder in which the new site is made."""
        return self.work / "site"

    @property
    def ready(self) -> Path:
        """The new site, finished."""
        return _beside(self.site, "ready")

    @property
    def old(self) -> Path:
        """The whole site before it."""
        return _beside(self.site, "old")


def take(asked: Path, keep: Iterable[Path] = ()) -> tuple[TakenSite, bool]:
    """Hold the place of a site, put right what a killed build left there, and see that a site can be exchanged there.

    `keep` are files and folders that the site may not hold. Returns the place and whether a site had to be put back.
    Raises Refused, and leaves the place.
    """
    with _explained(asked):
        site = _place(asked, keep)
        site.parent.mkdir(parents=True, exist_ok=True)
        lock = FileLock(_beside(site, "lock"), timeout=0, thread_local=False)
        try:
            lock.acquire()
        except Timeout:
            said = "another build is writing this site. Wait until it has ended, then build again"
            raise Refused(f"{asked}: {said}") from None
        except PermissionError:
            if not os.path.lexists(lock.lock_file):
                raise
            said = f"another user builds this site, or left {lock.lock_file}. Delete that file when no build is running"
            raise Refused(f"{asked}: {said}") from None
    place = TakenSite(site, lock)
    with ExitStack() as unless_taken, _explained(asked):
        unless_taken.callback(leave, place)
        put_back = _put_right(place)
        _see_that_it_can_go(place, asked)
        unless_taken.pop_all()
    return place, put_back


def see(asked: Path, keep: Iterable[Path] = ()) -> None:
    """See whether a site can be written there, without holding the place. Raises Refused."""
    with _explained(asked):
        site = _place(asked, keep)
        if _found(site) == "other":
            raise Refused(_not_ours(asked))
        there = next(folder for folder in (site, *site.parents) if folder.exists())
        if not os.access(there, os.W_OK | os.X_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(there))


def _place(asked: Path, keep: Iterable[Path]) -> Path:
    """The folder of a site, which holds nothing that is kept."""
    site = _followed(asked)
    for kept in keep:
        if Path(os.path.realpath(kept)).is_relative_to(site):
            raise Refused(f"{asked}: the site would replace {kept}. Nothing is deleted there: {ELSEWHERE}")
    if os.path.ismount(site):
        raise Refused(f"{asked}: this is where a disk is mounted, and cannot be exchanged: {ELSEWHERE}")
    return site


def exchange(place: TakenSite) -> None:
    """Put the new site in the place of the old one. Raises Refused, and the old site is whole then.

    What is hidden in the old site (`.git`, `.nojekyll`) is kept, as MkDocs keeps it.
    """
    with _explained(place.site):
        if not (place.new / INDEX).is_file():
            raise Refused(f"the new site has no {INDEX}: write {Path(INDEX).with_suffix('.md')} among the pages")
        found = _found(place.site)
        if found == "other":
            raise Refused(_not_ours(place.site))
        if found == "site":
            _keep_what_is_hidden(place)
        place.new.rename(place.ready)
        if found == "site":
            shutil.copymode(place.site, place.ready)
            place.site.rename(place.old)
        elif found == "empty":
            place.site.rmdir()
        try:
            place.ready.rename(place.site)
        except OSError:
            if found == "site":
                place.old.rename(place.site)
            raise


def leave(place: TakenSite) -> None:
    """Delete what is left of the build, and let others build. What cannot be deleted is left to the next `take`."""
    if not place.lock.is_locked:
        return
    with suppress(OSError, Refused):
        _put_right(place)
    with suppress(OSError):
        _delete(place.work)
    # Deleted while it is held: who opens it in between sees that it is gone, and makes another. Windows forbids it,
    # and there the release deletes it.
    with suppress(OSError):
        Path(place.lock.lock_file).unlink()
    place.lock.release()


def explain(error: OSError) -> str:
    """What the system refused, and what to do about it."""
    names = " -> ".join(str(name) for name in (error.filename, error.filename2) if name is not None)
    said = ": ".join(filter(None, [names, error.strerror or str(error) or type(error).__name__]))
    return f"{said}. {HELP[error.errno]}" if error.errno in HELP else said


@contextmanager
def _explained(asked: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise Refused(f"{asked} cannot be written. {explain(error)}") from error


def _beside(site: Path, what: Literal["next", "ready", "old", "lock"]) -> Path:
    return site.with_name(f".{site.name}.{what}")


def _followed(asked: Path) -> Path:
    """The folder that is meant, with all links followed."""
    site = Path(os.path.realpath(asked))
    if not site.name:
        raise Refused(f"{asked}: a whole disk is no place for a site: {ELSEWHERE}")
    if site.is_symlink():
        raise Refused(f"{asked}: {os.strerror(errno.ELOOP)}. {HELP[errno.ELOOP]}")
    if asked.is_symlink() and not site.parent.exists():
        raise Refused(
            f"{asked} is a link to {site}, and there is no folder {site.parent}. Attach its disk, or mend the link"
        )
    return site


def _found(path: Path) -> Literal["nothing", "site", "empty", "other"]:
    """What is at a place. Raises OSError where that cannot be seen."""
    try:
        mode = path.lstat().st_mode
    except FileNotFoundError:
        return "nothing"
    if not stat.S_ISDIR(mode):
        return "other"
    if (path / INDEX).is_file() and (path / _OURS).is_file():
        return "site"
    return "other" if any(path.iterdir()) else "empty"


def _not_ours(path: Path) -> str:
    what = f"a folder with other files and no {INDEX}" if path.is_dir() else "a file"
    if (path / INDEX).is_file():
        what = f"the site of somebody else: it has no {_OURS}"
    return f"{path}: this is {what}, so it is no handbook, and it is not touched. Move it away, or {ELSEWHERE}"


def _put_right(place: TakenSite) -> bool:
    """Undo or end what a killed build had begun. True when there was no site and one was put back."""
    put_back = False
    for kept in (place.ready, place.old):
        if _found(kept) == "site" and _found(place.site) in {"nothing", "empty"}:
            if place.site.exists():
                place.site.rmdir()
            kept.rename(place.site)
            put_back = True
    _delete(place.work)
    for kept in (place.ready, place.old):
        # A site leaves its name whole, and is deleted afterwards: it is never half a site.
        if _found(kept) != "nothing" and _found(place.site) != "other":
            kept.rename(place.work)
            _delete(place.work)
    return put_back


def _see_that_it_can_go(place: TakenSite, asked: Path) -> None:
    """See before any work that the site can be moved away, and make the folders to work in."""
    if _found(place.site) == "other":
        kept = [str(path) for path in (place.ready, place.old) if _found(path) == "site"]
        raise Refused("; ".join([_not_ours(asked), *(f"the last whole site is {path}" for path in kept)]))
    place.work.mkdir(mode=0o700)  # the files of a build hold client references
    place.new.mkdir()
    if _found(place.site) == "nothing":
        return
    if not os.access(place.site, os.W_OK | os.X_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(place.site))
    try:
        # A folder is never renamed to one that holds something: this only asks whether it could be moved at all.
        place.site.rename(place.work)
    except OSError as error:
        if error.errno in {errno.EBUSY, errno.EXDEV}:
            raise Refused(f"{asked}: the system keeps this folder where it is (a mount): {ELSEWHERE}") from None
        if error.errno not in {errno.ENOTEMPTY, errno.EEXIST}:
            raise


def _keep_what_is_hidden(place: TakenSite) -> None:
    for entry in place.site.iterdir():
        to = place.new / entry.name
        if not entry.name.startswith(".") or os.path.lexists(to):
            continue
        if entry.is_dir() and not entry.is_symlink():
            shutil.copytree(entry, to, symlinks=True)
        else:
            shutil.copy2(entry, to, follow_symlinks=False)


def _delete(path: Path) -> None:
    """Delete a folder, a file, or a link and not what it leads to. Raises OSError."""
    if path.is_symlink() or path.is_file():
        path.unlink()
    elif path.exists():
        _let_delete(path)
        for folder, below, _ in os.walk(path):
            for name in below:
                _let_delete(Path(folder, name))
        shutil.rmtree(path)


def _let_delete(folder: Path) -> None:
    """Nothing is deleted from a folder that is set to be read only."""
    if not folder.is_symlink() and not os.access(folder, os.R_OK | os.W_OK | os.X_OK):
        folder.chmod(0o700)
