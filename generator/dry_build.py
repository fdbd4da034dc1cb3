"""What MkDocs says of a site, without making one: settings, menu, links, places, styles and templates.

The steps of a build are gone through with MkDocs's own functions and the plugin's own events, up to where the pages are
written. Generated pages are taken as text, and only pages with settings of their own are put into a template, beside
the front page: so it takes a part of the time of a build, and what stops the one is said by the other.

Nothing is written but into a folder that is gone afterwards.
"""

from __future__ import annotations

import logging
import os
import re
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from jinja2 import TemplateError

os.environ.setdefault("DISABLE_MKDOCS_2_WARNING", "true")  # an advertisement is no part of a report

from mkdocs.commands import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, MkDocsException
from mkdocs.structure.files import Files, InclusionLevel, get_files, set_exclusions
from mkdocs.structure.nav import get_navigation
from mkdocs.structure.pages import Page

from generator.dates import AsOf
from generator.diagnostics import Diagnostic, Place, Report, has_errors
from generator.exchange import INDEX, Refused, see
from generator.faults import handed_over
from generator.hooks import failed_hook, in_settings
from generator.kept.waiting import Waiting
from generator.near_miss import did_you_mean, nearest
from generator.plugin import StudioHandbook, kept_from_the_site, ours, settings_in
from generator.press.manual.quotes import quoted
from generator.records.families import Records
from generator.records.text_file import read_text
from generator.site import SiteRead, read_site

PLUGIN = "studio-handbook"
_LINK = re.compile(r"Doc file '(?P<page>.+?)' contains an?(?: \w+)*? link '(?P<url>.+?)', (?P<why>.*)", re.DOTALL)
_SETTING = re.compile(r"(?:Config value '(?P<key>\w+)'|mkdocs\.yml, (?P<own>\w+)): (?P<why>.*)", re.DOTALL)
_PAGE = re.compile(r"Error (?:reading|building) page '(.+?)': (.+)", re.DOTALL)
# MkDocs reads `theme` before anything is inherited.
_ADD_THE_NAME = "write `name: material` as the first line under `theme`; the rest of the program's theme is inherited"
_BEFORE_THE_REASON = re.compile(r"Error (?:reading|building) page '.+?':")
_AT = re.compile(r"line (\d+), column (\d+)")
_NAMED = re.compile(r"['\"]([^'\"\s]+)['\"]")


class DryBuild(NamedTuple):
    """Everything that is to be said about a site. strict: whether a build of it stops over a warning."""

    site: SiteRead
    report: Report
    strict: bool


class _Said(NamedTuple):
    """One thing that MkDocs said, or that made it stop. hook: what is to be said where a studio's own hook did."""

    text: str
    stops: bool
    hook: Diagnostic | None = None


def dry_build(
    settings: Path, content: Path, handbook: Path | None, run: AsOf, *, told: bool = False, pages: bool = False
) -> DryBuild:
    """Everything wrong with records, jobs, pages and settings.

    settings: mkdocs.yml. handbook: the authored pages, where another folder was named. run: the day of the run, over
    which the settings may go where it was not told. pages: make the pages of jobs too, which the next build finds kept.
    """
    addresses: list[str] = []
    with listening() as said:
        config = _configured(settings, said)
        docs = settings.parent / "handbook" if config is None else _folder_of_pages(settings, config)
        plugin = None if config is None else config.plugins.get(PLUGIN)
        own = plugin if isinstance(plugin, StudioHandbook) else None
        day = run if told or own is None else own.day()
        site = read_site(content, handbook or docs, day, lambda address, _: addresses.append(address), pages=pages)
        report = list(site.report)
        if config is not None and own is None:
            why = f"the plugin `{PLUGIN}` is not named, so no record reaches the site"
            report.append(_about_setting(settings, "plugins", why, True))
        elif config is not None and own is not None:
            named = settings.parent / own.config.content
            if named.resolve() != content.resolve():
                why = f"the site is made of the records in `{named}`, and `{content}` is checked"
                report.append(_about_setting(settings, "content", why, False))
            report += _in_the_way(settings, config, content)
            if site.records is not None and not has_errors(report):
                with tempfile.TemporaryDirectory() as folder:
                    own.checked = Waiting(Path(folder), addresses), site
                    try:
                        _gone_through(config, site, Path(folder), said)
                    finally:
                        own.checked = None  # MkDocs keeps a plugin for the next build of a process
        report += _as_diagnostics(said, settings, docs, site)
        strict = config is not None and bool(settings_in(settings).get("strict"))
        return DryBuild(site, tuple(report), strict)


@contextmanager
def listening() -> Iterator[list[_Said]]:
    """What MkDocs warns of, in place of a terminal."""
    said: list[_Said] = []

    class Ear(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            said.append(_Said(record.getMessage(), record.levelno >= logging.ERROR))

    ear, mkdocs = Ear(logging.WARNING), logging.getLogger("mkdocs")
    mkdocs.addHandler(ear)
    try:
        yield said
    finally:
        mkdocs.removeHandler(ear)


@contextmanager
def _noting(said: list[_Said], settings: Path) -> Iterator[None]:
    """What stops MkDocs is said like what it warns of; what it aborts over, it has said."""

    def told(error: Exception) -> bool:
        if found := failed_hook(error, settings, ours()):
            # The page at which it failed MkDocs has named as one that cannot be made.
            said[:] = [*(one for one in said if not _PAGE.fullmatch(one.text)), _Said("", True, found)]
        return found is not None

    try:
        with handed_over(told):
            yield
    except Abort:
        pass
    except (MkDocsException, TemplateError) as wrong:
        # Of an exception of its own MkDocs says the page first and the reason when it ends.
        said[:] = [one for one in said if not _BEFORE_THE_REASON.fullmatch(one.text)]
        if not any(one.stops for one in said):
            said.append(_Said(str(wrong), True))


def _configured(settings: Path, said: list[_Said]) -> MkDocsConfig | None:
    """The settings of the studio, valid by themselves; None where they are not.

    What is behind a warning is looked at, too, and so they are not strict then.
    """
    with _noting(said, settings):
        try:
            return load_config(str(settings))
        except Abort:
            if any(one.stops for one in said):
                raise
            return load_config(str(settings), strict=False)  # it stopped over a warning
        except ValueError as wrong:  # a day that the calendar does not have, at which YAML itself breaks off
            said.append(_Said(f"{wrong}", True))
    return None


def _folder_of_pages(settings: Path, config: MkDocsConfig) -> Path:
    """From where the settings are named, as all other files are shown."""
    docs = Path(config.docs_dir)
    return docs if settings.is_absolute() else Path(os.path.relpath(docs))


def _gone_through(config: MkDocsConfig, site: SiteRead, made: Path, said: list[_Said]) -> None:
    """A build without writing: each step as in `mkdocs.commands.build.build`."""
    with _noting(said, Path(os.path.relpath(config.config_file_path or ""))):
        config = config.plugins.on_config(config)
        config.site_dir = str(made / "site")
        config.plugins.on_pre_build(config=config)
        files = get_files(config)
        env = config.theme.get_env()
        files.add_files_from_theme(env, config)
        files = config.plugins.on_files(files, config=config)
        set_exclusions(files, config)
        said += _not_to_be_written(files)
        nav = config.plugins.on_nav(get_navigation(files, config), config=config, files=files)
        pages = []
        for file in files.documentation_pages():
            page = file.page if isinstance(file.page, Page) else Page(None, file, config)
            if file.src_uri in site.at:
                page.present_anchor_ids = set(site.at[file.src_uri].at)
            else:
                mkdocs_build._populate_page(page, config, files, False)
                pages.append(page)
        env = config.plugins.on_env(env, config=config, files=files)
        shown = files.documentation_pages()
        for template in config.extra_templates:
            mkdocs_build._build_extra_template(template, files, config, nav)
        for page in pages:
            page.validate_anchor_links(files=files, log_level=config.validation.links.anchors)
            if page.is_homepage or page.meta.keys() - {"search"} or page.meta["search"].keys() - {"boost"}:
                mkdocs_build._build_page(page, config, shown, nav, env)


def _not_to_be_written(files: Files) -> Iterator[_Said]:
    """What stops a build when it writes: a file that cannot be copied, and a site without its front page."""
    written = [file for file in files if file.inclusion.value > InclusionLevel.DRAFT.value]
    for file in written:
        if file.abs_src_path is not None and not os.access(file.abs_src_path, os.R_OK):
            yield _Said(f"Error building page '{file.src_uri}': the file cannot be read", True)
    if not any(file.dest_uri == INDEX for file in written):
        yield _Said(f"the site has no {INDEX}, because exclude_docs or another setting leaves out its page", True)


def _as_diagnostics(said: Iterable[_Said], settings: Path, docs: Path, site: SiteRead) -> Iterator[Diagnostic]:
    """What MkDocs said, at the line that it is about, once each."""
    for one in dict.fromkeys(said):
        if one.hook is not None:
            yield one.hook
        elif link := _LINK.match(one.text):
            yield from _about_link(link["page"], link["url"], "anchor" in link["why"], docs, site)
        elif setting := _SETTING.match(one.text):
            yield _about_setting(settings, setting["key"] or setting["own"], setting["why"], one.stops)
        elif page := _PAGE.match(one.text):
            yield _about_template(docs / page[1], page[2])
        else:
            yield _about_setting(settings, "", one.text, one.stops)


def _about_link(page: str, url: str, is_place: bool, docs: Path, site: SiteRead) -> Iterator[Diagnostic]:
    path, _, place = url.partition("#")
    target = os.path.normpath(os.path.join(os.path.dirname(page) if not path.startswith("/") else "", path.lstrip("/")))
    text, _ = read_text(docs / page)
    if is_place:
        at = site.at.get(target)
        near = None if at is None else nearest(place, list(at.at))
        help_ = did_you_mean(f"{path}#{near}" if near else "", "look for the name of the place on that page")
    else:
        pages = [file.relative_to(docs).as_posix() for file in docs.rglob("*") if file.is_file()]
        found = nearest(target, [*pages, *site.generated])
        shown = os.path.relpath(found, os.path.dirname(page) or ".") if found else ""
        help_ = did_you_mean(shown, "name a page of the handbook by its file, such as `procedures/stock.md`")
    for line, column, end in _written(text or "", url, docs / page, site.records) or [(1, 1, 2)]:
        yield Diagnostic(
            "H732" if is_place else "H731",
            Place(str(docs / page), line, column, end),
            found=f"`{url}`",
            expected="a place that the page has" if is_place else "a page, a picture or another file of the handbook",
            help=help_,
            says=f"the page has no place `{place}`" if is_place else f"`{url}` leads to nothing in the handbook",
        )


def _written(text: str, url: str, file: Path, records: Records | None) -> list[tuple[int, int, int]]:
    """Where a page writes an address, or quotes a value that is linked there: line, column and end."""
    lines = text.split("\n")
    exactly = re.compile(rf"(?<![\w./#-]){re.escape(url)}(?![\w/#-])")
    found = [
        (n, match.start() + 1, match.end() + 1) for n, line in enumerate(lines, 1) for match in exactly.finditer(line)
    ]
    if found or records is None:
        return found
    quotes = ((n, quote) for n, line in enumerate(lines, 1) for quote in re.finditer(r"\{\{.*?\}\}", line))
    return [(n, q.start() + 1, q.end() + 1) for n, q in quotes if url in quoted(q[0], str(file), records)[0]]


def _about_setting(settings: Path, key: str, why: str, stops: bool) -> Diagnostic:
    return Diagnostic(
        "F831" if stops else "F832",
        _in_settings(settings, key, why),
        found=f"`{key}`" if key else "what is written there",
        expected="a setting that MkDocs or this program takes, and files that are there",
        help=_ADD_THE_NAME
        if "No theme name" in why
        else "mend it, or take it away: what is not written there is inherited from the program",
        says=" ".join(why.split()).removesuffix("."),
    )


def _in_settings(settings: Path, key: str, why: str) -> Place:
    """The place in mkdocs.yml that is meant: one that is named, else what stands in quotes, else the key."""
    if at := _AT.search(why):
        last = (read_text(settings)[0] or "").count("\n") + 1
        return Place(str(settings), min(int(at[1]), last), int(at[2]), int(at[2]) + 1)
    return in_settings(settings, *reversed(_NAMED.findall(why)), *re.findall(r": (\w+)$", why), key)


def _about_template(page: Path, why: str) -> Diagnostic:
    return Diagnostic(
        "H733",
        Place(str(page), 1, 1, 2),
        found=f"“{' '.join(why.split())}”",
        expected="settings at the head of the page, and templates, that a page can be made with",
        help="mend what stands between the two lines `---` at the head of the page, or the template",
        says="this page cannot be made",
    )


def _in_the_way(settings: Path, config: MkDocsConfig, content: Path) -> Iterator[Diagnostic]:
    """What keeps the site from being written where the settings say."""
    try:
        see(Path(config.site_dir), kept_from_the_site(config, content))
    except Refused as refused:
        yield Diagnostic(
            "F833",
            Place(os.path.relpath(config.site_dir), 1, 1, 2),
            found="something else than a site",
            expected="a place where a site is, or can be",
            help=f"move it away, or give `site_dir` in {settings} another folder",
            says=str(refused),
        )
