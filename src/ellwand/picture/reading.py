"""Lengths read from marks for one wearer, each with the range that holds it 9 times in 10.

What is on the body is measured along the figure from the floor to the chin, which artists keep to better than to the
head: a head that is drawn too large or too small changes nothing below it.  Everything uncertain (each mark, the
wearer's estimated measurements, the eye's slant, a limb drawn long or short, a stoop misjudged) is drawn at random many
times, always the same, and the range is that of what comes out.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from ellwand.model.picture import Marks, Reading
from ellwand.model.wearer import Wearer

Array = NDArray[np.float64]

DRAWS: Final = 4000
HEAD: Final = (0.130, 0.006)
"""Height of the head as a share of standing height, and its spread: chin height 0.870 (Drillis and Contini, Body
Segment Parameters, 1966; from memory), the spread our own figure."""
HEADS: Final = (7.5, 0.87)
"""How many heads high artists draw a figure, where its feet are not seen: 6 to 9, our own figure."""
SHOULDERS: Final = 0.05
"""Spread of the shoulders' breadth as artists draw it, as a share: our own figure."""
SLANT: Final = 0.03
"""Spread of the share by which lower parts are drawn larger than upper ones, or smaller: a view from above or below."""
LIMB: Final = 0.0125
"""Spread of a landmark's height, as a share of standing height, as artists set it: our own figure."""
ACROSS: Final = 0.02
"""Spread of widths against heights, as a share: our own figure."""
STOOP: Final = 5.0
"""Spread of a stated stoop (degrees)."""
DEEP: Final = (0.62, 0.1)
"""A skirt's depth from front to back as a share of its width, and the spread: our own figure."""
FOLDED: Final = (1.03, 0.08)
"""How much longer a hem is than the smooth outline that it is drawn with: our own figure."""
SHARES: Final = frozenset({"heads", "sleeve_share"})
"""Readings that are no lengths."""


@dataclass(frozen=True, slots=True)
class _Drawn:
    """One figure many times over, each time as it may really be: pixels to cm along the figure and across it."""

    marks: Marks
    wearer: Wearer
    points: dict[str, Array]
    down: Array
    scale: Array
    slant: Array
    stoop: Array
    height: Array
    head: Array
    limb: Callable[[], Array]
    across: Array

    def level(self, name: str) -> Array:
        """Height of a mark above the floor on the wearer (cm)."""
        below = np.einsum("ij,ij->i", self.points[name] - self.points["chin"], self.down)
        body = self.height - self.head
        share = 1.0 - below / (self.scale * self._projected(body))
        flat = share / (1.0 + self.slant - self.slant * share)
        return self._upright(flat * self._projected(body)) + self.limb()

    def _projected(self, level: Array) -> Array:
        """How high above the floor a level is seen: what is above the hip is shortened by the stoop."""
        hip = np.asarray(self.wearer["hip_to_floor"])
        return np.where(level > hip, hip + (level - hip) * np.cos(self.stoop), level)

    def _upright(self, seen: Array) -> Array:
        hip = np.asarray(self.wearer["hip_to_floor"])
        return np.where(seen > hip, hip + (seen - hip) / np.cos(self.stoop), seen)

    def apart(self, one: str, other: str) -> Array:
        """How far two marks are from each other (cm), in whatever direction."""
        return np.linalg.norm(self.points[one] - self.points[other], axis=1) / self.scale * self.across

    def has(self, *names: str) -> bool:
        return all(name in self.points for name in names)


def read(marks: Marks, wearer: Wearer, seed: int = 1) -> tuple[Reading, ...]:
    """Everything that the marks tell; what is not marked is left out."""
    drawn = _drawn(marks, wearer, np.random.default_rng(seed))
    return tuple(_ranged(what, values) for what, values in _readings(drawn))


def _drawn(marks: Marks, wearer: Wearer, rng: np.random.Generator) -> _Drawn:
    points = {
        name: np.array(at) + rng.normal(0.0, 1.0, (DRAWS, 2)) * marks.spread[name] for name, at in marks.points.items()
    }
    tall = wearer.measures["height"]
    height = rng.normal(tall.value, tall.sd, DRAWS)
    head = height * rng.normal(*HEAD, DRAWS)
    if "floor" in points:
        along = points["floor"] - points["crown"]
    else:
        lean = np.radians(marks.lean)
        along = np.tile(np.array([-np.sin(lean), np.cos(lean)]), (DRAWS, 1))
    down = along / np.linalg.norm(along, axis=1, keepdims=True)
    stoop = np.radians(np.clip(rng.normal(marks.stoop, STOOP if marks.stoop else 0.0, DRAWS), 0.0, 75.0))
    hip = wearer["hip_to_floor"]
    body = hip + (height - head - hip) * np.cos(stoop)
    if "floor" in points:
        scale = np.einsum("ij,ij->i", points["floor"] - points["chin"], down) / body
    else:
        scale = _without_floor(points, down, body, wearer["across_shoulder"], rng)

    def limb() -> Array:
        return rng.normal(0.0, LIMB, DRAWS) * height

    across = rng.normal(1.0, ACROSS, DRAWS)
    slant = rng.normal(0.0, SLANT, DRAWS)
    return _Drawn(marks, wearer, points, down, scale, slant, stoop, height, head, limb, across)


def _without_floor(
    points: dict[str, Array], down: Array, body: Array, across: float, rng: np.random.Generator
) -> Array:
    """Picture units to a cm where the feet are not seen: by the head, and by the shoulders where both are marked.

    Each is weighed by how little artists vary it (inverse variances of the logarithms).
    """
    heads = np.clip(rng.normal(*HEADS, DRAWS), 5.0, 10.0)
    seen = np.einsum("ij,ij->i", points["chin"] - points["crown"], down)
    by_head = np.log(seen * (heads - 1.0) / body)
    if not {"shoulder_left", "shoulder_right"} <= set(points):
        return np.asarray(np.exp(by_head))
    wide = np.linalg.norm(points["shoulder_right"] - points["shoulder_left"], axis=1)
    by_shoulders = np.log(wide / (across * np.clip(rng.normal(1.0, SHOULDERS, DRAWS), 0.5, 1.5)))
    weights = [1.0 / float(np.var(each)) for each in (by_head, by_shoulders)]
    return np.asarray(np.exp((weights[0] * by_head + weights[1] * by_shoulders) / sum(weights)))


def _readings(drawn: _Drawn) -> Iterator[tuple[str, Array]]:
    wearer = drawn.wearer
    if drawn.has("floor"):
        whole = np.einsum("ij,ij->i", drawn.points["floor"] - drawn.points["crown"], drawn.down)
        yield "heads", whole / np.einsum("ij,ij->i", drawn.points["chin"] - drawn.points["crown"], drawn.down)
    hem = np.maximum(drawn.level("hem"), 0.0)
    yield "hem", hem
    # the sheet's length runs from the shoulder line at the neck, as high as the nape, to the hem
    yield "length", wearer["nape_to_floor"] - hem
    if drawn.has("belt"):
        yield "belt", drawn.level("belt")
    if drawn.has("neck_depth"):
        yield "neck_depth", np.maximum(wearer["nape_to_floor"] - drawn.level("neck_depth"), 1.0)
    if drawn.has("split_top"):
        yield "split", np.maximum(drawn.level("split_top") - hem, 0.0)
    if drawn.has("sleeve_end", "wrist"):
        share = _along_arm(drawn)
        yield "sleeve_share", share
        yield "sleeve", share * wearer["arm_length"]
    if drawn.has("opening_top", "opening_bottom"):
        yield "opening", drawn.apart("opening_top", "opening_bottom")
    if drawn.has("hem_left", "hem_right"):
        yield from _hem(drawn)


def _along_arm(drawn: _Drawn) -> Array:
    """How far down the arm the sleeve ends, as a share of shoulder to wrist, along the elbow where it is marked."""
    end, wrist = drawn.points["sleeve_end"], drawn.points["wrist"]
    near = [name for name in ("shoulder_left", "shoulder_right") if name in drawn.points]
    if not near:
        start = drawn.points["chin"] + drawn.down * 0.05 * (drawn.scale * drawn.height)[:, None]
    else:
        middle = {name: float(np.linalg.norm(drawn.points[name].mean(0) - wrist.mean(0))) for name in near}
        start = drawn.points[min(near, key=lambda name: middle[name])]
    line = [start, *([drawn.points["elbow"]] if drawn.has("elbow") else []), wrist]
    whole = sum(np.linalg.norm(b - a, axis=1) for a, b in itertools.pairwise(line))
    if drawn.has("elbow"):
        elbow = drawn.points["elbow"]
        upper = np.linalg.norm(elbow - start, axis=1)
        below = np.linalg.norm(end - elbow, axis=1)
        # beyond the elbow where the end is nearer to the wrist's side of it
        beyond = np.einsum("ij,ij->i", end - elbow, wrist - elbow) > 0
        done = np.where(beyond, upper + below, np.linalg.norm(end - start, axis=1))
    else:
        done = np.einsum("ij,ij->i", end - start, wrist - start) / np.linalg.norm(wrist - start, axis=1)
    return np.asarray(np.clip(done / whole, 0.05, 1.3))


def _hem(drawn: _Drawn) -> Iterator[tuple[str, Array]]:
    """The hem's drawn width, and its length all round: an oval of that width, and its folds.

    The oval's girth is Ramanujan's first approximation.
    """
    rng = np.random.default_rng(7)
    wide = drawn.apart("hem_left", "hem_right")
    yield "hem_width", wide
    a, b = wide / 2, wide / 2 * np.clip(rng.normal(*DEEP, DRAWS), 0.3, 1.0)
    girth = np.pi * (3 * (a + b) - np.sqrt((3 * a + b) * (a + 3 * b)))
    folds = drawn.marks.answers.get("folds")
    folded = np.ones(DRAWS) if folds == "nowhere" else np.clip(rng.normal(*FOLDED, DRAWS), 1.0, 2.0)
    yield "sweep", girth * folded


def _ranged(what: str, values: Array) -> Reading:
    low, middle, high = np.percentile(values, [5.0, 50.0, 95.0])
    return Reading(what, float(middle), float(low), float(high))
