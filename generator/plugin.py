"""MkDocs glue: nothing else in the project knows MkDocs.

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
import threading
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from mkdocs.config import config_options
from mkdocs.config.base import BaseConfigOption, Config, ValidationError
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from mkdocs.plugins import BasePlugin, CombinedEvent, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.utils import CountHandler
from mkdocs.utils.templates import TemplateContext
from mkdocs.utils.yaml import yaml_load

from generator.dates import AsOf, as_of
from generator.diagnostics import Diagnostic, as_text, first_of, has_errors, not_shown, summary
from generator.exchange import Refused, TakenSite, exchange, explain, leave, take
from generator.faults import no_traceback
from generator.inherit import laid_over, menu
from generator.planning.each_job import diary_of
from generator.planning.for_lists import needs_of
from generator.planning.plan import JobPlan
from generator.planning.supplies.restock import JobNeeds, span_ahead
from generator.planning.supplies.tracing import JobLots, traces
from generator.planning.timing.diary import Diary
from generator.planning.timing.learning import NOTHING, Learned, learn_from
from generator.planning.working.still_here import with_procedures_in_use
from generator.press.formulas.carried import shows_more
from generator.press.lists.day import (
    DayJob,
    day_html,
    day_job_of,
    day_view,
    days_with_pages,
    has_a_page,
    neighbours,
    with_days,
)
from generator.press.lists.lots import recall_sheets
from generator.press.lists.reviews import CALENDAR
from generator.press.lists.stamp import STAMP, STAMPS, stamps_script, with_page_stamps
from generator.press.lists.start_here import sign_off_html, sign_off_of, to_sign
from generator.press.manual.anchors import places
from generator.press.manual.answers import leads_nowhere
from generator.press.manual.authored import authored_pages
from generator.press.manual.calendar import calendar_file
from generator.press.manual.check import handbook_report
from generator.press.manual.procedure_head import with_head
from generator.press.manual.procedures import FOLDER, ProcedurePage, procedures_by_group, read_procedures
from generator.press.manual.quotes import quoted
from generator.press.manual.reviews import reviews_due
from generator.press.manual.search_weight import search_weight
from generator.press.manual.typed_numbers import job_findings
from generator.press.pages import Gathered, generated_pages
from generator.press.sheet.all_jobs import not_planned, press_jobs
from generator.press.sheet.summary import JobSummary, search_entry
from generator.press.words.addresses import day_address, explained_address, today_address
from generator.press.words.index_words import words_apart
from generator.press.words.print_line import with_print_line, words_stamp, written_stamps
from generator.press.words.regional import has_habits, in_region
from generator.press.words.set_date import with_set_date
from generator.press.words.undecided import with_undecided
from generator.records.days import typed_day
from generator.records.families import Records
from generator.records.gone import files_with_quotes, quotes_of_what_is_gone
from generator.records.procedures import ROLES
from generator.records.reading import read_records
from generator.shipped import SETTINGS, assets

log = get_plugin_logger("studio-handbook")


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


@dataclass
class _Build:
    """What one build carries from event to event."""

    content: Path
    site_dir: str
    place: TakenSite
    warnings: CountHandler
    sheets: Path
    pages: Path
    clients: Path
    as_of: AsOf
    summaries: list[JobSummary] = field(default_factory=list)
    records: Records | None = None
    shown: JobPlan | None = None
    learned: Learned = field(default_factory=lambda: NOTHING)
    needs: list[JobNeeds] = field(default_factory=list)
    procedures: dict[str, ProcedurePage] = field(default_factory=dict)
    lots: list[JobLots] = field(default_factory=list)
    generated: dict[str, str] = field(default_factory=dict)
    recalls: dict[str, str] = field(default_factory=dict)
    shown_as: str | None = None
    diary: Diary | None = None
    day_jobs: list[DayJob] = field(default_factory=list)

    def note_needs(self, records: Records, plan: JobPlan) -> None:
        """Keep what a planned job takes from the shelf, when its day is near enough to order for."""
        needs = needs_of(records, plan)
        if needs is not None and span_ahead(records, self.as_of).holds(needs.date):
            self.needs.append(needs)


def _settings(file: Path) -> dict[str, object]:
    with file.open("rb") as opened:
        return yaml_load(opened)


class StudioHandbook(BasePlugin[Options]):  # type: ignore[no-untyped-call]
    """Turns the studio's records into pages and sheets of the site."""

    build: _Build
    started: tuple[Literal["build", "gh-deploy", "serve"], bool] = ("build", False)
    whole: MkDocsConfig | None = None

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

    @event_priority(100)
    def _inherit(self, /, config: MkDocsConfig) -> MkDocsConfig:
        """Go on with the settings of the program under those of the studio, and with the plugins that they name."""
        if config is self.whole:
            return config
        own = Path(config.config_file_path or "")
        settings = laid_over(_settings(SETTINGS), _settings(own) if own.is_file() else {})
        # What the command line may have said over the file.
        said = {key: config[key] for key in ("site_name", "site_url", "docs_dir", "site_dir", "strict")}
        whole = MkDocsConfig(config_file_path=config.config_file_path)
        whole.load_dict({**settings, **said})
        wrong, doubts = whole.validate()
        for key, doubt in doubts:
            log.warning(f"mkdocs.yml, {key}: {doubt}")
        if wrong:
            raise PluginError("\n".join(f"mkdocs.yml, {key}: {mistake}" for key, mistake in wrong))
        for plugin in whole.plugins.values():
            if plugin is not self and hasattr(plugin, "on_startup"):
                command, dirty = self.started
                plugin.on_startup(command=command, dirty=dirty)
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
        keep = [content, Path(config.docs_dir), Path(config.config_file_path or root)]
        try:
            place, put_back = take(Path(config.site_dir), keep)
        except Refused as refused:
            raise PluginError(f"{refused}. Nothing was built") from None
        if put_back:
            log.info(f"The last build was stopped before its end; {config.site_dir} is whole again")
        warnings = CountHandler()
        warnings.setLevel(logging.WARNING)
        logging.getLogger("mkdocs").addHandler(warnings)
        sheets, pages, clients = (place.work / name for name in ("sheets", "jobs", "for-the-client"))
        day = as_of(self.config.as_of, "`as_of` in mkdocs.yml")
        self.build = _Build(
            Path(os.path.relpath(content)), config.site_dir, place, warnings, sheets, pages, clients, day
        )
        for folder in (sheets, pages, clients):
            folder.mkdir()
        config.site_dir = str(place.new)
        return config

    on_config = CombinedEvent(_inherit, _begin)

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Read, check and plan everything; stop here when there is a mistake."""
        with no_traceback(but=OSError):
            report = self._read(Path(config.docs_dir))
        warned = [d for d in report if d.level != "error"]
        for diagnostic in first_of(warned):
            # A warning is counted by the strict mode, a reminder stops nothing.
            say = log.warning if diagnostic.level == "warning" else log.info
            say(as_text([diagnostic]))
        if more := not_shown(warned):
            log.info(more)
        if has_errors(report):
            errors = [d for d in report if d.level == "error"]
            end = "\n".join(filter(None, (not_planned(self.build.content, self.build.records), summary(report))))
            raise PluginError(f"there are mistakes; the site stays as it was\n\n{as_text(errors)}\n\n{end}")

    def _read(self, docs: Path) -> list[Diagnostic]:
        build = self.build
        reading = read_records(build.content, build.as_of)
        build.records, build.as_of = reading.records, reading.as_of
        build.learned, doubts = learn_from(build.content, reading)
        report = [*reading.report, *doubts]
        build.diary = diary_of(build.content, reading, build.learned)
        for pressed in press_jobs(build.content, reading, build.learned, build.diary):
            report += pressed.report
            if pressed.summary is not None and pressed.sheet is not None:
                build.summaries.append(pressed.summary)
                (build.sheets / f"{pressed.summary.id}.html").write_text(pressed.sheet, "utf-8")
            if pressed.summary is not None and pressed.page is not None:
                (build.pages / f"{pressed.summary.id}.html").write_text(pressed.page, "utf-8")
            if pressed.summary is not None and pressed.client is not None:
                (build.clients / f"{pressed.summary.id}.html").write_text(pressed.client, "utf-8")
            if pressed.summary is not None and pressed.explained is not None:
                (build.sheets / Path(explained_address(pressed.summary.id)).name).write_text(pressed.explained, "utf-8")
            if pressed.summary is not None and pressed.today is not None:
                (build.pages / Path(today_address(pressed.summary.id)).name).write_text(pressed.today, "utf-8")
            if pressed.job is not None and pressed.summary is not None and reading.records is not None:
                report += job_findings(reading.records, pressed.job)
                build.lots += [] if pressed.lots is None else [pressed.lots]
                if pressed.plan is not None and pressed.job.finished is None:
                    build.note_needs(reading.records, pressed.plan)
                if has_a_page(pressed.job.date, build.as_of):
                    on_its_day = day_job_of(reading.records, pressed.job, pressed.plan, pressed.summary.state)
                    build.day_jobs += [] if on_its_day is None else [on_its_day]
            if pressed.plan is not None and shows_more(pressed.plan, build.shown):
                build.shown = pressed.plan
        if reading.records is not None:
            report += handbook_report(docs, reading.records, build.as_of)
            build.procedures = read_procedures(docs)
        else:
            report += quotes_of_what_is_gone(files_with_quotes(build.content, docs), reading.known)
        if reading.records is not None and not has_errors(report):
            report += self._generate(reading.records, docs)
        return report

    def _generate(self, records: Records, docs: Path) -> Iterator[Diagnostic]:
        """Make the generated pages, and see that the answers to what is asked lead to one of them."""
        build = self.build
        authored = places({page.relative_to(docs).as_posix(): text for page, text in authored_pages(docs)})
        traced = traces(records, build.lots)
        build.recalls = recall_sheets(records, traced, build.as_of)
        gathered = Gathered(
            build.summaries,
            build.shown,
            build.learned,
            build.needs,
            build.procedures,
            traced,
            authored,
            days_with_pages(build.day_jobs, build.as_of),
        )
        build.generated = generated_pages(records, build.as_of, gathered)
        yield from leads_nowhere(records, {**authored, **places(build.generated)}, procedures=False)

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the generated pages and the sheets."""
        build = self.build
        assert build.records is not None
        for uri, text in build.generated.items():
            if files.get_file_from_path(uri) is not None:
                raise PluginError(f"{uri} is written by hand and also generated: rename the page in {config.docs_dir}")
            files.append(File.generated(config, uri, content=text))
        due = reviews_due(build.records, build.as_of)
        calendar = calendar_file(build.records, due, build.procedures, build.as_of)
        files.append(File.generated(config, CALENDAR, content=calendar.encode()))
        for uri, text in build.recalls.items():
            files.append(File.generated(config, uri, content=text))
        for uri, text in self._days(build.records):
            files.append(File.generated(config, uri, content=text))
        for role in ROLES:
            lines = to_sign(role, with_procedures_in_use(build.records, build.as_of), build.procedures)
            sheet_of_role = sign_off_html(role, build.records.studio, lines, build.as_of)
            files.append(File.generated(config, sign_off_of(role), content=sheet_of_role))
        for folder, made in (("sheets", build.sheets), ("jobs", build.pages), ("for-the-client", build.clients)):
            for sheet in sorted(made.iterdir()):
                files.append(File.generated(config, f"{folder}/{sheet.name}", abs_src_path=str(sheet)))
        own = [file.src_uri for file in files.documentation_pages() if file.generated_by is None]
        for uri, shipped in assets():
            if files.get_file_from_path(uri) is None:
                files.append(File.generated(config, uri, abs_src_path=str(shipped)))
        pages = [file.src_uri for file in files.documentation_pages()]
        config.nav = menu(config.nav or [], procedures_by_group(build.records), pages, own)
        return files

    def _days(self, records: Records) -> Iterator[tuple[str, str]]:
        """The page of each day that has one, by its address."""
        build, days = self.build, days_with_pages(self.build.day_jobs, self.build.as_of)
        assert build.diary is not None
        for day in days:
            on_it = [job for job in build.day_jobs if job.date == day]
            view = day_view(records, day, on_it, build.diary.day(day))
            yield day_address(day), day_html(view, build.as_of, neighbours(day, days))

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Put the values of records where an authored page quotes them."""
        build = self.build
        page.update_date = build.as_of.isoformat()  # where files carry a date, it is not that of the clock
        page.meta.setdefault("search", {"boost": search_weight(page.file.src_uri)})
        if page.file.generated_by is not None or build.records is None:
            return markdown
        text = with_undecided(quoted(markdown, page.file.src_uri, build.records)[0], build.records)
        if page.file.src_uri == "index.md":
            text = with_set_date(with_days(text, build.as_of, build.day_jobs), build.as_of)
        folder, _, name = page.file.src_uri.removesuffix(".md").rpartition("/")
        written = build.procedures.get(name) if folder == FOLDER else None
        # Without a record there is an error already, and no page is built.
        if written is None:
            return text
        return with_head(text, build.records.procedures[name], written, build.records, build.as_of)

    @event_priority(50)
    def _words_apart(self, /, context: TemplateContext, *, page: Page, **_: object) -> None:
        """Hand the search a text in which no two words touch; it reads the page after this and before the next."""
        self.build.shown_as, page.content = page.content, words_apart(page.content or "")

    @event_priority(-50)
    def _as_shown(self, /, context: TemplateContext, *, page: Page, **_: object) -> None:
        page.content = self.build.shown_as

    on_page_context = CombinedEvent(_words_apart, _as_shown)

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Give the page the line that paper shows, with the stamp of its words."""
        records = self.build.records
        assert records is not None
        stamp = words_stamp(page.content or "")
        return with_print_line(output, page.file.dest_uri, stamp, records.studio.name, self.build.as_of)

    @event_priority(-40)
    def _stamps(self, *, config: MkDocsConfig) -> None:
        """Tell the page of stamps those of all other pages, which are known when the last of them is written."""
        site = Path(config.site_dir)
        pages = written_stamps(site)
        (site / STAMPS).write_text(stamps_script(self.build.summaries, pages), "utf-8")
        shown = site / STAMP.replace(".md", ".html")
        shown.write_text(with_page_stamps(shown.read_text("utf-8"), pages), "utf-8")

    @event_priority(-50)
    def _into_the_search(self, *, config: MkDocsConfig) -> None:
        """Let the search find the jobs, whose pages are no Markdown. The index is written before and copied after."""
        index = Path(config.site_dir) / "search" / "search_index.json"
        if index.is_file():
            found = json.loads(index.read_text("utf-8"))
            found["docs"] += [search_entry(job) for job in self.build.summaries]
            index.write_text(json.dumps(found, separators=(",", ":")), "utf-8")

    @event_priority(-60)
    def _in_region(self, *, config: MkDocsConfig) -> None:
        """Write days, hours and words of every page and of the search as the studio's region does."""
        records = self.build.records
        if records is None or not has_habits(records):
            return
        said, site = in_region(records), Path(config.site_dir)
        for page in site.rglob("*.html"):
            page.write_text(said(page.read_text("utf-8")), "utf-8")
        index = site / "search" / "search_index.json"
        if index.is_file():
            found = json.loads(index.read_text("utf-8"))
            for doc in found["docs"]:
                doc.update({name: said(doc[name]) for name in ("title", "text") if name in doc})
            index.write_text(json.dumps(found, separators=(",", ":")), "utf-8")

    @event_priority(-100)
    def _exchanged(self, *, config: MkDocsConfig) -> None:
        """Exchange the sites, unless strict mode is about to stop over a warning."""
        build = self.build
        if config.strict and build.warnings.get_counts():
            return
        try:
            exchange(build.place)
        except Refused as refused:
            raise PluginError(f"{refused}. The site stays as it was") from None
        config.site_dir = build.site_dir
        self._clean_up()

    on_post_build = CombinedEvent(_stamps, _into_the_search, _in_region, _exchanged)

    @event_priority(-100)
    def on_build_error(self, *, error: Exception) -> None:
        """Leave the old site as it is, take away what was begun, and say why the system refused to write."""
        self._clean_up()
        if isinstance(error, OSError):
            log.error(f"the site could not be made. {explain(error)}. The site stays as it was")
            raise Abort("Aborted: a file could not be read or written!") from None

    def _clean_up(self) -> None:
        if hasattr(self, "build"):
            logging.getLogger("mkdocs").removeHandler(self.build.warnings)
            leave(self.build.place)
