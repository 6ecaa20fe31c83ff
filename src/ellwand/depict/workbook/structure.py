"""What a garment is made of and why it is cut so, in plain words, read off its choices."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from ellwand.depict.words.saying import place
from ellwand.depict.workbook.structure_edges import adorned, closures, length, neck, neck_edge, splits
from ellwand.depict.workbook.structure_others import other_points
from ellwand.depict.workbook.structure_parts import Point, ids, say
from ellwand.language import N_, _
from ellwand.model.draft import Draft
from ellwand.model.garment import Garment
from ellwand.units import Unit

__all__ = ["Point", "opening_words", "structure"]


def opening_words(garment: Garment) -> str:
    """Why it is cut as it is, in one paragraph for any garment."""
    if not garment.draft.seams:
        return _("It is cut in one piece and needs no seam: only its edges are turned.")
    return _(
        "Cloth is woven in straight lengths, and this garment is cut with as little waste as can be: from rectangles,"
        " triangles and squares whose straight edges lie against each other on the cloth. Width is added where the body"
        " needs it, by a piece set in there, not by cutting everything wider."
    )


def structure(garment: Garment) -> tuple[Point, ...]:
    """Each part of the structure with its reason, from the body out."""
    draft, unit = garment.draft, garment.wearer.unit
    if draft.choices.other is not None:
        return (*other_points(draft, unit), *adorned(draft))
    return tuple(_tunic(draft, unit))


def _tunic(draft: Draft, unit: Unit) -> Iterator[Point]:
    yield _body(draft)
    yield from _shoulder(draft, unit)
    yield from _centre(draft)
    yield from _side(draft, unit)
    yield _room(draft, unit)
    yield from _gores(draft)
    yield from _sleeve(draft, unit)
    yield from _gusset(draft, unit)
    yield neck(draft, unit)
    yield from neck_edge(draft, unit)
    yield from splits(draft)
    yield from closures(draft)
    yield from length(draft, unit)
    yield from adorned(draft)


def _body(draft: Draft) -> Point:
    body = draft.choices.body
    panels = ids(draft, lambda piece: piece.place == "body" and piece.kind == "shell" and "gore" not in piece.name)
    if body.cut == "shoulder panels":
        return Point(
            _("Body"),
            _(
                "Narrow panels run from the shoulders to the hem, and the cloth under the arms is set in between them."
                " That suits narrow cloth, and it brings seams to the places where the garment is to grow wide."
            ),
            panels,
        )
    if body.shoulder == "fold":
        return Point(
            _("Body"),
            _(
                "One long strip runs from the front hem over the shoulders to the back hem, with a hole for the head."
                " There is no seam on the shoulders, where a load would rub it, and nothing is cut away but the neck."
            ),
            panels,
        )
    return Point(
        _("Body"),
        _(
            "A front and a back, each as wide as the body needs with its ease, are joined on the shoulders. Two shorter"
            " lengths are easier to lay on the cloth than one long strip."
        ),
        panels,
    )


def _shoulder(draft: Draft, unit: Unit) -> Iterator[Point]:
    slope = draft.dimensions.shoulder_slope
    if slope:
        yield Point(
            _("Shoulder"),
            _(
                "The shoulder seam falls by {slope} from the neck to the arm, as shoulders do, so that the front does"
                " not stand out in folds beside the neck.",
                slope=say(slope, unit),
            ),
        )


def _centre(draft: Draft) -> Iterator[Point]:
    seam = draft.choices.body.centre_seam
    if seam in ("front", "back", "both"):
        where = {"front": _("in front"), "back": _("behind"), "both": _("in front and behind")}[seam]
        yield Point(
            _("Centre seam"),
            _(
                "A seam runs down the middle {where}. Halves find room where whole panels do not, and a gore or an"
                " opening can be set into a seam without cutting into the cloth.",
                where=where,
            ),
        )


def _side(draft: Draft, unit: Unit) -> Iterator[Point]:
    width = draft.dimensions.side_panel
    if width:
        yield Point(
            _("Side panels"),
            _(
                "A panel {width} wide hangs below each arm. It gives the width that front and back lack, and holds the"
                " sleeve's seam away from the armpit.",
                width=say(width, unit),
            ),
            ids(draft, lambda piece: "side" in piece.id.split("-") and "panel" in piece.name),
        )
    if flare := draft.choices.body.flare:
        yield Point(
            _("Flare"),
            _("Each side panel grows wider toward the hem by {flare}: room to walk in.", flare=say(flare, unit)),
        )


def _room(draft: Draft, unit: Unit) -> Point:
    return Point(
        _("Room to move"),
        _(
            "Round the body it measures {girth} as sewn. What that is more than the body is its ease: room to breathe,"
            " to bend, and to pull it on over the head.",
            girth=say(draft.dimensions.body_girth, unit),
        ),
    )


GORE_WHY: Final[Mapping[str, str]] = {
    "side": N_("They give room to walk and let the hem swing, while the upper body stays narrow."),
    "centre-front": N_("It lets the knees come forward and the skirt fall in folds in front."),
    "centre-back": N_("It lets the skirt spread when its wearer sits or rides."),
}


def _gores(draft: Draft) -> Iterator[Point]:
    if not draft.choices.gores:
        if not draft.choices.body.flare:
            yield Point(
                _("No gores"),
                _("Nothing is set in at the hem: the skirt is as wide as the body, and needs the least cloth."),
            )
        return
    for gore in draft.choices.gores:
        why = _(GORE_WHY.get(gore.place, GORE_WHY["side"]))
        text = _(
            "Wedges at the {place}, their points up, widen the hem. A wedge and its neighbour share one slanted cut, so"
            " that no cloth is lost between them.",
            place=place(gore.place),
        )
        yield Point(_("Gores"), f"{text} {why}", _gores_at(draft, gore.place))


def _gores_at(draft: Draft, where: str) -> tuple[str, ...]:
    """The pieces of the gores of one place; an alike piece may bear the name of another place, and then all count."""
    own = ids(draft, lambda piece: "gore" in piece.name and piece.name.startswith(f"{where} "))
    return own or ids(draft, lambda piece: "gore" in piece.name and piece.place != "sleeve")


SLEEVES: Final[Mapping[str, str]] = {
    "none": N_("There are no sleeves: the armhole is left deep, so that what is worn beneath moves freely in it."),
    "straight": N_(
        "The sleeve is a rectangle, as wide at the hand as at the armhole: it is quickly cut, and any arm fits it."
    ),
    "tapered": N_(
        "The sleeve narrows from the armhole to the hand: wide where the arm moves, close where it works. Two of them"
        " lie head to foot on the cloth."
    ),
    "fitted forearm": N_(
        "The sleeve is loose above and close below the elbow: warm, out of the way of work, and the upper arm still"
        " bends."
    ),
    "wide": N_("The sleeve grows wider toward the hand and hangs open: it shows the sleeve beneath it."),
}


def _sleeve(draft: Draft, unit: Unit) -> Iterator[Point]:
    sleeve = draft.choices.sleeve
    pieces = ids(draft, lambda piece: piece.place == "sleeve" and "gore" not in piece.id.split("-"))
    yield Point(_("Sleeves") if sleeve.shape != "none" else _("No sleeves"), _(SLEEVES[sleeve.shape]), pieces)
    if sleeve.shape == "none":
        return
    if sleeve.head == "shaped":
        yield Point(
            _("Sleeve head"),
            _(
                "The top of the sleeve is curved to fit a hollowed armhole, so that the arm hangs down without folds in"
                " the armpit; it lifts less easily for that."
            ),
        )
    if draft.dimensions.cuff_opening:
        yield Point(
            _("Cuff opening"),
            _(
                "The lowest {length} of the sleeve's seam stay open: the cuff is closer than the hand is round.",
                length=say(draft.dimensions.cuff_opening, unit),
            ),
        )
    if sleeve.elbow_gore:
        yield Point(_("Elbow gore"), _("A wedge from the elbow to the cuff gives a bent arm the room it needs."))


def _gusset(draft: Draft, unit: Unit) -> Iterator[Point]:
    if draft.choices.sleeve.shape == "none":
        return
    if side := draft.dimensions.gusset:
        yield Point(
            _("Gussets"),
            _(
                "A small piece, {side} along the sleeve, is set in under each arm, where sleeve and body meet. It opens"
                " when the arm is lifted and folds away when the arm hangs, so that the hem stays down and the armpit"
                " does not tear.",
                side=say(side, unit),
            ),
            ids(draft, lambda piece: "gusset" in piece.id.split("-")),
        )
    else:
        yield Point(
            _("No gusset"),
            _("Sleeve and body meet under the arm without a piece between them: they are wide enough to lift the arm."),
        )
