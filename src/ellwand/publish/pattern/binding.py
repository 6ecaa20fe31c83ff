"""The sheets of a full-size pattern bound to one PDF: every piece drawn once and shown on each sheet it lies on."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from ellwand.depict.lettering import shape_of
from ellwand.depict.pattern.arrange import Placed
from ellwand.geometry.lines import bounds
from ellwand.language import _
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.publish.pattern.ink import POINTS, number, strokes_in
from ellwand.publish.pattern.layers import LAYERS, Layer, layer_of
from ellwand.publish.pattern.letters import AIR, Word, word_of, word_pages
from ellwand.publish.pattern.marks import sheet_marks
from ellwand.publish.pattern.sheets import MARGIN, Frame, Layout, Window, meet, pieces_on, shown_on
from ellwand.publish.typst_text import compile_pdf, quoted

if TYPE_CHECKING:
    from pikepdf import Dictionary, Object, Pdf

BLEED: Final = 0.1
"""How far beyond its edge (cm) a sheet is drawn, so that a line on the edge is whole."""


def bound(layout: Layout, title: str, *, front: str = "", thick: float = 1.0) -> bytes:
    """All sheets as one PDF, the same bytes for the same layout.

    ``front``: Typst source of the pages before the sheets; ``thick``: times the lines' widths.
    """
    return _bound(layout, _marked(layout, title), title, front, thick)


def bound_apart(layout: Layout, title: str) -> tuple[bytes, ...]:
    """Every sheet as a PDF of its own."""
    return tuple(_bound(layout, [sheet], title, "", 1.0) for sheet in _marked(layout, title))


Sheet = tuple[Window, Drawing]
"""What a sheet shows, and what stands on it beside the pieces."""


def _marked(layout: Layout, title: str) -> list[Sheet]:
    total = len(layout.windows)
    return [
        (window, sheet_marks(window, pieces_on(shown_on(layout, window), window), count, title))
        for n, window in enumerate(layout.windows, 1)
        for count in [_("{n} of {count}", n=n, count=total)]
    ]


def _bound(layout: Layout, sheets: Sequence[Sheet], title: str, front: str, thick: float) -> bytes:
    import pikepdf

    shown = {id(each): each for window, _ in sheets for each in shown_on(layout, window)}
    placed = [each for each in layout.placed if id(each) in shown]
    labels = [label for _, drawing in sheets for label in drawing.labels]
    labels += [label for each in placed for label in each.each.drawing.labels]
    wanted = list(dict.fromkeys(map(word_of, labels)))
    head = f"#set document(title: {quoted(title)}, date: none)\n"
    pdf = pikepdf.Pdf.open(io.BytesIO(compile_pdf(head + front + "\n" + word_pages(wanted), tags=False)))
    first = len(pdf.pages) - len(wanted)
    stock = _Stock(pdf, wanted, first, placed, thick)
    del pdf.pages[first:]
    for window, drawing in sheets:
        _add_page(pdf, stock, layout, window, drawing)
    pdf.Root.ViewerPreferences = pikepdf.Dictionary(PrintScaling=pikepdf.Name("/None"))
    out = io.BytesIO()
    modes = pikepdf.ObjectStreamMode
    pdf.save(out, deterministic_id=True, object_stream_mode=modes.generate, recompress_flate=True)
    return out.getvalue()


class _Stock:
    """What the pages share: a form for each word and for each layer of each piece, and the layers themselves."""

    def __init__(self, pdf: Pdf, wanted: Sequence[Word], first: int, placed: Sequence[Placed], thick: float) -> None:
        from pikepdf import Array, Dictionary, Name

        self.forms = Dictionary()
        self.words: dict[Word, tuple[str, float, float]] = {}
        for i, word in enumerate(wanted):
            page = pdf.pages[first + i]
            wide, high = float(page.mediabox[2]), float(page.mediabox[3])
            self.words[word] = (f"/W{i}", wide, high)
            self.forms[f"/W{i}"] = pdf.make_indirect(page.as_form_xobject())
        self.lettering: dict[int, list[tuple[Label, Frame]]] = {}
        self.pieces: dict[tuple[int, Layer], str] = {}
        for i, each in enumerate(placed):
            there = [each.label(label) for label in each.each.drawing.labels]
            self.lettering[id(each)] = [(label, shape_of(label, 1.0).bounds) for label in there]
            for layer in ("pieces", "allowances"):
                strokes = [stroke for stroke in each.each.drawing.strokes if layer_of(stroke.role) == layer]
                if strokes:
                    name = f"/P{i}{layer[0]}"
                    self.forms[name] = _form(pdf, strokes, thick)
                    self.pieces[(id(each), layer)] = name
        groups = {layer: pdf.make_indirect(Dictionary(Type=Name.OCG, Name=_(shown))) for layer, shown in LAYERS.items()}
        order = Array(groups.values())
        pdf.Root.OCProperties = Dictionary(
            OCGs=order, D=Dictionary(Name="Layers", Order=order, ON=order, BaseState=Name.ON)
        )
        properties = Dictionary({f"/{layer}": group for layer, group in groups.items()})
        self.resources: Object = pdf.make_indirect(Dictionary(XObject=self.forms, Properties=properties))


def _form(pdf: Pdf, strokes: Sequence[Stroke], thick: float) -> Object:
    from pikepdf import Array, Dictionary, Name

    x0, y0, x1, y1 = bounds(point for stroke in strokes for point in stroke.points)
    air = 6.0 * thick
    form = pdf.make_stream(strokes_in(strokes, thick=thick).encode())
    form.Type, form.Subtype, form.Resources = Name.XObject, Name.Form, Dictionary()
    form.BBox = Array([x0 * POINTS - air, y0 * POINTS - air, x1 * POINTS + air, y1 * POINTS + air])
    return form


def _add_page(pdf: Pdf, stock: _Stock, layout: Layout, window: Window, marks: Drawing) -> None:
    from pikepdf import Array, Dictionary, Name, Page

    x0, y0, x1, y1 = window.frame
    wide, high = ((side + 2 * MARGIN) * POINTS for side in (x1 - x0, y1 - y0))
    shown = shown_on(layout, window)
    a, b, c, d = window.seen
    sides = (a - x0 + MARGIN - BLEED, b - y0 + MARGIN - BLEED, c - a + 2 * BLEED, d - b + 2 * BLEED)
    clip = " ".join(number(side * POINTS) for side in sides)
    out = []
    layers: tuple[Layer, ...] = ("pieces", "allowances")
    for layer in layers:
        names = [(each, stock.pieces.get((id(each), layer))) for each in shown]
        drawn = [_show(name, _matrix(each, window)) for each, name in names if name]
        out.append(_in_layer(layer, [f"{clip} re W n", *drawn]))
    labels = [label for each in shown for label, box in stock.lettering[id(each)] if meet(box, window.seen)]
    stamped = [_stamp(stock, label, window) for label in labels]
    out.append(_in_layer("texts", [f"{clip} re W n", *stamped]))
    lines = strokes_in(marks.strokes, dx=MARGIN - x0, dy=MARGIN - y0)
    out.append(_in_layer("sheets", [lines, *(_stamp(stock, label, window) for label in marks.labels)]))
    page: Dictionary = Dictionary(
        Type=Name.Page,
        MediaBox=Array([0, 0, round(wide, 4), round(high, 4)]),
        Contents=pdf.make_stream("\n".join(out).encode()),
        Resources=stock.resources,
    )
    pdf.pages.append(Page(pdf.make_indirect(page)))


def _in_layer(layer: Layer, content: Sequence[str]) -> str:
    return "\n".join([f"/OC /{layer} BDC q", *content, "Q EMC"])


def _show(name: str, matrix: Sequence[float]) -> str:
    return f"q {' '.join(number(each) for each in matrix)} cm {name} Do Q"


def _matrix(each: Placed, window: Window) -> tuple[float, ...]:
    across, up = (each.x - window.frame[0] + MARGIN) * POINTS, (each.y - window.frame[1] + MARGIN) * POINTS
    c, s = math.cos(math.radians(each.turn)), math.sin(math.radians(each.turn))
    return c, s, -s, c, across, up


def _stamp(stock: _Stock, label: Label, window: Window) -> str:
    """The word turned about its anchor and moved there."""
    word = word_of(label)
    name, wide, high = stock.words[word]
    air = AIR * word[1]
    px = {"start": air, "middle": wide / 2, "end": wide - air}[label.anchor]
    c, s = math.cos(math.radians(label.turn)), math.sin(math.radians(label.turn))
    x, y = ((at - least + MARGIN) * POINTS for at, least in zip(label.at, window.frame[:2], strict=True))
    return _show(name, (c, s, -s, c, x - c * px + s * high / 2, y - s * px - c * high / 2))
