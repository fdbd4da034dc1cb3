"""A site of a few pages, and builds of it without MkDocs."""

from __future__ import annotations

from pathlib import Path

from generator import exchange
from generator.exchange import leave, take

PAGES = ("assets/handbook.css", "index.html", "search/index.json", "sheets/one.html", "sheets/two.html")


def write(site: Path, text: str) -> None:
    """A site that says the same on all its pages."""
    for page in PAGES:
        (site / page).parent.mkdir(parents=True, exist_ok=True)
        (site / page).write_text(text, "utf-8")


def read(site: Path) -> str | None:
    """What a whole site says, or None where there is none."""
    if not site.exists():
        return None
    assert sorted(p.relative_to(site).as_posix() for p in site.rglob("*") if p.is_file()) == list(PAGES)
    (text,) = {(site / page).read_text("utf-8") for page in PAGES}
    return text


def beside(site: Path) -> list[str]:
    return sorted(p.name for p in site.parent.iterdir() if p.name.startswith(f".{site.name}."))


def build(site: Path, text: str = "new") -> None:
    """What a build does, from its first to its last event."""
    place, _ = take(site)
    try:
        write(place.new, text)
        exchange.exchange(place)
    finally:
        leave(place)


def fail(site: Path) -> None:
    """What a build does that finds a mistake."""
    leave(take(site)[0])
