"""For how little work no cartridge of its own is opened, and which open needle does it instead.

It is asked of the whole piece when its steps are laid out, and once more of each of its sittings
(`timing/open_in_sittings.py`), because cartridges are opened by sitting.

A cartridge is open for the lines that are run with it, where a job names it, and where it is worked with for the least
time on file, all its areas together. What is less is done with an open needle that the technique is worked with and
that gets where the planned one gets: its own grouping, else the widest one of its part, else of a part beside it.
Where none fits, a cartridge is opened all the same: never is a place worked with a needle that is too wide for it.

White is laid with a needle that has touched no other ink, so it looks only among the needles for white.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby

from generator.planning.working.pieces import Piece
from generator.planning.working.reach import fits
from generator.planning.working.shapes import shape_of
from generator.planning.working.technique import dial_row
from generator.planning.working.widths import compared_width
from generator.records.families import Records
from generator.records.needles import Grouping
from generator.records.parts import Lines
from generator.trade import shapes

# A cartridge: its grouping, and whether it is for white.
_Cartridge = tuple[str, bool]


def with_open_needles(
    records: Records, pieces: Sequence[Piece], minutes: Sequence[float], can: Callable[[Piece], bool]
) -> tuple[Piece, ...]:
    """Each row, with another grouping where too little work is left for the planned one.

    minutes: how long each row takes at the slow end; can: whether a row can be set up.
    """
    least = records.studio.limits.cartridge
    if least is None:
        return tuple(pieces)
    worked: dict[_Cartridge, float] = {}
    for piece, time in zip(pieces, minutes, strict=True):
        cartridge = _cartridge(records, piece)
        worked[cartridge] = worked.get(cartridge, 0.0) + (least.least_work.low if _is_named(piece) else time)
    is_open = {cartridge for cartridge, time in worked.items() if time >= least.least_work.low}
    # The narrowest first: what is opened for it may do for a wider one too.
    order = sorted(range(len(pieces)), key=lambda number: compared_width(pieces[number].grouping))
    before, made = -1, list(pieces)
    # Again, because what is opened on the way, where nothing else fits, is open for the rows before it too.
    while before < len(is_open):
        before, made = len(is_open), list(pieces)
        for number in order:
            piece = pieces[number]
            if _cartridge(records, piece) in is_open:
                continue
            open_here = [other for other in made if _cartridge(records, other) in is_open]
            made[number] = next(filter(can, _instead(records, piece, open_here)), piece)
            is_open.add(_cartridge(records, made[number]))
    return tuple(made)


def _cartridge(records: Records, piece: Piece) -> _Cartridge:
    return str(piece.grouping.id), _is_white(records, piece)


def _is_white(records: Records, piece: Piece) -> bool:
    return not isinstance(piece.work, Lines) and records.inks[piece.work.ink].kind == "white"


def _is_named(piece: Piece) -> bool:
    """Whether somebody chose the needle, or a line has its width."""
    return isinstance(piece.work, Lines) or piece.work.needle == piece.grouping.id


def _instead(records: Records, piece: Piece, open_: Iterable[Piece]) -> Iterable[Piece]:
    """The row with each open needle that does for it, the best first."""
    beside = records.studio.limits.beside.low
    found: dict[str, tuple[bool, float, Grouping]] = {}
    for other in open_:
        one, here = other.grouping, other.part is piece.part
        if (
            _is_white(records, other) == _is_white(records, piece)
            and (here or shapes.gap(shape_of(other.part), shape_of(piece.part)) <= beside)
            and dial_row(piece.technique, one) is not None
            and fits(records, piece, one)
        ):
            # Of two places at which it is open the nearer one counts.
            rank = not here, -compared_width(one), one
            found[one.id] = min(found.get(one.id, rank), rank, key=lambda each: each[:2])
    ranked = sorted(found.values(), key=lambda each: each[:2])
    return (piece._replace(grouping=one) for _, _, one in ranked)


def in_one_row(pieces: Iterable[Piece]) -> Iterator[Piece]:
    """What was split between two needles and is worked with one of them is one row again."""
    for _, same in groupby(pieces, key=lambda piece: (id(piece.work), piece.grouping.id)):
        first, *more = same
        yield first._replace(share=None, places="", narrowest=more[0].narrowest) if more else first
