"""A back longer than the front: how deep its hem dips, and which lines reach down to it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from ellwand.draft.fill import Key
from ellwand.draft.seamline import SeamLine
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.choices import Choices

DEEPEST_ARC: Final = 0.5
"""A back's hem is an arc where it dips no more than this share of its half width: our own figure."""


def dip_at(deep: float, reach: float, x: float) -> float:
    """Depth (cm) at ``x`` of a hem ``deep`` in its middle and nothing at ±``reach``.

    A circular arc, which is swung from its point (its radius by the sagitta: (reach² + deep²) / 2 deep), or a
    parabola where the dip is so deep that an arc would meet the side seams steeply.
    """
    if deep <= 0:
        return 0.0
    if deep > reach * DEEPEST_ARC:
        return deep * (1 - (x / reach) ** 2)
    radius = (reach * reach + deep * deep) / (2 * deep)
    return max(0.0, math.sqrt(radius * radius - x * x) - (radius - deep))


def lowered_lines(lines: Mapping[Key, SeamLine], deep: float, panel: float) -> Mapping[Key, SeamLine]:
    """The lines of the back reaching down to its hem; the one in its middle and those half way to the sides."""
    at = {"centre-back": lines["centre-back", ""].slot, "panel-back": panel / 4}
    side = lines.get(("side-back", "left")) or lines["side", "left"]
    reach = panel / 2 - side.slot
    return MappingProxyType(
        {
            key: replace(line, dip=dip_at(deep, reach, at[key[0]])) if key[0] in at else line
            for key, line in lines.items()
        }
    )


def deepest(choices: Choices) -> float:
    """How far (cm) the back's hem lies below the front's in its middle: what was asked, and the train.

    Raises CannotDraft for a train in the air.
    """
    if choices.train and choices.length != "floor":
        raise CannotDraft("garment.train", _("only a garment down to the floor trails"), _('choose length = "floor"'))
    return choices.body.back_longer + choices.train
