"""Eyelets, buttons, ties, hooks and pins on a piece: a sign at each place, and a note of how far apart they sit."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from typing import Final

from ellwand.geometry.lines import Line, Point, arc
from ellwand.language import N_, _
from ellwand.model.drawing import Stroke
from ellwand.model.piece import Mark, MarkKind, Piece, edge_of

NAMES: Final[dict[MarkKind, tuple[str, str]]] = {
    "eyelet": (N_("eyelet"), N_("eyelets")),
    "button": (N_("button or hole"), N_("buttons or holes")),
    "toggle": (N_("toggle or loop"), N_("toggles or loops")),
    "tie": (N_("tie"), N_("ties")),
    "hook": (N_("hook or eye"), N_("hooks or eyes")),
    "pin": (N_("pin"), N_("pins")),
}


def fastening_signs(piece: Piece, size: float) -> list[Stroke]:
    """A ring for an eyelet, a cross for a button, toggle or hook, a bar for a tie or pin.

    ``size``: half of it (cm), or less where they sit close together.
    """
    nearest = [b.distance - a.distance for row in _rows(piece).values() for a, b in itertools.pairwise(row)]
    half = min([size, *(0.35 * gap for gap in nearest)])
    return [stroke for mark in piece.marks for stroke in _sign(mark, half)]


def _sign(mark: Mark, size: float) -> list[Stroke]:
    x, y = mark.at
    if mark.kind == "eyelet":
        return [Stroke("mark", arc(mark.at, size, 0.0, 2 * math.pi, 0.5))]
    rising: Line = ((x - size, y - size), (x + size, y + size))
    falling: Line = ((x - size, y + size), (x + size, y - size))
    if mark.kind in ("tie", "pin"):
        return [Stroke("mark", ((x - 1.5 * size, y), (x + 1.5 * size, y)))]
    return [Stroke("mark", rising), Stroke("mark", falling)]


def fastening_rows(piece: Piece, say: Callable[[float], str]) -> list[tuple[Point, list[str]]]:
    """For each row of fastenings its topmost place and its note in lines; rows alike on one piece are told once."""
    notes: dict[str, tuple[Point, list[str]]] = {}
    for (edge, part), group in _rows(piece).items():
        places = [mark.distance for mark in group]
        count = len(group)
        lines = [_on(part, f"{count} {_(NAMES[group[0].kind][count > 1])}"), *_spaced(places, say, _from(piece, edge))]
        notes.setdefault(" ".join(lines), (max((mark.at for mark in group), key=lambda at: at[1]), lines))
    return list(notes.values())


def _rows(piece: Piece) -> dict[tuple[str, str], list[Mark]]:
    out: dict[tuple[str, str], list[Mark]] = {}
    for mark in sorted(piece.marks, key=lambda mark: mark.distance):
        out.setdefault((mark.edge, mark.part), []).append(mark)
    return out


def _on(part: str, fastenings: str) -> str:
    if part.endswith("-left"):
        return _("{fastenings} on the left", fastenings=fastenings)
    if part.endswith("-right"):
        return _("{fastenings} on the right", fastenings=fastenings)
    return fastenings


Start = tuple[str, str, str]
CUFF: Final[Start] = (N_("{distance} from the cuff"), N_("at the cuff"), N_("from the cuff"))
ARMPIT: Final[Start] = (N_("{distance} from the armpit"), N_("at the armpit"), N_("from the armpit"))
NECK: Final[Start] = (N_("{distance} from the neck"), N_("at the neck"), N_("from the neck"))


def _from(piece: Piece, edge: str) -> Start:
    if piece.place == "sleeve":
        return CUFF
    at_side = edge_of(piece, edge).kind == "opening" and not edge.startswith("centre")
    return ARMPIT if at_side else NECK


def _spaced(places: list[float], say: Callable[[float], str], start: Start) -> list[str]:
    """'1 from the neck, then 2.3 apart'; a row that is not even has its second and last place told too."""
    first = _(start[0], distance=say(places[0])) if places[0] > 0.05 else _(start[1])
    gaps = [b - a for a, b in itertools.pairwise(places)]
    if not gaps:
        return [first]
    if max(gaps) - min(gaps) < 0.01:
        return [first, _("then {distance} apart", distance=say(gaps[0]))]
    if len(gaps) < 4:
        return [f"{', '.join(say(place) for place in places)}", _(start[2])]
    return [
        first,
        _("then {distance}, then", distance=say(places[1])),
        _("{distance} apart; last {last}", distance=say(gaps[1]), last=say(places[-1])),
    ]
