"""What is printed on a PDF's pages, letter by letter, read back with pdfplumber (pdfminer)."""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import pdfplumber
import pikepdf
import shapely
from shapely import Polygon, STRtree

TALL = 0.62
"""How high a letter is over its line, as a share of its size: figures and capitals of most text faces."""
HIT = 0.1
"""Letters that share more than this of the smaller one are printed on each other; neighbours may be kerned."""


@dataclass(frozen=True)
class Letter:
    """One letter: its size in points and the rectangle from its line up, y upward."""

    text: str
    size: float
    shape: Polygon


def pages(data: bytes) -> list[Any]:
    """The pages of a PDF."""
    return list(pdfplumber.open(io.BytesIO(data)).pages)


def letters(page: Any) -> list[Letter]:
    """Every letter that shows, whichever way it runs."""
    out = []
    for char in page.chars:
        if not char["text"].strip():
            continue
        a, b, _, _, x, y = char["matrix"]
        run = math.hypot(a, b)
        ux, uy = a / run, b / run
        wide = char["adv"]
        # the box that pdfminer gives is the upright one about the turned letter
        size = (
            (char["height"] - abs(uy) * wide) / abs(ux)
            if abs(ux) > abs(uy)
            else (char["width"] - abs(ux) * wide) / abs(uy)
        )
        up = TALL * size
        corners = [(0.0, 0.0), (wide, 0.0), (wide, up), (0.0, up)]
        shape = Polygon([(x + p * ux - q * uy, y + p * uy + q * ux) for p, q in corners])
        out.append(Letter(char["text"], size, shape))
    return out


def on_each_other(found: list[Letter]) -> Iterator[tuple[str, str]]:
    """Pairs of letters that are printed on each other, each with some of the text about it."""
    shapes = np.array([each.shape for each in found])
    if not len(shapes):
        return
    one, other = STRtree(shapes).query(shapes, predicate="intersects")
    some = one < other - 1
    one, other = one[some], other[some]
    shared = shapely.area(shapely.intersection(shapes[one], shapes[other]))
    least = np.minimum(shapely.area(shapes[one]), shapely.area(shapes[other]))
    for i, j in zip(one[shared > HIT * least], other[shared > HIT * least], strict=True):
        yield _about(found, i), _about(found, j)


def _about(found: list[Letter], i: int) -> str:
    return "".join(each.text for each in found[max(0, i - 8) : i + 8])


def outside(page: Any, found: list[Letter]) -> list[str]:
    """Letters that reach over the edge of the page."""
    wide, high = float(page.width), float(page.height)
    beyond = []
    for i, each in enumerate(found):
        x0, y0, x1, y1 = each.shape.bounds
        if x0 < 0 or y0 < 0 or x1 > wide or y1 > high:
            beyond.append(_about(found, i))
    return beyond


def fonts(data: bytes) -> dict[str, bool]:
    """Every font that a PDF uses, without the mark of its subset, and whether it is embedded; forms are looked into."""
    out: dict[str, bool] = {}
    with pikepdf.open(io.BytesIO(data)) as pdf:
        todo = [page.obj.get("/Resources") for page in pdf.pages]
        seen = set()
        while todo:
            resources = todo.pop()
            if resources is None or (resources.objgen in seen and resources.objgen != (0, 0)):
                continue
            seen.add(resources.objgen)
            for font in dict(resources.get("/Font", {})).values():
                inner = font.DescendantFonts[0] if "/DescendantFonts" in font else font
                about = inner.get("/FontDescriptor")
                file = about is not None and any(key in about for key in ("/FontFile", "/FontFile2", "/FontFile3"))
                name = str(font.BaseFont).lstrip("/").split("+")[-1]
                out[name] = out.get(name, True) and bool(file)
            todo += [form.get("/Resources") for form in dict(resources.get("/XObject", {})).values()]
    return out
