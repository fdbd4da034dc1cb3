"""The folder of kept results, `.kept` beside the records: it may be deleted at any time, and is then made again.

A page of a job is a file, `<job>.<checksum>.page`, which a site can have as its own (`InFile`): a file that is there
already is not written once more. What is said of a job and which its pages are is in `<job>.pages`. A check keeps no
pages: it takes what a build has kept, and writes what it makes itself into `<job>.facts`, so that a change that is
checked and undone costs no page. The times of all finished jobs are in one file. Each file says a checksum of
itself, and each result the key that it was made for (`keys.py`): what is damaged, or was made for something else, is as
if it were not there. Nothing is written into a file that is there. A place that cannot be written keeps nothing and
stops nothing.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import re
import secrets
import stat
from collections.abc import Collection, Mapping, Sequence
from pathlib import Path

from generator.records.text_file import bytes_of

NAME = ".kept"
_PAGES, _FACTS, _PAGE, _TIMES, _PART = ".pages", ".facts", ".page", "times.rows", ".part"
_FORMAT = b"kept 1 "
_HEX, _SUM, _TOKEN = "[0-9a-f]", 16, 6  # how many bytes a checksum and the name of an unfinished file have
_OURS = re.compile(rf".+\.pages|.+\.facts|.+\.{_HEX * 2 * _SUM}\.page|[a-z]+\.rows|{_HEX * 2 * _TOKEN}\.part")

# The times of all finished jobs: by job, the key and the result as JSON holds it.
Rows = Mapping[str, tuple[str, object]]


def mode_of_files() -> int:
    """The rights that a file has which is written now; it is asked for before anything else is at work."""
    without = os.umask(0o077)
    os.umask(without)
    return 0o666 & ~without


class InFile(bytes):
    """A page that is in a file, too; nobody writes into that."""

    file: Path

    @classmethod
    def of(cls, page: bytes, file: Path) -> InFile:
        """A page that was written to a file."""
        made = cls(page)
        made.file = file
        return made

    def link(self, to: Path, mode: int) -> None:
        """Give the file another place as well, with these rights. Raises OSError, where a place cannot have both.

        Of a file with other rights a new one takes the place: another site may have the old one, and keeps its rights.
        """
        if stat.S_IMODE(self.file.stat().st_mode) != mode:
            _put(self.file, self, mode)
        os.link(self.file, to)


class Folder:
    """The kept results of one studio."""

    def __init__(self, content: Path) -> None:
        self.path = Path(os.path.abspath(content)).parent / NAME

    def kept(self, job: str, key: str, wanted: bool) -> tuple[bytes, list[InFile]] | None:
        """What was kept of a job for this key: what is said of it, and its pages. wanted: whether they are."""
        found = self._found(job, _PAGES, key)
        if found is not None:
            self._drop_facts(job)
        elif not wanted:
            found = self._found(job, _FACTS, key)
        if found is None:
            return None
        sums, about = found
        pages = []
        for known in sums.split() if wanted else ():
            file = self._page(job, known)
            page = bytes_of(file)
            if _sum(page) != known:
                return None
            pages.append(InFile.of(page, file))
        return about, pages

    def _found(self, job: str, kind: str, key: str) -> tuple[bytes, bytes] | None:
        """The checksums of a job's pages and what is said of it, where a file of this kind was kept for this key."""
        lines = _read(self.path / f"{job}{kind}").split(b"\n", 2)
        return (lines[1], lines[2]) if len(lines) == 3 and lines[0] == key.encode() else None

    def keep(self, job: str, key: str, about: bytes, pages: Sequence[bytes], wanted: bool) -> list[bytes]:
        """Keep a job in the place of what was kept of it: its pages, each with its file where it could be written.

        about: what is said of it, on one line. wanted: whether its pages are.
        """
        if wanted:
            self._drop_facts(job)
        sums = [_sum(page) for page in pages]
        found = [self._kept_page(self._page(job, known), page) for known, page in zip(sums, pages, strict=True)]
        self._write(f"{job}{_PAGES if wanted else _FACTS}", b"\n".join((key.encode(), b" ".join(sums), about)))
        return found

    def _drop_facts(self, job: str) -> None:
        """Drop what a check kept of a job that a build has kept: no check writes it anew, and it may name one gone."""
        _unlink(self.path / f"{job}{_FACTS}")

    def _page(self, job: str, known: bytes) -> Path:
        return self.path / f"{job}.{known.decode('ascii', 'replace')}{_PAGE}"

    def _kept_page(self, file: Path, page: bytes) -> bytes:
        """The page, with its file: on another day most pages are the same, and are there already."""
        with contextlib.suppress(OSError):
            if bytes_of(file) != page:
                _put(file, page)
            return InFile.of(page, file)
        return page

    def times(self) -> Rows:
        """The times that were kept."""
        try:
            return {job: (key, times) for job, (key, times) in json.loads(_read(self.path / _TIMES) or b"{}").items()}
        except (ValueError, TypeError, AttributeError):  # whole, and of another form
            return {}

    def keep_times(self, rows: Rows, before: Rows) -> None:
        """Keep times in the place of those before, where they are others."""
        if dict(rows) != dict(before):
            self._write(_TIMES, json.dumps(rows, ensure_ascii=False, separators=(",", ":")).encode())

    def keep_only(self, jobs: Collection[str], pages: Collection[str] | None = None) -> None:
        """Delete what is kept of all other jobs, and what a killed run left.

        pages: the names of the files of all pages that are kept; None where nobody asked for them.
        """
        times, known = self.times(), set(jobs)
        self.keep_times({job: row for job, row in times.items() if job in known}, times)
        for name in self._names():
            older = name.endswith(_PAGE) and pages is not None and name not in pages
            if name != _TIMES and (older or name.partition(".")[0] not in known):
                _unlink(self.path / name)

    def forget(self, jobs: Collection[str]) -> None:
        """Delete all that is kept of some jobs, and what names them that is kept of others."""
        times = self.times()
        self.keep_times({job: row for job, row in times.items() if job not in jobs}, times)
        for name in self._names():
            text = bytes_of(self.path / name)
            if name != _TIMES and (name.partition(".")[0] in jobs or any(job.encode() in text for job in jobs)):
                _unlink(self.path / name)

    def clear(self) -> bool:
        """Delete everything that is kept; whether there was anything. Raises OSError.

        What somebody else put there stays, and a link stays, to a folder on another disk as well.
        """
        ours = self._names()
        for name in ours:
            (self.path / name).unlink()
        with contextlib.suppress(OSError):
            self.path.rmdir()  # where nothing else is in it, and it is no link
        return bool(ours)

    def _names(self) -> list[str]:
        """The files that could be ours: a link may lead to a folder that holds other things."""
        with contextlib.suppress(OSError), os.scandir(self.path) as found:
            return [each.name for each in found if _OURS.fullmatch(each.name) and each.is_file(follow_symlinks=False)]
        return []

    def _write(self, name: str, body: bytes) -> None:
        with contextlib.suppress(OSError):
            _put(self.path / name, _FORMAT + _sum(body) + b"\n" + body)


def _put(file: Path, body: bytes, mode: int | None = None) -> None:
    """Write a file whole or not at all, and never into one that is there. Raises OSError."""
    made = file.with_name(f"{secrets.token_hex(_TOKEN)}{_PART}")
    file.parent.mkdir(mode=0o700, exist_ok=True)  # it holds client references
    try:
        made.write_bytes(body)
        if mode is not None:
            made.chmod(mode)
        os.replace(made, file)
    finally:
        made.unlink(missing_ok=True)


def _sum(body: bytes) -> bytes:
    return hashlib.blake2b(body, digest_size=_SUM).hexdigest().encode()


def _read(path: Path) -> bytes:
    """What is in a file that is as it was written; nothing of any other."""
    head, _, body = bytes_of(path).partition(b"\n")
    return body if head == _FORMAT + _sum(body) else b""


def _unlink(path: Path) -> None:
    with contextlib.suppress(OSError):
        path.unlink(missing_ok=True)
