"""The folder of kept results, `.kept` beside the records: it may be deleted at any time, and is then made again.

Pages of a job are one file, `<job>.pages`; of what is small there is one file for all jobs. Each file says a checksum
of itself, and each result the key that it was made for (`keys.py`): what is damaged, or was made for something else,
is as if it were not there. A place that cannot be written keeps nothing and stops nothing.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import secrets
import shutil
from collections.abc import Callable, Collection, Iterator, Mapping
from pathlib import Path
from typing import Any

NAME = ".kept"
_PAGES = ".pages"
_FORMAT = b"kept 1 "

# What is kept of all jobs in one file: by job, the key and the result as JSON holds it.
Rows = Mapping[str, tuple[str, Any]]


class Folder:
    """The kept results of one studio."""

    def __init__(self, content: Path) -> None:
        self.path = Path(os.path.abspath(content)).parent / NAME

    def pages_of(self, job: str, key: str) -> bytes | None:
        """What was kept of a job's pages for this key."""
        found = _read(self.path / f"{job}{_PAGES}")
        if found is None or not found.startswith(key.encode() + b"\n"):
            return None
        return found[len(key) + 1 :]

    def keep_pages(self, job: str, key: str, made: bytes) -> None:
        """Keep a job's pages in the place of older ones."""
        self._write(f"{job}{_PAGES}", key.encode() + b"\n" + made)

    def rows(self, name: str) -> Rows:
        """What was kept of all jobs under a name."""
        found = _read(self.path / f"{name}.rows")
        try:
            rows = {} if found is None else json.loads(found)
        except ValueError:
            return {}
        if not isinstance(rows, dict):
            return {}
        return {job: (row[0], row[1]) for job, row in rows.items() if isinstance(row, list) and len(row) == 2}

    def keep_rows(self, name: str, rows: Rows, before: Rows) -> None:
        """Keep what is small of all jobs, where it is not what was kept before."""
        if dict(rows) != dict(before):
            self._write(f"{name}.rows", json.dumps(rows, ensure_ascii=False, separators=(",", ":")).encode())

    def keep_only(self, jobs: Collection[str]) -> None:
        """Delete what is kept of all other jobs, and what a killed run left."""
        known = set(jobs)
        for file in self._files():
            job, _, kind = file.name.rpartition(".")
            if kind == "rows":
                self._keep_rows_of(job, known.__contains__)
            elif job not in known or f".{kind}" != _PAGES:
                _unlink(file)

    def forget(self, jobs: Collection[str]) -> None:
        """Delete all that is kept of some jobs."""
        for job in jobs:
            _unlink(self.path / f"{job}{_PAGES}")
        for file in self._files():
            if file.name.endswith(".rows"):
                self._keep_rows_of(file.name.removesuffix(".rows"), lambda job: job not in jobs)

    def _keep_rows_of(self, name: str, stays: Callable[[str], bool]) -> None:
        rows = self.rows(name)
        self.keep_rows(name, {job: row for job, row in rows.items() if stays(job)}, rows)

    def clear(self) -> bool:
        """Delete everything that is kept; whether there was anything. Raises OSError."""
        if self.path.is_symlink() or not self.path.is_dir():
            return False
        shutil.rmtree(self.path)
        return True

    def _files(self) -> Iterator[Path]:
        with contextlib.suppress(OSError):
            yield from [path for path in self.path.iterdir() if path.is_file()]

    def _write(self, name: str, body: bytes) -> None:
        made = self.path / f"{secrets.token_hex(6)}.part"
        with contextlib.suppress(OSError):
            self.path.mkdir(mode=0o700, exist_ok=True)  # it holds client references
            try:
                made.write_bytes(_FORMAT + _sum(body) + b"\n" + body)
                os.replace(made, self.path / name)
            finally:
                made.unlink(missing_ok=True)


def _sum(body: bytes) -> bytes:
    return hashlib.blake2b(body, digest_size=16).hexdigest().encode()


def _read(path: Path) -> bytes | None:
    """What is in a file that is as it was written; None for any other."""
    try:
        whole = path.read_bytes()
    except OSError:
        return None
    head, _, body = whole.partition(b"\n")
    return body if head == _FORMAT + _sum(body) else None


def _unlink(path: Path) -> None:
    with contextlib.suppress(OSError):
        path.unlink(missing_ok=True)
