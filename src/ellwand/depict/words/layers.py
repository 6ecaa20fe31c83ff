"""Garments worn over each other, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say
from ellwand.model.finding import Finding


def _girth(f: Finding, n: Numbers) -> str:
    verdict = "room for" if f.outcome == "sound" else "too close over"
    return (
        f"At the {n.text('at')}, where it is closest, the garment is {n.cm(f.measured)} round, {verdict} the"
        f" {n.text('under')} beneath, {n.of('inner')} round."
    )


def _room(f: Finding, n: Numbers) -> str:
    verdict = "has room for" if f.outcome == "sound" else "is too close over"
    return (
        f"The sleeve, {n.cm(f.measured)} round {n.of('down')} from the shoulder point, {verdict} that of the"
        f" {n.text('under')} beneath, {n.of('inner')} round there."
    )


def _sleeve(f: Finding, n: Numbers) -> str:
    step = f.measured or 0.0
    if f.outcome == "sound":
        return f"The sleeve of the {n.text('under')} beneath shows {n.cm(step)}."
    if step <= 0:
        return f"The sleeve hides that of the {n.text('under')} beneath, which ends {n.cm(-step)} higher up the arm."
    return f"The sleeve of the {n.text('under')} beneath shows only {n.cm(step)}."


def _hem(f: Finding, n: Numbers) -> str:
    step = f.measured or 0.0
    if f.outcome != "sound":
        return (
            f"The hem lies within {n.cm(abs(step))} of that of the {n.text('under')} beneath, neither short nor long."
        )
    if step > 0:
        return f"The hem shows {n.cm(step)} of the {n.text('under')} beneath."
    return f"The hem covers that of the {n.text('under')} beneath by {n.cm(-step)}."


def _neck(f: Finding, n: Numbers) -> str:
    wider, deeper = n.number("wider"), n.number("deeper")
    if f.outcome != "sound":
        where = "in front but covers it" if deeper > 0 else "at the sides but covers it"
        other = "at the sides" if deeper > 0 else "in front"
        return f"The neck shows that of the {n.text('under')} beneath {where} {other}: the edges cross."
    if max(abs(wider), abs(deeper)) <= 0.5:
        return f"The neck and that of the {n.text('under')} beneath lie edge to edge."
    return f"The neck {'shows' if wider + deeper > 0 else 'covers'} that of the {n.text('under')} beneath."


LAYER_WHY: Final[Mapping[str, Say]] = {
    "layer-girth": _girth,
    "layer-sleeve": _sleeve,
    "layer-sleeve-room": _room,
    "layer-hem": _hem,
    "layer-neck": _neck,
}
LAYER_MEND: Final[Mapping[str, Say]] = {
    "layer-girth": lambda f, n: (
        f"Add {n.more((f.needed or 0.0) - (f.measured or 0.0) + n.number('rounding'))} to this body's ease."
    ),
    "layer-sleeve": lambda f, n: f'Give this garment sleeve.length = "{n.of("length")}".',
    "layer-sleeve-room": lambda f, n: (
        'Choose a closer sleeve for the garment beneath, or sleeve.shape = "none" for this one.'
        if n.text("shape") == "wide"
        else 'Choose sleeve.shape = "straight" for this garment and leave sleeve.cuff out.'
    ),
    "layer-hem": lambda f, n: f'Give this garment {n.text("key")} = "{n.of("length")}": the one beneath then shows.',
    "layer-neck": lambda f, n: "Give both the same [garment.neck].",
}
