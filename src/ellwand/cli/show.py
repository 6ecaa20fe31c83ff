"""What the commands print: plain text tables."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from ellwand.depict import words
from ellwand.depict.shopping import purchase_steps, purchases
from ellwand.depict.words.lays import bought, cloth_named, how_it_lies, how_short, lay_name
from ellwand.depict.words.searching import by_whom, reckoned_from
from ellwand.language import N_, SOURCE, _, speaking
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.measurement import MEASUREMENTS
from ellwand.model.names import named as name_said
from ellwand.model.wearer import Measure, Wearer
from ellwand.units import Unit, decimal, format_length

if TYPE_CHECKING:
    from ellwand.plan.widths import AtWidth

OUTCOMES: Final = (N_("will not work"), N_("look again"), N_("sound"))
"""The worst first."""


def findings(garment: Garment) -> str:
    """Every finding, the worst first, and how many were sound."""
    unit = garment.wearer.unit
    lines = [_headline(garment)]
    wide = max(len(_(outcome)) for outcome in OUTCOMES)
    for each in sorted(garment.proof.findings, key=lambda f: OUTCOMES.index(f.outcome)):
        lines.append(f"  {_(each.outcome):<{wide}}  {words.why(each, unit)}")
        if each.outcome != "sound" and (mend := words.mend(each, unit)):
            lines.append(f"  {'':<{wide}}  {_('To mend: {mend}', mend=mend)}")
    return "\n".join(lines) + "\n"


def summary(garment: Garment) -> str:
    """A few lines: the verdict, what to buy, how good the lay is, and the findings that need a look."""
    unit = garment.wearer.unit
    lines = [_headline(garment)]
    for cloth, asked in purchases(garment.lays, garment.cloths):
        if asked.laid:
            what = bought(asked.length, cloth, unit)
            said = (
                _("{cloth} to buy", cloth=what)
                if asked.cost is None
                else _("{cloth} to buy, for {cost}", cloth=what, cost=decimal(asked.cost, 2))
            )
            lines.append(f"  {cloth_named(cloth.name)}: {said}" if len(garment.cloths) > 1 else f"  {said}")
    for lay in garment.lays:
        used = _("{share}% of it is used.", share=decimal(100 * lay.use))
        sentences = (f"{lay_name(lay, garment.lays)}:", how_it_lies(lay, unit), used, how_short(lay, unit))
        lines.append(f"  {' '.join(sentences).rstrip()}")
    for each in sorted(_open(garment), key=lambda f: OUTCOMES.index(f.outcome)):
        mend = words.mend(each, unit)
        to_mend = f" {_('To mend: {mend}', mend=mend)}" if mend else ""
        lines.append(f"  {_(each.outcome)}: {words.why(each, unit)}{to_mend}")
    return "\n".join(lines)


def lay_table(garment: Garment) -> str:
    """What to buy step by step, how each lay was found, and where every piece lies on it."""
    from ellwand.publish import chalk_csv

    unit = garment.wearer.unit
    out = [summary(garment), ""]
    for cloth, asked in purchases(garment.lays, garment.cloths):
        if asked.laid:
            out.append(f"{bought(asked.length, cloth, unit)}:")
            out += [f"  {format_length(cm, unit):>12} {what}" for what, cm in purchase_steps(asked, cloth, unit)]
    for lay in garment.lays:
        name = lay_name(lay, garment.lays)
        told = {"lay": f"{name[0].upper()}{name[1:]}", "engine": by_whom(lay.engine)}
        found = (
            _(
                "{lay}, found by {engine}; the shortest possible is reckoned from: {bound}.",
                bound=reckoned_from(lay.bound),
                **told,
            )
            if how_short(lay, unit)
            else _("{lay}, found by {engine}.", **told)
        )
        out += ["", found, chalk_csv(garment, lay).rstrip()]
    return "\n".join(out) + "\n"


def widths_table(tried: Sequence[AtWidth], unit: Unit, price: float | None) -> str:
    """The same garment on cloths of several widths, side by side."""
    head = [
        *(_("width"), _("the lay"), _("to buy"), _("used"), _("over shortest")),
        *([_("cost")] if price is not None else []),
        _("pieced"),
    ]
    rows = [head]
    for each in tried:
        wide = format_length(each.width, unit, mark=False)
        if each.refused:
            rows.append([wide, "–", "–", "–", "–", *(["–"] if price is not None else []), each.refused])
            continue
        gap = _("proved best") if each.proved_best else _("at most {share}%", share=decimal(100 * each.gap, 1))
        cost = [] if price is None else [decimal(each.cost or 0.0, 2)]
        laid, buy = (format_length(cm, unit, mark=False) for cm in (each.laid, each.bought))
        used = _("{share}%", share=decimal(100 * each.use))
        rows.append([wide, laid, buy, used, gap, *cost, name_said(", ".join(each.pieced)) or _("nothing")])
    wides = [max(len(row[i]) for row in rows) for i in range(len(head))]
    lines = ["  ".join(cell.ljust(wide) for cell, wide in zip(row, wides, strict=True)).rstrip() for row in rows]
    notes = [
        _("Lengths in inches, each searched for as long.")
        if unit == "in"
        else _("Lengths in cm, each searched for as long.")
    ]
    if price is not None:
        notes.append(_("The cost is reckoned as if every width cost the same for its area."))
    return "\n".join([*lines, " ".join(notes)]) + "\n"


def say(text: str) -> None:
    """A line for the person, apart from the results."""
    print(text, file=sys.stderr)


def measurements(wearer: Wearer, questions: Sequence[Finding], *, named: bool) -> str:
    """Every measurement in the wearer's unit; estimates with their spread; then the questions."""
    unit = wearer.unit
    asked = {question.subject for question in questions}
    lines = [wearer.name] if named else []
    arms = {"left": _("left arm"), "right": _("right arm")}
    wide = max(len(_(each.label)) for each in MEASUREMENTS.values())
    for name, about in MEASUREMENTS.items():
        m = wearer.measures[name]
        spread = f"± {format_length(m.sd, unit, mark=False)}" if m.source == "estimated" else ""
        said = f"{format_length(m.value, unit, mark=False):>8} {spread:<8}"
        lines.append(f"  {_(about.label):<{wide}} {said} {_remark(name, m, name in asked)}".rstrip())
    for hand, cm in wearer.arms.items():
        lines.append(f"  {arms[hand]:<{wide}} {format_length(cm, unit, mark=False):>8}")
    note = (
        _("in inches; ± is one standard deviation of an estimate")
        if unit == "in"
        else _("in cm; ± is one standard deviation of an estimate")
    )
    lines.append(f"  {note}")
    for each in questions:
        lines.append(f"  ? {words.why(each, unit)}\n    {words.mend(each, unit)}")
    return "\n".join(lines) + "\n"


def _remark(name: str, m: Measure, asked: bool) -> str:
    if asked:
        return _("? see below")
    if name == "head_girth" and m.source == "estimated":
        return _("measure this one: it decides the neck, and nothing else tells it")
    return _("estimated") if m.source == "estimated" else ""


def filled_in(wearer: Wearer, questions: Sequence[Finding]) -> dict[str, object]:
    """The same as plain values, in cm; in English whatever is spoken, for it is data."""
    with speaking(SOURCE):
        return {
            "name": wearer.name,
            "wearer": {
                name: {"value": round(m.value, 2), "source": m.source, "sd": round(m.sd, 2)}
                for name, m in wearer.measures.items()
            },
            "arms": {hand: round(cm, 2) for hand, cm in wearer.arms.items()},
            "questions": [
                {
                    "field": each.subject,
                    "kind": each.code,
                    "cause": words.why(each, wearer.unit),
                    "repair": words.mend(each, wearer.unit),
                }
                for each in questions
            ],
        }


def _open(garment: Garment) -> list[Finding]:
    return [each for each in garment.proof.findings if each.outcome != "sound"]


def _headline(garment: Garment) -> str:
    total, open_ = len(garment.proof.findings), _open(garment)
    failed = sum(1 for each in open_ if each.outcome == "will not work")
    verdict = "will not work" if failed else ("look again" if open_ else "sound")
    return _(
        "{garment} for {name}: {verdict} ({sound} of {total} checks sound, {seams} seams, {pieces} pieces)",
        garment=name_said(garment.title),
        name=garment.wearer.name,
        verdict=_(verdict),
        sound=total - len(open_),
        total=total,
        seams=len(garment.draft.seams),
        pieces=sum(piece.count for piece in garment.draft.pieces),
    )
