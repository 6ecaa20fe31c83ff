"""The file of marks: JSON of our own, read once and checked (described in docs/picture.md)."""

from __future__ import annotations

import difflib
import json
import math
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Any, Final

from ellwand.errors import BadInput
from ellwand.geometry.lines import Point
from ellwand.language import N_, _
from ellwand.model.picture import Marks
from ellwand.picture.questions import QUESTIONS, UNSEEN

LARGEST: Final = 200_000
"""No honest file of marks is longer (bytes)."""
SHARE: Final = 0.006
"""A mark lies within this share of the figure's height where nothing else is said (one standard deviation): a hand's
breadth of a pointer on a screen, our own figure."""
MARKS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "crown": N_("the top of the head, under hair and hat"),
        "chin": N_("the point of the chin"),
        "floor": N_("where the weight is on the floor, between the feet"),
        "shoulder_left": N_("the shoulder's end at the picture's left"),
        "shoulder_right": N_("the shoulder's end at the picture's right"),
        "elbow": N_("the elbow of the arm that is seen best"),
        "wrist": N_("the wrist of that arm"),
        "sleeve_end": N_("where its sleeve ends"),
        "opening_top": N_("the sleeve's opening: its upper end"),
        "opening_bottom": N_("the sleeve's opening: its lower end"),
        "neck_depth": N_("the lowest point of the neck's edge in front"),
        "belt": N_("the belt, or the narrowest place of the waist"),
        "hem": N_("the hem in front of the body's middle"),
        "hem_left": N_("the hem's end at the picture's left"),
        "hem_right": N_("the hem's end at the picture's right"),
        "split_top": N_("the upper end of a split"),
    }
)
"""What can be marked, and where it is; in the order of asking."""
NEEDED: Final = ("crown", "chin", "hem")
"""Without these nothing can be read."""
MOST: Final[Mapping[str, float]] = MappingProxyType({"lean": 45.0, "stoop": 60.0})
"""How far a figure may lean or stoop (degrees)."""
KEYS: Final = ("points", "spread", "spreads", "lean", "stoop", "answers", "note")


def read_marks(data: bytes) -> Marks:
    """The marks in a file.

    Raises BadInput with one sentence: where, what is wrong, what would do.
    """
    if len(data) > LARGEST:
        raise BadInput("", _("the file is too large for marks"), _("give the marks of one figure"))
    try:
        given = json.loads(data.decode("utf-8-sig"))
    except (UnicodeDecodeError, ValueError, RecursionError):
        raise BadInput("", _("this is no JSON"), _("write the marks as docs/picture.md shows")) from None
    return marks_of(given)


def marks_of(given: Any) -> Marks:
    """The same of what was read from JSON."""
    table = _table(given, "")
    _known(table, KEYS, "")
    points = {name: _point(value, f"points.{name}") for name, value in _table(table.get("points"), "points").items()}
    _known(points, MARKS, "points")
    missing = [name for name in NEEDED if name not in points]
    if missing:
        raise BadInput(f"points.{missing[0]}", _("this must be marked"), _(MARKS[missing[0]]))
    high = math.dist(points["crown"], points.get("floor", points["hem"]))
    if math.dist(points["crown"], points["chin"]) < 1e-9 or high < 1e-9:
        raise BadInput("points.chin", _("the head has no height"), _("mark crown and chin apart"))
    usual = _number(table.get("spread", SHARE * high), "spread", 0.0, high)
    spreads = _table(table.get("spreads", {}), "spreads")
    _known(spreads, MARKS, "spreads")
    spread = {name: _number(spreads.get(name, usual), f"spreads.{name}", 0.0, high) for name in points}
    answers = {str(key): str(value) for key, value in _table(table.get("answers", {}), "answers").items()}
    _known(answers, QUESTIONS, "answers")
    for key, value in answers.items():
        _known([value], (*QUESTIONS[key].answers, UNSEEN), f"answers.{key}")
    lean, stoop = (_number(table.get(key, 0.0), key, -most, most) for key, most in MOST.items())
    return Marks(points, spread, lean, abs(stoop), answers)


def _table(value: Any, where: str) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise BadInput(where, _("this should be a table"), _("write it in braces, as docs/picture.md shows"))
    return value


def _known(given: Iterable[str], good: Iterable[str], where: str) -> None:
    good = list(good)
    for key in given:
        if key not in good:
            near = difflib.get_close_matches(key, good, n=1)
            mend = (
                _("perhaps {name!r} was meant", name=near[0])
                if near
                else _("use any of {names}", names=", ".join(good))
            )
            raise BadInput(f"{where}.{key[:40]}".lstrip("."), _("this is not known"), mend)


def _number(value: Any, where: str, least: float, most: float) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not least <= value <= most:
        bounds = {"least": f"{least:g}", "most": f"{most:.4g}"}
        raise BadInput(where, _("this should be a number"), _("give one from {least} to {most}", **bounds))
    return float(value)


def _point(value: Any, where: str) -> Point:
    good = isinstance(value, list) and len(value) == 2 and not any(isinstance(each, bool) for each in value)
    if not good or not all(isinstance(each, (int, float)) and abs(each) < 1e6 for each in value):
        raise BadInput(where, _("this should be a point"), _("write it as [120, 340], right and down in the picture"))
    return float(value[0]), float(value[1])
