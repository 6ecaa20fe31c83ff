"""The garment's field divided: each piece cut along the division, its shares sewn together again.

The field is the sewn garment as it is worn, front and back, each from hem to shoulder and as wide as its panels.  What
is set in beside and between them goes on with the lines from seam to seam.  A sleeve is of one tincture, the one that
the field has at the middle of its armhole, so that it follows its side, and its gusset follows it (sleeves that follow
their side on two-coloured dress: larsdatter.com/particolor; coats also divided across and quartered in the 13th and
14th centuries: Meyers Konversations-Lexikon, 1908, vol. 13, p. 887).  Facings, collars and bands are of the main cloth.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from shapely import Polygon

from ellwand.adorn.division.carry import carry_on
from ellwand.adorn.division.draw import draw
from ellwand.adorn.division.field import lines as lines_of
from ellwand.adorn.division.field import tincture_at
from ellwand.adorn.division.frames import Frame, field_of, frame_of, is_panel, lines_on
from ellwand.adorn.division.lines import Lines, chords, gathered, stretches
from ellwand.adorn.division.names import Lie, names_of, slug
from ellwand.adorn.division.plane import Bit, Face, between_alike, faces_of, undivided
from ellwand.adorn.division.shares import CutOut, Share, cut_out, seams_of, signature
from ellwand.adorn.division.sizes import settled
from ellwand.adorn.division.slits import moved, slits_of
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, length
from ellwand.language import _
from ellwand.model.draft import Draft, EdgeRef, Part
from ellwand.model.heraldry import DividedField, Division, Field, Tincture
from ellwand.model.names import named
from ellwand.model.piece import Level, Piece

NARROWEST: Final = 2.0
"""A share that is nowhere so wide (cm) is too small to sew and stays with its neighbour: common practice, no source."""
ON_THE_LINE: Final = 0.1
"""A gore set in so near to an upright line (cm) is parted by it: our own figure."""
_Faces = Mapping[str, Sequence[Face]]
"""By the part's id."""


def divided(draft: Draft) -> Draft:
    """The same garment with its field divided as chosen; unchanged where none was chosen.

    Raises CannotDraft where the division cannot be cut.
    """
    chosen = draft.choices.division
    if chosen is None:
        return draft
    field = field_of(draft)
    division = settled(chosen, field, draft.dimensions.levels)
    shares = _shares(draft, division, field)
    pieces = {piece.id: piece for piece in draft.pieces}
    cut = [(share, cut_out(draft, share, pieces[share.part.piece])) for share in shares]
    told, parts = _told(draft, cut, field)
    seams = seams_of(draft, cut, _joined(cut))
    applied = tuple(piece for piece in draft.pieces if piece.kind == "applied")
    return replace(
        draft,
        pieces=(*told, *applied),
        parts=parts,
        seams=seams,
        adornment=replace(draft.adornment, field=DividedField(division, field)),
    )


# --- the shares -----------------------------------------------------------------------------------------


def _shares(draft: Draft, division: Division, field: Field) -> list[Share]:
    """Every part in its shares, in the draft's order; of each part from the shoulder down, the wearer's right first."""
    lines = gathered(draft)
    frames = {part.id: frame_of(part, lines.pieces[part.id], field) for part in draft.parts if is_panel(part.id)}
    drawn = moved(lines_of(division, field), slits_of(frames, lines.pieces))
    ends = [spot for part, frame in frames.items() for spot in draw(lines, part, lines_on(frame, drawn, field))]
    _part_gores(draft, lines, drawn, field)
    carry_on(lines, ends, _bridges(draft, lines))
    faces = {part.id: _faces(lines, part.id) for part in draft.parts}
    tinctures = _tinctures(draft, lines, faces, frames, division, field)
    needless: dict[str, list[Line]] = defaultdict(list)
    while found := _needless(faces, tinctures):
        for crossed, between in found.items():
            needless[crossed] += between
            faces[crossed] = _faces(lines, crossed, needless[crossed])
        tinctures = _tinctures(draft, lines, faces, frames, division, field)
    out = []
    for part in draft.parts:
        own = sorted(
            zip(faces[part.id], tinctures[part.id], strict=True), key=lambda each: _order(each[0], frames.get(part.id))
        )
        whole, taken = len(own) == 1, defaultdict[str, int](int)
        for face, tincture in own:
            taken[tincture] += 1
            number = f"-{taken[tincture]}" if sum(each == tincture for _, each in own) > 1 else ""
            name = part.id if whole else f"{part.id}-{tincture.replace('é', 'e')}{number}"
            out.append(Share(name, part, face, tincture, whole))
    return out


def _order(face: Face, frame: Frame | None) -> tuple[str, float, float]:
    """The front before the back, then from the shoulder down, then from the wearer's right."""
    if frame is None:
        return "", -face.heart[1], face.heart[0]
    seen, (x, y) = frame.seen(face.heart)
    return {"front": "", "back": "after"}[seen], -round(y), x


def _part_gores(draft: Draft, lines: Lines, drawn: Sequence[Line], field: Field) -> None:
    """An upright line goes on down the middle of a whole gore that is set in on it."""
    upright = [line[0][0] for line in drawn if len(line) == 2 and abs(line[0][0] - line[1][0]) < 1e-9]
    for part in draft.parts:
        at, level = _set_in_at(part, field), lines.pieces[part.id].levels
        row = _row(draft, part)
        if at is None or not any(abs(at - x) < ON_THE_LINE for x in upright) or len(row) % 2 == 0:
            continue
        if row[len(row) // 2] == _stem(part) and level[0].centre is not None:
            x = level[0].centre[0]
            draw(lines, part.id, [((x, -1e4), (x, 1e4))])


def _set_in_at(part: Part, field: Field) -> float | None:
    """How far from the centre line, to the wearer's left, a gore is set into front or back; None for any other."""
    words = part.id.split("-")
    if words[0] != "gore" or words[1] not in ("centre", "panel"):
        return None
    return 0.0 if words[1] == "centre" else field.half / 2 * (1 if words[3] == "left" else -1)


def _stem(part: Part) -> str:
    return part.id.removesuffix("-tip")


def _row(draft: Draft, part: Part) -> list[str]:
    """The gores that are set in side by side with this one, in their order."""
    words = _stem(part).split("-")
    place = "-".join(words[:-1] if words[-1].isdigit() else words)
    found = {_stem(each) for each in draft.parts}
    return sorted(each for each in found if each == place or each.removeprefix(f"{place}-").isdigit())


def _bridges(draft: Draft, lines: Lines) -> dict[str, Level]:
    """The gores and side panels: lines go on across them."""
    return {
        part.id: lines.pieces[part.id].levels[0]
        for part in draft.parts
        if lines.pieces[part.id].place == "body" and not is_panel(part.id)
    }


def _faces(lines: Lines, part: str, without: Sequence[Line] = ()) -> tuple[Face, ...]:
    rings = stretches(lines, part)
    drawn = chords(lines, part)
    if drawn:
        try:
            return faces_of(rings, drawn, _too_small, without)
        except ValueError:
            raise CannotDraft(
                "garment.division",
                _(
                    "a line would run so close beside the neck of the {name} that it cannot be sewn",
                    name=named(lines.pieces[part].name),
                ),
                _("choose another count, or another way to divide it"),
            ) from None
    outer, *holes = [tuple(Bit(key, points) for key, points in ring) for ring in rings]
    return (undivided(outer, holes),)


def _needless(faces: _Faces, tinctures: Mapping[str, Sequence[Tincture]]) -> dict[str, list[Line]]:
    """The stretches of line on each part that have one tincture on both sides."""
    found = {part: between_alike(own, tinctures[part]) for part, own in faces.items() if len(own) > 1}
    return {part: between for part, between in found.items() if between}


def _too_small(shape: Polygon) -> bool:
    return bool(shape.buffer(-NARROWEST / 2).is_empty)


# --- tinctures ------------------------------------------------------------------------------------------


def _tinctures(
    draft: Draft,
    lines: Lines,
    faces: _Faces,
    frames: Mapping[str, Frame],
    division: Division,
    field: Field,
) -> dict[str, list[Tincture]]:
    """Of every face: a panel's by its place, a sleeve's by its side, any other's by what it is sewn to."""
    known: dict[tuple[str, int], Tincture] = {}
    for part in draft.parts:
        for n, face in enumerate(faces[part.id]):
            if part.id in frames:
                known[part.id, n] = _on_panel(division, field, frames[part.id], face)
            elif lines.pieces[part.id].place != "body":
                known[part.id, n] = _on_arm(draft, division, field, part)
    beside = _beside(draft, faces)
    every = {(part, n) for part, own in faces.items() for n in range(len(own))}
    while missing := every - set(known):
        found: dict[tuple[str, int], Tincture] = {}
        for each in sorted(missing):
            near = [(cm, known[other]) for other, cm in beside[each] if other in known and other[0] not in _arms(draft)]
            if near:
                found[each] = max(near)[1]
        known |= found or dict.fromkeys(missing, division.tinctures[0])
    return {part: [known[part, n] for n in range(len(own))] for part, own in faces.items()}


def _on_panel(division: Division, field: Field, frame: Frame, face: Face) -> Tincture:
    return tincture_at(division, field, frame.seen(face.heart)[1])


def _on_arm(draft: Draft, division: Division, field: Field, part: Part) -> Tincture:
    """What the field has beside the middle of the armhole."""
    size = draft.dimensions
    side = 1 if "left" in part.id.split("-") else -1
    at = side * (field.half - 1e-3), size.length - size.shoulder_slope - size.armhole / 2
    return tincture_at(division, field, at)


def _arms(draft: Draft) -> frozenset[str]:
    return frozenset(part.id for part in draft.parts if part.id.split("-")[0] in ("sleeve", "gusset"))


def _beside(draft: Draft, faces: _Faces) -> dict[tuple[str, int], list[tuple[tuple[str, int], float]]]:
    """Each face to those that it is sewn to by the garment's own seams, with how far (cm)."""
    of: dict[tuple[str, str], dict[int, tuple[int, float]]] = defaultdict(dict)
    for part, own in faces.items():
        for n, face in enumerate(own):
            for ring in (face.ring, *face.holes):
                for bit in ring:
                    if bit.key is not None:
                        of[part, bit.key[0]][bit.key[1]] = n, length(bit.points)
    mirrored = {part.id: part.mirrored for part in draft.parts}
    out: dict[tuple[str, int], list[tuple[tuple[str, int], float]]] = defaultdict(list)
    for seam in draft.seams:
        a, b = (sorted(of[ref.part, ref.edge].items()) for ref in (seam.a, seam.b))
        if mirrored[seam.a.part] == mirrored[seam.b.part]:
            b.reverse()
        for (_n, (one, cm)), (_m, (other, _far)) in zip(a, b, strict=True):
            out[seam.a.part, one].append(((seam.b.part, other), cm))
            out[seam.b.part, other].append(((seam.a.part, one), cm))
    return out


# --- pieces, parts and seams ----------------------------------------------------------------------------


def _told(
    draft: Draft, cut: Sequence[tuple[Share, CutOut]], field: Field
) -> tuple[tuple[Piece, ...], tuple[Part, ...]]:
    """The pieces, alike shares as one, with names of their own; and the parts cut as them."""
    groups: dict[object, list[tuple[Share, CutOut]]] = defaultdict(list)
    for share, made in cut:
        groups[signature(made.piece)].append((share, made))
    whole = {piece.id: piece for piece in draft.pieces}
    names = names_of([_lie(each, whole, field) for each in groups.values()], field)
    pieces: dict[str, Piece] = {}
    piece_for: dict[str, str] = {}
    for name, group in zip(names, groups.values(), strict=True):
        id_ = slug(name, pieces)
        pieces[id_] = replace(group[0][1].piece, id=id_, name=name, count=len(group))
        piece_for.update({share.id: id_ for share, _ in group})
    parts = tuple(Part(share.id, piece_for[share.id], share.part.mirrored) for share, _ in cut)
    return tuple(pieces.values()), parts


def _lie(group: Sequence[tuple[Share, CutOut]], whole: Mapping[str, Piece], field: Field) -> Lie:
    shares = [share for share, _ in group]
    piece = whole[shares[0].part.piece]
    parts = tuple(dict.fromkeys(share.part.id for share in shares))
    if not is_panel(parts[0]):
        return Lie(piece.name, shares[0].tincture, parts)
    frames = {share.part.id: frame_of(share.part, piece, field) for share in shares}
    seen = [frames[s.part.id].seen(point) for s in shares for bit in s.face.ring for point in bit.points]
    xs, ys = [x for _, (x, _) in seen], [y for _, (_, y) in seen]
    faces = frozenset(face for face, (_, y) in seen if y < field.top - 0.1)
    middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    return Lie(piece.name, shares[0].tincture, parts, faces, middle)


def _joined(cut: Sequence[tuple[Share, CutOut]]) -> list[tuple[EdgeRef, EdgeRef]]:
    """The two edges of every seam along a line: the same points, walked the other way."""
    out: list[tuple[EdgeRef, EdgeRef]] = []
    waiting: dict[tuple[str, Line], EdgeRef] = {}
    for share, made in cut:
        for bit, edge in zip(made.sources, made.piece.edges, strict=True):
            if bit.key is not None:
                continue
            here = EdgeRef(share.id, edge.id)
            other = waiting.pop((share.part.id, bit.points[::-1]), None)
            if other is None:
                waiting[share.part.id, bit.points] = here
            else:
                out.append((other, here))
    return out
