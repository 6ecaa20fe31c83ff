"""Garments that the proof is tried on: every cut, neck, sleeve, gore place, split and closure at least once."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from ellwand.draft import draft, draft_to_grow, pieced_to_fit
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
    return (*out[:count], *growing_sample(), *body_sample(), *sleeve_sample(), *opened_sample())


CHILD: Mapping[str, Any] = {"name": "Wat", "sex": "male", "age": 8, "height": 128, "head_girth": 53}


def sleeve_sample() -> Iterator[tuple[Draft, Wearer]]:
    """Sleeves in halves, with their seam behind the arm, shaped, dropped, gored, and every kind of gusset."""
    for cut, sleeve in itertools.product(
        ("wide panels", "shoulder panels"),
        (
            {"pieces": "two", "gusset_shape": "triangles"},
            {"seam": "back", "gusset": "none", "elbow_gore": 8},
            {"seam": "back", "gusset": "none", "pieces": "two"},
            {"head": "shaped", "head_ease": 2},
            {"shape": "wide", "drop": 15, "gusset_shape": "diamond"},
            {"shape": "fitted forearm", "elbow_gore": 8},
            {"shape": "wide", "pieces": "two", "drop": 15},
        ),
    ):
        yield drafted({"body": {"cut": cut, "shoulder": "seam"}, "sleeve": sleeve})


def opened_sample() -> Iterator[tuple[Draft, Wearer]]:
    """Centres that open from the neck down to every level, alone and into a split."""
    for at, to, splits in itertools.product(("centre-front", "centre-back"), ("waist", "hip", "hem"), (False, True)):
        split = [{"place": at, "height": "hip"}] if splits else []
        yield drafted({"length": "ankle", "closures": [{"at": at, "to": to}], "splits": split})


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


BODIES: tuple[Mapping[str, Any], ...] = (
    {
        "gores": [{"place": "side", "start": 40, "base": 30}, {"place": "side", "start": "waist", "base": 40}],
        "body": {"back_longer": 8},
        "blouse": 6,
    },
    {
        "gores": [
            {"place": "centre-front", "start": "hip", "base": 50, "top": 6},
            {"place": "centre-back", "start": "hip", "base": 50, "hem": "straight"},
        ],
        "body": {"centre_seam": "both", "shoulder": "seam", "shoulder_slope": 3},
    },
    {"gores": [{"place": "side", "start": "hip", "base": 50, "make": "pieced"}], "length": "floor", "train": 30},
)


def body_sample() -> Iterator[tuple[Draft, Wearer]]:
    """Gores of every kind, longer backs, sloped shoulders; and all of it pieced from a narrow cloth."""
    for garment in BODIES:
        draft, wearer = drafted(garment)
        yield draft, wearer
        yield pieced_to_fit(draft, 40, 120), wearer
