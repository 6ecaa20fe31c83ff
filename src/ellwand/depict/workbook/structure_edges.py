"""The edges of a garment in plain words: neck, splits, closures, length; and what is put on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from ellwand.depict.words.saying import place
from ellwand.depict.workbook.structure_parts import Point, ids, say
from ellwand.language import N_, _
from ellwand.model.choices import Closure, Split
from ellwand.model.draft import Draft
from ellwand.model.names import named
from ellwand.units import Unit

NECKS: Final[Mapping[str, str]] = {
    "round": N_("The neck is round: even all about, and easy to turn."),
    "oval": N_("The neck is an oval, wider than it is deep, and lies toward the shoulders."),
    "rectangle": N_("The neck is a rectangle: four straight cuts along the threads, with firm corners."),
    "square": N_("The neck is a square: straight cuts along the threads, with firm corners."),
    "V": N_("The neck runs down to a point in front, so that the head passes without a slit."),
    "boat": N_("The neck is wide and shallow, from shoulder to shoulder."),
    "keyhole": N_(
        "The neck is a small round hole with a slit below it: closed it lies near the throat, open it lets the head"
        " through."
    ),
}


def neck(draft: Draft, unit: Unit) -> Point:
    """The neck and how the head passes."""
    neck, size = draft.choices.neck, draft.dimensions
    text = _(NECKS[neck.shape])
    if neck.opening != "none":
        text += " " + _("A shoulder seam is left open, so that the head passes.")
    if size.neck_slit:
        text += " " + _("The slit is {length} long.", length=say(size.neck_slit, unit))
    return Point(_("Neck"), text)


def neck_edge(draft: Draft, unit: Unit) -> Iterator[Point]:
    """What finishes or raises its edge."""
    neck = draft.choices.neck
    if neck.facing != "none":
        yield Point(
            _("Neck facing"),
            _(
                "A second layer, {width} wide, is sewn along the neck and turned to the inside: it keeps a cut edge"
                " from stretching and fraying.",
                width=say(neck.facing_width, unit),
            ),
            ids(draft, lambda piece: piece.kind == "applied" and "facing" in piece.name),
        )
    if neck.collar:
        yield Point(
            _("Collar"),
            _("A band {height} high stands round the neck and keeps it warm.", height=say(neck.collar, unit)),
            ids(draft, lambda piece: "collar" in piece.id.split("-")),
        )


def splits(draft: Draft) -> Iterator[Point]:
    """What is left open at the hem."""
    splits: tuple[Split, ...] = draft.choices.splits
    if splits:
        where = ", ".join(place(split.place) for split in splits)
        yield Point(
            _("Splits"),
            _(
                "The garment is left open from the hem up ({places}), so that its wearer can stride, climb and sit on a"
                " horse.",
                places=where,
            ),
        )


def closures(draft: Draft) -> Iterator[Point]:
    """What is closed again."""
    closures: tuple[Closure, ...] = draft.choices.closures
    if closures:
        where = ", ".join(dict.fromkeys(named(each.at.replace("-", " ")) for each in closures))
        yield Point(
            _("Openings"),
            _(
                "What opens to put it on is closed again ({places}); how is told from page {page} on.",
                places=where,
                page="\x02closing\x03",
            ),
        )


def length(draft: Draft, unit: Unit) -> Iterator[Point]:
    """How long it is, belted or to grow into."""
    size, choices = draft.dimensions, draft.choices
    yield Point(
        _("Length"),
        _("From the neck to the hem it measures {length} as sewn.", length=say(size.length, unit)),
    )
    if choices.blouse:
        yield Point(
            _("Belt"),
            _("{length} of that is drawn up over a belt and hangs over it.", length=say(choices.blouse, unit)),
        )
    if draft.taken_up is not None:
        yield Point(
            _("Room to grow"),
            _(
                "It is cut for a taller child; until then some of its length is taken up, and let down again along the"
                " marked lines."
            ),
        )


def adorned(draft: Draft) -> Iterator[Point]:
    """Colours, and what is put on."""
    if draft.choices.division is not None:
        yield Point(
            _("Colours"),
            _(
                "It is parted into colours. The parts are cut each with an allowance and sewn together first; after"
                " that they are handled as one piece."
            ),
        )
    adornment = draft.adornment
    if adornment.bands or adornment.repeats or adornment.charges:
        yield Point(
            _("Adornment"),
            _(
                "What is put on is told from page {page} on; most of it goes on while the cloth lies flat.",
                page="\x02closing\x03",
            ),
        )
