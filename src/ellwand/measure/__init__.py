"""Raw numbers to a wearer: what was measured, and estimates with their spread for all the rest."""

from __future__ import annotations

from collections.abc import Mapping

from ellwand.measure.doubting import Doubt, doubts
from ellwand.measure.estimating import estimate
from ellwand.measure.raw import RawWearer, read_raw
from ellwand.model.wearer import Wearer

__all__ = ["Doubt", "RawWearer", "doubts", "estimate", "read_raw", "wearer_from"]


def wearer_from(table: Mapping[str, object]) -> Wearer:
    """A whole wearer from the sheet's ``[wearer]`` table; BadInput with one sentence when it cannot be.

    >>> joan = wearer_from({"sex": "female", "height": 164, "bust_girth": 96})
    >>> joan.measures["bust_girth"].source, joan.measures["hip_girth"].source
    ('measured', 'estimated')
    """
    return estimate(read_raw(table))
