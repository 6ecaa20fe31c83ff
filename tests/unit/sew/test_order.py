"""The order of sewing: whole, flat for as long as it can be, and nothing before what it needs."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bodies import rows, wearer
from ellwand.errors import BadInput
from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, EdgeRef, Seam, edge_at, piece_of
from ellwand.model.step import Step
from ellwand.prove.shell import shell_of
from ellwand.sew import sew
from ellwand.sew.plan import NEEDS
from proving_specimens import drafted, wide_sample
from strategies import garments

people = st.integers(0, len(rows()) - 1).map(lambda i: wearer(rows()[i]))

BEFORE = [
    # (sewn first, sewn later), both of one side of the body where they have one: common practice of flat work,
    # written down apart from the code's own table
    ("gore let into a slit", "centre seam"),
    ("gore let into a slit", "shoulder"),
    ("gore let into a slit", "armhole"),
    ("gore let into a slit", "side seam"),
    ("gores joined", "gore to panel"),
    ("gore to panel", "centre seam"),
    ("gore to panel", "armhole"),
    ("centre seam", "shoulder"),
    ("centre seam", "armhole"),
    ("panel seam, front", "armhole"),
    ("panel seam, front", "panel seam, side closing"),
    ("shoulder", "armhole"),
    ("sleeve seam", "armhole"),
    ("side seam", "armhole behind"),
    ("armhole behind", "underarm seam"),
    ("armhole", "gusset"),
    ("armhole", "panel seam, side closing"),
    ("armhole", "underarm seam"),
    ("armhole", "side seam"),
    ("panel seam, side closing", "armhole under the arm"),
    ("armhole under the arm", "underarm seam"),
    ("gusset", "underarm seam"),
    ("gusset", "side seam"),
]
CLOSING = ("gussets", "side panels to back", "underarm and sides")
"""Steps that bring front and back together under the arm."""
FINISHED = {
    "neck": {"neck", "collar"},
    "neck slit": {"neck", "neck slit"},
    "hem": {"hem"},
    "split": {"splits", "split slits"},
    "cuff": {"cuffs"},
    "opening": {"cuffs", "openings", "neck"},
    "armhole": {"armhole edges"},
}
"""Kind of unsewn edge -> the steps that may finish it."""


def told(seam: Seam, draft: Draft) -> str:
    """What a maker would call the seam."""
    names = f"{seam.a.part} {seam.a.edge} {seam.b.part} {seam.b.edge}"
    whole_panels = any(part.id == "side-panel-left" for part in draft.parts)
    of_side = "gore-side-left" in names or "gore-side-right" in names
    if seam.kind == "gore to gore":
        return "side gores joined" if of_side else "gores joined"
    if seam.kind == "gore to panel":
        if any(edge_at(draft, ref).allowance == 0 for ref in (seam.a, seam.b)):
            return "gore let into a slit"
        return "gore of a side" if of_side or "gore-side" in names else "gore to panel"
    if seam.kind == "panel seam":
        return "panel seam, side closing" if whole_panels and "side-back" in names else "panel seam, front"
    seam_behind = draft.choices.sleeve.seam == "back"
    if seam.kind == "armhole" and seam_behind and not whole_panels and ("behind" in names or "back-low" in names):
        return "armhole behind"
    if seam.kind == "armhole" and whole_panels and not seam_behind and "low" in names:
        return "armhole under the arm"
    return seam.kind


def hand(seam: Seam) -> str:
    words = f"{seam.a.part}-{seam.b.part}-{seam.a.edge}-{seam.b.edge}".split("-")
    return "left" if "left" in words else "right" if "right" in words else ""


def unsewn(draft: Draft) -> list[EdgeRef]:
    sewn = {ref for seam in draft.seams for ref in (seam.a, seam.b)}
    every = [EdgeRef(part.id, edge.id) for part in draft.parts for edge in piece_of(draft, part.id).edges]
    return [ref for ref in every if ref not in sewn]


def behind(steps: tuple[Step, ...]) -> dict[int, set[int]]:
    """Step -> every step that its needs, and theirs, put before it: what holds in any order a maker may choose."""
    out: dict[int, set[int]] = {}
    for step in steps:
        out[step.n] = set(step.needs).union(*(out[need] for need in step.needs))
    return out


def check(draft: Draft) -> tuple[Step, ...]:
    steps = sew(draft)
    assert [step.n for step in steps] == list(range(1, len(steps) + 1))
    assert all(need < step.n for step in steps for need in step.needs)
    sewn = [seam for step in steps for seam in step.seams]
    assert sorted(sewn) == sorted(seam.id for seam in draft.seams)
    when = {seam: step.n for step in steps for seam in step.seams}
    waits = behind(steps)
    for first, later in BEFORE:
        for a in draft.seams:
            for b in draft.seams:
                if told(a, draft) == first and told(b, draft) == later and {hand(a), hand(b)} != {"left", "right"}:
                    assert when[a.id] in waits[when[b.id]], (first, later, a, b)
    for step in steps:
        # only what no other need brings with it
        assert not any(one in waits[other] for one in step.needs for other in step.needs)
        assert bool(step.folds) == bool(step.seams or step.edges)
        assert bool(step.seam_iso) == bool(step.seams or step.edges or step.code in ("take up", "collar", "underlaps"))
    last = next(step.n for step in steps if step.code == "hem")
    assert {step.n for step in steps if step.seams} <= waits[last]
    codes = {step.code for step in steps}
    finished = [(ref, step) for step in steps for ref in step.edges]
    assert sorted(map(str, (ref for ref, _ in finished))) == sorted(map(str, unsewn(draft)))
    for ref, step in finished:
        assert step.code in FINISHED[edge_at(draft, ref).kind] and ref.part in step.parts
    for part in draft.applied:
        assert sum(part.id in step.parts for step in steps) == 1
    stitched = sum(length(edge_at(draft, seam.a).points) for seam in draft.seams)
    stitched += sum(length(edge_at(draft, ref).points) for ref in unsewn(draft))
    assert sum(step.length for step in steps if step.code != "take up") == pytest.approx(stitched)
    for step in steps:
        worked = step.code not in ("mark", "hang", "closures", "underlaps", "collar")
        assert (step.length > 0) == worked or step.code == "collar"
        if worked:
            assert min(step.minutes_hand, step.thread_m, step.minutes_machine) > 0
    assert steps[0].code == "mark"
    last_without_closures = "take up" if "take up" in codes else "hem"
    assert steps[-1].code == ("closures" if draft.choices.closures else last_without_closures)
    return steps


def test_over_a_wide_sample() -> None:
    for draft, _ in wide_sample():
        check(draft)


@settings(max_examples=100, suppress_health_check=[HealthCheck.too_slow])
@given(garment=garments, person=people)
def test_over_the_whole_choice_space(garment: dict[str, Any], person: dict[str, object]) -> None:
    try:
        draft, _ = drafted(garment, person)
    except BadInput:
        return
    check(draft)


def flat(draft: Draft) -> Draft:
    """The draft with only what is sewn before front and back meet under the arm; gussets not yet set in."""
    done: set[str] = set()
    for step in sew(draft):
        if step.code in CLOSING:
            break
        done |= set(step.seams)
    loose = tuple(part for part in draft.parts if not part.id.startswith("gusset"))
    return replace(draft, parts=loose, seams=tuple(seam for seam in draft.seams if seam.id in done))


def test_all_hangs_together_and_still_lies_flat_before_the_sides_are_closed() -> None:
    """Euler characteristic (any text on surfaces): a sheet with a neck hole 0, an open front 1, a tube less."""
    for draft, _ in wide_sample():
        shell = shell_of(flat(draft))
        open_through = any({"neck", "hem"} <= set(rim.opens_to) for rim in shell_of(draft).rims)
        assert (shell.components, shell.euler) == (1, 1 if open_through else 0), draft.choices


@pytest.mark.parametrize("make", ["whole", "halves"])
@pytest.mark.parametrize("count", [1, 2, 3])
def test_gores_side_by_side_are_flat_work_but_for_one_seam_a_side(make: str, count: int) -> None:
    """A row of gores in the side: every gore hangs on a panel before the side is closed."""
    gores = [{"place": "side", "start": "hip", "base": 20, "make": make}] * count
    draft, _ = drafted({"body": {"cut": "wide panels"}, "gores": gores})
    check(draft)
    shell = shell_of(flat(draft))
    assert (shell.components, shell.euler) == (1, 0)


def test_the_same_draft_gives_the_same_steps() -> None:
    for draft, _ in wide_sample()[:20]:
        steps = sew(draft)
        assert steps == sew(draft)
        other_way_round = sew(replace(draft, seams=draft.seams[::-1], parts=draft.parts[::-1]))
        assert [(step.code, step.needs) for step in steps] == [(step.code, step.needs) for step in other_way_round]


def test_by_hand_or_by_machine_only_the_thread_differs() -> None:
    draft, _ = drafted({})
    choices = draft.choices
    by_machine = replace(draft, choices=replace(choices, sewing=replace(choices.sewing, by="machine")))
    pairs = list(zip(sew(draft), sew(by_machine), strict=True))
    assert all(replace(a, thread_m=0.0, rows=()) == replace(b, thread_m=0.0, rows=()) for a, b in pairs)
    assert any(a.thread_m != b.thread_m for a, b in pairs)


def test_every_step_the_table_knows_is_met_in_the_sample() -> None:
    met = {step.code for draft, _ in wide_sample() for step in sew(draft)}
    put_on = {"collar", "underlaps", "divisions", "charges", "motifs", "bands flat", "bands round", "motifs round"}
    assert met == set(NEEDS) - put_on


def test_the_allowances_of_a_gusset_are_folded_into_it() -> None:
    """As in a gown from Herjolfsnes (no. 45), whose shoulders and sides are opened flat."""
    draft, _ = drafted({})
    at = {step.code: step for step in sew(draft)}
    assert at["gussets"].folds == "the gusset" and at["gussets"].press == "press the allowances toward the gusset"
    plain = replace(draft, choices=replace(draft.choices, sewing=replace(draft.choices.sewing, finish="plain")))
    opened = {step.code: step for step in sew(plain)}
    assert opened["underarm and sides"].folds == "open"
    assert opened["underarm and sides"].press == "press the allowances open"


def test_a_hem_is_an_edge_finished_and_a_facing_a_seam() -> None:
    """ISO 4916: class 6 is edge finishing, class 1 layers laid on each other."""
    draft, _ = drafted({"neck": {"facing": "shaped"}})
    at = {step.code: step for step in sew(draft)}
    assert at["hem"].seam_iso == at["cuffs"].seam_iso == "6" and at["neck"].seam_iso == "1"
    assert at["hem"].folds == "the inside" and at["mark"].seam_iso == ""
