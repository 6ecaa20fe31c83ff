"""Bands in words: what to cut, buy, warp or braid, how it goes round corners, where its ends meet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from ellwand.depict.words.saying import Numbers, Say, percent
from ellwand.depict.words.step_asking import listed, paired
from ellwand.depict.words.yarns import yarn_words
from ellwand.language import N_, _, plural
from ellwand.model.adornment import Adornment
from ellwand.model.band import Band, BandMake, BandPlace, JoinPlace
from ellwand.model.finding import Finding
from ellwand.model.names import named
from ellwand.units import Unit, format_length

PLACED: Final[dict[BandPlace, str]] = {
    "neck": N_("round the neck"),
    "neck slit": N_("along both edges of the neck slit"),
    "cuffs": N_("round each cuff"),
    "hem": N_("along the hem"),
    "splits": N_("along both edges of each split"),
    "centre-front": N_("down the centre front"),
    "centre-back": N_("down the centre back"),
    "side seams": N_("down each side seam"),
    "shoulder seams": N_("along each shoulder seam"),
    "armholes": N_("round each armhole"),
    "gore seams": N_("along each gore seam"),
    "skirt ring": N_("in a ring round the skirt"),
    "arm ring": N_("in a ring round each sleeve"),
    "upper arm ring": N_("in a ring round each upper arm"),
    "face": N_("round the face"),
    "edges": N_("along the edges"),
    "waist": N_("round the waist"),
}
HIDDEN: Final[dict[JoinPlace, str]] = {
    "underarm seam": N_("at the underarm seam"),
    "side": N_("at the side"),
    "shoulder seam": N_("at a shoulder seam"),
    "back": N_("at the middle of the back"),
    "seam": N_("at a seam"),
    "between seams": N_("between two seams"),
}
MADE: Final[dict[BandMake, str]] = {
    "cloth": N_("cloth band"),
    "bought": N_("bought band"),
    "tablet woven": N_("tablet woven band"),
    "inkle woven": N_("inkle woven band"),
    "braid": N_("braid"),
    "cord": N_("cord"),
}
TURN_IN: Final = 1.5
"""Turned under at each end of a bought band (cm): common practice, no source."""
LITTLE: Final = 0.4
"""Less than this needs no word about easing it in (cm): our own figure."""
NARROW: Final = 0.5
"""Narrower than this (cm) no band is asked to be."""
EASES_BIAS: Final = 0.15
"""What a strip on the bias takes, as the proof has it."""
POINTED: Final = 150.0
"""Where a band turns by more (degrees) it comes to a point, and is not folded."""
METRIC, IMPERIAL = 10.0, 22.86
"""Bands are sold by 10 cm, or by the quarter yard: as shops do, from memory."""


def band_title(bands: Sequence[Band]) -> str:
    """What the bands of one number are: 'Red cloth band 4 cm wide, round each cuff' without its width."""
    first = bands[0]
    made = _(MADE[first.make])
    text = _("{colour} {band}", colour=first.colour, band=made) if first.colour else made
    return text[:1].upper() + text[1:]


def band_work(
    bands: Sequence[Band], adornment: Adornment, height: float | None, pieces: Sequence[int], unit: Unit
) -> str:
    """All that is to be told of the bands of one number: where, how long, what to cut or get, corners, joins.

    ``pieces``: the numbers of what is cut for them.
    """
    first = bands[0]
    said = [_where(bands, height, unit)]
    if first.make == "cloth":
        said += _cloth(bands, pieces, unit)
    elif first.make == "bought":
        said.append(
            _(
                "Buy {length}, ends turned under {turned} in it.",
                length=format_length(to_buy(bands, unit), unit),
                turned=_cm(TURN_IN, unit),
            )
        )
    else:
        said += [yarn_words(yarn, unit) for yarn in adornment.yarns if yarn.number == first.number]
    said += _corners(bands, unit)
    said += _points(bands, unit)
    said += _joins(bands)
    if first.eased > LITTLE:
        said.append(_eased(first, unit))
    return " ".join(said)


def to_buy(bands: Sequence[Band], unit: Unit) -> float:
    """The length of a bought band (cm), rounded up to what it is sold by."""
    step = IMPERIAL if unit == "in" else METRIC
    whole = math.fsum(band.length + 2 * TURN_IN for band in bands)
    return math.ceil(whole / step - 1e-9) * step


HEIGHTS: Final[dict[BandPlace, str]] = {
    "skirt ring": N_("{width} wide, {place}, its middle {height} above the hem"),
    "arm ring": N_("{width} wide, {place}, its middle {height} above the cuff"),
    "upper arm ring": N_("{width} wide, {place}, its middle {height} below the shoulder point"),
}


def _where(bands: Sequence[Band], height: float | None, unit: Unit) -> str:
    first = bands[0]
    wide, place = _cm(first.width, unit), _(PLACED[first.at])
    at = _("{width} wide, {place}", width=wide, place=place)
    if height is not None and first.at in HEIGHTS:
        at = _(HEIGHTS[first.at], width=wide, place=place, height=_cm(height, unit))
    lengths = list(dict.fromkeys(round(band.length, 1) for band in bands))
    if len(bands) == 1:
        return _("{what}: {length} long.", what=at, length=_cm(lengths[0], unit))
    if len(lengths) == 1:
        return _("{what}: {count} of {length}.", what=at, count=len(bands), length=_cm(lengths[0], unit))
    return f"{at}: {', '.join(_cm(band.length, unit) for band in bands)}."


def _cloth(bands: Sequence[Band], pieces: Sequence[int], unit: Unit) -> Iterator[str]:
    first = bands[0]
    numbers = (
        _("piece {number}", number=pieces[0])
        if len(pieces) == 1
        else _("pieces {numbers}", numbers=listed([str(n) for n in pieces]))
    )
    turned = _("; turn {width} under along each side", width=_cm(first.turned, unit)) if first.turned else ""
    if first.cut == "shaped":
        yield _("Cut it shaped like the edge it lies along ({pieces}){turned}.", pieces=numbers, turned=turned)
        if any(len(band.parts) > 1 for band in bands):
            yield _("Sew its parts together first; their seams lie on those of the garment.")
        return
    counts: dict[float, int] = {}
    for band in bands:
        for strip in band.strips:
            counts[round(strip, 1)] = counts.get(round(strip, 1), 0) + 1
    how = _("on the bias") if first.cut == "bias" else _("along the thread")
    if sum(counts.values()) == 1:
        yield _(
            "Cut it in one strip {how} ({pieces}), {length} finished{turned}.",
            how=how,
            pieces=numbers,
            length=_cm(next(iter(counts)), unit),
            turned=turned,
        )
        return
    each = [
        _("{count} of {length}", count=n, length=_cm(long, unit)) for long, n in sorted(counts.items(), reverse=True)
    ]
    yield _(
        "Cut strips {how} ({pieces}), finished {lengths}{turned}.",
        how=how,
        pieces=numbers,
        lengths=listed(each),
        turned=turned,
    )


def _points(bands: Sequence[Band], unit: Unit) -> Iterator[str]:
    pointed = [
        corner for band in bands if band.cut != "shaped" for corner in band.corners if abs(corner.turn) > POINTED
    ]
    if pointed:
        yield _(
            "At the point let each end go on {length} past it, one over the other.", length=_cm(pointed[0].extra, unit)
        )


def _corners(bands: Sequence[Band], unit: Unit) -> Iterator[str]:
    corners = [corner for band in bands if band.cut != "shaped" for corner in band.corners]
    folded = [corner for corner in corners if corner.fold < 89.9]
    if folded:
        angles = sorted({round(corner.fold) for corner in folded})
        extra = max(corner.extra for corner in folded)
        at = f"{angles[0]}°"
        for angle in angles[1:]:
            at = _("{one} or {other}", one=at, other=f"{angle}°")
        spare = _("; each takes up to {length} of its length", length=_cm(extra, unit)) if extra > 0.05 else ""
        yield plural(
            "Fold it aslant at one corner, the fold at {angles} to its edge{spare}; stitch the fold down.",
            "Fold it aslant at {n} corners, the fold at {angles} to its edge{spare}; stitch the fold down.",
            len(folded),
            angles=at,
            spare=spare,
        )
    elif any(corner.extra for corner in corners if abs(corner.turn) < POINTED):
        yield _(
            "At each corner let one strip run on past the point and set the end of the next square against its side."
        )


def _joins(bands: Sequence[Band]) -> Iterator[str]:
    first = bands[0]
    between = first.joins[1:] if first.run.closed else first.joins
    if first.run.closed and first.joins:
        yield _("Its ends meet {place}.", place=_(HIDDEN[first.joins[0].place]))
    if between:
        places = [_(HIDDEN[place]) for place in dict.fromkeys(join.place for join in between)]
        yield _("Join its strips {places}.", places=paired(places))


def _eased(band: Band, unit: Unit) -> str:
    return _(
        "One side of it lies on a line {length} shorter than the other: ease that side in as you pin.",
        length=_cm(band.eased, unit),
    )


def _cm(value: float, unit: Unit) -> str:
    return format_length(value, unit)


# --- findings ---------------------------------------------------------------------------------------------


CUT: Final[dict[str, str]] = {
    "straight": N_("cut along the thread"),
    "bias": N_("cut on the bias"),
    "shaped": N_("shaped"),
    "bought": N_("bought"),
    "tablet woven": N_("tablet woven"),
    "inkle woven": N_("inkle woven"),
    "braid": N_("braid"),
    "cord": N_("cord"),
}
"""How a band is cut or made."""


def _bends(f: Finding, n: Numbers) -> str:
    return _(
        "The band at the {place}, {width} wide and {how}, has to bend: where it bends most one side is {share} longer"
        " than the other, {length} in all.",
        how=_(CUT[n.text("cut")]),
        place=_spoken(f.subject),
        width=n.of("width"),
        share=percent(n.number("bent")),
        length=n.cm(f.measured),
    )


def _bends_mend(f: Finding, n: Numbers) -> str:
    key = ""
    if n.text("cut") == "straight" and n.number("bent") <= EASES_BIAS:
        key = 'bands.cut = "bias"'
    elif n.number("edge"):
        key = _("{one} and {other}", one='bands.make = "cloth"', other='bands.cut = "shaped"')
    width = n.less(n.number("most"))
    if n.number("most") < NARROW:
        return _("Choose {key}; or lay the spare in small pleats.", key=key) if key else _("Lay it in small pleats.")
    if not key:
        return _("Make the band {width} wide or less; or lay the spare in small pleats.", width=width)
    return _(
        "Make the band {width} wide or less, or choose {key}; or lay the spare in small pleats.", width=width, key=key
    )


def _taken_up(f: Finding, n: Numbers) -> str:
    return _(
        "Until it has grown into, the {place} is turned up by {length}, and the band there with it.",
        place=_spoken(f.subject),
        length=n.cm(f.measured),
    )


def _spoken(subject: str) -> str:
    return named(subject.replace("-", " "))


BAND_WHY: Final[dict[str, Say]] = {"band-bends": _bends, "band-taken-up": _taken_up}
BAND_MEND: Final[dict[str, Say]] = {
    "band-bends": _bends_mend,
    "band-taken-up": lambda f, n: _(
        "Choose {key}, or sew the band on when the hem is let down.", key='growth.by = "tucks"'
    ),
}
