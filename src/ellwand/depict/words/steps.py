"""Sewing steps in words: a sentence or two for someone who has never sewn this garment."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from ellwand.depict.words.edge_steps import EDGE_STEPS
from ellwand.depict.words.necks import neck, neck_slit, shoulders, slit_in_seam
from ellwand.depict.words.sleeve_steps import SLEEVE_STEPS
from ellwand.depict.words.step_asking import FINISH, Say, edges_of, folds, lengths, opening_at, seams_of
from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, piece_of
from ellwand.model.step import Step
from ellwand.units import Unit, format_length


def step(step: Step, draft: Draft, unit: Unit) -> str:
    """What to do in this step, in the maker's unit.

    Raises KeyError for a step without words.
    """
    return _WORDS[step.code](step, draft, unit)


def _mark(step: Step, draft: Draft, unit: Unit) -> str:
    slits = any(not edge.allowance for kind in ("gore seam", "split", "neck slit") for _, edge in edges_of(draft, kind))
    stay = " Before you cut a slit, stitch round its point to hold it." if slits else ""
    return (
        "Chalk the sewing lines, the centre and the shoulder line; mark where seams meet and where gores come to a"
        f" point.{stay} {FINISH[draft.choices.sewing.finish]}"
    )


def _neck_slit(step: Step, draft: Draft, unit: Unit) -> str:
    return neck_slit(draft, unit)


def _piecing(step: Step, draft: Draft, unit: Unit) -> str:
    names = dict.fromkeys(piece_of(draft, seam.b.part).name for seam in seams_of(step, draft))
    return (
        f"Sew what was pieced to its own piece{lengths(step, draft, unit)}: {', '.join(names)}. From here on each is"
        f" handled as one.{folds(draft, 'one side')}"
    )


def _halves(step: Step, draft: Draft, unit: Unit) -> str:
    edges = {ref.edge for seam in seams_of(step, draft) for ref in (seam.a, seam.b)}
    if all(edge.startswith("straight") for edge in edges):
        what = "Sew the half gores together in pairs along their straight edges"
    else:
        what = "Sew the gores that lie side by side to each other, from the hem to the point"
    return f"{what}{lengths(step, draft, unit)}.{folds(draft, 'one side')}"


def _slit_gores(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Let the gores into their slits{lengths(step, draft, unit)}: start at the hem, stop at the point, the"
        f" panel's allowance narrowing to nothing there.{folds(draft, 'the panel')} Work a bar over the"
        " point; it takes all the strain."
    )


def _gores(step: Step, draft: Draft, unit: Unit) -> str:
    blunt = any(ref.edge.endswith("slot") for seam in seams_of(step, draft) for ref in (seam.a, seam.b))
    across = " Clip the panels into the corners of a blunt gore's slot and sew its top across." if blunt else ""
    return (
        f"Sew the gores to their panels{lengths(step, draft, unit)}: start at the hem, stop at the point. Do not pull"
        f" the slanting edge; it stretches.{across}{folds(draft, 'the panel')}"
    )


def _centre(step: Step, draft: Draft, unit: Unit) -> str:
    choices = draft.choices
    places = [gore.place for gore in choices.gores] + [split.place for split in choices.splits]
    above = " above the gores and splits" if any("centre" in place for place in places) else ""
    stop = " Leave the neck slit open at the top." if slit_in_seam(draft) else ""
    for face in ("front", "back"):
        if opened := opening_at(draft, f"centre-{face}"):
            cm = format_length(length(opened[0].points), unit)
            stop += f" Leave {cm} of the centre {face} open below the neck."
    return f"Close the centre seams{above}{lengths(step, draft, unit)}.{stop}{folds(draft, 'one side')}"


def _side_panels(step: Step, draft: Draft, unit: Unit) -> str:
    whole = any(part.id == "side-panel-left" for part in draft.parts)
    to = "the front and the back"
    if whole:
        to = "the back" if step.code == "side panels to back" else "the front"
    return (
        f"Sew the side panels to {to}, from the armpit down{lengths(step, draft, unit)}."
        f"{folds(draft, 'the side panel')}"
    )


def _shoulders(step: Step, draft: Draft, unit: Unit) -> str:
    opened = shoulders(draft, unit)
    return f"Sew the shoulder seams{lengths(step, draft, unit)}.{opened}{folds(draft, 'the back')}"


def _neck(step: Step, draft: Draft, unit: Unit) -> str:
    return neck(draft, unit)


_WORDS: Final[Mapping[str, Say]] = MappingProxyType(
    {
        "mark": _mark,
        "neck slit": _neck_slit,
        "piecing": _piecing,
        "halves": _halves,
        "gores in slits": _slit_gores,
        "gores": _gores,
        "centre seams": _centre,
        "side panels": _side_panels,
        "side panels to back": _side_panels,
        "shoulders": _shoulders,
        "neck": _neck,
        **SLEEVE_STEPS,
        **EDGE_STEPS,
    }
)
