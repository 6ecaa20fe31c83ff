"""Motifs that the maker drew: the sheet names SVG files, and their text becomes motifs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import PurePath
from typing import Any

from ellwand.errors import BadInput
from ellwand.geometry.svg_shapes import svg_shapes
from ellwand.language import _
from ellwand.model.motif import Motif, motif_of

ReadDrawing = Callable[[str], str]
"""From the name of an SVG file that a sheet names to its text."""


def no_drawings(name: str) -> str:
    """Where a sheet stands alone there are no files beside it.

    Raises BadInput.
    """
    raise BadInput(
        "",
        _("the drawing {name!r} cannot be read here", name=name[:60]),
        _("name one of the motifs that ship with the tool"),
    )


def svg_motif(text: str, name: str) -> Motif:
    """The motif that an SVG drawing's text holds, 1 cm wide.

    Raises BadInput with one sentence naming the drawing, what is wrong with it and what would do.
    """
    try:
        return motif_of(PurePath(name).stem or name, svg_shapes(text), 1.0)
    except BadInput as error:
        raise error.inside(name) from None


def with_drawings(garment: Mapping[str, Any], read: ReadDrawing) -> dict[str, Any]:
    """The garment's table with every SVG file among the motifs of its repeats and charges read.

    Raises BadInput.
    """
    out = dict(garment)
    for key in ("repeats", "charges"):
        if isinstance(entries := garment.get(key), list):
            out[key] = [_drawn(each, read, f"{key}[{i}]") for i, each in enumerate(entries, 1)]
    return out


def _drawn(entry: Any, read: ReadDrawing, where: str) -> Any:
    name = entry.get("motif") if isinstance(entry, dict) else None
    if not isinstance(name, str) or not name.lower().endswith(".svg"):
        return entry
    try:
        return {**entry, "motif": svg_motif(read(name), name)}
    except BadInput as error:
        raise error.inside(f"garment.{where}.motif") from None
