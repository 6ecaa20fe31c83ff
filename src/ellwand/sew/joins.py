"""Which step each seam is sewn in.

Whatever can be sewn flat is sewn before what closes the garment; the rest is told apart by what it closes.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from ellwand.model.draft import EdgeRef, Seam, whole_part
from ellwand.sew.bench import Bench
from ellwand.sew.others import SEAM_STEP

DIVISIONS: Final = frozenset({"division seam", "division"})
"""Seams between the colours of a divided field."""

_STEP_OF: Final[Mapping[str, str]] = {
    "sleeve seam": "sleeve halves",
    "sleeve gore": "elbow gores",
    "piecing seam": "piecing",
    "gore to gore": "halves",
    "centre seam": "centre seams",
    "panel seam": "side panels",
    "shoulder": "shoulders",
    "armhole": "sleeves",
    "side seam": "underarm and sides",
    "underarm seam": "underarm and sides",
}


def seam_step(seam: Seam, bench: Bench) -> str:
    """The step a seam is sewn in; KeyError for a kind of seam without one."""
    if seam.kind in DIVISIONS:
        return "divisions"
    if not bench.is_tunic:
        return SEAM_STEP[seam.kind]
    if seam.kind in ("gusset", "gusset seam"):
        return _gusset_step(seam, bench)
    if seam.kind == "gore to gore" and _is_side(seam) and _is_middle(seam, bench):
        return "underarm and sides"
    if seam.kind == "gore to panel":
        return _gore_step(seam, bench)
    names = f"{seam.a.part} {seam.b.part} {seam.a.edge} {seam.b.edge}"
    if bench.in_the_round:
        return _round_step(seam, names, bench)
    sleeve = bench.draft.choices.sleeve
    if seam.kind == "sleeve gore" and sleeve.seam == "under" and "gore-left" in names:
        return "underarm and sides"
    if sleeve.shape != "none" and sleeve.seam == "back":
        return _behind_step(seam, names, bench)
    if bench.whole_side_panels:
        if seam.kind == "panel seam" and "side-back" in names:
            return "side panels to back"
        if seam.kind == "armhole" and "-low" in names:
            return "sleeves to side panels"
    return _STEP_OF[seam.kind]


def _round_step(seam: Seam, names: str, bench: Bench) -> str:
    """Sleeves are closed by themselves and the sides by themselves; the armhole comes last."""
    if seam.kind == "underarm seam" or (seam.kind == "sleeve gore" and "gore-left" in names):
        return "sleeve seams"
    if seam.kind == "panel seam" and bench.whole_side_panels and "side-back" in names:
        return "side panels to back"
    return _STEP_OF[seam.kind]


def _behind_step(seam: Seam, names: str, bench: Bench) -> str:
    """With the sleeve's seam behind the arm: it runs on into the back's side edge, or closes after the side seam."""
    if seam.kind in ("sleeve gore", "underarm seam", "armhole", "panel seam") and bench.whole_side_panels:
        # the whole sleeve top lies flat along back, front and side panel until one run closes them
        if seam.kind == "panel seam":
            return "underarm and sides" if "side-back" in names else "side panels"
        return _STEP_OF[seam.kind] if "gore-left" not in names else "underarm and sides"
    if seam.kind == "armhole" and ("armhole-behind" in names or "armhole-back-low" in names):
        return "sleeves behind"
    if seam.kind == "underarm seam" or "gore-left" in names:
        return "sleeve seams"
    return _STEP_OF[seam.kind]


def _gusset_step(seam: Seam, bench: Bench) -> str:
    """In the corner, all sides at once; else its sides along the sleeve, or the body, come before the others.

    The sides that would close a ring wait for the run that closes it: one of a square, the long edges of triangles.
    """
    sewing = bench.draft.choices.sewing
    closing = "sleeve seams" if bench.in_the_round and sewing.gussets == "on the sleeve" else "underarm and sides"
    if sewing.gussets == "in the corner":
        return "gussets" if seam.kind == "gusset" or bench.in_the_round else closing
    if seam.kind == "gusset seam":
        return closing
    gusset, other = (seam.a, seam.b) if seam.a.part.startswith("gusset") else (seam.b, seam.a)
    flat = bench.draft.choices.sleeve.gusset_shape == "triangles" or "back" in gusset.edge.split("-")
    if other.part.startswith("sleeve") == (sewing.gussets == "on the sleeve"):
        return "gussets" if flat else closing
    return "sleeves" if flat or bench.in_the_round else closing


def _is_side(seam: Seam) -> bool:
    """Whether a gore's seam belongs to the gores of a side seam."""
    return any(ref.part.startswith(("gore-side-left", "gore-side-right")) for ref in (seam.a, seam.b))


def _is_middle(seam: Seam, bench: Bench) -> bool:
    """Whether a seam runs down the middle of a row of gores, where a split would be."""
    row, number = _in_row(seam.a.part)
    return number <= _row_count(row, bench) // 2 < _in_row(seam.b.part)[1]


def _row_count(row: str, bench: Bench) -> int:
    return max(n for part in bench.pieces for other, n in [_in_row(part)] if other == row)


def _in_row(part: str) -> tuple[str, int]:
    """The row of gores a part stands in, and its number there; 0 for any other."""
    found = re.match(r"(gore-.*?)-(\d+)(?:-|$)", whole_part(part))
    return (found[1], int(found[2])) if found else (part, 0)


def _gore_step(seam: Seam, bench: Bench) -> str:
    if 0.0 in (bench.edges[seam.a].allowance, bench.edges[seam.b].allowance):
        return "gores in slits"
    panel = seam.a if not seam.a.part.startswith("gore") else seam.b
    if bench.whole_side_panels and "side-back" in panel.edge and not panel.part.startswith("side-panel"):
        # the back is joined when the sleeves are on
        return "side panels to back"
    if _is_side(seam) and (_beyond_middle(seam, bench) if _several(seam, bench) else _is_back(panel)):
        return "underarm and sides"
    return "gores"


def _beyond_middle(seam: Seam, bench: Bench) -> bool:
    """Whether a panel is sewn to a gore from beyond the middle of the row, above the points of those between them."""
    on_left = not seam.a.part.startswith("gore")
    row, number = _in_row((seam.b if on_left else seam.a).part)
    return (number > _row_count(row, bench) // 2) == on_left


def _is_back(panel: EdgeRef) -> bool:
    return "back" in panel.edge.split("-") or "back" in panel.part.split("-")


def _several(seam: Seam, bench: Bench) -> bool:
    """Whether the gore is one of several side by side, so that the seam between them can close the side."""
    gore = whole_part(seam.a.part if seam.a.part.startswith("gore") else seam.b.part)
    return any(
        other.kind == "gore to gore" and gore in (whole_part(other.a.part), whole_part(other.b.part))
        for other in bench.draft.seams
    )
