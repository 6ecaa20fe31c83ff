"""The garment as it hangs: hang.png and hang-turn.png to be looked at, hang.glb for viewers of things in space, and
hang.csv for its hem."""

from __future__ import annotations

from ellwand.depict.hang import pictures, surfaces, turning
from ellwand.model.garment import Garment
from ellwand.model.mesh import Hang
from ellwand.publish.glb import Solid, glb
from ellwand.publish.png import moving_png, png
from ellwand.units import CM_PER


def hang_png(garment: Garment, hung: Hang) -> bytes:
    """The three views."""
    return png(pictures(garment, hung))


def hang_turn_png(garment: Garment, hung: Hang) -> bytes:
    """Once round, in about five seconds."""
    return moving_png(turning(garment, hung), 200)


def hang_csv(garment: Garment, hung: Hang) -> str:
    """The hem all round as it hangs, and what is to be trimmed off it to be level; in the wearer's unit."""
    unit = garment.wearer.unit
    hem = hung.readings.hem
    lowest = max(hem.heights, default=0.0)
    rows = ["degrees_from_front,above_floor,trim,unit"]
    for way, height in zip(hem.directions, hem.heights, strict=True):
        at, off = (f"{cm / CM_PER[unit]:.1f}" for cm in (height, lowest - height))
        rows.append(f"{way:g},{at},{off},{unit}")
    return "\n".join(rows) + "\n"


def hang_glb(garment: Garment, hung: Hang) -> bytes:
    """The form and the garment on it, in metres."""
    *form, cloth = surfaces(garment, hung)
    solids = [Solid(f"form {n}", each.points, each.corners, each.normal, each.colour) for n, each in enumerate(form, 1)]
    return glb([*solids, Solid("garment", cloth.points, cloth.corners, cloth.normal, cloth.colour)])
