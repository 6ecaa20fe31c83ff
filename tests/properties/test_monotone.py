"""More of what should help never makes it worse, whatever else is chosen and whoever wears it.

Garments and wearers: tests/sweep.py, with one number changed.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from ellwand.errors import CannotDraft
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.others import KINDS
from ellwand.model.wearer import upper
from proving_specimens import RANK
from sweep import Tables, garment_at, made

SEED = 11
worn = (
    st.integers(0, 100_000)
    .map(lambda i: garment_at(SEED, i))
    .filter(lambda drawn: drawn[0]["garment"].get("style") not in KINDS)
)
steady = settings(max_examples=36, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])


def with_value(tables: Tables, path: str, value: object) -> Tables:
    """The same tables with one key of [garment] or [sewing] set."""
    root, first, *rest = path.split(".")
    table = dict(tables[root])
    table[first] = {**table.get(first, {}), rest[0]: value} if rest else value
    return {**tables, root: table}


def cut(tables: Tables, person: Tables) -> Garment:
    """The garment, where it can be cut."""
    try:
        return made(tables, person)
    except CannotDraft:
        assume(False)
        raise


def ranks(garment: Garment, *codes: str) -> dict[str, int]:
    """How bad each subject of these codes is found; 0 is sound."""
    found: Mapping[str, Finding] = {f.subject: f for f in garment.proof.findings if f.code.startswith(codes)}
    return {subject: RANK[f.outcome] for subject, f in found.items()}


def never_worse(less: dict[str, int], more: dict[str, int]) -> bool:
    return all(more.get(subject, 0) <= rank for subject, rank in less.items())


@steady
@given(worn=worn, ease=st.integers(0, 30), further=st.integers(1, 20))
def test_more_body_ease_never_fits_worse(worn: tuple[Tables, Tables], ease: int, further: int) -> None:
    tables, person = worn
    less, more = (cut(with_value(tables, "garment.body.ease", f"{cm} cm"), person) for cm in (ease, ease + further))
    assert never_worse(ranks(less, "fits"), ranks(more, "fits"))
    assert never_worse(ranks(less, "over-head"), ranks(more, "over-head"))


@steady
@given(worn=worn, ease=st.integers(0, 20), further=st.integers(1, 10))
def test_more_neck_ease_never_goes_on_worse(worn: tuple[Tables, Tables], ease: int, further: int) -> None:
    tables, person = worn
    less, more = (cut(with_value(tables, "garment.neck.ease", f"{cm} cm"), person) for cm in (ease, ease + further))
    assert never_worse(ranks(less, "neck-passes", "neck-t", "neck-by"), ranks(more, "neck-passes", "neck-t", "neck-by"))


@steady
@given(worn=worn, chalk=st.sampled_from([0.1, 0.3, 0.5, 0.635, 1.0, 1.27, 2.0, 2.54]), ease=st.integers(0, 30))
def test_rounding_never_shrinks_a_girth(worn: tuple[Tables, Tables], chalk: float, ease: int) -> None:
    """Need: the largest girth of the body, its ease, and 2π times the thickness of what is worn beneath."""
    tables, person = worn
    tables = with_value(with_value(tables, "garment.body.ease", f"{ease} cm"), "sewing.chalk", f"{chalk} cm")
    garment = cut(tables, person)
    size, choices, body = garment.draft.dimensions, garment.choices, garment.wearer
    if choices.growth is None:
        beneath = 2 * math.pi * choices.beneath_mm / 10
        need = max(body[name] for name in ("bust_girth", "waist_girth", "belly_girth")) + ease + beneath
        assert size.body_girth >= need - 1e-6
        assert 2 * size.armhole >= body["upper_arm_girth"] + beneath or choices.sleeve.shape == "none"
        if choices.sleeve.shape == "tapered" and choices.sleeve.cuff == "hand":
            assert size.cuff >= min(upper(body.measures["hand_girth"]) + 1, size.sleeve_top) - 1e-6


@steady
@given(worn=worn, base=st.integers(8, 40), further=st.integers(1, 20), place=st.integers(0, 5))
def test_more_gore_base_never_walks_worse(worn: tuple[Tables, Tables], base: int, further: int, place: int) -> None:
    tables, person = worn
    gores: list[dict[str, Any]] = tables["garment"].get("gores", [])
    assume(gores)
    changed = place % len(gores)

    def wide(cm: int) -> Garment:
        there = [{**gore, "base": f"{cm} cm"} if i == changed else gore for i, gore in enumerate(gores)]
        return cut(with_value(tables, "garment.gores", there), person)

    less, more = wide(base), wide(base + further)
    assert never_worse(ranks(less, "walking"), ranks(more, "walking"))
