"""What is asked of a studio in writing, and where the handbook answers it."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from generator.press.manual.anchors import PageRead
from generator.press.words.addresses import address, anchor, source_in_short, to_source
from generator.press.words.markup import Row, bullets, heading, link, note, page, paragraph, table
from generator.records.asked import Asked
from generator.records.families import Records
from generator.records.located import Text

_COLUMNS = ("Asked for", "Where it is asked", "Answered here", "Not answered here")


def asked_page(records: Records, here: str, pages: Mapping[str, PageRead]) -> str:
    """A table for each source: item, where it is answered, and what is not."""
    blocks: list[str] = []
    for source_id in dict.fromkeys(str(item.source) for item in records.asked.values()):
        source = records.sources[source_id]
        rows = (_row(item, here, pages) for item in records.asked.values() if item.source == source_id)
        read = f", of which this was read: {source.where}" if source.where else ""
        blocks += [
            heading(source.title, anchor("asked", "by", source_id)),
            paragraph(Markup("{}{}.").format(to_source(here, source_id, records), read)),
            table(f"Asked for by {source_in_short(source, records)}", _COLUMNS, rows),
        ]
    return page(
        "What is asked of a studio, and where it is answered",
        note(
            "A list is not the law",
            "These lists are published, and none of them is the law of this place. What the "
            "authority here wants to see is asked there, and read in its own text.",
            Markup("{}.").format(
                link(address(here, "reference/studio.md", "studio-local-rules"), "Local rules to confirm")
            ),
        ),
        *blocks,
    )


def _row(item: Asked, here: str, pages: Mapping[str, PageRead]) -> Row:
    return Row(
        anchor("asked", item.id),
        (
            item.what,
            item.clause or "in the list of contents",
            bullets(_link(answer, here, pages) for answer in item.answered_in) or "nowhere",
            item.gap or "nothing left open",
        ),
    )


def _link(answer: Text, here: str, pages: Mapping[str, PageRead]) -> Markup:
    name, _, at = answer.partition("#")
    found = pages.get(name)
    words = [found.title, found.at.get(at, "")] if found else [str(answer)]
    return link(address(here, name, at), ": ".join(word for word in words if word))
