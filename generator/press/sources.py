"""How a source is cited on pages and sheets."""

from generator.records.sources import SourceRecord


def citation(source: SourceRecord) -> str:
    """A source in one line; common practice says that nothing is published."""
    if source.kind == "published":
        where = f", {source.where}" if source.where else ""
        return f"{source.body}, {source.title} ({source.year}){where}"
    if source.kind == "house":
        return f"Decided here by {source.decided_by}, {source.decided_on}: {source.title}"
    return f"Common practice, no published source: {source.title}"


def short_citation(source: SourceRecord) -> str:
    """A source as the sheet names it; the handbook has the rest."""
    if source.kind == "published":
        return f"{source.body}, {source.year}"
    if source.kind == "house":
        return f"House decision, {source.decided_by}, {source.decided_on}"
    return "Common practice, nothing published"
