"""Charges drawn at random on garments from the whole choice space: sound documents, all cut and within bounds."""

from __future__ import annotations

import json
import random
from collections import Counter
from collections.abc import Iterator
from typing import Any, get_args

import pytest
from shapely import unary_union
from shapely.geometry import Polygon

from ellwand.errors import CannotDraft
from ellwand.model.garment import Garment
from ellwand.model.heraldry import PLAIN_CHARGES, FieldPoint, Ordinary, Tincture
from ellwand.model.others import KINDS
from ellwand.publish.garment_json import garment_json
from independent import faults
from sweep import garment_at, made, reason

GARMENTS = 100
NO_ROOM = {
    "garment.charges: the front has no room for",
    "garment.charges: the back has no room for",
    "garment.charges: on the",
    "garment.charges: some of the",
    "garment.charges: nothing is left of the",
}


def charges(dice: random.Random) -> list[dict[str, Any]]:
    out: list[dict[str, Any]] = []
    for _ in range(dice.randint(1, 3)):
        charge: dict[str, Any] = {
            "tincture": dice.choice(get_args(Tincture)),
            "on": dice.choice(["front", "back", "both"]),
        }
        if dice.random() < 0.6:
            charge["ordinary"] = dice.choice(get_args(Ordinary))
            if dice.random() < 0.5:
                charge["width"] = round(dice.uniform(0.05, 0.5), 2)
        else:
            charge["motif"] = dice.choice(PLAIN_CHARGES)
            charge["place"] = dice.choice(get_args(FieldPoint))
            charge["number"] = dice.choice([1, 1, 2, 3, 4, 5, 6])
            if dice.random() < 0.3:
                charge["size"] = round(dice.uniform(0.05, 0.2), 2)
        out.append(charge)
    return out


def charged_garments() -> Iterator[tuple[Garment | None, CannotDraft | None]]:
    """Garments of the sweep that can be made, with charges; what is refused for its charges comes with its reason."""
    found, i = 0, 0
    while found < GARMENTS:
        tables, person = garment_at(1405, i)
        i += 1
        garment_table = tables["garment"]
        if garment_table.get("style") in KINDS:
            continue
        dice = random.Random(f"charges {i}")
        garment_table.pop("division", None)
        if dice.random() < 0.3:
            two = dice.sample(get_args(Tincture), 2)
            garment_table["division"] = {"by": dice.choice(["per pale", "per fess", "quarterly"]), "tinctures": two}
        garment_table["charges"] = charges(dice)
        try:
            garment = made(tables, person)
        except CannotDraft as error:
            if error.where.startswith("garment.charges"):
                found += 1
                yield None, error
            continue
        found += 1
        yield garment, None


def test_charged_garments_are_sound_and_all_of_each_charge_is_cut() -> None:
    refused: Counter[str] = Counter()
    for garment, error in charged_garments():
        if garment is None:
            assert error is not None
            refused[reason(error)] += 1
            continue
        doc = json.loads(garment_json(garment))
        assert faults(doc) == []
        told = [part for charge in doc["charges"] for part in charge["parts"]]
        pieces = {piece["id"]: piece for piece in doc["pieces"]}
        cut = {part["id"]: pieces[part["piece"]] for part in doc["applied"]}
        assert len(told) == len(set(told)) and set(told) <= set(cut)
        for charge in doc["charges"]:
            for region, part in zip(charge["regions"], charge["parts"], strict=True):
                piece = cut[part]
                shown = Polygon(region["ring"], region["holes"]).area
                sewn = Polygon(piece["sewn"], piece["sewn_holes"]).area
                assert shown == pytest.approx(sewn, rel=1e-3)
                assert piece["kind"] == "applied"
                assert piece["tincture"] == charge["tincture"]
        counts = Counter(cut[part]["id"] for part in told)
        assert all(pieces[name]["count"] == n for name, n in counts.items())
        _within(garment)
    assert all(any(why.startswith(known) for known in NO_ROOM) for why in refused), refused
    assert refused.total() < GARMENTS / 4, refused


def _within(garment: Garment) -> None:
    """No charge leaves the front or back, lies in the hem, or overlaps another of its own shapes."""
    size = garment.draft.dimensions
    half, top = size.panel_width / 2, size.length
    for charge in garment.draft.adornment.charges:
        shapes = [Polygon(region.ring, region.holes) for region in charge.regions]
        assert all(shape.is_valid for shape in shapes)
        x0, y0, x1, y1 = unary_union(shapes).bounds
        assert -half - 1e-6 <= x0 and x1 <= half + 1e-6 and y1 <= top + 1e-6
        assert y0 >= garment.choices.sewing.hem + 1 - 1e-6
        assert sum(shape.area for shape in shapes) == pytest.approx(unary_union(shapes).area, rel=1e-6)
