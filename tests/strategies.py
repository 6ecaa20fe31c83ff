"""Legal sheets, drawn from the whole choice space that today's sheet knows."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from ellwand.choose.options.body import (
    CENTRE_SEAMS,
    CUTS,
    GORE_HEMS,
    GORE_PLACES,
    MAKES,
    PIECED,
    SHOULDERS,
    SIDE_PANELS,
)
from ellwand.choose.options.garment import LANDMARKS, LAYERS
from ellwand.choose.options.neck import NECKS, SLITS
from ellwand.choose.options.opening import OPENS_TO, SPLIT_PLACES
from ellwand.choose.options.sleeve import (
    GUSSET_SHAPES,
    HEADS,
    SLEEVE_LENGTHS,
    SLEEVE_PIECES,
    SLEEVE_SEAMS,
    SLEEVES,
)
from ellwand.choose.styles import STYLES
from ellwand.model.others import KINDS

gores = st.fixed_dictionaries(
    {
        "place": st.sampled_from(GORE_PLACES),
        "start": st.one_of(st.sampled_from(["hip", "waist"]), st.integers(15, 60)),
        "base": st.integers(4, 80),
        "make": st.sampled_from(MAKES),
    },
    optional={"top": st.sampled_from([0, 0, 3, 10]), "hem": st.sampled_from(GORE_HEMS)},
)
splits = st.fixed_dictionaries(
    {
        "place": st.sampled_from(SPLIT_PLACES),
        "height": st.one_of(st.sampled_from(["hip", "crotch", "knee"]), st.integers(5, 50)),
    }
)


def _some(table: dict[str, st.SearchStrategy[Any]]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries({}, optional=table)


garments = _some(
    {
        "style": st.sampled_from([style for style in STYLES if style not in KINDS]),
        "layer": st.sampled_from(LAYERS),
        "length": st.one_of(st.sampled_from(LANDMARKS), st.integers(60, 150)),
        "blouse": st.sampled_from([0, 0, 7]),
        "train": st.sampled_from([0, 0, 0, 30]),
        "body": _some(
            {
                "cut": st.sampled_from(CUTS),
                "shoulder": st.sampled_from(SHOULDERS),
                "centre_seam": st.sampled_from(CENTRE_SEAMS),
                "side_panel": st.sampled_from(SIDE_PANELS),
                "ease": st.integers(0, 60),
                "flare": st.integers(0, 60),
                "pieced": st.sampled_from(PIECED),
                "back_longer": st.sampled_from([0, 0, 4, 12, 45]),
                "shoulder_slope": st.sampled_from([0, 0, 0, 2.5, 8]),
            }
        ),
        "gores": st.lists(gores, max_size=4),
        "sleeve": _some(
            {
                "shape": st.sampled_from(SLEEVES),
                "length": st.one_of(st.sampled_from(SLEEVE_LENGTHS), st.integers(10, 70)),
                "cuff": st.one_of(st.sampled_from(["auto", "hand", "close"]), st.integers(14, 90)),
                "gusset": st.one_of(st.sampled_from(["auto", "none"]), st.integers(0, 20)),
                "gusset_shape": st.sampled_from(GUSSET_SHAPES),
                "pieces": st.sampled_from(SLEEVE_PIECES),
                "seam": st.sampled_from(SLEEVE_SEAMS),
                "head": st.sampled_from(HEADS),
                "head_ease": st.sampled_from([0, 0, 1.5]),
                "drop": st.sampled_from([0, 0, 0, 12]),
                "elbow_gore": st.sampled_from([0, 0, 8]),
            }
        ),
        "neck": _some(
            {
                "shape": st.sampled_from(NECKS),
                "slit": st.sampled_from(SLITS),
                "ease": st.integers(0, 40),
            }
        ),
        "splits": st.lists(splits, max_size=2),
        "closures": st.lists(
            st.one_of(
                st.fixed_dictionaries({"at": st.sampled_from(["neck slit", "cuffs", "side", "shoulder"])}),
                st.fixed_dictionaries(
                    {"at": st.sampled_from(["centre-front", "centre-back"])}, optional={"to": st.sampled_from(OPENS_TO)}
                ),
            ),
            max_size=2,
        ),
    }
)

others = st.one_of(
    st.builds(
        lambda table: {"style": "hood", "hood": table},
        _some(
            {
                "gores": st.sampled_from(["squares", "shoulder", "none"]),
                "cut": st.sampled_from(["folded", "halves"]),
                "cape": st.integers(3, 45),
                "gore": st.integers(4, 40),
                "ease": st.integers(0, 12),
                "liripipe": st.sampled_from([0, 0, 30, 90]),
                "liripipe_width": st.sampled_from([2, 4, 6.5]),
            }
        ),
    ),
    st.builds(
        lambda table: {"style": "cloak", "cloak": table},
        _some(
            {
                "shape": st.sampled_from(["rectangle", "semicircle", "three-quarter"]),
                "length": st.one_of(st.sampled_from(["hip", "knee", "floor"]), st.integers(40, 150)),
                "neck": st.sampled_from(["cut", "straight"]),
                "width": st.integers(100, 300),
                "strips": st.sampled_from(["auto", "auto", "never"]),
            }
        ),
    ),
    st.builds(
        lambda table: {"style": "coif", "coif": table},
        _some({"cut": st.sampled_from(["halves", "band"]), "ease": st.integers(0, 8)}),
    ),
    st.builds(
        lambda table: {"style": "apron", "apron": table},
        _some(
            {
                "top": st.sampled_from(["gathered", "plain"]),
                "length": st.one_of(st.sampled_from(["knee", "ankle"]), st.integers(30, 110)),
                "width": st.integers(30, 140),
            }
        ),
    ),
    st.builds(
        lambda table: {"style": "breeches", "breeches": table},
        _some(
            {
                "length": st.one_of(st.sampled_from(["knee", "mid-calf", "ankle"]), st.integers(50, 110)),
                "ease": st.integers(0, 40),
                "gusset": st.sampled_from([0, 8, 12, 18]),
                "hem": st.integers(24, 70),
                "waist": st.sampled_from(["casing", "band"]),
            }
        ),
    ),
)
"""Garments that are not cut as a tunic is."""
