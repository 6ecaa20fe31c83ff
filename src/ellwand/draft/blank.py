"""From named runs of line to pieces, and the book that keeps alike pieces once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import accumulate

import numpy as np

from ellwand.draft.seamline import Segment
from ellwand.geometry.lines import Line, backwards, bounds, chain, length, mirror, shift, split
from ellwand.geometry.offset import Margin, cut_ring
from ellwand.model.draft import EdgeRef, Part, Seam
from ellwand.model.piece import Edge, EdgeKind, Guide, Level, Piece, Place


@dataclass(frozen=True, slots=True)
class Run:
    """One edge to be: walked with the cloth on the left hand."""

    id: str
    kind: EdgeKind
    points: Line
    allowance: float
    turned: bool = False


def climb(stem: str, line: Line, segments: Sequence[Segment], allowance: float) -> list[Run]:
    """A line from its start to its end as one run for each segment, in proportion to their lengths."""
    scale = length(line) / sum(size for _, _, size in segments)
    cuts = [reach * scale for reach in accumulate(size for _, _, size in segments[:-1])]
    return [
        Run(f"{stem}-{tag}", kind, points, allowance)
        for (tag, kind, _), points in zip(segments, split(line, cuts), strict=True)
    ]


def walked_back(runs: Sequence[Run]) -> list[Run]:
    """The same runs from the other end."""
    return [replace(run, points=backwards(run.points)) for run in reversed(runs)]


@dataclass(frozen=True, slots=True)
class Blank:
    """A piece to be: its outer ring and holes as runs, end to end."""

    name: str
    place: Place
    ring: tuple[Run, ...]
    holes: tuple[tuple[Run, ...], ...] = ()
    levels: tuple[Level, ...] = ()
    guides: tuple[Guide, ...] = ()
    small: bool = False


def _ring(runs: Sequence[Run]) -> Line:
    return chain([run.points for run in runs])[:-1]


def _moved(blank: Blank, dx: float, dy: float) -> Blank:
    def runs(ring: tuple[Run, ...]) -> tuple[Run, ...]:
        return tuple(replace(run, points=shift(run.points, dx, dy)) for run in ring)

    return replace(
        blank,
        ring=runs(blank.ring),
        holes=tuple(runs(hole) for hole in blank.holes),
        levels=tuple(
            replace(
                level,
                base_y=level.base_y + dy,
                centre=level.centre and (level.centre[0] + dx, level.centre[1] + dy),
            )
            for level in blank.levels
        ),
        guides=tuple(replace(guide, points=shift(guide.points, dx, dy)) for guide in blank.guides),
    )


def _signature(ring: tuple[Run, ...], holes: tuple[tuple[Run, ...], ...], *, mirrored: bool) -> object:
    """What makes two pieces one: the same named edges in the same places."""
    runs = sorted((*ring, *(run for hole in holes for run in hole)), key=lambda run: run.id)
    lines = [backwards(mirror(run.points)) if mirrored else run.points for run in runs]
    points = np.array([point for line in lines for point in line])
    places = np.round(points - points.min(axis=0), 4) + 0.0
    return tuple((run.id, run.kind, run.allowance, len(run.points)) for run in runs), places.tobytes()


@dataclass
class Book:
    """The pieces, parts and seams of one garment while it is being drafted."""

    cloth: str
    finish: str
    _blanks: dict[str, Blank] = field(default_factory=dict)
    _known: dict[object, tuple[str, bool]] = field(default_factory=dict)
    _wheres: dict[str, dict[str, None]] = field(default_factory=dict)
    _parts: list[Part] = field(default_factory=list)
    _seams: list[Seam] = field(default_factory=list)

    def add(self, part: str, blank: Blank, *, mirrored: bool = False, where: str = "") -> str:
        """Add one part cut as ``blank`` (or as its mirror image); alike pieces are kept once.

        ``where``: the place that tells this piece from others of its name.
        """
        kind = (blank.name, *(round(level.radius, 4) for level in blank.levels))
        same = (kind, _signature(blank.ring, blank.holes, mirrored=False))
        if same not in self._known:
            name = blank.name.replace(" ", "-")
            taken = sum(1 for known in self._blanks if known == name or known.startswith(f"{name}-no"))
            piece = f"{name}-no{taken + 1}" if taken else name
            self._blanks[piece] = blank
            self._known.setdefault((kind, _signature(blank.ring, blank.holes, mirrored=True)), (piece, True))
            self._known[same] = (piece, False)
        piece, other_way = self._known[same]
        if where:
            self._wheres.setdefault(piece, {})[where] = None
        self._parts.append(Part(part, piece, mirrored != other_way))
        return part

    def sew(self, a: EdgeRef, b: EdgeRef, kind: str, ease: float = 0.0) -> None:
        """Join two edges; ``a`` is longer than ``b`` by ``ease`` cm, on purpose."""
        self._seams.append(Seam(f"seam-{len(self._seams) + 1}", a, b, kind, self.finish, ease))

    def pieces(self) -> tuple[Piece, ...]:
        """Every piece with its outlines, set so that its cut outline starts at (0, 0)."""
        return tuple(self._piece(name, blank) for name, blank in self._blanks.items())

    def parts(self) -> tuple[Part, ...]:
        """Every sewn instance."""
        return tuple(self._parts)

    def seams(self) -> tuple[Seam, ...]:
        """Every seam."""
        return tuple(self._seams)

    def _piece(self, name: str, blank: Blank) -> Piece:
        low_x, low_y, _, _ = bounds(_cut(blank.ring))
        blank = _moved(blank, -low_x, -low_y)
        count = sum(1 for part in self._parts if part.piece == name)
        label = self._label(name)
        return Piece(
            id=name,
            name=label,
            cloth=self.cloth,
            count=count,
            place=blank.place,
            sewn=_ring(blank.ring),
            sewn_holes=tuple(_ring(hole) for hole in blank.holes),
            cut=_cut(blank.ring),
            cut_holes=tuple(_cut(hole) for hole in blank.holes),
            edges=tuple(
                Edge(run.id, run.kind, run.points, run.allowance, run.turned)
                for run in (*blank.ring, *(run for hole in blank.holes for run in hole))
            ),
            levels=blank.levels,
            guides=blank.guides,
            small=blank.small,
        )

    def _label(self, name: str) -> str:
        """What the maker calls a piece: told from others of its name by its place, or else by a number."""
        plain = self._blanks[name].name
        alike = [other for other, blank in self._blanks.items() if blank.name == plain]
        if len(alike) == 1:
            return plain
        wheres = {other: list(self._wheres.get(other, {})) for other in alike}
        called = {other: f"{where[0]} {plain}" if len(where) == 1 else plain for other, where in wheres.items()}
        if list(called.values()).count(called[name]) == 1:
            return called[name]
        return f"{plain} {alike.index(name) + 1}"


def _cut(runs: Sequence[Run]) -> Line:
    return cut_ring([Margin(run.points, run.allowance, run.turned) for run in runs])
