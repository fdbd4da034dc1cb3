"""Pages of jobs share styles and scripts in the site, by a file that a page of yesterday never takes for its own."""

from __future__ import annotations

import hashlib
import re
from pathlib import Path
from typing import Any

from generator.kept.waiting import FOLDERS
from generator.press.words.shared import Shared, in_site

_LINKED = re.compile(r'<link rel="stylesheet" href="\.\./([^"]+)">|<script src="\.\./([^"]+)"></script>')
_INLINE = re.compile(r"<(style|script)\b[^>]*>(.*?)</\1>", re.DOTALL)
# What a page has by itself: the size of its paper, the widths of its columns, the day that was set.
_OF_ONE_PAGE = 800


def _pages(site: Path) -> list[Path]:
    return [page for folder in (*FOLDERS, "sign-off") for page in sorted((site / folder).iterdir())]


def test_pages_of_jobs_link_to_their_styles_and_scripts(site: Path) -> None:
    pages = _pages(site)
    assert len(pages) > 100
    lacking, inline, used = [], [], set()
    for page in pages:
        text = page.read_text("utf-8")
        named = {style or script for style, script in _LINKED.findall(text)}
        used |= named
        if not named or not all((site / name).is_file() for name in named):
            lacking.append(page.name)
        if any(kind == "script" or len(held) > _OF_ONE_PAGE for kind, held in _INLINE.findall(text) if held):
            inline.append(page.name)
    assert not lacking and not inline
    for name in used:
        assert hashlib.sha256((site / name).read_bytes()).hexdigest()[:12] in name


def test_a_page_looks_the_same_as_one_file(site: Path, page: Any, tmp_path: Path) -> None:
    """On a desktop, on a phone and on paper; by double-click, without a server."""
    for name in ("sheets/tide-table.html", "for-the-client/tide-table.html"):
        whole = (site / name).read_text("utf-8")

        def held(found: re.Match[str]) -> str:
            text = (site / (found[1] or found[2])).read_text("utf-8")
            return f"<style>{text}</style>" if found[1] else f"<script>{text}</script>"

        one = tmp_path / "one.html"
        one.write_text(_LINKED.sub(held, whole), "utf-8")
        seen = []
        for opened in (site / name, one):
            page.goto(opened.as_uri())
            for width, media in ((1280, "screen"), (360, "screen"), (720, "print")):
                page.set_viewport_size({"width": width, "height": 800})
                page.emulate_media(media=media)
                seen.append(page.screenshot())
            page.emulate_media(media="screen")
        assert seen[:3] == seen[3:], name
        assert len(set(seen)) == 3, name


def test_another_text_has_another_name_and_what_is_not_shared_stays() -> None:
    built, line = Shared(("words",), "built.css.j2"), Shared(("words",), "print-line.js.j2")
    assert re.fullmatch(r"assets/built-[0-9a-f]{12}\.css", built.address)
    html = f"<head>{built.inline}<style>p {{ margin: 0; }}</style></head>{line.inline}"
    assert in_site(html, built) == html.replace(built.inline, f'<link rel="stylesheet" href="../{built.address}">')
    assert in_site(html, built, line).endswith(f'</head><script src="../{line.address}"></script>')
