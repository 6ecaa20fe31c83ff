"""A garment made in the mind: garment.json alone is read, its parts sewn step by step, no code shared with the project.

After every step the surface sewn so far is rebuilt from its parts: the corners that are one are found by walking round
each of them from edge to edge and across the seams; with V corners, E edges and F faces a connected surface of genus 0
with b rims has V − E + F = 2 − b (any text on the topology of surfaces).  A patch lies flat while it is a disc, or a
disc with a neck in it.
"""

from __future__ import annotations

import cmath
import math
from collections import defaultdict
from dataclasses import dataclass, field
from typing import Any

Doc = dict[str, Any]
Ref = tuple[str, str]

NECK = {"neck", "neck slit", "shoulder opening", "opening"}
ALWAYS_FLAT = {"piecing seam", "division seam", "division", "centre seam", "shoulder", "sleeve seam", "strip seam"}
MAY_CLOSE = {"side seam", "underarm seam", "gusset", "gusset seam", "sleeve gore"}


@dataclass
class Sewn:
    """What lies on the table: which seams are sewn, and the edges of every part as they are worn."""

    kind: dict[Ref, str]
    allowance: dict[Ref, float]
    after: dict[Ref, Ref]
    faces: dict[str, int]
    seams: dict[str, tuple[Ref, Ref, str]]
    across: dict[Ref, Ref] = field(default_factory=dict)
    lines: dict[Ref, list[list[float]]] = field(default_factory=dict)
    """Every edge as it is worn, its cloth on the left hand."""

    def tip(self, ref: Ref) -> list[float]:
        """Where an edge ends, in its piece's coordinates."""
        return self.lines[ref][-1]

    def turn(self, one: Ref, other: Ref) -> float:
        """By how many degrees the outline turns from one edge to the next."""
        (ax, ay), (bx, by), (cx, cy) = self.lines[one][-2], self.lines[one][-1], self.lines[other][1]
        return math.degrees(cmath.phase(complex(cx - bx, cy - by) / complex(bx - ax, by - ay)))

    def corner(self, ref: Ref) -> list[Ref]:
        """The edges that end in the corner where this one ends, as far as they are joined: from the open edge on."""
        before = {then: first for first, then in self.after.items()}
        first = ref
        while first in self.across:
            first = before[self.across[first]]
            if first == ref:
                break
        out, at = [first], first
        while (then := self.after[at]) in self.across and self.across[then] != first:
            at = self.across[then]
            out.append(at)
        return out

    def patches(self) -> list[Patch]:
        """Everything that hangs together."""
        label = {part: part for part in self.faces}

        def top(part: str) -> str:
            while label[part] != part:
                part = label[part]
            return part

        for a, b in self.across.items():
            label[top(a[0])] = top(b[0])
        groups: dict[str, set[str]] = defaultdict(set)
        for part in self.faces:
            groups[top(part)].add(part)
        before = {then: first for first, then in self.after.items()}
        return [self._patch(parts, before) for parts in groups.values()]

    def _patch(self, parts: set[str], before: dict[Ref, Ref]) -> Patch:
        edges = [ref for ref in self.after if ref[0] in parts]
        free = [ref for ref in edges if ref not in self.across]
        # corners inside are cycles round which no edge is open; each open edge begins in one corner of the rim
        seen: set[Ref] = set()
        inside = 0
        for ref in edges:
            if ref in seen:
                continue
            walk, at, is_open = [ref], ref, False
            while True:
                then = self.after[at]
                if then not in self.across:
                    is_open = True
                    break
                at = self.across[then]
                if at == ref:
                    break
                walk.append(at)
            seen |= set(walk)
            if not is_open:
                inside += 1
        rims, left = [], set(free)
        while left:
            rim, at = [], next(iter(left))
            while at in left:
                left.discard(at)
                rim.append(at)
                then = self.after[at]
                while then in self.across:
                    then = self.after[self.across[then]]
                at = then
            rims.append(rim)
        joined = (len(edges) - len(free)) // 2
        # an open corner may be met from several edges: count it once, by the open edge that begins there
        euler = inside + len(free) - (joined + len(free)) + sum(self.faces[part] for part in parts)
        return Patch(parts, euler, [[(ref, self.kind[ref]) for ref in rim] for rim in rims])


@dataclass
class Patch:
    """Parts that hang together; their rims, edge by edge."""

    parts: set[str]
    euler: int
    rims: list[list[tuple[Ref, str]]]

    @property
    def flat(self) -> bool:
        """A disc, or a disc with one neck cut or sewn into it, that may go on into a centre not yet closed."""
        necks = [rim for rim in self.rims if all(kind in NECK | {"centre seam"} for _, kind in rim)]
        holes = len(self.rims) - 1
        return self.euler == 2 - len(self.rims) and holes <= 1 and holes <= len(necks)


def table(doc: Doc) -> Sewn:
    """All parts as they are cut, nothing sewn."""
    pieces = {piece["id"]: piece for piece in doc["pieces"]}
    sewn = Sewn({}, {}, {}, {}, {})
    for part in doc["parts"]:
        piece = pieces[part["piece"]]
        sewn.faces[part["id"]] = 1 - len(piece["sewn_holes"])
        ring: list[Ref] = []
        start: list[float] = []
        for edge in piece["edges"]:
            ref = (part["id"], edge["id"])
            sewn.kind[ref], sewn.allowance[ref] = edge["kind"], edge["allowance"]
            points = edge["points"]
            sewn.lines[ref] = points[::-1] if part["mirrored"] else points
            start = start or points[0]
            ring.append(ref)
            if math.dist(points[-1], start) < 1e-3:
                order = ring[::-1] if part["mirrored"] else ring
                sewn.after |= dict(zip(order, order[1:] + order[:1], strict=True))
                ring, start = [], []
        assert not ring, f"an outline of {piece['id']} does not close"
    for seam in doc["seams"]:
        a, b = ((seam[side]["part"], seam[side]["edge"]) for side in "ab")
        sewn.seams[seam["id"]] = (a, b, seam["kind"])
    return sewn


def behind(steps: list[Doc]) -> dict[int, set[int]]:
    """Step -> every step that its needs put before it, in whatever order a maker takes them."""
    out: dict[int, set[int]] = {}
    for step in steps:
        out[step["n"]] = set(step["needs"]).union(*(out.get(need, set()) for need in step["needs"]))
    return out


def faults(doc: Doc) -> list[str]:
    """All that is wrong with the order of work; empty when the garment can be made so."""
    steps, sewn = doc["sewing"], table(doc)
    out = [f"step {step['n']} needs a later one" for step in steps if any(need >= step["n"] for need in step["needs"])]
    out += _each_once(doc, sewn)
    if out:
        return out
    seam_at = {name: step["n"] for step in steps for name in step["seams"]}
    edge_at = {(ref["part"], ref["edge"]): step["n"] for step in steps for ref in step["edges"]}
    out += _joints(sewn, seam_at, edge_at, behind(steps))
    if "body" in doc["choices"]:
        out += _held(doc, sewn, seam_at, edge_at)
    return [*out, *_by_steps(doc, sewn)]


def _each_once(doc: Doc, sewn: Sewn) -> list[str]:
    done: dict[Any, int] = defaultdict(int)
    for step in doc["sewing"]:
        for name in step["seams"]:
            done[name] += 1
        for ref in step["edges"]:
            done[ref["part"], ref["edge"]] += 1
        for part in step["parts"]:
            done["applied", part] += 1
    joined = {ref for a, b, _ in sewn.seams.values() for ref in (a, b)}
    wanted = [*sewn.seams, *(ref for ref in sewn.kind if ref not in joined)]
    wanted += [("applied", part["id"]) for part in doc.get("applied", [])]
    return [f"{each} is in {done[each]} steps" for each in wanted if done[each] != 1] + [
        f"{each} is sewn and finished" for each in joined if each in done
    ]


def _joints(sewn: Sewn, seam_at: dict[str, int], edge_at: dict[Ref, int], waits: dict[int, set[int]]) -> list[str]:
    """What meets in a corner of the finished garment: edges wait for the seams that end there; what was cut apart is
    sewn together before all else."""
    for a, b, _ in sewn.seams.values():
        sewn.across[a], sewn.across[b] = b, a
    of_edge = {ref: name for name, (a, b, _) in sewn.seams.items() for ref in (a, b)}
    out = []
    for ref in sewn.after:
        ends = sewn.corner(ref)
        there = {each for end in ends for each in (end, sewn.after[end])}
        seams = {of_edge[each] for each in there if each in of_edge}
        for each in there - set(of_edge):
            if sewn.allowance[each]:
                # a waistband is sewn over hemmed edges
                late = [
                    name
                    for name in seams
                    if sewn.seams[name][2] != "band seam" and not _before(seam_at[name], edge_at[each], waits)
                ]
                out += [f"{each} is finished before {name} ends there" for name in late]
            if sewn.kind[each] == "hem":
                splits = [other for other in there if sewn.kind[other] == "split"]
                out += [f"{each} is hemmed before {s}" for s in splits if not _before(edge_at[s], edge_at[each], waits)]
        for first in (name for name in seams if sewn.seams[name][2] in ("piecing seam", "division seam", "division")):
            for other in seams:
                same = sewn.seams[other][2] == sewn.seams[first][2]
                # each colour is pieced by itself
                pieced = sewn.seams[first][2] != "piecing seam" and sewn.seams[other][2] == "piecing seam"
                if not same and not pieced and not _before(seam_at[first], seam_at[other], waits):
                    out.append(f"{first} is pieced after {other}")
    sewn.across.clear()
    return out


def _held(doc: Doc, sewn: Sewn, seam_at: dict[str, int], edge_at: dict[Ref, int]) -> list[str]:
    """Every point of a gore, corner of a gusset and end of an opening is held by one bar, once all that meets in it is
    sewn or finished."""
    for a, b, _ in sewn.seams.values():
        sewn.across[a], sewn.across[b] = b, a
    of_edge = {ref: name for name, (a, b, _) in sewn.seams.items() for ref in (a, b)}
    held: dict[tuple[str, float, float], list[tuple[int, str]]] = defaultdict(list)
    for step in doc["sewing"]:
        for each in step["reinforce"]:
            x, y = each["at"]
            held[each["part"], round(x, 3), round(y, 3)].append((step["n"], each["by"]))
    out, met, seen = [], 0, set()
    for ref in sewn.after:
        ends = sewn.corner(ref)
        if ends[0] in seen:
            continue
        seen |= set(ends)
        pairs = [(end, sewn.after[end]) for end in ends]
        spots = {(end[0], round(sewn.tip(end)[0], 3), round(sewn.tip(end)[1], 3)) for end in ends}
        bars = [step for spot in spots for step, by in held[spot] if by == "bar"]
        met += len(bars)
        wanted, steps = _strain(sewn, pairs, of_edge, seam_at, edge_at)
        if wanted != bool(bars) or len(bars) > 1:
            out.append(f"the corner {sorted(spots)[0]} has {len(bars)} bars, {int(wanted)} wanted")
        elif wanted and bars[0] < max(steps):
            out.append(f"the corner {sorted(spots)[0]} is held in step {bars[0]}, before step {max(steps)}")
    told = sum(by == "bar" for each in held.values() for _, by in each)
    sewn.across.clear()
    return [*out, *([f"{told} bars told, {met} found at corners"] if told != met else [])]


def _strain(
    sewn: Sewn,
    pairs: list[tuple[Ref, Ref]],
    of_edge: dict[Ref, str],
    seam_at: dict[str, int],
    edge_at: dict[Ref, int],
) -> tuple[bool, list[int]]:
    """Whether a corner is under strain, and the steps of what meets in it that matter to that."""
    wanted, steps = False, [0]
    for pair in pairs:
        kinds = [sewn.kind[ref] for ref in pair]
        part = pair[0][0]
        turns = abs(sewn.turn(*pair)) > 1.0
        gore = "gore" in part.split("-") and set(kinds) in ({"gore seam"}, {"underarm seam"}) and turns
        gusset = part.startswith("gusset") and set(kinds) <= {"gusset", "gusset seam"} and turns
        if gore or gusset:
            wanted = True
        for one, other in (kinds, kinds[::-1]):
            if one in OPENS and other not in OPENS[one] and (other != one or turns):
                wanted = True
                steps += [edge_at[ref] for ref in pair if ref in edge_at and sewn.kind[ref] == one]
    return wanted, steps


OPENS = {
    "split": {"hem", "neck", "opening"},
    "neck slit": {"neck"},
    "opening": {"neck", "cuff", "split"},
    "shoulder opening": {"neck"},
}
"""Edges that are left open, and those beside which they go on or end freely."""


def _before(first: int, later: int, waits: dict[int, set[int]]) -> bool:
    return first == later or first in waits[later]


def _by_steps(doc: Doc, sewn: Sewn) -> list[str]:
    """Sew one step after the other: flat work lies flat, closed sleeves are set into closed armholes."""
    tunic = "body" in doc["choices"]
    sleeves = doc["choices"]["sewing"]["sleeves"] if tunic and doc["choices"]["sleeve"]["shape"] != "none" else "none"
    whole = any(part["id"].startswith(("side-panel-left", "side-panel-right")) for part in doc["parts"])
    applied = {part["id"]: part["id"] for part in doc.get("applied", [])}
    flat_so_far, out, sewn_flat = True, [], set()
    for step in doc["sewing"]:
        names = [sewn.seams[name] for name in step["seams"]]
        if tunic and sleeves == "in the round" and any(kind == "armhole" for *_, kind in names):
            out += _set_in(sewn, names)
        for a, b, _ in names:
            sewn.across[a], sewn.across[b] = b, a
        patches = sewn.patches()
        touched = {ref[0] for a, b, _ in names for ref in (a, b)}
        mine_flat = all(patch.flat for patch in patches if patch.parts & touched)
        flat_now = all(patch.flat for patch in patches)
        for a, b, kind in names:
            if kind in ALWAYS_FLAT and not mine_flat:
                out.append(f"step {step['n']}: the {kind} {a} closes something")
            if tunic and not flat_now and not _may_close(a, b, kind, whole, sleeves, doc):
                out.append(f"step {step['n']}: the {kind} of {a} and {b} is sewn when all is closed")
            if kind == "armhole" and flat_now:
                sewn_flat |= {ref[0] for ref in (a, b) if ref[0].startswith("sleeve")}
        slits = [r for ref in step["edges"] if not sewn.allowance[r := (ref["part"], ref["edge"])]]
        facings = [
            part for part in step["parts"] if (part in applied and "facing" in part) or part.startswith("neck-strip")
        ]
        if tunic and not flat_so_far and (slits or facings):
            out.append(f"step {step['n']}: {slits or facings} is faced when the sides are closed")
        flat_so_far = flat_now
    final = sewn.patches()
    if len(final) != 1 or final[0].euler != doc["shell"]["euler"]:
        out.append("what is sewn in the end is not the shell")
    tops = {part["id"] for part in doc["parts"] if part["id"].startswith("sleeve") and "gore" not in part["id"]}
    heads = {ref[0] for a, b, kind in sewn.seams.values() for ref in (a, b) if kind == "armhole" and ref[0] in tops}
    if sleeves == "flat" and heads - sewn_flat:
        out.append(f"{sorted(heads - sewn_flat)} is not sewn on flat")
    return out


def _may_close(a: Ref, b: Ref, kind: str, whole: bool, sleeves: str, doc: Doc) -> bool:
    """Whether a seam may be sewn when something is closed: only what closes sides, sleeves and armpits itself."""
    if kind in MAY_CLOSE:
        return True
    if kind in ("gore to panel", "gore to gore"):
        at_side = any(ref[0].startswith(("gore-side-left", "gore-side-right")) for ref in (a, b))
        return at_side or (whole and any("gore-side-back" in ref[0] for ref in (a, b)))
    if kind == "panel seam":
        return whole and "side-back" in f"{a} {b}"
    if kind == "armhole":
        return sleeves == "in the round" or whole or doc["choices"]["sleeve"]["seam"] == "back"
    return False


def _set_in(sewn: Sewn, names: list[tuple[Ref, Ref, str]]) -> list[str]:
    """Before a sleeve is set in, it is a tube, and the body's armhole a ring of its own."""
    out = []
    patches = sewn.patches()
    for a, b, kind in names:
        if kind != "armhole":
            continue
        for ref in (a, b):
            (patch,) = [each for each in patches if ref[0] in each.parts]
            (rim,) = [rim for rim in patch.rims if ref in [each for each, _ in rim]]
            kinds = {kind for _, kind in rim}
            # where the side opens from the armpit down, the ring runs on along it
            if not kinds <= {"armhole", "gusset"} and "opening" not in kinds:
                out.append(f"{ref} is set in before its ring is closed: {sorted(kinds)}")
            if ref[0].startswith("sleeve") and len(patch.rims) < 2:
                out.append(f"{ref[0]} is set in before it is closed")
    return out


def swapped(doc: Doc, first: str, second: str) -> Doc:
    """The document with two steps in each other's place, by their codes; the needs of each stay where they were."""
    steps = [dict(step) for step in doc["sewing"]]
    i, j = (next(n for n, step in enumerate(steps) if step["code"] == code) for code in (first, second))
    for key in ("seams", "edges", "parts", "code"):
        steps[i][key], steps[j][key] = steps[j][key], steps[i][key]
    return {**doc, "sewing": steps}
