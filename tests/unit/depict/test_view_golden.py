"""A handful of garment pictures as approved texts: each line a stroke, in whole tenths of a millimetre on paper.

Look at a new picture before approving it: ``python tests/unit/depict/test_view_golden.py`` (with ``tests`` on the
path) writes the texts anew.
"""

from __future__ import annotations

import difflib
import re
from pathlib import Path
from typing import Any, Final

import pytest

from ellwand import prove_sheet
from ellwand.publish.garment_svg import garment_svg
from sheets import sheet

APPROVED: Final = Path(__file__).parents[2] / "golden"
GARMENTS: Final[dict[str, dict[str, Any]]] = {
    "tunic": {},
    "laced-gown": {
        "style": "gored gown",
        "closures": [{"at": "centre-front", "by": "lacing", "lacing": "crossed", "to": "waist"}],
    },
    "quarterly": {
        "division": {"by": "quarterly", "tinctures": ["gules", "argent"]},
        "bands": [{"at": "cuffs", "width": 4}],
    },
    "shaped": {"body": {"cut": "shoulder panels", "flare": 20}, "sleeve": {"head": "shaped", "seam": "back"}},
    "cloak": {"style": "cloak"},
    "hood": {"style": "hood"},
}


def normalised(svg: str) -> list[str]:
    """One stroke a line: what it is, and its points rounded, so that a change is read as what moved."""
    out = []
    for line in svg.splitlines():
        path = re.match(r'<path class="([^"]+)" d="([^"]+)"', line)
        if path:
            points = re.sub(r"-?\d+\.\d+", lambda number: f"{float(number[0]) + 0.0:.1f}", path[2])
            out.append(f"{path[1]}: {points}")
        else:
            out.append(re.sub(r"-?\d+\.\d{2,}", lambda number: f"{float(number[0]):.1f}", line))
    return out


@pytest.mark.parametrize("name", GARMENTS)
def test_the_picture_is_as_it_was_approved(name: str) -> None:
    approved = (APPROVED / f"garment-{name}.txt").read_text(encoding="utf-8").splitlines()
    drawn = normalised(garment_svg(prove_sheet(sheet(GARMENTS[name]))))
    change = difflib.unified_diff(approved, drawn, "approved", "drawn", lineterm="", n=0)
    assert approved == drawn, "\n".join(line[:160] for line in change)


if __name__ == "__main__":
    APPROVED.mkdir(exist_ok=True)
    for each, garment in GARMENTS.items():
        text = "\n".join(normalised(garment_svg(prove_sheet(sheet(garment))))) + "\n"
        (APPROVED / f"garment-{each}.txt").write_text(text, encoding="utf-8")
