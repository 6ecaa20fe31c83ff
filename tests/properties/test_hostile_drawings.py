"""Whatever a drawing's file holds, it becomes a motif or is refused in one sentence, soon."""

from __future__ import annotations

import time

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from ellwand.choose.drawings import svg_motif
from ellwand.errors import BadInput

NUMBER = st.one_of(
    st.integers(-500, 500).map(str),
    st.floats(-1e3, 1e3).map(lambda x: f"{x:.3g}"),
    st.sampled_from(["1e9", "-1e308", "1e-300", ".5.5", "--1", "nan", "inf", "", "0", "1e", "+.5", "9" * 400]),
)
LETTER = st.sampled_from("MmZzLlHhVvCcSsQqTtAaBX")
DATA = st.lists(st.tuples(LETTER, st.lists(NUMBER, max_size=8)), max_size=12).map(
    lambda legs: " ".join(letter + " ".join(numbers) for letter, numbers in legs)
)
TRANSFORM = st.tuples(
    st.sampled_from(["scale", "rotate", "matrix", "skewX", "translate", "bend"]), st.lists(NUMBER, max_size=6)
).map(lambda each: f"{each[0]}({' '.join(each[1])})")
TAG = st.sampled_from(
    ["path", "rect", "circle", "ellipse", "polygon", "polyline", "line", "g", "defs", "text", "svg", "a"]
)
ATTRIBUTES = st.fixed_dictionaries(
    {},
    optional={
        "d": DATA,
        "points": st.lists(NUMBER, max_size=20).map(" ".join),
        "transform": TRANSFORM,
        **dict.fromkeys(("x", "y", "width", "height", "r", "rx", "ry", "cx", "cy", "stroke-width", "viewBox"), NUMBER),
        "fill": st.sampled_from(["none", "white", "black", "url(#a)"]),
        "stroke": st.sampled_from(["none", "black"]),
        "style": st.text("fil:none;-ru", max_size=12),
    },
)


def element(tag: str, attributes: dict[str, str], inside: str) -> str:
    written = " ".join(f'{key}="{value}"' for key, value in attributes.items())
    return f"<{tag} {written}>{inside}</{tag}>"


ELEMENT = st.recursive(
    st.builds(element, TAG, ATTRIBUTES, st.just("")),
    lambda below: st.builds(
        element, st.sampled_from(["g", "defs"]), ATTRIBUTES, st.lists(below, max_size=3).map("".join)
    ),
    max_leaves=6,
)
DRAWING = st.lists(ELEMENT, max_size=5).map(
    lambda all_: f'<svg xmlns="http://www.w3.org/2000/svg">{"".join(all_)}</svg>'
)


def read(text: str) -> None:
    begun = time.process_time()
    try:
        motif = svg_motif(text, "mine.svg")
    except BadInput as error:
        assert str(error).startswith("mine.svg") and str(error).endswith(".") and "\n" not in str(error)
    else:
        assert abs(motif.size[0] - 1) < 1e-6 and motif.size[1] > 0
        assert all(Polygon(region.ring).area > 0 for region in motif.regions)
    assert time.process_time() - begun < 20


@settings(max_examples=150, deadline=None)
@given(DRAWING)
def test_any_drawing(text: str) -> None:
    read(text)


@settings(max_examples=150, deadline=None)
@given(st.one_of(st.text(max_size=200), st.text("<>/svg&;!DOCTYPE []\"'=x", max_size=80)))
def test_any_text(text: str) -> None:
    read(text)


@settings(max_examples=60, deadline=None)
@given(DATA)
def test_any_path(data: str) -> None:
    read(f'<svg><path d="{data}"/></svg>')


def test_a_scribble_that_crosses_itself_everywhere_is_refused_soon() -> None:
    zigzag = " ".join(f"L {i} {1000 * (i % 2)} L {1000 * (i % 2)} {i}" for i in range(4000))
    read(f'<svg><path d="M0 0 {zigzag}"/></svg>')
    combs = "".join(f'<path d="M{i} 0h.2v900h-.2z"/><path d="M0 {i}v.2h900v-.2z"/>' for i in range(900))
    read(f"<svg>{combs}</svg>")
    stars = f'<path d="M0 0{"L9 9L0 9L9 0L0 0" * 1200}" fill="none" stroke="black"/>'
    read(f"<svg>{stars}</svg>")
