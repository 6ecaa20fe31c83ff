"""How long all paper of one garment takes, warm, on one core: in seconds, and beside one bare page of the typesetter.

    python benchmarks/paper.py

Target: all paper of one garment together under 3 s.  Prints CPU seconds of this process, of the quickest of three runs;
each of them sets another name, so that no page can be taken from what was set before.  The ratio to a bare run (one
empty page) is the figure to compare between machines.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from ellwand.depict import spread
from ellwand.loading import load_sheet
from ellwand.model.garment import Garment
from ellwand.pipeline import make
from ellwand.publish import card_pdf, sewing_pdf
from ellwand.publish.handout import handout_pdf
from ellwand.publish.pattern import long_sheet_pdf, pattern_pdf
from ellwand.publish.stencil_sheets import stencils_pdf
from ellwand.publish.typst_text import compile_pdf
from ellwand.publish.workbook import workbook_pdf

EXAMPLES = Path(__file__).parent.parent / "src" / "ellwand" / "examples"
RUNS = 3
PAPER: dict[str, Callable[[Garment], object]] = {
    "card": card_pdf,
    "sewing": sewing_pdf,
    "pattern A4": pattern_pdf,
    "pattern Letter": lambda garment: pattern_pdf(garment, "Letter"),
    "pattern roll": lambda garment: long_sheet_pdf(garment, 90.0),
    "stencils": stencils_pdf,
    "handout": handout_pdf,
    "workbook": workbook_pdf,
}


def seconds(job: Callable[[int], object], runs: int) -> float:
    """The least CPU seconds of a run."""
    took = []
    for n in range(runs):
        start = time.process_time()
        job(n)
        took.append(time.process_time() - start)
    return min(took)


def bare(n: int) -> bytes:
    """One empty page, a little narrower each time."""
    return compile_pdf(f"#set page(width: {21 - n / 1000}cm, height: 29.7cm)\n")


def named(garment: Garment, n: int) -> Garment:
    """The same garment for another name, so that every page is set anew."""
    return replace(garment, wearer=replace(garment.wearer, name=f"{garment.wearer.name} {n}"))


def main() -> None:
    """Measure every demo sheet."""
    bare(0)
    least = seconds(lambda n: bare(n + 1), 10)
    print(f"one empty page: {1000 * least:.2f} ms")
    for path in sorted(EXAMPLES.glob("*.toml")):
        garment = make(load_sheet(path), seconds=0.5)
        print(f"{path.stem} ({len(garment.draft.pieces)} pieces)")
        all_papers(garment, 0)
        took = min((all_papers(garment, n + 1) for n in range(RUNS)), key=lambda each: sum(each.values()))
        for name, of in {**took, "together": sum(took.values())}.items():
            print(f"  {name:<15} {of:6.3f} s   {of / least:7.0f} × bare")


def all_papers(garment: Garment, n: int) -> dict[str, float]:
    """CPU seconds of each paper, one after the other, with nothing left of the run before."""
    spread.forget()
    out = {}
    for name, paper in PAPER.items():
        start = time.process_time()
        paper(named(garment, n))
        out[name] = time.process_time() - start
    return out


if __name__ == "__main__":
    main()
