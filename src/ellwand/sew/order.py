"""The order of work: every seam goes to a step, steps are put in order by what needs what.

Flat work first: halves and gores, centre seams, side panels, shoulders; sleeves onto the flat body; gussets; then
the underarm and the side in one run; edges last.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping
from graphlib import TopologicalSorter
from typing import Final

from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, EdgeRef, Seam, edge_at
from ellwand.model.piece import Edge
from ellwand.model.step import Step
from ellwand.sew.others import OTHER_NEEDS, SEAM_STEP, other_edge_step, steps_without_seams
from ellwand.sew.thread import ROWS, edge_thread, hand_minutes, machine_minutes, seam_thread

NEEDS: Final[Mapping[str, tuple[str, ...]]] = {
    "mark": (),
    "neck slit": ("mark",),
    "piecing": ("mark",),
    "halves": ("piecing",),
    "gores in slits": ("halves",),
    "gores": ("halves",),
    "centre seams": ("gores", "gores in slits"),
    "side panels": ("gores", "gores in slits"),
    "shoulders": ("centre seams", "side panels", "neck slit"),
    "neck": ("shoulders", "centre seams", "neck slit"),
    "sleeve halves": ("piecing",),
    "elbow gores": ("sleeve halves",),
    "sleeves": ("shoulders", "side panels", "elbow gores"),
    "side panels to back": ("sleeves", "gores", "gores in slits"),
    "sleeves to side panels": ("side panels to back",),
    "gussets": ("sleeves",),
    "underarm and sides": ("gussets", "sleeves to side panels", "side panels to back", "gores", "gores in slits"),
    "sleeves behind": ("underarm and sides",),
    "sleeve seams": ("sleeves behind",),
    "armhole edges": ("underarm and sides",),
    "cuffs": ("underarm and sides", "sleeve seams"),
    "openings": ("underarm and sides",),
    "splits": ("underarm and sides", "centre seams"),
    "hang": ("underarm and sides",),
    "hem": ("underarm and sides", "sleeve seams", "hang", "splits"),
    "take up": ("hem", "cuffs"),
    "closures": ("neck", "cuffs", "openings", "hem"),
}
"""Each step and the steps it cannot do without; listed in the order a maker would choose where several could go."""
_ALL: Final = {**NEEDS, **OTHER_NEEDS}


def sew(draft: Draft) -> tuple[Step, ...]:
    """The steps in order; each seam and each unsewn edge belongs to exactly one."""
    seams: dict[str, list[Seam]] = defaultdict(list)
    for seam in draft.seams:
        seams[_seam_step(seam, draft)].append(seam)
    edges = _edge_steps(draft)
    present = {"mark", *seams, *edges, *steps_without_seams(draft)}
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
    if draft.choices.other is not None:
        return SEAM_STEP[seam.kind]
    names = f"{seam.a.part} {seam.b.part} {seam.a.edge} {seam.b.edge}"
    if seam.kind == "gore to gore" and _is_side(seam) and _is_middle(seam, draft):
        return "underarm and sides"
    if seam.kind == "sleeve gore" and draft.choices.sleeve.seam == "under" and "gore-left" in names:
        return "underarm and sides"
    if seam.kind == "gore to panel":
        return _gore_step(seam, (edge_at(draft, seam.a), edge_at(draft, seam.b)), draft)
    if draft.choices.sleeve.shape != "none" and draft.choices.sleeve.seam == "back":
        return _behind_step(seam, names, draft)
    if _whole_side_panels(draft):
        if seam.kind == "panel seam" and "side-back" in names:
            return "side panels to back"
        if seam.kind == "armhole" and "-low" in names:
            return "sleeves to side panels"
    return _STEP_OF[seam.kind]


def _behind_step(seam: Seam, names: str, draft: Draft) -> str:
    """With the sleeve's seam behind the arm: it runs on into the back's side edge, or closes after the side seam."""
    if seam.kind in ("sleeve gore", "underarm seam", "armhole", "panel seam") and _whole_side_panels(draft):
        # the whole sleeve top lies flat along back, front and side panel until one run closes them
        if seam.kind == "panel seam":
            return "underarm and sides" if "side-back" in names else "side panels"
        return _STEP_OF[seam.kind] if "gore-left" not in names else "underarm and sides"
    if seam.kind == "armhole" and ("armhole-behind" in names or "armhole-back-low" in names):
        return "sleeves behind"
    if seam.kind == "underarm seam" or "gore-left" in names:
        return "sleeve seams"
    return _STEP_OF[seam.kind]


_STEP_OF: Final[Mapping[str, str]] = {
    "sleeve seam": "sleeve halves",
    "sleeve gore": "elbow gores",
    "gusset seam": "underarm and sides",
    "piecing seam": "piecing",
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
    """Whether a seam runs down the middle of a row of gores, where a split would be."""
    row, number = _in_row(seam.a.part)
    count = max(n for part in draft.parts for other, n in [_in_row(part.id)] if other == row)
    return number <= count // 2 < _in_row(seam.b.part)[1]


def _in_row(part: str) -> tuple[str, int]:
    """The row of gores a part stands in, and its number there; 0 for any other."""
    found = re.match(r"(gore-.*?)-(\d+)(?:-|$)", part)
    return (found[1], int(found[2])) if found else (part, 0)


def _gore_step(seam: Seam, edges: tuple[Edge, Edge], draft: Draft) -> str:
    if 0.0 in (edges[0].allowance, edges[1].allowance):
        return "gores in slits"
    panel = seam.a if not seam.a.part.startswith("gore") else seam.b
    if _whole_side_panels(draft) and "side-back" in panel.edge and not panel.part.startswith("side-panel"):
        # the back is joined when the sleeves are on
        return "side panels to back"
    if _is_side(seam) and (_beyond_middle(seam, draft) if _several(seam, draft) else _is_back(panel)):
        return "underarm and sides"
    return "gores"


def _beyond_middle(seam: Seam, draft: Draft) -> bool:
    """Whether a panel is sewn to a gore from beyond the middle of the row, above the points of those between them."""
    on_left = not seam.a.part.startswith("gore")
    row, number = _in_row((seam.b if on_left else seam.a).part)
    count = max(n for part in draft.parts for other, n in [_in_row(part.id)] if other == row)
    return (number > count // 2) == on_left


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
                other = draft.choices.other is not None
                step = other_edge_step(part.id, edge.kind, draft) if other else _edge_step(part.id, edge, draft)
                out[step].append(ref)
    return out


def _edge_step(part: str, edge: Edge, draft: Draft) -> str:
    if edge.kind == "neck slit":
        # a shaped facing faces slit and neck in one
        return "neck slit" if edge.allowance == 0 and draft.choices.neck.facing != "shaped" else "neck"
    if edge.kind == "opening":
        if edge.id.startswith("centre"):
            return "neck"
        return "cuffs" if part.startswith("sleeve") else "openings"
    return _EDGE_STEP_OF[edge.kind]


_EDGE_STEP_OF: Final[Mapping[str, str]] = {
    "neck": "neck",
    "shoulder opening": "neck",
    "hem": "hem",
    "split": "splits",
    "cuff": "cuffs",
    "armhole": "armhole edges",
}


def _needs(code: str, present: set[str]) -> list[str]:
    """The steps of this garment that must come before; a step it does not have hands on its own needs."""
    out: list[str] = []
    for need in _ALL[code]:
        out += [need] if need in present else _needs(need, present)
    return list(dict.fromkeys(out))


def _ordered(present: set[str]) -> list[str]:
    """Topological order; among steps that could go next, the one listed first in NEEDS."""
    place = {code: i for i, code in enumerate(_ALL)}
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
    fastened = draft.closings if code == "closures" else ()
    by_hand = sum(closing.minutes for closing in fastened)
    return Step(
        n=n,
        code=code,
        subject=", ".join(dict.fromkeys(seam.kind for seam in seams)),
        parts=parts,
        seams=tuple(seam.id for seam in seams),
        needs=tuple(sorted(needs)),
        length=seam_cm + edge_cm,
        minutes_hand=hand_minutes(rows_cm) + by_hand,
        minutes_machine=machine_minutes(rows_cm, len(seams) + (1 if edges else 0)) + by_hand,
        thread_m=sum(seam_thread(cm, seam.kind, sewing.finish, sewing.by) for seam, cm in seams_cm.items())
        + edge_thread(edge_cm, sewing.by)
        + sum(closing.thread_m for closing in fastened),
    )
