"""What earlier runs kept, deleted."""

from __future__ import annotations

import argparse

from generator.commands.says import OK, out
from generator.kept.folder import Folder


def run(options: argparse.Namespace) -> int:
    kept = Folder(options.content)
    out(f"what was kept in {kept.path} is deleted" if kept.clear() else f"nothing is kept in {kept.path}")
    return OK
