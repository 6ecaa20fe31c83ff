"""Garments for the full-size pattern, one of every kind, and readers of PDF lines that are not ours."""

from __future__ import annotations

import ctypes
import io
import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

import pdfplumber
import pypdfium2
import pypdfium2.raw as pdfium

from ellwand.geometry.lines import Line, Point, bounds, turn
from ellwand.model.garment import Garment
from ellwand.pipeline import prove_sheet
from sheets import JOAN, sheet

CM = 2.54 / 72
SIDE = [{"place": "side", "start": "waist", "base": 50}]
KINDS: dict[str, dict[str, Any]] = {
    "tunic": {"garment": {"gores": SIDE, "closures": [{"at": "neck slit", "by": "ties"}]}},
    "train": {
        "garment": {
            "style": "gored gown",
            "length": "floor",
            "train": 150,
            "neck": {"facing": "shaped"},
            "closures": [{"at": "centre-front", "by": "buttons"}],
        }
    },
    "child": {
        "garment": {"gores": SIDE, "growth": {"months": 12, "by": "tucks"}},
        "wearer": {"name": "Wat", "age": 7, "height": 122},
    },
    "cloak": {"garment": {"style": "cloak"}},
    "hood": {"garment": {"style": "hood"}},
    "inches": {
        "garment": {"gores": [{"place": "side", "start": "hip", "base": 20}]},
        "wearer": {"name": "Sam", "unit": "in", "height": "5 ft 6 in", "bust_girth": 40, "head_girth": "22 1/2 in"},
    },
    "scripts": {"garment": {"gores": SIDE}, "wearer": {**JOAN, "name": "محمد 漢字 नमस्ते Ōtsuka"}},
    "endless": {"garment": {"gores": SIDE}, "wearer": {**JOAN, "name": "Netmaker" * 24}},
}


@cache
def garment(kind: str) -> Garment:
    """One drafted and proved garment of that kind."""
    told = KINDS[kind]
    return prove_sheet(sheet(told["garment"], wearer=told.get("wearer")))


def plumbed(pdf: bytes) -> list[list[tuple[float, Line]]]:
    """For each page the width and the points (cm, y up) of every stroked path, as pdfplumber reads them."""
    with pdfplumber.open(io.BytesIO(pdf)) as book:
        return [
            [(each["linewidth"], _up(each["pts"], page.height)) for each in page.curves + page.lines + page.rects]
            for page in book.pages
        ]


def _up(points: list[Point], height: float) -> Line:
    return tuple((float(x) * CM, (float(height) - float(y)) * CM) for x, y in points)


def rendered_paths(pdf: bytes) -> list[list[Line]]:
    """For each page the points (cm, y up) of every path, as the renderer pdfium holds them."""
    return [list(_paths(page.raw, None)) for page in pypdfium2.PdfDocument(pdf)]


Matrix = tuple[float, float, float, float, float, float]


def _paths(page: Any, form: Any, outer: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)) -> Iterator[Line]:
    count = pdfium.FPDFPage_CountObjects(page) if form is None else pdfium.FPDFFormObj_CountObjects(form)
    for i in range(count):
        each = pdfium.FPDFPage_GetObject(page, i) if form is None else pdfium.FPDFFormObj_GetObject(form, i)
        raw = pdfium.FS_MATRIX()
        pdfium.FPDFPageObj_GetMatrix(each, raw)
        matrix = _after((raw.a, raw.b, raw.c, raw.d, raw.e, raw.f), outer)
        kind = pdfium.FPDFPageObj_GetType(each)
        if kind == pdfium.FPDF_PAGEOBJ_FORM:
            yield from _paths(page, each, matrix)
        elif kind == pdfium.FPDF_PAGEOBJ_PATH:
            yield tuple(_moved(point, matrix) for point in _segments(each))


def _segments(path: Any) -> Iterator[Point]:
    for i in range(pdfium.FPDFPath_CountSegments(path)):
        x, y = ctypes.c_float(), ctypes.c_float()
        pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(path, i), x, y)
        yield x.value, y.value


def _after(inner: Matrix, outer: Matrix) -> Matrix:
    a, b, c, d, e, f = inner
    g, h, i, j, k, m = outer
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def _moved(point: Point, matrix: Matrix) -> Point:
    a, b, c, d, e, f = matrix
    return (point[0] * a + point[1] * c + e) * CM, (point[0] * b + point[1] * d + f) * CM


@dataclass(frozen=True)
class Letter:
    """A letter on a page: its box (cm from the lower left corner), and whether it stands upright."""

    text: str
    box: tuple[float, float, float, float]
    upright: bool


def letters(pdf: bytes) -> list[list[Letter]]:
    """For each page its letters, as the renderer pdfium finds them; those that are clipped away too."""
    return [list(_letters(page.get_textpage())) for page in pypdfium2.PdfDocument(pdf)]


def _letters(words: Any) -> Iterator[Letter]:
    for i in range(words.count_chars()):
        sign = chr(pdfium.FPDFText_GetUnicode(words.raw, i))
        if not sign.isspace() and not pdfium.FPDFText_IsGenerated(words.raw, i):
            a, b, c, d = (side * CM for side in words.get_charbox(i))
            angle = pdfium.FPDFText_GetCharAngle(words.raw, i)
            yield Letter(sign, (a, b, c, d), min(angle, abs(angle - 2 * math.pi)) < 0.01)


def off(found: Line, wanted: Line) -> float:
    """How far a ring found on paper is from the wanted one (cm), whichever quarter it is turned by."""
    ring = found[:-1] if found[0] == found[-1] and len(found) == len(wanted) + 1 else found
    if len(ring) != len(wanted):
        return float("inf")
    return min(_apart(ring, turn(wanted, quarter)) for quarter in (0.0, 90.0, 180.0, 270.0))


def _apart(one: Line, two: Line) -> float:
    a, b, c, d = bounds(one)[:2] + bounds(two)[:2]
    return max(max(abs(x - a - u + c), abs(y - b - v + d)) for (x, y), (u, v) in zip(one, two, strict=True))
