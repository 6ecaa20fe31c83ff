"""Cloth that is to be torn: does it tear straight?"""

from __future__ import annotations

from ellwand.model.cloth import Cloth
from ellwand.model.finding import Finding


def tears_straight(cloth: Cloth) -> tuple[Finding, ...]:
    """One finding of a cloth that is to be torn; none of one that is cut freely."""
    if cloth.cut != "torn":
        return ()
    known = {True: "yes", False: "no", None: ""}[cloth.tears]
    return (Finding("cloth-tears", cloth.name, "sound" if cloth.tears else "look again", values={"known": known}),)
