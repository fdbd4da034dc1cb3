"""MkDocs glue: what else calls MkDocs (`dry_build`, `site_build`) goes through this plugin.

Records, jobs and quotes are checked before anything is written. The site is built beside the old one and
exchanged for it at the very end, when nothing failed and nothing warned in strict mode (`exchange.py`).

A studio's mkdocs.yml holds only what the studio decides. `_inherit` lays it over the settings of the program and hands
MkDocs the whole, before any other event; plugins that are named in neither are not touched.

MkDocs hides warnings from its strict check under `-q`; they are kept countable here. A job's page is no Markdown: it
enters the search through the index that the search plugin has written (`_into_the_search`).
"""

from __future__ import annotations

import atexit
import datetime
import json
import logging
import os
import signal
import sys
import threading
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType, TracebackType
from typing import Any, Literal
from urllib.parse import urlsplit

from jinja2 import TemplateError
from markupsafe import Markup, escape
from mkdocs.config import config_options
from mkdocs.config.base import BaseConfigOption, Config, ValidationError
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, MkDocsException, PluginError
from mkdocs.plugins import BasePlugin, CombinedEvent, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink
from mkdocs.utils import CountHandler
from mkdocs.utils.templates import TemplateContext
from mkdocs.utils.yaml import yaml_load

from generator.dates import AsOf, as_of, seconds_of_the_build
from generator.diagnostics import Diagnostic, as_text, first_of, has_errors, not_shown, summary
from generator.exchange import Refused, TakenSite, exchange, explain, leave, take
from generator.faults import no_traceback
from generator.hooks import failed_hook
from generator.inherit import UNNAMED, laid_over, leads_to_no_page, menu, name_of
from generator.kept.waiting import Waiting
from generator.planning.working.still_here import with_procedures_in_use
from generator.press.lists.look_up import write_stamps
from generator.press.lists.older import searched, write_older
from generator.press.lists.reviews import CALENDAR
from generator.press.lists.start_here import sign_off_html, sign_off_of, to_sign
from generator.press.manual.authored import authored_pages
from generator.press.manual.calendar import calendar_file
from generator.press.manual.procedure_head import with_head
from generator.press.manual.procedures import FOLDER, procedures_by_group
from generator.press.manual.quotes import quoted
from generator.press.manual.reviews import reviews_due
from generator.press.manual.search_weight import search_weight
from generator.press.pages import SHARED, in_site
from generator.press.sheet.all_jobs import not_planned
from generator.press.sheet.summary import search_entry
from generator.press.words.index_words import index_text
from generator.press.words.markup import with_whole_dates
from generator.press.words.page_day import with_set_date
from generator.press.words.print_line import with_print_line, words_stamp
from generator.press.words.regional import has_habits, in_region
from generator.press.words.undecided import with_undecided
from generator.press.words.whole_blocks import anchors_in, held_back, put_back
from generator.published import note_published
from generator.records.days import typed_day
from generator.records.families import Records
from generator.records.procedures import ROLES
from generator.shipped import SETTINGS, assets
from generator.site import SiteRead, read_site

log = get_plugin_logger("studio-handbook")
# The theme says at every build that its support ends. Nobody in a studio can do anything about it; what a move would
# take is in DEVELOPERS.md. The theme is loaded after this module, because only the inherited settings name it.
os.environ.setdefault("NO_MKDOCS_2_WARNING", "true")


class _Day(BaseConfigOption[datetime.date]):
    """A day as records have it; YAML makes a day of it before anybody reads it."""

    def run_validation(self, value: object) -> datetime.date:
        found = typed_day(str(value))
        if isinstance(found, Diagnostic):
            raise ValidationError(f"{found.message}; {found.help}")
        return found


class Options(Config):  # type: ignore[no-untyped-call]
    """What mkdocs.yml may say under `studio-handbook`."""

    content = config_options.Type(str, default="content")
    as_of = config_options.Optional(_Day())
    jobs = config_options.Type(bool, default=True)


@dataclass
class _Build:
    """What one build carries from event to event. place: None where nothing is written."""

    content: Path
    site_dir: str
    place: TakenSite | None
    warnings: CountHandler
    waiting: Waiting
    site: SiteRead
    blocks: Sequence[str] = ()

    @property
    def records(self) -> Records:
        """Those of a site without a mistake; of another one no page is built."""
        assert self.site.records is not None
        return self.site.records


def _uncaught_in_words(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
    """What nobody caught, such as what failed when it was read, or at the start: where, and what happened."""
    if not isinstance(error, Exception):
        sys.__excepthook__(kind, error, trace)
    elif hook := failed_hook(error, ours=ours()):
        sys.stderr.write(f"{as_text([hook])}\n")
    else:
        with suppress(SystemExit), no_traceback():
            raise error


def settings_in(file: Path) -> dict[str, Any]:
    """The settings in a file. Raises OSError, and what the reader of YAML raises."""
    with file.open("rb") as opened:
        return yaml_load(opened)


@cache
def ours() -> frozenset[str]:
    """The plugins that come with the program."""
    return frozenset(map(name_of, settings_in(SETTINGS)["plugins"]))


def kept_from_the_site(config: MkDocsConfig, content: Path) -> tuple[Path, ...]:
    """The files and folders that a site may not replace."""
    file = Path(config.config_file_path) if config.config_file_path else Path.cwd()
    return content, Path(config.docs_dir), file


def _lacking(config: MkDocsConfig, files: Files) -> list[str]:
    """Styles, scripts and pictures that the settings name and that are not there; MkDocs does not look for them."""
    logo, icon = config.theme.get("logo"), config.theme.get("favicon")
    named = [*config.extra_css, *map(str, config.extra_javascript), *filter(None, (logo, icon))]
    local = [name for name in named if not urlsplit(name).scheme and not name.startswith("//")]
    return [name for name in local if files.get_file_from_path(urlsplit(name).path.lstrip("/")) is None]


class StudioHandbook(BasePlugin[Options]):  # type: ignore[no-untyped-call]
    """Turns the studio's records into pages and sheets of the site."""

    build: _Build
    started: tuple[Literal["build", "gh-deploy", "serve"], bool] = ("build", False)
    whole: MkDocsConfig | None = None
    own: Mapping[str, Any] = MappingProxyType({})
    # Where the pages of jobs would be, and what was read, where a check has read it and nothing is to be written.
    checked: tuple[Waiting, SiteRead] | None = None
    # Whether what is built is published, wherever it is.
    publishing = False

    def __init__(self) -> None:
        """Before the hooks of a studio are read, which is outside of every event."""
        sys.excepthook = _uncaught_in_words

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Keep warnings countable under `-q`: the handlers stay quiet, the logger does not."""
        self.started = (command, dirty)
        # A build that is broken off ends without an event. Whatever ends the program ends it as Ctrl-C does.
        atexit.register(self._clean_up)
        in_main = threading.current_thread() is threading.main_thread()
        for name in ("SIGTERM", "SIGHUP"):
            ending = getattr(signal, name, None)
            if ending is not None and in_main and signal.getsignal(ending) == signal.SIG_DFL:
                signal.signal(ending, signal.default_int_handler)
        mkdocs = logging.getLogger("mkdocs")
        if mkdocs.level > logging.WARNING:
            for handler in mkdocs.handlers:
                handler.setLevel(mkdocs.level)
            mkdocs.setLevel(logging.WARNING)

    def day(self) -> AsOf:
        """The day that the settings or the environment set for a run, else today."""
        return as_of(self.config.as_of, "`as_of` in mkdocs.yml")

    @event_priority(100)
    def _inherit(self, /, config: MkDocsConfig) -> MkDocsConfig:
        """Go on with the settings of the program under those of the studio, and with the plugins that they name."""
        if config is self.whole:
            return config
        if seconds_of_the_build() is None:
            os.environ.pop("SOURCE_DATE_EPOCH", None)  # MkDocs breaks off over what is no date
        own = Path(config.config_file_path or "")
        self.own = settings_in(own) if own.is_file() else {}
        settings = laid_over(settings_in(SETTINGS), self.own)
        # What the command line may have said over the file.
        said = {key: config[key] for key in ("site_name", "site_url", "docs_dir", "site_dir", "strict")}
        whole = MkDocsConfig(config_file_path=config.config_file_path)
        whole.load_dict({**settings, **said})
        wrong, doubts = whole.validate()
        for key, doubt in doubts:
            log.warning(f"mkdocs.yml, {key}: {doubt}")
        if wrong:
            raise PluginError("\n".join(f"mkdocs.yml, {key}: {mistake}" for key, mistake in wrong))
        if whole.use_directory_urls:
            raise PluginError("mkdocs.yml, use_directory_urls: pages open by double-click only where it says `false`")
        command, dirty = self.started
        whole.plugins.on_startup(command=command, dirty=dirty)
        self.whole = whole
        # The plugins of the file alone have their event with the whole, and not with the file again.
        config.plugins.events["config"].clear()
        whole = whole.plugins.on_config(whole)
        config.watch[:] = whole.watch
        return whole

    def _begin(self, /, config: MkDocsConfig) -> MkDocsConfig:
        """Turn the build to a folder beside the site, and watch the records."""
        root = Path(config.config_file_path).parent if config.config_file_path else Path.cwd()
        content = root / self.config.content
        config.watch.append(str(content))
        self._clean_up()
        warnings = CountHandler()
        warnings.setLevel(logging.WARNING)
        if self.checked is not None:
            waiting, site = self.checked
            self.build = _Build(content, config.site_dir, None, warnings, waiting, site)
            return config
        try:
            place, repaired = take(Path(config.site_dir), kept_from_the_site(config, content))
        except Refused as refused:
            raise PluginError(f"{refused}. Nothing was built") from None
        if repaired:
            log.info(f"The last build was stopped before its end; {config.site_dir} is whole again")
        logging.getLogger("mkdocs").addHandler(warnings)
        shown, site = Path(os.path.relpath(content)), SiteRead(None, self.day())
        self.build = _Build(shown, config.site_dir, place, warnings, Waiting(place.work), site)
        config.site_dir = str(place.new)
        return config

    on_config = CombinedEvent(_inherit, _begin)

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Read, check and plan everything; stop here when there is a mistake."""
        build = self.build
        if self.checked is not None:
            return
        with no_traceback(but=OSError):
            docs, jobs = Path(os.path.relpath(config.docs_dir)), self.config.jobs
            build.site = read_site(build.content, docs, build.site.as_of, build.waiting.keep, with_jobs=jobs)
        report = build.site.report
        warned = [d for d in report if d.level != "error"]
        for diagnostic in first_of(warned):
            # A warning is counted by the strict mode, a reminder stops nothing.
            say = log.warning if diagnostic.level == "warning" else log.info
            say(as_text([diagnostic]))
        if more := not_shown(warned):
            log.info(more)
        if build.site.records is not None and config.site_name == UNNAMED:
            config.site_name = escape(build.site.records.studio.name)  # the theme writes it as it is
        if has_errors(report):
            errors = [d for d in report if d.level == "error"]
            end = "\n".join(filter(None, (not_planned(build.content, build.site.records), summary(report))))
            raise PluginError(f"there are mistakes; the site stays as it was\n\n{as_text(errors)}\n\n{end}")

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the generated pages and the sheets."""
        build = self.build
        records, procedures = build.records, build.site.gathered.procedures
        for uri, text in build.site.generated.items():
            to = build.waiting.aside(uri)
            to.write_bytes(text.encode())
            files.append(File.generated(config, uri, abs_src_path=str(to)))
        if self.checked is None:
            build.site.generated = {}
            build.site.at = {}
        due = reviews_due(records, build.site.as_of)
        calendar = calendar_file(records, due, procedures, build.site.as_of)
        files.append(File.generated(config, CALENDAR, content=calendar.encode()))
        for role in ROLES:
            lines = to_sign(role, with_procedures_in_use(records, build.site.as_of), procedures)
            sheet_of_role = sign_off_html(role, records.studio, lines, build.site.as_of)
            files.append(File.generated(config, sign_off_of(role), content=in_site(sheet_of_role)))
        for shared in SHARED:
            files.append(File.generated(config, shared.address, content=shared.text))
        # Of the pages of jobs MkDocs knows those that an authored page leads to, so that it can say which is not there.
        authored = (text for _, text in authored_pages(Path(config.docs_dir)))
        for uri, made in build.waiting.named_in(authored):
            files.append(File.generated(config, uri, abs_src_path=str(made)))
        own = [file.src_uri for file in files.documentation_pages() if file.generated_by is None]
        for uri, shipped in assets():
            if files.get_file_from_path(uri) is None:
                files.append(File.generated(config, uri, abs_src_path=str(shipped)))
        pages = [file.src_uri for file in files.documentation_pages()]
        for page in leads_to_no_page(self.own.get("nav") or [], pages):
            log.warning(f"A reference to '{page}' is in the menu, and there is no such page.")
        for name in _lacking(config, files):
            log.warning(f"The file '{name}' is named in mkdocs.yml and is not among the pages.")
        config.nav = menu(config.nav or [], procedures_by_group(records), pages, own)
        return files

    @event_priority(0)
    def _quoted(self, /, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Put the values of records where an authored page quotes them."""
        build = self.build
        page.update_date = build.site.as_of.isoformat()  # where files carry a date, it is not that of the clock
        found = page.meta.setdefault("search", {"boost": search_weight(page.file.src_uri)})
        if not isinstance(found, dict):
            raise PluginError(f"Error building page '{page.file.src_uri}': `search` at its head takes keys and values")
        if page.file.generated_by is not None:
            return markdown
        text = with_undecided(quoted(markdown, page.file.src_uri, build.records)[0], build.records)
        if page.file.src_uri == "index.md":
            text = with_set_date(build.site.with_its_days(text), build.site.as_of)
        folder, _, name = page.file.src_uri.removesuffix(".md").rpartition("/")
        written = build.site.gathered.procedures.get(name) if folder == FOLDER else None
        # Without a record there is an error already, and no page is built.
        if written is None:
            return text
        return with_head(text, build.records.procedures[name], written, build.records, build.site.as_of)

    @event_priority(-100)
    def _held_back(self, /, markdown: str, *, page: Page, **_: object) -> str:
        """Keep the tables of a generated page from the conversion, which would read each tag and change none."""
        markdown, self.build.blocks = held_back(markdown) if page.file.generated_by is not None else (markdown, ())
        return markdown

    on_page_markdown = CombinedEvent(_quoted, _held_back)

    @event_priority(100)
    def _put_back(self, html: str, /, *, page: Page, **_: object) -> str:
        """Put the tables back where they were held back, with what can be linked to in them."""
        blocks = self.build.blocks
        page.present_anchor_ids = (page.present_anchor_ids or set()) | anchors_in(blocks)
        return put_back(html, blocks)

    @event_priority(-100)
    def _aside(self, html: str, /, *, page: Page, **_: object) -> str:
        """Let a page wait as a file: all are converted before the first is put into its template."""
        self._waiting(page).write_bytes(html.encode())
        return ""

    def _waiting(self, page: Page) -> Path:
        return self.build.waiting.aside(f"{page.file.src_uri}.html")

    on_page_content = CombinedEvent(_put_back, _aside)

    @event_priority(50)
    def _words_apart(self, /, context: TemplateContext, *, page: Page, **_: object) -> None:
        """Hand the search a text in which no two words touch; it reads the page after this and before the next."""
        page.content = index_text(self._waiting(page).read_bytes().decode())

    @event_priority(-50)
    def _as_shown(self, /, context: TemplateContext, *, page: Page, **_: object) -> None:
        page.content = self._waiting(page).read_bytes().decode()
        _keep_dates_whole(page.toc)

    on_page_context = CombinedEvent(_words_apart, _as_shown)

    @event_priority(0)
    def _printed(self, output: str, /, *, page: Page, **_: object) -> str:
        """Give the page the line that paper shows, with the stamp of its words."""
        records = self.build.records
        stamp = words_stamp(page.content or "")
        return with_print_line(output, page.file.dest_uri, stamp, records.studio.name, self.build.site.as_of)

    @event_priority(-100)
    def _done(self, output: str, /, *, page: Page, **_: object) -> None:
        page.content = ""

    on_post_page = CombinedEvent(_printed, _done)

    @event_priority(-40)
    def _stamps(self, *, config: MkDocsConfig) -> None:
        """Write the look-ups of stamps and of older jobs: all pages but those of jobs are written now."""
        site, read = Path(config.site_dir), self.build.site
        write_stamps(site, read.gathered.jobs, read.job_stamps)
        write_older(site, read.gathered.jobs)

    @event_priority(-50)
    def _into_the_search(self, *, config: MkDocsConfig) -> None:
        """Let the search find the jobs, whose pages are no Markdown, and say things as the studio's region does.

        The index is written before and copied after.
        """
        index = Path(config.site_dir) / "search" / "search_index.json"
        if index.is_file():
            found, said = json.loads(index.read_text("utf-8")), in_region(self.build.records)
            found["docs"] += [search_entry(job) for job in searched(self.build.site.gathered.jobs)]
            for doc in found["docs"]:
                doc.update({name: said(doc[name]) for name in ("title", "text") if name in doc})
            index.write_text(json.dumps(found, separators=(",", ":")), "utf-8")

    @event_priority(-60)
    def _in_region(self, *, config: MkDocsConfig) -> None:
        """Write days, hours and words of every page as the studio's region does."""
        if has_habits(self.build.records):
            said = in_region(self.build.records)
            for page in Path(config.site_dir).rglob("*.html"):
                page.write_text(said(page.read_text("utf-8")), "utf-8")

    @event_priority(-90)
    def _with_jobs(self, *, config: MkDocsConfig) -> None:
        self.build.waiting.move_into(Path(config.site_dir))

    @event_priority(-100)
    def _exchanged(self, *, config: MkDocsConfig) -> None:
        """Exchange the sites, unless strict mode is about to stop over a warning."""
        build = self.build
        if build.place is None or (config.strict and build.warnings.get_counts()):
            return
        try:
            exchange(build.place)
        except Refused as refused:
            raise PluginError(f"{refused}. The site stays as it was") from None
        config.site_dir = build.site_dir
        if self.started[0] != "serve" and build.site.gathered.with_jobs:
            # What it was made of is only for comparing the next one with it; the site is published without.
            own = Path(config.config_file_path or "").parent / str(self.own.get("site_dir") or "site")
            counts = self.publishing or os.path.realpath(own) == os.path.realpath(build.place.site)
            with suppress(OSError):
                note_published(build.content, build.place.site, build.site.as_of, counts=counts)
        self._clean_up()

    on_post_build = CombinedEvent(_stamps, _into_the_search, _in_region, _with_jobs, _exchanged)

    @event_priority(-100)
    def on_build_error(self, *, error: Exception) -> None:
        """Leave the old site as it is, take away what was begun, and say why the system refused to write."""
        self._clean_up()
        settings = Path(os.path.relpath((self.whole and self.whole.config_file_path) or "mkdocs.yml"))
        if hook := failed_hook(error, settings, ours()):
            log.error(f"{as_text([hook])}\n\nThe site stays as it was")
            raise Abort("Aborted: a hook or a plugin failed!") from None
        if isinstance(error, TemplateError):
            log.error(f"a template of the site is wrong: {error}. The site stays as it was")
            raise Abort("Aborted: a page could not be made!") from None
        if isinstance(error, OSError):
            log.error(f"the site could not be made. {explain(error)}. The site stays as it was")
            raise Abort("Aborted: a file could not be read or written!") from None
        if not isinstance(error, MkDocsException):
            with no_traceback():
                raise error

    def _clean_up(self) -> None:
        if hasattr(self, "build"):
            logging.getLogger("mkdocs").removeHandler(self.build.warnings)
            if self.build.place is not None:
                leave(self.build.place)


def _keep_dates_whole(links: Iterable[AnchorLink]) -> None:
    """In a table of contents, which is narrow, no line ends inside a date. The search has read it before."""
    for link in links:
        link.title = with_whole_dates(Markup(link.title))
        _keep_dates_whole(link.children)
