"""The last chapters: care, cautions, words explained, and where all of it is from."""

from __future__ import annotations

from collections.abc import Sequence

from ellwand.depict import words as say
from ellwand.depict.workbook.care import care_intro, care_rows
from ellwand.depict.workbook.rules import rule_rows
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.publish.workbook.page import chapter, para, said, section


def care_chapter(garment: Garment) -> str:
    """Washing, pressing, keeping; with lines to write the cloth's own care on."""
    rows = [para(text, lead=what) for what, text in care_rows(garment)]
    line = "#block(above: 7mm, line(length: 100%, stroke: 0.5pt))"
    return "\n\n".join(
        [
            chapter(_("Care"), "care"),
            para(care_intro()),
            *rows,
            "#block(breakable: false)[",
            section(_("My cloth")),
            para(_("Fibre, where bought, and the five groups of its care:")),
            *(line for _n in range(4)),
            "]",
        ]
    )


def caution_chapter(garment: Garment) -> str:
    """What can hurt, of this garment and of all sewing; and what is still to be looked at."""
    unit = garment.wearer.unit
    general = (
        _(
            "Needles and pins: keep them in a cushion, never in the mouth or in what you wear. Count them before and"
            " after, and look for them with a magnet."
        ),
        _("Scissors and knives: pass them handle first, closed, and away from the edge of the table."),
        _("Irons and steam burn: set the iron on its rest, let it cool before you put it away, and mind its cord."),
        _("Children sew beside a grown-up."),
        _("Fire: hanging hems and sleeves catch at candles, stoves and camp fires; keep water at hand."),
    )
    own = [say.caution(each, unit) for each in garment.cautions]
    out = [chapter(_("Take care"), "cautions", fresh=False)]
    if own:
        out += [section(_("With this garment")), _bullets(own)]
    out += [section(_("With all sewing")), _bullets(general)]
    open_ = [each for each in garment.proof.findings if each.outcome != "sound" and not each.code.startswith("period")]
    if open_:
        out.append(section(_("Look at this again before you cut")))
        out.append(_bullets([f"{say.why(each, unit)} {say.mend(each, unit)}".strip() for each in open_]))
    return "\n\n".join(out)


def _bullets(texts: Sequence[str]) -> str:
    return f"#list({', '.join(f'[#{{{said(text)}}}]' for text in texts)})"


def glossary_chapter(terms: Sequence[tuple[str, str]]) -> str:
    """Each term with what it means."""
    return "\n\n".join([chapter(_("Glossary"), "glossary"), *(para(what, lead=term) for term, what in terms)])


def source_chapter(garment: Garment) -> str:
    """The evidence for the choices, with its sources, and whose rules were used."""
    unit, date = garment.wearer.unit, garment.choices.date
    out = [chapter(_("Sources"), "sources", fresh=False), section(_("Does it suit its time?"))]
    found = [each for each in garment.proof.findings if each.code.startswith("period")]
    if date is None:
        out.append(para(_("The sheet names no year, so nothing was compared with finds and pictures.")))
    elif not found:
        out.append(para(_("Nothing dated was collected for these choices.")))
    else:
        out.append(
            para(
                _(
                    "Each choice was compared with dated finds, pictures and books of about {date}. They were read in"
                    " what others print of them: take them as hints.",
                    date=date,
                )
            )
        )
        out += [para(f"{say.why(each, unit)} {say.mend(each, unit)}".strip()) for each in found]
    out.append(section(_("Whose rules")))
    out += [para(text, lead=what) for what, text in rule_rows(garment)]
    return "\n\n".join(out)
