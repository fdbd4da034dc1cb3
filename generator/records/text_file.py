"""A file as text, or what keeps it from being read; records and authored pages are read through here."""

from pathlib import Path

from generator.diagnostics import Diagnostic, Place, Report


def bytes_of(path: Path) -> bytes:
    """A file as it is, for who only looks into it; nothing of one that cannot be read, which `read_text` says."""
    try:
        with open(path, "rb", buffering=0) as file:  # a whole file is read at once
            return file.read()
    except OSError:
        return b""


def read_text(path: Path) -> tuple[str | None, Report]:
    """The text, None where there is none, and what is wrong with the file."""
    at = Place(str(path), 1, 1, 2)
    try:
        return path.read_bytes().decode("utf-8-sig"), ()
    except FileNotFoundError:
        message, found, code = "the file is not there", "nothing", "F801"
        help_ = f"add `{path.name}`; an empty family is written `[]`"
    except IsADirectoryError:
        message, found, code = "a folder stands where a file belongs", "a folder", "F801"
        help_ = f"move the folder away; `{path.name}` is a file"
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode("utf-8-sig", errors="replace").split("\n")
        at = Place(str(path), len(before), len(before[-1]) + 1, len(before[-1]) + 2)
        found, code, help_ = f"the byte 0x{error.object[error.start]:02X}", "Y102", "save the file as UTF-8 text"
        message = f"expected UTF-8 text, found {found}"
    except OSError as error:
        found, code, help_ = str(error.strerror), "F801", "make the file readable"
        message = f"the file cannot be read: {found}"
    return None, (Diagnostic(code, at, found=found, expected="a text file in UTF-8", help=help_, says=message),)
