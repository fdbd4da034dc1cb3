"""The same words as plain MkDocs pages with the same theme: what an archive is measured by."""

from __future__ import annotations

import html
import re
import shutil
from collections.abc import Mapping
from pathlib import Path

import yaml

from generator.dates import as_of
from generator.press.manual.authored import authored_pages
from generator.press.manual.quotes import quoted
from generator.shipped import SETTINGS, assets
from generator.site import read_site

_HEAD = re.compile(r"<(head|script|style|svg)\b.*?</\1>", re.DOTALL)
_CELL = re.compile(r"</t[dh]>\s*<t[dh][^>]*>")
_BLOCK = re.compile(r"<(/?)(h[1-6]|p|li|tr|div|section|caption|summary|dt|dd)\b[^>]*>")
_TAG = re.compile(r"<[^>]+>")


def as_markdown(page: str) -> str:
    """The words of a page with its headings, lists and rows of tables."""
    text = _CELL.sub(" \\| ", _HEAD.sub("", page))

    def block(found: re.Match[str]) -> str:
        closes, name = found.groups()
        if closes:
            return "\n"
        return "\n\n" + {"li": "- ", "tr": "- "}.get(name, f"{'#' * int(name[1])} " if name[0] == "h" else "")

    lines = (" ".join(html.unescape(line).split()) for line in _TAG.sub("", _BLOCK.sub(block, text)).split("\n"))
    return "\n\n".join(line for line in lines if line.strip("-# ")) + "\n"


def _settings(folder: Path) -> dict[str, object]:
    """The program's settings without the program."""
    settings: dict[str, object] = yaml.safe_load(SETTINGS.read_text("utf-8"))
    plugins = settings.pop("plugins")
    assert isinstance(plugins, list)
    for key in ("nav", "not_in_nav", "validation"):
        settings.pop(key, None)
    own = [one for one in plugins if one != "studio-handbook"]
    return {**settings, "site_name": "Plain", "docs_dir": "docs", "plugins": own}


def plain(folder: Path, pages: Mapping[str, str]) -> None:
    """A project of plain MkDocs with these pages, in a folder that is not there yet."""
    for address, text in {"index.md": "# Plain\n", **pages}.items():
        path = folder / "docs" / address
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    for address, path in assets():
        to = folder / "docs" / address
        to.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path, to)
    (folder / "mkdocs.yml").write_text(yaml.safe_dump(_settings(folder)), "utf-8")


def of_jobs(site: Path) -> dict[str, str]:
    """Three pages of each job of a site, as Markdown: sheet, numbers, and the job's own page."""
    found = [path for folder in ("sheets", "jobs") for path in sorted((site / folder).glob("*.html"))]
    kept = [path for path in found if not path.stem.endswith("--today")]
    return {f"{path.parent.name}/{path.stem}.md": as_markdown(path.read_text("utf-8")) for path in kept}


def of_studio(project: Path) -> dict[str, str]:
    """The pages of a project that has no jobs, with every value in its place."""
    docs = project / "handbook"
    read = read_site(project / "content", docs, as_of())
    assert read.records is not None
    authored = {path.relative_to(docs).as_posix(): text for path, text in authored_pages(docs)}
    return {**{name: quoted(text, name, read.records)[0] for name, text in authored.items()}, **read.generated}
