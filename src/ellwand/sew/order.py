"""The order of work: every seam goes to a step, steps are put in order by what needs what.

Flat work first: halves and gores, centre seams, side panels, shoulders; sleeves onto the flat body; gussets; then
the underarm and the side in one run; edges last.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from graphlib import TopologicalSorter
from typing import Final

from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, EdgeRef, Seam, edge_at
from ellwand.model.piece import Edge
from ellwand.model.step import Step
from ellwand.sew.thread import ROWS, edge_thread, hand_minutes, machine_minutes, seam_thread

NEEDS: Final[Mapping[str, tuple[str, ...]]] = {
    "mark": (),
    "neck slit": ("mark",),
    "halves": ("mark",),
    "gores in slits": ("halves",),
    "gores": ("halves",),
    "centre seams": ("gores", "gores in slits"),
    "side panels": ("gores", "gores in slits"),
    "shoulders": ("centre seams", "side panels", "neck slit"),
    "neck": ("shoulders", "centre seams", "neck slit"),
    "sleeves": ("shoulders", "side panels"),
    "side panels to back": ("sleeves", "gores", "gores in slits"),
    "sleeves to side panels": ("side panels to back",),
    "gussets": ("sleeves",),
    "underarm and sides": ("gussets", "sleeves to side panels", "side panels to back", "gores", "gores in slits"),
    "armhole edges": ("underarm and sides",),
    "cuffs": ("underarm and sides",),
    "openings": ("underarm and sides",),
    "splits": ("underarm and sides", "centre seams"),
    "hang": ("underarm and sides",),
    "hem": ("underarm and sides", "hang", "splits"),
    "take up": ("hem", "cuffs"),
    "closures": ("neck", "cuffs", "openings", "hem"),
}
"""Each step and the steps it cannot do without; listed in the order a maker would choose where several could go."""


def sew(draft: Draft) -> tuple[Step, ...]:
    """The steps in order; each seam and each unsewn edge belongs to exactly one."""
    seams: dict[str, list[Seam]] = defaultdict(list)
    for seam in draft.seams:
        seams[_seam_step(seam, draft)].append(seam)
    edges = _edge_steps(draft)
    present = {"mark", *seams, *edges}
    if any(piece.levels and piece.levels[0].centre for piece in draft.pieces):
        present.add("hang")
    if draft.choices.closures:
        present.add("closures")
    if _rims_taken_up(draft):
        present.add("take up")
    number = {code: n for n, code in enumerate(_ordered(present), 1)}
    return tuple(
        _step(
            draft, n, code, seams.get(code, []), edges.get(code, []), [number[need] for need in _needs(code, present)]
        )
        for code, n in number.items()
    )


def _seam_step(seam: Seam, draft: Draft) -> str:
    """The step a seam is sewn in; KeyError for a kind of seam without one."""
    names = f"{seam.a.part} {seam.b.part} {seam.a.edge} {seam.b.edge}"
    if seam.kind == "gore to gore" and _is_side(seam) and _is_middle(seam, draft):
        return "underarm and sides"
    if seam.kind == "gore to panel":
        return _gore_step(seam, (edge_at(draft, seam.a), edge_at(draft, seam.b)), draft)
    if _whole_side_panels(draft):
        if seam.kind == "panel seam" and "side-back" in names:
            return "side panels to back"
        if seam.kind == "armhole" and "-low" in names:
            return "sleeves to side panels"
    return _STEP_OF[seam.kind]


_STEP_OF: Final[Mapping[str, str]] = {
    "gore to gore": "halves",
    "centre seam": "centre seams",
    "panel seam": "side panels",
    "shoulder": "shoulders",
    "armhole": "sleeves",
    "gusset": "gussets",
    "side seam": "underarm and sides",
    "underarm seam": "underarm and sides",
}


def _is_side(seam: Seam) -> bool:
    """Whether a gore's seam belongs to the gores of a side seam."""
    return any(ref.part.startswith(("gore-side-left", "gore-side-right")) for ref in (seam.a, seam.b))


def _is_middle(seam: Seam, draft: Draft) -> bool:
    """Whether a seam is the middle one of a row of gores, where a split would be."""
    row, _, number = seam.a.part.rpartition("-")
    return int(number) == sum(part.id.rpartition("-")[0] == row for part in draft.parts) // 2


def _gore_step(seam: Seam, edges: tuple[Edge, Edge], draft: Draft) -> str:
    if 0.0 in (edges[0].allowance, edges[1].allowance):
        return "gores in slits"
    panel = seam.a if not seam.a.part.startswith("gore") else seam.b
    if _whole_side_panels(draft) and "side-back" in panel.edge and not panel.part.startswith("side-panel"):
        # the back is joined when the sleeves are on
        return "side panels to back"
    if _is_side(seam) and not _several(seam, draft) and _is_back(panel):
        return "underarm and sides"
    return "gores"


def _is_back(panel: EdgeRef) -> bool:
    return "back" in panel.edge.split("-") or "back" in panel.part.split("-")


def _several(seam: Seam, draft: Draft) -> bool:
    """Whether the gore is one of several side by side, so that the seam between them can close the side."""
    gore = seam.a.part if seam.a.part.startswith("gore") else seam.b.part
    return any(other.kind == "gore to gore" and gore in (other.a.part, other.b.part) for other in draft.seams)


def _whole_side_panels(draft: Draft) -> bool:
    return any(part.id in ("side-panel-left", "side-panel-right") for part in draft.parts)


def _edge_steps(draft: Draft) -> dict[str, list[EdgeRef]]:
    """Step -> the unsewn edges finished in it."""
    sewn = {ref for seam in draft.seams for ref in (seam.a, seam.b)}
    pieces = {piece.id: piece for piece in draft.pieces}
    out: dict[str, list[EdgeRef]] = defaultdict(list)
    for part in draft.parts:
        for edge in pieces[part.piece].edges:
            ref = EdgeRef(part.id, edge.id)
            if ref not in sewn:
                out[_edge_step(part.id, edge)].append(ref)
    return out


def _edge_step(part: str, edge: Edge) -> str:
    if edge.kind == "neck slit":
        return "neck slit" if edge.allowance == 0 else "neck"
    if edge.kind == "opening":
        return "cuffs" if part.startswith("sleeve") else "openings"
    return {"neck": "neck", "hem": "hem", "split": "splits", "cuff": "cuffs", "armhole": "armhole edges"}[edge.kind]


def _needs(code: str, present: set[str]) -> list[str]:
    """The steps of this garment that must come before; a step it does not have hands on its own needs."""
    out: list[str] = []
    for need in NEEDS[code]:
        out += [need] if need in present else _needs(need, present)
    return list(dict.fromkeys(out))


def _ordered(present: set[str]) -> list[str]:
    """Topological order; among steps that could go next, the one listed first in NEEDS."""
    place = {code: i for i, code in enumerate(NEEDS)}
    sorter = TopologicalSorter({code: _needs(code, present) for code in present})
    sorter.prepare()
    ready: list[str] = []
    out: list[str] = []
    while sorter.is_active():
        ready = sorted([*ready, *sorter.get_ready()], key=place.__getitem__)
        code = ready.pop(0)
        out.append(code)
        sorter.done(code)
    return out


def _rims_taken_up(draft: Draft) -> list[EdgeRef]:
    """The hems and cuffs above which something is taken up."""
    spare, pieces = draft.taken_up, {piece.id: piece for piece in draft.pieces}
    if spare is None:
        return []
    rims = [(part.id, edge) for part in draft.parts for edge in pieces[part.piece].edges]
    taken = {f"sleeve-{hand}" for hand, cm in spare.sleeves.items() if cm}
    return [
        EdgeRef(part, edge.id)
        for part, edge in rims
        if (edge.kind == "hem" and spare.body) or (edge.kind == "cuff" and part in taken)
    ]


def _step(draft: Draft, n: int, code: str, seams: list[Seam], edges: list[EdgeRef], needs: list[int]) -> Step:
    sewing = draft.choices.sewing
    seams_cm = {seam: length(edge_at(draft, seam.a).points) for seam in seams}
    seam_cm = sum(seams_cm.values())
    edge_cm = sum(length(edge_at(draft, ref).points) for ref in (_rims_taken_up(draft) if code == "take up" else edges))
    refs = [ref for seam in seams for ref in (seam.a, seam.b)] + edges
    parts = tuple(dict.fromkeys(ref.part for ref in refs)) or tuple(part.id for part in draft.parts)
    rows_cm = seam_cm * sum(ROWS[sewing.finish]) + edge_cm
    return Step(
        n=n,
        code=code,
        subject=", ".join(dict.fromkeys(seam.kind for seam in seams)),
        parts=parts,
        seams=tuple(seam.id for seam in seams),
        needs=tuple(sorted(needs)),
        length=seam_cm + edge_cm,
        minutes_hand=hand_minutes(rows_cm),
        minutes_machine=machine_minutes(rows_cm, len(seams) + (1 if edges else 0)),
        thread_m=sum(seam_thread(cm, seam.kind, sewing.finish, sewing.by) for seam, cm in seams_cm.items())
        + edge_thread(edge_cm, sewing.by),
    )
