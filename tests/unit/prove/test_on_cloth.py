"""The lays against the cloth at hand: worked by hand."""

from dataclasses import replace

import pytest

from ellwand.model.cloth import Cloth, Fault, Remnant, Repeat
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay, Placement
from ellwand.model.on_table import moved_along
from ellwand.model.piece import Piece
from ellwand.pipeline import lay_garment, make, prove_sheet
from ellwand.prove.on_cloth import prove_on_cloth
from sheets import sheet


def found(garment: Garment) -> dict[str, Finding]:
    return {f.code: f for f in garment.proof.findings if f.code.startswith("cloth")}


def panel(name: str, width: float, length: float) -> Piece:
    ring = ((0.0, 0.0), (width, 0.0), (width, length), (0.0, length))
    return Piece(name, name, "main", 1, "body", ring, (), ring, (), ())


def lay_of(spots: dict[str, tuple[float, float]], length: float) -> Lay:
    placements = tuple(Placement(name, name, x, y, 0.0, False) for name, (x, y) in spots.items())
    return Lay("main", 150, 148, length, 0, 0, "", 0, "flat", "", placements)


def test_a_lay_longer_than_its_table() -> None:
    """Panels of 100 and 60 and two of 30 on 150: worked by hand."""
    pieces = [panel("a", 70, 100), panel("b", 70, 60), panel("c", 70, 30), panel("d", 70, 30)]
    lay = lay_of({"a": (0, 0), "b": (70, 0), "c": (70, 60), "d": (0, 100)}, 130)
    assert moved_along(lay, pieces, 130) == ((), ())
    assert moved_along(lay, pieces, 110) == ((100,), ())
    # the panel of 100 lies across wherever a table of 80 ends
    assert moved_along(lay, pieces, 80) == ((80,), ("a", "c"))
    assert moved_along(lay, pieces, 50) == ((50, 100), ("a", "b"))


def test_several_cloths_are_laid_and_told_apart() -> None:
    wool = sheet()
    lining = Cloth("lining", 90, cuts=("gores", "gussets"), length=20, washed=True)
    silk = Cloth("silk", 90, cuts=("collar",))
    garment = make(replace(wool, cloths=(*wool.cloths, lining, silk)), seconds=0)
    assert {piece.id: piece.cloth for piece in garment.draft.pieces} == {
        piece.id: "lining" if piece.id in ("gore", "gusset") else "main" for piece in garment.draft.pieces
    }
    assert [lay.cloth for lay in garment.lays] == ["main", "lining"]
    codes = [(f.code, f.subject, f.outcome) for f in garment.proof.findings if f.code.startswith("cloth")]
    assert ("cloth-enough", "lining", "will not work") in codes
    assert ("cloth-not-needed", "silk", "look again") in codes


@pytest.mark.parametrize(
    ("cloth", "why"),
    [
        ({"fold": "lengthwise", "repeat": Repeat(5)}, "stripes"),
        ({"fold": "crosswise", "nap": True}, "nap"),
        ({"fold": "crosswise", "faults": (Fault(0, 0, 1, 1),)}, "faults"),
    ],
)
def test_why_a_fold_is_not_used(cloth: dict[str, object], why: str) -> None:
    plain = sheet()
    garment = make(replace(plain, cloths=(replace(plain.cloth, **cloth),)), seconds=0)  # type: ignore[arg-type]
    assert found(garment)["cloth-laid-flat"].values["why"] == why
    assert {lay.fold for lay in garment.lays} == {"flat"}


def test_a_fold_that_is_used_is_no_finding() -> None:
    plain = sheet()
    garment = make(replace(plain, cloths=(replace(plain.cloth, fold="lengthwise"),)), seconds=0)
    assert "cloth-laid-flat" not in found(garment)
    assert garment.lays[0].fold == "lengthwise"


def test_left_overs_are_told() -> None:
    plain = sheet()
    used = make(replace(plain, cloths=(replace(plain.cloth, remnants=(Remnant(150, 260), Remnant(3, 3))),)), seconds=0)
    assert found(used)["cloth-remnants-used"].values["used"] == 1
    unused = make(replace(plain, cloths=(replace(plain.cloth, remnants=(Remnant(3, 3),)),)), seconds=0)
    assert found(unused)["cloth-remnants-unused"].outcome == "look again"


def test_a_fault_found_in_a_part_and_between() -> None:
    plain = sheet()
    garment = prove_sheet(plain)
    lays = lay_garment(garment.draft, plain.cloths)
    at = lays[0].placements[0]
    for fault, outcome in ((Fault(at.x + 30, at.y + 10, 1, 1), "look again"), (Fault(0, 0, 0.5, 1), "sound")):
        marked = replace(plain.cloth, faults=(fault,))
        findings = {f.code: f for f in prove_on_cloth(garment.draft, lays, (marked,))}
        assert findings["cloth-fault"].outcome == outcome


def test_stripes_meet_where_the_length_allows() -> None:
    """A body in one over the shoulders: its back meets the front only when the repeat divides its length."""
    plain = sheet(garment={"body": {"shoulder": "fold"}})
    body = prove_sheet(plain).draft.pieces[0]
    long = max(y for _, y in body.sewn) - min(y for _, y in body.sewn)
    for along, outcome in ((long / 20, "sound"), (long / 20.5, "look again")):
        striped = replace(plain, cloths=(replace(plain.cloth, repeat=Repeat(0, along), crosswise="never"),))
        assert found(make(striped, seconds=0))["cloth-stripes"].outcome == outcome


def test_the_search_tells_and_repeats() -> None:
    """With effort the same lays to the last digit, sentences on the way, and never longer than the instant ones."""
    plain = sheet(garment={"body": {"shoulder": "seam", "cut": "shoulder panels"}}, cloth={"width": 110})
    cloths = (
        replace(plain.cloth, remnants=(Remnant(60, 70),)),
        Cloth("lining", 90, cuts=("gores",), fold="lengthwise"),
    )
    heard: list[str] = []
    first = make(replace(plain, cloths=cloths), effort=1, progress=heard.append)
    again = make(replace(plain, cloths=cloths), effort=1)
    assert first.lays == again.lays
    assert any(" s: " in line and " cm, by " in line for line in heard)
    instant = make(replace(plain, cloths=cloths), seconds=0)
    assert sum(lay.length for lay in first.lays if not lay.remnant) <= sum(
        lay.length for lay in instant.lays if not lay.remnant
    )


def test_a_stop_ends_the_search() -> None:
    plain = sheet(garment={"body": {"shoulder": "seam", "cut": "shoulder panels"}})
    asked: list[bool] = []

    def stop() -> bool:
        asked.append(True)
        return True

    garment = make(plain, seconds=60, stop=stop)
    assert garment.lays[0].placements
    assert asked


def test_a_left_over_long_enough_spares_the_piecing() -> None:
    """A body longer than the main length lies on a left-over that holds it, in one piece."""
    plain = sheet(cloth={"length": 160})
    body = prove_sheet(plain).draft.pieces[0].id
    with_it = make(replace(plain, cloths=(replace(plain.cloth, remnants=(Remnant(80, 220),)),)), seconds=0)
    on = {placed.piece: lay.remnant for lay in with_it.lays for placed in lay.placements}
    assert on[body] == 1
    assert not any("-end" in piece for piece in on)
