"""Garments worn over each other, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say, level
from ellwand.language import _
from ellwand.model.finding import Finding
from ellwand.model.names import named


def _under(n: Numbers) -> str:
    return named(n.text("under"))


def _girth(f: Finding, n: Numbers) -> str:
    told = {"where": level(n.text("at")), "girth": n.cm(f.measured), "under": _under(n), "inner": n.of("inner")}
    if f.outcome == "sound":
        return _(
            "At the {where}, where it is closest, the garment is {girth} round, room for the {under} beneath, {inner}"
            " round.",
            **told,
        )
    return _(
        "At the {where}, where it is closest, the garment is {girth} round, too close over the {under} beneath, {inner}"
        " round.",
        **told,
    )


def _room(f: Finding, n: Numbers) -> str:
    told = {"girth": n.cm(f.measured), "down": n.of("down"), "under": _under(n), "inner": n.of("inner")}
    if f.outcome == "sound":
        return _(
            "The sleeve, {girth} round {down} from the shoulder point, has room for that of the {under} beneath,"
            " {inner} round there.",
            **told,
        )
    return _(
        "The sleeve, {girth} round {down} from the shoulder point, is too close over that of the {under} beneath,"
        " {inner} round there.",
        **told,
    )


def _sleeve(f: Finding, n: Numbers) -> str:
    step, under = f.measured or 0.0, _under(n)
    if f.outcome == "sound":
        return _("The sleeve of the {under} beneath shows {much}.", under=under, much=n.cm(step))
    if step <= 0:
        return _(
            "The sleeve hides that of the {under} beneath, which ends {much} higher up the arm.",
            under=under,
            much=n.cm(-step),
        )
    return _("The sleeve of the {under} beneath shows only {much}.", under=under, much=n.cm(step))


def _hem(f: Finding, n: Numbers) -> str:
    step, under = f.measured or 0.0, _under(n)
    if f.outcome != "sound":
        return _(
            "The hem lies within {much} of that of the {under} beneath, neither short nor long.",
            under=under,
            much=n.cm(abs(step)),
        )
    if step > 0:
        return _("The hem shows {much} of the {under} beneath.", under=under, much=n.cm(step))
    return _("The hem covers that of the {under} beneath by {much}.", under=under, much=n.cm(-step))


def _neck(f: Finding, n: Numbers) -> str:
    wider, deeper, under = n.number("wider"), n.number("deeper"), _under(n)
    if f.outcome != "sound" and deeper > 0:
        return _(
            "The neck shows that of the {under} beneath in front but covers it at the sides: the edges cross.",
            under=under,
        )
    if f.outcome != "sound":
        return _(
            "The neck shows that of the {under} beneath at the sides but covers it in front: the edges cross.",
            under=under,
        )
    if max(abs(wider), abs(deeper)) <= 0.5:
        return _("The neck and that of the {under} beneath lie edge to edge.", under=under)
    if wider + deeper > 0:
        return _("The neck shows that of the {under} beneath.", under=under)
    return _("The neck covers that of the {under} beneath.", under=under)


def _sleeve_room_mend(f: Finding, n: Numbers) -> str:
    if n.text("shape") == "wide":
        return _(
            "Choose a closer sleeve for the garment beneath, or {key} for this one.",
            key='sleeve.shape = "none"',
        )
    return _("Choose {key} for this garment and leave sleeve.cuff out.", key='sleeve.shape = "straight"')


LAYER_WHY: Final[Mapping[str, Say]] = {
    "layer-girth": _girth,
    "layer-sleeve": _sleeve,
    "layer-sleeve-room": _room,
    "layer-hem": _hem,
    "layer-neck": _neck,
}
LAYER_MEND: Final[Mapping[str, Say]] = {
    "layer-girth": lambda f, n: _(
        "Add {much} to this body's ease.",
        much=n.more((f.needed or 0.0) - (f.measured or 0.0) + n.number("rounding")),
    ),
    "layer-sleeve": lambda f, n: _("Give this garment {key}.", key=f'sleeve.length = "{n.of("length")}"'),
    "layer-sleeve-room": _sleeve_room_mend,
    "layer-hem": lambda f, n: _(
        "Give this garment {key}: the one beneath then shows.", key=f'{n.text("key")} = "{n.of("length")}"'
    ),
    "layer-neck": lambda f, n: _("Give both the same {section}.", section="[garment.neck]"),
}
