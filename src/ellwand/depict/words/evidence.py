"""Period evidence in words: a phrase for every choice, a sentence for every finding."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.evidence_names import evidence_named
from ellwand.depict.words.saying import Numbers, Say, part, place
from ellwand.language import N_, _
from ellwand.model.finding import Finding

PHRASES: Final[Mapping[str, Mapping[str, str]]] = {
    "body.cut": {
        "wide panels": N_("A body of wide panels"),
        "shoulder panels": N_("A body of shoulder panels"),
    },
    "body.shoulder": {
        "fold": N_("A shoulder fold"),
        "seam": N_("A shoulder seam"),
        "either": N_("A shoulder either"),
    },
    "body.centre_seam": {
        "front": N_("A centre seam, front"),
        "back": N_("A centre seam, back"),
        "both": N_("Centre seams in front and back"),
        "either": N_("A centre seam, either"),
    },
    "body.back_longer": {"longer": N_("A back longer than the front")},
    "body.flare": {"flared": N_("Flared side panels")},
    "gores": {"none": N_("A body without gores"), "": N_("Gores at the {place}")},
    "sleeve.shape": {
        "none": N_("A body without sleeves"),
        "straight": N_("A straight sleeve"),
        "tapered": N_("A tapered sleeve"),
        "fitted forearm": N_("A sleeve fitted to the forearm"),
        "wide": N_("A wide sleeve"),
    },
    "sleeve.head": {"shaped": N_("A shaped sleeve head")},
    "sleeve.gusset": {"gusset": N_("A gusset under the arm")},
    "sleeve.pieces": {"two": N_("A sleeve of two pieces")},
    "neck.shape": {
        "round": N_("A round neck"),
        "oval": N_("An oval neck"),
        "rectangle": N_("A rectangle neck"),
        "square": N_("A square neck"),
        "V": N_("A V neck"),
        "boat": N_("A boat neck"),
        "keyhole": N_("A keyhole neck"),
    },
    "neck.back": {"pointed": N_("A neck pointed behind")},
    "neck.collar": {"collar": N_("A collar")},
    "division": {
        "per pale": N_("A garment divided per pale"),
        "per fess": N_("A garment divided per fess"),
        "quarterly": N_("A garment divided quarterly"),
        "in many parts": N_("A garment divided in many parts"),
    },
    "splits": {"": N_("A split at the {place}")},
    "closures": {
        "ties": N_("Closed at the {place} by ties"),
        "lacing": N_("Closed at the {place} by lacing"),
        "buttons": N_("Closed at the {place} by buttons"),
        "loops": N_("Closed at the {place} by loops"),
        "hooks": N_("Closed at the {place} by hooks"),
        "pins": N_("Closed at the {place} by pins"),
    },
    "hood.gores": {
        "none": N_("A hood without gores"),
        "squares": N_("A hood's gores, squares"),
        "shoulder": N_("A hood's gores, shoulder"),
    },
    "hood.liripipe": {"liripipe": N_("A hood with a tail")},
    "cloak.shape": {
        "rectangle": N_("A cloak, rectangle"),
        "semicircle": N_("A cloak, semicircle"),
        "three-quarter": N_("A cloak, three-quarter"),
    },
}
"""By choice and value; '' stands for a place, and a closure for what it closes with."""

NEEDED: Final = ("body.cut", "body.shoulder", "sleeve.shape", "neck.shape", "cloak.shape")
"""What cannot be left out."""


def _phrase(n: Numbers) -> str:
    choice, value = n.text("choice"), n.text("value")
    if choice == "closures":
        at, _by, by = value.rpartition(" by ")
        return _(PHRASES[choice][by], place=part(at.replace("centre-front", "centre front")))
    phrases = PHRASES[choice]
    if value in phrases:
        return _(phrases[value])
    at_places = phrases[""]
    return _(at_places, place=place(value))


def _told(n: Numbers) -> dict[str, str]:
    """What is told of the evidence: when and where it is from, and what it is."""
    told = {name: n.count(name) for name in ("date", "from", "to") if name in n.values}
    return told | {name: evidence_named(n.text(name)) for name in ("source", "place", "region") if name in n.values}


def _dated(f: Finding, n: Numbers) -> str:
    told = {"phrase": _phrase(n), **_told(n), "standing": evidence_named(n.text("standing"))}
    del told["region"]
    if n.text("remark"):
        return _(
            "{phrase}: {standing} about {date}, by {source} ({place}, {from} to {to}; {remark}). A hint only.",
            remark=evidence_named(n.text("remark")),
            **told,
        )
    return _("{phrase}: {standing} about {date}, by {source} ({place}, {from} to {to}). A hint only.", **told)


def _abroad(f: Finding, n: Numbers) -> str:
    return _(
        "{phrase}: known about {date} from elsewhere, by {source} ({place}, {from} to {to}); nothing was collected for"
        " {region}. A hint only.",
        phrase=_phrase(n),
        **_told(n),
    )


def _unknown(f: Finding, n: Numbers) -> str:
    told = {"phrase": _phrase(n), **_told(n)}
    if not n.text("source"):
        return _(
            "{phrase}: not known in {region} about {date}; nothing dated was collected on it. A hint only.", **told
        )
    return _(
        "{phrase}: not known in {region} about {date}; the nearest is {source}, {place}, {from} to {to}. A hint only.",
        **told,
    )


def _setting(instead: str) -> str:
    """What the sheet could say instead: keys and values as they are, the words about them not."""
    if instead.startswith("gores of "):
        return _("gores of {key}", key=instead.removeprefix("gores of "))
    key, _with, other = instead.partition(" with ")
    return _("{key} with {other}", key=key, other=other) if other else key


def _instead(f: Finding, n: Numbers) -> str:
    if instead := n.text("instead"):
        return _("To suit its time, choose {key}.", key=_setting(instead))
    needed = n.text("choice") in NEEDED or n.text("value") == "none"
    return "" if needed else _("To suit its time, leave it out.")


EVIDENCE_WHY: Final[Mapping[str, Say]] = {
    "period": _dated,
    "period-abroad": _abroad,
    "period-unknown": _unknown,
    "period-elsewhere": lambda f, n: _(
        "No dated evidence was collected for {region}. A hint only.", region=n.text("region")[:60]
    ),
}
EVIDENCE_MEND: Final[Mapping[str, Say]] = {
    "period": _instead,
    "period-unknown": _instead,
    "period-elsewhere": lambda f, n: _(
        "There is some for {key}, and for Scandinavia, Greenland, England and the Continent.",
        key='region = "north-west Europe"',
    ),
}
