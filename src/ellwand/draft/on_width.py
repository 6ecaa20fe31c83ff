"""Pieces that the cloth is too narrow or too short for, pieced where a maker would do it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Final, Literal

from ellwand.draft.cutline import Cut
from ellwand.draft.piecing import pieced
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import bounds
from ellwand.language import _
from ellwand.model.draft import Draft, Note
from ellwand.model.names import named
from ellwand.model.others import Cloak, Coif, Hood
from ellwand.model.piece import Piece
from ellwand.units import format_length, round_up

NARROWEST: Final = 6.0
"""A narrower strip is not worth its seam (cm): common practice, no source."""
STRIP: Final = 0.25
"""An apron or a leg that lacks more of its width than this is cut in two alike: common practice, no source."""
NUDGES: Final = (0.0, 1.0, 2.0, 3.0, 5.0, 8.0)
"""So much more is taken off (cm) where a seam would end beside a corner."""
PAST_A_SLIT: Final = (15.0, 25.0, 40.0, 60.0)
"""Or so much more, to pass above a slit cut up from the hem."""
MOST: Final = 24
"""No one pieces a garment so often; a piece that still does not fit is refused."""


def pieced_to_fit(
    draft: Draft,
    usable_width: float,
    usable_length: float | None = None,
    *,
    crosswise: Callable[[Piece], bool] = lambda piece: False,
    cloth: str | None = None,
) -> Draft:
    """The garment with every panel, side panel, gore and sleeve pieced that is wider or longer than the cloth, or
    wider than the maker would cut it.

    ``usable_width``: between the selvedges, as it is cut; ``usable_length``: all there is, or None when as much as
    needed can be had; ``crosswise``: whether a piece may lie across the grain; ``cloth``: only what is cut from the
    cloth of that name.  A note 'pieced' tells of each seam.
    Aprons and breeches are pieced likewise.  Nothing is done where the choices say never, or for hoods, cloaks and
    coifs, which have their own ways.
    Raises CannotDraft where no seam would help.
    """
    asked = draft.choices.body.pieced
    if asked == "never" or isinstance(draft.choices.other, (Cloak, Coif, Hood)):
        return draft
    if isinstance(asked, float):
        usable_width = min(usable_width, asked)
    for _again in range(MOST):
        found = next(
            (
                piece
                for piece in draft.pieces
                if cloth in (None, piece.cloth) and _too_large(piece, usable_width, usable_length, crosswise(piece))
            ),
            None,
        )
        if found is None:
            return draft
        draft = _pieced_once(draft, found, usable_width, usable_length)
    raise CannotDraft(
        "cloth",
        _(
            "{usable_width} between the selvedges is too narrow to piece this garment from",
            usable_width=format_length(usable_width),
        ),
        _("take a wider cloth"),
    )


def _size(piece: Piece) -> tuple[float, float]:
    low_x, low_y, high_x, high_y = bounds(piece.cut)
    return high_x - low_x, high_y - low_y


def _too_large(piece: Piece, width: float, length: float | None, crosswise: bool) -> bool:
    def fits(across: float, along: float) -> bool:
        return across <= width + 1e-6 and (length is None or along <= length + 1e-6)

    across, along = _size(piece)
    return piece.kind == "shell" and not fits(across, along) and not (crosswise and fits(along, across))


def _pieced_once(draft: Draft, piece: Piece, width: float, length: float | None) -> Draft:
    across, along = _size(piece)
    if across > width + 1e-6:
        cuts, axis, what = _strips(draft, piece, width), 0, "wide"
    else:
        cuts, axis, what = _ends(draft, piece, length or along), 1, "long"
    for cut in cuts:
        try:
            done = pieced(draft, piece.id, cut)
        except CannotDraft:
            continue
        off = done.pieces[[each.id for each in done.pieces].index(piece.id) + 1]
        low, high = (bounds(off.sewn)[i] for i in (axis, axis + 2))
        note = Note("pieced", off.id, {"piece": piece.name, "off": off.name, "size": high - low, "what": what})
        return replace(done, notes=(*done.notes, note))
    name, size = named(piece.name), format_length((across, along)[axis])
    raise CannotDraft(
        "cloth",
        _("the {name} is cut {size} wide, more than the cloth has, and cannot be pieced", name=name, size=size)
        if what == "wide"
        else _("the {name} is cut {size} long, more than the cloth has, and cannot be pieced", name=name, size=size),
        _("take a larger cloth, or a cut with smaller pieces"),
    )


def _strips(draft: Draft, piece: Piece, width: float) -> Iterator[Cut]:
    """Lines down a piece that is too wide, the best first.

    A side panel in its middle, under the arm, and an apron or a leg that one strip would not help much; else a strip
    down the side, or down both; a gore's corner.
    """
    across, _ = _size(piece)
    low, _, high, _ = bounds(piece.sewn)
    seam, grid = draft.choices.sewing.allowance, draft.choices.sewing.chalk
    gore = "gore" in piece.id
    called = "corner" if gore else "strip"
    whole = all(edge.kind != "piecing seam" for edge in piece.edges)
    excess = max(NARROWEST, across - width + seam)
    in_two = "side panel" in piece.name or (piece.name in ("apron", "leg") and excess > STRIP * across)
    if in_two and whole and across / 2 + seam <= width:
        yield Cut("x", (low + high) / 2, "high", "half")
    sides = sorted(("high", "low"), key=lambda side: _is_centre(piece, low if side == "low" else high))
    shares = (1.0, 0.5, 0.35, 0.25)
    # a side panel that is too wide even so loses as much on either side
    for share in shares[1:] + shares[:1] if "side panel" in piece.name and whole else shares:
        size = round_up(max(NARROWEST, excess * share), grid)
        if (high - low) - size < NARROWEST or size + seam > width:
            continue
        for more in NUDGES:
            for side in sides:
                yield _cut("x", low, high, size + more, "high" if side == "high" else "low", called)


def _is_centre(piece: Piece, x: float) -> bool:
    """Whether the edge at ``x`` is a centre seam, a half gore's middle or pieced already: the other side goes first."""
    at = [edge for edge in piece.edges if all(abs(px - x) < 0.05 for px, _ in edge.points)]
    return any(
        edge.kind in ("centre seam", "piecing seam") or edge.id.startswith(("straight", "centre")) for edge in at
    )


def _ends(draft: Draft, piece: Piece, most: float) -> Iterator[Cut]:
    """Lines across a piece that is too long: a gore's tip; a panel's lower part, or half of it."""
    _, along = _size(piece)
    _, low, _, high = bounds(piece.sewn)
    seam, grid = draft.choices.sewing.allowance, draft.choices.sewing.chalk
    gore = "gore" in piece.id
    hem_above = len(piece.levels) > 1
    for share in (1.0, 0.5):
        size = round_up(max(NARROWEST, (along - most + seam) * share), grid)
        if (high - low) - size < NARROWEST:
            continue
        for more in (*NUDGES, *PAST_A_SLIT):
            if (high - low) - size - more < NARROWEST:
                break
            if gore:
                yield _cut("y", low, high, size + more, "high", "tip")
            else:
                for side in ("high", "low") if hem_above else ("low", "high"):
                    yield _cut("y", low, high, size + more, "high" if side == "high" else "low", "end")


def _cut(
    axis: Literal["x", "y"], low: float, high: float, size: float, side: Literal["high", "low"], called: str
) -> Cut:
    """The line ``size`` cm from that side."""
    return Cut(axis, high - size if side == "high" else low + size, side, called)
