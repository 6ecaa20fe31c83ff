"""What pieces, parts and edges are called on paper; pieces carry one number everywhere."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import Literal

from ellwand.language import N_, _, pgettext
from ellwand.model.draft import Draft, Part
from ellwand.model.names import named
from ellwand.model.piece import Edge, Piece


def numbers(pieces: Sequence[Piece]) -> Mapping[str, int]:
    """Piece id -> its number on the card, from 1 in each garment."""
    counted: defaultdict[str, int] = defaultdict(int)
    out: dict[str, int] = {}
    for piece in pieces:
        counted[piece.bundle] += 1
        out[piece.id] = counted[piece.bundle]
    return out


def key_said(piece: Piece, number: int) -> str:
    """The number written on a piece: '4', or '12.4' for piece 4 of garment 12 where several lie together."""
    return f"{piece.bundle}.{number}" if piece.bundle else str(number)


def all_parts(draft: Draft) -> tuple[Part, ...]:
    """Everything that is cut: the shell's parts and what is sewn on to it."""
    return (*draft.parts, *draft.applied)


def cut_how(draft: Draft, piece: Piece) -> str:
    """How many to cut, and how many of them the other way round."""
    return _("cut {how}", how=count_how(draft, piece))


def count_how(draft: Draft, piece: Piece) -> str:
    """The same without saying that it is cut."""
    turned = sum(1 for part in all_parts(draft) if part.piece == piece.id and part.mirrored)
    plain = piece.count - turned
    if not turned or mirrors_itself(piece):
        return str(piece.count)
    if not plain:
        return _("{count}, mirrored", count=piece.count)
    if turned == 1:
        return _("{count}, one mirrored", count=piece.count)
    return _("{count}, {turned} mirrored", count=piece.count, turned=turned)


def mirrors_itself(piece: Piece) -> bool:
    """True when the piece is its own mirror image, so that it does not matter which way round it is cut."""
    middle = min(x for x, _ in piece.cut) + max(x for x, _ in piece.cut)
    rings = (piece.cut, *piece.cut_holes)
    points = {(round(x, 2) + 0.0, round(y, 2) + 0.0) for ring in rings for x, y in ring}
    return all(
        any((round(middle - x + dx, 2) + 0.0, round(y + dy, 2) + 0.0) in points for dx in _SLACK for dy in _SLACK)
        for x, y in points
    )


_SLACK = (0.0, -0.01, 0.01)


def part_name(part: str, piece: Piece) -> str:
    """Which of the alike parts this is: 'left', 'side right', or '' when there is just one."""
    return _beyond(part, piece) if piece.count > 1 else ""


def _beyond(part: str, piece: Piece) -> str:
    """What a part's name adds to its piece's."""
    said = [*piece.name.replace(",", "").split(), piece.bundle]
    return " ".join(word for word in part.split("-") if word not in said and word != "half")


def places(draft: Draft, piece: Piece) -> str:
    """Where a piece's parts go, when its name does not say it: 'centre front, centre back'; else ''."""
    if piece.kind == "applied":
        return ""
    names = [_beyond(part.id, piece) for part in draft.parts if part.piece == piece.id]
    plain = [" ".join(w for w in name.split() if w not in ("left", "right") and not w.isdigit()) for name in names]
    return ", ".join(dict.fromkeys(name for name in plain if name))


def places_said(where: str) -> str:
    """The same in the language spoken."""
    return ", ".join(part_said(each) for each in where.split(", "))


def part_said(part: str) -> str:
    """What tells a part from others, in the language spoken; 'front' and 'back' are places there, not pieces."""
    first, _space, rest = part.partition(" ")
    if first == "front":
        return f"{view_said('front')} {named(rest)}".strip()
    if first == "back":
        return f"{view_said('back')} {named(rest)}".strip()
    return named(part)


View = Literal["front", "side", "back"]


def view_said(view: View) -> str:
    """What a view is called, and the end of a piece that is seen in it."""
    # each word has another meaning elsewhere
    if view == "front":
        return pgettext("view", "front")
    return pgettext("view", "side") if view == "side" else pgettext("view", "back")


_EDGES = {"facing": "", "neck slit": "", "neck": "neck", "split": "left open", "opening": "opening"}


_RIMS = {"neck": "neck edge", **{word: word for word in ("front", "face", "side", "brow", "nape")}}


def edge_name(edge: Edge) -> str:
    """The name written along an edge; '' for lips of slits, which are named by their slit."""
    if edge.allowance == 0:
        return ""
    if edge.id.endswith("corner"):
        return "trim"
    if edge.kind == "centre seam":
        return "centre front" if "front" in edge.id else "centre back" if "back" in edge.id else "centre seam"
    if edge.kind == "leg":
        return "hem"
    if edge.kind == "waist":
        return {"waist": "waist", "slit-front": "slit"}.get(edge.id, "")
    if edge.kind == "band seam" and edge.id.startswith("lower"):
        return ""
    if edge.kind == "neck seam":
        return "front seam" if "front" in edge.id else "back seam"
    if edge.kind == "edge":
        return next((_RIMS[word] for word in edge.id.split("-") if word in _RIMS), "")
    if edge.kind == "armhole" and edge.id.startswith(("top", "armhole")) and "low" in edge.id:
        return "to side panel"
    return _EDGES.get(edge.kind, edge.kind)


_ON_PAPER = frozenset(
    {
        N_("back seam"),
        N_("brow"),
        N_("fold"),
        N_("front seam"),
        N_("left open"),
        N_("nape"),
        N_("neck edge"),
        N_("shoulder fold"),
        N_("slit"),
        N_("to side panel"),
        N_("trim"),
        N_("tuck"),
        N_("turn up"),
    }
)
"""What is written along edges and lines, beside the names of edges."""


def line_said(name: str) -> str:
    """The name of an edge, or of a line within a piece, in the language spoken."""
    if name == "front":
        # elsewhere the same word is a piece's name
        return pgettext("edge", "front")
    return _(name) if name in _ON_PAPER else named(name)
