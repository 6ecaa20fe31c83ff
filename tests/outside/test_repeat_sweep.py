"""Motifs along the lines of garments from the whole choice space: walked again on the pieces, by another way.

shapely measures how far along the run, and how far from it, each motif's middle lies.
"""

from __future__ import annotations

import itertools
import math
import random
from collections import Counter

import pytest
from shapely import LineString, MultiLineString, Polygon, union_all
from shapely import Point as Spot

from ellwand.adorn import adorn
from ellwand.adorn.repeats.repeated import repeats_along
from ellwand.adorn.runs.places import runs_at
from ellwand.draft import draft
from ellwand.errors import BadInput, CannotDraft
from ellwand.measure import wearer_from
from ellwand.model.choices import plainest
from ellwand.model.draft import Draft
from ellwand.model.repeat import MOTIFS, RINGS, Placement, Repeat, RepeatChoice, motif_rings
from ellwand.model.run import starts
from sweep import garments, read

SEED, WANTED = 6, 210
PLACES = ("hem", "hem", "hem", "neck", "cuffs", "skirt ring", "arm ring", "upper arm ring", "splits", "centre-front")


def drafts() -> list[Draft]:
    """Garments that can be drafted; every fourth of the sweep's is refused."""
    out = []
    for tables, person in garments(SEED, 3 * WANTED):
        try:
            sheet = read(tables, person)
            wearer = wearer_from(sheet.wearer)
            out.append(adorn(draft(plainest(sheet.choices), wearer, "main")))
        except BadInput:
            continue
        if len(out) == WANTED:
            return out
    raise AssertionError("too few garments can be drafted")


def has(drafted: Draft, place: str) -> bool:
    """Whether the garment has such a line."""
    try:
        return bool(runs_at(drafted, place, 10.0 if place in RINGS else None))
    except CannotDraft:
        return False


def choice_at(i: int, drafted: Draft) -> RepeatChoice:
    """A repeat of any kind, of three places on the first that the garment has."""
    dice = random.Random(f"repeat {i}")
    places = [dice.choice(PLACES) for _ in range(3)]
    along = next((place for place in places if has(drafted, place)), "edges")
    small = along not in ("hem", "skirt ring")
    least = dice.uniform(1.2, 3) if small else dice.uniform(2, 6)
    gap = dice.uniform(0.2, 2)
    return RepeatChoice(
        motif=dice.choice(MOTIFS),
        along=along,
        height=dice.uniform(6, 30) if along in RINGS else None,
        size=(least, least * dice.choice([1.0, 1.3, 1.8])),
        gap=None if dice.random() < 0.4 else (gap, gap + dice.uniform(0.5, 6)),
        inset=dice.uniform(0.3, 2),
        clear_of_seams=dice.random() < 0.4,
        mirrored=dice.random() < 0.3,
        corners=dice.random() < 0.7,
    )


def test_motifs_lie_evenly_on_the_pieces() -> None:
    done: Counter[str] = Counter()
    for i, drafted in enumerate(drafts()):
        choice = choice_at(i, drafted)
        try:
            repeats = repeats_along(drafted, choice)
        except CannotDraft as refused:
            done["refused"] += 1
            assert refused.problem and refused.mend
            continue
        done["garments"] += 1
        for repeat in repeats:
            check(drafted, repeat, i)
            done[choice.along] += 1
            done["motifs"] += repeat.count
            done["clear"] += choice.clear_of_seams and bool(repeat.run.seams)
            done["mirrored"] += choice.mirrored
            done["corners"] += any(each.corner for each in repeat.placements)
    assert done["garments"] >= 150 and done["motifs"] > 4000, done
    assert min(done[place] for place in ("hem", "neck", "cuffs", "skirt ring")) >= 8, done
    assert done["clear"] > 60 and done["mirrored"] > 15 and done["corners"] >= 3, done


def check(drafted: Draft, repeat: Repeat, i: int) -> None:
    told = f"{i} {repeat.chosen} {repeat.run.name}"
    own = [each for each in repeat.placements if not each.again and not each.corner]
    assert [each.at for each in own] == list(repeat.at), told
    for each in own:
        along, off = measured(repeat, each)
        apart = abs(along - each.at)
        apart = min(apart, repeat.run.length - apart) if repeat.run.closed else apart
        assert apart < 0.01 and off < 0.01, f"{told}: {along} for {each.at}, {off} off"
    adds_up(repeat, told)
    if repeat.chosen.clear_of_seams:
        keeps_clear(drafted, repeat, told)
    alike_on_both_sides(repeat, told)
    apart_from_each_other(repeat, told)


def measured(repeat: Repeat, placement: Placement) -> tuple[float, float]:
    """How far along the run the motif stands, and how far from the run, by projecting on its own stretch what lies
    square below its middle, or above it."""
    deep = 0.0 if repeat.run.along == "line" else repeat.chosen.inset + repeat.motif.size[1] / 2
    turn, (x, y) = math.radians(placement.angle), placement.point
    begins = starts(repeat.run)
    found = []
    for stretch, begin, end in zip(repeat.run.stretches, begins, begins[1:], strict=False):
        if stretch.part == placement.part and begin - 0.01 <= placement.at <= end + 0.01:
            line = LineString(stretch.points)
            for way in (-deep, deep):
                foot = Spot(x - math.sin(turn) * way, y + math.cos(turn) * way)
                found.append((line.distance(foot), begin + line.project(foot)))
    off, along = min(found, key=lambda each: (round(each[0], 3), abs(each[1] - placement.at)))
    return along, off


def adds_up(repeat: Repeat, told: str) -> None:
    """Sizes, gaps and what corners take make the run's length to 0.1 mm; gaps lie within the limits."""
    size, run = repeat.size, repeat.run
    low, high = repeat.chosen.size
    assert low - 1e-6 <= size <= high + 1e-6, told
    for row in repeat.rows:
        first, last = row.first - size / 2, row.first + (row.count - 1) * row.pitch + size / 2
        assert row.count * size + (row.count - 1) * row.gap == pytest.approx(last - first, abs=0.01), told
        assert first - row.begin == pytest.approx(row.end - last, abs=0.01), told
        if repeat.chosen.gap is not None:
            assert repeat.chosen.gap[0] - 1e-6 <= row.gap <= repeat.chosen.gap[1] + 1e-6, told
    if not run.corners:
        at = list(repeat.at)
        gaps = [b - a - size for a, b in itertools.pairwise(at)]
        ends = run.length - at[-1] + at[0] - size
        assert len(at) * size + math.fsum(gaps) + ends == pytest.approx(run.length, abs=0.01), told
        assert not run.closed or ends > -1e-6, told
        assert all(gap > -1e-6 for gap in gaps), told


def keeps_clear(drafted: Draft, repeat: Repeat, told: str) -> None:
    pieces = {part.id: piece for part in drafted.parts for piece in drafted.pieces if piece.id == part.piece}
    for each in repeat.placements:
        assert not each.again, told
        piece = pieces[each.part]
        cloth = Polygon(piece.sewn, piece.sewn_holes).buffer(0.01)
        assert cloth.contains(MultiLineString([[*ring, ring[0]] for ring, _ in motif_rings(repeat, each)])), told


def alike_on_both_sides(repeat: Repeat, told: str) -> None:
    """From the middle of the front both ways the same distances, where the seams lie so too; on other lines from
    both ends."""
    run = repeat.run
    whole = run.length

    def mirrored(places: tuple[float, ...]) -> bool:
        near = [min(min(abs(whole - a - b), abs(whole - a - b + whole), abs(a + b)) for b in places) for a in places]
        return all(each < 0.02 for each in near)

    if (not repeat.chosen.clear_of_seams or mirrored(run.seams)) and (not run.corners or mirrored(run.corners)):
        assert mirrored(repeat.at), told


def apart_from_each_other(repeat: Repeat, told: str) -> None:
    """Motifs with a gap between them do not overlap on any piece."""
    if repeat.joins or repeat.overlap:
        return
    for part in {each.part for each in repeat.placements}:
        on = [each for each in repeat.placements if each.part == part]
        shapes = [union_all([Polygon(r, holes).buffer(0) for r, holes in motif_rings(repeat, each)]) for each in on]
        for (one, a), (other, b) in itertools.pairwise(zip(on, shapes, strict=True)):
            # what is set into the part between them is not there on the piece as it is cut
            between = any(one.at < seam < other.at for seam in repeat.run.seams)
            if not (one.again or other.again or between):
                assert a.intersection(b).area < 1e-4, told
