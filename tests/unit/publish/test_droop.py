"""The page of the droop test: one page, its wedge true to size."""

from __future__ import annotations

import math
from io import BytesIO

import pdfplumber
import pytest

from ellwand.publish.droop import droop_pdf


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_the_wedge_is_printed_true(unit: str) -> None:
    with pdfplumber.open(BytesIO(droop_pdf(unit))) as pdf:  # type: ignore[arg-type]
        assert len(pdf.pages) == 1
        page = pdf.pages[0]
        drawn = [shape["pts"] for shape in (*page.lines, *page.curves) if len(shape["pts"]) >= 2]
    corner = max(drawn, key=len)
    slopes = {
        round(math.degrees(math.atan2(abs(b[1] - a[1]), abs(b[0] - a[0]))), 2)
        for a, b in zip(corner, (*corner[1:], corner[0]), strict=True)
    }
    assert 41.5 in slopes
    # points to cm: 72 in an inch of 2.54 cm
    ups = [abs(b[1] - a[1]) / 72 * 2.54 for a, b in zip(corner, (*corner[1:], corner[0]), strict=True)]
    assert max(ups) == pytest.approx(11.0, abs=0.01)
