"""How long one garment takes, warm, on one core: draft, proof, bare lay, paper, and their ratios.

    python benchmarks/one_garment.py

Targets: draft and proof of one garment under 50 ms; the whole job without the search of the lay under 3 s.
Prints medians of 30 runs; ratios are the figures to compare between machines.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from pathlib import Path

from ellwand.draft import draft
from ellwand.loading import load_sheet
from ellwand.measure import wearer_from
from ellwand.pipeline import make
from ellwand.prove import prove
from ellwand.publish import card_pdf
from ellwand.publish.garment_json import garment_json

EXAMPLES = Path(__file__).parent.parent / "src" / "ellwand" / "examples"


def median(job: Callable[[], object], runs: int) -> float:
    """Median milliseconds of ``runs`` runs after one warm-up."""
    job()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        job()
        times.append((time.perf_counter() - start) * 1000)
    return statistics.median(times)


def main() -> None:
    """Measure every demo sheet."""
    for path in sorted(EXAMPLES.glob("*.toml")):
        sheet = load_sheet(path)
        wearer = wearer_from(sheet.wearer)
        drafted = draft(sheet.choices, wearer)
        garment = make(sheet, seconds=0)
        figures = {
            "estimate": median(lambda: wearer_from(sheet.wearer), 30),  # noqa: B023
            "draft": median(lambda: draft(sheet.choices, wearer), 30),  # noqa: B023
            "prove": median(lambda: prove(drafted, wearer), 30),  # noqa: B023
            "make, bare lay": median(lambda: make(sheet, seconds=0), 5),  # noqa: B023
            "garment.json": median(lambda: garment_json(garment), 10),  # noqa: B023
            "card.pdf": median(lambda: card_pdf(garment), 3),  # noqa: B023
        }
        print(path.stem)
        for name, ms in figures.items():
            print(f"  {name:<15} {ms:8.1f} ms   {ms / figures['draft']:7.1f} × draft")


if __name__ == "__main__":
    main()
