"""The lay engines against each other, each alone on the machine for the same wall time.

    python benchmarks/lay.py [--seconds 2 10 30] [--seeds 5] [--cases A90 N56] [--sweep N] [--rectangles]
                             [--irregular] [--engines ours rows] [--out lays.csv]

The ten tunics unless told otherwise.  Engines: ours (the portfolio), rows (its instant answer), and spyrrow and
packingsolver alone, on all cores, as they come.  --sweep N: N garments of the sweep (tests/sweep.py); --rectangles:
Hopper and Turton's C1 to C4; --irregular: five ESICUP instances.  With --out every run is written down as it ends and
is not run again: stop it with Ctrl-C and go on later.  Targets: ours never over 1.005 of the better solver, mean at or
under 0.99; rows under 0.3 s and within 1.25 of the best; time kept within 10%; under 1 GiB.
"""

from __future__ import annotations

import argparse
import csv
import math
import os
import statistics
import sys
import threading
import time
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Final

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))
sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "outside"))

from packing import DENSITIES, RECTANGLES, TUNICS, irregular_task, rectangles_task, tunic_task

from ellwand.errors import BadInput
from ellwand.lay.bounds import bound_of
from ellwand.lay.engines import Run
from ellwand.lay.portfolio import best
from ellwand.lay.shapes import shapes_of, usable_width
from ellwand.lay.solvers import ask, available
from ellwand.lay.task import Budget, Ground, Task, length_of
from sweep import garment_at, made, read

SOLVERS: Final = ("spyrrow", "packingsolver")

FEWEST: Final = 8
"""Garments of the sweep with fewer pieces are too easy to compare by."""


@dataclass(frozen=True)
class Case:
    """A task, a length that no lay can undercut (cm), and a published length to compare with, if any."""

    name: str
    task: Task
    bound: float
    published: float = math.nan


@dataclass(frozen=True)
class Row:
    """One run: lengths in cm, times in seconds, memory of all processes in MiB."""

    case: str
    engine: str
    seconds: float
    seed: int
    length: float
    took: float
    memory: float
    bound: float
    published: float

    @property
    def key(self) -> tuple[str, str, float, int]:
        """What makes it this run."""
        return self.case, self.engine, self.seconds, self.seed


def run(case: Case, engine: str, seconds: float, seed: int) -> Row:
    """One engine on one case."""
    peak = Peak()
    start = time.monotonic()
    if engine == "ours":
        length = best(case.task, Budget(seconds=seconds, seed=seed), enough=case.bound).length
    elif engine == "rows":
        length = best(case.task, Budget()).length
    else:
        length = alone(engine, case.task, seconds, seed)
    took = time.monotonic() - start
    return Row(case.name, engine, seconds, seed, length, took, peak.end(), case.bound, case.published)


def alone(solver: str, task: Task, seconds: float, seed: int) -> float:
    """The shortest lay that a solver tells in the time, on all cores; infinite when it tells none."""
    asked = ask(task)
    assert asked is not None
    run = Run(solver, asked, "anytime", seed, threads=os.cpu_count() or 1)
    end, least = time.monotonic() + seconds, math.inf
    run.keep_going(seconds)
    while run.running and time.monotonic() < end:
        time.sleep(0.01)
        if spots := run.latest():
            least = min(least, length_of(spots))
    run.end()
    spots = run.latest()
    return min(least, length_of(spots)) if spots else least


class Peak:
    """The most memory that this process and its children hold at once, looked at twenty times a second (Linux)."""

    def __init__(self) -> None:
        self._most = 0
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._look, daemon=True)
        self._thread.start()

    def end(self) -> float:
        """MiB; 0 where it cannot be told."""
        self._over.set()
        self._thread.join()
        return self._most / 2**20

    def _look(self) -> None:
        while not self._over.wait(0.05):
            self._most = max(self._most, sum(_resident(pid) for pid in (os.getpid(), *_children(os.getpid()))))


def _children(pid: int) -> list[int]:
    out: list[int] = []
    for listed in Path(f"/proc/{pid}/task").glob("*/children"):
        try:
            out += [int(child) for child in listed.read_text().split()]
        except OSError:
            continue
    return out


def _resident(pid: int) -> int:
    try:
        return int(Path(f"/proc/{pid}/statm").read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE")
    except OSError:
        return 0


def cases(asked: argparse.Namespace) -> Iterator[Case]:
    """What was asked for."""
    if asked.rectangles:
        for name in asked.cases or RECTANGLES:
            task, least = rectangles_task(name)
            yield Case(name, task, least, least)
    elif asked.irregular:
        for name in asked.cases or DENSITIES:
            task, area = irregular_task(name)
            width = task.ground.width
            yield Case(name, task, area / width, area / (width * DENSITIES[name]))
    elif asked.sweep:
        yield from garments(asked.sweep)
    else:
        for name in asked.cases or TUNICS:
            task = tunic_task(name)
            yield Case(name, task, bound_of(task, budget=Budget())[0])


def garments(count: int) -> Iterator[Case]:
    """The first garments of the sweep that can be made of their cloth and have pieces enough."""
    number = 0
    while count:
        tables, person = garment_at(1, number)
        number += 1
        try:
            sheet, garment = read(tables, person), made(tables, person)
            shapes = shapes_of(garment.draft.pieces, (*garment.draft.parts, *garment.draft.applied), sheet.cloth)
        except BadInput:
            continue
        task = Task(shapes, Ground(usable_width(sheet.cloth)))
        if len(shapes) < FEWEST or not task.plain:
            continue
        count -= 1
        yield Case(f"garment {number - 1}", task, bound_of(task, budget=Budget())[0])


def table(rows: Sequence[Row]) -> Iterator[str]:
    """Medians over the seeds, a line a case and time, then the means."""
    yield "| case | s | ours | rows | spyrrow | packingsolver | ours / better | gap | of published | took | MiB |"
    yield "|---|---|---|---|---|---|---|---|---|---|---|"
    by: dict[tuple[str, float], dict[str, list[Row]]] = defaultdict(lambda: defaultdict(list))
    for row in rows:
        by[row.case, row.seconds][row.engine].append(row)
    ratios: dict[float, list[float]] = defaultdict(list)
    gaps: dict[float, list[float]] = defaultdict(list)
    for (case, seconds), engines in by.items():

        def median(engine: str, of: Callable[[Row], float], engines: dict[str, list[Row]] = engines) -> float:
            return statistics.median([of(r) for r in engines[engine]] or [math.nan])

        lengths = {name: median(name, lambda r: r.length) for name in ("ours", "rows", *SOLVERS)}
        better = min((lengths[name] for name in SOLVERS if not math.isnan(lengths[name])), default=math.nan)
        ratio = lengths["ours"] / better
        gap = lengths["ours"] / median("ours", lambda r: r.bound) - 1
        over = lengths["ours"] / median("ours", lambda r: r.published)
        took, memory = median("ours", lambda r: r.took), max((r.memory for r in engines["ours"]), default=math.nan)
        ratios[seconds].append(ratio)
        gaps[seconds].append(gap)
        shown = " | ".join(f"{lengths[name]:.1f}" for name in ("ours", "rows", *SOLVERS))
        yield (f"| {case} | {seconds:g} | {shown} | {ratio:.4f} | {gap:.1%} | {over:.4f} | {took:.2f} | {memory:.0f} |")
    for seconds, each in ratios.items():
        known = [r for r in each if math.isfinite(r)]
        if known:
            mean, gap = statistics.fmean(known), statistics.fmean(gaps[seconds])
            yield f"\n{seconds:g} s: ours / better mean {mean:.4f}, most {max(known):.4f}; mean gap {gap:.1%}"
    times = [r.took for r in rows if r.engine == "rows"]
    if times:
        yield f"\nrows: median {statistics.median(times):.2f} s, longest {max(times):.2f} s"


def kept(path: Path | None) -> list[Row]:
    """The runs written down before."""
    if path is None or not path.exists():
        return []
    kinds = {"case": str, "engine": str, "seed": int}
    with path.open(encoding="utf-8") as file:
        return [Row(**{k: kinds.get(k, float)(v) for k, v in row.items()}) for row in csv.DictReader(file)]


def write(path: Path, row: Row) -> None:
    """One more line."""
    new = not path.exists()
    with path.open("a", encoding="utf-8", newline="") as file:
        lines = csv.DictWriter(file, [f.name for f in fields(Row)])
        if new:
            lines.writeheader()
        lines.writerow(asdict(row))


def main() -> int:
    """Run what is asked and not yet written down; print the table."""
    ask_for = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask_for.add_argument("--seconds", nargs="+", type=float, default=[2.0, 10.0, 30.0])
    ask_for.add_argument("--seeds", type=int, default=5)
    ask_for.add_argument("--cases", nargs="+")
    ask_for.add_argument("--sweep", type=int, default=0)
    ask_for.add_argument("--rectangles", action="store_true")
    ask_for.add_argument("--irregular", action="store_true")
    ask_for.add_argument("--engines", nargs="+", default=["rows", "ours", *SOLVERS])
    ask_for.add_argument("--out", type=Path)
    asked = ask_for.parse_args()
    rows = kept(asked.out)
    done = {row.key for row in rows}
    engines = [name for name in asked.engines if name not in SOLVERS or available(name)]
    names = set()
    try:
        for case in cases(asked):
            names.add(case.name)
            for seconds in asked.seconds:
                for seed in range(1, asked.seeds + 1):
                    for engine in engines:
                        if (case.name, engine, seconds, seed) in done:
                            continue
                        row = run(case, engine, seconds, seed)
                        rows.append(row)
                        print(f"{row.case} {engine} {seconds:g} s: {row.length:.1f}", file=sys.stderr, flush=True)
                        if asked.out:
                            write(asked.out, row)
    except KeyboardInterrupt:
        print("stopped", file=sys.stderr)
    print("\n".join(table([row for row in rows if row.case in names])))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
