"""Garments from the whole choice space: how long draft and proof take, what is refused and what is found.

    python benchmarks/sweep.py [GARMENTS] [--glue] [--seed N]

20,000 garments unless told, on two processes; stop it with Ctrl-C and it prints what it has.  Target: draft and proof
under 10 ms on one core.  --glue: every shell is also counted by trimesh (tests/outside/gluing.py).
"""

from __future__ import annotations

import argparse
import json
import statistics
import sys
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))
sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "outside"))

from gluing import agree

from ellwand import garment_json
from ellwand.draft import draft, draft_to_grow
from ellwand.errors import CannotDraft
from ellwand.measure import grown, wearer_from
from ellwand.prove import prove
from independent import faults
from sweep import garment_at, made, read, reason

BATCH: Final = 50


@dataclass
class Tally:
    """What came of some garments; milliseconds of one core for each that was made."""

    tried: int = 0
    drafts: list[float] = field(default_factory=list)
    proofs: list[float] = field(default_factory=list)
    refused: Counter[str] = field(default_factory=Counter)
    found: Counter[tuple[str, str]] = field(default_factory=Counter)
    wrong: dict[str, str] = field(default_factory=dict)

    def add(self, other: Tally) -> None:
        """Take the other's in."""
        self.tried += other.tried
        self.drafts += other.drafts
        self.proofs += other.proofs
        self.refused += other.refused
        self.found += other.found
        self.wrong |= other.wrong


def batch(job: tuple[int, int, bool]) -> Tally:
    """The garments of one batch."""
    seed, first, glue = job
    out = Tally()
    for i in range(first, first + BATCH):
        try:
            _one(out, seed, i, glue)
        except CannotDraft as refused:
            out.refused[reason(refused)] += 1
        except Exception as error:  # told at the end: the run goes on
            out.wrong[f"garment_at({seed}, {i})"] = f"{type(error).__name__}: {error}"
        out.tried += 1
    return out


def _one(out: Tally, seed: int, i: int, glue: bool) -> None:
    tables, person = garment_at(seed, i)
    sheet = read(tables, person)
    choices, now = sheet.choices, wearer_from(sheet.wearer)
    start = time.process_time()
    if choices.growth is None:
        later, drafted = now, draft(choices, now, sheet.cloth.name)
    else:
        later = grown(now, choices.growth.months)
        drafted = draft_to_grow(choices, choices.growth, now, later, sheet.cloth.name)
    between = time.process_time()
    prove(drafted, later)
    end = time.process_time()
    garment = made(tables, person)
    out.drafts.append((between - start) * 1000)
    out.proofs.append((end - between) * 1000)
    out.found.update((finding.code, finding.outcome) for finding in garment.proof.findings)
    wrong = faults(json.loads(garment_json(garment)))
    if glue and not agree(garment.draft, garment.proof.shell):
        wrong.append("trimesh counts another shell")
    if wrong:
        out.wrong[f"garment_at({seed}, {i})"] = "; ".join(wrong)


def _report(tally: Tally, seconds: float) -> Iterator[str]:
    both = [d + p for d, p in zip(tally.drafts, tally.proofs, strict=True)]
    refused = sum(tally.refused.values())
    yield f"{tally.tried} garments in {seconds:.0f} s; {refused} refused, {len(tally.wrong)} wrong"
    for name, times in (("draft", tally.drafts), ("proof", tally.proofs), ("draft and proof", both)):
        if len(times) > 1:
            late = statistics.quantiles(times, n=20)[-1]
            yield f"  {name:<16} median {statistics.median(times):6.2f} ms   95 of 100 under {late:6.2f} ms"
    yield "refused:"
    yield from (f"  {count:6} {why}" for why, count in tally.refused.most_common())
    yield "found:"
    codes = sorted({code for code, _ in tally.found})
    for code in codes:
        counts = [tally.found[code, outcome] for outcome in ("sound", "look again", "will not work")]
        yield f"  {code:<28} sound {counts[0]:6}   look again {counts[1]:6}   will not work {counts[2]:6}"
    yield from (f"WRONG {name}: {why}" for name, why in tally.wrong.items())


def main() -> int:
    """Run the sweep; 1 when a garment was wrong."""
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("garments", nargs="?", type=int, default=20_000)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--glue", action="store_true", help="count every shell with trimesh too")
    ask.add_argument("--processes", type=int, default=2)
    asked = ask.parse_args()
    jobs = [(asked.seed, first, asked.glue) for first in range(0, asked.garments, BATCH)]
    tally, start, told = Tally(), time.monotonic(), 0.0
    with ProcessPoolExecutor(asked.processes) as pool:
        try:
            for part in pool.map(batch, jobs):
                tally.add(part)
                if time.monotonic() - told > 5:
                    told = time.monotonic()
                    print(f"{tally.tried} of {len(jobs) * BATCH} …", file=sys.stderr, flush=True)
        except KeyboardInterrupt:
            pool.shutdown(cancel_futures=True)
    print("\n".join(_report(tally, time.monotonic() - start)))
    return 1 if tally.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
