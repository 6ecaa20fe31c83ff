"""Cautions that the choices call for.  Local rules come first; these are the usual ones."""

from __future__ import annotations

from typing import Final

from ellwand.model.draft import Draft
from ellwand.model.finding import Caution
from ellwand.model.wearer import Wearer
from ellwand.prove.others import beware
from ellwand.prove.riding import covers_knees, open_astride, wide_astride
from ellwand.prove.sewn import Sewn, hem_height, sewn_up

CORDS: Final = frozenset({"ties", "lacing"})
SMALL_PARTS: Final = {"buttons": "buttons", "hooks": "hooks", "loops": "toggles", "pins": "pins"}
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


def cautions(draft: Draft, wearer: Wearer) -> tuple[Caution, ...]:
    """What to beware of with this garment on this wearer."""
    sewn = sewn_up(draft, wearer)
    if draft.choices.other is not None:
        return beware(sewn)
    return (*_for_children(sewn), *_for_all(sewn))


def _for_children(sewn: Sewn) -> list[Caution]:
    wearer, closures = sewn.wearer, sewn.draft.choices.closures
    age = wearer.age
    if not wearer.is_child and (age is None or age >= CORD_AGE):
        return []
    young = wearer["height"] <= YOUNG_HEIGHT if age is None else age < YOUNG_AGE
    out = [Caution("child-needles")]
    corded = {closure.at for closure in closures if closure.by in CORDS}
    if corded & {"neck slit", "centre-front", "centre-back"}:
        out.append(Caution("child-neck-cord" if young else "child-neck-ends"))
    if corded & {"side", "centre-front"}:
        out.append(Caution("child-body-cord"))
    if "centre-back" in corded:
        out.append(Caution("child-back-cord"))
    small = sorted({SMALL_PARTS[closure.by] for closure in closures if closure.by in SMALL_PARTS})
    if age is not None and age < SMALL_PARTS_AGE and small:
        out.append(Caution("small-parts", {"what": " and ".join(small)}))
    return out


def _for_all(sewn: Sewn) -> list[Caution]:
    choices, size = sewn.draft.choices, sewn.draft.dimensions
    out = []
    hem = hem_height(sewn)
    if choices.sleeve.shape != "none" and (choices.sleeve.shape == "wide" or size.cuff >= WIDE_CUFF):
        out.append(Caution("wide-sleeve", {"cuff": size.cuff}))
    lowest = hem - size.back_dip
    if lowest < NEAR_GROUND:
        out.append(Caution("low-hem" if lowest >= 0 else "trailing-hem", {"hem": abs(lowest)}))
    if choices.blouse:
        out.append(Caution("bloused", {"blouse": choices.blouse}))
    if covers_knees(sewn) and not open_astride(sewn):
        out.append(Caution("riding-closed" if wide_astride(sewn) else "riding", {"hem": hem}))
    if choices.gores or choices.body.flare:
        out.append(Caution("bias-hangs"))
    if any(closure.by == "pins" for closure in choices.closures):
        out.append(Caution("pins"))
    return out
