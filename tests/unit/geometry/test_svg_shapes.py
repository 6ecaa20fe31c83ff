"""SVG drawings read as shapes, against the W3C's own formulas and examples and a general-purpose renderer."""

from __future__ import annotations

import io
import math
from pathlib import Path

import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from shapely import Polygon, union_all

from ellwand.errors import BadInput
from ellwand.geometry.svg_path import apply, arc_points, parse_length, parse_path, parse_transform
from ellwand.geometry.svg_shapes import svg_shapes

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="400" height="400" viewBox="0 0 400 400">'


def drawing(body: str) -> str:
    return f"{HEAD}{body}</svg>"


def shape(body: str) -> Polygon:
    return union_all([Polygon(ring, holes) for ring, holes in svg_shapes(drawing(body))])


# W3C SVG 1.1 (second edition), 8.3.8: a pie of three quarters of a circle of radius 150, and the quarter beside it
THREE_QUARTERS = '<path d="M300,200 h-150 a150,150 0 1,0 150,-150 z"/>'
QUARTER = '<path d="M275,175 v-150 a150,150 0 0,0 -150,150 z"/>'


def test_the_pie_of_the_specification() -> None:
    circle = math.pi * 150**2
    aside = f'<g transform="translate(-100)">{THREE_QUARTERS}</g>'
    assert shape(aside).area == pytest.approx(0.75 * circle, rel=2e-3)
    assert shape(QUARTER).area == pytest.approx(0.25 * circle, rel=2e-3)


@given(
    st.floats(-50, 50),
    st.floats(-50, 50),
    st.floats(5, 60),
    st.floats(5, 60),
    st.floats(-180, 180),
    st.floats(-180, 180),
    st.floats(20, 340),
    st.booleans(),
)
def test_arcs_lie_where_the_centre_form_has_them(
    x: float, y: float, rx: float, ry: float, tilt: float, begin: float, turn: float, sweep: bool
) -> None:
    """SVG 1.1, F.6.4: from centre and angles to end points and flags; the reading must find the way back (F.6.5)."""

    def at(degrees: float) -> tuple[float, float]:
        t, f = math.radians(degrees), math.radians(tilt)
        return (
            x + rx * math.cos(t) * math.cos(f) - ry * math.sin(t) * math.sin(f),
            y + rx * math.cos(t) * math.sin(f) + ry * math.sin(t) * math.cos(f),
        )

    if abs(turn - 180) < 1:
        turn += 2
    signed = turn if sweep else -turn
    points = arc_points(at(begin), (rx, ry), tilt, turn > 180, sweep, at(begin + signed))
    for i, point in enumerate(points, 1):
        assert math.dist(point, at(begin + signed * i / len(points))) < 1e-3


def test_radii_that_are_too_small_grow() -> None:
    """F.6.6: to a half circle between the ends."""
    points = arc_points((0, 0), (1, 1), 0, False, True, (20, 0))
    assert all(math.hypot(px - 10, py) == pytest.approx(10) for px, py in points)


@pytest.mark.parametrize(
    ("text", "point", "there"),
    [
        ("translate(10 20)", (1, 1), (11, 21)),
        ("translate(10)", (1, 1), (11, 1)),
        ("scale(2)", (1, 3), (2, 6)),
        ("scale(2,-1)", (1, 3), (2, -3)),
        ("rotate(90)", (1, 0), (0, 1)),
        ("rotate(90 5 5)", (5, 0), (10, 5)),
        ("skewX(45)", (0, 2), (2, 2)),
        ("skewY(45)", (2, 0), (2, 2)),
        ("matrix(1,2,3,4,5,6)", (1, 1), (9, 12)),
        # the example of 7.5: innermost first
        ("translate(50,30) rotate(30)", (0, 0), (50, 30)),
        ("translate(-10,-20) scale(2) rotate(45) translate(5,10)", (-5, -10), (-10, -20)),
    ],
)
def test_transforms(text: str, point: tuple[float, float], there: tuple[float, float]) -> None:
    assert apply(parse_transform(text), point) == pytest.approx(there)


def test_lengths_are_those_of_css() -> None:
    """96 px to the inch of 2.54 cm, 72 pt to the inch, 12 pt to the pica."""
    assert [parse_length(each) for each in ("96", "1in", "72pt", "6pc", "2.54cm", "25.4mm", "96px")] == pytest.approx(
        [96] * 7
    )


@pytest.mark.parametrize(
    ("short", "plain"),
    [
        # the grammar of 8.3.9 needs no separators where none is in doubt
        ("M.5.5L1-1", "M 0.5 0.5 L 1 -1"),
        ("M0 0a5 5 0 0110 0", "M 0 0 A 5 5 0 0 1 10 0"),
        ("m1 1 2 0 0 2z", "M 1 1 L 3 1 L 3 3 Z"),
        ("M1e1,1E1H2e1V5", "M 10 10 L 20 10 L 20 5"),
        ("M0 0C0 1 1 1 1 0S2-1 2 0", "M 0 0 C 0 1 1 1 1 0 C 1 -1 2 -1 2 0"),
        ("M0 0Q1 2 2 0T4 0", "M 0 0 Q 1 2 2 0 Q 3 -2 4 0"),
        # after another command the mirrored control point is the point itself
        ("M0 0L1 1S2 0 3 1", "M 0 0 L 1 1 C 1 1 2 0 3 1"),
        ("M0 0L1 1T3 1", "M 0 0 L 1 1 Q 1 1 3 1"),
        ("M0 0H4zm5 5h1", "M 0 0 L 4 0 Z M 5 5 L 6 5"),
    ],
)
def test_short_ways_of_writing_a_path(short: str, plain: str) -> None:
    one, other = parse_path(short), parse_path(plain)
    assert [closed for _, closed in one] == [closed for _, closed in other]
    for (a, _), (b, _) in zip(one, other, strict=True):
        assert [xy for point in a for xy in point] == pytest.approx([xy for point in b for xy in point])


STAR = '<path d="M200,20 L304,360 L20,140 H380 L96,360 z" fill-rule="{rule}"/>'
DRAWINGS = {
    "three quarters": THREE_QUARTERS,
    "nonzero star": STAR.format(rule="nonzero"),
    "evenodd star": STAR.format(rule="evenodd"),
    "rings the same way round": '<path d="M20 20H380V380H20z M100 100H300V300H100z"/>',
    "rings the other way round": '<path d="M20 20H380V380H20z M100 100V300H300V100z"/>',
    "rule in a style": '<path style="fill-rule:evenodd" d="M20 20H380V380H20z M100 100H300V300H100z"/>',
    "rounded": '<rect x="30" y="40" width="300" height="200" rx="60" ry="30"/>',
    "one radius": '<rect x="30" y="40" width="300" height="200" ry="90"/>',
    "ellipse in turned group": '<g transform="translate(200 200) rotate(30)"><ellipse rx="150" ry="60"/></g>',
    "polygons": '<polygon points="20,20 380,20 200,300"/><polygon points="20 380,380 380 200 250"/>',
    "white over black": '<circle cx="200" cy="200" r="150"/><circle cx="200" cy="200" r="90" fill="white"/>',
    "strokes": '<path d="M50 50 Q 200 380 350 50" fill="none" stroke="black" stroke-width="30"/>',
    "round stroke": '<path d="M60 60L340 60L60 340" fill="none" stroke="#000" stroke-width="40"'
    ' stroke-linecap="round" stroke-linejoin="round"/>',
    "mitred stroke": '<polyline points="60,340 200,60 340,340" fill="none" stroke="black" stroke-width="30"/>',
    "bevelled square": '<rect x="80" y="80" width="240" height="240" fill="none" stroke="black" stroke-width="50"'
    ' stroke-linejoin="bevel"/>',
    "stretched stroke": '<circle r="50" transform="translate(200 200) scale(3 1.5)" fill="none" stroke="black"'
    ' stroke-width="20"/>',
    "beyond the page": '<circle cx="0" cy="0" r="300"/>',
    "hidden": '<circle cx="200" cy="200" r="150" display="none"/><circle cx="200" cy="200" r="50"/>',
    "inherited": '<g fill="none"><rect width="390" height="390"/><circle fill="black" cx="99" cy="99" r="80"/></g>',
    "smooth curves": '<path d="M20 200C20 20 200 20 200 200S380 380 380 200T200 60z"/>',
    "big arcs": '<path d="M100 200A120 60 30 1 1 260 260A90 150 -20 0 0 100 200z"/>',
}


def rendered_area(body: str, folder: Path) -> float:
    """What typst's own SVG renderer paints dark, in user units²."""
    (folder / "drawing.svg").write_text(drawing(f'<rect width="400" height="400" fill="white"/>{body}'))
    page = '#set page(width: 400pt, height: 400pt, margin: 0pt)\n#image("drawing.svg", width: 400pt)'
    (folder / "page.typ").write_text(page)
    png = typst.compile(str(folder / "page.typ"), format="png", ppi=144)
    grey = Image.open(io.BytesIO(png)).convert("L")
    dark = sum(count * (255 - level) / 255 for level, count in enumerate(grey.histogram()))
    return dark / 4


@pytest.mark.parametrize("name", DRAWINGS)
def test_fills_what_a_renderer_fills(name: str, tmp_path: Path) -> None:
    assert shape(DRAWINGS[name]).area == pytest.approx(rendered_area(DRAWINGS[name], tmp_path), rel=4e-3)


def test_upward_and_the_right_way_round() -> None:
    (ring, holes), *others = svg_shapes(drawing(DRAWINGS["rings the other way round"]))
    assert not others and len(holes) == 1
    assert Polygon(ring).exterior.is_ccw and not Polygon(holes[0]).exterior.is_ccw
    # what is drawn at the top of the page is high
    (ring, _), *_ = svg_shapes(drawing('<circle cx="200" cy="10" r="5"/><circle cx="200" cy="390" r="9"/>'))
    tall = {
        round(max(y for _, y in r) - min(y for _, y in r)): max(y for _, y in r)
        for r, _ in svg_shapes(drawing('<circle cx="200" cy="10" r="5"/><circle cx="200" cy="390" r="9"/>'))
    }
    assert tall[10] > tall[18]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "no SVG"),
        ("a sketch", "no SVG"),
        ("<html/>", "no SVG"),
        (drawing(""), "nothing"),
        (drawing('<path d="M0 0L9 9"/>'), "nothing"),
        (drawing("<script>alert(1)</script>"), "script"),
        (drawing("<defs><script>1</script></defs>"), "script"),
        (drawing("<text>A</text>"), "paths"),
        (drawing('<use href="#a"/>'), "unlink"),
        (drawing('<image href="http://example.org/a.png"/>'), "image"),
        (drawing('<path href="x" d="M0 0h9v9z"/>'), "link"),
        (drawing('<path onclick="x()" d="M0 0h9v9z"/>'), "action"),
        (drawing("<style>path{fill:none}</style>"), "plain SVG"),
        (drawing('<circle r="9" clip-path="url(#a)"/>'), "clip-path"),
        (drawing('<foreignObject width="9"/>'), "foreignObject"),
        ('<!DOCTYPE svg [<!ENTITY a "b">]>' + drawing("&a;"), "DOCTYPE"),
        ('<!DOCTYPE svg SYSTEM "file:///etc/passwd">' + drawing(""), "DOCTYPE"),
        ('<?xml-stylesheet href="a.css"?>' + drawing(""), "outside"),
        (drawing('<path d="L1 1"/>'), "begin with a move"),
        (drawing('<path d="M1 1Lx"/>'), "cannot be read"),
        (drawing('<path d="M1 1A1 1 0 2 0 5 5"/>'), "cannot be read"),
        (drawing('<rect width="1e999" height="1"/>'), "measure"),
        (drawing('<rect width="50%" height="1"/>'), "length"),
        (drawing('<rect width="5" height="5" transform="bend(3)"/>'), "transform"),
        (drawing("<g>" * 100 + "</g>" * 100), "deep"),
        (drawing("<g/>" * 4000), "shapes"),
        (drawing('<path d="M0 0' + "L1 1L0 2" * 20000 + '"/>'), "points"),
        (" " * 1_000_001, "too large"),
    ],
)
def test_refused_in_one_sentence(text: str, says: str) -> None:
    with pytest.raises(BadInput, match=says) as caught:
        svg_shapes(text)
    assert str(caught.value).endswith(".") and "\n" not in str(caught.value)
    assert caught.value.mend or "length" in says
