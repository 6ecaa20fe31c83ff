"""The order of work: every seam goes to a step, steps are put in order by what needs what.

Flat work first: slits and facings, halves and gores, centre seams, side panels, shoulders; sleeves onto the flat body;
gussets; then the underarm and the side in one run; edges last.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from ellwand.geometry.lines import Line, length
from ellwand.model.choices import Sewing
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Draft, EdgeRef, Seam
from ellwand.model.step import Step
from ellwand.sew.bench import Bench, bench_of
from ellwand.sew.edges import applied_steps, edge_steps
from ellwand.sew.finishes import INSIDE, folds_to, pressed, seam_class
from ellwand.sew.joins import seam_step
from ellwand.sew.others import steps_without_seams
from ellwand.sew.pace import middle, summed
from ellwand.sew.plan import direct, late_steps, needed, needs_of, ordered
from ellwand.sew.strain import strained
from ellwand.sew.trims import Trims, trims_of
from ellwand.sew.work import Layer, completed, layer_of, other_way, step_rows


@dataclass(frozen=True, slots=True)
class _Work:
    """What falls to each step: ``seams`` and ``edges``, what is ``applied``, and bands, motifs and charges."""

    seams: dict[str, list[Seam]]
    edges: dict[str, list[EdgeRef]]
    applied: dict[str, list[str]]
    trims: Trims

    def put_on(self, code: str) -> list[str]:
        """The parts that are sewn on in a step, and those that bands and motifs go on."""
        return [*self.trims.parts.get(code, ()), *self.applied.get(code, ())]

    def seams_of(self, code: str, draft: Draft) -> Sequence[Seam]:
        """Those of a step; in the first, which tells what holds of all, every seam."""
        return draft.seams if code == "mark" else self.seams.get(code, [])


def sew(draft: Draft, cloths: Sequence[Cloth] = ()) -> tuple[Step, ...]:
    """The steps in order; each seam, each unsewn edge and each part that is sewn on belongs to exactly one.

    ``cloths``: how thick each is, and whether its selvedges lie in seams.
    """
    bench = bench_of(draft)
    work = _shared_out(bench)
    present = {"mark", *work.seams, *work.edges, *work.applied, *work.trims.parts, *steps_without_seams(draft)}
    if bench.hangs_first:
        present.add("hang")
    if draft.choices.closures:
        present.add("closures")
    if _rims_taken_up(draft):
        present.add("take up")
    needs = needs_of(bench, work.trims.needs, work.trims.parts)
    waits = direct({code: needed(code, present, needs) for code in present})
    number = {code: n for n, code in enumerate(ordered(waits, needs), 1)}
    held = strained(
        bench,
        {seam.id: number[code] for code, seams in work.seams.items() for seam in seams},
        {ref: number[code] for code, refs in work.edges.items() for ref in refs},
    )
    sewing = draft.choices.sewing
    ways, layer = (sewing, other_way(sewing)), layer_of(draft, cloths)
    steps = (
        _step(bench, work, n, code, [number[need] for need in waits[code]], ways, layer) for code, n in number.items()
    )
    return tuple(
        completed(
            replace(
                step,
                reinforce=tuple(held.get(step.n, ())),
                selvedges=tuple(_along_selvedges(work.seams_of(step.code, draft), bench, cloths)),
            ),
            draft,
            ways,
            layer,
        )
        for step in steps
    )


def _shared_out(bench: Bench) -> _Work:
    """Every seam, edge and sewn-on part given to its step."""
    draft = bench.draft
    seams: dict[str, list[Seam]] = defaultdict(list)
    for seam in draft.seams:
        seams[seam_step(seam, bench)].append(seam)
    edges = edge_steps(bench)
    trims = Trims()
    adornment = draft.adornment
    if adornment.bands or adornment.repeats or adornment.charges:
        step_of = {ref: code for code, refs in edges.items() for ref in refs}
        trims = trims_of(bench, step_of, late_steps(bench))
    return _Work(seams, edges, applied_steps(bench), trims)


def _beside(code: str, bench: Bench) -> list[str]:
    """The parts that a collar or underlaps are sewn to."""
    kinds = {"collar": {"neck"}, "underlaps": {"neck slit", "opening", "shoulder opening", "split"}}.get(code, set())
    return [ref.part for ref, edge in bench.edges.items() if edge.kind in kinds]


def _along_selvedges(seams: Iterable[Seam], bench: Bench, cloths: Sequence[Cloth]) -> list[str]:
    """The seams both of whose edges run straight along the grain, where such edges may lie in the selvedge."""
    kept = {cloth.name for cloth in cloths if cloth.selvedge_edges}
    if not kept:
        return []
    return [
        seam.id
        for seam in seams
        if all(
            bench.pieces[ref.part].cloth in kept and bench.edges[ref].allowance and _is_upright(bench.edges[ref].points)
            for ref in (seam.a, seam.b)
        )
    ]


def _is_upright(line: Line) -> bool:
    """Whether a line runs along the grain, to a tenth of a millimetre."""
    return max(x for x, _ in line) - min(x for x, _ in line) < 0.01


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


def _step(bench: Bench, work: _Work, n: int, code: str, needs: list[int], ways: Sequence[Sewing], layer: Layer) -> Step:
    draft, seams, edges = bench.draft, work.seams.get(code, []), work.edges.get(code, [])
    finished = _rims_taken_up(draft) if code == "take up" else edges
    refs = [ref for seam in seams for ref in (seam.a, seam.b)] + edges
    put_on = work.put_on(code)
    by = {how.by: step_rows(draft, code, seams, finished, how, layer, put_on) for how in ways}
    rows = by[draft.choices.sewing.by]
    parts = [*(ref.part for ref in refs), *_beside(code, bench), *put_on]
    folds = folds_to(code, bench) if seams else INSIDE if edges else ""
    return Step(
        n=n,
        code=code,
        subject=", ".join(dict.fromkeys(seam.kind for seam in seams)),
        parts=tuple(dict.fromkeys(parts)) or tuple(part.id for part in draft.parts),
        seams=tuple(seam.id for seam in seams),
        needs=tuple(sorted(needs)),
        length=math.fsum(length(bench.edges[ref].points) for ref in (*(seam.a for seam in seams), *finished)),
        minutes_hand=middle(summed(row.minutes for row in by["hand"])),
        minutes_machine=middle(summed(row.minutes for row in by["machine"])),
        thread_m=middle(summed(row.thread_m for row in rows)),
        rows=rows,
        edges=tuple(edges),
        folds=folds,
        seam_iso=seam_class(code, bench, edges, bool(seams)),
        press=pressed(code, folds, edges),
        trims=work.trims.which.get(code, ()),
    )
