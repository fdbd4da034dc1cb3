"""A command of the program, as somebody has to type it beside the records that it is said about."""

import shlex
from pathlib import Path


def typed_command(command: str, file: str | Path) -> str:
    """The whole command for the job in a file; it names the records where they are not where it looks by itself."""
    content = Path(file).parent.parent
    named = "" if content == Path("content") else f" --content {shlex.quote(str(content))}"
    return f"`python -m generator {command}{named}`"
