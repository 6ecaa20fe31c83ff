"""Does it assemble: findings of seams, outlines and the shell in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say, part
from ellwand.language import _
from ellwand.model.finding import Finding
from ellwand.model.names import named
from ellwand.units import decimal


def _seam_kind(f: Finding, n: Numbers) -> str:
    return _(
        "Seam {a} to {b} joins edges that do not belong together: {one} and {other}.",
        a=n.text("a"),
        b=n.text("b"),
        one=_edge(n.text("one")),
        other=_edge(n.text("other")),
    )


def _edge(text: str) -> str:
    """'armhole of the body': what an edge is, and of what."""
    kind, _of, place = text.partition(" of the ")
    return _("{kind} of the {place}", kind=named(kind), place=named(place))


def _outline_crosses(f: Finding, n: Numbers) -> str:
    if n.text("which") == "sewn":
        return _("The sewn outline of the {piece} crosses itself.", piece=part(f.subject))
    return _("The cut outline of the {piece} crosses itself.", piece=part(f.subject))


def _outline_reversed(f: Finding, n: Numbers) -> str:
    if n.text("which") == "sewn":
        return _("The sewn outline of the {piece} runs the wrong way round.", piece=part(f.subject))
    return _("The cut outline of the {piece} runs the wrong way round.", piece=part(f.subject))


def _surface(f: Finding, n: Numbers) -> str:
    return _(
        "Sewn together, {vertices} corners − {edges} edges + {faces} faces = {found}; a shell with {rims} openings has"
        " {need}.",
        found=_whole(f.measured),
        need=_whole(f.needed),
        **{name: n.count(name) for name in ("vertices", "edges", "faces", "rims")},
    )


def _whole(number: float | None) -> str:
    return f"{number or 0.0:.0f}".replace("-", "−")


def _one_piece(f: Finding, n: Numbers) -> str:
    if f.outcome == "sound":
        return _("All parts hang together in one garment.")
    return _("The garment falls into {count} separate pieces.", count=decimal(f.measured or 0.0))


def _two_sided(f: Finding, n: Numbers) -> str:
    if f.outcome == "sound":
        return _("Every part has its right side outward.")
    return _("Some part would be sewn in with its wrong side outward.")


def _openings(f: Finding, n: Numbers) -> str:
    if f.outcome == "sound":
        return _("The openings left are those asked for: {found}.", found=_listed(n.text("found")))
    return _(
        "The openings left are {found}; asked for were {asked}.",
        found=_listed(n.text("found")),
        asked=_listed(n.text("asked")),
    )


def _listed(openings: str) -> str:
    """Openings, parted by commas; one that is several at once joins their names by 'with'."""
    said = []
    for opening in openings.split(", "):
        first, *others = (named(name) for name in opening.split(" with "))
        for other in others:
            first = _("{one} with {other}", one=first, other=other)
        said.append(first)
    return ", ".join(said)


ASSEMBLING_WHY: Final[Mapping[str, Say]] = {
    "seams-match": lambda f, n: _("Both edges of all {count} seams have the same length.", count=n.count("count")),
    "seam-length": lambda f, n: _(
        "Seam {a} to {b}: {one} meets {other}.",
        a=n.text("a"),
        b=n.text("b"),
        one=n.fine(f.measured),
        other=n.fine(f.needed),
    ),
    "seam-kind": _seam_kind,
    "edge-sewn-twice": lambda f, n: _(
        "The edge {edge} is sewn {times} times.", edge=f.subject, times=decimal(f.measured or 0.0)
    ),
    "edge-unsewn": lambda f, n: _(
        "The edge {edge}, {length} long, is sewn to nothing.", edge=f.subject, length=n.cm(f.measured)
    ),
    "outlines": lambda f, n: _(
        "The outlines of all {count} shapes are closed and do not cross themselves.", count=n.count("count")
    ),
    "outline-crosses": _outline_crosses,
    "outline-reversed": _outline_reversed,
    "outline-gap": lambda f, n: _(
        "The named edges of the {piece} come to {edged}, its outline to {around}.",
        piece=part(f.subject),
        edged=n.cm(f.measured),
        around=n.cm(f.needed),
    ),
    "surface": _surface,
    "one-piece": _one_piece,
    "two-sided": _two_sided,
    "openings": _openings,
}
