"""Ellwand: from a person's measurements and a length of cloth to a cut card for historical dress.

The public API, loaded when it is first used::

    from ellwand import load_sheet, make, prove_sheet, garment_json
    garment = make(load_sheet(Path("tunic.toml")), seconds=5, seed=1)
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ellwand.choose import Sheet as Sheet
    from ellwand.choose import read_sheet as read_sheet
    from ellwand.errors import BadInput as BadInput
    from ellwand.errors import CannotDraft as CannotDraft
    from ellwand.errors import EllwandError as EllwandError
    from ellwand.loading import load_sheet as load_sheet
    from ellwand.model.garment import Garment as Garment
    from ellwand.pipeline import make as make
    from ellwand.pipeline import prove_sheet as prove_sheet
    from ellwand.publish.garment_json import garment_json as garment_json

_HOMES = {
    "Sheet": "ellwand.choose",
    "read_sheet": "ellwand.choose",
    "BadInput": "ellwand.errors",
    "CannotDraft": "ellwand.errors",
    "EllwandError": "ellwand.errors",
    "Garment": "ellwand.model.garment",
    "load_sheet": "ellwand.loading",
    "make": "ellwand.pipeline",
    "prove_sheet": "ellwand.pipeline",
    "garment_json": "ellwand.publish.garment_json",
}
__all__ = sorted(_HOMES)


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'ellwand' has no attribute {name!r}")
    return getattr(import_module(_HOMES[name]), name)
