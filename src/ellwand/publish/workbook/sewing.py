"""The chapters on sewing: every step with its picture and what is to be known of it; closures and adornment."""

from __future__ import annotations

from typing import Final

from ellwand.depict import words as say
from ellwand.depict.adornment import adornment_rows
from ellwand.depict.spread import drawing_bounds
from ellwand.depict.step_facts import step_facts
from ellwand.depict.step_view import section as seam_section
from ellwand.depict.step_view import step_drawing
from ellwand.depict.view import garment_view
from ellwand.depict.words.blazon import arms, hatching_key
from ellwand.depict.words.closings import BOUGHT, closing, to_buy
from ellwand.depict.words.pace import hours_said, whose_pace
from ellwand.depict.words.step_asking import FINISH_NAMES, finishing
from ellwand.depict.words.step_names import step_named
from ellwand.depict.workbook.showing import legend_in_one
from ellwand.language import _
from ellwand.model.drawing import Drawing
from ellwand.model.garment import Garment
from ellwand.model.step import Step
from ellwand.publish.workbook.page import Leaf, at_page, chapter, facts_grid, figure, fitted, para, section
from ellwand.sew.pace import totals

HIGHEST: Final = 9.0
"""How high the picture of a step may be (cm); a higher one is drawn smaller, lettering and all."""


def sewing_chapter(garment: Garment, leaf: Leaf) -> str:
    """How long it takes, how a seam is finished, what the signs mean, and every step."""
    sewing = garment.choices.sewing
    hours = hours_said(totals(garment.steps).hours, sewing)
    signs, seam = legend_in_one(), seam_section(sewing.finish)
    finish = _(FINISH_NAMES[sewing.finish])
    out = [
        chapter(_("Sewing, step by step"), "sewing"),
        para(
            _(
                "There are {count} steps; together they take {hours}. Each builds on those that are named beside it, so"
                " keep to the order. What is flat is sewn before what closes the garment, because flat work is easy to"
                " reach and to press.",
                count=len(garment.steps),
                hours=hours,
            )
        ),
        para(whose_pace(sewing)),
        para(finishing(sewing.finish), lead=_("Seams: {finish}", finish=finish)),
        figure(
            seam,
            1.0,
            _("A finished seam, cut through: {finish}.", finish=finish),
            _("Two layers of cloth and their allowances, cut through: {finish}.", finish=finish),
        ),
        figure(
            signs,
            1.0,
            _("What the lines and signs in the pictures of the steps mean."),
            _("Samples of the lines and signs that are used in the pictures, each with its name."),
            enlarged=_shrunk(signs, leaf),
        ),
    ]
    out += [_step(garment, step, leaf) for step in garment.steps]
    return "\n\n".join(out)


def _step(garment: Garment, step: Step, leaf: Leaf) -> str:
    """Number and name, the picture, the sentence and the facts."""
    unit, draft = garment.wearer.unit, garment.draft
    drawing = step_drawing(step, draft, unit, garment.steps)
    name, sentence = step_named(step.code), say.step(step, draft, unit)
    rows = [(key, text) for key, text in step_facts(step, draft, unit) if key != _("after")]
    out = [
        section(_("Step {n}: {name}", n=step.n, name=name), f"step-{step.n}"),
        figure(
            drawing,
            1.0,
            _("Step {n}: {name}.", n=step.n, name=name),
            _("Picture of this step: {sentence}", sentence=sentence),
            enlarged=_shrunk(drawing, leaf),
        ),
        para(sentence),
    ]
    if step.needs:
        after = "; ".join(_("step {n} (page {page})", n=n, page=at_page(f"step-{n}")) for n in sorted(step.needs))
        out.append(para(_("It comes after {steps}.", steps=after)))
    return "\n\n".join([*out, facts_grid(rows)] if rows else out)


def _shrunk(drawing: Drawing, leaf: Leaf) -> float:
    """How much smaller than it was made a drawing must be to fit, lettering and all."""
    x0, y0, x1, y1 = drawing_bounds(drawing, 1.0)
    return min(1.0, leaf.room / (x1 - x0), HIGHEST / (y1 - y0))


def adornment_chapter(garment: Garment, leaf: Leaf) -> str:
    """What closes the garment and what is put on it."""
    unit, draft = garment.wearer.unit, garment.draft
    heraldry, rows = arms(draft), adornment_rows(garment)
    out = [chapter(_("Closures and adornment"), "closing", fresh=bool(heraldry or rows))]
    if garment.closings:
        out.append(section(_("What closes it")))
        for each in garment.closings:
            out.append(para(_upper(closing(each, unit))))
            out.append(para(to_buy(each, unit), lead=_upper(_(BOUGHT[each.by]))))
    if heraldry:
        out.append(section(_("Colours and arms")))
        for faces, blazon, plain in heraldry:
            out.append(para(f"{blazon}. {plain}.", lead=_upper(_(faces))))
        if key := hatching_key(draft):
            out.append(para(_("In the drawings, {key}.", key=key)))
    if heraldry or rows:
        for face, caption in (("front", _("The adorned garment from the front.")), ("back", _("And from behind."))):
            drawing = garment_view(draft, face)  # type: ignore[arg-type]
            out.append(figure(drawing, fitted(drawing, leaf.room, 11.0), caption, caption))
    if rows:
        out.append(section(_("Bands and motifs")))
        out += [para(text, lead=_upper(what)) for what, text in rows]
        if draft.adornment.repeats:
            out.append(para(_("Stencils, blocks and transfers are printed at full size from stencils.pdf.")))
    if len(out) == 1:
        out.append(
            para(
                _(
                    "Beyond the steps above nothing is to be added. If you wish to add a band, do so while the"
                    " cloth lies flat, and wash the band first."
                )
            )
        )
    return "\n\n".join(out)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
