"""The cloths of a sheet: one or several, what is left over of them, stripes, and what is wrong with them."""

import pytest

from ellwand.choose import read_sheet
from ellwand.errors import BadInput
from ellwand.model.cloth import Cloth, Repeat

WEARER = "[wearer]\nheight = 164\nbust_girth = 96\n"


def cloths(text: str) -> tuple[Cloth, ...]:
    return read_sheet((WEARER + text).encode(), lambda _: 0.0).cloths


def test_one_cloth_is_for_all() -> None:
    (main,) = cloths("[cloth.main]\nwidth = 150\n")
    assert (main.name, main.cuts, main.gap, main.repeat, main.table, main.selvedge_edges) == (
        "main",
        (),
        0,
        None,
        None,
        False,
    )


def test_other_cloths_say_what_they_are_for() -> None:
    main, lining, trim = cloths(
        '[cloth.lining]\nwidth = 90\npieces = ["gores", "gores", "gussets"]\n'
        '[cloth.wool]\nwidth = 150\n[cloth.trim]\nwidth = 60\npieces = ["facings"]\nunit = "cm"\n'
        '[[cloth.remnants]]\nwidth = 30\nlength = 40\ncloth = "trim"\n'
    )
    assert (main.name, lining.cuts, trim.cuts) == ("wool", ("gores", "gussets"), ("facings",))
    assert [(left.width, left.length) for left in trim.remnants] == [(30, 40)]
    assert main.remnants == ()


def test_a_left_over_may_have_an_outline() -> None:
    """Corners in either sense, anywhere: answered counter-clockwise, from (0, 0)."""
    (main,) = cloths('[cloth.main]\nwidth = 150\n[[cloth.remnants]]\noutline = [[5, 5], [5, "65 cm"], [45, 5]]\n')
    (left,) = main.remnants
    assert (left.width, left.length) == (40, 60)
    assert set(left.outline) == {(0, 0), (40, 0), (0, 60)}


def test_what_the_maker_may_say_of_the_cloth() -> None:
    (main,) = cloths(
        '[cloth.main]\nwidth = 60\nunit = "in"\ngap = "2 mm"\nselvedge_edges = true\ntable = 72\n'
        "repeat = {across = 2, along = 3, x = 0.5}\n"
    )
    assert (main.gap, main.selvedge_edges) == (0.2, True)
    assert main.table == pytest.approx(72 * 2.54)
    assert main.repeat == Repeat(2 * 2.54, 3 * 2.54, 0.5 * 2.54, 0)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[cloth.a]\nwidth = 150\n[cloth.b]\nwidth = 90\n", "2 cloths are for all pieces"),
        ('[cloth.a]\nwidth = 150\npieces = ["gores"]\n', "every cloth says"),
        (
            '[cloth.a]\nwidth = 90\n[cloth.b]\nwidth = 90\npieces = ["gores"]\n'
            '[cloth.c]\nwidth = 90\npieces = ["gores"]\n',
            "another cloth is for the gores too",
        ),
        ('[cloth.a]\nwidth = 90\n[cloth.b]\nwidth = 90\npieces = ["hats"]\n', "'hats' is not a choice here"),
        ('[cloth.a]\nwidth = 90\n[cloth.b]\nwidth = 90\npieces = "gores"\n', "is not a list"),
        ('[cloth.a]\nwidth = 90\n[[cloth.remnants]]\nwidth = 9\nlength = 9\ncloth = "b"\n', "no cloth 'b'"),
        ("[cloth.a]\nwidth = 90\n[[cloth.remnants]]\nwidth = 9\n", "its width or length is missing"),
        ("[cloth.a]\nwidth = 90\n[[cloth.remnants]]\nwidth = 9\noutline = [[0, 0], [9, 0], [0, 9]]\n", "outline alone"),
        ("[cloth.a]\nwidth = 90\n[[cloth.remnants]]\noutline = [[0, 0], [9, 9], [9, 0], [0, 9]]\n", "crosses itself"),
        ("[cloth.a]\nwidth = 90\n[[cloth.remnants]]\noutline = [[0, 0], [9, 9]]\n", "at least three corners"),
        ("[cloth.a]\nwidth = 90\n[[cloth.remnants]]\noutline = [[0, 0], [9, 9], 3]\n", "a pair of lengths"),
        ("[cloth.a]\nwidth = 90\n[[cloth.remnants]]\noutline = 3\n", "at least three corners"),
        ("[cloth.a]\nwidth = 90\nrepeat = 5\n", "a table of its own"),
        ("[cloth.a]\nwidth = 90\ngap = -1\n", "out of reach"),
    ],
)
def test_what_is_wrong_is_said(text: str, said: str) -> None:
    with pytest.raises(BadInput) as error:
        cloths(text)
    assert said in str(error.value)
