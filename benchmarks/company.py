"""A company of thousands: real bodies drafted, proved and quickly laid by one worker and by two.

    python benchmarks/company.py [PEOPLE]

Source of the bodies: ANSUR II 2012 (tests/data/SOURCES.md), 6,068 of them.  Printed: garments a second and a core, what
two workers gain over one in the same run, and the largest memory of any process (Linux).  The first workers reckon a
twelfth of the people, the second ones all.
"""

from __future__ import annotations

import sys
import tempfile
import threading
import time
from dataclasses import replace
from pathlib import Path

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT / "tests"))

from bodies import rows, wearer  # noqa: E402
from ellwand.cli.writing import write_files  # noqa: E402
from ellwand.company.hands import processes  # noqa: E402
from ellwand.company.reckoning import How  # noqa: E402
from ellwand.company.roster import Bundle  # noqa: E402
from ellwand.company.running import everyone_reckoned  # noqa: E402
from ellwand.company.shelf import Shelf  # noqa: E402
from ellwand.loading import load_sheet  # noqa: E402

SHARE = 12
"""One of so many is reckoned by one worker."""


def bundles(count: int) -> list[Bundle]:
    """A tunic for every body."""
    sheet = load_sheet(ROOT / "src" / "ellwand" / "examples" / "joan-netmaker.toml")
    out = []
    for number, row in enumerate(rows()[:count], 1):
        name = f"body {number}"
        out.append(Bundle(number, name, "tunic", "", replace(sheet, wearer={**wearer(row), "name": name})))
    return out


class Memory:
    """The largest resident memory (MiB) of this process and its children, and what they spend of processors (s); looked
    at twice a second."""

    def __init__(self) -> None:
        self.own = self.child = self.together = self.cpu = self.alone = 0.0
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._watch, daemon=True)

    def __enter__(self) -> Memory:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._over.set()
        self._thread.join()

    def _watch(self) -> None:
        import psutil

        me = psutil.Process()
        while not self._over.wait(0.5):
            self.alone = sum(me.cpu_times()[:2])
            sizes, spent = [], self.alone
            for each in me.children(recursive=True):
                try:
                    sizes.append(each.memory_info().rss / 2**20)
                    spent += sum(each.cpu_times()[:2])
                except psutil.NoSuchProcess:
                    continue
            self.cpu = max(self.cpu, spent)
            mine = me.memory_info().rss / 2**20
            self.own = max(self.own, mine)
            self.child = max([self.child, *sizes])
            self.together = max(self.together, mine + sum(sizes))


def timed(people: list[Bundle], workers: int) -> tuple[float, int]:
    """Seconds on the clock, and how many cannot be cut."""
    start = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder, processes(workers) as hands:
        shelf = Shelf(Path(folder), write_files)
        done = everyone_reckoned(people, {each.number: "" for each in people}, How(0, papers=False), hands, shelf)
    return time.perf_counter() - start, sum(1 for each in done.values() if each.trouble)


def main() -> None:
    """Both counts of workers, and what they say."""
    people = bundles(int(sys.argv[1]) if len(sys.argv) > 1 else len(rows()))
    few = people[::SHARE]
    timed(few[:20], 1)
    alone, _refused = timed(few, 1)
    with Memory() as memory:
        both, refused = timed(people, 2)
    rates = len(few) / alone, len(people) / both
    print(f"{len(few)} tunics by one worker: {alone:.0f} s, {rates[0]:.2f} a second")
    print(f"{len(people)} tunics by two: {both:.0f} s, {rates[1]:.2f} a second; {refused} cannot be cut")
    each = 1000 * memory.cpu / len(people)
    print(f"two workers are {rates[1] / rates[0]:.2f} times one; a garment takes {each:.0f} ms of a core")
    print(
        f"memory (MiB): the command {memory.own:.0f}, its largest worker {memory.child:.0f}, all {memory.together:.0f}"
    )


if __name__ == "__main__":
    main()
