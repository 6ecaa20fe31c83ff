"""Raw numbers to a wearer: what was measured, and estimates with their spread for all the rest."""

from __future__ import annotations

from collections.abc import Mapping

from ellwand.measure.doubting import doubts
from ellwand.measure.estimating import estimate
from ellwand.measure.growing import grown, grows
from ellwand.measure.people import Listed, read_people, read_roster
from ellwand.measure.raw import RawWearer, check_human, read_raw
from ellwand.model.wearer import Wearer

__all__ = [
    "Listed",
    "RawWearer",
    "check_human",
    "doubts",
    "estimate",
    "grown",
    "grows",
    "read_people",
    "read_raw",
    "read_roster",
    "wearer_from",
]


def wearer_from(table: Mapping[str, object]) -> Wearer:
    """A whole wearer from the sheet's ``[wearer]`` table.

    What is improbable is kept, but nothing is estimated from it.  Raises BadInput with one sentence: a table that
    cannot be read, or a body that cannot be cut for.

    >>> joan = wearer_from({"sex": "female", "height": 164, "bust_girth": 96})
    >>> joan.measures["bust_girth"].source, joan.measures["hip_girth"].source
    ('measured', 'estimated')
    """
    raw = read_raw(table)
    check_human(raw)
    return estimate(raw, doubts(raw))
