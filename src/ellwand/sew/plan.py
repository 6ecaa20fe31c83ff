"""The plan of work: which step needs which, and in what order they come.

What must lie flat goes first (what was pieced, colours, slits and facings, gores, centre seams, shoulders, sleeves on
to the flat body), then what closes the garment, then its edges.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from graphlib import TopologicalSorter
from typing import Final

from ellwand.sew.bench import Bench
from ellwand.sew.others import OTHER_NEEDS

Needs = Mapping[str, tuple[str, ...]]

NEEDS: Final[Needs] = {
    "mark": (),
    "piecing": ("mark",),
    "divisions": ("piecing",),
    "split slits": ("divisions",),
    "neck slit": ("divisions",),
    "halves": ("divisions",),
    "gores in slits": ("halves",),
    "gores": ("halves",),
    "centre seams": ("gores", "gores in slits"),
    "side panels": ("gores", "gores in slits"),
    "charges": ("centre seams", "side panels", "split slits"),
    "shoulders": ("centre seams", "side panels", "neck slit"),
    "neck": ("shoulders", "centre seams", "neck slit"),
    "collar": ("neck", "shoulders", "centre seams", "neck slit"),
    "sleeve halves": ("divisions",),
    "elbow gores": ("sleeve halves",),
    "sleeves": ("shoulders", "side panels", "elbow gores"),
    "motifs": (),
    "bands flat": (),
    "gussets": ("sleeves",),
    "side panels to back": ("sleeves", "gores", "gores in slits"),
    "sleeves to side panels": ("side panels to back",),
    "underarm and sides": (
        *("gussets", "sleeves to side panels", "side panels to back", "gores", "gores in slits"),
        "split slits",
    ),
    "sleeves behind": ("underarm and sides",),
    "sleeve seams": ("sleeves behind",),
    "armhole edges": ("underarm and sides",),
    "cuffs": ("underarm and sides", "sleeve seams"),
    "openings": ("underarm and sides", "sleeves", "gussets", "sleeves behind", "sleeve seams"),
    "splits": ("underarm and sides", "centre seams"),
    "hang": ("underarm and sides", "sleeves", "gussets"),
    "hem": ("underarm and sides", "sleeve seams", "sleeves", "gussets", "hang", "splits"),
    "bands round": (),
    "motifs round": (),
    "take up": ("hem", "cuffs", "bands round", "motifs round"),
    "underlaps": ("neck", "collar", "cuffs", "openings", "splits", "hem"),
    "closures": ("neck", "collar", "cuffs", "openings", "hem", "underlaps", "bands round"),
}
"""Each step and the steps it cannot do without; listed in the order a maker would choose where several could go."""

_IN_THE_ROUND: Final[Needs] = {
    "side panels to back": ("shoulders", "gores", "gores in slits"),
    "underarm and sides": ("shoulders", "side panels", "side panels to back", "gores", "gores in slits", "split slits"),
    "sleeve seams": ("elbow gores",),
    "sleeves": ("underarm and sides", "side panels to back", "sleeve seams"),
    "cuffs": ("sleeve seams",),
}
"""What is needed otherwise where sleeves are closed before they are set in."""

_CLOSING: Final = ("side panels to back", "underarm and sides", "sleeve seams")
"""The first of these ends flat work, and gussets set into their corners with them."""
_CLOSING_OTHERS: Final = ("crown", "front and back", "tail", "inside legs", "rise")
_FLAT_TRIMS: Final = ("charges", "motifs", "bands flat")
"""What is put on while all lies flat, and so before what closes the garment."""


def needs_of(bench: Bench, trims: Needs, put_on: Collection[str] = ()) -> dict[str, tuple[str, ...]]:
    """Every step's needs, for the maker's way; ``trims``: those of bands and motifs as they lie on this garment.

    ``put_on``: the steps in which something is put on.
    """
    out = {**NEEDS, **OTHER_NEEDS}
    if bench.in_the_round:
        out |= _IN_THE_ROUND
    way = bench.draft.choices.sewing.gussets
    if way != "in the corner":
        out["gussets"] = ("elbow gores",) if way == "on the sleeve" else ("side panels", "centre seams")
        closes = "sleeve seams" if bench.in_the_round and way == "on the sleeve" else "underarm and sides"
        out["sleeves"] = (*out["sleeves"], "gussets")
        out[closes] = (*out[closes], "gussets", *(() if bench.in_the_round else ("sleeves",)))
    for code, needs in trims.items():
        out[code] = (*out[code], *needs)
    if not bench.is_tunic:
        out |= {code: (*out[code], "strips", "shoulder gores") for code in _FLAT_TRIMS}
    flat = tuple(code for code in _FLAT_TRIMS if code in put_on)
    for code in _closing(bench):
        out[code] = (*out[code], *flat)
    return out


def _closing(bench: Bench) -> tuple[str, ...]:
    if not bench.is_tunic:
        return _CLOSING_OTHERS
    corner = bench.draft.choices.sewing.gussets == "in the corner" and not bench.in_the_round
    return (*_CLOSING, "gussets") if corner else _CLOSING


def late_steps(bench: Bench) -> set[str]:
    """What closes the garment, and all that waits for it."""
    needs = needs_of(bench, {})
    late = set(_closing(bench))
    while more := {code for code, wants in needs.items() if code not in late and late & set(wants)}:
        late |= more
    return late


def needed(code: str, present: Collection[str], needs: Needs) -> list[str]:
    """The steps of this garment that must come before; a step it does not have hands on its own needs."""
    out: dict[str, None] = {}
    for need in needs[code]:
        out |= dict.fromkeys([need] if need in present else needed(need, present, needs))
    return list(out)


def direct(waits: Mapping[str, list[str]]) -> dict[str, list[str]]:
    """Each step's needs without those that another of them needs already."""
    behind: dict[str, set[str]] = {}

    def before(code: str) -> set[str]:
        if code not in behind:
            behind[code] = set(waits[code]).union(*(before(need) for need in waits[code]))
        return behind[code]

    return {
        code: [need for need in needs if not any(need in before(other) for other in needs if other != need)]
        for code, needs in waits.items()
    }


def ordered(waits: Mapping[str, list[str]], needs: Needs) -> list[str]:
    """Topological order; among steps that could go next, the one listed first in the plan."""
    place = {code: i for i, code in enumerate(needs)}
    sorter = TopologicalSorter(waits)
    sorter.prepare()
    ready: list[str] = []
    out: list[str] = []
    while sorter.is_active():
        ready = sorted([*ready, *sorter.get_ready()], key=place.__getitem__)
        code = ready.pop(0)
        out.append(code)
        sorter.done(code)
    return out
