"""The authored pages of procedures: title, hash of the text, time to read; and how they fit their records.

The hash is over the authored Markdown, white space aside, without the quoted values. A changed value shows on the
page and is reviewed in its record; a changed word makes another text.
"""

from __future__ import annotations

import datetime
import hashlib
import math
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place
from generator.press.manual.authored import authored_pages, prose_lines
from generator.press.manual.quoted_values import listed_as, quoted_values
from generator.records.families import Records
from generator.records.procedures import Procedure

FOLDER = "procedures"
INDEX = f"{FOLDER}/index.md"
# How a procedure is written: what comes first in bold, then the headings.
_BOLD = ("Purpose", "Who", "What you need")
_HEADINGS = ("Steps", "When to stop", "What to write down", "Cautions")
_TITLE = re.compile(r"^# +(.+?)\s*$", re.MULTILINE)
# What is not read as words: where a link leads, and tags.
_UNREAD = re.compile(r"\]\([^)]*\)|<[^>]*>|\{ ?[:#][^}]*\}")
_QUOTE = re.compile(r"\{\{.*?\}\}")
# A quote by name; what is typed in a quote is words.
_NAMED = re.compile(r"\{\{(?! *typed:)(?P<path>.*?)\}\}")


class ProcedurePage(NamedTuple):
    """One procedure as it is written: `text` is the short hash of its text, `words` are those to read.

    quotes: the paths that it quotes, one after the other. before: the hash that also counts the names in its quotes, as
    texts were listed by before.
    """

    file: str
    title: str
    text: str
    words: int
    lacks: tuple[str, ...] = ()
    quotes: tuple[str, ...] = ()
    before: str = ""


def text_hash(text: str) -> str:
    """Six characters that change with the words of a page, and with neither its line breaks nor what it quotes."""
    return _hash(_NAMED.sub("{{}}", text))


def _hash(text: str) -> str:
    return hashlib.sha256(" ".join(text.split()).encode()).hexdigest()[:6]


def read_procedures(handbook: Path) -> dict[str, ProcedurePage]:
    """Every page in the handbook's folder of procedures, by the id that its record has."""
    return {
        path.stem: procedure_page(text, str(path), path.stem)
        for path, text in authored_pages(handbook / FOLDER)
        if path.stem != "index"
    }


def procedure_page(text: str, file: str, procedure_id: str) -> ProcedurePage:
    """What a page says about itself."""
    title = _TITLE.search(text)
    prose = "\n".join(line for _, line in prose_lines(text))
    bold = set(re.findall(r"^\*\*([^*.]+)\.\*\*", prose, re.MULTILINE))
    headings = set(re.findall(r"^## +(.+?)(?:\s*\{[^}]*\})?\s*$", prose, re.MULTILINE))
    if title:
        headings.add(title[1])  # “When to stop” is a procedure, too
    lacks = (*(name for name in _BOLD if name not in bold), *(name for name in _HEADINGS if name not in headings))
    words = _UNREAD.sub(" ", _QUOTE.sub(" value ", prose)).split()
    quotes = tuple(quote["path"].strip() for quote in _NAMED.finditer(prose))
    readable = sum(any(c.isalnum() for c in word) for word in words)
    return ProcedurePage(
        file, title[1] if title else procedure_id, text_hash(text), readable, lacks, quotes, _hash(text)
    )


def title_of(procedure_id: str, pages: Mapping[str, ProcedurePage]) -> str:
    """The title of its page, or the id where the page is not there."""
    return pages[procedure_id].title if procedure_id in pages else procedure_id


def procedures_by_group(records: Records) -> list[tuple[str, list[str]]]:
    """Each group of procedures with the addresses of its pages, both in the order of the records."""
    groups: dict[str, list[str]] = {}
    for procedure in records.procedures.values():
        groups.setdefault(procedure.group, []).append(f"{FOLDER}/{procedure.id}.md")
    return list(groups.items())


def minutes_to_read(page: ProcedurePage, records: Records) -> int:
    """Whole minutes, rounded up."""
    return math.ceil(page.words / records.studio.limits.words_a_minute)


def is_listed(procedure: Procedure, page: ProcedurePage) -> bool:
    """Whether the text is the latest that the record lists."""
    return procedure.revisions[-1].text in (page.text, page.before)


def listed_hash(procedure: Procedure, page: ProcedurePage) -> str:
    """The hash of the text as it is signed: as the record lists it, else as it is now."""
    return procedure.revisions[-1].text if is_listed(procedure, page) else page.text


def page_findings(
    records: Records, pages: Mapping[str, ProcedurePage], as_of: datetime.date, broken: frozenset[str] = frozenset()
) -> Iterator[Diagnostic]:
    """Pages without a record or without words, records without a page, lacking sections, texts that nobody listed.

    broken: files with a mistake. Their text will be another one once it is mended, and is not listed before.
    """
    for procedure_id, page in pages.items():
        procedure, at = records.procedures.get(procedure_id), Place(page.file, 1, 1, 2)
        if procedure is None:
            first = _revision(page, records, as_of, "First text.")
            yield Diagnostic(
                "H711",
                at,
                expected=f"an entry `{procedure_id}` in procedures.yml",
                help=(
                    f"add `- id: {procedure_id}` to procedures.yml with owner, reviewed, interval, group, read_by, "
                    f"then_can and `revisions: [{first}]`"
                ),
                says=f"the procedure `{procedure_id}` has no record",
            )
            continue
        if page.words == 0:
            yield Diagnostic(
                "H714",
                at,
                found="an empty page",
                expected="the text of the procedure",
                help="write it, or take the page and its entry in procedures.yml away",
                says="nothing is written on the page of this procedure",
            )
            continue
        if page.lacks:
            yield _lacking(page, at)
        if not is_listed(procedure, page) and page.file not in broken:
            yield _not_listed(procedure, page, records, as_of)
    for procedure in records.procedures.values():
        if procedure.id not in pages:
            yield Diagnostic(
                "H712",
                procedure.id.place,
                found=f"“{procedure.id}”",
                expected="the name of a page among the procedures",
                help=f"write `{FOLDER}/{procedure.id}.md` in the handbook, or take this entry away",
                says=f"the procedure `{procedure.id}` has no page",
            )


def _lacking(page: ProcedurePage, at: Place) -> Diagnostic:
    listed = ", ".join(f"“{name}”" for name in page.lacks)
    written = " and ".join(f"`**{name}.**`" if name in _BOLD else f"`## {name}`" for name in page.lacks)
    return Diagnostic(
        "H713",
        at,
        expected="every section of a procedure",
        help=f"write {written}",
        says=f"the procedure lacks {listed}",
    )


def _not_listed(procedure: Procedure, page: ProcedurePage, records: Records, as_of: datetime.date) -> Diagnostic:
    last = procedure.revisions[-1].text
    return Diagnostic(
        "H722",
        last.place,
        found=f"“{last}”",
        expected=f"`{page.text}`, as {page.file} reads now",
        help=(
            f"add `- {_revision(page, records, as_of, 'what changed')}` to the revisions of `{procedure.id}` in "
            "procedures.yml; write `wording_only: yes` only when nothing is done otherwise than before"
        ),
        says=f"the text of `{procedure.id}` has changed since its last listed revision",
    )


def _revision(page: ProcedurePage, records: Records, as_of: datetime.date, what: str) -> str:
    values = quoted_values(page.quotes, records)
    quotes = f"{listed_as(values)}, " if values else ""
    return f"{{text: {page.text}, date: {as_of.isoformat()}, what: {what}, {quotes}wording_only: no}}"
