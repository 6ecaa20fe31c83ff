"""What garments, pieces, their edges and places are called: English inside, in the language spoken when shown."""

from __future__ import annotations

import re
from typing import Final

from ellwand.language import N_, SOURCE, _, language

NAMES: Final = frozenset(
    {
        N_("apron"),
        N_("back"),
        N_("back half"),
        N_("back neck facing"),
        N_("band"),
        N_("body"),
        N_("body half"),
        N_("body half with the slit"),
        N_("centre back"),
        N_("centre back split facing"),
        N_("centre back split strip"),
        N_("centre back underlap"),
        N_("centre front"),
        N_("centre front split facing"),
        N_("centre front split strip"),
        N_("centre front underlap"),
        N_("centre-back gore"),
        N_("centre-back half gore"),
        N_("centre-back pieced gore"),
        N_("centre-front gore"),
        N_("centre-front half gore"),
        N_("centre-front pieced gore"),
        N_("cloak"),
        N_("coif half"),
        N_("coif side"),
        N_("collar"),
        N_("elbow gore"),
        N_("front"),
        N_("front gore"),
        N_("front half"),
        N_("front half with the slit"),
        N_("front neck facing"),
        N_("gore"),
        N_("gusset"),
        N_("half circle"),
        N_("half gore"),
        N_("half gusset"),
        N_("half side panel"),
        N_("half sleeve"),
        N_("hem strip"),
        N_("hood"),
        N_("hood side"),
        N_("left sleeve"),
        N_("leg"),
        N_("liripipe"),
        N_("middle strip"),
        N_("neck facing"),
        N_("neck slit underlap"),
        N_("neck strip"),
        N_("neck strip on the bias"),
        N_("panel back"),
        N_("panel front"),
        N_("panel-back gore"),
        N_("panel-back half gore"),
        N_("panel-back pieced gore"),
        N_("panel-front gore"),
        N_("panel-front half gore"),
        N_("panel-front pieced gore"),
        N_("pieced gore"),
        N_("right sleeve"),
        N_("shoulder gore"),
        N_("shoulder strip"),
        N_("shoulder underlap"),
        N_("side"),
        N_("side back"),
        N_("side front"),
        N_("side gore"),
        N_("side half gore"),
        N_("side panel"),
        N_("side pieced gore"),
        N_("side split facing"),
        N_("side split strip"),
        N_("side underlap"),
        N_("side-back gore"),
        N_("side-back half gore"),
        N_("side-back pieced gore"),
        N_("side-front gore"),
        N_("side-front half gore"),
        N_("side-front pieced gore"),
        N_("sleeve"),
        N_("slit facing"),
        N_("square gore"),
        # garments
        N_("breeches"),
        N_("coif"),
        N_("gored gown"),
        N_("riding surcote"),
        N_("shift"),
        N_("tunic"),
        N_("wide-sleeved gown"),
        # edges
        N_("armhole"),
        N_("armholes"),
        N_("band seam"),
        N_("centre seam"),
        N_("crown seam"),
        N_("cuff"),
        N_("cuffs"),
        N_("division seam"),
        N_("edge"),
        N_("face"),
        N_("facing"),
        N_("gore seam"),
        N_("gusset seam"),
        N_("hem"),
        N_("inside leg seam"),
        N_("neck"),
        N_("neck seam"),
        N_("neck slit"),
        N_("opening"),
        N_("panel seam"),
        N_("piecing seam"),
        N_("shoulder"),
        N_("shoulder opening"),
        N_("side seam"),
        N_("sleeve seam"),
        N_("split"),
        N_("strip seam"),
        N_("tail seam"),
        N_("underarm seam"),
        N_("waist"),
        # rings and places of several
        N_("arm ring"),
        N_("edges"),
        N_("gore seams"),
        N_("shoulder seam"),
        N_("shoulder seams"),
        N_("side seams"),
        N_("skirt ring"),
        N_("splits"),
        N_("upper arm ring"),
        # tinctures
        N_("or"),
        N_("argent"),
        N_("gules"),
        N_("azure"),
        N_("sable"),
        N_("vert"),
        N_("purpure"),
        N_("tenné"),
        N_("sanguine"),
        # charges and motifs
        N_("annulet"),
        N_("bend"),
        N_("bend sinister"),
        N_("billet"),
        N_("bordure"),
        N_("chevron"),
        N_("chief"),
        N_("crescent"),
        N_("cross"),
        N_("cross couped"),
        N_("escutcheon"),
        N_("fess"),
        N_("fleuron"),
        N_("heart"),
        N_("key"),
        N_("key corner"),
        N_("knot"),
        N_("leaf corner"),
        N_("lozenge"),
        N_("mullet"),
        N_("pale"),
        N_("pellet"),
        N_("pellets"),
        N_("pile"),
        N_("roundel"),
        N_("saltire"),
        N_("vine-scroll"),
        N_("centre-back"),
        N_("centre-front"),
        # what is added to a name
        N_("corner"),
        N_("end"),
        N_("half"),
        N_("left"),
        N_("lower"),
        N_("middle"),
        N_("of the back"),
        N_("of the front"),
        N_("right"),
        N_("strip"),
        N_("tip"),
        N_("upper"),
    }
)
"""Names of pieces and of where they go, of garments and edges, and what is added to a name; numbers stand as they
are."""


def named(text: str) -> str:
    """Names, parted by commas, in the language spoken; a name that is not known stays as it is."""
    if language() == SOURCE:
        return text
    first, *others = text.split(", ")
    return ", ".join([_one(first), *(_one(FACE.sub(r"of the \1", name)) for name in others)])


FACE: Final = re.compile(r"(?<!of the )\b(front|back)$")
"""After a piece's name it says where it lies, not what it is."""


def _one(name: str) -> str:
    """The longest names that are known, one after the other."""
    words, out = name.split(" "), []
    while words:
        count = next((n for n in range(len(words), 0, -1) if " ".join(words[:n]) in NAMES), 0)
        known = " ".join(words[:count])
        out.append(_(known) if count else words[0])
        words = words[max(count, 1) :]
    return " ".join(out)
