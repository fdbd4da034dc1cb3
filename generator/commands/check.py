"""Read and check everything, and say what is wrong and what is due."""

from __future__ import annotations

import argparse
from pathlib import Path

from generator.commands.impact_said import impact_text, report_and_impact
from generator.commands.says import MISTAKES, OK, bold, out, say
from generator.dates import not_today
from generator.diagnostics import (
    Diagnostic,
    Place,
    Report,
    as_json,
    as_text,
    has_errors,
    in_reading_order,
    stops_a_build,
    summary,
)
from generator.impact import Impact, impact
from generator.press.sheet.all_jobs import not_planned
from generator.press.writing.schema import older_schemas
from generator.published import last_published
from generator.records.decisions import undecided_findings
from generator.site import SiteRead, read_site

NEVER_PUBLISHED = "nothing was published from these records yet; build or publish the site once, then it is compared"


def run(options: argparse.Namespace) -> int:
    site, report, strict = _looked_through(options)
    report = (*report, *older_schemas(options.content.parent))
    in_order = options.undecided and site.records is not None
    if in_order and site.records is not None:
        # Errors come first, because what has one may be read otherwise when it is mended.
        listed = tuple(undecided_findings(site.records, site.as_of))
        report = (*in_reading_order(d for d in report if d.level == "error"), *listed)
    before = last_published(options.content) if options.impact else None
    found = None if before is None or has_errors(report) else impact(options.content, site, before)
    # Before everything else, and where it is in the way of nothing that reads the report.
    if said := not_today(site.as_of):
        say(said) if options.format == "json" else out(bold(said))
    stops = stops_a_build(report, strict)
    if options.format == "json":
        as_data = as_json(report, in_order)
        out(report_and_impact(as_data, found) if options.impact else as_data)
    else:
        if report:
            out(as_text(report, in_order) + "\n")
        if has_errors(report) and (unplanned := not_planned(options.content, site.records)):
            out(unplanned)
        out(summary(report))
        if stops and not has_errors(report):
            out("a warning stops the build, because mkdocs.yml says `strict`")
        if options.impact:
            out(_impact_said(found, before is not None))
    return MISTAKES if stops else OK


def _looked_through(options: argparse.Namespace) -> tuple[SiteRead, Report, bool]:
    """What was read, everything that is to be said of it, and whether a warning stops a build."""
    content, handbook, settings = options.content, options.handbook, options.content.parent / "mkdocs.yml"
    pages = options.impact  # a sheet is compared by its stamp, which is made with it
    if handbook is not None and not handbook.is_dir():
        site = read_site(content, None, options.today, pages=False)
        return site, (*site.report, _no_such_handbook(handbook)), False
    if settings.is_file() and content.is_dir():
        from generator.dry_build import dry_build  # takes as long to import as all the rest

        return dry_build(settings, content, handbook, options.today, told=options.as_of is not None, pages=pages)
    site = read_site(content, handbook or content.parent / "handbook", options.today, pages=pages)
    return site, site.report, False


def _impact_said(found: Impact | None, published: bool) -> str:
    if found is not None:
        return f"\n{impact_text(found)}"
    return "nothing is compared while there are errors" if published else NEVER_PUBLISHED


def _no_such_handbook(handbook: Path) -> Diagnostic:
    """An error, because somebody named it; without the option a handbook may be lacking."""
    return Diagnostic(
        "F801",
        Place(str(handbook), 1, 1, 2),
        expected="a folder with the handbook's pages",
        help="mend what stands behind `--handbook`",
        says="the folder of the handbook is not there",
    )
