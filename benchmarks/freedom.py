"""What freedom of structure is worth: the same sewn garment, its pieces as given against the best way to cut it up.

    python benchmarks/freedom.py [--seconds S] [--cases NAME ...] [--garments N]

First the ten cases of tests/data/packing/tunics.json: gores whole or in halves, their tips pieced on, body in one
length or with a shoulder seam, in halves or with a strip pieced on, sleeves and gussets in two.  Every join adds two
allowances of 1.5 cm, and the net garment stays as it is (asserted by its area).  Both sides have the same wall time,
screening included.  Then garments of the sweep (tests/sweep.py) with everything left open against the
same, nothing left open.
Target: 5 % less cloth or better, 92 % of it used.
"""

from __future__ import annotations

import argparse
import json
import math
import statistics
import sys
import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, area, bounds, mirror, turn
from ellwand.lay import Budget, lay_out
from ellwand.model.cloth import Cloth
from ellwand.model.piece import Piece
from ellwand.pipeline import make
from ellwand.plan.brief import TESTS, brief_lay
from ellwand.plan.laying import fails, taken
from ellwand.plan.making import make_freely
from ellwand.plan.same import same, sewn
from sweep import garment_at, read

TUNICS: Final = Path(__file__).parents[1] / "tests" / "data" / "packing" / "tunics.json"
SEAM: Final = 1.5
HEM: Final = 1.5
GORE: Final = 70.0
"""Net height of every gore of the cases (cm)."""
TOP: Final = 3.0
"""Cut beyond a gore's point (cm)."""
FINALISTS: Final = 2
"""So many structures are searched, for what is left of the time."""
SECOND_LOOK: Final = 8
LONGER: Final = 4
"""Before that so many are laid again, so many times longer."""


@dataclass(frozen=True)
class Cut:
    """Pieces of one outline, grain upward; ``net``: area of one as it is sewn (cm²), 0 for facings and bands."""

    name: str
    outline: Line
    count: int
    net: float
    small: bool = False


Cuts = tuple[Cut, ...]
Choice = str | int | tuple[float, int]
Way = Mapping[str, Choice]


# --- the cases' pieces, in any structure ----------------------------------------------------------------


def rectangle(name: str, width: float, height: float, count: int, *, ends: int = 2, small: bool = False) -> Cut:
    """``width`` and ``height`` net, with allowances all round."""
    w, h = width + 2 * SEAM, height + ends * SEAM
    return Cut(name, ((0, 0), (w, 0), (w, h), (0, h)), count, width * height, small)


def gore(slope: float, low: float, high: float, half: bool, count: int, name: str) -> Iterator[Cut]:
    """The part of a gore between two net heights above its hem, 0 to 70; its sides lean by ``slope`` each.

    Halves come in both hands, but for a single one of a pair of garments.
    """
    lean = SEAM * math.hypot(1, slope)
    below = low - (HEM if low == 0 else SEAM)
    above = high + (TOP if high == GORE else SEAM)
    wide, narrow = (slope * (GORE - y) + lean for y in (below, above))
    net = slope * ((GORE - low) ** 2 - (GORE - high) ** 2) / 2
    if narrow < 0:
        above, narrow = GORE + lean / slope, 0.0
    top = above - below
    if half:
        outline = ((0.0, 0.0), (wide + SEAM, 0.0), (narrow + SEAM, top), (0.0, top))
        left = count // 2
        for hand, number in (("left", left), ("right", count - left)):
            if number:
                ring = outline if hand == "right" else tuple(reversed(mirror(outline)))
                yield Cut(f"{name} {hand}", ring, number, net)
    else:
        ring = ((-wide, 0.0), (wide, 0.0), (narrow, top), (-narrow, top))
        yield Cut(name, ring, count, 2 * net)


def sleeve(top: float, cuff: float, length: float, pieces: int, count: int) -> Iterator[Cut]:
    """Cut sizes of a whole sleeve; in two along its middle."""
    net = 0.0
    if pieces == 1:
        net = (top + cuff) / 2 * length
        ring = ((-top / 2, 0.0), (top / 2, 0.0), (cuff / 2, length), (-cuff / 2, length))
        yield Cut("sleeve", ring, count, net)
        return
    outline = ((-SEAM, 0.0), (top / 2, 0.0), (cuff / 2, length), (-SEAM, length))
    for hand in ("left", "right"):
        ring = outline if hand == "right" else tuple(reversed(mirror(outline)))
        yield Cut(f"half sleeve {hand}", ring, count, (top + cuff) / 4 * length)


@dataclass(frozen=True)
class Case:
    """One case: the sizes of its garment, the way it is cut as given, and its cloth."""

    name: str
    cloth: Cloth
    body: float
    side: float
    gores: int
    slope: float
    given: Way
    fixed: Cuts

    def cuts(self, way: Way) -> Cuts:
        """Its pieces in some structure."""
        return tuple(self._cuts(way))

    def _cuts(self, way: Way) -> Iterator[Cut]:
        fold = way["shoulder"] == "fold"
        length, pairs = (230.0, 1) if fold else (115.0, 2)
        strip, pieced = way["strip"] if isinstance(way["strip"], tuple) else (0.0, 0)
        pieced = min(pairs, pieced)
        if way["centre"] == "halves":
            yield rectangle("half body", self.body / 2, length, 2 * pairs)
        else:
            if pieced:
                yield rectangle("body", self.body - strip, length, pieced)
                yield rectangle("strip", strip, length, pieced)
            if pairs - pieced:
                yield rectangle("whole body", self.body, length, pairs - pieced)
        if self.side:
            yield rectangle("side", self.side, 85.0, 2)
        whole, tip = _int(way["whole"]), float(_int(way["tip"]))
        for half, count in ((False, whole), (True, 2 * (self.gores - whole))):
            if count:
                name = "half gore" if half else "gore"
                yield from gore(self.slope, 0.0, tip or GORE, half, count, name)
                if tip:
                    yield from gore(self.slope, tip, GORE, half, count, f"{name} tip")
        yield from sleeve(53.7251, 28.4161, 58.0, _int(way["sleeves"]), 2)
        if way["gussets"] == "two":
            leg = 15 + SEAM * (2 + math.sqrt(2))
            yield Cut("half gusset", ((0, 0), (leg, 0), (0, leg)), 4, 112.5, True)
        else:
            yield rectangle("gusset", 15.0, 15.0, 2, small=True)
        if way["facing"] == "strips":
            # the same ring, 6 cm wide, of four strips
            yield Cut("long facing", ((0, 0), (34, 0), (34, 9), (0, 9)), 2, 0.0, True)
            yield Cut("short facing", ((0, 0), (18, 0), (18, 9), (0, 9)), 2, 0.0, True)
        else:
            yield Cut("facing", ((0, 0), (34, 0), (34, 30), (0, 30)), 1, 0.0, True)
        yield Cut("cuff", ((0, 0), (31, 0), (31, 9), (0, 9)), 2, 0.0, True)
        yield Cut("neckband", ((0, 0), (46, 0), (46, 6), (0, 6)), 1, 0.0, True)

    def options(self) -> dict[str, tuple[Choice, ...]]:
        """What may be done otherwise."""
        room = self.cloth.width
        widths = {bounds(cut.outline)[2] - bounds(cut.outline)[0] for cut in self.cuts(self.given)}
        full = self.body + 2 * SEAM
        mains = {room / 2, *(room - wide for wide in widths), *(room - 2 * wide for wide in widths), room - full}
        strips = sorted({round(full - main, 1) for main in mains if full / 2 <= main <= full - 6})
        return {
            "strip": (0, *((strip, n) for n in (2, 1) for strip in strips[:6])),
            "shoulder": ("seam", "fold"),
            "whole": tuple(range(self.gores + 1)),
            "sleeves": (1, 2),
            "centre": ("whole", "halves"),
            "tip": (0, 35, 47),
            "gussets": ("square", "two"),
            "facing": ("whole", "strips"),
        }


def _int(value: Choice) -> int:
    assert isinstance(value, int)
    return value


def cases() -> Iterator[Case]:
    """The ten cases; their given pieces rebuilt from the garment's sizes agree with the file (asserted)."""
    for each in json.loads(TUNICS.read_text("utf-8"))["cases"]:
        given = {p["name"]: p for p in each["pieces"]}
        fixed = tuple(
            Cut(name, tuple(turn([(x, y) for x, y in p["outline"]], 90)), p["count"], 0.0, 90 in p["turns"])
            for name, p in given.items()
        )
        body, ring = given["body"], given["gore"]["outline"]
        across = max(y for _, y in body["outline"]) - 2 * SEAM
        halves = abs(ring[0][1] - 54.257) > 1 and abs(max(y for _, y in ring) - 54.257) > 1
        wide = max(y for _, y in ring)
        slope = 0.4 if abs(wide - 31.7155) < 1e-3 else 25 / 70
        count = given["gore"]["count"]
        way: Way = {
            "shoulder": "fold" if body["count"] == 1 else "seam",
            "whole": 0 if halves else count,
            "sleeves": 1,
            "strip": 0,
            "centre": "whole",
            "tip": 0,
            "gussets": "square",
            "facing": "whole",
        }
        nap = all(p["turns"] == [0] for p in given.values())
        cloth = Cloth("main", each["cloth_width"], selvedge=0, nap=nap, reversible=False, washed=True)
        case = Case(
            each["name"],
            cloth,
            across,
            14.0 if "side" in given else 0.0,
            count // 2 if halves else count,
            slope,
            way,
            fixed,
        )
        assert abs(_area(case.cuts(way)) - _area(fixed)) < 0.1, (case.name, _area(case.cuts(way)), _area(fixed))
        yield case


def _area(cuts: Cuts) -> float:
    return sum(abs(area(cut.outline)) * cut.count for cut in cuts)


def _net(cuts: Cuts) -> float:
    """Net area (cm²) of the garment; sleeves as they are cut, half of one as half of it."""
    return sum(cut.net * cut.count for cut in cuts)


def _pieces(cuts: Cuts) -> list[Piece]:
    return [
        Piece(c.name, c.name, "main", c.count, "body", c.outline, (), c.outline, (), (), small=c.small) for c in cuts
    ]


def _laid(case: Case, cuts: Cuts, seconds: float) -> float:
    return sum(lay.length for lay in lay_out(_pieces(cuts), [], case.cloth, Budget(seconds)))


def freely(case: Case, seconds: float) -> tuple[float, Way, Cuts]:
    """The shortest lay over the structures: laid briefly along single changes, then the best ones searched."""
    start = time.monotonic()
    known: dict[Cuts, tuple[float, Way]] = {}

    def of(way: Way) -> None:
        cuts = case.cuts(way)
        if cuts in known or time.monotonic() - start > seconds * 0.4:
            return
        assert abs(_net(cuts) - _net(case.cuts(case.given))) < 0.05, (case.name, way)
        least = min((found for found, _ in known.values()), default=math.inf)
        lay = brief_lay(_pieces(cuts), [], case.cloth) if _area(cuts) / case.cloth.width < least else None
        known[cuts] = (lay.length if lay else math.inf, way)

    def ranked() -> list[tuple[float, Way]]:
        return sorted(known.values(), key=lambda each: each[0])

    of(case.given)
    beam: list[Way] = []
    while ranked()[0][1] not in beam and time.monotonic() - start < seconds * 0.4:
        beam = [way for _, way in ranked()[:2]]
        for base in beam:
            for name, values in case.options().items():
                for value in values:
                    of({**base, name: value})
    for _, way in ranked()[:SECOND_LOOK]:
        longer = brief_lay(_pieces(case.cuts(way)), [], case.cloth, LONGER * TESTS)
        if longer and longer.length < known[case.cuts(way)][0]:
            known[case.cuts(way)] = longer.length, way
    finalists = ranked()[:FINALISTS]
    left = seconds - (time.monotonic() - start)
    done = [(_laid(case, case.cuts(way), left / len(finalists)), way) for _, way in finalists]
    length, way = min((*done, *finalists), key=lambda each: each[0])
    return length, way, case.cuts(way)


def by_cases(seconds: float, names: list[str]) -> None:
    """Print each case and the means."""
    ratios, uses = [], []
    print(f"{'case':<10} {'fixed':>7} {'freely':>7} {'ratio':>6} {'used':>6} {'was':>6}  way")
    for case in cases():
        if names and case.name not in names:
            continue
        fixed = _laid(case, case.fixed, seconds)
        length, way, cuts = freely(case, seconds)
        ratios.append(length / fixed)
        uses.append(_area(cuts) / (case.cloth.width * length))
        changed = ", ".join(f"{key} {value}" for key, value in way.items() if value != case.given[key])
        was = _area(case.fixed) / (case.cloth.width * fixed)
        print(
            f"{case.name:<10} {fixed:7.1f} {length:7.1f} {ratios[-1]:6.3f} {uses[-1]:6.1%} {was:6.1%}  {changed}",
            flush=True,
        )
    print(f"mean {statistics.mean(ratios) - 1:+.1%} cloth, {statistics.mean(uses):.1%} used")


def by_garments(seconds: float, count: int) -> None:
    """Garments of the sweep, everything open against as chosen: the plainest of what is open."""
    ratios: list[float] = []
    i = 0
    while len(ratios) < count and i < 20 * count:
        tables, person = garment_at(1, i)
        i += 1
        sheet = read(tables, person)
        if sheet.choices.other is not None:
            continue
        body, sleeves = sheet.choices.body, sheet.choices.sleeve
        settled = replace(
            sheet,
            choices=replace(
                sheet.choices,
                sleeve=replace(sleeves, pieces="one" if sleeves.pieces == "auto" else sleeves.pieces),
                gores=tuple(replace(g, make="whole" if g.make == "either" else g.make) for g in sheet.choices.gores),
            ),
        )
        opened = replace(
            sheet,
            choices=replace(
                sheet.choices,
                body=replace(
                    body,
                    shoulder="either" if body.shoulder == "fold" else body.shoulder,
                    centre_seam="either" if body.centre_seam == "none" else body.centre_seam,
                    pieced="freely",
                ),
                sleeve=replace(sleeves, pieces="auto" if sleeves.pieces == "one" else sleeves.pieces),
                gores=tuple(replace(g, make="either") for g in sheet.choices.gores),
            ),
        )
        try:
            one = make(settled, seconds=seconds)
            other = make_freely(opened, seconds=seconds)
        except CannotDraft:
            continue
        if not same(sewn(one), sewn(other)) or fails(other) > fails(one):
            print(f"  {i - 1}: not the same garment")
            continue
        a, b = (taken(each.lays, sheet.cloth.name) for each in (one, other))
        ratios.append(b / a)
        print(f"  {i - 1:4} {a:7.1f} {b:7.1f} {b / a:6.3f}", flush=True)
    print(
        f"{len(ratios)} garments: mean {statistics.mean(ratios) - 1:+.1%}, median {statistics.median(ratios) - 1:+.1%}"
    )


def main() -> None:
    """Run the benchmark."""
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("--seconds", type=float, default=10.0)
    ask.add_argument("--cases", nargs="*", default=[], help="their names; none: only garments of the sweep")
    ask.add_argument("--garments", type=int, default=0)
    asked = ask.parse_args()
    if asked.cases != ["none"]:
        by_cases(asked.seconds, asked.cases)
    if asked.garments:
        by_garments(asked.seconds, asked.garments)


if __name__ == "__main__":
    main()
