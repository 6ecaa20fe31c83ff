"""What the words of a sewing step ask about it: its seams and their lengths, and where allowances go.

Which way they go is told by the step.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Final

from ellwand.geometry.lines import length
from ellwand.language import N_, _
from ellwand.model.choices import Finish
from ellwand.model.draft import Draft, EdgeRef, Seam, edge_at, piece_of, whole_part
from ellwand.model.names import named
from ellwand.model.piece import Edge
from ellwand.model.step import Step
from ellwand.units import Unit, format_length

Say = Callable[[Step, Draft, Unit], str]

FINISH: Final[Mapping[Finish, str]] = {
    "plain": N_("Press every seam open."),
    "run and fell": N_(
        "Press every seam to the side named, trim the under allowance by half, fold the other over it and fell."
    ),
    "flat-felled": N_(
        "Press every seam to the side named, trim the under allowance by half, wrap the other round it, lay both flat"
        " and sew a second row through all."
    ),
    "french": N_(
        "Sew every seam first wrong sides together, close to the edges; trim, turn right sides together and sew again"
        " on the line, so that the raw edges lie within; press it to the side named."
    ),
    "overcast": N_("Press every seam open and overcast each edge."),
    "open and stitched down": N_(
        "Press every seam open and sew each allowance down to the cloth beneath it, 2 to 3 mm from the seam."
    ),
}
"""What is done to every seam; the rows of an opened seam lie so in finds from London (Crowfoot, Pritchard and
Staniland)."""
FINISH_NAMES: Final[Mapping[Finish, str]] = {
    "plain": N_("plain"),
    "run and fell": N_("run and fell"),
    "flat-felled": N_("flat-felled"),
    "french": N_("french"),
    "overcast": N_("overcast"),
    "open and stitched down": N_("open and stitched down"),
}
"""What each is called."""
TOWARD: Final[Mapping[str, str]] = {
    "the back": N_("toward the back"),
    "the band": N_("toward the band"),
    "the body": N_("toward the body"),
    "the gusset": N_("toward the gusset"),
    "the hood": N_("toward the hood"),
    "the panel": N_("toward the panel"),
    "the side panel": N_("toward the side panel"),
    "the sleeve": N_("toward the sleeve"),
    "the square": N_("toward the square"),
    "the inside": N_("toward the inside"),
    "one side": N_("toward one side"),
}
"""Where allowances go that are not opened."""


def joined(*sentences: str) -> str:
    """Sentences after one another; those that are empty are left out."""
    return " ".join(said.strip() for said in sentences if said)


def listed(words: Sequence[str]) -> str:
    """'a, b and c'."""
    if len(words) < 2:
        return "".join(words)
    return _("{most} and {last}", most=", ".join(words[:-1]), last=words[-1])


def finishing(finish: Finish) -> str:
    """What is done to every seam."""
    return _(FINISH[finish])


def seams_of(step: Step, draft: Draft) -> list[Seam]:
    """The seams sewn in this step."""
    ids = set(step.seams)
    return [seam for seam in draft.seams if seam.id in ids]


def cm_of(seam: Seam, draft: Draft) -> float:
    """How long a seam is (cm)."""
    return length(edge_at(draft, seam.a).points)


def said(each: Iterable[float], unit: Unit) -> str:
    """Lengths, each once, as in ' (46 cm each)' or ' (57 cm and 80 cm)'; nothing when there are many."""
    cms = sorted(each)
    words = list(dict.fromkeys(format_length(cm, unit) for cm in cms))
    if not words or len(words) > 3:
        return ""
    if len(words) == 1 and len(cms) > 1:
        return f" ({_('{length} each', length=words[0])})"
    return f" ({paired(words)})"


def paired(words: Sequence[str]) -> str:
    """'a and b and c'."""
    out = words[0]
    for other in words[1:]:
        out = _("{one} and {other}", one=out, other=other)
    return out


def lengths(step: Step, draft: Draft, unit: Unit) -> str:
    """Each seam's length; where a piecing seam or a point meets it on the way, it is still one."""
    whole: dict[tuple[str, ...], float] = defaultdict(float)
    for seam in seams_of(step, draft):
        whole[tuple(name for ref in (seam.a, seam.b) for name in _plainly(ref))] += cm_of(seam, draft)
    return said(whole.values(), unit)


def _plainly(ref: EdgeRef) -> tuple[str, str]:
    return whole_part(ref.part), re.sub(r"(-\d+)+$", "", ref.edge)


def per_sleeve(step: Step, draft: Draft, unit: Unit) -> str:
    """How far each sleeve is sewn here, all its seams together."""
    sums: dict[str, float] = defaultdict(float)
    for seam in seams_of(step, draft):
        names = f"{seam.a.part}-{seam.b.part}".split("-")
        sums["left" if "left" in names else "right"] += cm_of(seam, draft)
    return said(sums.values(), unit)


def edges_of(draft: Draft, kind: str) -> list[tuple[EdgeRef, Edge]]:
    """Every edge of this kind in the whole garment."""
    return [
        (EdgeRef(part.id, edge.id), edge)
        for part in draft.parts
        for edge in piece_of(draft, part.id).edges
        if edge.kind == kind
    ]


def opening_at(draft: Draft, place: str) -> list[Edge]:
    """Both edges of an opening in a seam of the body."""
    return [edge for _, edge in edges_of(draft, "opening") if f"{place}-opening" in edge.id]


def faces(draft: Draft) -> str:
    """How two edges are laid on each other, where a sentence begins."""
    return _("Wrong sides together") if draft.choices.sewing.finish == "french" else _("Right sides together")


def facing(draft: Draft) -> str:
    """How two edges are laid on each other, within a sentence."""
    return _("wrong sides together") if draft.choices.sewing.finish == "french" else _("right sides together")


def folds(step: Step, draft: Draft) -> str:
    """Where this step's allowances go."""
    finish = draft.choices.sewing.finish
    if step.folds == "open":
        if finish == "open and stitched down":
            return _("Press open and sew both sides down.")
        return _("Press open.")
    return _(_FOLD[finish], toward=_(TOWARD[step.folds]))


_FOLD: Final[Mapping[Finish, str]] = {
    "plain": N_("Press {toward}."),
    "overcast": N_("Press {toward}."),
    "open and stitched down": N_("Press {toward}."),
    "french": N_("Press {toward}."),
    "run and fell": N_("Fell {toward}."),
    "flat-felled": N_("Fell flat {toward}."),
}


def gore_bars(step: Step) -> bool:
    """Whether bars are worked in this step over points of gores."""
    return any(each.by == "bar" and "gore" in each.part.split("-") for each in step.reinforce)


def bars(step: Step, words: str) -> str:
    """What is said of the bars that are worked in this step over points of gores; '' without any."""
    return words if gore_bars(step) else ""


def taken_in(step: Step, draft: Draft) -> str:
    """Gores whose second edge is sewn in a seam on the way; '' without any."""
    gores = any(seam.kind == "gore to panel" for seam in seams_of(step, draft))
    return _("Take in the free edge of each gore on the way.") if gores else ""


def gusset_corners(step: Step) -> str:
    """What is done at the corners of gussets in this step; '' without any."""
    met = any(each.part.startswith("gusset") for each in step.reinforce)
    return _("At each corner of the gusset stop one allowance short and work a bar.") if met else ""


def armpits(step: Step) -> str:
    """What holds an armpit without a gusset; '' where none is closed in this step."""
    held = any(each.by == "back stitches" for each in step.reinforce)
    return _("At each armpit sew a few back stitches on the spot.") if held else ""


def selvedges(step: Step) -> str:
    """What is left as it is, told once; '' where no edge can be a selvedge."""
    return _("Where both edges of a seam are selvedges leave them as they are.") if step.selvedges else ""


def always(words: str) -> Say:
    """The same words, looked up in the language spoken, for every garment."""
    return lambda step, draft, unit: _(words)


def back_stitch(draft: Draft) -> str:
    """For seams that take the strain: ' in back stitch', or nothing."""
    return _(" in back stitch") if draft.choices.sewing.by == "hand" else ""


def piecing(step: Step, draft: Draft, unit: Unit) -> str:
    """What was pieced is sewn together first."""
    names = dict.fromkeys(named(piece_of(draft, seam.b.part).name) for seam in seams_of(step, draft))
    return joined(
        _(
            "{faces}, sew what was pieced to its own piece{lengths}: {names}. From here on each is handled as one.",
            faces=faces(draft),
            lengths=lengths(step, draft, unit),
            names="; ".join(names),
        ),
        folds(step, draft),
    )
