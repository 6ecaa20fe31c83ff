"""Bridges of a stencil: islands of card found, and tied to the rest where that harms the drawing least.

A part of the card is solid where a disc as wide as a bridge finds room in it.  The solid parts are joined by strips as
wide as that disc, from one to the next along a tree, until they are one; what could fall out or tear off is held.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from shapely import Polygon, get_parts
from shapely.geometry.base import BaseGeometry

from ellwand.adorn.stencils.card_shapes import HAIR, about, corners_of, long_of, longer, middle_of, on_middle_lines
from ellwand.adorn.stencils.tongues import CROSSES, places
from ellwand.errors import InternalFault
from ellwand.model.stencil import Bridge

SPECK: Final = 0.01
"""Smaller bits of card or window (cm²) cannot be cut: our own figure."""
CURVE: Final = 16
"""Sides of a quarter circle."""
ROUNDS: Final = 8
"""Bridges can leave new necks beside them; after so many rounds more something is wrong."""
TIES: Final = 24
"""So many tongues are tied at most."""
HELD_BY_ONE: Final = 1.5
"""An island no longer than this (cm) hangs well enough by one bridge: our own figure."""
UNHELD: Final = 10.0
"""No more than this of an island's edge (cm) goes without a bridge: our own figure."""
STOUT: Final = (3.0, 12.0, 0.5)
"""Islands longer than the first have wider bridges, from the second on wider by this share: our own figure."""
BLUNTS: Final = 3.0
"""Nearer to a corner than this many widths a bridge shows: our own figure."""


def bridged(windows: BaseGeometry, sheet: Polygon, width: float) -> tuple[BaseGeometry, tuple[Bridge, ...], int]:
    """What is left of the windows, the bridges across them, and how many islands there were.

    ``windows`` lie inside ``sheet``, a bridge's ``width`` from its edge at least (cm).
    """
    cards = [part for part in get_parts(sheet.difference(windows)) if part.area >= SPECK]
    windows = sheet.difference(shapely.union_all(cards))
    bridges: list[Bridge] = []
    for turn in range(ROUNDS + TIES):
        solid = _Solid(windows, sheet, width)
        if len(solid.cores) > 1:
            new = solid.tied(all_round=turn == 0)
        elif turn >= TIES or not (new := solid.loosest()):
            return windows, tuple(bridges), len(cards) - 1
        windows = _without(windows, [strip for strip, _ in new])
        bridges += [bridge for _, bridge in new]
    raise InternalFault("a stencil's card could not be made one piece")


def _without(windows: BaseGeometry, strips: Sequence[BaseGeometry]) -> BaseGeometry:
    """The windows with strips of card across them; slivers that a knife cannot cut out stay card."""
    left = get_parts(windows.difference(shapely.union_all(strips)))
    kept = [part for part in left if part.area >= SPECK and not part.buffer(-0.02).is_empty]
    old = [part for part in get_parts(windows) if any(part.equals(each) for each in left)]
    return shapely.union_all([*kept, *old])


@dataclass(frozen=True, slots=True)
class _Way:
    """One place for a bridge between two solid parts; ``harm``: what it takes, made dearer where it shows."""

    pair: tuple[int, int]
    line: BaseGeometry
    strip: BaseGeometry
    wide: float
    harm: float


class _Solid:
    """The solid parts of a card, and the ways from one to the next."""

    def __init__(self, windows: BaseGeometry, sheet: Polygon, width: float) -> None:
        self.windows, self.width = windows, width
        self.cores: list[BaseGeometry] = []
        self.of: list[int] = []
        self.cards = list(get_parts(sheet.difference(windows)))
        for i, card in enumerate(self.cards):
            inner = card.buffer(HAIR - width / 2, quad_segs=CURVE)
            for core in [middle_of(card)] if inner.is_empty else get_parts(inner):
                self.cores.append(core)
                self.of.append(i)
        shapely.prepare(windows)
        self.outer = max(range(len(self.cards)), key=lambda i: long_of(self.cards[i]))
        self.corners = shapely.STRtree(corners_of(windows))
        self.solid = shapely.union_all([core for core in self.cores if core.area > 0])
        self.ways: dict[tuple[int, int], list[_Way]] = {}

    def tied(self, *, all_round: bool) -> list[tuple[BaseGeometry, Bridge]]:
        """Strips and bridges that make all one; ``all_round``: and hold long islands by two, four and so on."""
        chosen = self._tree()
        if all_round:
            for island in range(len(self.cards)):
                if island != self.outer:
                    self._held_all_round(island, chosen)
        return [(way.strip, _bridge(way, self.windows)) for way in chosen]

    def loosest(self) -> list[tuple[BaseGeometry, Bridge]]:
        """A bridge for the loosest tongue of a card that is one; none where nothing is loose."""
        lines = places(self.cores[0], self.windows, self.width)
        ways = self._way((0, 0), np.array(lines, dtype=object))
        best = min(ways, key=lambda way: way.harm, default=None)
        return [(best.strip, _bridge(best, self.windows))] if best else []

    def _tree(self) -> list[_Way]:
        """The least harm that joins all (Kruskal's way: the cheapest bridge first that joins what is still apart)."""
        pairs = self._neighbours()
        for pair in pairs:
            self.ways[pair] = self._ways(pair)
        chosen: list[_Way] = []
        group = list(range(len(self.cores)))
        order = sorted((ways[0] for ways in self.ways.values() if ways), key=lambda way: (way.harm, way.pair))
        for way in order:
            group = self._joined(way, group, chosen)
        if len(set(group)) > 1:
            apart = [
                pair for pair in itertools.combinations(range(len(group)), 2) if len({group[i] for i in pair}) == 2
            ]
            straight = sorted(map(self._straight, apart), key=lambda way: (way.line.length, way.pair))
            for way in straight:
                group = self._joined(way, group, chosen)
        return chosen

    def _joined(self, way: _Way, group: list[int], chosen: list[_Way]) -> list[int]:
        """The groups of parts once a way is taken, which it is where it joins two of them."""
        a, b = (group[i] for i in way.pair)
        if a == b:
            return group
        chosen.append(_clear_of(chosen, self.ways.get(way.pair, []), self.windows) or way)
        return [a if each == b else each for each in group]

    def _neighbours(self) -> list[tuple[int, int]]:
        """Pairs near each other: of each part the nearest few."""
        count = len(self.cores)
        every = np.array(self.cores, dtype=object)
        pairs = set()
        for i in range(count):
            near = np.argsort(shapely.distance(every[i], every), kind="stable")
            pairs |= {(min(i, j), max(i, j)) for j in near[:6].tolist() if j != i}
        return sorted(pairs)

    def _ways(self, pair: tuple[int, int]) -> list[_Way]:
        """Places for a bridge between two parts, the least harmful first."""
        a, b = sorted((self.cores[i] for i in pair), key=lambda core: core.length)
        edge = a.boundary if a.area > 0 else a
        count = int(min(64, max(1, edge.length / (self.width / 2))))
        spots = [edge.interpolate((i + 0.5) / count, normalized=True) for i in range(count)] if edge.length else [edge]
        spots += on_middle_lines(edge)
        lines = shapely.shortest_line(np.array([*spots, a], dtype=object), b)
        long = shapely.length(lines)
        lines = lines[long < 3 * long.min() + 2 * self.width]
        near = about(self.solid, lines, HAIR)
        inside = shapely.length(shapely.intersection(lines, near)) < 0.05
        return sorted(self._way(pair, lines[inside]), key=lambda way: way.harm)

    def _straight(self, pair: tuple[int, int]) -> _Way:
        line = shapely.shortest_line(*(self.cores[i] for i in pair))
        return next(iter(self._way(pair, np.array([line], dtype=object))))

    def _way(self, pair: tuple[int, int], lines: np.ndarray) -> Iterable[_Way]:
        wide = self.width * self._stout(pair)
        ends = [self.cores[i] for i in pair if self.cores[i].area == 0]
        near = about(self.windows, lines, 2 * wide) if len(lines) else self.windows
        for line in lines:
            # a bridge ends in the middle of what is too small for it, and goes on by half its width
            for end in ends:
                line = longer(line, end, self.width / 2)
            strip = line.buffer(wide / 2, cap_style="flat") if line.length > HAIR else line.centroid.buffer(wide / 2)
            taken = strip.intersection(near).area
            yield _Way(pair, line, strip, wide, (taken + 1e-3 * line.length) * self._shows(pair, line))

    def _shows(self, pair: tuple[int, int], line: BaseGeometry) -> float:
        """Dearer at a corner of a window, askew, and away from the middle line of what it holds."""
        factor = 1.0
        # where it widens a neck there are corners, and they are to go
        corners = self.corners.query(line, "dwithin", BLUNTS * self.width)
        if len(corners) and line.intersection(self.windows).length > CROSSES:
            nearest = shapely.distance(self.corners.geometries[corners], line).min()
            factor += 0.8 * (1.0 - nearest / (BLUNTS * self.width))
        (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
        if line.length > HAIR:
            factor += 0.06 * (1 - abs(y1 - y0) / line.length)
        island = min((self.cards[self.of[i]] for i in pair), key=long_of)
        away = abs((x0 + x1) / 2 - island.envelope.centroid.x) / max(long_of(island), self.width)
        return float(factor + 0.06 * min(1.0, away))

    def _stout(self, pair: tuple[int, int]) -> float:
        """How much wider than asked."""
        held = [long_of(self.cards[self.of[i]]) for i in pair if self.of[i] != self.outer]
        least, most, more = STOUT
        if len({self.of[i] for i in pair}) == 1 or not held:
            return 1.0
        return 1.0 + more * min(1.0, max(0.0, (min(held) - least) / (most - least)))

    def _held_all_round(self, island: int, chosen: list[_Way]) -> None:
        """More bridges for an island, each as far round it from the others as does little harm."""
        card = self.cards[island]
        if card.area == 0 or long_of(card) <= max(HELD_BY_ONE, 3 * self.width):
            return
        edge = card.exterior
        wanted = 2 * max(1, math.ceil(edge.length / UNHELD / 2))
        within = Polygon(edge)
        away = [way for ways in self.ways.values() for way in ways if self._leaves(way, island, within)]
        held = [self._spot(way, edge) for way in chosen if self._leaves(way, island, within)]
        while len(held) < wanted:
            clear = [way for way in away if _overlap(way, chosen, self.windows) < 0.1 * way.strip.area]
            apart = {id(way): _apart(self._spot(way, edge), held) for way in clear}
            fair = [way for way in clear if apart[id(way)] > 0.4 / wanted]
            if not fair:
                return
            best = min(fair, key=lambda way: way.harm * (1 + 3 * (1 - min(1.0, apart[id(way)] * wanted)) ** 2))
            chosen.append(best)
            held.append(self._spot(best, edge))

    def _leaves(self, way: _Way, island: int, within: Polygon) -> bool:
        """Whether a bridge goes outward from an island, and not to what it holds itself."""
        others = [i for i in way.pair if self.of[i] != island]
        return len(others) == 1 and not within.contains(self.cores[others[0]].representative_point())

    def _spot(self, way: _Way, edge: BaseGeometry) -> float:
        """Where round an island's edge a bridge leaves it: 0 … 1."""
        across = way.line.intersection(self.windows)
        return float(edge.project((way.line if across.is_empty else across).centroid, normalized=True))


def _apart(spot: float, others: Sequence[float]) -> float:
    """How far round from the nearest of the others, as a share of the whole way; a half at most."""
    return min((min(abs(spot - each), 1 - abs(spot - each)) for each in others), default=0.5)


def _clear_of(chosen: Sequence[_Way], ways: Sequence[_Way], windows: BaseGeometry) -> _Way | None:
    """The least harmful way that crosses no bridge chosen before."""
    return next((way for way in ways if _overlap(way, chosen, windows) < 0.1 * way.strip.area), None)


def _overlap(way: _Way, chosen: Sequence[_Way], windows: BaseGeometry) -> float:
    """What a strip has in common with the strips chosen before, within windows (cm²)."""
    return math.fsum(
        way.strip.intersection(each.strip).intersection(windows).area
        for each in chosen
        if way.strip.intersects(each.strip)
    )


def _bridge(way: _Way, windows: BaseGeometry) -> Bridge:
    a, b = ((float(x), float(y)) for x, y in (way.line.coords[0], way.line.coords[-1]))
    across = float(way.line.intersection(windows).length)
    return Bridge(a, b, way.wide, across if across > way.wide / 2 else 0.0)
