"""The few pieces of HTML and Markdown that handbook pages are made of.

What a record says passes through `escape` (inside HTML) or `markdown_text` (inside Markdown), always. Tables
are HTML because Markdown has no captions, row headings or anchors, and cuts cells at a `|`.

On a phone a row of a table is a block, named by its columns; a script gives rows their roles back and makes heads
sort by value (`data-value`, one unit a column, a range by its lower end). Without it everything reads as it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from markupsafe import Markup, escape

# Each of these could begin markup somewhere; written as an entity it never does.
_MARKUP_CHARACTERS = frozenset("\\`*_{}[]<>&#!|~^$=+")
# A date, with its time of day where it has one.
_DATE = re.compile(r"\d{4}-\d\d-\d\d(?:, \d\d:\d\d)?")


class _Valued(Markup):
    """Text that knows what it is worth, so that a table can be sorted by value and not by spelling."""

    worth: tuple[float, ...] = ()


def valued(text: str, *worth: float) -> Markup:
    """Text with the numbers it is sorted by: those of one column in one unit, a range by its lower end first."""
    made = _Valued(escape(text))
    made.worth = worth
    return made


def worth_of(text: str) -> tuple[float, ...]:
    """The numbers that a text is sorted by; a plain number is its own value, and words have none."""
    if isinstance(text, _Valued):
        return text.worth
    return (float(text),) if re.fullmatch(r"-?\d+(\.\d+)?", text) else ()


# The cells of a row by the columns that they are in.
Cells = Mapping[str, str]


def markdown_text(text: str) -> str:
    """Text that Markdown shows as it is, on one line."""
    return "".join(f"&#{ord(c)};" if c in _MARKUP_CHARACTERS else c for c in text.replace("\n", " "))


def with_whole_dates(text: str) -> Markup:
    """Text, or HTML that is marked as such, in which no line ends inside a date or before its time of day."""
    return Markup(_DATE.sub(r'<span class="whole">\g<0></span>', str(escape(text))))


_TITLE = re.compile(r"^# .*\n", re.MULTILINE)


def under_title(page: str, block: str) -> str:
    """A page in Markdown with a block under its title; an emergency comes before it. One without a title stays."""
    title = _TITLE.search(page)
    if title is None:
        return page
    head, section, _ = page.partition("\n## ")
    at = len(head) if section and "!!! danger" in head else title.end()
    return f"{page[:at].rstrip()}\n\n{block}\n\n{page[at:].lstrip()}"


# From so many sections on a page lists them.
_LISTED = 3


def page(title: str, *blocks: str, contents: bool = True) -> str:
    """A page: its title and its blocks, each set apart so that Markdown sees every one of them.

    A page with few sections has no list of contents, and one whose tables are wide need not have it: the tables get
    the room.
    """
    sections = sum(isinstance(block, _Heading) for block in blocks)
    head = () if contents and sections >= _LISTED else ("---\nhide:\n  - toc\n---",)
    return "\n\n".join([*head, f"# {markdown_text(title)}", *(_whole(block) for block in blocks if block)]) + "\n"


def _whole(block: str) -> str:
    """HTML on one line: an empty line in the text of a record would hand the rest over to Markdown."""
    return block if isinstance(block, _Lines) else block.replace("\n", " ")


class _Heading(str):
    """A heading in Markdown."""


def heading(text: str, anchor: str, level: int = 2) -> str:
    """A heading that the table of contents lists."""
    return _Heading(f"{'#' * level} {markdown_text(text)} {{ #{anchor} }}")


# With more columns than these a table is too wide for a phone; there its rows become blocks.
_NARROW = 3
# With so many it is printed across the long side of the paper.
_BROAD = 9
# With so many it is set small on any screen.
_DENSE = 13


def table_of(
    caption: str,
    rows: Iterable[tuple[str, Cells | Sequence[tuple[str, str]]]],
    nothing: str = "Nothing is on file yet.",
    long_cells: bool = False,
) -> Markup:
    """A table in a frame that can be reached with the keyboard, because a wide one scrolls inside it.

    rows: each with the id that it is linked by; they name their columns, all the same ones, and the first cell heads
    the row. Pairs of column and cell are for rows in which two columns may have one name.

    On a phone the rows of a wide table become blocks that name their columns; so do those of a narrow one whose cells
    say much, where `long_cells` tells so. A script makes it sortable. The class keeps the theme from wrapping it once
    more, in a frame that no keyboard reaches.
    """
    made = [(at, tuple(cells.items()) if isinstance(cells, Mapping) else cells) for at, cells in rows]
    if not made:
        return paragraph(nothing)
    columns = [column for column, _ in made[0][1]]
    wide = long_cells or len(columns) > _NARROW
    named = [f' data-label="{escape(column)}"' if wide else "" for column in columns[1:]]
    body = "".join(_row(at, [cell for _, cell in cells], named) for at, cells in made)
    head = "".join(f'<th scope="col">{_safe(column)}</th>' for column in columns)
    kind = " blocks" * wide + " broad" * (len(columns) >= _BROAD) + " dense" * (len(columns) >= _DENSE)
    label, inner = _safe(caption), f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody>"
    return Markup(
        f'<div class="wide" role="region" aria-label="{label}" tabindex="0"><table class="held{kind}">'
        f"<caption>{label}</caption>{inner}</table></div>"
    )


def _safe(text: str) -> str:
    """Text as it may stand in HTML. What is put together of thousands of pieces is put together as text."""
    return text if isinstance(text, Markup) else escape(text)


def _row(anchor: str, texts: Sequence[str], named: Sequence[str]) -> str:
    first, *rest = texts
    cells = "".join(f"<td{label}{_worth(cell)}>{_safe(cell)}</td>" for label, cell in zip(named, rest, strict=True))
    at = _safe(anchor)
    return (
        f'<tr id="{at}"><th scope="row"{_worth(first)}>{_safe(first)} '
        f'<a class="here" href="#{at}" aria-label="link"></a></th>{cells}</tr>'
    )


def _worth(cell: str) -> str:
    """What a cell is sorted by. A range is marked, so that it stays on one line."""
    worth = worth_of(cell)
    if not worth:
        return ""
    spans = ' class="range"' if len(set(worth)) > 1 else ""
    return f' data-value="{" ".join(f"{end:.9g}" for end in dict.fromkeys(worth))}"{spans}'


def not_searched(block: Markup) -> Markup:
    """A table or a list that the search passes over: what stands there leads to what it finds, or explains that."""
    return Markup("<div data-search-exclude>{}</div>").format(block)


def paragraph(text: str) -> Markup:
    """A paragraph that Markdown leaves alone."""
    return Markup(f"<p>{_safe(text)}</p>")


def note(label: str, *paragraphs: str, kind: str = "note") -> Markup:
    """A framed note of paragraphs and lists; `kind` is `note` or `first`, for what comes before everything else."""
    # A list may not stand inside a paragraph.
    inner = Markup("").join(text if isinstance(text, _List) else paragraph(text) for text in paragraphs)
    return Markup('<div class="framed {}" role="note"><p class="label">{}</p>{}</div>').format(kind, label, inner)


class _List(Markup):
    """A list, which stands beside paragraphs and not inside of one."""


def bullets(items: Iterable[str]) -> Markup:
    """A plain list."""
    inner = "".join(f"<li>{_safe(item)}</li>" for item in items)
    return _List(f"<ul>{inner}</ul>" if inner else "")


def folded(summary: str, inner: str, unfolded: bool = False) -> Markup:
    """Something that most readers pass by: opened with mouse or keyboard, without a script.

    unfolded: it is open, and a script folds it where the screen is a phone's. A print keeps its summary when it is
    closed, and leaves out what explains a number.
    """
    opened = Markup(' class="how list" open') if unfolded else Markup(' class="how"')
    return Markup("<details{}><summary>{}</summary>{}</details>").format(opened, summary, inner)


def link(address: str, text: str) -> Markup:
    """A link inside HTML; it is worth what its text is."""
    return valued(Markup(f'<a href="{_safe(address)}">{_safe(text)}</a>'), *worth_of(text))


def terms(*pairs: tuple[str, str]) -> Markup:
    """Words with what is said about each."""
    inner = "".join(f"<dt>{_safe(term)}</dt><dd>{_safe(text)}</dd>" for term, text in pairs)
    return Markup(f"<dl>{inner}</dl>")


class _Lines(Markup):
    """Lines to copy, which stay lines."""


def code_block(text: str, label: str) -> Markup:
    """Lines to copy. The block scrolls, so it can be reached with the keyboard and has a name."""
    return _Lines('<pre class="lines" role="region" aria-label="{}" tabindex="0"><code>{}</code></pre>').format(
        label, text.rstrip("\n")
    )


def code(text: str) -> Markup:
    """What is typed as it is."""
    return Markup(f"<code>{_safe(text)}</code>")


def ticked(text: str) -> Markup:
    """Text in which `backticks` stand around what is typed as it is."""
    pieces = re.split(r"`([^`]*)`", text)
    return Markup("".join(code(piece) if n % 2 else _safe(piece) for n, piece in enumerate(pieces)))
