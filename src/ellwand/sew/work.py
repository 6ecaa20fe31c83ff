"""The stitching of one step: its seams, its edges, what is sewn on there, what closes it."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from ellwand.geometry.lines import length
from ellwand.model.choices import Sewing
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Draft, EdgeRef, Seam, edge_at
from ellwand.model.piece import Edge, Piece
from ellwand.model.step import Step
from ellwand.model.stitch import Stitching
from ellwand.model.ties import ties_of
from ellwand.sew.fastening import closing_rows
from ellwand.sew.pace import middle, summed
from ellwand.sew.put_on import trim_rows
from ellwand.sew.rows import LAYER, applied_rows, bar_rows, edge_rows, merged, seam_rows, stitching

Layer = Callable[[str], float]
"""From a part to the thickness of one layer of its cloth (cm)."""
FACED: Final = frozenset({"neck", "neck slit", "shoulder opening"})
"""Edges that the neck's facing is sewn along."""
ROUND: Final = frozenset({"neck", "hem", "face", "edge", "waist"})
"""Edges that one run goes all round, from part to part."""


def layer_of(draft: Draft, cloths: Sequence[Cloth]) -> Layer:
    """How thick each part's cloth is; medium cloth where it is not known."""
    thick = {cloth.name: cloth.thickness_mm / 10 for cloth in cloths}
    of = {part.id: part.piece for part in (*draft.parts, *draft.applied)}
    cloth = {piece.id: piece.cloth for piece in draft.pieces}
    return lambda part: thick.get(cloth[of[part]], LAYER)


def other_way(sewing: Sewing) -> Sewing:
    """By machine what is sewn by hand, and the other way round; the maker's stitch and pace are of the one."""
    return replace(sewing, by="machine" if sewing.by == "hand" else "hand", stitch=None, timed=None)


def step_rows(
    draft: Draft,
    code: str,
    seams: Sequence[Seam],
    edges: Sequence[EdgeRef],
    sewing: Sewing,
    layer: Layer,
    applied: Sequence[str] = (),
) -> tuple[Stitching, ...]:
    """The rows of the step, sewn as ``sewing`` says; rows of one stitch are told as one.

    ``applied``: the parts that are sewn on in it.
    """
    return merged(_each(draft, code, seams, edges, sewing, layer, applied))


def completed(step: Step, draft: Draft, ways: Sequence[Sewing], layer: Layer) -> Step:
    """The step with the stitching of what it puts on and holds: ``trims`` and ``reinforce``."""
    sewing = draft.choices.sewing
    bars = sum(each.by == "bar" for each in step.reinforce)
    if not (step.trims or bars):
        return step
    more = {}
    for how in ways:
        thick = layer(draft.parts[0].id)
        put_on = trim_rows(step.code, step.trims, draft.adornment, how, thickness=thick)
        more[how.by] = merged((*put_on, *bar_rows(bars, how, thickness=thick)))
    return replace(
        step,
        minutes_hand=step.minutes_hand + middle(summed(row.minutes for row in more["hand"])),
        minutes_machine=step.minutes_machine + middle(summed(row.minutes for row in more["machine"])),
        thread_m=step.thread_m + middle(summed(row.thread_m for row in more[sewing.by])),
        rows=merged((*step.rows, *more[sewing.by])),
    )


def _each(
    draft: Draft,
    code: str,
    seams: Sequence[Seam],
    edges: Sequence[EdgeRef],
    sewing: Sewing,
    layer: Layer,
    applied: Sequence[str],
) -> Iterator[Stitching]:
    alike: dict[tuple[str, str, float], list[float]] = defaultdict(list)
    for seam in seams:
        both = (layer(seam.a.part) + layer(seam.b.part)) / 2
        alike[seam.kind, seam.finish, both].append(length(edge_at(draft, seam.a).points))
    for (kind, finish, both), cms in alike.items():
        yield from seam_rows(math.fsum(cms), kind, finish, sewing, thickness=both, runs=len(cms))
    begun: set[str] = set()
    sorts: dict[tuple[str, float], tuple[list[float], list[int]]] = defaultdict(lambda: ([], []))
    for ref in edges:
        edge = edge_at(draft, ref)
        # a slit without a facing of its own is faced with a strip of waste
        sort = "faced" if _is_faced(draft, ref, edge) else "hemmed" if edge.allowance else "with waste"
        cms, runs = sorts[sort, layer(ref.part)]
        cms.append(length(edge.points))
        runs.append(0 if edge.kind in ROUND & begun else 1)
        begun.add(edge.kind)
    for (sort, thick), (cms, runs) in sorts.items():
        cm = math.fsum(cms)
        if sort == "hemmed":
            yield from edge_rows(cm, sewing, thickness=thick, runs=sum(runs))
        else:
            turned = cm if sort == "with waste" else 0.0
            yield from applied_rows(cm, turned, sewing, thickness=thick, runs=sum(runs))
    by_id = {piece.id: piece for piece in draft.pieces} if applied else {}
    trims = {part for band in draft.adornment.bands for part in band.parts}
    trims |= {part for charge in draft.adornment.charges for part in charge.parts}
    for part in draft.applied:
        if part.id in applied and part.id not in trims:
            seamed, turned = _sewn_on(by_id[part.piece])
            yield from applied_rows(seamed, turned, sewing, thickness=layer(part.id))
    if code == "gather":
        for seam in seams:
            # two threads that the longer edge is drawn in with
            cm = max(length(edge_at(draft, ref).points) for ref in (seam.a, seam.b))
            yield stitching("running", 2 * cm, layer(seam.a.part), sewing)
    ties = ties_of(draft.choices.other, draft.settled) if code == "fasten" else None
    if ties is not None and not ties.threaded:
        yield from bar_rows(ties.count, sewing, thickness=layer(draft.parts[0].id))
    if code == "closures":
        for closing in draft.closings:
            yield from closing_rows(closing, sewing, thickness=layer(draft.parts[0].id))


def _is_faced(draft: Draft, ref: EdgeRef, edge: Edge) -> bool:
    """Whether a facing, strip or collar is sewn along it, and turned to the inside."""
    neck = draft.choices.neck
    if draft.choices.other is not None:
        return False
    if edge.kind == "neck" and neck.collar:
        return True
    if edge.kind == "split":
        faced = [split.place for split in draft.choices.splits if split.facing == "strip"]
        return any(place in f"{ref.part} {ref.edge}" for place in faced)
    return edge.kind in FACED and neck.facing != "none"


def _sewn_on(piece: Piece) -> tuple[float, float]:
    """(sewn by a seam, turned under and felled) of one applied part in cm, its seam on the garment aside."""
    cm = {edge.id: length(edge.points) for edge in piece.edges}
    if "side-1" not in cm:
        joined = sum(length(edge.points) for edge in piece.edges if edge.kind in ("shoulder", "centre seam"))
        # two facings share each seam between them
        return joined / 2, sum(length(edge.points) for edge in piece.edges if edge.kind == "facing")
    ends = cm["end-1"] + cm["end-2"]
    if piece.name.endswith("underlap"):
        return cm["side-1"] + ends / 2, cm["side-2"]
    if piece.name == "collar":
        return ends / 2, cm["side-2"]
    if any(guide.name == "slit" for guide in piece.guides):
        return 0.0, cm["side-1"] + cm["side-2"] + ends
    return 0.0, cm["side-2"] + ends
