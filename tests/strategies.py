"""Legal sheets, drawn from the whole choice space that today's sheet knows."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from ellwand.choose.options.body import CENTRE_SEAMS, CUTS, GORE_PLACES, MAKES, SHOULDERS, SIDE_PANELS
from ellwand.choose.options.garment import LANDMARKS, LAYERS
from ellwand.choose.options.neck import NECKS, SLITS
from ellwand.choose.options.opening import SPLIT_PLACES
from ellwand.choose.options.sleeve import SLEEVE_LENGTHS, SLEEVES
from ellwand.choose.styles import STYLES

gores = st.fixed_dictionaries(
    {
        "place": st.sampled_from(GORE_PLACES),
        "start": st.one_of(st.sampled_from(["hip", "waist"]), st.integers(15, 60)),
        "base": st.integers(4, 80),
        "make": st.sampled_from(MAKES),
    }
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
        "style": st.sampled_from(list(STYLES)),
        "layer": st.sampled_from(LAYERS),
        "length": st.one_of(st.sampled_from(LANDMARKS), st.integers(60, 150)),
        "body": _some(
            {
                "cut": st.sampled_from(CUTS),
                "shoulder": st.sampled_from(SHOULDERS),
                "centre_seam": st.sampled_from(CENTRE_SEAMS),
                "side_panel": st.sampled_from(SIDE_PANELS),
                "ease": st.integers(0, 60),
                "flare": st.integers(0, 60),
            }
        ),
        "gores": st.lists(gores, max_size=4),
        "sleeve": _some(
            {
                "shape": st.sampled_from(SLEEVES),
                "length": st.one_of(st.sampled_from(SLEEVE_LENGTHS), st.integers(10, 70)),
                "cuff": st.one_of(st.sampled_from(["auto", "hand", "close"]), st.integers(14, 90)),
                "gusset": st.one_of(st.sampled_from(["auto", "none"]), st.integers(0, 20)),
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
            st.fixed_dictionaries({"at": st.sampled_from(["neck slit", "cuffs", "centre-front", "side"])}), max_size=2
        ),
    }
)
