"""Check, say what changes, build, and keep the last sites by date."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from generator.commands.impact_said import impact_text
from generator.commands.says import MISTAKES, OK, WRONG_CALL, bold, out, say
from generator.dates import not_today
from generator.diagnostics import as_text, stops_a_build, summary
from generator.dry_build import dry_build
from generator.impact import impact
from generator.published import kept_sites, published_at
from generator.publishing import keeping
from generator.site_build import build_site


def run(options: argparse.Namespace) -> int:
    settings, told = options.content.parent / "mkdocs.yml", options.as_of is not None
    if not settings.is_file():
        say(f"error: there is no {settings}; publish from the folder of a studio, or name its records with --content")
        return WRONG_CALL
    # What is made here is compared, and found kept by the build.
    checked = dry_build(settings, options.content, None, options.today, told=told, pages=True)
    report, records = checked.report, checked.site.records
    if said := not_today(checked.site.as_of):
        out(bold(said))
    if report:
        out(as_text(report) + "\n")
    out(summary(report))
    if records is None or stops_a_build(report, checked.strict):
        say(f"nothing was published; {options.folder} is as it was")
        return MISTAKES
    before = published_at(options.content, options.folder)
    found = None if before is None else impact(options.content, checked.site, before)
    if found is not None:
        out(f"\n{impact_text(found)}\n")
    with keeping(before, records.studio.kept_sites) as done:
        stopped = build_site(settings, options.folder, options.today if told else None)
        done += [] if stopped else [options.folder]
    if stopped:
        say("\n".join((*stopped, f"nothing was published; {options.folder} is as it was")))
        return MISTAKES
    kept = kept_sites(Path(os.path.realpath(options.folder)))
    out(f"published: {options.folder / 'index.html'}")
    if kept:
        out(f"kept: {', '.join(path.name for path in kept)} in {kept[0].parent}")
    return OK
