"""Garments that the proof is tried on: every cut, neck, sleeve, gore place, split and closure at least once."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from ellwand.draft import draft, draft_to_grow
from ellwand.errors import CannotDraft
from ellwand.measure import grown, wearer_from
from ellwand.model.draft import Draft
from ellwand.model.finding import Finding
from ellwand.model.wearer import Wearer
from ellwand.prove import prove
from sheets import sheet

Garment = Mapping[str, Any]
GORES: tuple[tuple[str, ...], ...] = (
    (),
    ("side",),
    ("side", "centre-front", "centre-back"),
    ("panel-front", "panel-back"),
    ("side-front", "side-back"),
)
RANK = {"sound": 0, "look again": 1, "will not work": 2}


def drafted(garment: Garment, wearer: Mapping[str, Any] | None = None) -> tuple[Draft, Wearer]:
    """A draft, without gores unless told (or by a style), and whom it is for (Joan, unless told).

    With room to grow: the body to come.
    """
    read = sheet(garment if "style" in garment else {"gores": [], **garment}, wearer=wearer)
    person, growth = wearer_from(read.wearer), read.choices.growth
    if growth is None:
        return draft(read.choices, person, "main"), person
    later = grown(person, growth.months)
    return draft_to_grow(read.choices, growth, person, later, "main"), later


def found(garment: Garment, wearer: Mapping[str, Any] | None = None) -> dict[str, Finding]:
    """The findings by code and subject."""
    return {f"{each.code}:{each.subject}".rstrip(":"): each for each in prove(*drafted(garment, wearer)).findings}


@cache
def wide_sample(count: int = 160) -> tuple[tuple[Draft, Wearer], ...]:
    """Drafts from all over the choice space, the same every time."""
    axes = itertools.product(
        ("wide panels", "shoulder panels"),
        ("fold", "seam"),
        ("none", "front", "both"),
        ("none", "tapered", "straight", "wide", "fitted forearm"),
        ("round", "keyhole", "rectangle", "boat"),
        ("auto", "left"),
        GORES,
        ((), ("side",), ("centre-front", "centre-back")),
        ((), ("side",), ("centre-front",), ("cuffs",)),
        ("hip", "knee", "floor", 150),
        (0, 4, 14),
    )
    out = []
    for cut, shoulder, seam, sleeve, neck, slit, gores, splits, closures, length, ease in random.Random(7).sample(
        list(axes), count * 3
    ):
        garment = {
            "length": length,
            "body": {"cut": cut, "shoulder": shoulder, "centre_seam": seam, "ease": ease},
            "gores": [{"place": place, "start": "waist", "base": 30, "make": "halves"} for place in gores],
            "sleeve": {"shape": sleeve},
            "neck": {"shape": neck, "slit": slit},
            "splits": [{"place": place, "height": "crotch"} for place in splits],
            "closures": [{"at": at} for at in closures],
        }
        try:
            out.append(drafted(garment))
        except CannotDraft:
            continue
    return (*out[:count], *growing_sample())


CHILD: Mapping[str, Any] = {"name": "Wat", "sex": "male", "age": 8, "height": 128, "head_girth": 53}


def growing_sample() -> Iterator[tuple[Draft, Wearer]]:
    """A child's garments with room to grow, taken up in every way."""
    for cut, by, sleeve in itertools.product(
        ("wide panels", "shoulder panels"), ("deep hem", "tucks"), ("none", "tapered", "fitted forearm")
    ):
        yield drafted(
            {
                "body": {"cut": cut},
                "gores": [{"place": "side", "start": "hip", "base": 30}],
                "sleeve": {"shape": sleeve},
                "growth": {"months": 18, "by": by},
            },
            CHILD,
        )
