"""Torn cloth in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say
from ellwand.language import _
from ellwand.model.finding import Finding


def _tears(f: Finding, n: Numbers) -> str:
    if f.outcome == "sound":
        return _("The {cloth} cloth tears straight along its threads.", cloth=f.subject)
    if n.text("known") == "no":
        return _("The {cloth} cloth does not tear straight, and the lay is to be torn.", cloth=f.subject)
    return _("The lay is to be torn, and whether the {cloth} cloth tears straight is not said.", cloth=f.subject)


def _mend(f: Finding, n: Numbers) -> str:
    if n.text("known") == "no":
        return _("Draw out a thread at each tear and cut along it, or write {key}.", key='cut = "free"')
    return _(
        "Snip an edge and tear a hand's breadth along the threads and as much across them: plain-woven linen and cotton"
        " tear straight, twill, fulled wool and knits do not. Then write {yes} or {no}.",
        yes="tears = true",
        no="tears = false",
    )


TEARING_WHY: Final[Mapping[str, Say]] = {"cloth-tears": _tears}
TEARING_MEND: Final[Mapping[str, Say]] = {"cloth-tears": _mend}
