"""What garment.json says of bands, repeated motifs and charges; nothing of a garment that has none."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ellwand.model.adornment import Adornment

Plain = Callable[[Any], Any]


def adornment_document(adornment: Adornment, plain: Plain) -> dict[str, Any]:
    """The keys that are there; ``plain`` turns frozen values to lists, dicts and rounded numbers.

    A band's ``run`` is told with its stretches: part, edge ('' across a piece) and points in the piece's coordinates.
    """
    told = {
        "bands": [{**plain(band), "run": _run(plain(band.run))} for band in adornment.bands],
        "yarns": plain(adornment.yarns),
        "repeats": [{**plain(each), "run": _run(plain(each.run))} for each in adornment.repeats],
        "division": plain(adornment.field),
        "charges": plain(adornment.charges),
    }
    return {key: value for key, value in told.items() if value}


def _run(run: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in run.items() if key not in ("turns", "bends")} | {
        "corners": [{"at": at, "turn": turn} for at, turn in zip(run["corners"], run["turns"], strict=True)]
    }
