"""What is said of a content folder, as the command `check` says it, without pages of a handbook."""

from __future__ import annotations

from pathlib import Path

from generator.dates import AsOf
from generator.diagnostics import Report
from generator.site import read_site


def check_all(content: Path, today: AsOf) -> Report:
    """Everything wrong with the records and all jobs. Jobs are planned only on records without a mistake."""
    return read_site(content, None, today, pages=False).report
