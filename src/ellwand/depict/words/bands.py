"""Bands in words: what to cut, buy, warp or braid, how it goes round corners, where its ends meet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from ellwand.depict.words.saying import Numbers, Say
from ellwand.model.adornment import Adornment
from ellwand.model.band import Band, BandPlace, JoinPlace, Yarn
from ellwand.model.finding import Finding
from ellwand.units import Unit, format_length

PLACED: Final[dict[BandPlace, str]] = {
    "neck": "round the neck",
    "neck slit": "along both edges of the neck slit",
    "cuffs": "round each cuff",
    "hem": "along the hem",
    "splits": "along both edges of each split",
    "centre-front": "down the centre front",
    "centre-back": "down the centre back",
    "side seams": "down each side seam",
    "shoulder seams": "along each shoulder seam",
    "armholes": "round each armhole",
    "gore seams": "along each gore seam",
    "skirt ring": "in a ring round the skirt",
    "arm ring": "in a ring round each sleeve",
    "upper arm ring": "in a ring round each upper arm",
    "face": "round the face",
    "edges": "along the edges",
    "waist": "round the waist",
}
HIDDEN: Final[dict[JoinPlace, str]] = {
    "underarm seam": "at the underarm seam",
    "side": "at the side",
    "shoulder seam": "at a shoulder seam",
    "back": "at the middle of the back",
    "seam": "at a seam",
    "between seams": "between two seams",
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
    made = {"cloth": "cloth band", "bought": "bought band", "braid": "braid", "cord": "cord"}.get(
        first.make, f"{first.make} band"
    )
    text = f"{first.colour} {made}" if first.colour else made
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
        said.append(f"Buy {format_length(to_buy(bands, unit), unit)}, ends turned under {_cm(TURN_IN, unit)} in it.")
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


def yarn_words(yarn: Yarn, unit: Unit) -> str:
    """What a band of yarn takes: 'Warp 48 threads (12 tablets of 4 holes), each 120 cm long ...'."""
    metres = _metres(yarn.metres, unit)
    grams = f"{math.ceil(yarn.grams)}\u00a0g"
    long, warp = _up(yarn.length, unit), _up(yarn.warp, unit)
    if yarn.make in ("tablet woven", "inkle woven"):
        tablets = f" ({yarn.ends // 4} tablets of 4 holes)" if yarn.make == "tablet woven" and not yarn.ends % 4 else ""
        return (
            f"Weave {long} in one: warp {yarn.ends} threads{tablets}, each {warp} long ({yarn.take_up:.0%} is taken up"
            f" in weaving, and {_cm(yarn.loom_waste, unit)} stays unwoven). Yarn with the weft: {metres}, {grams}."
        )
    work = "Braid" if yarn.make == "braid" else "Twist"
    times = f"{1 + yarn.take_up:g} times the {yarn.make} and {_cm(yarn.loom_waste, unit)} for the ends"
    return (
        f"{work} {long} in one from {yarn.ends} strands, each {warp} long ({times}). Yarn: {metres}, {grams}. Try a"
        " hand's length first, and measure what it takes."
    )


def _where(bands: Sequence[Band], height: float | None, unit: Unit) -> str:
    first = bands[0]
    at = f"{_cm(first.width, unit)} wide, {PLACED[first.at]}"
    if height is not None and first.at.endswith("ring"):
        what = {"skirt ring": "above the hem", "arm ring": "above the cuff"}.get(first.at, "below the shoulder point")
        at += f", its middle {_cm(height, unit)} {what}"
    lengths = list(dict.fromkeys(round(band.length, 1) for band in bands))
    if len(bands) == 1:
        return f"{at}: {_cm(lengths[0], unit)} long."
    if len(lengths) == 1:
        return f"{at}: {len(bands)} of {_cm(lengths[0], unit)}."
    return f"{at}: {', '.join(_cm(band.length, unit) for band in bands)}."


def _cloth(bands: Sequence[Band], pieces: Sequence[int], unit: Unit) -> Iterator[str]:
    first = bands[0]
    numbers = f"piece {pieces[0]}" if len(pieces) == 1 else f"pieces {_and([str(n) for n in pieces])}"
    turned = f"; turn {_cm(first.turned, unit)} under along each side" if first.turned else ""
    if first.cut == "shaped":
        yield f"Cut it shaped like the edge it lies along ({numbers}){turned}."
        if any(len(band.parts) > 1 for band in bands):
            yield "Sew its parts together first; their seams lie on those of the garment."
        return
    counts: dict[float, int] = {}
    for band in bands:
        for strip in band.strips:
            counts[round(strip, 1)] = counts.get(round(strip, 1), 0) + 1
    how = "on the bias" if first.cut == "bias" else "along the thread"
    each = [f"{n} of {_cm(long, unit)}" for long, n in sorted(counts.items(), reverse=True)]
    if sum(counts.values()) == 1:
        yield f"Cut it in one strip {how} ({numbers}), {_cm(next(iter(counts)), unit)} finished{turned}."
    else:
        yield f"Cut strips {how} ({numbers}), finished {_and(each)}{turned}."


def _points(bands: Sequence[Band], unit: Unit) -> Iterator[str]:
    pointed = [
        corner for band in bands if band.cut != "shaped" for corner in band.corners if abs(corner.turn) > POINTED
    ]
    if pointed:
        yield f"At the point let each end go on {_cm(pointed[0].extra, unit)} past it, one over the other."


def _and(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _corners(bands: Sequence[Band], unit: Unit) -> Iterator[str]:
    corners = [corner for band in bands if band.cut != "shaped" for corner in band.corners]
    folded = [corner for corner in corners if corner.fold < 89.9]
    if folded:
        angles = sorted({round(corner.fold) for corner in folded})
        extra = max(corner.extra for corner in folded)
        count = "one corner" if len(folded) == 1 else f"{len(folded)} corners"
        at = " or ".join(f"{angle}°" for angle in angles)
        spare = f"; each takes up to {_cm(extra, unit)} of its length" if extra > 0.05 else ""
        yield f"Fold it aslant at {count}, the fold at {at} to its edge{spare}; stitch the fold down."
    elif any(corner.extra for corner in corners if abs(corner.turn) < POINTED):
        yield "At each corner let one strip run on past the point and set the end of the next square against its side."


def _joins(bands: Sequence[Band]) -> Iterator[str]:
    first = bands[0]
    between = first.joins[1:] if first.run.closed else first.joins
    if first.run.closed and first.joins:
        yield f"Its ends meet {HIDDEN[first.joins[0].place]}."
    if between:
        places = list(dict.fromkeys(HIDDEN[join.place] for join in between))
        yield f"Join its strips {' and '.join(places)}."


def _eased(band: Band, unit: Unit) -> str:
    spare = _cm(band.eased, unit)
    return f"One side of it lies on a line {spare} shorter than the other: ease that side in as you pin."


def _cm(value: float, unit: Unit) -> str:
    return format_length(value, unit)


def _up(value: float, unit: Unit) -> str:
    """Rounded up to whole centimetres or inches."""
    step = 2.54 if unit == "in" else 1.0
    return format_length(math.ceil(value / step - 1e-6) * step, unit)


def _metres(metres: float, unit: Unit) -> str:
    if unit == "in":
        return f"{math.ceil(metres / 0.9144)}\u00a0yd"
    return f"{math.ceil(metres)}\u00a0m"


# --- findings ---------------------------------------------------------------------------------------------


def _bends(f: Finding, n: Numbers) -> str:
    how = {"straight": "cut along the thread", "bias": "cut on the bias"}.get(n.text("cut"), f"{n.text('cut')}")
    return (
        f"The band at the {_spoken(f.subject)}, {n.of('width')} wide and {how}, has to bend: where it bends most one"
        f" side is {n.number('bent'):.0%} longer than the other, {n.cm(f.measured)} in all."
    )


def _bends_mend(f: Finding, n: Numbers) -> str:
    ways = [f"make the band {n.less(n.number('most'))} wide or less"] if n.number("most") >= NARROW else []
    if n.text("cut") == "straight" and n.number("bent") <= EASES_BIAS:
        ways.append('choose bands.cut = "bias"')
    elif n.number("edge"):
        ways.append('choose bands.make = "cloth" and bands.cut = "shaped"')
    said = ", or ".join(ways)
    return f"{said[:1].upper()}{said[1:]}; or lay the spare in small pleats." if said else "Lay it in small pleats."


def _taken_up(f: Finding, n: Numbers) -> str:
    return (
        f"Until it has grown into, the {_spoken(f.subject)} is turned up by {n.cm(f.measured)}, and the band there with"
        " it."
    )


def _spoken(subject: str) -> str:
    return subject.replace("-", " ")


BAND_WHY: Final[dict[str, Say]] = {"band-bends": _bends, "band-taken-up": _taken_up}
BAND_MEND: Final[dict[str, Say]] = {
    "band-bends": _bends_mend,
    "band-taken-up": lambda f, n: 'Choose growth.by = "tucks", or sew the band on when the hem is let down.',
}
