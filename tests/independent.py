"""A second opinion on garment.json: reads the document alone and shares no code with the project.

The surface is rebuilt as a graph of corner classes; rims are walked, not grouped; lays are unfolded with complex
numbers.  Tolerances: seams 0.1 mm, overlap 0.01 cm².
"""

from __future__ import annotations

import cmath
import itertools
import math
from collections import Counter
from typing import Any

from shapely import STRtree, box, set_precision
from shapely.affinity import affine_transform
from shapely.geometry import Polygon

Doc = dict[str, Any]


def faults(doc: Doc) -> list[str]:
    """Everything that is wrong with a document; empty when it is sound."""
    return [*_pieces(doc), *_shell(doc), *_lays(doc)]


def _run(points: list[list[float]]) -> float:
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def _pieces(doc: Doc) -> list[str]:
    out = []
    for piece in doc["pieces"]:
        for kind in ("sewn", "cut"):
            shape = Polygon(piece[kind], piece[f"{kind}_holes"])
            if not shape.is_valid or not shape.exterior.is_ccw:
                out.append(f"{piece['id']}: {kind} outline is not a simple counter-clockwise polygon")
        around = [*piece["edges"]]
        for ring in (piece["sewn"], *piece["sewn_holes"]):
            walked: list[list[float]] = []
            while len(walked) <= len(ring) and around:
                edge = around.pop(0)
                if walked and edge["points"][0] != walked[-1]:
                    out.append(f"{piece['id']}: edge {edge['id']} does not start where the one before ends")
                walked += edge["points"][(1 if walked else 0) :]
            if walked[0] != walked[-1] or walked[:-1] != ring:
                out.append(f"{piece['id']}: the edges do not follow the outline")
        if around:
            out.append(f"{piece['id']}: edges are left over")
        if not Polygon(piece["cut"]).buffer(1e-3).covers(Polygon(piece["sewn"])):
            out.append(f"{piece['id']}: the sewn outline leaves the cut one")
    return out


def _shell(doc: Doc) -> list[str]:
    out = []
    # applied pieces (facings, strips) are laid, but no part of the shell
    pieces = {piece["id"]: piece for piece in doc["pieces"] if piece.get("kind") != "applied"}
    turned = {part["id"]: bool(part["mirrored"]) for part in doc["parts"]}
    points = {
        (part["id"], edge["id"]): edge["points"] for part in doc["parts"] for edge in pieces[part["piece"]]["edges"]
    }
    counts = Counter(part["piece"] for part in doc["parts"])
    out += [
        f"{name}: {piece['count']} wanted, {counts[name]} parts"
        for name, piece in pieces.items()
        if piece["count"] != counts[name]
    ]

    def corner(key: tuple[str, str], end: int) -> tuple[str, float, float]:
        x, y = points[key][end]
        return key[0], x, y

    # corner classes by repeated relabelling (the slow way, on purpose another way)
    label = {corner(key, end): corner(key, end) for key in points for end in (0, -1)}
    joins, used = [], Counter()
    for seam in doc["seams"]:
        a, b = ((seam[s]["part"], seam[s]["edge"]) for s in "ab")
        used.update([a, b])
        if abs(_run(points[a]) - _run(points[b]) - seam["ease"]) > 0.01:
            out.append(f"{seam['id']}: {_run(points[a]):.2f} against {_run(points[b]):.2f}")
        same_sense = turned[a[0]] != turned[b[0]]
        for end in (0, -1):
            joins.append((corner(a, end), corner(b, end if same_sense else -1 - end)))
    changed = True
    while changed:
        changed = False
        for one, other in joins:
            low = min(label[one], label[other])
            if label[one] != low or label[other] != low:
                label[one] = label[other] = low
                changed = True
        for place, name in label.items():
            if label[name] != name:
                label[place] = label[name]
                changed = True
    out += [f"{key} is sewn {n} times" for key, n in used.items() if n > 1]
    free = {key for key in points if not used[key]}
    # walk each rim from corner to corner until it closes
    rims = []
    left = set(free)
    while left:
        start = min(left)
        left.discard(start)
        size, home, at = _run(points[start]), label[corner(start, 0)], label[corner(start, -1)]
        while at != home:
            on = [key for key in left if at in (label[corner(key, 0)], label[corner(key, -1)])]
            if not on:
                out.append(f"an opening ends loose at {at}")
                break
            key = min(on)
            left.discard(key)
            size += _run(points[key])
            first, last = label[corner(key, 0)], label[corner(key, -1)]
            at = last if first == at else first
        rims.append(round(size, 1))
    euler = (
        len(set(label.values()))
        - (len(doc["seams"]) + len(free))
        + sum(1 - len(pieces[part["piece"]]["sewn_holes"]) for part in doc["parts"])
    )
    if euler != 2 - len(rims):
        out.append(f"Euler characteristic {euler} with {len(rims)} rims")
    if len(rims) != len(doc["rims"]) or any(
        abs(a - b) > 0.2 for a, b in zip(sorted(rims), sorted(rim["length"] for rim in doc["rims"]), strict=False)
    ):
        out.append(f"rims {sorted(rims)} found, {[rim['length'] for rim in doc['rims']]} told")
    if doc["shell"]["euler"] != euler:
        out.append("the document tells another Euler characteristic")
    together = {part["id"] for part in doc["parts"][:1]}
    while (
        grown := {
            p
            for s in doc["seams"]
            for p in (s["a"]["part"], s["b"]["part"])
            if together & {s["a"]["part"], s["b"]["part"]}
        }
        - together
    ):
        together |= grown
    if len(together) != len(doc["parts"]):
        out.append("the shell falls apart")
    return out


def placed(doc: Doc, placement: Doc) -> Polygon:
    """A placement's cut outline on the cloth."""
    piece = next(p for p in doc["pieces"] if p["id"] == placement["piece"])
    spin = cmath.exp(1j * math.radians(placement["turn"]))
    move = complex(placement["x"], placement["y"])
    sign = -1 if placement["flip"] else 1

    def ring(points: list[list[float]]) -> list[tuple[float, float]]:
        return [((w := complex(sign * x, y) * spin + move).real, w.imag) for x, y in points]

    return Polygon(ring(piece["cut"]), [ring(hole) for hole in piece["cut_holes"]])


def _lays(doc: Doc) -> list[str]:
    """Every lay, folds opened; the lays of a cloth that are no left-overs follow each other on it."""
    out = []
    laid: Counter[str] = Counter()
    for lay in doc.get("lays", []):
        cuts = [cut for placement in lay["placements"] for cut in _opened(doc, lay, placement)]
        laid.update(part for part, _ in cuts)
        names, shapes = [part for part, _ in cuts], [shape for _, shape in cuts]
        margin = 0.0 if lay.get("remnant") else (lay["width"] - lay["usable_width"]) / 2
        passing = {
            placement[of] for placement in lay["placements"] if placement.get("selvedge") for of in ("part", "partner")
        }
        whole = box(0, 0, lay["width"], lay["length"])
        if lay.get("outline"):
            whole = Polygon(lay["outline"])
        for name, shape in zip(names, shapes, strict=True):
            x0, _, x1, _ = shape.bounds
            over = x0 < margin - 0.02 or x1 > lay["width"] - margin + 0.02
            if (over and name not in passing) or shape.difference(whole.buffer(0.02)).area > 1e-3:
                out.append(f"{name} leaves the cloth")
        for i, j in STRtree(shapes).query(shapes, predicate="intersects").T:
            if i < j:
                common = set_precision(shapes[i], 1e-6).intersection(set_precision(shapes[j], 1e-6)).area
                if common > 0.01:
                    out.append(f"{names[i]} overlaps {names[j]} by {common:.3f}")
        if lay["length"] + 1e-6 < lay["lower_bound"]:
            out.append("shorter than its own lower bound")
    every = [*doc["parts"], *doc.get("applied", [])]
    if doc.get("lays"):
        out += [f"{part['id']} laid {laid[part['id']]} times" for part in every if laid[part["id"]] != 1]
    return out


def _opened(doc: Doc, lay: Doc, placement: Doc) -> list[tuple[str, Polygon]]:
    """The parts that a placement stands for, on the opened cloth."""
    shape = placed(doc, placement)
    if lay["fold"] != "lengthwise":
        return [(placement["part"], shape)]
    fold = lay["width"] / 2
    out = [(placement["part"], affine_transform(shape, (1, 0, 0, 1, fold, 0)))]
    if placement["layers"] == 2:
        out.append((placement["partner"], affine_transform(shape, (-1, 0, 0, 1, fold, 0))))
    return out
