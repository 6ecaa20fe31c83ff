"""What the commands print: plain text tables."""

from __future__ import annotations

from collections.abc import Sequence

from ellwand.depict import words
from ellwand.measure import Doubt
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.wearer import FIELDS, Wearer
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


def measurements(wearer: Wearer, questions: Sequence[Doubt]) -> str:
    """Every measurement in the wearer's unit; estimates with their spread; then the questions."""
    unit = wearer.unit
    lines = []
    for name in FIELDS:
        m = wearer.measures[name]
        spread = f"± {format_length(m.sd, unit, mark=False)}  estimated" if m.source == "estimated" else "measured"
        lines.append(f"{name:<18} {format_length(m.value, unit):>12}  {spread}")
    lines += [f"? {each.field}: {each.cause}; {each.repair}" for each in questions]
    return "\n".join(lines) + "\n"


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
