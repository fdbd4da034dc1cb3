"""Deleting a job, or all of a client: its files go, and then the whole folder is searched for what is left of it.

Older sites that `publish` has kept and that name it go whole, because an index of a site cannot be cut. The published
site is not changed here: the next build exchanges it for one without the job. Until then it is named among what is
left, so that the same command, given again after the build, says when nothing is left. What version control and backups
keep is out of reach, and the command says so.
"""

from __future__ import annotations

import gzip
import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from generator.published import BEGUN, built_sites, kept_folder, kept_sites
from generator.records.families import JOBS, Known
from generator.records.reading import job_files, read_job
from generator.records.text_file import bytes_in, bytes_of

# The program and its tools, which hold no record; and what version control keeps, which no deletion takes back.
_PASSED_OVER = frozenset((".venv", "venv", ".git", "node_modules", "__pycache__"))
_MOST_BYTES = 50_000_000


class ToDelete(NamedTuple):
    """What is about to be deleted: files, and the words by which what is left is found."""

    files: tuple[Path, ...]
    words: tuple[str, ...]


def job_to_delete(content: Path, job_id: str) -> ToDelete:
    """One job by its id: its file, its kept values, and copies that editors leave of both."""
    return ToDelete(tuple(_files_of(content, job_id)), (job_id,))


def client_to_delete(content: Path, client: str) -> ToDelete:
    """All jobs of a client. A file that cannot be read counts where it names the reference."""
    ids = [path.stem for path in job_files(content) if _is_of(path, client)]
    return ToDelete(tuple(file for each in ids for file in _files_of(content, each)), (client, *ids))


def older_sites(content: Path, what: ToDelete) -> Iterator[Path]:
    """The kept older sites that name what is deleted: of each site that was built, and of any beside the records."""
    folders = dict.fromkeys(path.resolve() for path in content.parent.glob(".*.kept"))
    sites = [folder.with_name(folder.name.removeprefix(".").removesuffix(".kept")) for folder in folders]
    for site in dict.fromkeys((*sites, *(one.site.resolve() for one in built_sites(content)))):
        kept = (*kept_sites(site), kept_folder(site) / BEGUN)
        yield from (older for older in kept if any(True for _ in left_of(older, what)))


def built_elsewhere(content: Path) -> list[Path]:
    """The sites that are not below the folder of the studio, which is searched anyway."""
    sites = [one.site.resolve() for one in built_sites(content)]
    return [site for site in sites if not site.is_relative_to(content.parent.resolve())]


def delete(what: ToDelete) -> None:
    """Delete the files, the kept values first: a job without them is whole, and kept values without a job are not."""
    for path in sorted(what.files, key=lambda path: path.suffix == ".yml"):
        path.unlink(missing_ok=True)


def left_of(root: Path, what: ToDelete) -> Iterator[Path]:
    """Every file below a folder that names what was deleted, in its text or in its own name.

    No id holds two hyphens in a row: what follows them is another page of the same job, one hyphen leads to another id.
    """
    word = re.compile(
        rb"(?<![\w-])(?:" + b"|".join(re.escape(each.encode()) for each in what.words) + rb")(?![\w-]*\w)"
    )
    named = re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, what.words))})(?!-?[a-z0-9])", re.IGNORECASE)
    for folder, inside, files in os.walk(root):
        inside[:] = sorted(each for each in inside if each not in _PASSED_OVER)
        for name in sorted(files):
            path = Path(folder) / name
            if named.search(name) or word.search(_bytes(path)):
                yield path


def _bytes(path: Path) -> bytes:
    try:
        if path.stat().st_size > _MOST_BYTES:
            return b""
        raw = bytes_in(path)
        return gzip.decompress(raw) if path.suffix == ".gz" else raw
    except OSError:
        return b""


def _files_of(content: Path, job_id: str) -> Iterator[Path]:
    """`.x.yml.swp`, `x.yml~` and `x.worked.json` belong to x; `x-2.yml` does not."""
    folder = content / JOBS.name
    for path in sorted(folder.iterdir()) if folder.is_dir() else ():
        if path.is_file() and path.name.lstrip(".#").split(".")[0] == job_id:
            yield path


def _is_of(path: Path, client: str) -> bool:
    job = read_job(path, Known({}, frozenset())).job
    if job is not None:
        return str(job.client) == client
    named = rf"(?m)^client:\s*['\"]?{re.escape(client)}['\"]?\s*(#.*)?$"
    return re.search(named, bytes_of(path).decode("utf-8", "replace")) is not None
