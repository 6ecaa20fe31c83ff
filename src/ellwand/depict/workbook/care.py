"""How a sewn garment is washed, dried, pressed and kept, whatever its fibre: common practice, no source."""

from __future__ import annotations

from ellwand.language import _
from ellwand.model.garment import Garment

Row = tuple[str, str]
"""What it is about, and what to do."""


def care_intro() -> str:
    """What goes before all advice."""
    return _(
        "We do not know your fibre. What the label or the seller says of the cloth goes before all that stands here."
        " ISO 3758 has five groups of care: washing, bleaching, drying, ironing and professional care; ask for all five"
        " when you buy, and write them down below."
    )


def care_rows(garment: Garment) -> tuple[Row, ...]:
    """Advice in the order of the groups of ISO 3758, then on what is put on the garment and on keeping it."""
    out = [
        (_("Try first"), _try(garment)),
        (_("Washing"), _washing()),
        (
            _("Bleaching"),
            _("Not at all, unless the cloth's maker allows it: bleach weakens wool and silk, and most dyes."),
        ),
        (
            _("Drying"),
            _(
                "Press the water out in a towel and do not wring. Pull the seams straight, and dry it lying or over a"
                " pole, out of the sun; a tumbler shrinks and felts."
            ),
        ),
        (_("Ironing"), _ironing()),
        (
            _("Professional care"),
            _(
                "Ask before you give it away, and say what is sewn or painted on it. Dry cleaning does not suit all"
                " paint."
            ),
        ),
    ]
    out += _put_on(garment)
    out.append((_("Mending"), _mending(garment)))
    out.append(
        (
            _("Keeping"),
            _(
                "Brush it and let it air after wearing; wash it only when that does not help. Put it away clean and"
                " dry, folded, where moths cannot get at it. Look along the seams now and then, and mend at once."
            ),
        )
    )
    return tuple(out)


def _try(garment: Garment) -> str:
    text = _(
        "Wash and press a scrap as wide as your hand, measure it before and after, and see whether its colour runs."
    )
    if len(garment.cloths) > 1:
        text += " " + _("There are several cloths: try each, and wash the garment as the most delicate of them needs.")
    return text


def _washing() -> str:
    return _(
        "Close what closes. Linen and cotton mostly bear warm water; wool and silk want it lukewarm at most, a mild"
        " soap, and no rubbing, for wool felts. Wash dark and bright colours alone at first."
    )


def _ironing() -> str:
    return _(
        "From the inside, with the cloth's own heat: least for silk and synthetics, more for wool under a damp cloth,"
        " most for cotton and linen while still a little damp. An iron burns: set it on its rest, keep it from"
        " children, and pull the plug when you leave."
    )


def _put_on(garment: Garment) -> list[Row]:
    adornment, out = garment.draft.adornment, []
    ways = {each.chosen.by for each in adornment.repeats}
    if ways & {"stencil", "block"}:
        out.append(
            (
                _("Painted places"),
                _(
                    "Do not wash them for some days after the paint is fixed. Turn the garment inside out for washing,"
                    " and never iron on the paint itself: from behind, or under a cloth."
                ),
            )
        )
    if adornment.bands:
        out.append(
            (
                _("Bands"),
                _(
                    "Bands shrink and run in their own way: wash them before they are sewn on, and press them from"
                    " behind."
                ),
            )
        )
    if any(each.by in ("buttons", "hooks", "pins") for each in garment.closings):
        out.append(
            (
                _("Metal"),
                _("Take pins out before washing. Metal that stays on may rust: dry it well, and keep the iron off it."),
            )
        )
    return out


def _mending(garment: Garment) -> str:
    if any(piece.kind == "applied" for piece in garment.draft.pieces):
        text = _(
            "Keep the scraps: they patch elbows and hems, and they fade with the garment if they are washed with it."
        )
    else:
        text = _("Keep the scraps for patches, and wash one with the garment, so that it fades with it.")
    return f"{text} " + _("Sew a loose seam before it opens further; hem and neck wear first.")
