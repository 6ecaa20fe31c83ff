"""From the place that an error names to the control that it speaks of."""

from __future__ import annotations

import re


def path_of(where: str) -> str:
    """The path of a control: entries count from 1 in sentences and from 0 in a form.

    >>> path_of("garment.gores[2].base")
    'garment.gores.1.base'
    """
    return re.sub(r"\[(\d+)\]", lambda found: f".{int(found[1]) - 1}", where)
