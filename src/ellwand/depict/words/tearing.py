"""Torn cloth in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say
from ellwand.model.finding import Finding


def _tears(f: Finding, n: Numbers) -> str:
    cloth = f"The {f.subject} cloth"
    if f.outcome == "sound":
        return f"{cloth} tears straight along its threads."
    if n.text("known") == "no":
        return f"{cloth} does not tear straight, and the lay is to be torn."
    return f"The lay is to be torn, and whether {cloth[0].lower()}{cloth[1:]} tears straight is not said."


def _mend(f: Finding, n: Numbers) -> str:
    if n.text("known") == "no":
        return 'Draw out a thread at each tear and cut along it, or write cut = "free".'
    return (
        "Snip an edge and tear a hand's breadth along the threads and as much across them: plain-woven linen and cotton"
        " tear straight, twill, fulled wool and knits do not. Then write tears = true or tears = false."
    )


TEARING_WHY: Final[Mapping[str, Say]] = {"cloth-tears": _tears}
TEARING_MEND: Final[Mapping[str, Say]] = {"cloth-tears": _mend}
