"""Outlines written as SVG 1.1 writes them: path data, transforms and lengths, curves as fine polylines.

Source: W3C, Scalable Vector Graphics (SVG) 1.1, second edition, chapters 7 and 8 and appendix F.6.
"""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Callable, Iterator
from typing import Final

from ellwand.errors import BadInput
from ellwand.geometry.lines import Line, Point
from ellwand.language import _

Matrix = tuple[float, float, float, float, float, float]
"""a, b, c, d, e, f of SVG: x' = a x + c y + e and y' = b x + d y + f."""
PLAIN: Final[Matrix] = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
FINE: Final = math.radians(3.75)
"""An arc is drawn in steps of this angle."""
CURVE: Final = 24
"""A Bézier curve is drawn in so many steps."""
MOST_POINTS: Final = 20_000
"""No motif to be stencilled needs more."""
LARGEST: Final = 1e6
"""Nor is any drawn so large (user units)."""

_NUMBER = re.compile(r"[\s,]*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)")
_FLAG = re.compile(r"[\s,]*([01])")
_COMMAND = re.compile(r"[\s,]*([MmZzLlHhVvCcSsQqTtAa])")
_END = re.compile(r"[\s,]*\Z")
_TRANSFORM = re.compile(r"[\s,]*([a-zA-Z]+)\s*\(([^()]*)\)")
_LENGTH = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)(px|pt|pc|mm|cm|in)?\s*")
_PER: Final = {"": 1.0, "px": 1.0, "pt": 4 / 3, "pc": 16.0, "mm": 96 / 25.4, "cm": 96 / 2.54, "in": 96.0}
_TAKES: Final = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}


def parse_length(text: str) -> float:
    """A length in user units (px); 96 to the inch, as CSS has it.

    Raises BadInput for a share or a unit that depends on type.
    """
    match = _LENGTH.fullmatch(text)
    if not match:
        raise BadInput("", _("{text!r} is not a length here", text=text[:30]), _("write a plain number"))
    return finite(float(match[1]) * _PER[match[2] or ""])


def finite(value: float) -> float:
    """The number itself.

    Raises BadInput where it is endless or past all measure.
    """
    if not abs(value) <= LARGEST:
        raise BadInput("", _("a number in the drawing is past all measure"), _("draw it within a million units"))
    return value


def too_fine() -> BadInput:
    """What a drawing of too many points is refused with."""
    return BadInput("", _("the drawing has too many points for a motif"), _("simplify it, or draw it plainer"))


def numbers(text: str) -> list[float]:
    """All numbers of a list, separated by spaces or commas.

    Raises BadInput where something else stands among them.
    """
    out, at = [], 0
    while match := _NUMBER.match(text, at):
        out.append(finite(float(match[1])))
        at = match.end()
        if len(out) > 2 * MOST_POINTS:
            raise too_fine()
    if text[at:].strip(" \t\r\n,"):
        raise BadInput(
            "", _("{text!r} is not a number", text=text[at : at + 20].strip()), _("save the drawing anew as plain SVG")
        )
    return out


def apply(matrix: Matrix, point: Point) -> Point:
    """The point moved by the matrix."""
    a, b, c, d, e, f = matrix
    return a * point[0] + c * point[1] + e, b * point[0] + d * point[1] + f


def times(first: Matrix, then: Matrix) -> Matrix:
    """The matrix that does ``then`` and after it ``first``, as nested transforms do."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (
        a * g + c * h,
        b * g + d * h,
        a * i + c * j,
        b * i + d * j,
        a * k + c * m + e,
        b * k + d * m + f,
    )


def parse_transform(text: str) -> Matrix:
    """A transform list as one matrix.

    Raises BadInput where it cannot be read.
    """
    out, at = PLAIN, 0
    while match := _TRANSFORM.match(text, at):
        given = numbers(match[2])
        try:
            step = _TRANSFORMS[match[1]](*given)
        except (KeyError, TypeError):
            raise BadInput(
                "", _("{text!r} is not a transform", text=match[0].strip()[:40]), _("save it anew as plain SVG")
            ) from None
        out = times(out, step)
        at = match.end()
    if text[at:].strip(" \t\r\n,") or not all(math.isfinite(each) for each in out):
        raise BadInput("", _("{text!r} is not a transform", text=text[:40]), _("save it anew as plain SVG"))
    return out


def _rotate(degrees: float, x: float = 0.0, y: float = 0.0) -> Matrix:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (c, s, -s, c, x - c * x + s * y, y - s * x - c * y)


def _scale(x: float, y: float | None = None) -> Matrix:
    return (x, 0.0, 0.0, x if y is None else y, 0.0, 0.0)


def _matrix(a: float, b: float, c: float, d: float, e: float, f: float) -> Matrix:
    return (a, b, c, d, e, f)


def _translate(x: float, y: float = 0.0) -> Matrix:
    return (1.0, 0.0, 0.0, 1.0, x, y)


def _skew_x(degrees: float) -> Matrix:
    return (1.0, 0.0, math.tan(math.radians(degrees)), 1.0, 0.0, 0.0)


def _skew_y(degrees: float) -> Matrix:
    return (1.0, math.tan(math.radians(degrees)), 0.0, 1.0, 0.0, 0.0)


_TRANSFORMS: Final[dict[str, Callable[..., Matrix]]] = {
    "matrix": _matrix,
    "translate": _translate,
    "scale": _scale,
    "rotate": _rotate,
    "skewX": _skew_x,
    "skewY": _skew_y,
}


def parse_path(data: str) -> list[tuple[Line, bool]]:
    """The subpaths of path data as polylines, and whether each is closed by its last command.

    Raises BadInput where the data cannot be read, or has too many points.
    """
    out: list[tuple[Line, bool]] = []
    here: Point = (0.0, 0.0)
    start, last_control, last = here, here, ""
    line: list[Point] = []
    points = 0
    for command, given in _commands(data):
        kind, relative = command.upper(), command.islower()
        if not last and kind != "M":
            raise BadInput("", _("a path does not begin with a move"), _("save the drawing anew as plain SVG"))
        if kind == "M":
            if len(line) > 1:
                out.append((tuple(line), False))
            here = start = _to(given, here, relative)
            line = [here]
        elif kind == "Z":
            if len(line) > 1:
                out.append((tuple(line), True))
            here, line = start, [start]
        else:
            bit, control = _leg(kind, given, here, relative, last_control if last in _SMOOTH[kind] else here)
            line += bit
            here, last_control = bit[-1], control
            points += len(bit)
        last = kind
        if points > MOST_POINTS:
            raise too_fine()
    if len(line) > 1:
        out.append((tuple(line), False))
    return out


_SMOOTH: Final = {"S": "CS", "T": "QT"} | dict.fromkeys("LHVCQA", "\0")
"""After which commands the reflected control point of the one before counts."""


def _commands(data: str) -> Iterator[tuple[str, list[float]]]:
    at, command = 0, ""
    while not _END.match(data, at):
        if match := _COMMAND.match(data, at):
            command, at = match[1], match.end()
        elif not command or command in "Zz":
            raise _unreadable(data, at)
        given: list[float] = []
        for i in range(_TAKES[command.upper()]):
            flag = command in "Aa" and i in (3, 4)
            match = (_FLAG if flag else _NUMBER).match(data, at)
            if not match:
                raise _unreadable(data, at)
            given.append(finite(float(match[1])))
            at = match.end()
        yield command, given
        # further pairs after a move are lines
        command = {"M": "L", "m": "l"}.get(command, command)


def _unreadable(data: str, at: int) -> BadInput:
    return BadInput(
        "",
        _("a path cannot be read at {text!r}", text=data[at : at + 20].strip()),
        _("save the drawing anew as plain SVG"),
    )


def _to(given: list[float], here: Point, relative: bool, i: int = 0) -> Point:
    x, y = given[i : i + 2]
    return (here[0] + x, here[1] + y) if relative else (x, y)


def _leg(kind: str, given: list[float], here: Point, relative: bool, control: Point) -> tuple[list[Point], Point]:
    """The points after ``here`` of one command, and its last control point."""
    if kind == "H":
        end = (given[0] + (here[0] if relative else 0.0), here[1])
        return [end], end
    if kind == "V":
        end = (here[0], given[0] + (here[1] if relative else 0.0))
        return [end], end
    if kind == "A":
        end = _to(given, here, relative, 5)
        return arc_points(here, (given[0], given[1]), given[2], bool(given[3]), bool(given[4]), end), end
    points = [_to(given, here, relative, i) for i in range(0, len(given), 2)]
    if kind == "L":
        return points, points[-1]
    if kind in "ST":
        points.insert(0, (2 * here[0] - control[0], 2 * here[1] - control[1]))
    return _bezier([here, *points]), points[-2]


def _bezier(poles: list[Point]) -> list[Point]:
    """Points after the first of a Bézier curve, by de Casteljau's division."""
    out = []
    for i in range(1, CURVE + 1):
        t, row = i / CURVE, poles
        while len(row) > 1:
            row = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for a, b in itertools.pairwise(row)]
        out.append(row[0])
    out[-1] = poles[-1]
    return out


def arc_points(start: Point, radii: Point, degrees: float, large: bool, sweep: bool, end: Point) -> list[Point]:
    """Points after ``start`` of an elliptical arc, by SVG 1.1, appendix F.6.5 and F.6.6."""
    rx, ry = abs(radii[0]), abs(radii[1])
    if not rx or not ry or start == end:
        return [end]
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    hx, hy = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = c * hx + s * hy, -s * hx + c * hy
    stretch = math.sqrt((x / rx) ** 2 + (y / ry) ** 2)
    if stretch > 1:
        rx, ry = rx * stretch, ry * stretch
    inner = (rx * y) ** 2 + (ry * x) ** 2
    root = math.sqrt(max(0.0, (rx * ry) ** 2 / inner - 1)) if inner else 0.0
    root = root if large != sweep else -root
    cx, cy = root * rx * y / ry, -root * ry * x / rx
    begin = math.atan2((y - cy) / ry, (x - cx) / rx)
    turn = (math.atan2((-y - cy) / ry, (-x - cx) / rx) - begin) % math.tau
    if not sweep:
        turn -= math.tau
    mx, my = c * cx - s * cy + (start[0] + end[0]) / 2, s * cx + c * cy + (start[1] + end[1]) / 2
    steps = max(2, math.ceil(abs(turn) / FINE))
    out = []
    for i in range(1, steps):
        u, v = rx * math.cos(begin + turn * i / steps), ry * math.sin(begin + turn * i / steps)
        out.append((c * u - s * v + mx, s * u + c * v + my))
    return [*out, end]
