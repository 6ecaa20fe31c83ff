"""The end of the card: the order of sewing, the checks and the cautions."""

from __future__ import annotations

from typing import Final

from ellwand.depict import words as say
from ellwand.depict.words.pace import hours_said
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.publish.card_type import CardType, heading
from ellwand.publish.typst_text import table, words
from ellwand.sew.pace import totals

GOOD_TO_KNOW: Final = ("lasts", "hang-hem", "hang-belt")
"""What is told of also where it is sound."""


def sewing(garment: Garment, sizes: CardType) -> str:
    """The order of sewing."""
    if not garment.steps:
        return ""
    unit = garment.wearer.unit
    hours = hours_said(totals(garment.steps).hours, garment.choices.sewing)
    rows = [[words(str(s.n), bold=True), words(say.step(s, garment.draft, unit))] for s in garment.steps]
    return (
        heading(_("Sewing order ({hours})", hours=hours), sizes)
        + "\n"
        + table(["auto", "1fr"], [], rows, sizes.after, air=sizes.air)
    )


def findings(garment: Garment, sizes: CardType) -> str:
    """What is not sound, what is good to know, and the cautions."""
    unit = garment.wearer.unit
    order = ("will not work", "look again")
    found = [f for outcome in order for f in garment.proof.findings if f.outcome == outcome]
    sound = sum(1 for f in garment.proof.findings if f.outcome == "sound")
    lasting = [f for f in garment.proof.findings if f.code in GOOD_TO_KNOW and f.outcome == "sound"]
    out = [heading(_("Checks ({sound} of {total} sound)", sound=sound, total=len(garment.proof.findings)), sizes)]
    rows = []
    for f in found:
        mend = say.mend(f, unit)
        rows.append(
            [
                words(_(f.outcome), bold=True),
                words(say.why(f, unit) + (" " + _("To mend: {mend}", mend=mend) if mend else "")),
            ]
        )
    rows += [[words(_("good to know"), bold=True), words(say.why(f, unit))] for f in lasting]
    if rows:
        out.append(table(["auto", "1fr"], [], rows, sizes.after, air=sizes.air))
    if garment.cautions:
        out.append(heading(_("Take care"), sizes))
        out += [
            f"#block(above: 1.6mm, {words('– ' + say.caution(each, unit), size=sizes.after)})"
            for each in garment.cautions
        ]
    return "\n".join(out)
