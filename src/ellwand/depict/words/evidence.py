"""Period evidence in words: a phrase for every choice, a sentence for every finding."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say, place
from ellwand.model.finding import Finding

PHRASES: Final[Mapping[str, str]] = {
    "body.cut": "A body of {value}",
    "body.shoulder": "A shoulder {value}",
    "body.centre_seam": "A centre seam, {value}",
    "body.back_longer": "A back longer than the front",
    "body.flare": "Flared side panels",
    "gores": "Gores at the {value}",
    "sleeve.shape": "A {value} sleeve",
    "sleeve.head": "A shaped sleeve head",
    "sleeve.gusset": "A gusset under the arm",
    "sleeve.pieces": "A sleeve of two pieces",
    "neck.shape": "A {value} neck",
    "neck.back": "A neck pointed behind",
    "neck.collar": "A collar",
    "division": "A garment divided {value}",
    "splits": "A split at the {value}",
    "closures": "Closed at the {value}",
    "hood.gores": "A hood's gores, {value}",
    "hood.liripipe": "A hood with a tail",
    "cloak.shape": "A cloak, {value}",
}
"""By choice."""
PLAIN: Final[Mapping[tuple[str, str], str]] = {
    ("body.centre_seam", "both"): "Centre seams in front and back",
    ("gores", "none"): "A body without gores",
    ("neck.shape", "oval"): "An oval neck",
    ("sleeve.shape", "fitted forearm"): "A sleeve fitted to the forearm",
    ("sleeve.shape", "none"): "A body without sleeves",
    ("hood.gores", "none"): "A hood without gores",
}
"""Where the phrase of the choice would not do."""

NEEDED: Final = ("body.cut", "body.shoulder", "sleeve.shape", "neck.shape", "cloak.shape")
"""What cannot be left out."""


def _phrase(n: Numbers) -> str:
    choice, value = n.text("choice"), n.text("value")
    said = place(value) if choice in ("gores", "splits") else value.replace("centre-front", "centre front")
    return PLAIN.get((choice, value)) or PHRASES[choice].format(value=said)


def _dated(f: Finding, n: Numbers) -> str:
    remark = f"; {n.text('remark')}" if n.text("remark") else ""
    where = f"{n.text('place')}, {n.number('from'):.0f} to {n.number('to'):.0f}"
    when = f"{n.number('date'):.0f}"
    return f"{_phrase(n)}: {n.text('standing')} about {when}, by {n.text('source')} ({where}{remark}). A hint only."


def _abroad(f: Finding, n: Numbers) -> str:
    where = f"{n.text('place')}, {n.number('from'):.0f} to {n.number('to'):.0f}"
    return (
        f"{_phrase(n)}: known about {n.number('date'):.0f} from elsewhere, by {n.text('source')} ({where}); nothing was"
        f" collected for {n.text('region')}. A hint only."
    )


def _unknown(f: Finding, n: Numbers) -> str:
    start = f"{_phrase(n)}: not known in {n.text('region')} about {n.number('date'):.0f}"
    if not n.text("source"):
        return f"{start}; nothing dated was collected on it. A hint only."
    when = f"{n.number('from'):.0f} to {n.number('to'):.0f}"
    return f"{start}; the nearest is {n.text('source')}, {n.text('place')}, {when}. A hint only."


def _instead(f: Finding, n: Numbers) -> str:
    if instead := n.text("instead"):
        return f"To suit its time, choose {instead}."
    return "To suit its time, leave it out." if n.text("choice") not in NEEDED and n.text("value") != "none" else ""


EVIDENCE_WHY: Final[Mapping[str, Say]] = {
    "period": _dated,
    "period-abroad": _abroad,
    "period-unknown": _unknown,
    "period-elsewhere": lambda f, n: f"No dated evidence was collected for {n.text('region')[:60]}. A hint only.",
}
EVIDENCE_MEND: Final[Mapping[str, Say]] = {
    "period": _instead,
    "period-unknown": _instead,
    "period-elsewhere": lambda f, n: (
        'There is some for region = "north-west Europe", and for Scandinavia, Greenland, England and the Continent.'
    ),
}
