"""A file as text, or what keeps it from being read; records and authored pages are read through here."""

import errno
import os
import stat
from pathlib import Path

from generator.diagnostics import Diagnostic, Place, Report

_KINDS = {stat.S_IFDIR: "a folder", stat.S_IFIFO: "a pipe", stat.S_IFSOCK: "a socket"}


class NotAFile(OSError):
    """Something else stands there; `strerror` says what."""


def bytes_in(path: Path) -> bytes:
    """What is in a file. Raises OSError, NotAFile for a pipe, on which one waits, and for a device without an end."""
    see_a_file(path)
    with open(path, "rb", buffering=0) as file:  # a whole file is read at once
        return file.read()


def see_a_file(path: Path) -> None:
    """Raises OSError, NotAFile for what is there and is no file."""
    mode = os.stat(path).st_mode
    if not stat.S_ISREG(mode):
        raise NotAFile(errno.EINVAL, _KINDS.get(stat.S_IFMT(mode), "a device"), str(path))


def bytes_of(path: Path) -> bytes:
    """A file as it is, for who only looks into it; nothing of one that cannot be read, which `read_text` says."""
    try:
        return bytes_in(path)
    except OSError:
        return b""


def read_text(path: Path) -> tuple[str | None, Report]:
    """The text, None where there is none, and what is wrong with the file."""
    try:
        return bytes_in(path).decode("utf-8-sig"), ()
    except OSError as error:
        return None, (cannot_be_read(path, error),)
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode("utf-8-sig", errors="replace").split("\n")
        at = Place(str(path), len(before), len(before[-1]) + 1, len(before[-1]) + 2)
        found = f"the byte 0x{error.object[error.start]:02X}"
        wrong = Diagnostic(
            "Y102",
            at,
            found=found,
            expected="UTF-8 text",
            help="save the file as UTF-8 text",
        )
        return None, (wrong,)


def cannot_be_read(path: Path, error: OSError) -> Diagnostic:
    """What is to be said of a file that the system did not give."""
    found, help_ = str(error.strerror), "make the file readable"
    says = f"the file cannot be read: {found}"
    if isinstance(error, NotAFile):
        says, help_ = f"{found} stands where a file belongs", f"move it away; `{path.name}` is a file"
    elif path.is_symlink() and error.errno in (errno.ENOENT, errno.ELOOP):
        found, says = f"a link to `{os.readlink(path)}`", "the link leads to no file"
        help_ = "attach the disk that it leads to, or delete the link and bring the file back"
    elif isinstance(error, FileNotFoundError):
        found, says = "nothing", "the file is not there"
        help_ = f"add `{path.name}`; an empty family is written `[]`"
    return Diagnostic("F801", Place(str(path), 1, 1, 2), found=found, expected="a file", help=help_, says=says)
