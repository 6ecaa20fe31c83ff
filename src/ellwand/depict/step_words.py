"""Sewing steps in words: a sentence or two for someone who has never sewn this garment.

Which side a felled or French seam folds to is common practice, no source, but for the gusset: the allowances of a
Herjolfsnes gown (no. 45) are folded into it.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from typing import Final

from ellwand.depict.closing_words import closing
from ellwand.depict.neck_words import neck, neck_slit, shoulders, slit_in_seam
from ellwand.errors import InternalFault
from ellwand.geometry.lines import length
from ellwand.model.choices import Closure
from ellwand.model.draft import Draft, EdgeRef, Seam, TakenUp, edge_at, piece_of, whole_part
from ellwand.model.piece import Edge
from ellwand.model.step import Step
from ellwand.units import Unit, format_length

Say = Callable[[Step, Draft, Unit], str]

FINISH: Final[Mapping[str, str]] = {
    "plain": "Sew every seam right sides together and press it open.",
    "run and fell": (
        "Sew every seam right sides together, press it to the side named, trim the under allowance by half, fold the"
        " other over it and fell."
    ),
    "french": (
        "Sew every seam wrong sides together, trim, turn and sew again round the edges; press it to the side named."
    ),
    "overcast": "Sew every seam right sides together, press it open and overcast each edge.",
}
CLOSERS: Final[Mapping[str, str]] = {
    "ties": "sew on the ties.",
    "lacing": "work the eyelets and thread the lace.",
    "buttons": "work the buttonholes and sew on the buttons.",
    "loops": "sew on the loops and what they close over.",
    "hooks": "sew on the hooks and eyes.",
    "pins": "close it with a pin when it is worn.",
}


def step(step: Step, draft: Draft, unit: Unit) -> str:
    """What to do in this step, in the maker's unit.

    Raises KeyError for a step without words.
    """
    return _WORDS[step.code](step, draft, unit)


# --- what a sentence asks about the step ----------------------------------------------------------------


def _seams(step: Step, draft: Draft) -> list[Seam]:
    ids = set(step.seams)
    return [seam for seam in draft.seams if seam.id in ids]


def _cm(seam: Seam, draft: Draft) -> float:
    return length(edge_at(draft, seam.a).points)


def _said(each: Iterable[float], unit: Unit) -> str:
    """Lengths, each once, as in ' (46 cm each)' or ' (57 cm and 80 cm)'; nothing when there are many."""
    cms = sorted(each)
    words = list(dict.fromkeys(format_length(cm, unit) for cm in cms))
    if not words or len(words) > 3:
        return ""
    return f" ({' and '.join(words)}{' each' if len(words) == 1 and len(cms) > 1 else ''})"


def _lengths(step: Step, draft: Draft, unit: Unit) -> str:
    """Each seam's length; where a piecing seam or a point meets it on the way, it is still one."""
    whole: dict[tuple[str, ...], float] = defaultdict(float)
    for seam in _seams(step, draft):
        whole[tuple(name for ref in (seam.a, seam.b) for name in _plainly(ref))] += _cm(seam, draft)
    return _said(whole.values(), unit)


def _plainly(ref: EdgeRef) -> tuple[str, str]:
    return whole_part(ref.part), re.sub(r"(-\d+)+$", "", ref.edge)


def _per_sleeve(step: Step, draft: Draft, unit: Unit) -> str:
    """How far each sleeve is sewn here, all its seams together."""
    sums: dict[str, float] = defaultdict(float)
    for seam in _seams(step, draft):
        sleeve = seam.a.part if seam.a.part.startswith("sleeve") else seam.b.part
        # a sleeve in two halves is one sleeve
        sums["-".join(sleeve.split("-")[:2])] += _cm(seam, draft)
    return _said(sums.values(), unit)


def _edges(draft: Draft, kind: str) -> list[tuple[EdgeRef, Edge]]:
    """Every edge of this kind in the whole garment."""
    return [
        (EdgeRef(part.id, edge.id), edge)
        for part in draft.parts
        for edge in piece_of(draft, part.id).edges
        if edge.kind == kind
    ]


def _folds(draft: Draft, toward: str) -> str:
    """Where this seam's allowances go; open seams were told once, at the start."""
    return {"run and fell": f" Fell toward {toward}.", "french": f" Press toward {toward}."}.get(
        draft.choices.sewing.finish, ""
    )


def _always(words: str) -> Say:
    """The same words for every garment."""
    return lambda step, draft, unit: words


def _back_stitch(draft: Draft) -> str:
    """For seams that take the strain."""
    return " in back stitch" if draft.choices.sewing.by == "hand" else ""


# --- the steps ------------------------------------------------------------------------------------------


def _mark(step: Step, draft: Draft, unit: Unit) -> str:
    slits = any(not edge.allowance for kind in ("gore seam", "split", "neck slit") for _, edge in _edges(draft, kind))
    stay = " Before you cut a slit, stitch round its point to hold it." if slits else ""
    return (
        "Chalk the sewing lines, the centre and the shoulder line; mark where seams meet and where gores come to a"
        f" point.{stay} {FINISH[draft.choices.sewing.finish]}"
    )


def _neck_slit(step: Step, draft: Draft, unit: Unit) -> str:
    return neck_slit(draft, unit)


def _piecing(step: Step, draft: Draft, unit: Unit) -> str:
    names = dict.fromkeys(piece_of(draft, seam.b.part).name for seam in _seams(step, draft))
    return (
        f"Sew what was pieced to its own piece{_lengths(step, draft, unit)}: {', '.join(names)}. From here on each is"
        f" handled as one.{_folds(draft, 'one side')}"
    )


def _halves(step: Step, draft: Draft, unit: Unit) -> str:
    edges = {ref.edge for seam in _seams(step, draft) for ref in (seam.a, seam.b)}
    if all(edge.startswith("straight") for edge in edges):
        what = "Sew the half gores together in pairs along their straight edges"
    else:
        what = "Sew the gores that lie side by side to each other, from the hem to the point"
    return f"{what}{_lengths(step, draft, unit)}.{_folds(draft, 'one side')}"


def _slit_gores(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Let the gores into their slits{_lengths(step, draft, unit)}: start at the hem, stop at the point, the"
        f" panel's allowance narrowing to nothing there.{_folds(draft, 'the panel')} Work a bar over the"
        " point; it takes all the strain."
    )


def _gores(step: Step, draft: Draft, unit: Unit) -> str:
    blunt = any(ref.edge.endswith("slot") for seam in _seams(step, draft) for ref in (seam.a, seam.b))
    across = " Clip the panels into the corners of a blunt gore's slot and sew its top across." if blunt else ""
    return (
        f"Sew the gores to their panels{_lengths(step, draft, unit)}: start at the hem, stop at the point. Do not pull"
        f" the slanting edge; it stretches.{across}{_folds(draft, 'the panel')}"
    )


def _centre(step: Step, draft: Draft, unit: Unit) -> str:
    choices = draft.choices
    places = [gore.place for gore in choices.gores] + [split.place for split in choices.splits]
    above = " above the gores and splits" if any("centre" in place for place in places) else ""
    stop = " Leave the neck slit open at the top." if slit_in_seam(draft) else ""
    for face in ("front", "back"):
        if opened := _opening_at(draft, f"centre-{face}"):
            cm = format_length(length(opened[0].points), unit)
            stop += f" Leave {cm} of the centre {face} open below the neck."
    return f"Close the centre seams{above}{_lengths(step, draft, unit)}.{stop}{_folds(draft, 'one side')}"


def _opening_at(draft: Draft, place: str) -> list[Edge]:
    """Both edges of an opening in a seam of the body."""
    return [edge for _, edge in _edges(draft, "opening") if f"{place}-opening" in edge.id]


def _side_panels(step: Step, draft: Draft, unit: Unit) -> str:
    whole = any(part.id == "side-panel-left" for part in draft.parts)
    to = "the front and the back"
    if whole:
        to = "the back" if step.code == "side panels to back" else "the front"
    return (
        f"Sew the side panels to {to}, from the armpit down{_lengths(step, draft, unit)}."
        f"{_folds(draft, 'the side panel')}"
    )


def _shoulders(step: Step, draft: Draft, unit: Unit) -> str:
    opened = shoulders(draft, unit)
    return f"Sew the shoulder seams{_lengths(step, draft, unit)}.{opened}{_folds(draft, 'the back')}"


def _neck(step: Step, draft: Draft, unit: Unit) -> str:
    return neck(draft, unit)


def _sleeve_halves(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        "Sew the front and the back half of each sleeve together along the top of the arm, from the armhole to the"
        f" cuff{_lengths(step, draft, unit)}.{_folds(draft, 'the back')}"
    )


def _elbow_gores(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        "Sew one side of each elbow gore to the front edge of its sleeve, from the cuff up to the"
        f" point{_lengths(step, draft, unit)}.{_folds(draft, 'the sleeve')}"
    )


def _sleeves(step: Step, draft: Draft, unit: Unit) -> str:
    sleeve = draft.choices.sleeve
    mark = "the seam along its top" if sleeve.pieces == "two" else "the middle of the sleeve top"
    if sleeve.seam == "back" and sleeve.pieces != "two":
        behind = _said([_behind(step, draft)], unit)
        mark = f"the mark on the sleeve top, counted from its back edge{behind},"
    head = ""
    if sleeve.head == "shaped":
        head = " Match the curves at both armpits first and pin every hand's breadth."
        if sleeve.head_ease:
            more = format_length(sleeve.head_ease, unit)
            head += f" Ease in the {more} by which the head is longer, over the shoulder."
    alongside = ""
    if sleeve.seam == "back" and any("-low" in ref.edge for seam in _seams(step, draft) for ref in (seam.a, seam.b)):
        alongside = " Go on along the top of the side panel."
    return (
        f"Sew each sleeve to its armhole{_back_stitch(draft)} while the body lies flat: {mark} to"
        f" the shoulder line{_per_sleeve(step, draft, unit)}.{alongside}{head}{_folds(draft, 'the body')}"
    )


def _behind(step: Step, draft: Draft) -> float:
    """From the sleeve's back edge to the shoulder line (cm), along its top."""
    return next(
        length(edge_at(draft, ref).points)
        for seam in _seams(step, draft)
        for ref in (seam.a, seam.b)
        if ref.part.startswith("sleeve") and ref.edge == "armhole-back"
    )


def _sleeves_behind(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Sew the rest of each sleeve top{_back_stitch(draft)} on round under the arm to the back, up to where its"
        f" edges meet{_per_sleeve(step, draft, unit)}.{_folds(draft, 'the body')}"
    )


def _sleeve_seams(step: Step, draft: Draft, unit: Unit) -> str:
    gore = ", taking in the open side of the elbow gore" if draft.choices.sleeve.elbow_gore else ""
    cuff = draft.dimensions.cuff_opening
    stop = f" Leave the lowest {format_length(cuff, unit)} open." if cuff else ""
    return (
        f"Close each sleeve behind the arm, from the cuff to the armhole{gore}{_per_sleeve(step, draft, unit)}.{stop}"
        f"{_folds(draft, 'the back')}"
    )


def _to_tops(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Sew the rest of each sleeve top{_back_stitch(draft)} along the top of the side panel, its ends meeting in the"
        f" middle{_per_sleeve(step, draft, unit)}.{_folds(draft, 'the side panel')}"
    )


def _gussets(step: Step, draft: Draft, unit: Unit) -> str:
    allowance = format_length(draft.choices.sewing.allowance, unit)
    shape = draft.choices.sleeve.gusset_shape
    if shape == "triangles":
        return (
            f"Set in the half gussets{_back_stitch(draft)} while all lies flat: the square corner at the armpit, one of"
            f" the sides beside it to the body, the other to the sleeve{_lengths(step, draft, unit)}. Stop {allowance},"
            f" one allowance, short of the armpit and work a bar there.{_folds(draft, 'the gusset')}"
        )
    if shape == "diamond":
        return (
            f"Set in the gussets{_back_stitch(draft)}: the square corners at the front and the back armpit, the long"
            f" sides to the body, the short ones to the sleeve{_lengths(step, draft, unit)}. Stop {allowance}, one"
            f" allowance, short of every corner and work a bar there.{_folds(draft, 'the gusset')}"
        )
    return (
        f"Set in the gussets{_back_stitch(draft)}: one corner at the front armpit, the opposite at the back, two sides"
        f" to the sleeve and two to the body{_lengths(step, draft, unit)}. Stop {allowance}, one allowance, short of"
        f" every corner and work a bar there.{_folds(draft, 'the gusset')}"
    )


def _run(step: Step, draft: Draft, unit: Unit) -> str:
    kinds = {seam.kind for seam in _seams(step, draft)}
    split = any(each.place == "side" for each in draft.choices.splits)
    end = "the top of the split" if split else "the hem"
    gusset = draft.dimensions.gusset > 0
    if "underarm seam" not in kinds:
        run = f"Close the sides from the armhole to {end}."
    elif kinds == {"underarm seam"}:
        run = "Close each underarm seam from the cuff to the armpit."
    elif draft.choices.sleeve.seam == "back":
        run = (
            "Close each sleeve behind the arm from the cuff to the armpit and go on down the back edge of the side"
            f" panel to {end}, in one run."
        )
    elif gusset and draft.choices.sleeve.gusset_shape == "triangles":
        run = (
            "Close the underarm from the cuff, go on along the long edges of the half gussets and down the side to"
            f" {end}, in one run."
        )
    elif gusset:
        run = (
            "Close each underarm from the cuff to the gusset's corner, then go on from its opposite corner down the"
            f" side to {end}."
        )
    else:
        run = f"Close the underarm and the side in one run from the cuff to {end}."
    if "sleeve gore" in kinds:
        run += " Take in the open side of the elbow gore on the way."
    stops = []
    if (cuff := draft.dimensions.cuff_opening) and "underarm seam" in kinds:
        stops.append(f"the lowest {format_length(cuff, unit)} of the sleeve")
    at_side = _opening_at(draft, "side")
    if at_side:
        stops.append(f"{format_length(length(at_side[0].points), unit)} at the top of the left side")
    stop = f" Leave {' and '.join(stops)} open." if stops else ""
    return f"{run}{stop}{_folds(draft, 'the back')}"


def _cuffs(step: Step, draft: Draft, unit: Unit) -> str:
    if draft.dimensions.cuff_opening:
        return (
            "Face the edges of the sleeve openings with a straight strip, or turn them twice and hem; work a bar across"
            " the end of each. Then turn the cuffs twice and hem them."
        )
    return "Turn the cuffs twice and hem them."


def _splits(step: Step, draft: Draft, unit: Unit) -> str:
    closed = [each.at for each in draft.choices.closures if each.at.startswith("centre")]
    whole = [place for place in closed if not _opening_at(draft, place)]
    edges = [
        edge for ref, edge in _edges(draft, "split") if not any(place in f"{ref.part} {ref.edge}" for place in whole)
    ]
    out = [
        f"Turn the edges of the open {place.removeprefix('centre-')} twice and hem them, from the neck to the hem."
        for place in whole
    ]
    if any(not edge.allowance for edge in edges):
        what = "its facing" if any("split facing" in piece.name for piece in draft.pieces) else "a straight strip"
        out.append(f"Face each split that is cut into a panel with {what} before you cut it.")
    if any(edge.allowance for edge in edges):
        strips = any("split strip" in piece.name for piece in draft.pieces)
        turned = "Turn the edges of each split that ends a seam twice and hem them"
        out.append(f"{turned}, or face them with the split strips where these were cut." if strips else f"{turned}.")
    ends = [split for split in draft.choices.splits if not (split.place in closed and _runs_on(draft, split.place))]
    if edges and ends:
        out.append("Work a bar or sew a small patch across the top of each split.")
    return " ".join(out)


def _runs_on(draft: Draft, place: str) -> bool:
    """Whether a split at a centre that opens from the neck has no seam above it."""
    return not any(edge.id.startswith(f"{place}-seam") for _, edge in _edges(draft, "centre seam"))


def _hem(step: Step, draft: Draft, unit: Unit) -> str:
    hem = format_length(draft.choices.sewing.hem, unit)
    round_ = any(level.centre for piece in draft.pieces for level in piece.levels)
    ease = ", easing in the fullness of the rounded parts," if round_ else ""
    return f"Turn up the hem allowance ({hem}){ease} and hem it."


def _take_up(step: Step, draft: Draft, unit: Unit) -> str:
    """Where the spare length of a child's garment goes."""
    spare = draft.taken_up
    if spare is None:
        raise InternalFault("nothing is taken up")
    amounts = {"the hem": spare.body, **_sleeves_taken(spare)}
    said = " and ".join(f"{format_length(cm, unit)} at {where}" for where, cm in amounts.items() if cm)
    if spare.by == "deep hem":
        how = "Turn the finished edges up inside once more along the chalk lines"
        end = "Fold what fullness there is into small pleats, and sew with long stitches that come out easily."
    else:
        how = "Fold a tuck to the inside so that its two chalk lines meet"
        end = "Sew through both along the lines with a running stitch and press the fold down."
    return f"{how}: it takes up {said}. {end} Let it down as the child grows, within {spare.months:g} months."


def _sleeves_taken(spare: TakenUp) -> dict[str, float]:
    left, right = spare.sleeves["left"], spare.sleeves["right"]
    return {"the cuffs": left} if left == right else {"the left cuff": left, "the right cuff": right}


def _closures(step: Step, draft: Draft, unit: Unit) -> str:
    numbered = {each.at: closing(each, unit) for each in draft.closings}
    return " ".join(numbered.get(c.at) or _unnumbered(c, draft) for c in draft.choices.closures)


def _unnumbered(closure: Closure, draft: Draft) -> str:
    """Where there is nothing to open, or the closures have not been placed yet."""
    if closure.at == "cuffs" and not draft.dimensions.cuff_opening:
        return "Cuffs: the hand passes through them as they are, so there is nothing to close."
    return f"{closure.at.capitalize()}: {CLOSERS[closure.by]}"


_WORDS: Final[Mapping[str, Say]] = {
    "mark": _mark,
    "neck slit": _neck_slit,
    "piecing": _piecing,
    "halves": _halves,
    "gores in slits": _slit_gores,
    "gores": _gores,
    "centre seams": _centre,
    "side panels": _side_panels,
    "shoulders": _shoulders,
    "neck": _neck,
    "sleeve halves": _sleeve_halves,
    "elbow gores": _elbow_gores,
    "sleeves": _sleeves,
    "sleeves behind": _sleeves_behind,
    "sleeve seams": _sleeve_seams,
    "side panels to back": _side_panels,
    "sleeves to side panels": _to_tops,
    "gussets": _gussets,
    "underarm and sides": _run,
    "armhole edges": _always("Turn the armhole edges twice and hem them, or bind them."),
    "cuffs": _cuffs,
    "openings": _always("Face the edges of the opening with a straight strip; work a bar across each end."),
    "splits": _splits,
    "hang": _always("Hang the garment for a day so that the slanting edges settle, then level the hem from the floor."),
    "hem": _hem,
    "take up": _take_up,
    "closures": _closures,
}
