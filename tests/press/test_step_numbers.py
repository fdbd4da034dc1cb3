"""Numbers of steps from ten on: each on one line, in a column of its own, over nothing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.conftest import ROOT, turn_to

PROCEDURES = sorted(path.stem for path in (ROOT / "handbook" / "procedures").glob("*.md"))
# Width of the window and the medium; 718 px are what A4 has inside margins of 10 mm.
MEDIA = {"phone": (360, "screen"), "desktop": (1280, "screen"), "print": (718, "print")}
# The number is the text before a step, or the browser's own marker, which never breaks and is right-aligned.
_NUMBERS = """least => {
    const ink = document.createElement('canvas').getContext('2d'), faults = [];
    let lists = 0;
    for (const list of document.querySelectorAll('.md-content ol')) {
        const items = [...list.children].filter(item => item.tagName === 'LI');
        if (items.length < least) continue;
        lists++;
        const name = list.closest('article').dataset.of;
        items.forEach((item, at) => {
            const style = getComputedStyle(item, '::before'), whole = getComputedStyle(item);
            if (whole.listStyleType !== 'none') return;
            const [left, top, width, height] = ['left', 'top', 'width', 'height'].map(key => parseFloat(style[key]));
            ink.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
            const said = ink.measureText(String(at + 1)).width, line = parseFloat(style.lineHeight);
            if (height > 1.5 * line) faults.push([name, at + 1, 'broken into lines', height, line]);
            if (said > width + 0.5) faults.push([name, at + 1, 'wider than its column', said, width]);
            if (left < 0 || left + width > parseFloat(whole.paddingLeft) + 0.01)
                faults.push([name, at + 1, 'runs into the text', left + width, whole.paddingLeft]);
            if (style.textAlign !== 'right') faults.push([name, at + 1, 'not right-aligned', style.textAlign, '']);
            if (top + height > item.getBoundingClientRect().height)
                faults.push([name, at + 1, 'runs into the next', top + height, item.getBoundingClientRect().height]);
        });
    }
    return [lists, faults];
}"""
# The article of each procedure behind the one that is shown, so that they are laid out together.
_ALL = """pages => {
    const shown = document.querySelector('article');
    for (const [name, text] of Object.entries(pages)) {
        const read = new DOMParser().parseFromString(text, 'text/html').querySelector('article');
        const other = document.importNode(read, true);
        other.dataset.of = name;
        shown.before(other);
    }
    shown.remove();
}"""
_LONGER = """many => {
    const list = document.querySelector('#steps ~ ol');
    while (list.children.length < many) list.append(list.lastElementChild.cloneNode(true));
}"""


def in_each_medium(page: Any, least: int) -> dict[str, tuple[int, list[Any]]]:
    """In each medium, how many lists of the page that is loaded are that long, and what is wrong with their numbers."""
    found = {}
    for medium, (width, media) in MEDIA.items():
        page.emulate_media(media=media)
        page.set_viewport_size({"width": width, "height": 900})
        lists, faults = page.evaluate(_NUMBERS, least)
        found[medium] = (lists, faults)
    return found


def test_a_number_of_two_digits_takes_one_line_and_overlaps_nothing(still: Any, site: Path) -> None:
    pages = {name: (site / "procedures" / f"{name}.html").read_text("utf-8") for name in PROCEDURES}
    turn_to(still, site / "procedures" / "needlestick.html")
    still.evaluate(_ALL, pages)
    found = in_each_medium(still, 10)
    assert {medium: faults for medium, (_, faults) in found.items()} == {medium: [] for medium in MEDIA}
    # Nearly every procedure has as many steps.
    assert min(long for long, _ in found.values()) > len(PROCEDURES) / 2


def test_a_number_of_three_digits_does_so_too(still: Any, site: Path) -> None:
    turn_to(still, site / "procedures" / "needlestick.html")
    still.evaluate(_LONGER, 120)
    assert in_each_medium(still, 100) == dict.fromkeys(MEDIA, (1, []))
