"""Motifs of our own drawing, made from geometry in any size."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from ellwand.adorn.motifs import leaves, plain
from ellwand.adorn.motifs.shapes import Shape, rings_of
from ellwand.errors import BadInput
from ellwand.geometry.lines import Line
from ellwand.language import _
from ellwand.model.motif import Motif, motif_of

__all__ = ["OWN", "Own", "corner_for", "motif"]


@dataclass(frozen=True, slots=True)
class Own:
    """One of our motifs; ``joins``: it runs on into its neighbour, so that no gap is usual; ``corner``: the motif
    that stands at a corner between two rows of it, '' where it stands there itself."""

    draw: Callable[[], list[Shape]]
    joins: bool = False
    corner: str = ""


OWN: Final[Mapping[str, Own]] = {
    "roundel": Own(plain.roundel),
    "lozenge": Own(plain.lozenge),
    "chevron": Own(plain.chevron, joins=True, corner="lozenge"),
    "key": Own(plain.key, joins=True, corner="key corner"),
    "vine-scroll": Own(leaves.vine_scroll, joins=True, corner="leaf corner"),
    "knot": Own(plain.knot),
    "fleuron": Own(leaves.fleuron, corner="leaf corner"),
    "saltire": Own(plain.saltire),
    "pellets": Own(plain.pellets, corner="pellet"),
    "key corner": Own(plain.key_corner),
    "leaf corner": Own(leaves.leaf_corner),
    "pellet": Own(plain.pellet),
}
"""By name; the last ones are meant for corners."""


@cache
def _rings(name: str) -> tuple[tuple[Line, tuple[Line, ...]], ...]:
    return rings_of(OWN[name].draw())


def motif(name: str, size: float) -> Motif:
    """One of our motifs, ``size`` cm wide.

    Raises BadInput for a name that is none of them.
    """
    if name not in OWN:
        raise BadInput(
            "", _("{name!r} is none of our motifs", name=name), _("choose one of {names}", names=", ".join(OWN))
        )
    return motif_of(name, _rings(name), size)


def corner_for(name: str, height: float) -> Motif | None:
    """What stands at a corner between two rows of a motif of ours, as high as those rows (cm); None for itself."""
    if name not in OWN or not OWN[name].corner:
        return None
    corner = motif(OWN[name].corner, height)
    return motif(OWN[name].corner, height * min(1.0, height / corner.size[1]))
