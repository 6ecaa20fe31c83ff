"""hang.glb and hang.png: the garment as it hangs, for viewers of things in space and to be looked at."""

from __future__ import annotations

from ellwand.depict.hang import pictures, surfaces
from ellwand.model.garment import Garment
from ellwand.model.mesh import Hang
from ellwand.publish.glb import Solid, glb
from ellwand.publish.png import png


def hang_png(garment: Garment, hung: Hang) -> bytes:
    """The three views."""
    return png(pictures(garment, hung))


def hang_glb(garment: Garment, hung: Hang) -> bytes:
    """The form and the garment on it, in metres."""
    *form, cloth = surfaces(garment, hung)
    solids = [Solid(f"form {n}", each.points, each.corners, each.normal, each.colour) for n, each in enumerate(form, 1)]
    return glb([*solids, Solid("garment", cloth.points, cloth.corners, cloth.normal, cloth.colour)])
