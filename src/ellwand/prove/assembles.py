"""Does it assemble: do seams match, are the outlines sound, is the shell the surface that was asked for?"""

from __future__ import annotations

import math
from collections import Counter
from typing import Final

from shapely.geometry import Polygon

from ellwand.geometry.lines import Line, area, length
from ellwand.model.draft import EdgeRef, Seam
from ellwand.model.finding import Finding
from ellwand.model.piece import EdgeKind, Piece
from ellwand.prove.others import ASKED
from ellwand.prove.sewn import MEETS, Sewn, edges_of, level_of, opened_down, splits_of

OPEN_KINDS: Final = frozenset(
    {"neck", "neck slit", "hem", "split", "cuff", "opening", "shoulder opening", "face", "edge", "waist", "leg"}
)
"""Edges that may stay unsewn; and armholes, where there are no sleeves."""
SEAM_TOLERANCE: Final = 0.1
"""Two edges of a seam may differ by this much (cm)."""


def assembles(sewn: Sewn) -> tuple[Finding, ...]:
    """Seams, outlines, then the shell as a whole."""
    return (*_seams(sewn), *_outlines(sewn), *_shell(sewn), _openings(sewn))


def _seams(sewn: Sewn) -> list[Finding]:
    out, worst = [], 0.0
    for seam in sewn.draft.seams:
        a, b = sewn.edges[seam.a], sewn.edges[seam.b]
        long, short = length(a.points), length(b.points)
        off = abs(long - short - seam.ease)
        worst = max(worst, off)
        if off > SEAM_TOLERANCE:
            out.append(_bad_seam("seam-length", seam, long, short + seam.ease))
        if a.kind != b.kind or not _belong(sewn, seam, a.kind):
            out.append(_bad_seam("seam-kind", seam, None, None, one=_what(sewn, seam.a), other=_what(sewn, seam.b)))
    uses = Counter(ref for seam in sewn.draft.seams for ref in (seam.a, seam.b))
    out += [
        Finding("edge-sewn-twice", f"{ref.part} {ref.edge}", "will not work", float(times), 1.0, unit="")
        for ref, times in uses.items()
        if times > 1
    ]
    may_open = OPEN_KINDS | ({"armhole"} if sewn.draft.choices.sleeve.shape == "none" else set())
    out += [
        Finding("edge-unsewn", f"{ref.part} {ref.edge}", "will not work", length(edge.points))
        for ref, edge in sewn.edges.items()
        if ref not in uses and edge.kind not in may_open
    ]
    return out or [
        Finding("seams-match", "", "sound", worst, SEAM_TOLERANCE, values={"count": float(len(sewn.draft.seams))})
    ]


def _belong(sewn: Sewn, seam: Seam, kind: EdgeKind) -> bool:
    """An armhole joins body and sleeve, a gusset's edge is sewn to another's, the rest stay in their own place."""
    places = {sewn.pieces[ref.part].place for ref in (seam.a, seam.b)}
    if kind == "piecing seam":
        return len(places) == 1
    if kind == "armhole":
        return places == {"body", "sleeve"}
    if kind == "gusset":
        return "gusset" in places and len(places) == 2
    if kind == "gusset seam":
        return places == {"gusset"}
    if "other" in places:
        return len(places) == 1
    return places == ({"sleeve"} if kind in ("underarm seam", "sleeve seam") else {"body"})


def _what(sewn: Sewn, ref: EdgeRef) -> str:
    return f"{sewn.edges[ref].kind} of the {sewn.pieces[ref.part].place}"


def _bad_seam(code: str, seam: Seam, measured: float | None, needed: float | None, **values: str) -> Finding:
    return Finding(
        code,
        seam.id,
        "will not work",
        measured,
        needed,
        values={"a": f"{seam.a.part} {seam.a.edge}", "b": f"{seam.b.part} {seam.b.edge}", **values},
    )


def _outlines(sewn: Sewn) -> list[Finding]:
    out = []
    for piece in sewn.draft.pieces:
        for which, ring, holes in (
            ("sewn", piece.sewn, piece.sewn_holes),
            ("cut", piece.cut, piece.cut_holes),
        ):
            if not Polygon(ring, holes).is_valid:
                out.append(Finding("outline-crosses", piece.id, "will not work", values={"which": which}))
            elif area(ring) <= 0 or any(area(hole) >= 0 for hole in holes):
                out.append(Finding("outline-reversed", piece.id, "will not work", values={"which": which}))
        edged, around = math.fsum(length(edge.points) for edge in piece.edges), _perimeter(piece)
        if abs(edged - around) > SEAM_TOLERANCE / 2:
            out.append(Finding("outline-gap", piece.id, "will not work", edged, around))
    pieces = float(len(sewn.draft.pieces))
    return out or [Finding("outlines", "", "sound", values={"count": pieces})]


def _perimeter(piece: Piece) -> float:
    def closed(ring: Line) -> float:
        return length((*ring, ring[0]))

    return closed(piece.sewn) + math.fsum(closed(hole) for hole in piece.sewn_holes)


def _shell(sewn: Sewn) -> list[Finding]:
    shell = sewn.shell
    needed = 2 - len(shell.rims)
    counts = {"vertices": shell.vertices, "edges": shell.edges, "faces": shell.faces, "rims": len(shell.rims)}
    whole = shell.components == 1
    return [
        Finding(
            "surface",
            "",
            "sound" if shell.euler == needed else "will not work",
            float(shell.euler),
            float(needed),
            unit="",
            values={name: float(count) for name, count in counts.items()},
        ),
        Finding("one-piece", "", "sound" if whole else "will not work", float(shell.components), 1.0, unit=""),
        Finding("two-sided", "", "sound" if shell.orientable else "will not work"),
    ]


def _openings(sewn: Sewn) -> Finding:
    """The rims of the shell against the openings that the choices ask for."""
    found = sorted(rim.opens_to for rim in sewn.shell.rims)
    asked = sorted(_asked(sewn))
    return Finding(
        "openings",
        "",
        "sound" if found == asked else "will not work",
        float(len(found)),
        float(len(asked)),
        unit="",
        values={"found": _listed(found), "asked": _listed(asked)},
    )


def _asked(sewn: Sewn) -> list[tuple[str, ...]]:
    choices = sewn.draft.choices
    if choices.other is not None:
        return list(ASKED[type(choices.other)])
    closed_at: set[str] = {closure.at for closure in choices.closures}
    arm = "cuff" if choices.sleeve.shape != "none" else "armhole"
    groups = [{"neck"}, {"hem"}, {f"{arm}-left"}, {f"{arm}-right"}]
    splits = splits_of(sewn)
    if any(low <= splits.get(f"centre-{face}", 0.0) + MEETS for face, low in opened_down(sewn).items()):
        groups[:2] = [{"neck", "hem"}]
    if "side" in closed_at:
        side = {"side-left"}
        # an opening that runs up to an armhole, or down to a split or the hem, is one with it
        touched = [group for group in groups if _touches(sewn, group)]
        groups = [group for group in groups if group not in touched] + [side.union(*touched)]
    return [tuple(sorted(group)) for group in groups]


def _touches(sewn: Sewn, group: set[str]) -> bool:
    if "armhole-left" in group:
        return True
    if "hem" not in group:
        return False
    lowest = min(
        level_of(sewn.pieces[ref.part], point)
        for ref, edge in edges_of(sewn, "opening")
        if not ref.part.startswith("sleeve") and not edge.id.startswith("centre")
        for point in edge.points
    )
    return lowest <= splits_of(sewn).get("side", 0.0) + MEETS


def _listed(openings: list[tuple[str, ...]]) -> str:
    return ", ".join(" with ".join(name.replace("-", " ") for name in group) for group in openings)
