"""One piece at full size: where to cut and to sew, its grain, marks and names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from shapely import Polygon

from ellwand.depict.fastenings import fastening_rows, fastening_signs
from ellwand.depict.guides import guide_role
from ellwand.depict.lettering import shortened
from ellwand.depict.naming import cut_how, edge_name, line_said, numbers, places, places_said, view_said
from ellwand.depict.pattern.writing import Writing
from ellwand.depict.sizes import fold_level, marks
from ellwand.depict.spread import drawing_bounds
from ellwand.geometry.lines import Line, bounds
from ellwand.model.drawing import Drawing, Stroke
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.model.piece import Piece
from ellwand.units import format_length

SIGN: Final = 0.35
"""Half the size of a fastening's sign (cm)."""
LONGEST_CLOTH: Final = 40
"""A cloth's name is cut to so many signs."""


@dataclass(frozen=True, slots=True)
class FullSize:
    """A piece or a part of one, in its own coordinates (cm, one to one).

    ``number``: its number everywhere, 0 for what is no piece; ``covers``: the paper it needs; ``extent``: least x
    and y, greatest x and y with its lettering.
    """

    number: int
    name: str
    how: str
    drawing: Drawing
    covers: Line
    extent: tuple[float, float, float, float]


def full_sized(number: int, name: str, how: str, drawing: Drawing, covers: Line) -> FullSize:
    """The same with its extent."""
    return FullSize(number, name, how, drawing, covers, drawing_bounds(drawing, 1.0))


def full_size(garment: Garment, piece: Piece) -> tuple[FullSize, ...]:
    """The whole piece, as the only one of a tuple."""
    number, name, lines = heading(garment, piece)
    write = Writing(Polygon(piece.sewn, piece.sewn_holes), Polygon(piece.cut, piece.cut_holes))
    strokes = [
        Stroke("cut", piece.cut, True, piece.cut_holes),
        Stroke("sewn", piece.sewn, True, piece.sewn_holes),
        *inner_lines(piece),
    ]
    write.keep_off(stroke for stroke in strokes if stroke.role in ("fold", "mark"))
    write.heading(lines)
    ends(write, piece)
    names(write, [(edge_name(edge), edge.points) for edge in piece.edges], piece)
    notes(write, garment, piece)
    strokes += write.grain()
    drawing = Drawing((*strokes, *write.leaders), tuple(write.letters.labels))
    return (full_sized(number, name, lines[1], drawing, piece.cut),)


def heading(garment: Garment, piece: Piece) -> tuple[int, str, list[str]]:
    """Its number, its name with its place, and what is written large on it."""
    number = numbers(garment.draft.pieces)[piece.id]
    where = places(garment.draft, piece)
    told = where and not piece.name.startswith(where.replace(" ", "-"))
    how = cut_how(garment.draft, piece)
    lines = [f"{number}  {named(piece.name)}", how]
    if told:
        lines.append(places_said(where))
    if len({each.cloth for each in garment.draft.pieces}) > 1:
        lines.append(shortened(piece.cloth, LONGEST_CLOTH))
    return number, f"{named(piece.name)}: {places_said(where)}" if told else named(piece.name), lines


def inner_lines(piece: Piece) -> list[Stroke]:
    """Folds and other guides, notches across the allowance, and the signs of the fastenings."""
    folds = [Stroke(guide_role(guide), guide.points) for guide in piece.guides]
    notches = [Stroke("mark", (mark.at, mark.inner)) for mark in marks(piece)]
    return [*folds, *notches, *fastening_signs(piece, SIGN)]


def ends(write: Writing, piece: Piece) -> None:
    """Which end is the front, where a piece lies over the shoulder."""
    fold = fold_level(piece)
    if fold is None or piece.place != "body":
        return
    low, high = bounds(piece.cut)[1::2]
    write.word(view_said("front"), low + (fold - low) * 0.2)
    write.word(view_said("back"), high - (high - fold) * 0.2)


def names(write: Writing, edges: Sequence[tuple[str, Line]], piece: Piece) -> None:
    """The names of edges and of guides, along them."""
    for name, line in edges:
        if name:
            write.along(line_said(name), line)
    for guide in piece.guides:
        write.along(line_said(guide.name.replace("tuck top", "tuck")), guide.points)


def notes(write: Writing, garment: Garment, piece: Piece) -> None:
    """How many fastenings, and how far apart."""
    unit = garment.wearer.unit
    for at, lines in fastening_rows(piece, lambda cm: format_length(cm, unit)):
        write.beside(at, lines)
