"""Sewing steps in words: a sentence or two for someone who has never sewn this garment."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from ellwand.depict.words.edge_steps import EDGE_STEPS
from ellwand.depict.words.necks import collar, neck, neck_slit, shoulders, slit_in_seam
from ellwand.depict.words.sleeve_steps import SLEEVE_STEPS
from ellwand.depict.words.step_asking import (
    FINISH,
    Say,
    bars,
    edges_of,
    faces,
    folds,
    lengths,
    opening_at,
    seams_of,
    selvedges,
    taken_in,
)
from ellwand.depict.words.trim_steps import TRIM_STEPS
from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, piece_of, whole_part
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
        f" point.{stay} {FINISH[draft.choices.sewing.finish]}{selvedges(step)}"
    )


def _piecing(step: Step, draft: Draft, unit: Unit) -> str:
    names = dict.fromkeys(piece_of(draft, seam.b.part).name for seam in seams_of(step, draft))
    return (
        f"{faces(draft)}, sew what was pieced to its own piece{lengths(step, draft, unit)}: {'; '.join(names)}. From"
        f" here on each is handled as one.{folds(step, draft)}"
    )


def _halves(step: Step, draft: Draft, unit: Unit) -> str:
    edges = {ref.edge for seam in seams_of(step, draft) for ref in (seam.a, seam.b)}
    if all(edge.startswith("straight") for edge in edges):
        what = "sew the half gores to each other in pairs along their straight edges"
    else:
        what = "sew the gores that lie side by side to each other, from the hem to the point"
    return f"{faces(draft)}, {what}{lengths(step, draft, unit)}.{folds(step, draft)}"


def _slit_gores(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"{faces(draft)}, sew each gore into its slit, one side after the other{lengths(step, draft, unit)}: start at"
        " the hem, stop at the point, the panel's allowance narrowing to nothing there. Work a bar over the point; it"
        f" takes all the strain.{folds(step, draft)}"
    )


def _gores(step: Step, draft: Draft, unit: Unit) -> str:
    blunt = any(ref.edge.endswith("slot") for seam in seams_of(step, draft) for ref in (seam.a, seam.b))
    across = " Clip the panels into the corners of a blunt gore's slot and sew its top across." if blunt else ""
    refs = [ref for seam in seams_of(step, draft) for ref in (seam.a, seam.b)]
    gores = {whole_part(ref.part) for ref in refs if ref.part.startswith("gore")}
    to_come = [seam for seam in draft.seams if seam.kind == "gore to panel" and seam.id not in step.seams]
    one_sided = gores & {whole_part(ref.part) for seam in to_come for ref in (seam.a, seam.b)}
    what, rest = "the gores to their panels", ""
    if one_sided == gores:
        what, rest = "one edge of each gore to its panel", " Its other edge follows when that side is closed."
    elif one_sided:
        rest = " Of those at the sides sew one edge only; the other follows when that side is closed."
    return (
        f"{faces(draft)}, sew {what}{lengths(step, draft, unit)}: start at the hem, stop at the"
        f" point. Do not pull the slanting edge; it stretches.{rest}{across}"
        f"{bars(step, 'each corner' if blunt else 'each point')}{folds(step, draft)}"
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
    sewn = " ".join(f"{ref.part} {ref.edge}" for seam in seams_of(step, draft) for ref in (seam.a, seam.b))
    of = " and of the ".join(face for face in ("front", "back") if face in sewn)
    return (
        f"{faces(draft)}, sew the halves of the {of} to each other along the centre{above}"
        f"{lengths(step, draft, unit)}.{stop}{bars(step, 'the points of the gores')}{folds(step, draft)}"
    )


def _side_panels(step: Step, draft: Draft, unit: Unit) -> str:
    whole = any(whole_part(part.id) == "side-panel-left" for part in draft.parts)
    to = "the front and the back"
    if whole:
        to = "the back" if step.code == "side panels to back" else "the front"
    return (
        f"{faces(draft)}, sew the side panels to {to}, from the armpit down{lengths(step, draft, unit)}."
        f"{taken_in(step, draft)}"
        f"{bars(step, 'the point of each gore')}{folds(step, draft)}"
    )


def _shoulders(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"{faces(draft)}, sew the front to the back along the shoulders{lengths(step, draft, unit)}."
        f"{shoulders(draft, unit)}{folds(step, draft)}"
    )


_WORDS: Final[Mapping[str, Say]] = MappingProxyType(
    {
        "mark": _mark,
        "neck slit": neck_slit,
        "piecing": _piecing,
        "halves": _halves,
        "gores in slits": _slit_gores,
        "gores": _gores,
        "centre seams": _centre,
        "side panels": _side_panels,
        "side panels to back": _side_panels,
        "shoulders": _shoulders,
        "neck": neck,
        "collar": collar,
        **SLEEVE_STEPS,
        **EDGE_STEPS,
        **TRIM_STEPS,
    }
)
