"""Painting, printing and embroidery in words: how many, in which order, how much paint or thread, and what to mind."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from typing import Final

from ellwand.adorn.embroidery import OUTLINES, Embroidery, EmbroideryStitch, embroidery, filling_for, hoop, skeins
from ellwand.adorn.printing import LEAST_LINE, Block, PrintPlan, block, paint, print_plan
from ellwand.depict.stencil_view import TOO_SMALL, Tool, between, card_of, step_of, times, tools
from ellwand.depict.words.repeats import motif_named
from ellwand.language import N_, _, decimal_mark, plural
from ellwand.model.garment import Garment
from ellwand.model.repeat import Repeat
from ellwand.model.stencil import Stencil
from ellwand.units import CM_PER, Unit, decimal, format_length

SHOWS: Final = 0.15
"""Where bridges take more than this share of a motif it shows: our own figure."""

STITCHES: Final[dict[EmbroideryStitch, str]] = {
    "stem stitch": N_("stem stitch"),
    "split stitch": N_("split stitch"),
    "chain stitch": N_("chain stitch"),
    "satin stitch": N_("satin stitch"),
    "laid and couched work": N_("laid and couched work"),
}
HOW: Final = {
    "stencil": N_(
        "Stencil: lay the card on the chalked line and hold or tape it down. Dab with a nearly dry brush from the edges"
        " inward; two thin coats are better than one thick one. Lift it straight up and wipe its back."
    ),
    "block": N_(
        "Block: spread the cloth over a folded blanket. Dab or roll a thin even coat on the block, set it down"
        " straight, press all over, lift it straight up. Take fresh paint for every print."
    ),
}
SHEETS: Final = N_("All are drawn at full size in stencils.pdf.")
CUT_CARE: Final = N_(
    "Cut card on a mat with a sharp knife, the other hand behind the blade; push a gouge away from you, with the block"
    " against a stop. Knives and gouges are for grown-ups."
)
PAINT_CARE: Final = (
    N_(
        "Wash and dry the cloth first. Paint a test patch on a scrap of it and let it dry, wash it and rub it, before"
        " you touch the garment."
    ),
    N_(
        "Open a window while you paint, and while you iron paint. Wear gloves; with powdered dye or mordant (chrome,"
        " tin, copper) also a dust mask, and keep those pots and spoons out of the kitchen."
    ),
    N_(
        "Let the paint dry right through, 24 to 72 hours as its maker says. Then fix it with a dry iron, no steam, a"
        " thin cloth between, as hot and as long as the maker says."
    ),
    N_("Keep wet paint, and later the painted cloth, well away from open fire: paint can make cloth burn faster."),
)
NEEDLE_CARE: Final = N_(
    "Count your needles and pins before and after, and keep them and the scissors from small children. Cut threads on"
    " the back short, where small fingers and toes could catch."
)


def painting_rows(garment: Garment) -> tuple[tuple[str, str], ...]:
    """All that is painted, printed, embroidered and sewn on as motifs: (what it is, what to know); () for nothing.

    Where each motif sits is told with the repeats; here are the tools, by their numbers in stencils.pdf, the order of
    the prints, paint, thread and what to mind.
    """
    unit, repeats = garment.wearer.unit, garment.draft.adornment.repeats
    out = [tool_row(tool, [each for each in repeats if each.chosen.by == tool.by], unit) for tool in tools(repeats)]
    if out:
        out[0] = (out[0][0], f"{out[0][1]} {_(SHEETS)}")
    if printed := [repeat for repeat in repeats if repeat.chosen.by in ("stencil", "block")]:
        out += [(_("Paint"), paint_line(printed, unit)), (_("Painting"), " ".join(map(_, PAINT_CARE)))]
    if any(repeat.chosen.by in ("embroidery", "appliqué") for repeat in repeats):
        out.append((_("Needlework"), _(NEEDLE_CARE)))
    return tuple(out)


def sheet_notes(repeats: Iterable[Repeat]) -> tuple[str, ...]:
    """What stands on the sheets of stencils and blocks: how they are used, and what to mind in cutting them."""
    ways = {repeat.chosen.by for repeat in repeats}
    how = tuple(_(HOW[by]) for by in ("stencil", "block") if by in ways)
    return (*how, _(CUT_CARE)) if how else ()


def tool_row(tool: Tool, repeats: Iterable[Repeat], unit: Unit) -> tuple[str, str]:
    """One stencil, block, shape or transfer: how it is made, and the order of its prints along each row."""
    name, used = f"{tool.number}, {motif_named(tool.motif.name)}", times(tool.count)
    if tool.by == "embroidery":
        return _("Transfer {name}", name=name), embroidery_line(tool, unit)
    if tool.by == "appliqué":
        return _("Shape {name}", name=name), _("Cut it {times}.", times=used)
    if tool.by == "block":
        made = block(tool.motif)
        title, reach = _("Block {name}", name=name), made.size[0] / 2
        said = _("Printed {times}: {how}", times=used, how=block_line(made, unit))
    else:
        card = card_of(tool)
        if card is None:
            return _("Motif {name}", name=name), f"{_('Painted {times} by hand.', times=used)} {_(TOO_SMALL)}"
        title, reach = _("Stencil {name}", name=name), card.size[0] / 2
        said = _("Used {times}: {how}", times=used, how=card_line(card, unit))
    rows = [repeat for repeat in repeats if repeat.motif == tool.motif and step_of(repeat) == tool.step]
    return title, " ".join([said, *dict.fromkeys(order_line(print_plan(row, reach)) for row in rows)])


def order_line(plan: PrintPlan) -> str:
    """In which order, so that nothing is laid on wet paint."""
    if len(plan.rounds) == 1:
        return _("Each print keeps clear of its neighbours: work along the row.")
    first, *later = (_numbers(each) for each in plan.rounds)
    said = [_("So that nothing lies on wet paint, print {numbers} along the row first", numbers=first)]
    said += [_("let them dry; then {numbers}", numbers=each) for each in later]
    return f"{'; '.join(said)}."


def _numbers(numbers: Sequence[int]) -> str:
    """'1, 3, 5 … 23' where they are evenly spaced, else all of them."""
    steps = {b - a for a, b in itertools.pairwise(numbers)}
    if len(numbers) > 4 and len(steps) == 1:
        return f"{', '.join(map(str, numbers[:3]))} … {numbers[-1]}"
    return ", ".join(map(str, numbers))


def card_line(card: Stencil, unit: Unit) -> str:
    """How the stencil is cut, and where it is weak."""
    wide, high = (format_length(side, unit, mark=False) for side in card.size)
    out = plural(
        "a card of {size} with one window to cut out",
        "a card of {size} with {n} windows to cut out",
        len(card.windows),
        size=f"{wide} × {high} {unit}",
    )
    if crossing := [bridge.width for bridge in card.bridges if bridge.across]:
        out += plural(
            "; leave the bridge standing, {widths} wide",
            "; leave the {n} bridges standing, {widths} wide",
            len(crossing),
            widths=between(crossing, unit),
        )
    said = [f"{out}."]
    if card.taken > SHOWS * (card.area + card.taken):
        said.append(
            _(
                "Bridges take {share} % of the motif: a larger size shows it better, or touch it up with a brush.",
                share=round(100 * card.taken / (card.area + card.taken)),
            )
        )
    thin = {weak.what for weak in card.weak}
    if "card" in thin:
        said.append(_("The card is narrow in places: back it with tape, and dab, do not stroke."))
    if "window" in thin:
        said.append(_("Some windows are very narrow: cut them last, with a fresh blade."))
    return " ".join(said)


def block_line(made: Block, unit: Unit) -> str:
    """How the block is cut, and where it is too fine."""
    wide, high = (format_length(side, unit, mark=False) for side in made.size)
    out = _("{size}, cut mirrored as its sheet shows.", size=f"{wide} × {high} {unit}")
    if not made.weak:
        return out
    weak = _(
        "Some lines or gaps are narrower than {width}, which lino and wood hardly hold: make the motif larger, or open"
        " the gaps by hand.",
        width=_fine(LEAST_LINE, unit),
    )
    return f"{out} {weak}"


def paint_line(repeats: Iterable[Repeat], unit: Unit) -> str:
    """Paint for all prints, once over."""
    low, high = paint(math.fsum(repeat.painted for repeat in repeats))
    amount = f"{_('{low} to {high}', low=_rounded(low), high=_rounded(high))} ml"
    if unit == "in":
        ounces = _("{low} to {high}", low=decimal(low / 29.5735, 1), high=decimal(high / 29.5735, 1))
        amount += f" ({ounces} fl oz)"
    return _(
        "Paint for all prints once over: about {amount}, by what makers of craft acrylics claim; thirsty or dark cloth"
        " takes more, or a second coat.",
        amount=amount,
    )


def embroidery_line(tool: Tool, unit: Unit) -> str:
    """Thread and time for all motifs in each stitch that would do, and the hoop."""
    outlines = [embroidery(tool.motif, stitch) for stitch in OUTLINES]
    filled = embroidery(tool.motif, filling_for(tool.motif))
    thread = "; ".join(
        _("{stitch} {thread}", stitch=_(STITCHES[each.stitch]), thread=_thread(each, tool.count, unit))
        for each in outlines
    )
    said = [
        plural(
            "Its lines are {length} long. Thread through the needle and time for it: {outlines}; filled in {stitch}"
            " {filled}.",
            "Its lines are {length} long. Thread through the needle and time for all {n}: {outlines}; filled in"
            " {stitch} {filled}.",
            tool.count,
            length=format_length(outlines[0].length, unit),
            outlines=thread,
            stitch=_(STITCHES[filled.stitch]),
            filled=_thread(filled, tool.count, unit),
        )
    ]
    few, more = skeins((tool.count * outlines[0].thread_m[0], tool.count * outlines[0].thread_m[1]))
    said.append(_skeins(few, more))
    said.append(_("The hours are our own estimate, at 5 to 15 stitches a minute."))
    across = hoop(tool.motif)
    if across is None:
        said.append(_("It is larger than any hoop: move the hoop along, and take it off overnight, it marks."))
    else:
        size = f"{across:g} cm" if unit == "cm" else f"{round(across / CM_PER['in'])} in"
        said.append(_("A hoop of {size} holds one motif; take it off overnight, it marks.", size=size))
    return " ".join(said)


def _thread(each: Embroidery, count: int, unit: Unit) -> str:
    scale, name = (1.0, "m") if unit == "cm" else (100 / CM_PER["yd"], "yd")
    low, high = (math.ceil(count * end * scale) for end in each.thread_m)
    few, many = (_g(max(0.5, round(2 * count * end) / 2)) for end in each.hours)
    return f"{_('{low} to {high}', low=low, high=high)} {name}, {_('{low} to {high}', low=few, high=many)} h"


def _skeins(low: int, high: int) -> str:
    if high == 1:
        return _("Of stranded cotton, two or three strands at a time, one skein of 8 m is enough for stem stitch.")
    count = _("{low} to {high}", low=low, high=high) if low != high else str(high)
    return _(
        "Of stranded cotton, two or three strands at a time, {count} skeins of 8 m are enough for stem stitch.",
        count=count,
    )


def _rounded(value: float) -> str:
    """A rough figure as it is: two figures, no more."""
    if value < 10:
        return _g(round(value, 1)) if value >= 0.1 else decimal(0.1, 1)
    digits = len(str(int(value))) - 2
    return str(round(value / 10**digits) * 10**digits)


def _g(value: float) -> str:
    """A number without what needs not be said."""
    return f"{value:g}".replace(".", decimal_mark())


def _fine(cm: float, unit: Unit) -> str:
    return f"{_g(10 * cm)} mm" if unit == "cm" else f"{decimal(cm / CM_PER['in'], 2)} in"
