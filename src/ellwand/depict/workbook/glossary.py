"""The words of the trade that a workbook uses, each explained in a sentence."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from ellwand.language import N_, SOURCE, _, language

TERMS: Final[Mapping[str, str]] = {
    N_("allowance"): N_("The strip between the line that is cut and the line that is sewn."),
    N_("appliqué"): N_("A shape cut from one cloth and sewn on to another."),
    N_("armhole"): N_("The edge of the body that the sleeve is sewn to."),
    N_("back stitch"): N_("A strong hand stitch: each goes back to where the one before it ended."),
    N_("band"): N_("A narrow strip, woven, braided or cut, that is sewn on for strength or for show."),
    N_("bar"): N_("A few threads across a point of strain, sewn over closely so that nothing tears further."),
    N_("bias"): N_("The slanting direction of a cloth, between its threads: there it stretches."),
    N_("blazon"): N_("The words that tell a coat of arms so that anyone can draw it."),
    N_("bridge"): N_("A strip left in a stencil's card that holds an inner part of it."),
    N_("casing"): N_("A tunnel along an edge, for a cord."),
    N_("chalk"): N_("To draw lines on the cloth before it is cut, with chalk or anything that can be washed out."),
    N_("closure"): N_("What closes an opening: ties, lacing, buttons, loops, hooks or pins."),
    N_("coif"): N_("A close cap of linen that is tied under the chin."),
    N_("cuff"): N_("The end of the sleeve at the hand."),
    N_("cut end"): N_("The edge of a cloth that was cut in the shop, across the threads of the length."),
    N_("ease"): N_("How much wider a garment is than the body in it."),
    N_("ease in"): N_("To sew a longer edge to a shorter one so evenly that no fold is seen."),
    N_("eyelet"): N_("A small round hole, sewn over all round, for a lace."),
    N_("facing"): N_("A piece sewn along an edge and turned to the inside, instead of a hem."),
    N_("fell"): N_("To fold one allowance over the other and sew it down, so that no raw edge is left."),
    N_("gather"): N_("To draw an edge up on a thread until it is as short as what it is sewn to."),
    N_("girth"): N_("The measure all round a body or a garment."),
    N_("gore"): N_("A wedge of cloth set in to widen a garment, mostly at the hem."),
    N_("grain"): N_("The direction of the threads in a cloth."),
    N_("gusset"): N_(
        "A small piece, mostly a square, set in where cloth must give: under the arm or between the legs."
    ),
    N_("hem"): N_("The lower edge of a garment, turned and sewn down."),
    N_("lacing"): N_("A cord drawn through eyelets to close an opening."),
    N_("lay"): N_("The plan of how all pieces lie on the cloth before they are cut."),
    N_("motif"): N_("One drawing that is set on the cloth once or again and again."),
    N_("nap"): N_("The way the hairs of a cloth lie; all pieces then lie the same way up."),
    N_("nape"): N_("The back of the neck, at the bone that stands out when the head is bent."),
    N_("notch"): N_("A short mark across an allowance that must meet another."),
    N_("overcast"): N_("To sew over an edge with slanting stitches, so that it does not fray."),
    N_("panel"): N_("A large piece of the body, mostly a rectangle."),
    N_("repeat"): N_("How far it is from one motif, stripe or check to the next."),
    N_("running stitch"): N_("The plainest hand stitch: the needle goes in and out along the line."),
    N_("seam"): N_("The line where two pieces are sewn together."),
    N_("selvedge"): N_("The firm woven edge at either side of a cloth; it does not fray."),
    N_("slit"): N_("A cut into a piece, as below the neck."),
    N_("split"): N_("A seam or panel left open from the hem up."),
    N_("stencil"): N_("A card with windows, through which paint is dabbed."),
    N_("tincture"): N_("A colour or metal of heraldry."),
    N_("underlap"): N_("A strip beneath an opening, so that it does not gape."),
    N_("warp"): N_("The threads along the length of a cloth."),
    N_("weft"): N_("The threads across a cloth, from selvedge to selvedge."),
}


def glossary(text: str) -> tuple[tuple[str, str], ...]:
    """The terms that occur in the text, with their meaning, in the order of the alphabet."""
    low = text.casefold()
    ending = r"(?:s|es)?" if language() == SOURCE else r"\w{0,2}"
    told = [(_(term), _(meaning)) for term, meaning in TERMS.items()]
    found = [(term, what) for term, what in told if re.search(rf"\b{re.escape(term.casefold())}{ending}\b", low)]
    return tuple(sorted(found, key=lambda each: each[0].casefold()))
