"""The neck in words: its slit, its open shoulders, its facing and its collar."""

from __future__ import annotations

from collections.abc import Iterator

from ellwand.geometry.lines import length
from ellwand.language import _
from ellwand.model.draft import Draft, piece_of
from ellwand.model.piece import Edge, EdgeKind, Piece
from ellwand.model.step import Step
from ellwand.units import Unit, format_length


def _edges(draft: Draft, kind: EdgeKind) -> Iterator[Edge]:
    return (edge for part in draft.parts for edge in piece_of(draft, part.id).edges if edge.kind == kind)


def slit_in_seam(draft: Draft) -> bool:
    """Whether the neck slit is the top of a centre seam left open, not cut into a panel."""
    return any(edge.allowance for edge in _edges(draft, "neck slit"))


def neck_slit(step: Step, draft: Draft, unit: Unit) -> str:
    """The step of a slit that is faced before the neck."""
    slit = format_length(draft.dimensions.neck_slit, unit)
    if _applied(draft, "slit facing"):
        return _(
            "Face the neck slit ({slit}) before you cut it: lay its facing on it, right sides together, line on"
            " line; sew down one side to the point and up the other, close to the line. Cut between the rows, turn the"
            " facing to the inside, turn its edges under and fell. Work a bar across the point.",
            slit=slit,
        )
    return _(
        "Face the neck slit ({slit}) before you cut it: sew a strip down both sides to its point, right sides"
        " together, then cut between the rows, turn and fell. Work a bar across the point.",
        slit=slit,
    )


def shoulders(draft: Draft, unit: Unit) -> str:
    """What a shoulder seam leaves open beside the neck; '' for nothing."""
    opened = sorted({round(length(edge.points), 4) for edge in _edges(draft, "shoulder opening")})
    if not opened:
        return ""
    said = format_length(opened[0], unit)
    hand = draft.choices.neck.opening.removeprefix("shoulder ")
    if hand == "both shoulders":
        text = _("Leave {length} of both shoulders open beside the neck.", length=said)
    elif hand == "left":
        text = _("Leave {length} of the left shoulder open beside the neck.", length=said)
    else:
        text = _("Leave {length} of the right shoulder open beside the neck.", length=said)
    return f" {text}"


def neck(step: Step, draft: Draft, unit: Unit) -> str:
    """The step that finishes the neck, or what opens beside it where a collar does the rest."""
    facing = draft.choices.neck.facing
    if facing == "none" and _applied(draft, "collar"):
        return f"{_centre_openings(draft)}{_hemmed(draft)}".strip()
    said = _shaped(draft) if facing == "shaped" else _strip(draft, unit) if facing == "strip" else _plain(draft)
    return _centre_openings(draft) + said


def _centre_openings(draft: Draft) -> str:
    """The edges of a centre that opens from the neck, but not to the hem, are hemmed before the neck; '' without."""
    ids = {edge.id for part in draft.parts for edge in piece_of(draft, part.id).edges}
    out = ""
    for face in ("front", "back"):
        if any(name.startswith(f"centre-{face}-opening") for name in ids):
            split = any(each.place == f"centre-{face}" for each in draft.choices.splits)
            closed = not split or any(name.startswith(f"centre-{face}-seam") for name in ids)
            out += f"{_turned(face, closed)} "
    return out


def _turned(face: str, closed: bool) -> str:
    if face == "front" and closed:
        return _(
            "Turn the edges of the opening at the centre front twice and hem them, or face them with straight strips;"
            " work a bar across its lower end."
        )
    if face == "front":
        return _(
            "Turn the edges of the opening at the centre front twice and hem them, or face them with straight strips."
        )
    if closed:
        return _(
            "Turn the edges of the opening at the centre back twice and hem them, or face them with straight strips;"
            " work a bar across its lower end."
        )
    return _("Turn the edges of the opening at the centre back twice and hem them, or face them with straight strips.")


def _clip(draft: Draft) -> str:
    """Where the allowance of a neck is clipped."""
    if draft.choices.neck.shape in ("rectangle", "square"):
        return _("into the corners")
    return _("into the point") if draft.choices.neck.shape == "V" else _("the curve")


def _hemmed(draft: Draft) -> str:
    """The edges of a slit in a seam or of open shoulders, where only they are hemmed."""
    if slit_in_seam(draft):
        return _("Turn the edges of the slit twice and hem them.")
    if any(_edges(draft, "shoulder opening")):
        return _("Turn the edges of the open shoulder twice and hem them.")
    return ""


def _plain(draft: Draft) -> str:
    clip = _clip(draft)
    if slit_in_seam(draft):
        return _(
            "Finish the neck: turn the edges of the slit twice and hem them; then clip {clip}, and face it with a"
            " narrow strip cut on the slant from the waste, or turn it twice and hem.",
            clip=clip,
        )
    if any(_edges(draft, "shoulder opening")):
        return _(
            "Finish the neck: turn the edges of the open shoulder twice and hem them; then clip {clip}, and face it"
            " with a narrow strip cut on the slant from the waste, or turn it twice and hem.",
            clip=clip,
        )
    return _(
        "Finish the neck: clip {clip}, and face it with a narrow strip cut on the slant from the waste, or turn it"
        " twice and hem.",
        clip=clip,
    )


def _strip(draft: Draft, unit: Unit) -> str:
    open_edges = slit_in_seam(draft) or any(_edges(draft, "shoulder opening"))
    several = sum(piece.count for piece in _applied(draft, "neck strip")) > 1
    if open_edges or _slit_cut(draft) or _open_centre(draft):
        strip = (
            _("join the neck strips end to end, turn in the ends at the opening")
            if several
            else _("take the neck strip, turn in the ends at the opening")
        )
    else:
        strip = (
            _("join the neck strips end to end, close them to a ring")
            if several
            else _("take the neck strip, close it to a ring")
        )
    clip = _clip(draft)
    if open_edges:
        return _(
            "Finish the neck: face the open edges with their strips; then {strip}, and sew the strip round the neck,"
            " right sides together. Clip {clip}, turn the strip to the inside, turn its edge under and fell.",
            strip=strip,
            clip=clip,
        )
    return _(
        "Finish the neck: {strip}, and sew the strip round the neck, right sides together. Clip {clip}, turn the strip"
        " to the inside, turn its edge under and fell.",
        strip=strip,
        clip=clip,
    )


def _shaped(draft: Draft) -> str:
    clip = _clip(draft)
    if _slit_cut(draft):
        text = _(
            "Face the neck: turn under the outer edge of the facing and stitch it, lay it on the neck right sides"
            " together, sew round the neck, and down one side of the slit to its point and up the other, cut the slit"
            " between the rows, clip {clip}, turn it to the inside and fell it. Work a bar across the point.",
            clip=clip,
        )
    elif slit_in_seam(draft):
        text = _(
            "Face the neck: turn under the outer edge of the facing and stitch it, lay it on the neck right sides"
            " together, sew round the neck and along both edges of the slit, clip {clip}, turn it to the inside and"
            " fell it.",
            clip=clip,
        )
    elif any(_edges(draft, "shoulder opening")):
        text = _(
            "Face the neck: turn under the outer edge of the facing and stitch it, lay it on the neck right sides"
            " together, sew round the neck and along the open shoulder, clip {clip}, turn it to the inside and fell"
            " it.",
            clip=clip,
        )
    else:
        text = _(
            "Face the neck: turn under the outer edge of the facing and stitch it, lay it on the neck right sides"
            " together, sew round the neck, clip {clip}, turn it to the inside and fell it.",
            clip=clip,
        )
    if sum(piece.count for piece in _applied(draft, "neck facing")) > 1:
        return f"{_('Sew the neck facings together as the body is.')} {text}"
    return text


def _slit_cut(draft: Draft) -> bool:
    return any(not edge.allowance for edge in _edges(draft, "neck slit"))


def collar(step: Step, draft: Draft, unit: Unit) -> str:
    """The step that makes the collar and sews it on."""
    high = format_length(draft.choices.neck.collar, unit)
    closed = any(_edges(draft, "neck slit")) or any(_edges(draft, "shoulder opening")) or _open_centre(draft)
    ends = _("sew across its ends, right sides together, and turn it") if closed else _("join its ends to a ring")
    if draft.choices.neck.facing != "none":
        return _(
            "Make the collar: fold it lengthwise and {ends}. Sew one of its long edges to the finished neck, right"
            " sides together; turn the other edge under and fell it over that seam inside. It stands {high} high.",
            ends=ends,
            high=high,
        )
    return _(
        "Make the collar: fold it lengthwise and {ends}. Sew one of its long edges to the neck, clipped {clip} first,"
        " right sides together; turn the other edge under and fell it over that seam inside. It stands {high} high.",
        ends=ends,
        clip=_clip(draft),
        high=high,
    )


def _open_centre(draft: Draft) -> bool:
    return any(each.at in ("centre-front", "centre-back") for each in draft.choices.closures)


def _applied(draft: Draft, name: str) -> list[Piece]:
    return [piece for piece in draft.pieces if piece.kind == "applied" and name in piece.name]
