"""What is to be said about the authored pages: quotes, typed numbers, procedures, reviews, answers.

The pages are in `handbook` beside the content, or where `--handbook` says; when they are not there, that is said.
"""

from __future__ import annotations

import datetime
import os
from collections.abc import Iterator, Mapping
from pathlib import Path

from generator.diagnostics import Diagnostic, Place, Report, has_errors
from generator.planning.findings.expiring import expiry_reminders
from generator.press.manual.anchors import places
from generator.press.manual.answers import leads_nowhere
from generator.press.manual.authored import authored_pages, not_read
from generator.press.manual.changed_values import value_findings
from generator.press.manual.procedures import ProcedurePage, page_findings
from generator.press.manual.quotes import quoted
from generator.press.manual.reviews import review_findings
from generator.press.manual.typed_numbers import record_findings, typed_findings
from generator.records.acts import not_approved
from generator.records.decisions import undecided_in_short
from generator.records.families import Records


def handbook_report(
    handbook: Path, records: Records, as_of: datetime.date, procedures: Mapping[str, ProcedurePage]
) -> Report:
    """What is wrong with the pages in this folder, and which reviews are overdue on this day."""
    report = [*record_findings(records), *review_findings(records, as_of), *expiry_reminders(records, as_of)]
    report += (*undecided_in_short(records), *not_approved(records, as_of))
    if not handbook.is_dir():
        nowhere = Diagnostic(
            "F805",
            Place(str(handbook), 1, 1, 2),
            expected="a folder with the handbook's pages",
            help="give the folder with `--handbook`",
            says="there is no handbook here, so that its pages are not checked",
        )
        return (*report, nowhere)
    report += _no_front_page(handbook)
    unread = tuple(not_read(handbook))
    report += unread
    broken: set[str] = set()
    authored = list(authored_pages(handbook))
    for path, text in authored:
        shown = os.path.relpath(path)
        found = [*quoted(text, shown, records)[1], *typed_findings(text, shown, records)]
        broken |= {str(path)} if has_errors(found) else set()
        report += found
    if unread:  # what leads to such a page, and its record, cannot be called wrong
        return tuple(report)
    report += value_findings(records, procedures, as_of.isoformat())
    report += page_findings(records, procedures, as_of, frozenset(broken))
    pages = places({path.relative_to(handbook).as_posix(): text for path, text in authored})
    report += leads_nowhere(records, pages, procedures=True)
    return tuple(report)


def _no_front_page(handbook: Path) -> Iterator[Diagnostic]:
    """A site is known by its front page, and none is exchanged for one without."""
    if not any((handbook / name).is_file() for name in ("index.md", "README.md", "index.html")):
        yield Diagnostic(
            "H716",
            Place(os.path.relpath(handbook / "index.md"), 1, 1, 2),
            expected="the front page of the handbook",
            help="write `index.md` among the pages",
            says="the handbook has no front page",
        )
