"""The schemas for editors, beside the records."""

from __future__ import annotations

import argparse

from generator.commands.says import OK, WRONG_CALL, out, say
from generator.press.writing.schema import schema_files
from generator.whole_files import write_whole


def run(options: argparse.Namespace) -> int:
    """Over what is there: nobody writes a schema by hand."""
    if not options.content.is_dir():
        say(f"error: there are no records in {options.content}; name their folder with --content")
        return WRONG_CALL
    for path, text in schema_files().items():
        to = options.content.parent / path
        to.parent.mkdir(exist_ok=True)
        write_whole(to, text)
        out(f"written: {to}")
    return OK
