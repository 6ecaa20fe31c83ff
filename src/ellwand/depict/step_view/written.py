"""What is written in a picture: names and numbers, letters where ends meet, folds, and where it is done again."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from ellwand.depict.naming import numbers
from ellwand.depict.step_view.canvas import Picture, clipped, fold_line
from ellwand.depict.step_view.lettering import Letters, high
from ellwand.depict.step_view.signs import at_share, lines_of
from ellwand.depict.words.step_asking import facing, paired
from ellwand.geometry.lines import Point, length
from ellwand.language import _
from ellwand.model.drawing import Label
from ellwand.model.names import named

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

SIZE: Final = 9.0
"""Of the names of pieces, in points."""
LEAST: Final = 7.0
"""They are no smaller than this within a piece; what finds no room stands beside it."""
MOST_BESIDE: Final = 5
"""So many names stand beside the pieces at most; a field divided into many is told by its numbers."""
BESIDE: Final = 1.8
"""Names reach no farther (cm) beyond the sides of what is drawn."""
MANY: Final = 8
"""Beside more parts than this only numbers stand, and only of those that are sewn in the step."""
MOST_LETTERS: Final = 12
"""With more meeting ends than this, letters would tell nothing."""


def letter_ends(picture: Picture, letters: Letters) -> None:
    """The same small letter where ends meet that do not lie face to face."""
    made = picture.made
    told: list[tuple[str, Point, str]] = []
    meets: list[tuple[Point, Point]] = []
    for i, join in enumerate(made.joins):
        if i in made.facing or i in made.beneath or join.b not in made.laid:
            continue
        a, b = (picture.seen.line(made.line(join, second)) for second in (False, True))
        meets += [(a[0], b[0]), (a[-1], b[-1])]
    for one, two in meets if len(meets) <= MOST_LETTERS else ():
        known = next((name for name, at, _ in told if min(math.dist(at, one), math.dist(at, two)) < 0.12), "")
        name = known or "abcdefghijklmnopqrstuvwxyz"[len({each for each, _, _ in told}) % 26]
        for at in (one, two):
            if not any(each == name and math.dist(at, there) < 0.12 for each, there, _ in told):
                told.append((name, at, ""))
    w, h = picture.seen.size
    for name, at, _text in told:
        if -0.05 <= at[0] <= w + 0.05 and -0.05 <= at[1] <= h + 0.05:
            letters.beside(name, at)


def names(picture: Picture, shapes: dict[str, Polygon | MultiPolygon], letters: Letters) -> None:
    """Number and name in every piece, or beside it."""
    from shapely import unary_union

    key = numbers(picture.draft.pieces)
    told: set[str] = set()
    everything = unary_union(list(shapes.values()))
    beside = 0
    concerned = {part for join in picture.made.joins for part in (join.a, join.b)}
    concerned |= {part for part, _line in picture.made.edges}
    w, h = picture.seen.size
    for part in sorted(shapes, key=lambda name: -shapes[name].area):
        piece = picture.made.laid[part].own.piece
        parts = clipped(picture, shapes[part])
        if not parts:
            continue
        room = max(parts, key=lambda each: each.area)
        number, name = str(key[piece.id]), f"{key[piece.id]} {named(piece.name)}"
        texts = [name, number] if piece.id not in told else [number]
        alone = piece.id in told or len(shapes) > 4
        if letters.inside(texts if alone else [name], room, SIZE, LEAST):
            told.add(piece.id)
            continue
        if piece.id in told or beside >= MOST_BESIDE or (len(shapes) > MANY and part not in concerned):
            continue
        beside += 1
        tip = room.representative_point()
        letters.outside(
            texts if len(shapes) <= MANY else [number], (tip.x, tip.y), SIZE - 0.5, (0.0, 0.0, w, h), everything, BESIDE
        )
        told.add(piece.id)


def fold_words(picture: Picture, letters: Letters) -> None:
    """'fold' where a part is folded, and 'wrong side' on what shows it."""
    for part, laid in picture.made.laid.items():
        fold = fold_line(picture, laid, picture.paper(laid.shape()))
        runs = [] if fold is None else lines_of(fold)
        if not runs or length(runs[0]) < 0.8 or part.startswith("gusset"):
            continue
        at, _way = at_share(runs[0], 0.5)
        letters.beside(_("fold"), at, 8.0)


def below(picture: Picture, letters: Letters) -> None:
    """What is to be known of the whole picture: the layers, and where it is done again."""
    lines = []
    if picture.made.folded:
        lines.append(_("two layers, {facing}", facing=facing(picture.draft)))
    if picture.made.repeated:
        lines.append(_("and the same {places}", places=paired([_(place) for place in picture.made.repeated])))
    low = min([0.0, *(shape.bounds[1] for shape in letters.taken)])
    for n, text in enumerate(lines):
        at = (picture.seen.size[0] / 2, low - high(9.0) * (0.8 + n))
        letters.put(Label("note", text, at, size=9.0))
