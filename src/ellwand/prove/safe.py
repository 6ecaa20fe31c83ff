"""Cautions that the choices call for.  Local rules come first; these are the usual ones."""

from __future__ import annotations

from typing import Final

from ellwand.model.draft import Draft
from ellwand.model.finding import Caution
from ellwand.model.wearer import Wearer
from ellwand.prove.sewn import Sewn, hem_height, opens_in_front, sewn_up, splits_of

CORDS: Final = frozenset({"ties", "lacing"})
SMALL_PARTS: Final = frozenset({"buttons", "hooks", "pins"})
YOUNG_HEIGHT: Final = 134.0
YOUNG_AGE: Final = 7.0
"""Young children by EN 14682: to seven years, or 134 cm tall."""
CORD_AGE: Final = 14.0
"""EN 14682 covers children below fourteen."""
SMALL_PARTS_AGE: Final = 3.0
"""Small parts are kept from children under 36 months (toy safety rules; from memory)."""
WIDE_CUFF: Final = 45.0
"""A sleeve this wide at its end (cm) swings into things: common practice, no source."""
NEAR_GROUND: Final = 10.0
"""A hem lower than this (cm) is trodden on: common practice, no source."""
BELOW_KNEE: Final = 5.0
"""A hem this far below the knee (cm) closes round a rider's legs: common practice, no source."""


def cautions(draft: Draft, wearer: Wearer) -> tuple[Caution, ...]:
    """What to beware of with this garment on this wearer."""
    sewn = sewn_up(draft, wearer)
    return (*_for_children(sewn), *_for_all(sewn))


def _for_children(sewn: Sewn) -> list[Caution]:
    wearer, closures = sewn.wearer, sewn.draft.choices.closures
    age = wearer.age
    if not wearer.is_child and (age is None or age >= CORD_AGE):
        return []
    young = wearer["height"] <= YOUNG_HEIGHT if age is None else age < YOUNG_AGE
    out = []
    corded = {closure.at for closure in closures if closure.by in CORDS}
    if corded & {"neck slit", "centre-front"}:
        out.append(Caution("child-neck-cord" if young else "child-neck-ends"))
    if corded & {"side", "centre-front"}:
        out.append(Caution("child-body-cord"))
    small = sorted({closure.by for closure in closures if closure.by in SMALL_PARTS})
    if age is not None and age < SMALL_PARTS_AGE and small:
        out.append(Caution("small-parts", {"what": " and ".join(small)}))
    return out


def _for_all(sewn: Sewn) -> list[Caution]:
    choices, size, wearer = sewn.draft.choices, sewn.draft.dimensions, sewn.wearer
    out = []
    hem = hem_height(sewn)
    if choices.sleeve.shape != "none" and (choices.sleeve.shape == "wide" or size.cuff >= WIDE_CUFF):
        out.append(Caution("wide-sleeve", {"cuff": size.cuff}))
    if hem < NEAR_GROUND:
        out.append(Caution("low-hem" if hem >= 0 else "trailing-hem", {"hem": abs(hem)}))
    split = max(splits_of(sewn).values(), default=0.0)
    closed = not opens_in_front(sewn) and split < size.levels["crotch"]
    if hem < wearer["knee_to_floor"] - BELOW_KNEE and closed:
        out.append(Caution("riding", {"hem": hem}))
    if choices.gores or choices.body.flare:
        out.append(Caution("bias-hangs"))
    if any(closure.by == "pins" for closure in choices.closures):
        out.append(Caution("pins"))
    return out
