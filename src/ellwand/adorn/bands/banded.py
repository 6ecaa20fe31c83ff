"""The bands that were chosen, placed on the garment: their runs, what is cut for them, what yarn they take."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final, Literal

from ellwand.adorn.applied.cutting import Applied, strip
from ellwand.adorn.bands.guides import chalked
from ellwand.adorn.bands.lengths import Sides, corners_of, is_square, sides
from ellwand.adorn.bands.room import check_room
from ellwand.adorn.bands.shapes import shaped
from ellwand.adorn.bands.strips import LONGEST, LONGEST_BIAS, begun_where_it_joins, in_strips
from ellwand.adorn.bands.yarn import usual_ends, yarn_of
from ellwand.adorn.runs.places import runs_at
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.band import YARN, Band, BandChoice, Corner
from ellwand.model.draft import Draft, piece_of
from ellwand.model.names import named
from ellwand.model.run import Run
from ellwand.model.surface import MEET
from ellwand.units import format_length

EASES_STRAIGHT: Final = 0.05
"""How much longer than its other side one side of a straight strip or woven band may be, as a share, to lie flat when
it is eased on: common practice, no source."""
EASES_BIAS: Final = 0.15
"""The same of a strip on the bias, which is stretched and shrunk with the iron: common practice, no source."""
TURNED: Final = 1.0
"""Turned under along each side (cm), or the seam allowance where that is less: common practice."""
MOST_STRANDS: Final = 600
"""More threads than this are not made into one band or cord by hand: our own figure."""
LIPS: Final = ("neck slit", "splits")
Cut = Literal["", "straight", "bias", "shaped"]


def banded(draft: Draft) -> Draft:
    """The draft with its bands placed, and the strips cut for them among its pieces.

    Raises CannotDraft where a band cannot go where it was asked.
    """
    chosen = draft.choices.bands
    if not chosen:
        return draft
    bands: list[Band] = []
    put_on: list[Applied] = []
    for number, choice in enumerate(chosen, 1):
        where = f"garment.bands[{number}]"
        _check_strands(choice, where)
        _check_hem(draft, choice, where)
        try:
            runs = runs_at(draft, choice.at, choice.height)
        except CannotDraft as error:
            raise CannotDraft(f"{where}.{error.where}", error.problem, error.mend) from None
        called = name_of(chosen, number)
        placed = [_placed(draft, run, number, choice, where) for run in runs]
        cut, placed = _cut(draft, placed, choice, called, where)
        put_on += cut
        bands += placed
    check_room(draft, bands)
    yarns = tuple(
        yarn_of(number, choice, [band for band in bands if band.number == number])
        for number, choice in enumerate(chosen, 1)
        if choice.make in YARN
    )
    names = {number: name_of(chosen, number) for number in range(1, len(chosen) + 1)}
    return replace(
        draft,
        pieces=(*chalked(draft, bands, names), *(each.piece for each in put_on)),
        applied=(*draft.applied, *(part for each in put_on for part in each.parts)),
        adornment=replace(draft.adornment, bands=tuple(bands), yarns=yarns),
    )


def _check_strands(choice: BandChoice, where: str) -> None:
    if choice.make in YARN and (strands := choice.ends or usual_ends(choice)) > MOST_STRANDS:
        raise CannotDraft(
            f"{where}.width",
            _(
                "a {make} {width} wide takes {strands} strands of that yarn",
                make=choice.make,
                width=format_length(choice.width),
                strands=strands,
            ),
            _("make it narrower, or choose a thicker yarn (fewer wraps)"),
        )


def name_of(chosen: Sequence[BandChoice], number: int) -> str:
    """What a band's pieces are called: by its place, with a number where there are several."""
    alike = [i for i, each in enumerate(chosen, 1) if each.at == chosen[number - 1].at]
    plain = f"{SINGLE.get(chosen[number - 1].at, chosen[number - 1].at.replace('-', ' '))} band"
    return plain if len(alike) == 1 else f"{plain} {'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[alike.index(number) % 26]}"


SINGLE: Final[dict[str, str]] = {
    "cuffs": "cuff",
    "splits": "split",
    "side seams": "side seam",
    "shoulder seams": "shoulder seam",
    "armholes": "armhole",
    "gore seams": "gore seam",
    "edges": "edge",
}
"""Places of several, as one is called."""


def _check_hem(draft: Draft, choice: BandChoice, where: str) -> None:
    if choice.at == "hem" and any(gore.hem == "straight" for gore in draft.choices.gores):
        raise CannotDraft(
            f"{where}.at",
            _(
                "gores that are cut straight below are trimmed once the garment has hung, so how long a band"
                " along the hem has to be is not known before"
            ),
            _('choose hem = "arc" for the gores, or a skirt ring'),
        )


def _placed(draft: Draft, run: Run, number: int, choice: BandChoice, where: str) -> Band:
    """One band along one run, nothing cut yet."""
    if choice.corners == "butted" and not all(is_square(turn) for turn in run.turns):
        raise CannotDraft(
            f"{where}.corners",
            _("the corners at the {name} are not square", name=named(run.name)),
            _('choose corners = "mitred"'),
        )
    run, closing = begun_where_it_joins(draft, run)
    corners = (*corners_of(run, choice.width, choice.corners), *_point(draft, run, choice))
    lies = sides(run, choice.width, corners)
    cut = _how_cut(choice, run, lies)
    longest = {"straight": LONGEST, "bias": LONGEST_BIAS}.get(cut, math.inf)
    strips, joins = in_strips(draft, run, lies.length, corners, longest, parted=choice.corners == "butted")
    return Band(
        number=number,
        at=choice.at,
        run=run,
        width=choice.width,
        make=choice.make,
        cut=cut,
        corner_style=choice.corners,
        colour=choice.colour,
        length=run.length if cut == "shaped" else lies.length,
        longer=lies.longer,
        shorter=lies.shorter,
        eased=0.0 if cut == "shaped" else lies.eased,
        bent=lies.bent,
        corners=corners,
        joins=(*closing, *joins) if cut != "shaped" else (),
        strips=strips if cut in ("straight", "bias") else (),
        parts=(),
        turned=turned_under(draft, choice) if choice.make == "cloth" else 0.0,
        on_flat=not (run.closed and choice.at in ("hem", "skirt ring")),
    )


def _point(draft: Draft, run: Run, choice: BandChoice) -> tuple[Corner, ...]:
    """At the point of a slit or split the bands of its two edges go on past each other by their width."""
    if choice.at not in LIPS or (choice.at == "splits" and _opens_to_neck(draft, run)):
        return ()
    return (Corner(run.length if choice.at == "neck slit" else 0.0, -180.0, 90.0, choice.width),)


def _opens_to_neck(draft: Draft, run: Run) -> bool:
    """Whether a split's lip begins at the neck, or where what opens from the neck ends: then it has no point."""
    first = run.stretches[0]
    return any(
        math.dist(first.points[0], end) < MEET
        for edge in piece_of(draft, first.part).edges
        if edge.kind in ("neck", "opening")
        for end in (edge.points[0], edge.points[-1])
    )


def turned_under(draft: Draft, choice: BandChoice) -> float:
    """What is turned under along each side of a cloth band (cm)."""
    if choice.turned is not None:
        return choice.turned
    # both sides together are no wider than the band, so that they do not lie on each other
    return min(draft.choices.sewing.allowance, TURNED, math.floor(5 * choice.width) / 10)


def _how_cut(choice: BandChoice, run: Run, lies: Sides) -> Cut:
    if choice.make != "cloth":
        return ""
    if choice.cut == "auto" or (choice.cut == "shaped" and choice.at in LIPS):
        # along the two edges of a slit a shape would go round its point
        if lies.bent <= EASES_STRAIGHT:
            return "straight"
        return "bias" if lies.bent <= EASES_BIAS or run.along != "edge" or choice.at in LIPS else "shaped"
    if choice.cut == "shaped" and lies.bent < 1e-9 and not run.corners:
        # what is shaped like a straight edge is a strip
        return "straight"
    if choice.cut == "shaped" and run.along != "edge":
        # beside a seam or ring there is no edge to be shaped like
        return "bias"
    return "straight" if choice.cut == "straight" else "bias" if choice.cut == "bias" else "shaped"


def _cut(
    draft: Draft, bands: Sequence[Band], choice: BandChoice, name: str, where: str
) -> tuple[list[Applied], list[Band]]:
    """The pieces that bands of one choice are cut as, and the bands with their names."""
    out: list[Applied] = []
    done: list[Band] = []
    lengths = sorted({round(strip, 2) for band in bands for strip in band.strips}, reverse=True)
    several = len(lengths) > 1
    called = {long: f"{name} {i}" if several else name for i, long in enumerate(lengths, 1)}
    cut: dict[float, list[str]] = {long: [] for long in lengths}
    for i, band in enumerate(bands, 1):
        mine: list[str] = []
        for long in band.strips:
            names = cut[round(long, 2)]
            names.append(f"{called[round(long, 2)]}-{len(names) + 1}".replace(" ", "-"))
            mine.append(names[-1])
        if band.cut == "shaped":
            title = name if len(bands) == 1 else f"{name} {i}"
            pieces = shaped(draft, band.run, title, band.width, band.turned, where)
            mine = [part.id for each in pieces for part in each.parts]
            out += pieces
        done.append(replace(band, parts=tuple(mine)))
    edges = (draft.choices.sewing.allowance, turned_under(draft, choice))
    bias = any(band.cut == "bias" for band in bands)
    cloth = draft.pieces[0].cloth
    out += [
        strip(called[long], cloth, "body", names, (long, choice.width), edges, bias=bias) for long, names in cut.items()
    ]
    return out, done
