"""The cloth on the page: every lay drawn, with what it takes and how good that is."""

from __future__ import annotations

from ellwand.model.garment import Garment
from ellwand.publish import lay_svg
from ellwand.web.rendering import fragment


def cloth_laid(garment: Garment) -> str:
    """Each lay with its figures."""
    lays = [
        {"svg": lay_svg(garment, lay).partition("?>")[2] or lay_svg(garment, lay), "lay": lay} for lay in garment.lays
    ]
    return fragment("_cloth.html", lays=lays, unit=garment.wearer.unit)
