"""How a source is cited on pages and sheets."""

from generator.records.sources import SourceRecord


def short_citation(source: SourceRecord) -> str:
    """A source as the sheet names it; the handbook has the rest."""
    if source.kind == "published":
        return f"{source.body}, {source.year}"
    if source.kind == "house":
        return f"House decision, {source.decided_by}, {source.decided_on}"
    return "Common practice, nothing published"
