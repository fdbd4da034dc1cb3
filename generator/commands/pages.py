"""A page that a command hands out: to a file, or to where it is read on."""

from __future__ import annotations

from pathlib import Path

from generator.commands.says import OK, out
from generator.diagnostics import Diagnostic, Place, Report
from generator.whole_files import is_no_page, lies_in, write_whole


def written_out(html: str, output: Path | None) -> int:
    if output is None:
        out(html)
    else:
        write_whole(output, html)
    return OK


def not_over(output: Path, content: Path) -> Report:
    """What keeps a sheet from being written there: a record, or another file that somebody wrote."""
    inside = lies_in(output, content)
    if not inside and not is_no_page(output):
        return ()
    found = "a place among the records" if inside else "a file that is no sheet"
    expected = "a place outside the records, and no other file there than a sheet"
    help_ = "nothing was written; give `-o` another name, such as `sheet.html`"
    return (
        Diagnostic(
            "F806",
            Place(str(output), 1, 1, 2),
            found=found,
            expected=expected,
            help=help_,
            says=f"the sheet is not written over {found}",
        ),
    )
