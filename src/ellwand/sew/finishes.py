"""Seam finishes: where the allowances go, what class of seam it is, and how it is pressed.

Finds: main seams opened flat at shoulder and side, elsewhere folded to one side and overcast, those of a gusset folded
into it (a gown from Herjolfsnes, no. 45); rows of stitching through the opened allowance (London); flat-felled and
run-and-fell seams (Hedeby).  Which way the others fold is common practice, no source.
Classes of ISO 4916: 1 superimposed, 2 lapped, 6 edge finishing, 7 applied; 5 decorative.  Which class a band or an
appliqué is of: from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.model.choices import Finish
from ellwand.model.draft import EdgeRef
from ellwand.sew.bench import Bench

OPENED: Final[frozenset[Finish]] = frozenset({"plain", "overcast", "open and stitched down"})
"""Finishes whose allowances are pressed apart."""
_CLASS: Final[Mapping[Finish, str]] = {
    "plain": "1",
    "overcast": "1",
    "open and stitched down": "1",
    "french": "1",
    "run and fell": "2",
    "flat-felled": "2",
}
OPEN: Final = "open"
INSIDE: Final = "the inside"

_TOWARD: Final[Mapping[str, str]] = {
    "gores in slits": "the panel",
    "gores": "the panel",
    "side panels": "the side panel",
    "side panels to back": "the side panel",
    "shoulders": "the back",
    "sleeve halves": "the back",
    "elbow gores": "the sleeve",
    "sleeves": "the body",
    "sleeves behind": "the body",
    "sleeves to side panels": "the side panel",
    "sleeve seams": "the back",
    "gussets": "the gusset",
    "underarm and sides": "the back",
    "shoulder gores": "the hood",
    "square gores": "the square",
    "inside legs": "the back",
    "crotch gusset": "the gusset",
}
"""Where the allowances of a step go that are not opened; to one side where nothing is said."""
_ENCLOSED: Final[Mapping[str, str]] = {"gather": "the band", "tail on": "the hood"}
"""Seams that are never opened."""


def folds_to(code: str, bench: Bench) -> str:
    """Where the allowances of the seams of a step go."""
    if code in _ENCLOSED:
        return _ENCLOSED[code]
    if bench.draft.choices.sewing.finish in OPENED:
        return OPEN
    if code == "crown" and "band" in bench.pieces:
        return "the band"
    return _TOWARD.get(code, "one side")


def seam_class(code: str, bench: Bench, edges: list[EdgeRef], has_seams: bool) -> str:
    """The class in ISO 4916 of what a step sews; '' where it sews nothing."""
    if code in ("bands flat", "bands round", "collar"):
        return "7"
    if code == "charges":
        return "5"
    if code == "underlaps":
        return "2"
    if has_seams:
        return _CLASS[bench.draft.choices.sewing.finish]
    if edges and _is_faced(code, bench, edges):
        return "1"
    return "6" if edges or code == "take up" else ""


def _is_faced(code: str, bench: Bench, edges: list[EdgeRef]) -> bool:
    """Whether what is finished is sewn to a facing, right sides together, and turned."""
    if code in ("neck slit", "split slits"):
        return True
    return code == "neck" and bench.draft.choices.neck.facing != "none"


def pressed(code: str, folds: str, edges: list[EdgeRef]) -> str:
    """What the iron does after a step; '' for nothing."""
    if folds == OPEN:
        return "press the allowances open"
    if folds and folds != INSIDE:
        return f"press the allowances toward {folds}"
    if code == "charges" or code.startswith("bands"):
        return "press from the inside"
    return "press the fold" if edges or code in ("take up", "underlaps") else ""
