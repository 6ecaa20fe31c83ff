"""The bound of one lay: at once, and then with some of the search spent on it."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from ellwand.lay.bounds import better_bound, bound_of, lower_bound
from ellwand.lay.bounds.kinds import alike, kinds_in, kinds_of
from ellwand.lay.fold import fold_in
from ellwand.lay.grounds import Fold, bed_of
from ellwand.lay.task import Budget, Found, Stop, Task
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Part
from ellwand.model.piece import Piece

LOOK: Final = 0.05
"""How often the maker's stop is looked at (s)."""

WAIT: Final = 0.1
"""How long it is waited for then (s)."""

Bound = tuple[float, str]
"""A length that no such lay can undercut (cm), and why."""


def at_once(pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, fold: Fold) -> Bound:
    """The bound of a lay of these pieces, of the opened cloth where it is folded."""
    flat = lower_bound(pieces, _as_wide_as_may_be(cloth))
    return flat if fold == "flat" else max(flat, _on_fold(pieces, parts, cloth, fold, Budget(), None))


def searched(
    pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, fold: Fold, budget: Budget, stop: Stop, known: float
) -> Bound | None:
    """The best bound that the budget proves, where ``known`` is the length found; None when it was stopped too soon."""

    def work(over: Stop) -> Bound:
        if fold == "flat":
            wide = _as_wide_as_may_be(cloth)
            return better_bound(pieces, wide, parts=parts, budget=budget, known=known, stop=over)
        return _on_fold(pieces, parts, cloth, fold, budget, known, over)

    return _until_stopped(work, stop)


def on_the_way(
    found: Found, task: Task, pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, fold: Fold
) -> Bound | None:
    """What the engines proved of ``task``, where it holds for the pieces too.

    The task's outlines may be larger than the pieces: a gap around them, hollow curves drawn straight, holes closed.
    Only where both are the same question the answer is the same.
    """
    if not found.why or fold != "flat" or not alike(kinds_in(task), kinds_of(pieces, parts, cloth)):
        return None
    return found.bound, found.why


def _as_wide_as_may_be(cloth: Cloth) -> Cloth:
    """The cloth with its selvedges where edges may lie in them."""
    return replace(cloth, selvedge=0.0) if cloth.selvedge_edges else cloth


def _on_fold(
    pieces: Sequence[Piece],
    parts: Sequence[Part],
    cloth: Cloth,
    fold: Fold,
    budget: Budget,
    known: float | None,
    stop: Stop | None = None,
) -> Bound:
    """The bound of what lies double, from outlines as they are cut, gaps and faults left aside."""
    clear = replace(cloth, gap=0.0, faults=())
    bed = bed_of(clear, fold)
    ways = fold_in(pieces, parts, clear, bed, as_cut=True)
    shapes = (*ways.double, *(spot.shape for spot in ways.fixed))
    layers = 2 if fold == "crosswise" else 1
    task = Task(shapes, bed.ground)
    length, why = bound_of(task, budget=budget, known=None if known is None else known / layers, stop=stop)
    return layers * length, why


def _until_stopped(work: Callable[[Stop], Bound], stop: Stop) -> Bound | None:
    """The work's answer, or what it has when it is to end or Ctrl-C is pressed; it is not waited for long."""
    done: list[Bound] = []
    failed: list[BaseException] = []
    over = threading.Event()

    def run() -> None:
        try:
            done.append(work(over.is_set))
        except BaseException as error:
            failed.append(error)

    thread = threading.Thread(target=run, daemon=True)
    thread.start()
    try:
        while thread.is_alive() and not stop():
            thread.join(LOOK)
    except KeyboardInterrupt:
        pass
    finally:
        over.set()
    thread.join(WAIT)
    if failed:
        raise failed[0]
    return done[0] if done else None
