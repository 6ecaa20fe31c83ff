"""Runs along what is left open: necks, hems, cuffs, armholes, and the lips of slits, splits and openings."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Final

from ellwand.adorn.runs.making import edge_run, from_centre_front, in_rows, on_a_corner
from ellwand.geometry.lines import length
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import Edge, EdgeKind
from ellwand.model.run import Run, begun_at, reversed_run, starts
from ellwand.model.surface import Surface, rims
from ellwand.model.wearer import HANDS

HEMS: Final[frozenset[EdgeKind]] = frozenset({"hem", "leg"})
NECKS: Final[frozenset[EdgeKind]] = frozenset({"neck", "neck slit", "shoulder opening"})
CENTRES: Final = ("centre-front", "centre-back")
ROUND_A_LIMB: Final = frozenset({"underarm seam", "sleeve gore", "inside leg seam"})
"""Seams at which a run round an arm or a leg begins."""
Wanted = Callable[[EdgeRef, Edge], bool]


def necks(surface: Surface) -> list[Run]:
    """The neck's edge without its slit: toward the wearer's left."""
    return [
        from_centre_front(surface, run) if run.closed else run
        for run in map(reversed_run, _rows(surface, "neck", lambda _, edge: edge.kind == "neck"))
    ]


def hems(surface: Surface) -> list[Run]:
    """The hem all round, or what splits leave of it; of breeches each leg's."""
    found = _rows(surface, "hem", lambda _, edge: edge.kind in HEMS)
    body = [from_centre_front(surface, run) for run in found if run.closed]
    return _by_hand(surface, [*(_from_seam(surface, run) for run in body), *(run for run in found if not run.closed)])


def cuffs(surface: Surface) -> list[Run]:
    """Each cuff from its seam, or from lip to lip where it opens."""
    found = _rows(surface, "cuff", lambda _, edge: edge.kind == "cuff")
    return _by_hand(surface, [_from_seam(surface, run) for run in found])


def bare_armholes(surface: Surface) -> list[Run]:
    """The armholes of a garment without sleeves, from the top of the side seam."""
    found = _rows(surface, "armhole", lambda _, edge: edge.kind == "armhole")
    return _by_hand(surface, [_from_seam(surface, run) for run in found])


def edges_named(surface: Surface, kinds: frozenset[EdgeKind], name: str) -> list[Run]:
    """The open edges of these kinds, row by row."""
    return _rows(surface, name, lambda _, edge: edge.kind in kinds)


def neck_slits(surface: Surface) -> list[Run]:
    """Both lips of the neck slit, the wearer's left one first, each from the neck down."""
    return _lips(surface, "neck slit", lambda _, edge: edge.kind == "neck slit")


def splits(surface: Surface) -> list[Run]:
    """Both lips of every split, each from its upper end down."""
    return _lips(surface, "split", lambda ref, edge: edge.kind == "split")


def centre_lips(surface: Surface, place: str) -> list[Run]:
    """Both lips of a front or back that opens from the neck down; none where it does not."""
    above = any(edge.kind == "opening" and edge.id.startswith(place) for edge in surface.edges.values())

    def wanted(ref: EdgeRef, edge: Edge) -> bool:
        return edge.id.startswith(place) and (edge.kind == "opening" or (edge.kind == "split" and not above))

    return _lips(surface, place, wanted, only_from=NECKS)


# --- inside ---------------------------------------------------------------------------------------------


def _rows(surface: Surface, name: str, wanted: Wanted) -> list[Run]:
    out = []
    for rim in rims(surface):
        for refs, closed in in_rows(rim, [wanted(ref, surface.edges[ref]) for ref in rim]):
            out.append(edge_run(surface, name, refs, closed=closed))
    return out


def _lips(surface: Surface, name: str, wanted: Wanted, *, only_from: frozenset[EdgeKind] | None = None) -> list[Run]:
    """Every lip from its upper end; ``only_from``: of openings that begin at such an edge."""
    out = []
    for rim in rims(surface):
        for refs, closed in in_rows(rim, [wanted(ref, surface.edges[ref]) for ref in rim]):
            if closed:
                out.append(edge_run(surface, name, refs, closed=True))
                continue
            before = surface.edges[rim[rim.index(refs[0]) - 1]].kind
            after = surface.edges[rim[(rim.index(refs[-1]) + 1) % len(rim)]].kind
            if only_from is not None and not {before, after} & only_from:
                continue
            down = before in NECKS or (after in HEMS and before not in HEMS)
            if (before in NECKS and after in NECKS) or (before in HEMS and after in HEMS):
                # down one lip to the point and up the other, or up and down again
                one, other = (edge_run(surface, name, each, closed=False) for each in _halves(surface, refs))
                out += [one, reversed_run(other)] if down else [reversed_run(one), other]
            else:
                lip = edge_run(surface, name, refs, closed=False)
                out.append(lip if down else reversed_run(lip))
    return out


def _halves(surface: Surface, refs: Sequence[EdgeRef]) -> tuple[list[EdgeRef], list[EdgeRef]]:
    """The two lips of an opening that comes to a point: both are equally long."""
    sizes = [length(surface.edges[ref].points) for ref in refs]
    half = math.fsum(sizes) / 2
    i = min(range(1, len(refs)), key=lambda i: abs(math.fsum(sizes[:i]) - half))
    return list(refs[:i]), list(refs[i:])


def _from_seam(surface: Surface, run: Run) -> Run:
    """A closed run round an arm or leg begun at its seam, an armhole's at the side; others as they are."""
    if not run.closed:
        return run
    begins = starts(run)
    for i, stretch in enumerate(run.stretches):
        first = EdgeRef(stretch.part, stretch.edge)
        seam = surface.across.get(surface.before[first])
        # an elbow gore lies between two seams: the sleeve's front begins behind it
        if seam is None or "gore" in stretch.part.split("-"):
            continue
        if seam[1].kind in ROUND_A_LIMB or _under_arm(surface, first, seam[1].kind):
            return begun_at(run, begins[i])
    return on_a_corner(run)


def _under_arm(surface: Surface, ref: EdgeRef, kind: str) -> bool:
    return surface.edges[ref].kind == "armhole" and kind in ("side seam", "panel seam", "gusset", "gore to panel")


def _by_hand(surface: Surface, runs: Sequence[Run]) -> list[Run]:
    """The wearer's left before the right; each named for its hand where it is one of two."""
    return sorted(runs, key=lambda run: HANDS.index(hand) if (hand := hand_of(run)) in HANDS else -1)


def hand_of(run: Run) -> str:
    """The hand that all its parts belong to, or else their edges, or ''."""
    found = {
        next((hand for name in (each.part, each.edge) for hand in HANDS if hand in name.split("-")), "")
        for each in run.stretches
    }
    return found.pop() if len(found) == 1 else ""
