"""What is asked of a studio in writing, and where the handbook answers it."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from generator.press.lists.here import Here
from generator.press.manual.anchors import PageRead
from generator.press.words.addresses import PAGE_OF, anchor, source_in_short
from generator.press.words.markup import Cells, bullets, heading, note, page, paragraph, table_of
from generator.records.asked import Asked
from generator.records.located import Text


def asked_page(here: Here, pages: Mapping[str, PageRead]) -> str:
    """A table for each source: item, where it is answered, and what is not."""
    blocks: list[str] = []
    asked = here.records.asked.values()
    for source_id in dict.fromkeys(str(item.source) for item in asked):
        source = here.records.sources[source_id]
        rows = ((anchor("asked", i.id), _item(i, here, pages)) for i in asked if i.source == source_id)
        read = f", of which this was read: {source.where}" if source.where else ""
        blocks += [
            heading(source.title, anchor("asked", "by", source_id)),
            paragraph(Markup("{}{}.").format(here.to_source(source_id), read)),
            table_of(f"Asked for by {source_in_short(source, here.records)}", rows),
        ]
    return page(
        "What is asked of a studio, and where it is answered",
        note(
            "A list is not the law",
            "These lists are published, and none of them is the law of this place. What the "
            "authority here wants to see is asked there, and read in its own text.",
            Markup("{}.").format(here.to(PAGE_OF["studio"], "Local rules to confirm", "studio-local-rules")),
        ),
        *blocks,
    )


def _item(item: Asked, here: Here, pages: Mapping[str, PageRead]) -> Cells:
    return {
        "Asked for": item.what,
        "Where it is asked": item.clause or "in the list of contents",
        "Answered here": bullets(_link(answer, here, pages) for answer in item.answered_in) or "nowhere",
        "Not answered here": item.gap or "nothing left open",
    }


def _link(answer: Text, here: Here, pages: Mapping[str, PageRead]) -> Markup:
    name, _, at = answer.partition("#")
    found = pages.get(name)
    words = [found.title, found.at.get(at, "")] if found else [str(answer)]
    return here.to(name, ": ".join(word for word in words if word), at)
