"""The structure of hood, cloak, coif, apron and breeches in plain words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, Final

from ellwand.depict.workbook.structure_parts import Point, ids, say
from ellwand.language import N_, _
from ellwand.model.draft import Draft
from ellwand.model.others import (
    Apron,
    ApronSize,
    Breeches,
    BreechesSize,
    Cloak,
    CloakSize,
    Coif,
    CoifSize,
    Hood,
    HoodSize,
)
from ellwand.units import Unit


def other_points(draft: Draft, unit: Unit) -> Iterator[Point]:
    """Each part of such a garment with its reason."""
    yield from _POINTS[type(draft.choices.other)](draft, draft.choices.other, draft.settled, unit)


HOOD_GORES: Final[Mapping[str, str]] = {
    "squares": N_(
        "A square set on its corner widens the hood in front and behind, so that it lies over the shoulders without"
        " being cut wide at the neck."
    ),
    "shoulder": N_("A wedge on each shoulder widens the hood below the neck, so that it lies over the shoulders."),
    "none": N_("Nothing is set in below the neck: the hood is short and lies close."),
}


def _hood(draft: Draft, chosen: Hood, size: HoodSize, unit: Unit) -> Iterator[Point]:
    sides = ids(draft, lambda piece: "gore" not in piece.id.split("-") and "tail" not in piece.id)
    if chosen.cut == "folded":
        text = _(
            "Both sides are cut in one length that is folded over the crown: no seam lies on the head, where rain"
            " falls on it."
        )
    else:
        text = _("Two sides are joined over the crown; each finds room on a narrow left-over.")
    yield Point(_("Sides"), text, sides)
    yield Point(
        _("Face"),
        _("The face opening is {face} high on either side; below it the hood is closed.", face=say(size.face, unit)),
    )
    gores = ids(draft, lambda piece: "gore" in piece.id.split("-"))
    yield Point(_("Cape"), _(HOOD_GORES[chosen.gores]), gores)
    if chosen.liripipe:
        yield Point(
            _("Tail"), _("The tail is {length} long, a strip folded and sewn.", length=say(chosen.liripipe, unit))
        )


CLOAKS: Final[Mapping[str, str]] = {
    "rectangle": N_("A plain rectangle: nothing is cut away, and it serves as a blanket too."),
    "semicircle": N_("Half a circle hangs from the shoulders in even folds, and both front edges are straight."),
    "three-quarter": N_("Three quarters of a circle close in front and fall in deep folds all round."),
}


def _cloak(draft: Draft, chosen: Cloak, size: CloakSize, unit: Unit) -> Iterator[Point]:
    yield Point(_("Shape"), _(CLOAKS[chosen.shape]), ids(draft, lambda piece: piece.kind != "applied"))
    if len(size.strips) > 1:
        yield Point(
            _("Strips"),
            _(
                "It is wider than the cloth, so it is sewn together from strips that run along the threads, as the"
                " front edge does."
            ),
        )
    if size.inner:
        yield Point(
            _("Neck"),
            _(
                "The neck is cut out, {length} along its edge, so that it lies on the shoulders.",
                length=say(size.neck, unit),
            ),
        )
    else:
        yield Point(_("Neck"), _("The upper edge is straight: a pin gathers it at the neck."))


def _coif(draft: Draft, chosen: Coif, size: CoifSize, unit: Unit) -> Iterator[Point]:
    if chosen.cut == "band":
        text = _("Two sides and a band between them follow the head more closely than two halves do.")
    else:
        text = _("Two halves are joined over the head from the brow to the nape.")
    yield Point(_("Shape"), text, ids(draft, lambda piece: piece.kind != "applied"))
    yield Point(
        _("Why it is worn"),
        _("It keeps hair together and hats clean, and it is washed with the linen; ties close it under the chin."),
    )


def _apron(draft: Draft, chosen: Apron, size: ApronSize, unit: Unit) -> Iterator[Point]:
    if chosen.top == "gathered":
        text = _(
            "A rectangle {width} wide is gathered to a band: folds give room for the knees, and the band takes the pull"
            " of the ties.",
            width=say(size.width, unit),
        )
    else:
        text = _("A rectangle {width} wide, turned at the top and tied round the waist.", width=say(size.width, unit))
    yield Point(_("Shape"), text, ids(draft, lambda piece: True))


def _breeches(draft: Draft, chosen: Breeches, size: BreechesSize, unit: Unit) -> Iterator[Point]:
    yield Point(
        _("Legs"),
        _("Two straight legs, each one width of cloth folded round the leg; wide enough to sit and to squat."),
        ids(draft, lambda piece: "leg" in piece.id.split("-")),
    )
    if size.gusset:
        yield Point(
            _("Gusset"),
            _(
                "A square of {side} between the legs keeps the seams away from where they would chafe and tear, and"
                " lets the legs part.",
                side=say(size.gusset, unit),
            ),
            ids(draft, lambda piece: "gusset" in piece.id.split("-")),
        )
    if chosen.waist == "casing":
        text = _("The upper edge is turned to a tunnel, and a cord in it is drawn up and tied.")
    else:
        text = _("The upper edge is gathered to a band that closes in front.")
    yield Point(_("Waist"), text)


_POINTS: Final[Mapping[type[Any], Callable[[Draft, Any, Any, Unit], Iterator[Point]]]] = {
    Hood: _hood,
    Cloak: _cloak,
    Coif: _coif,
    Apron: _apron,
    Breeches: _breeches,
}
