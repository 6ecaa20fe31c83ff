"""Whether things can lie within a length at all, asked of CP-SAT (ortools, Apache-2.0).

The question is eased, never made harder, so a 'no' holds for every real lay: positions are counted in whole hundredths
of a millimetre, rounded down; each thing is replaced by convex outlines within it, of which no two may overlap (one
lies beyond some edge of the other's no-fit polygon); and chords, replaced by steps under them, add up to no more than
the width across the cloth and the length along it.
"""

from __future__ import annotations

import contextlib
import math
import threading
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final

from ellwand.geometry.lines import mirror, shift, turn
from ellwand.lay.bounds.cores import steps
from ellwand.lay.bounds.kinds import Kind, Way, key_of
from ellwand.lay.bounds.parting import no_fit
from ellwand.lay.bounds.sections import chords_of
from ellwand.lay.task import Stop

UNITS: Final = 1000
"""Units to a centimetre."""

SLACK: Final = 1e-4
"""A number of units this little below a whole one is that one (a ten-millionth of a centimetre)."""

SLANT: Final = 1_000_000
"""Slanted edges' normals are rounded to one part in this."""

LOOK: Final = 0.03
"""How often (s) the maker's stop is looked at."""


Places = Sequence[tuple[Kind, Way, float, float]]
"""Kind, way and least corner (cm) of every thing."""


@dataclass(frozen=True, slots=True)
class Answer:
    """``fits`` is None when the question was not settled; ``effort`` is the deterministic time that it took.

    ``places``, where they fit, may overlap by the rounding (0.01 mm), and where a piece is hollow.
    """

    fits: bool | None
    effort: float
    places: Places = ()

    @property
    def length(self) -> float:
        """How much of the length they take (cm)."""
        return max((y + way.height for _, way, _, y in self.places), default=math.inf)


@dataclass(frozen=True, slots=True)
class _Thing:
    """One thing in the model: its kind, where it lies (along, across), and which of its ways it lies in."""

    kind: Kind
    along: Any
    across: Any
    lies: tuple[Any, ...]


def fits_within(
    kinds: Sequence[Kind],
    width: float,
    length: float,
    *,
    effort: float,
    seconds: float,
    seed: int = 1,
    near: Places = (),
    stop: Stop | None = None,
) -> Answer:
    """Whether the things fit in ``length`` cm of a strip, within so much deterministic time and wall-clock.

    It is looked for first where they lie in ``near``, a lay that may be longer.  ``stop`` is asked while it works, and
    leaves the question unsettled.
    """
    from ortools.sat.python import cp_model

    began = time.monotonic()
    model = cp_model.CpModel()
    things = _things(model, kinds, width, length)
    _side_by_side(model, things, width, length)
    _apart(model, things, width + length)
    _one_of_its_images(model, things, width, length)
    _look_first(model, things, near, length)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed
    solver.parameters.linearization_level = 0
    solver.parameters.max_deterministic_time = effort
    solver.parameters.max_time_in_seconds = max(seconds - (time.monotonic() - began), 0.01)
    with _watched(solver, stop):
        status = solver.solve(model)
    used = float(solver.response_proto.deterministic_time)
    if status == cp_model.INFEASIBLE:
        return Answer(False, used)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Answer(None, used)
    places = tuple(
        (thing.kind, way, solver.value(thing.across) / UNITS, solver.value(thing.along) / UNITS)
        for thing in things
        for way, lies in zip(thing.kind.ways, thing.lies, strict=True)
        if solver.value(lies)
    )
    return Answer(True, used, places)


@contextlib.contextmanager
def _watched(solver: Any, stop: Stop | None) -> Iterator[None]:
    """While the solver works, end it as soon as ``stop`` says so."""
    if stop is None:
        yield
        return
    over = threading.Event()

    def watch() -> None:
        while not over.wait(LOOK):
            # once may be too soon: before it has begun it hears nothing
            if stop():
                solver.stop_search()

    watching = threading.Thread(target=watch, daemon=True)
    watching.start()
    try:
        yield
    finally:
        over.set()
        watching.join()


def _things(model: Any, kinds: Sequence[Kind], width: float, length: float) -> list[_Thing]:
    """Every copy, within the strip; copies of a kind in the order in which they lie along the cloth."""
    things: list[_Thing] = []
    for kind in kinds:
        for copy in range(kind.count):
            along = model.new_int_var(0, max(_down(length), 0), "")
            across = model.new_int_var(0, _down(width), "")
            lies = tuple(model.new_bool_var("") for _ in kind.ways)
            model.add_exactly_one(lies)
            for way, so in zip(kind.ways, lies, strict=True):
                model.add(along <= _down(length) - _down(way.height)).only_enforce_if(so)
                model.add(across <= (0 if way.on_fold else max(_down(width - way.width), 0))).only_enforce_if(so)
            if copy:
                model.add(things[-1].along <= along)
            things.append(_Thing(kind, along, across, lies))
    return things


def _side_by_side(model: Any, things: Sequence[_Thing], width: float, length: float) -> None:
    """Chords across the cloth add up to its width at most, chords along it to its length."""
    for sideways, room in ((False, width), (True, length)):
        spans, chords = [], []
        for thing in things:
            start = thing.across if sideways else thing.along
            for way, lies in zip(thing.kind.ways, thing.lies, strict=True):
                for low, high, chord in _steps(way, sideways):
                    size = _down(high) - _up(low)
                    if size > 0 and _down(chord) > 0:
                        spans.append(model.new_optional_fixed_size_interval_var(start + _up(low), size, lies, ""))
                        chords.append(_down(chord))
        model.add_cumulative(spans, chords, _down(room))


def _apart(model: Any, things: Sequence[_Thing], reach: float) -> None:
    """No two convex parts overlap, in whichever ways two things lie."""
    for n, second in enumerate(things):
        for first in things[:n]:
            for way_1, lies_1 in zip(first.kind.ways, first.lies, strict=True):
                for way_2, lies_2 in zip(second.kind.ways, second.lies, strict=True):
                    for edges in no_fit(way_1, way_2):
                        beyond = [lies_1.negated(), lies_2.negated()]
                        for (across, along), least in edges:
                            a, b, rhs = _in_units(across, along, least, reach)
                            so = model.new_bool_var("")
                            gap = a * (second.across - first.across) + b * (second.along - first.along)
                            model.add(gap >= rhs).only_enforce_if(so)
                            beyond.append(so)
                        model.add_bool_or(beyond)


def _one_of_its_images(model: Any, things: Sequence[_Thing], width: float, length: float) -> None:
    """Where a lay turned about or mirrored is a lay too, ask for one of the two only: by where the first kind lies."""
    ways = [way for thing in things for way in thing.kind.ways]
    first = things[0].kind
    if any(way.on_fold for way in ways) or len({(way.width, way.height) for way in first.ways}) > 1:
        return
    kinds = {thing.kind for thing in things}
    about, across, along = (all(_same(kind, image) for kind in kinds) for image in (_about, _across, _along))
    mine = [thing for thing in things if thing.kind == first]
    way = first.ways[0]
    if about or across:
        most = math.floor(len(mine) * (width - way.width) * UNITS + SLACK)
        model.add(2 * sum(thing.across for thing in mine) <= most)
    if along or (about and across):
        most = math.floor(len(mine) * (length - way.height) * UNITS + SLACK)
        model.add(2 * sum(thing.along for thing in mine) <= most)


def _look_first(model: Any, things: Sequence[_Thing], near: Places, length: float) -> None:
    """Tell it the places of a lay, pushed together to the length."""
    shrink = min(length / max((y + way.height for _, way, _, y in near), default=length), 1.0)
    for kind in {thing.kind for thing in things}:
        mine = sorted((place for place in near if place[0] == kind), key=lambda place: place[3])
        for thing, (_, way, x, y) in zip((t for t in things if t.kind == kind), mine, strict=False):
            model.add_hint(thing.along, _down(y * shrink))
            model.add_hint(thing.across, _down(x))
            for other, lies in zip(kind.ways, thing.lies, strict=True):
                model.add_hint(lies, other == way)


def _in_units(across: float, along: float, least: float, reach: float) -> tuple[int, int, int]:
    """across·Δx + along·Δy ≥ least, eased so that it holds for positions rounded down to whole units."""
    if min(abs(across), abs(along)) < 1e-9:
        return round(across), round(along), _down(least)
    a, b = round(across * SLANT), round(along * SLANT)
    rounding = SLANT * (abs(across) + abs(along)) + reach * UNITS
    return a, b, math.floor(least * UNITS * SLANT - rounding)


@lru_cache(maxsize=1024)
def _steps(way: Way, sideways: bool) -> list[tuple[float, float, float]]:
    if sideways:
        outline, *holes = (tuple((y, x) for x, y in ring)[::-1] for ring in (way.outline, *way.holes))
        way = Way(outline, tuple(holes))
    return steps(chords_of(way))


def _about(way: Way) -> Way:
    return _image(way, lambda ring: turn(ring, 180))


def _across(way: Way) -> Way:
    return _image(way, lambda ring: mirror(ring)[::-1])


def _along(way: Way) -> Way:
    return _image(way, lambda ring: turn(mirror(ring)[::-1], 180))


def _image(way: Way, of: Any) -> Way:
    outline, *holes = (of(ring) for ring in (way.outline, *way.holes))
    left, low = min(x for x, _ in outline), min(y for _, y in outline)
    return Way(shift(outline, -left, -low), tuple(shift(hole, -left, -low) for hole in holes), way.on_fold)


def _same(kind: Kind, image: Any) -> bool:
    return {key_of(way) for way in kind.ways} == {key_of(image(way)) for way in kind.ways}


def _down(length: float) -> int:
    return math.floor(length * UNITS + SLACK)


def _up(length: float) -> int:
    return math.ceil(length * UNITS - SLACK)
