"""The dress form and the field of distances round it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely import Polygon

from bodies import sample
from ellwand.drape.field import field_of, skin
from ellwand.drape.form import form_of, outline, perimeter
from ellwand.drape.touching import distances
from ellwand.measure import estimate, read_raw
from ellwand.model.wearer import Wearer

GIRTHS = {"hip_girth": 2, "belly_girth": 3, "waist_girth": 4, "bust_girth": 5}
"""Where each is among the trunk's sections."""
CHILD = {"age": 5, "height": 110, "bust_girth": 57, "sex": "female"}
LARGE = {"height": 190, "bust_girth": 132, "waist_girth": 126, "hip_girth": 130, "sex": "male"}


def wearers() -> list[Wearer]:
    """A child, a large adult, and real bodies (ANSUR II)."""
    return [estimate(read_raw({"name": "x", **table})) for table in (CHILD, LARGE, *sample(8, 5))]


@pytest.mark.parametrize("number", range(10))
def test_the_form_has_the_wearers_girths(number: int) -> None:
    # measured another way: the length of a polygon of a thousand corners
    wearer = wearers()[number]
    form = form_of(wearer)
    for name, at in GIRTHS.items():
        x, y = outline(form.trunk[at], np.linspace(0, 2 * math.pi, 1001)[:-1])
        assert Polygon(np.column_stack([x, y])).length == pytest.approx(wearer[name], rel=1e-3)
    heights = [section.height for section in form.trunk]
    assert heights == sorted(heights)
    arm = form.arms[0]
    assert 2 * math.pi * arm.radius[2] == pytest.approx(wearer["upper_arm_girth"], rel=1e-3)


def test_a_layer_lies_all_over() -> None:
    wearer = wearers()[2]
    plain, padded = form_of(wearer), form_of(wearer, 1.5)
    assert padded.trunk[4].half == pytest.approx(plain.trunk[4].half + 1.5)
    assert perimeter(padded.trunk[4]) > perimeter(plain.trunk[4]) + 5


def test_the_fields_surface_is_the_forms() -> None:
    form = form_of(wearers()[2])
    field = field_of(form)
    trunk, *limbs = skin(form)
    high = trunk.points[(trunk.points[:, 2] > form.trunk[1].height + 4) & (trunk.points[:, 2] < form.trunk[5].height)]
    away = np.empty(len(high))
    distances(high, field.low, field.cell, field.trunk, away)
    # the grid is 1 cm wide; the surface is met far better than that
    assert np.percentile(np.abs(away), 95) < 0.1
    arm = limbs[0].points[len(limbs[0].points) // 3 : len(limbs[0].points) // 2]
    away = np.empty(len(arm))
    distances(arm, field.low, field.cell, field.away, away)
    assert np.percentile(np.abs(away), 95) < 0.35


def test_both_sides_of_a_form_are_alike() -> None:
    field = field_of(form_of(wearers()[2]))
    assert np.abs(field.away - field.away[::-1]).max() < 1e-9
