"""What the commands print: plain text tables."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from ellwand.depict import words
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.measurement import MEASUREMENTS
from ellwand.model.wearer import Measure, Wearer
from ellwand.units import format_length

ORDER = {"will not work": 0, "look again": 1, "sound": 2}


def findings(garment: Garment) -> str:
    """Every finding, the worst first, and how many were sound."""
    unit = garment.wearer.unit
    lines = [_headline(garment)]
    for each in sorted(garment.proof.findings, key=lambda f: ORDER[f.outcome]):
        lines.append(f"  {each.outcome:<13}  {words.why(each, unit)}")
        if each.outcome != "sound" and (mend := words.mend(each, unit)):
            lines.append(f"  {'':<13}  To mend: {mend}")
    return "\n".join(lines) + "\n"


def summary(garment: Garment) -> str:
    """A few lines: the verdict, what to buy, and the findings that need a look."""
    unit = garment.wearer.unit
    lines = [_headline(garment)]
    for lay in garment.lays:
        lines.append(
            f"  {format_length(lay.buy_length, unit)} of cloth {format_length(garment.cloths[0].width, unit)} wide"
            f" to buy; the lay is {format_length(lay.length, unit)} long, uses {lay.use:.0%} of it, and no lay can"
            f" be shorter than {format_length(lay.lower_bound, unit)} ({lay.bound})"
        )
    for each in sorted(_open(garment), key=lambda f: ORDER[f.outcome]):
        mend = words.mend(each, unit)
        lines.append(f"  {each.outcome}: {words.why(each, unit)}" + (f" To mend: {mend}" if mend else ""))
    return "\n".join(lines)


def lay_table(garment: Garment) -> str:
    """Where every piece lies: its lower left corner from the left selvedge and the cut end."""
    from ellwand.publish import chalk_csv

    return summary(garment) + "\n" + "".join(chalk_csv(garment, lay) for lay in garment.lays)


def say(text: str) -> None:
    """A line for the person, apart from the results."""
    print(text, file=sys.stderr)


def measurements(wearer: Wearer, questions: Sequence[Finding], *, named: bool) -> str:
    """Every measurement in the wearer's unit; estimates with their spread; then the questions."""
    unit = wearer.unit
    asked = {question.subject for question in questions}
    lines = [wearer.name] if named else []
    wide = max(len(each.label) for each in MEASUREMENTS.values())
    for name, about in MEASUREMENTS.items():
        m = wearer.measures[name]
        spread = f"± {format_length(m.sd, unit, mark=False)}" if m.source == "estimated" else ""
        said = f"{format_length(m.value, unit, mark=False):>8} {spread:<8}"
        lines.append(f"  {about.label:<{wide}} {said} {_remark(name, m, name in asked)}".rstrip())
    for hand, cm in wearer.arms.items():
        lines.append(f"  {f'{hand} arm':<{wide}} {format_length(cm, unit, mark=False):>8}")
    lines.append(f"  in {'inches' if unit == 'in' else 'cm'}; ± is one standard deviation of an estimate")
    for each in questions:
        lines.append(f"  ? {words.why(each, unit)}\n    {words.mend(each, unit)}")
    return "\n".join(lines) + "\n"


def _remark(name: str, m: Measure, asked: bool) -> str:
    if asked:
        return "? see below"
    if name == "head_girth" and m.source == "estimated":
        return "measure this one: it decides the neck, and nothing else tells it"
    return "estimated" if m.source == "estimated" else ""


def filled_in(wearer: Wearer, questions: Sequence[Finding]) -> dict[str, object]:
    """The same as plain values, in cm."""
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
    return (
        f"{garment.title} for {garment.wearer.name}: {verdict}"
        f" ({total - len(open_)} of {total} checks sound, {len(garment.draft.seams)} seams,"
        f" {sum(piece.count for piece in garment.draft.pieces)} pieces)"
    )
