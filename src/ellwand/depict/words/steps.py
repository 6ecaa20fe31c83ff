"""Sewing steps in words: a sentence or two for someone who has never sewn this garment."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from ellwand.depict.words.edge_steps import EDGE_STEPS
from ellwand.depict.words.necks import collar, neck, neck_slit, shoulders, slit_in_seam
from ellwand.depict.words.sleeve_steps import SLEEVE_STEPS
from ellwand.depict.words.step_asking import (
    Say,
    bars,
    edges_of,
    faces,
    finishing,
    folds,
    joined,
    lengths,
    opening_at,
    piecing,
    seams_of,
    selvedges,
    taken_in,
)
from ellwand.depict.words.trim_steps import TRIM_STEPS
from ellwand.geometry.lines import length
from ellwand.language import N_, _
from ellwand.model.draft import Draft, whole_part
from ellwand.model.step import Step
from ellwand.units import Unit, format_length


def step(step: Step, draft: Draft, unit: Unit) -> str:
    """What to do in this step, in the maker's unit.

    Raises KeyError for a step without words.
    """
    return _WORDS[step.code](step, draft, unit)


def _mark(step: Step, draft: Draft, unit: Unit) -> str:
    slits = any(
        not edge.allowance for kind in ("gore seam", "split", "neck slit") for _ref, edge in edges_of(draft, kind)
    )
    return joined(
        _(
            "Chalk the sewing lines, the centre and the shoulder line; mark where seams meet and where gores come to a"
            " point."
        ),
        _("Before you cut a slit, stitch round its point to hold it.") if slits else "",
        finishing(draft.choices.sewing.finish),
        selvedges(step),
    )


def _halves(step: Step, draft: Draft, unit: Unit) -> str:
    edges = {ref.edge for seam in seams_of(step, draft) for ref in (seam.a, seam.b)}
    if all(edge.startswith("straight") for edge in edges):
        what = N_("{faces}, sew the half gores to each other in pairs along their straight edges{lengths}.")
    else:
        what = N_("{faces}, sew the gores that lie side by side to each other, from the hem to the point{lengths}.")
    return joined(_(what, faces=faces(draft), lengths=lengths(step, draft, unit)), folds(step, draft))


def _slit_gores(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "{faces}, sew each gore into its slit, one side after the other{lengths}: start at the hem, stop at the"
            " point, the panel's allowance narrowing to nothing there. Work a bar over the point; it takes all the"
            " strain.",
            faces=faces(draft),
            lengths=lengths(step, draft, unit),
        ),
        folds(step, draft),
    )


def _gores(step: Step, draft: Draft, unit: Unit) -> str:
    blunt = any(ref.edge.endswith("slot") for seam in seams_of(step, draft) for ref in (seam.a, seam.b))
    refs = [ref for seam in seams_of(step, draft) for ref in (seam.a, seam.b)]
    gores = {whole_part(ref.part) for ref in refs if ref.part.startswith("gore")}
    to_come = [seam for seam in draft.seams if seam.kind == "gore to panel" and seam.id not in step.seams]
    one_sided = gores & {whole_part(ref.part) for seam in to_come for ref in (seam.a, seam.b)}
    what, rest = N_("{faces}, sew the gores to their panels{lengths}: start at the hem, stop at the point."), ""
    if one_sided == gores:
        what = N_("{faces}, sew one edge of each gore to its panel{lengths}: start at the hem, stop at the point.")
        rest = _("Its other edge follows when that side is closed.")
    elif one_sided:
        rest = _("Of those at the sides sew one edge only; the other follows when that side is closed.")
    return joined(
        _(what, faces=faces(draft), lengths=lengths(step, draft, unit)),
        _("Do not pull the slanting edge; it stretches."),
        rest,
        _("Clip the panels into the corners of a blunt gore's slot and sew its top across.") if blunt else "",
        bars(step, _("Work a bar over each corner.") if blunt else _("Work a bar over each point.")),
        folds(step, draft),
    )


_CENTRES: Final[Mapping[tuple[str, ...], str]] = MappingProxyType(
    {
        ("front",): N_("{faces}, sew the halves of the front to each other along the centre{lengths}."),
        ("back",): N_("{faces}, sew the halves of the back to each other along the centre{lengths}."),
        ("front", "back"): N_(
            "{faces}, sew the halves of the front and of the back to each other along the centre{lengths}."
        ),
    }
)
_CENTRES_ABOVE: Final[Mapping[tuple[str, ...], str]] = MappingProxyType(
    {
        ("front",): N_(
            "{faces}, sew the halves of the front to each other along the centre above the gores and splits{lengths}."
        ),
        ("back",): N_(
            "{faces}, sew the halves of the back to each other along the centre above the gores and splits{lengths}."
        ),
        ("front", "back"): N_(
            "{faces}, sew the halves of the front and of the back to each other along the centre above the gores and"
            " splits{lengths}."
        ),
    }
)
_OPEN_CENTRE: Final[Mapping[str, str]] = MappingProxyType(
    {
        "front": N_("Leave {length} of the centre front open below the neck."),
        "back": N_("Leave {length} of the centre back open below the neck."),
    }
)


def _centre(step: Step, draft: Draft, unit: Unit) -> str:
    choices = draft.choices
    places = [gore.place for gore in choices.gores] + [split.place for split in choices.splits]
    above = any("centre" in place for place in places)
    stops = [_("Leave the neck slit open at the top.")] if slit_in_seam(draft) else []
    for face, words in _OPEN_CENTRE.items():
        if opened := opening_at(draft, f"centre-{face}"):
            stops.append(_(words, length=format_length(length(opened[0].points), unit)))
    sewn = " ".join(f"{ref.part} {ref.edge}" for seam in seams_of(step, draft) for ref in (seam.a, seam.b))
    of = tuple(face for face in ("front", "back") if face in sewn)
    return joined(
        _((_CENTRES_ABOVE if above else _CENTRES)[of], faces=faces(draft), lengths=lengths(step, draft, unit)),
        *stops,
        bars(step, _("Work a bar over the points of the gores.")),
        folds(step, draft),
    )


def _side_panels(step: Step, draft: Draft, unit: Unit) -> str:
    words = N_("{faces}, sew the side panels to the front and the back, from the armpit down{lengths}.")
    if any(whole_part(part.id) == "side-panel-left" for part in draft.parts):
        words = N_("{faces}, sew the side panels to the front, from the armpit down{lengths}.")
        if step.code == "side panels to back":
            words = N_("{faces}, sew the side panels to the back, from the armpit down{lengths}.")
    return joined(
        _(words, faces=faces(draft), lengths=lengths(step, draft, unit)),
        taken_in(step, draft),
        bars(step, _("Work a bar over the point of each gore.")),
        folds(step, draft),
    )


def _shoulders(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "{faces}, sew the front to the back along the shoulders{lengths}.",
            faces=faces(draft),
            lengths=lengths(step, draft, unit),
        ),
        shoulders(draft, unit),
        folds(step, draft),
    )


_WORDS: Final[Mapping[str, Say]] = MappingProxyType(
    {
        "mark": _mark,
        "neck slit": neck_slit,
        "piecing": piecing,
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
