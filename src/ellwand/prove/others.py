"""Does it go on and fit: hood, cloak, coif, apron and breeches, measured on their pieces."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any, Final

from ellwand.errors import InternalFault
from ellwand.geometry.lines import length
from ellwand.model.finding import Caution, Finding, Outcome
from ellwand.model.others import (
    Apron,
    ApronSize,
    Breeches,
    BreechesSize,
    Cloak,
    CloakSize,
    Coif,
    CoifSize,
    Hood,
    HoodSize,
    Other,
    crotch_path,
    round_shoulders,
)
from ellwand.model.piece import EdgeKind
from ellwand.model.wearer import HANDS, Measure, upper
from ellwand.prove.body import leg_girth_at
from ellwand.prove.sewn import Sewn, edges_of, girth_beneath, widths

FACE_SHARE: Final = 0.85
"""A face opening shorter than this share of the head's girth hides brow or chin: common practice, no source."""
COIF_SHARE: Final = 0.62
"""From temple to temple round the back of the head, as a share of its girth: common practice, no source."""
COVERS: Final = 0.6
"""An open cloak covers this share of the shoulders' girth at least: common practice, no source."""
APRON_SHARE: Final = 0.45
"""A narrower share of the hip's girth leaves the sides of the front bare: common practice, no source."""
LEG_EASE: Final = 4.0
"""Less ease round thigh or knee than this (cm) binds when they bend: common practice, no source."""
HIP_EASE: Final = 4.0
"""What the waist of breeches needs over the hip to be pulled up (cm): common practice, no source."""
SITTING: Final = 4.0
"""Ease on the way between the legs when sitting (cm): common practice, no source."""
HEEL: Final = 1.36
WIDE_HEEL: Final = 1.45
"""Girth round heel and instep over that of the ball of the foot: mean, and 95 in 100 below (ANSUR II 2012)."""
NEAR_GROUND: Final = 10.0
"""A hem lower than this (cm) is trodden on: common practice, no source."""
LONG_TAIL: Final = 30.0
"""A longer tail can be caught (cm): common practice, no source."""
CHILD_AGE: Final = 14.0
"""EN 14682 covers children below fourteen."""
SAME: Final = 0.01

ASKED: Final[Mapping[type[Other], tuple[tuple[str, ...], ...]]] = {
    Hood: (("face",), ("hem",)),
    Cloak: (("edge", "hem"),),
    Coif: (("edge",),),
    Apron: (("edge", "hem"),),
    Breeches: (("leg-left",), ("leg-right",), ("waist",)),
}
"""The openings that each garment shall have, by what they open to."""


def wears_well(sewn: Sewn) -> tuple[Finding, ...]:
    """Everything to be said of how it goes on and fits."""
    check = _CHECKS[type(sewn.draft.settled)]
    return tuple(check(sewn, sewn.draft.settled))


def _found(code: str, subject: str, measured: float, needed: float, least: float, **values: float | str) -> Finding:
    """Sound from ``needed`` on, hopeless below ``least`` (cm)."""
    outcome: Outcome = "sound" if measured >= needed - SAME else "look again"
    if measured < least - SAME:
        outcome = "will not work"
    return Finding(code, subject, outcome, measured, needed, values=values)


def _rim(sewn: Sewn, opens_to: str) -> float:
    """Length (cm) of the rim of that name."""
    return math.fsum(rim.length for rim in sewn.shell.rims if opens_to in rim.opens_to)


def _run(sewn: Sewn, kind: EdgeKind, within: str = "") -> float:
    """Length (cm) of all edges of that kind whose name holds ``within``."""
    return math.fsum(length(edge.points) for ref, edge in edges_of(sewn, kind) if within in ref.edge)


# --- hood -----------------------------------------------------------------------------------------------


def _hood(sewn: Sewn, size: HoodSize) -> list[Finding]:
    head = sewn.wearer.measures["head_girth"]
    sides = {part: piece for part, piece in sewn.pieces.items() if part.startswith("hood")}
    across = max(widths(piece, min(y for _, y in piece.sewn) + size.cape + 0.1) for piece in sides.values())
    neck = 2 * across
    least, safe = head.value + girth_beneath(sewn), upper(head) + girth_beneath(sewn)
    out = [_unsure("hood", neck, head, least, safe) or _found("hood-neck", "neck", neck, safe, least, head=head.value)]
    out.append(
        _found("hood-face", "face", _rim(sewn, "face"), FACE_SHARE * head.value, 0.5 * head.value, head=head.value)
    )
    hem = neck + math.fsum(_gore_width(sewn, part) for part in sewn.pieces if part.startswith("gore"))
    need = round_shoulders(sewn.wearer, size.cape) + girth_beneath(sewn)
    gores = sewn.draft.choices.other.gores if isinstance(sewn.draft.choices.other, Hood) else ""
    out.append(_found("hood-cape", "hem", hem, need, 0.9 * need, cape=size.cape, gores=gores))
    return out


def _gore_width(sewn: Sewn, part: str) -> float:
    """What a gore adds to the hem (cm): between a square's corners, or along a triangle's hem."""
    edges = {edge.id: edge.points for edge in sewn.pieces[part].edges}
    return math.dist(edges["right"][0], edges["left"][-1]) if "hem-left" in edges else length(edges["hem"])


def _unsure(subject: str, measured: float, head: Measure, least: float, needed: float) -> Finding | None:
    """Where the head is only estimated and might pass: to be measured."""
    if head.source == "measured" or measured < least - SAME:
        return None
    values = {"head": head.value, "sd": head.sd}
    return Finding("head-by-estimate", subject, "look again", measured, needed, values=values)


# --- cloak ----------------------------------------------------------------------------------------------


def _cloak(sewn: Sewn, size: CloakSize) -> list[Finding]:
    out = []
    under = girth_beneath(sewn)
    if size.inner:
        neck, need = _run(sewn, "edge", "neck"), sewn.wearer["neck_base_girth"] + under
        out.append(_found("cloak-neck", "neck", neck, need, 0.8 * need, neck=sewn.wearer["neck_base_girth"]))
    need = sewn.wearer["shoulder_girth"] + under
    over = size.width if not size.angle else _run(sewn, "hem") * _share_down(sewn, size)
    out.append(_found("cloak-covers", "shoulders", over, COVERS * need, 0.5 * need, shoulders=need))
    return [*out, _hem_clears(sewn.wearer["nape_to_floor"] - size.length, "cloak")]


def _share_down(sewn: Sewn, size: CloakSize) -> float:
    """The radius at the armpits' level as a share of the hem's; a straight edge lies on the neck at its middle."""
    neck = size.inner or sewn.wearer["neck_base_girth"] / (2 * math.pi)
    return min(1.0, (neck + sewn.wearer["scye_depth"]) / size.outer)


def _hem_clears(height: float, what: str) -> Finding:
    return _found("other-hem", "hem", height, 0.0, -1000.0, what=what)


# --- coif, apron ----------------------------------------------------------------------------------------


def _coif(sewn: Sewn, size: CoifSize) -> list[Finding]:
    head = sewn.wearer.measures["head_girth"]
    around = math.fsum(
        widths(piece, min(y for _, y in piece.sewn) + (0.1 if part == "band" else 3.0))
        for part, piece in sewn.pieces.items()
    )
    least, safe = COIF_SHARE * (head.value + girth_beneath(sewn)), COIF_SHARE * (upper(head) + girth_beneath(sewn))
    sure = _found("coif-head", "head", around, safe, least, head=head.value)
    return [_unsure("coif", around, head, least, safe) or sure]


def _apron(sewn: Sewn, size: ApronSize) -> list[Finding]:
    hip = sewn.wearer["hip_girth"] + girth_beneath(sewn)
    wide = _run(sewn, "hem")
    low = (
        sewn.wearer["waist_to_floor"]
        - size.length
        - (max(y for _, y in sewn.pieces["band"].sewn) / 2 if size.band else 0)
    )
    return [
        _found("apron-covers", "hip", wide, APRON_SHARE * hip, 0.2 * hip, hip=hip),
        _hem_clears(low, "apron"),
    ]


# --- breeches -------------------------------------------------------------------------------------------


def _breeches(sewn: Sewn, size: BreechesSize) -> list[Finding]:
    wearer, under = sewn.wearer, girth_beneath(sewn)
    hip = wearer.measures["hip_girth"]
    waist = _rim(sewn, "waist")
    out = [
        _found("breeches-hip", "hip", waist, upper(hip) + under + HIP_EASE, hip.value + under, hip=hip.value),
    ]
    leg = sewn.pieces["leg-left"]
    above = max(y for _, y in sewn.pieces["band"].sewn) / 2 if "band" in sewn.pieces else 0.0
    top = max(y for _, y in leg.sewn) + above
    for at, level in (("thigh", wearer["crotch_to_floor"]), ("knee", wearer["knee_to_floor"])):
        down = wearer["waist_to_floor"] - level
        if down < size.length + above:
            body = wearer["thigh_girth"] if at == "thigh" else leg_girth_at(wearer, level)
            around = widths(leg, max(top - down, min(y for _, y in leg.sewn) + 0.1))
            out.append(_found("breeches-leg", at, around, body + under + LEG_EASE, body + under, body=body))
    foot = wearer.measures["foot_girth"]
    ends = min(_run_of(sewn, hand) for hand in HANDS)
    heel = HEEL * foot.value
    out.append(_found("breeches-foot", "foot", ends, WIDE_HEEL * upper(foot), heel, foot=heel))
    path = 2 * above + math.fsum(
        length(edge.points) for edge in leg.edges if edge.id.startswith("centre") or edge.id == "slit-front"
    )
    if "gusset" in sewn.pieces:
        # from the foot of the centre front across to that of the centre back: the square's corner to corner
        corners = {edge.id: edge.points for edge in sewn.pieces["gusset"].edges}
        path += math.dist(corners["front-right"][0], corners["back-right"][-1])
    need = crotch_path(wearer) + under / math.pi
    out.append(_found("breeches-sitting", "seat", path, need + SITTING, need, body=need))
    return out


def _run_of(sewn: Sewn, hand: str) -> float:
    return math.fsum(rim.length for rim in sewn.shell.rims if rim.opens_to == (f"leg-{hand}",))


_CHECKS: Final[Mapping[type[Any], Callable[[Sewn, Any], list[Finding]]]] = {
    HoodSize: _hood,
    CloakSize: _cloak,
    CoifSize: _coif,
    ApronSize: _apron,
    BreechesSize: _breeches,
}


# --- cautions -------------------------------------------------------------------------------------------


def beware(sewn: Sewn) -> tuple[Caution, ...]:
    """Cautions for a garment of its own cut."""
    other, size, wearer = sewn.draft.choices.other, sewn.draft.settled, sewn.wearer
    if other is None:
        raise InternalFault("a tunic has cautions of its own")
    out = []
    child = wearer.is_child or (wearer.age is not None and wearer.age < CHILD_AGE)
    if child:
        out.append(Caution("child-needles"))
    if child and isinstance(other, (Coif, Cloak)):
        out.append(Caution("child-tied-at-neck", {"what": "coif" if isinstance(other, Coif) else "cloak"}))
    if child and isinstance(other, (Apron, Breeches)):
        out.append(Caution("child-body-cord"))
    if isinstance(other, Hood) and other.liripipe > LONG_TAIL:
        out.append(Caution("long-tail", {"tail": other.liripipe}))
    if isinstance(size, CloakSize):
        out.append(Caution("wide-cloak"))
        if size.angle:
            out.append(Caution("bias-hangs"))
        low = wearer["nape_to_floor"] - size.length
        if low < NEAR_GROUND:
            out.append(Caution("low-hem" if low >= 0 else "trailing-hem", {"hem": abs(low)}))
    return tuple(out)
