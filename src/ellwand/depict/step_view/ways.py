"""Which way a seam is sewn, and to which side its allowances go."""

from __future__ import annotations

import math
from typing import Final

from ellwand.depict.step_view.joins import Join
from ellwand.depict.step_view.layout import Layout
from ellwand.geometry.lines import Point
from ellwand.model.piece import EdgeKind

FROM_HEM: Final = frozenset(
    {
        "gores",
        "gores in slits",
        "halves",
        "elbow gores",
        "underarm and sides",
        "sleeve seams",
        "inside legs",
        "shoulder gores",
        "square gores",
        "side panels to back",
    }
)
"""Sewn from the hem or cuff on: they are level there, and a point is where they end."""
FROM_TOP: Final = frozenset({"side panels", "sleeve halves", "tail"})
"""Sewn from the armpit or armhole down."""
HEMS: Final[frozenset[EdgeKind]] = frozenset({"hem", "cuff", "leg"})


def starts_at_end(code: str, join: Join, made: Layout) -> bool | None:
    """Whether a join is sewn from the last point of its line to the first; None where it does not matter."""
    if code not in FROM_HEM and code not in FROM_TOP:
        return None
    # one run: up the sleeve from its cuff, then down the side
    from_hem = code in FROM_HEM and (code != "underarm and sides" or join.a.startswith("sleeve"))
    first, last = (_to_hem(join, made, point) for point in (join.a_line[0], join.a_line[-1]))
    if abs(first - last) < 1e-6:
        return None
    return (last < first) == from_hem


def _to_hem(join: Join, made: Layout, point: Point) -> float:
    """How far (cm) a point of a join's first part is from the part's hem or cuff; from its lowest point without one."""
    own = made.laid[join.a].own
    hems = [own.edge(edge.id) for edge in own.piece.edges if edge.kind in HEMS]
    if not hems:
        return made.laid[join.a].motion.of((point,))[0][1]
    return min(math.dist(point, corner) for hem in hems for corner in hem)


def folds_to(folds: str, join: Join) -> str:
    """To which side of a join its allowances go: 'a', 'b', 'open' (one to each), or '' where it is not said."""
    if not folds:
        return ""
    if "open" in folds or "apart" in folds:
        return "open"
    if "one side" in folds:
        return "a"
    a, b = (_is_a(folds, part) for part in (join.a, join.b))
    return "" if a == b else "a" if a else "b"


def _is_a(what: str, part: str) -> bool:
    """Whether the part is what the words name ('the side panel', 'the gusset', 'the back')."""
    words = part.split("-")
    named = what.removeprefix("the ")
    if named in ("panel", "body", "hood", "leg"):
        return words[0] not in ("gore", "gusset", "sleeve", "tail", "band") and "gore" not in words
    if named == "square":
        return words[0] == "gore"
    if named == "side panel":
        return part.startswith("side-panel")
    return named in words
