"""The page on which a print is held against the records of today: current, outdated, finished, or not known."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from functools import partial, reduce
from pathlib import Path
from types import MappingProxyType

from markupsafe import Markup

from generator.press.lists.parted import Pages, parted
from generator.press.sheet.summary import JobSummary
from generator.press.words.addresses import address, addresses_of, anchor
from generator.press.words.markup import Cells, bullets, code, heading, link, not_searched, page, paragraph, table_of
from generator.press.words.print_line import written_stamps

STAMP = "stamp.md"
# Stamps of finished jobs beyond the latest ones, and of others beyond the nearest, are listed by year; the look-up
# knows all of them. From so many jobs on, the stamps of a job's pages stand in the row of the job.
STAMPS_OF, FINISHED_HERE, OTHERS_HERE, ROW_EACH = "stamps-of-", 200, 200, 100
STAMPS = "assets/stamps.js"
# With more stamps than these one script would be slow to load.
AT_ONCE = 2000
LOOK_UP = "assets/stamp.js"
# What is done with a paper whose stamp is another one.
FINISHED = "finished, keep this paper"
PLANNED = "with another stamp: print again"
NOT_WORKED = "{}: work from no paper of it"
# Where the stamps of the pages go once all pages are written. The search need not know them: it leads to the pages.
_PAGES = Markup('<div id="page-stamps"></div>')


Stamps = Mapping[str, str]


def stamp_pages(known_jobs: Sequence[JobSummary], of_pages: Stamps = MappingProxyType({})) -> Pages:
    """The look-up, and pages of stamps for each year of which it does not show all jobs.

    of_pages: the stamps of all pages of jobs, by their addresses.
    """
    by_day = sorted(known_jobs, key=lambda job: (job.date, job.id))
    finished = [job for job in reversed(by_day) if job.finished]
    left_out = [*finished[FINISHED_HERE:], *[job for job in by_day if not job.finished][OTHERS_HERE:]]
    older = {job.id for job in left_out}
    archive = parted((job for job in known_jobs if job.finished or job.id in older), left_out, STAMPS_OF)
    here = [job for job in known_jobs if job.id not in older]
    in_rows = of_pages if _in_rows(known_jobs) else None
    return Pages(
        {STAMP: stamp_page(here, {at: said for at, (said, _) in archive.items()}, in_rows)},
        {at: partial(_part, at, said, jobs, in_rows) for at, (said, jobs) in archive.items()},
    )


def _in_rows(known_jobs: Sequence[JobSummary]) -> bool:
    return len(known_jobs) > ROW_EACH


def _part(here: str, said: str, jobs: Sequence[JobSummary], of_pages: Stamps | None) -> str:
    back = Markup("The look-up is under {}.").format(link(address(here, STAMP), "Check a stamp"))
    return page(f"Stamps of {said}", paragraph(back), _listed(jobs, here, of_pages))


def listed_by_page(known_jobs: Sequence[JobSummary], stamps: Stamps) -> dict[str, str]:
    """The stamps that get a row each: of an archive not those of its jobs' pages, which stand in the jobs' rows."""
    in_rows = {name for job in known_jobs for name in addresses_of(job.id)} if _in_rows(known_jobs) else set()
    return {name: stamp for name, stamp in stamps.items() if name not in in_rows}


def _listed(jobs: Sequence[JobSummary], here: str, of_pages: Stamps | None) -> Markup:
    """The search finds each job by itself. of_pages: the stamps of the jobs' pages, where they have no rows."""
    rows = ((f"stamp-{job.id}", _cells(job, here, of_pages)) for job in sorted(jobs, key=lambda job: job.id))
    return not_searched(table_of("Current stamps", rows))


def _cells(job: JobSummary, here: str, of_pages: Stamps | None) -> Cells:
    cells = {
        "Job": job.id,
        "Stamp": code(job.stamp),
        "The paper": _paper(job),
        "Sheet": link(address(here, f"sheets/{job.id}.html"), job.title),
    }
    if of_pages is not None:
        stamped = (f"{name} {of_pages[name]}" for name in addresses_of(job.id) if name in of_pages)
        cells["Its pages, each with its stamp"] = ", ".join(stamped)
    return cells


def stamp_page(
    known_jobs: Sequence[JobSummary],
    archive: Stamps = MappingProxyType({}),
    of_pages: Stamps | None = None,
) -> str:
    """The look-up, and below it current stamps: without a script the page is that table.

    archive: the pages of the others, with their years in words. of_pages: as in `_listed`.
    """
    years = (link(address(STAMP, at), said) for at, said in archive.items())
    form = Markup(
        '<form id="stamp-form" class="look-up" hidden><label for="stamp-text">Job and stamp, typed or scanned from the '
        "foot of the sheet, or page and stamp from the edge of any other print</label> "
        '<input id="stamp-text" type="text" autocomplete="off" autocapitalize="none" '
        'spellcheck="false"> <button type="submit">Look up</button></form>'
        '<p id="stamp-answer" class="answer" role="status"></p>'
    )
    scripts = Markup('<script src="{}"></script><script src="{}"></script>').format(
        address(STAMP, STAMPS), address(STAMP, LOOK_UP)
    )
    return page(
        "Check a stamp",
        form,
        paragraph(
            "A sheet carries its job and a stamp, as text and as a code to scan. The stamp changes with every word and "
            "number that is printed, and with nothing else. When the stamp is not the one below, print the "
            "sheet again before you work from it."
        ),
        paragraph(
            "A paper that was worked from is a record: keep it, whatever its stamp. A finished job keeps the stamp of "
            "the sheet that it was worked with. Where the paper carries another one, the paper counts."
        ),
        paragraph(
            "Every other page carries its address and a stamp in small letters along the left edge of each sheet of "
            "paper. Before you work from a print on the wall, look up its stamp. Take down what is not current."
        ),
        heading("Current stamps of sheets", "current"),
        _listed(known_jobs, STAMP, of_pages),
        *((paragraph("Other jobs, by year:"), bullets(years)) if archive else ()),
        heading("Current stamps of pages", "pages"),
        paragraph("Each page by its address in this handbook, as it stands on the print."),
        _PAGES,
        scripts,
    )


def _paper(job: JobSummary) -> str:
    if job.not_worked:
        return NOT_WORKED.format(job.state)
    return FINISHED if job.finished else PLANNED


def with_page_stamps(html: str, stamps: Mapping[str, str]) -> str:
    """The finished page with the stamps of all other pages, which are known only when those are written."""
    rows = (
        (
            anchor("page", name.removesuffix(".html").replace("/", "-")),
            {"Page": link(address(STAMP, name), name), "Stamp": code(stamp)},
        )
        for name, stamp in stamps.items()
    )
    listed = table_of("Current stamps of pages", rows)
    return html.replace(_PAGES, Markup("<div data-search-exclude>{}</div>").format(listed))


def stamps_scripts(known_jobs: Sequence[JobSummary], pages: Stamps, at_once: int = AT_ONCE) -> dict[str, str]:
    """Stamp and state of each job and page as classic scripts: pages opened from a folder can load nothing else.

    Given by address. A sheet goes by its job, any other page by its address in the site; no job's id has a dot. Where
    there are more than so many, they are in parts, and each in those of its name, of its stamp and of the stamp on its
    paper: of what is typed at least one is known.
    """
    stamps: dict[str, dict[str, object]] = {
        job.id: {
            "stamp": job.stamp,
            "not_worked": job.state if job.not_worked else "",
            "finished": job.finished,
            # That its values are kept, and the stamp that its paper carried.
            **({} if job.paper is None else {"kept": True, "paper": job.paper}),
        }
        for job in sorted(known_jobs, key=lambda job: job.id)
    }
    stamps |= {name: {"stamp": stamp} for name, stamp in pages.items()}
    if len(stamps) <= at_once:
        return {STAMPS: f"window.currentStamps = {json.dumps(stamps)};\n"}
    parts: list[dict[str, object]] = [{} for _ in range(2 * len(stamps) // at_once)]
    for name, said in stamps.items():
        for known in (name, said["stamp"], said.get("paper")):
            if known:
                parts[_part_of(str(known), len(parts))][name] = said
    return {
        STAMPS: f"window.currentStamps = {{}};\nwindow.stampParts = {len(parts)};\n",
        **{
            STAMPS.replace(".js", f"-{number}.js"): f"Object.assign(window.currentStamps, {_short(part)});\n"
            for number, part in enumerate(parts)
        },
    }


def _part_of(text: str, parts: int) -> int:
    """The same number as `partOf` in the script; a part is found by it, whatever the names of a studio begin with."""
    signs = text.lower().encode("utf-16-le")
    return reduce(lambda number, sign: (number * 31 + sign) % 65521, signs, 0) % parts


def _short(found: object) -> str:
    return json.dumps(found, separators=(",", ":"))


def write_stamps(site: Path, jobs: Sequence[JobSummary], of_jobs: Stamps) -> None:
    """Tell the page of stamps those of all other pages, which are known when the last of them is written.

    site: the folder of its pages; of_jobs: the stamps of the pages that are not there yet.
    """
    pages = dict(sorted({**written_stamps(site), **of_jobs}.items()))
    for here, text in stamps_scripts(jobs, pages).items():
        (site / here).write_text(text, "utf-8")
    shown = site / STAMP.replace(".md", ".html")
    shown.write_text(with_page_stamps(shown.read_text("utf-8"), listed_by_page(jobs, pages)), "utf-8")
