"""Stencils, blocks and transfers at full size: what is cut out, what stays, and where the next one goes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

import shapely
from shapely import Polygon, get_parts

from ellwand.adorn.printing import Block, block, mirrored
from ellwand.adorn.stencils.stencil import FROM_MOTIF, motif_shape, register_marks, stencil
from ellwand.depict.lettering import CM_PER_POINT
from ellwand.depict.pattern.fullsize import FullSize, full_sized
from ellwand.depict.pattern.squares import wrapped
from ellwand.depict.words.repeats import line_named, motif_named
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, Point, bounds
from ellwand.language import N_, _, plural
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.model.motif import Motif
from ellwand.model.repeat import Repeat, RepeatBy
from ellwand.model.stencil import Stencil
from ellwand.units import Unit, format_length

HATCH: Final = 0.3
"""Between the lines of what is cut out or printed (cm)."""
RING: Final = 0.15
"""Radius of a register mark's ring (cm)."""
ARM: Final = 0.3
"""How far its cross reaches (cm)."""
NAME: Final = 11.0
SMALL: Final = 9.0
EDGE: Final = 0.4
"""Between the lettering and the card's edge (cm)."""
NEAR: Final = 0.3
"""Between the motif and its middle lines (cm)."""
SHORT: Final = 0.8
"""A middle line that lettering stands above (cm)."""
LEAST_WIDE: Final = 7.0
"""What is written below a small motif may be so wide (cm)."""
LINES: Final = ((10.0, "10 cm"), (10.16, "4 in"))
"""Test lines and what they are called; an inch is 2.54 cm."""
TOO_SMALL: Final = N_(
    "It is too small for a stencil: its bridges would cover most of it. Print it by block, or make it larger."
)
NOTES_WIDE: Final = 17.5
"""Width of what is written on the first sheet (cm): A4 and Letter hold it, and it is not laid on its side."""
FULL_SIZE: Final = N_("Full size. Print at 100 % (actual size), not fitted to the page, and measure both lines first.")
KEY: Final = N_(
    "Hatched: cut out of the card, or left standing on a block. Dash and dot: the middle; lay it on your chalked line."
    " Small rings: prick them through; the right-hand ones of one print are the left-hand ones of the next."
)

Frame = tuple[float, float, float, float]
"""Least x and y, greatest x and y (cm)."""


@dataclass(frozen=True, slots=True)
class Tool:
    """One stencil, block or transfer: ``count`` times it is used, along these lines; ``step`` from one to the next."""

    number: int
    by: RepeatBy
    motif: Motif
    count: int
    along: tuple[str, ...]
    step: float | None


def tools(repeats: Iterable[Repeat]) -> tuple[Tool, ...]:
    """What must be made for the repeats, each once: corners have their own, and a block cannot be turned over."""
    found: dict[tuple[RepeatBy, Motif, float | None], list[tuple[int, str]]] = {}
    for repeat in repeats:
        corners = sum(placement.corner and not placement.again for placement in repeat.placements)
        own = repeat.count - corners
        over = own // 2 if repeat.chosen.mirrored and repeat.chosen.by == "block" and _one_sided(repeat.motif) else 0
        uses: list[tuple[Motif | None, int, float | None]] = [
            (repeat.motif, own - over, step_of(repeat)),
            (mirrored(repeat.motif), over, step_of(repeat)),
            (repeat.corner, corners, None),
        ]
        for motif, count, step in uses:
            if motif is not None and count:
                found.setdefault((repeat.chosen.by, motif, step), []).append((count, repeat.run.name))
    return tuple(
        Tool(n, by, motif, sum(c for c, _ in used), tuple(dict.fromkeys(name for _, name in used)), step)
        for n, ((by, motif, step), used) in enumerate(found.items(), 1)
    )


def step_of(repeat: Repeat) -> float | None:
    """From one motif to the next (cm), to a hundredth; None where there is one only or the rows differ."""
    steps = {round(row.pitch, 2) for row in repeat.rows if row.count > 1}
    return steps.pop() if len(steps) == 1 else None


def card_of(tool: Tool) -> Stencil | None:
    """The stencil of a tool, or None where it is so small that its bridges would cover most of it."""
    try:
        return stencil(tool.motif, step=tool.step)
    except CannotDraft:
        return None


def tool_sheet(tool: Tool, unit: Unit) -> tuple[FullSize, ...]:
    """What is printed for a tool at full size: of a transfer both ways round."""
    used = _("used {times}: {places}", times=times(tool.count), places=", ".join(map(line_named, tool.along)))
    name = motif_named(tool.motif.name)
    if tool.by == "stencil":
        made = card_of(tool)
        if made is not None:
            return (_stencil(tool, made, used, unit),)
        by_hand = [_("to trace and paint by hand"), used, _(TOO_SMALL)]
        title = _("{motif} to trace and paint by hand", motif=name)
        return (_lines(tool, tool.motif, title, by_hand, marks=True),)
    if tool.by == "block":
        return (_block(tool, block(tool.motif), used),)
    if tool.by == "appliqué":
        lines = [_("appliqué shape"), used, _("Cut on this line; on cloth that frays add what you turn under.")]
        return (_lines(tool, tool.motif, _("{motif} appliqué shape", motif=name), lines, marks=False),)
    title = _("{motif} transfer", motif=name)
    face = [_("transfer, right way round"), used, _("To trace, or to prick and pounce from the right side.")]
    back = [_("transfer, mirrored"), used, _("To iron on, or to trace from the back.")]
    return (
        _lines(tool, tool.motif, title, face, marks=True),
        _lines(tool, mirrored(tool.motif), title, back, marks=True),
    )


def _one_sided(motif: Motif) -> bool:
    """Whether a motif differs from its mirror image."""
    one, other = motif_shape(motif), motif_shape(mirrored(motif))
    return bool(one.symmetric_difference(other).area > 0.01 * one.area)


def test_lines(title: str, notes: Sequence[str] = ()) -> FullSize:
    """Title, lines of 10 cm and 4 in to measure, what the signs mean, and further ``notes``."""
    wide = NOTES_WIDE
    strokes, labels, y = [], [], 0.0
    for size, text in ((13.0, title), (10.0, _(FULL_SIZE))):
        for line in wrapped(text, size, wide):
            y -= 1.3 * size * CM_PER_POINT
            labels.append(Label("name" if text == title else "note", line, (0.0, y), "start", size))
        y -= 0.2
    for long, text in LINES:
        y -= 0.8
        strokes.append(Stroke("dimension", ((0.0, y), (long, y))))
        strokes += [Stroke("dimension", ((x, y - 0.25), (x, y + 0.25))) for x in (0.0, long)]
        labels.append(Label("dimension", text, (long / 2, y + 0.25), size=SMALL))
    y -= 0.4
    for text in (_(KEY), *notes):
        for line in wrapped(text, 10.0, wide):
            y -= 1.3 * 10.0 * CM_PER_POINT
            labels.append(Label("note", line, (0.0, y), "start", 10.0))
        y -= 0.15
    frame: Line = ((-0.3, y - 0.3), (wide + 0.3, y - 0.3), (wide + 0.3, 0.3), (-0.3, 0.3))
    strokes.append(Stroke("waste", frame, True))
    return full_sized(0, "", "", Drawing(tuple(strokes), tuple(labels)), frame)


def _stencil(tool: Tool, made: Stencil, used: str, unit: Unit) -> FullSize:
    x0, y0, x1, y1 = bounds(made.card)
    wide, high = tool.motif.size
    strokes = [Stroke("cut", made.card, True)]
    for ring in made.windows:
        strokes += [Stroke("cut", ring, True), *_hatched(Polygon(ring))]
    strokes += _middles((x0, y0, x1, y1), (0.0, 0.0, wide, high))
    strokes += [stroke for at in made.marks for stroke in _register(at)]
    name = motif_named(tool.motif.name)
    head = [f"{tool.number}  {name}", _("this way up, this side up")]
    foot = [_("stencil; {used}", used=used)]
    if crossing := [bridge.width for bridge in made.bridges if bridge.across]:
        foot.append(
            plural(
                "Leave the bridge standing, {widths} wide.",
                "Leave the {n} bridges standing, {widths} wide.",
                len(crossing),
                widths=between(crossing, unit),
            )
        )
    labels = _text(head, x0 + EDGE, y1 - EDGE, x1 - x0 - 2 * EDGE)
    below = [line for text in foot for line in wrapped(text, SMALL, x1 - x0 - 2 * EDGE)]
    up = y0 + EDGE + 1.3 * SMALL * CM_PER_POINT * len(below)
    labels += _text(below, x0 + EDGE, up, x1 - x0 - 2 * EDGE, first=SMALL)
    drawing = Drawing(tuple(strokes), tuple(labels))
    return full_sized(tool.number, _("{motif} stencil", motif=name), used, drawing, made.card)


def _block(tool: Tool, made: Block, used: str) -> FullSize:
    strokes = [Stroke("cut", made.block, True)]
    for region in made.raised:
        strokes += [Stroke("cut", region.ring, True, region.holes), *_hatched(Polygon(region.ring, region.holes))]
    x0, y0, x1, y1 = bounds(made.block)
    strokes += _middles((x0 - 1.0, y0 - 1.0, x1 + 1.0, y1 + 1.0), (x0, y0, x1, y1))
    name = motif_named(tool.motif.name)
    lines = [
        f"{tool.number}  {name}",
        _("block, mirrored: cut it just so; {used}", used=used),
        _("Hatched stays, the rest is cut away."),
    ]
    return _with_text(tool, _("{motif} block", motif=name), used, strokes, lines)


def _lines(tool: Tool, motif: Motif, title: str, lines: Sequence[str], *, marks: bool) -> FullSize:
    wide, high = motif.size
    strokes = [Stroke("dimension", region.ring, True, region.holes) for region in motif.regions]
    air = 2 * FROM_MOTIF
    strokes += _middles((-air, -air, wide + air, high + air), (0.0, 0.0, wide, high))
    if marks:
        strokes += [stroke for at in register_marks(motif.size, tool.step) for stroke in _register(at)]
    text = [f"{tool.number}  {motif_named(motif.name)}", f"{lines[0]}; {lines[1]}", *lines[2:]]
    return _with_text(tool, title, lines[1], strokes, text)


def _with_text(tool: Tool, name: str, used: str, strokes: Sequence[Stroke], lines: Sequence[str]) -> FullSize:
    """A drawing with its lines below it."""
    x0, y0, x1, y1 = bounds(point for stroke in strokes for point in stroke.points)
    room = max(x1 - x0, LEAST_WIDE)
    head, *rest = lines
    text = [head, *(line for each in rest for line in wrapped(each, SMALL, room))]
    labels = _text(text, x0, y0 - 0.3, room)
    low = y0 - 0.3 - 1.3 * CM_PER_POINT * (NAME + SMALL * (len(text) - 1))
    covers: Line = ((x0, low), (x0 + room, low), (x0 + room, y1), (x0, y1))
    return full_sized(tool.number, name, used, Drawing(tuple(strokes), tuple(labels)), covers)


def _text(lines: Sequence[str], left: float, top: float, room: float, first: float = NAME) -> list[Label]:
    """Lines below each other from an upper left corner, the first one larger where ``first`` is."""
    out, y = [], top
    for i, text in enumerate(lines):
        size = first if i == 0 else SMALL
        for line in wrapped(text, size, room):
            y -= 0.65 * size * CM_PER_POINT
            out.append(Label("name" if i == 0 and first > SMALL else "note", line, (left, y), "start", size))
            y -= 0.65 * size * CM_PER_POINT
    return out


def _hatched(shape: Polygon) -> list[Stroke]:
    """Slanted lines across a shape."""
    x0, y0, x1, y1 = shape.bounds
    step = HATCH * math.sqrt(2)
    count = math.ceil((x1 - x0 + y1 - y0) / step)
    starts = [y0 - (x1 - x0) + (i + 0.5) * step for i in range(count)]
    slants = shapely.MultiLineString([((x0, y), (x1, y + x1 - x0)) for y in starts])
    found = get_parts(slants.intersection(shape))
    return [
        Stroke("hatch", tuple((float(x), float(y)) for x, y in part.coords))
        for part in found
        if part.geom_type == "LineString"
    ]


def _middles(frame: Frame, motif: Frame) -> list[Stroke]:
    """The middle lines: level ones from the frame to near the motif, upright ones at its edge and near the motif."""
    x0, y0, x1, y1 = frame
    a, b, c, d = motif
    x, y = (a + c) / 2, (b + d) / 2
    lines: list[Line] = [((x0, y), (a - NEAR, y)), ((c + NEAR, y), (x1, y))]
    for edge, start, way in ((y0, b, -1), (y1, d, 1)):
        tip = start + way * NEAR
        if abs(edge - tip) > EDGE + SHORT:
            lines.append(((x, edge), (x, edge - way * (EDGE - 0.05))))
            lines.append(((x, tip), (x, tip + way * SHORT)))
        else:
            lines.append(((x, tip), (x, edge)))
    return [Stroke("fold", line) for line in lines]


def _register(at: Point) -> list[Stroke]:
    x, y = at
    ring = tuple((x + RING * math.cos(i * math.pi / 8), y + RING * math.sin(i * math.pi / 8)) for i in range(16))
    return [
        Stroke("register", ring, True),
        Stroke("register", ((x - ARM, y), (x + ARM, y))),
        Stroke("register", ((x, y - ARM), (x, y + ARM))),
    ]


def between(values: Sequence[float], unit: Unit) -> str:
    """Least and greatest of some lengths."""
    low, high = (format_length(end(values), unit, mark=False) for end in (min, max))
    return f"{low if low == high else _('{low} to {high}', low=low, high=high)} {unit}"


def times(count: int) -> str:
    """'once', '14 times'."""
    return plural("once", "{n} times", count)
