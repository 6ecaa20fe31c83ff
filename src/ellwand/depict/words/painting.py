"""Painting, printing and embroidery in words: how many, in which order, how much paint or thread, and what to mind."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from typing import Final

from ellwand.adorn.embroidery import OUTLINES, Embroidery, embroidery, filling_for, hoop, skeins
from ellwand.adorn.printing import LEAST_LINE, Block, PrintPlan, block, paint, print_plan
from ellwand.depict.stencil_view import TOO_SMALL, Tool, between, card_of, counted, step_of, times, tools
from ellwand.model.garment import Garment
from ellwand.model.repeat import Repeat
from ellwand.model.stencil import Stencil
from ellwand.units import CM_PER, Unit, format_length

SHOWS: Final = 0.15
"""Where bridges take more than this share of a motif it shows: our own figure."""

HOW: Final = {
    "stencil": (
        "Stencil: lay the card on the chalked line and hold or tape it down. Dab with a nearly dry brush from the edges"
        " inward; two thin coats are better than one thick one. Lift it straight up and wipe its back."
    ),
    "block": (
        "Block: spread the cloth over a folded blanket. Dab or roll a thin even coat on the block, set it down"
        " straight, press all over, lift it straight up. Take fresh paint for every print."
    ),
}
SHEETS: Final = "All are drawn at full size in stencils.pdf."
CUT_CARE: Final = (
    "Cut card on a mat with a sharp knife, the other hand behind the blade; push a gouge away from you, with the block"
    " against a stop. Knives and gouges are for grown-ups."
)
PAINT_CARE: Final = (
    "Wash and dry the cloth first. Paint a test patch on a scrap of it and let it dry, wash it and rub it, before you"
    " touch the garment.",
    "Open a window while you paint, and while you iron paint. Wear gloves; with powdered dye or mordant (chrome, tin,"
    " copper) also a dust mask, and keep those pots and spoons out of the kitchen.",
    "Let the paint dry right through, 24 to 72 hours as its maker says. Then fix it with a dry iron, no steam, a thin"
    " cloth between, as hot and as long as the maker says.",
    "Keep wet paint, and later the painted cloth, well away from open fire: paint can make cloth burn faster.",
)
NEEDLE_CARE: Final = (
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
        out[0] = (out[0][0], f"{out[0][1]} {SHEETS}")
    if printed := [repeat for repeat in repeats if repeat.chosen.by in ("stencil", "block")]:
        out += [("Paint", paint_line(printed, unit)), ("Painting", " ".join(PAINT_CARE))]
    if any(repeat.chosen.by in ("embroidery", "appliqué") for repeat in repeats):
        out.append(("Needlework", NEEDLE_CARE))
    return tuple(out)


def sheet_notes(repeats: Iterable[Repeat]) -> tuple[str, ...]:
    """What stands on the sheets of stencils and blocks: how they are used, and what to mind in cutting them."""
    ways = {repeat.chosen.by for repeat in repeats}
    how = tuple(HOW[by] for by in ("stencil", "block") if by in ways)
    return (*how, CUT_CARE) if how else ()


def tool_row(tool: Tool, repeats: Iterable[Repeat], unit: Unit) -> tuple[str, str]:
    """One stencil, block, shape or transfer: how it is made, and the order of its prints along each row."""
    name, used = f"{tool.number}, {tool.motif.name}", times(tool.count)
    if tool.by == "embroidery":
        return f"Transfer {name}", embroidery_line(tool, unit)
    if tool.by == "appliqué":
        return f"Shape {name}", f"Cut it {used}."
    if tool.by == "block":
        made = block(tool.motif)
        title, reach, said = f"Block {name}", made.size[0] / 2, f"Printed {used}: {block_line(made, unit)}"
    else:
        card = card_of(tool)
        title = f"Stencil {name}"
        if card is None:
            return f"Motif {name}", f"Painted {used} by hand. {TOO_SMALL}"
        reach, said = card.size[0] / 2, f"Used {used}: {card_line(card, unit)}"
    rows = [repeat for repeat in repeats if repeat.motif == tool.motif and step_of(repeat) == tool.step]
    return title, " ".join([said, *dict.fromkeys(order_line(print_plan(row, reach)) for row in rows)])


def order_line(plan: PrintPlan) -> str:
    """In which order, so that nothing is laid on wet paint."""
    if len(plan.rounds) == 1:
        return "Each print keeps clear of its neighbours: work along the row."
    said = [_numbers(each) for each in plan.rounds]
    rest = "; let them dry; then ".join(said[1:])
    return f"So that nothing lies on wet paint, print {said[0]} along the row first; let them dry; then {rest}."


def _numbers(numbers: Sequence[int]) -> str:
    """'1, 3, 5 … 23' where they are evenly spaced, else all of them."""
    steps = {b - a for a, b in itertools.pairwise(numbers)}
    if len(numbers) > 4 and len(steps) == 1:
        return f"{', '.join(map(str, numbers[:3]))} … {numbers[-1]}"
    return ", ".join(map(str, numbers))


def card_line(card: Stencil, unit: Unit) -> str:
    """How the stencil is cut, and where it is weak."""
    wide, high = (format_length(side, unit, mark=False) for side in card.size)
    windows = "one window" if len(card.windows) == 1 else f"{len(card.windows)} windows"
    out = f"a card of {wide} × {high} {unit} with {windows} to cut out"
    if crossing := [bridge.width for bridge in card.bridges if bridge.across]:
        out += f"; leave the {counted(len(crossing), 'bridge')} standing, {between(crossing, unit)} wide"
    out += "."
    if card.taken > SHOWS * (card.area + card.taken):
        share = round(100 * card.taken / (card.area + card.taken))
        out += f" Bridges take {share} % of the motif: a larger size shows it better, or touch it up with a brush."
    thin = {weak.what for weak in card.weak}
    if "card" in thin:
        out += " The card is narrow in places: back it with tape, and dab, do not stroke."
    if "window" in thin:
        out += " Some windows are very narrow: cut them last, with a fresh blade."
    return out


def block_line(made: Block, unit: Unit) -> str:
    """How the block is cut, and where it is too fine."""
    wide, high = (format_length(side, unit, mark=False) for side in made.size)
    out = f"{wide} × {high} {unit}, cut mirrored as its sheet shows."
    if made.weak:
        out += (
            f" Some lines or gaps are narrower than {_fine(LEAST_LINE, unit)}, which lino and wood hardly hold:"
            " make the motif larger, or open the gaps by hand."
        )
    return out


def paint_line(repeats: Iterable[Repeat], unit: Unit) -> str:
    """Paint for all prints, once over."""
    low, high = paint(math.fsum(repeat.painted for repeat in repeats))
    amount = f"{_rounded(low)} to {_rounded(high)} ml"
    if unit == "in":
        amount += f" ({low / 29.5735:.1f} to {high / 29.5735:.1f} fl oz)"
    return (
        f"Paint for all prints once over: about {amount}, by what makers of craft acrylics claim; thirsty or dark"
        " cloth takes more, or a second coat."
    )


def embroidery_line(tool: Tool, unit: Unit) -> str:
    """Thread and time for all motifs in each stitch that would do, and the hoop."""
    outlines = [embroidery(tool.motif, stitch) for stitch in OUTLINES]
    filled = embroidery(tool.motif, filling_for(tool.motif))
    many = f"for all {tool.count}" if tool.count > 1 else "for it"
    said = [f"Its lines are {format_length(outlines[0].length, unit)} long. Thread through the needle and time {many}:"]
    said.append("; ".join(f"{each.stitch} {_thread(each, tool.count, unit)}" for each in outlines) + ";")
    said.append(f"filled in {filled.stitch} {_thread(filled, tool.count, unit)}.")
    few, more = skeins((tool.count * outlines[0].thread_m[0], tool.count * outlines[0].thread_m[1]))
    said.append(
        f"Of stranded cotton, two or three strands at a time, {_skeins(few, more)} enough for stem stitch."
        " The hours are our own estimate, at 5 to 15 stitches a minute."
    )
    across = hoop(tool.motif)
    if across is None:
        said.append("It is larger than any hoop: move the hoop along, and take it off overnight, it marks.")
    else:
        size = f"{across:g} cm" if unit == "cm" else f"{round(across / CM_PER['in'])} in"
        said.append(f"A hoop of {size} holds one motif; take it off overnight, it marks.")
    return " ".join(said)


def _thread(each: Embroidery, count: int, unit: Unit) -> str:
    scale, name = (1.0, "m") if unit == "cm" else (100 / CM_PER["yd"], "yd")
    low, high = (math.ceil(count * end * scale) for end in each.thread_m)
    few, many = (max(0.5, round(2 * count * end) / 2) for end in each.hours)
    return f"{low} to {high} {name}, {few:g} to {many:g} h"


def _skeins(low: int, high: int) -> str:
    if high == 1:
        return "one skein of 8 m is"
    return f"{low} to {high} skeins of 8 m are" if low != high else f"{high} skeins of 8 m are"


def _rounded(value: float) -> str:
    """A rough figure as it is: two figures, no more."""
    if value < 10:
        return f"{value:.1f}".removesuffix(".0") if value >= 0.1 else "0.1"
    digits = len(str(int(value))) - 2
    return str(round(value / 10**digits) * 10**digits)


def _fine(cm: float, unit: Unit) -> str:
    return f"{10 * cm:g} mm" if unit == "cm" else f"{cm / CM_PER['in']:.2f} in"
