"""The lines of a garment that something can go along, by the place's name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from ellwand.adorn.runs import edges
from ellwand.adorn.runs.arms import arm_rings
from ellwand.adorn.runs.lines import centre_line, level_rings
from ellwand.adorn.runs.seams import armhole_seams, seam_runs
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.draft import Dimensions, Draft
from ellwand.model.run import Run
from ellwand.model.surface import Surface, surface_of
from ellwand.units import format_length

RINGS: Final = ("skirt ring", "arm ring", "upper arm ring")
"""Places that need a height: above the hem, above the cuff, below the shoulder point (cm)."""
ONE_A_HAND: Final = frozenset({"cuff", "armhole", "side seam", "shoulder seam", "hem"})
"""Runs that are told apart by the wearer's hand."""
LEAST_UP: Final = 0.5
"""Nearer to the hem than this (cm) a ring is the hem itself: our own figure."""


def runs_at(draft: Draft, at: str, height: float | None = None) -> tuple[Run, ...]:
    """The runs of that place, the wearer's left before the right; ``height`` in cm, for RINGS alone.

    Raises CannotDraft where the garment has no such place, or no ring goes round it there.
    """
    surface = surface_of(draft)
    found = _ring(draft, surface, at, height) if at in RINGS else PLACES[at](draft, surface)
    if not found:
        raise CannotDraft("at", _("this garment has no {at}", at=at), _("choose another place, or leave it out"))
    return _named(found)


def _named(found: list[Run]) -> tuple[Run, ...]:
    """Each run by its place and hand, or its number where several are called alike."""
    names = [
        f"{run.name}, {hand}" if run.name in ONE_A_HAND and (hand := edges.hand_of(run)) else run.name for run in found
    ]
    return tuple(
        replace(run, name=name if names.count(name) == 1 else f"{name} {names[: i + 1].count(name)}")
        for i, (run, name) in enumerate(zip(found, names, strict=True))
    )


def _ring(draft: Draft, surface: Surface, at: str, height: float | None) -> list[Run]:
    size = draft.settled
    if height is None:
        raise CannotDraft("height", _("{at} needs one: how far it lies from the edge", at=at), _("give a height"))
    if not isinstance(size, Dimensions):
        return []
    if at != "skirt ring":
        long = {str(hand): cm for hand, cm in size.sleeve_lengths.items()}
        up, down = (height, None) if at == "arm ring" else (None, height)
        return arm_rings(surface, up, down, long, at) if any(long.values()) else []
    top = size.length - size.shoulder_slope - size.armhole
    if not LEAST_UP <= height < top:
        raise CannotDraft(
            "height",
            _("a ring {height} above the hem does not go round the body", height=format_length(height)),
            _(
                "choose a height from {least} to {most}, which is under the arms",
                least=format_length(LEAST_UP),
                most=format_length(top),
            ),
        )
    return level_rings(surface, height, at)


def _centre(face: str) -> Callable[[Draft, Surface], list[Run]]:
    def found(draft: Draft, surface: Surface) -> list[Run]:
        place = f"centre-{face}"
        if lips := edges.centre_lips(surface, place):
            return lips
        seams = [seam for seam in draft.seams if seam.kind == "centre seam" and seam.a.edge.startswith(place)]
        if seams:
            return seam_runs(surface, f"centre {face}", seams)
        line = centre_line(surface, face) if isinstance(draft.settled, Dimensions) else None
        return [line] if line else []

    return found


def _sides(draft: Draft, surface: Surface) -> list[Run]:
    """The side seams; of panels without one the seams on both sides of the side panel."""
    middle = [seam for seam in draft.seams if seam.kind == "side seam"]
    return seam_runs(surface, "side seam", middle or [seam for seam in draft.seams if seam.kind == "panel seam"])


def _armholes(draft: Draft, surface: Surface) -> list[Run]:
    return edges.bare_armholes(surface) or armhole_seams(surface, draft.seams)


PLACES: Final[Mapping[str, Callable[[Draft, Surface], list[Run]]]] = MappingProxyType(
    {
        "neck": lambda _, surface: edges.necks(surface),
        "cuffs": lambda _, surface: edges.cuffs(surface),
        "hem": lambda _, surface: edges.hems(surface),
        "neck slit": lambda _, surface: edges.neck_slits(surface),
        "splits": lambda _, surface: edges.splits(surface),
        "centre-front": _centre("front"),
        "centre-back": _centre("back"),
        "side seams": _sides,
        "shoulder seams": lambda draft, surface: seam_runs(
            surface, "shoulder seam", [seam for seam in draft.seams if seam.kind == "shoulder"]
        ),
        "armholes": _armholes,
        "gore seams": lambda draft, surface: seam_runs(
            surface, "gore seam", [seam for seam in draft.seams if seam.kind.startswith("gore to")]
        ),
        "face": lambda _, surface: edges.edges_named(surface, frozenset({"face"}), "face"),
        "edges": lambda _, surface: edges.edges_named(surface, frozenset({"edge"}), "edge"),
        "waist": lambda _, surface: edges.edges_named(surface, frozenset({"waist"}), "waist"),
    }
)
"""Every place that needs no height."""
