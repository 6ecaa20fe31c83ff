"""The whole proof of one garment, stage by stage."""

from __future__ import annotations

from ellwand.model.draft import Draft
from ellwand.model.finding import Girth
from ellwand.model.garment import Proof
from ellwand.model.wearer import Wearer
from ellwand.prove.allowance import enough_to_finish
from ellwand.prove.assembles import assembles
from ellwand.prove.body import body_girth_at
from ellwand.prove.fits import LEVELS, biceps, fits, reached
from ellwand.prove.goes_on import goes_on
from ellwand.prove.holds import holds
from ellwand.prove.moves import moves
from ellwand.prove.noted import noted
from ellwand.prove.others import wears_well
from ellwand.prove.riding import riding
from ellwand.prove.sewn import Sewn, girth_at, hem_height, sewn_up
from ellwand.prove.sitting import sitting


def prove(draft: Draft, wearer: Wearer) -> Proof:
    """Does it assemble, go on, fit, move and hold, on this wearer?

    Raises InternalFault when a seam names an edge that no part has.
    """
    sewn = sewn_up(draft, wearer)
    if draft.choices.other is not None:
        return Proof(sewn.shell, (), (*assembles(sewn), *wears_well(sewn), *enough_to_finish(draft), *noted(draft)))
    findings = (
        *assembles(sewn),
        *goes_on(sewn),
        *fits(sewn),
        *moves(sewn),
        *sitting(sewn),
        *riding(sewn),
        *holds(sewn),
        *enough_to_finish(draft),
        *noted(draft),
    )
    return Proof(sewn.shell, _girths(sewn), findings)


def _girths(sewn: Sewn) -> tuple[Girth, ...]:
    """The shell against the body at every level it reaches, then the sleeve at the upper arm."""
    low = hem_height(sewn)
    rows = []
    for at in (*LEVELS, "hem"):
        level = 0.0 if at == "hem" else reached(sewn, at)
        if level is None:
            continue
        garment = girth_at(sewn, level)
        body = sewn.wearer[f"{at}_girth"] if at != "hem" else body_girth_at(sewn.wearer, low)
        rows.append(Girth(at, low + level, garment, body, garment - body))
    arm = biceps(sewn)
    if arm is not None:
        down, width = arm
        body = sewn.wearer["upper_arm_girth"]
        # the height of the arm when it hangs: the shoulder point taken at the nape's height
        rows.append(Girth("biceps", sewn.wearer["nape_to_floor"] - down, width, body, width - body))
    return tuple(rows)
