"""The neck in words: its slit, its open shoulders, its facing and its collar."""

from __future__ import annotations

from collections.abc import Iterator

from ellwand.geometry.lines import length
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
        return (
            f"Face the neck slit ({slit}) before you cut it: lay its facing on it, right sides together, line on"
            " line; sew down one side to the point and up the other, close to the line. Cut between the rows, turn the"
            " facing to the inside, turn its edges under and fell. Work a bar across the point."
        )
    return (
        f"Face the neck slit ({slit}) before you cut it: sew a strip down both sides to its point, right sides"
        " together, then cut between the rows, turn and fell. Work a bar across the point."
    )


def shoulders(draft: Draft, unit: Unit) -> str:
    """What a shoulder seam leaves open beside the neck; '' for nothing."""
    opened = sorted({round(length(edge.points), 4) for edge in _edges(draft, "shoulder opening")})
    if not opened:
        return ""
    said = format_length(opened[0], unit)
    hand = draft.choices.neck.opening.removeprefix("shoulder ")
    where = "both shoulders" if hand == "both shoulders" else f"the {hand} shoulder"
    return f" Leave {said} of {where} open beside the neck."


def neck(step: Step, draft: Draft, unit: Unit) -> str:
    """The step that finishes the neck, or what opens beside it where a collar does the rest."""
    facing = draft.choices.neck.facing
    if facing == "none" and _applied(draft, "collar"):
        opened = _opened(draft).removesuffix("; then ")
        return (_centre_openings(draft) + (f"{opened[0].upper()}{opened[1:]}." if opened else "")).strip()
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
            bar = "; work a bar across its lower end" if closed else ""
            out += (
                f"Turn the edges of the opening at the centre {face} twice and hem them, or face them with straight"
                f" strips{bar}. "
            )
    return out


def _clip(draft: Draft) -> str:
    return {"rectangle": "into the corners", "square": "into the corners", "V": "into the point"}.get(
        draft.choices.neck.shape, "the curve"
    )


def _opened(draft: Draft) -> str:
    """The edges of a slit in a seam or of open shoulders, hemmed before the neck."""
    if slit_in_seam(draft):
        return "turn the edges of the slit twice and hem them; then "
    if any(_edges(draft, "shoulder opening")):
        return "turn the edges of the open shoulder twice and hem them; then "
    return ""


def _plain(draft: Draft) -> str:
    return (
        f"Finish the neck: {_opened(draft)}clip {_clip(draft)}, and face it with a narrow strip cut on the slant from"
        " the waste, or turn it twice and hem."
    )


def _strip(draft: Draft, unit: Unit) -> str:
    open_edges = slit_in_seam(draft) or any(_edges(draft, "shoulder opening"))
    first = "face the open edges with their strips; then " if open_edges else ""
    count = sum(piece.count for piece in _applied(draft, "neck strip"))
    joined = "join the neck strips end to end, " if count > 1 else "take the neck strip, "
    ends = (
        "turn in the ends at the opening"
        if open_edges or _slit_cut(draft) or _open_centre(draft)
        else "close them to a ring"
        if count > 1
        else "close it to a ring"
    )
    return (
        f"Finish the neck: {first}{joined}{ends}, and sew the strip round the neck, right sides together. Clip"
        f" {_clip(draft)}, turn the strip to the inside, turn its edge under and fell."
    )


def _shaped(draft: Draft) -> str:
    facings = _applied(draft, "neck facing")
    count = sum(piece.count for piece in facings)
    join = "Sew the neck facings together as the body is. " if count > 1 else ""
    down, cut = "", ""
    if _slit_cut(draft):
        down, cut = ", and down one side of the slit to its point and up the other", "cut the slit between the rows, "
    elif slit_in_seam(draft):
        down = " and along both edges of the slit"
    elif any(_edges(draft, "shoulder opening")):
        down = " and along the open shoulder"
    bar = " Work a bar across the point." if _slit_cut(draft) else ""
    return (
        f"{join}Face the neck: turn under the outer edge of the facing and stitch it, lay it on the neck right sides"
        f" together, sew round the neck{down}, {cut}clip {_clip(draft)}, turn it to the inside and fell it.{bar}"
    )


def _slit_cut(draft: Draft) -> bool:
    return any(not edge.allowance for edge in _edges(draft, "neck slit"))


def collar(step: Step, draft: Draft, unit: Unit) -> str:
    """The step that makes the collar and sews it on."""
    high = format_length(draft.choices.neck.collar, unit)
    closed = any(_edges(draft, "neck slit")) or any(_edges(draft, "shoulder opening")) or _open_centre(draft)
    ends = "sew across its ends, right sides together, and turn it" if closed else "join its ends to a ring"
    on = "to the finished neck" if draft.choices.neck.facing != "none" else f"to the neck, clipped {_clip(draft)} first"
    return (
        f"Make the collar: fold it lengthwise and {ends}. Sew one of its long edges {on}, right sides together; turn"
        f" the other edge under and fell it over that seam inside. It stands {high} high."
    )


def _open_centre(draft: Draft) -> bool:
    return any(each.at in ("centre-front", "centre-back") for each in draft.choices.closures)


def _applied(draft: Draft, name: str) -> list[Piece]:
    return [piece for piece in draft.pieces if piece.kind == "applied" and name in piece.name]
