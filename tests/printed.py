"""What stands on the sides of a print: poppler reads it, which takes a tenth of what pypdf takes."""

from __future__ import annotations

import io
import shutil
import subprocess

from pypdf import PdfReader

# Letters that are drawn as one; poppler tells them apart by itself.
_JOINED = str.maketrans({"ﬀ": "ff", "ﬁ": "fi", "ﬂ": "fl"})


def sides_read(pdf: bytes) -> list[str]:
    """The text of each side, in the order in which it is drawn; where its lines end is no matter."""
    program = shutil.which("pdftotext")
    if program is None:
        return [side.extract_text().translate(_JOINED) for side in PdfReader(io.BytesIO(pdf)).pages]
    read = subprocess.run([program, "-raw", "-enc", "UTF-8", "-", "-"], input=pdf, capture_output=True, check=True)
    *sides, _ = read.stdout.decode().split("\f")
    return sides
