"""Draw every part and sew them together on paper."""

from __future__ import annotations

from ellwand.draft.blank import Book
from ellwand.draft.body import draw_body
from ellwand.draft.flared import draw_side_panels
from ellwand.draft.gores import draw_gores, tips_apart
from ellwand.draft.joins import Sides, Spots, opposite
from ellwand.draft.others import draft_other
from ellwand.draft.plan import Plan, plan_of
from ellwand.draft.sleeve import draw_sleeves
from ellwand.model.choices import Choices
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.wearer import HANDS, Wearer


def draft(choices: Choices, wearer: Wearer, cloth: str = "main") -> Draft:
    """Every piece and seam of the garment, cut from the cloth of that name.

    Raises CannotDraft, naming the choice to change, when no such garment can be cut.
    """
    if choices.other is not None:
        return draft_other(choices, wearer, cloth)
    plan = plan_of(choices, wearer)
    choices = plan.choices
    book = Book(cloth, choices.sewing.finish)
    sides: Sides = {}
    spots: Spots = {}
    tops: dict[tuple[str, str], EdgeRef] = {}
    draw_body(plan, book, sides, spots)
    if plan.side_panels:
        draw_side_panels(plan, book, sides, tops)
    draw_gores(plan, book, sides)
    if plan.arm.length:
        draw_sleeves(plan, book, spots)
    _sew_lines(plan, book, sides)
    if not plan.fold:
        for hand in HANDS:
            book.sew(spots["front", hand, "shoulder"], spots["back", hand, "shoulder"], "shoulder")
    if plan.arm.length:
        for hand in HANDS:
            _sew_arm(book, sides, spots, tops, hand, choices.sleeve.head_ease / 2)
    return tips_apart(Draft(choices, plan.dimensions, book.pieces(), book.parts(), book.seams(), plan.notes))


def _sew_lines(plan: Plan, book: Book, sides: Sides) -> None:
    for (place, hand), line in plan.lines.items():
        if not plan.in_seam(place):
            continue
        left, right = sides[place, hand, "left"], sides[place, hand, "right"]
        if "seam" in left:
            book.sew(left["seam"], right["seam"], line.kind)


def _sew_arm(
    book: Book, sides: Sides, spots: Spots, tops: dict[tuple[str, str], EdgeRef], hand: str, ease: float
) -> None:
    """``ease``: how much longer each half of the sleeve's head is than its side of the armhole (cm)."""
    for face in ("front", "back"):
        body, sleeve = spots[face, hand, "armhole"], spots["sleeve", hand, f"armhole-{face}"]
        if ease:
            book.sew(sleeve, body, "armhole", ease)
        else:
            book.sew(body, sleeve, "armhole")
        if (face, hand, "armhole-behind") in spots:
            book.sew(spots[face, hand, "armhole-behind"], spots["sleeve", hand, "armhole-behind"], "armhole")
        if (hand, face) in tops:
            book.sew(tops[hand, face], spots["sleeve", hand, f"armhole-{face}-low"], "armhole")
        if ("gusset", hand, f"body-{face}") in spots:
            viewer = hand if face == "front" else opposite(hand)
            body = spots.get((face, hand, "gusset")) or sides["side", hand, viewer]["gusset"]
            book.sew(body, spots["gusset", hand, f"body-{face}"], "gusset")
            sleeve = spots["sleeve", hand, f"underarm-{face}-gusset"]
            book.sew(sleeve, spots["gusset", hand, f"sleeve-{face}"], "gusset")
        if ("gore", hand, face) in spots:
            book.sew(spots["sleeve", hand, f"underarm-{face}-gore"], spots["gore", hand, face], "sleeve gore")
    if ("gusset", hand, "long-front") in spots:
        book.sew(spots["gusset", hand, "long-front"], spots["gusset", hand, "long-back"], "gusset seam")
    if ("sleeve", hand, "over-front") in spots:
        book.sew(spots["sleeve", hand, "over-front"], spots["sleeve", hand, "over-back"], "sleeve seam")
    book.sew(
        spots["sleeve", hand, "underarm-front-seam"],
        spots["sleeve", hand, "underarm-back-seam"],
        "underarm seam",
    )
