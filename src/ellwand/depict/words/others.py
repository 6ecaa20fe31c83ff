"""Findings, mends and cautions of hood, cloak, coif, apron and breeches in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say
from ellwand.language import N_, _
from ellwand.model.finding import Finding, Outcome
from ellwand.model.names import named


def _more(f: Finding) -> float:
    return (f.needed or 0.0) - (f.measured or 0.0)


VERDICTS: Final[Mapping[str, Mapping[Outcome, str]]] = {
    "hood-neck": {
        "sound": N_("The hood is {girth} round at the neck and passes a head of {head}."),
        "look again": N_("The hood is {girth} round at the neck and barely passes a head of {head}."),
        "will not work": N_("The hood is {girth} round at the neck and does not pass a head of {head}."),
    },
    "hood-face": {
        "sound": N_("The face opening is {girth} round and leaves the face free."),
        "look again": N_("The face opening is {girth} round, which hides brow or chin."),
        "will not work": N_("The face opening is {girth} round, too small for a face."),
    },
    "hood-cape": {
        "sound": N_(
            "The cape is {girth} round at its hem, {cape} below the neck, enough for shoulders of {need} there."
        ),
        "look again": N_(
            "The cape is {girth} round at its hem, {cape} below the neck, tight for shoulders of {need} there."
        ),
        "will not work": N_(
            "The cape is {girth} round at its hem, {cape} below the neck, too narrow for shoulders of {need} there."
        ),
    },
    "cloak-neck": {
        "sound": N_("The neck edge is {girth} long and meets round a neck of {neck}."),
        "look again": N_("The neck edge is {girth} long, too short to meet round a neck of {neck}."),
        "will not work": N_("The neck edge is {girth} long, far too short to meet round a neck of {neck}."),
    },
    "cloak-covers": {
        "sound": N_("At the armpits the cloak reaches {girth} round shoulders and arms of {shoulders}."),
        "look again": N_(
            "At the armpits the cloak reaches {girth} round shoulders and arms of {shoulders}, leaving the front bare."
        ),
        "will not work": N_(
            "At the armpits the cloak reaches {girth} round shoulders and arms of {shoulders}, much too little."
        ),
    },
    "coif-head": {
        "sound": N_("From one side of the face round the back the coif measures {girth}, enough for a head of {head}."),
        "look again": N_(
            "From one side of the face round the back the coif measures {girth}, barely enough for a head of {head}."
        ),
        "will not work": N_(
            "From one side of the face round the back the coif measures {girth}, too little for a head of {head}."
        ),
    },
    "apron-covers": {
        "sound": N_("The apron is {girth} wide on hips of {hip}."),
        "look again": N_("The apron is {girth} wide on hips of {hip}, which leaves the sides bare."),
        "will not work": N_("The apron is {girth} wide on hips of {hip}, too narrow to cover anything."),
    },
    "breeches-hip": {
        "sound": N_("Opened, the waist is {girth} round and passes hips of {hip}."),
        "look again": N_("Opened, the waist is {girth} round and barely passes hips of {hip}."),
        "will not work": N_("Opened, the waist is {girth} round and does not pass hips of {hip}."),
    },
    "breeches-thigh": {
        "sound": N_("At the thigh a leg is {girth} round, enough for one of {body}."),
        "look again": N_("At the thigh a leg is {girth} round, which binds when it bends, for one of {body}."),
        "will not work": N_("At the thigh a leg is {girth} round, too tight for one of {body}."),
    },
    "breeches-knee": {
        "sound": N_("At the knee a leg is {girth} round, enough for one of {body}."),
        "look again": N_("At the knee a leg is {girth} round, which binds when it bends, for one of {body}."),
        "will not work": N_("At the knee a leg is {girth} round, too tight for one of {body}."),
    },
    "breeches-foot": {
        "sound": N_("The hem of a leg, {girth} round, passes a foot of {foot} round the heel."),
        "look again": N_("The hem of a leg, {girth} round, may not pass a foot of {foot} round the heel."),
        "will not work": N_("The hem of a leg, {girth} round, does not pass a foot of {foot} round the heel."),
    },
    "breeches-sitting": {
        "sound": N_(
            "From waist to waist between the legs there are {girth} of cloth, room to sit: the body takes {body}."
        ),
        "look again": N_(
            "From waist to waist between the legs there are {girth} of cloth, which pulls when sitting: the body takes"
            " {body}."
        ),
        "will not work": N_(
            "From waist to waist between the legs there are {girth} of cloth, too short: the body takes {body}."
        ),
    },
}
"""By what is looked at and what comes of it."""


def _judged(look: str, *names: str) -> Say:
    """A finding with its verdict; ``names`` of the values it tells."""
    return lambda f, n: _(
        VERDICTS[look][f.outcome], girth=n.cm(f.measured), need=n.cm(f.needed), **{name: n.of(name) for name in names}
    )


def _leg(f: Finding, n: Numbers) -> str:
    return _judged(f"breeches-{f.subject}", "body")(f, n)


def _head_by_estimate(f: Finding, n: Numbers) -> str:
    return _(
        "The {what} takes the head with {girth} for the {need} it may need, but the head was not measured: it is"
        " estimated at {head}, give or take {sd}.",
        what=named(f.subject),
        girth=n.cm(f.measured),
        need=n.cm(f.needed),
        head=n.of("head"),
        sd=n.of("sd"),
    )


def _hem(f: Finding, n: Numbers) -> str:
    what = named(n.text("what"))
    if f.outcome == "sound":
        return _("The hem of the {what} clears the floor by {much}.", what=what, much=n.cm(f.measured))
    return _("The hem of the {what} trails {much} on the floor.", what=what, much=n.cm(-(f.measured or 0.0)))


def _cape_mend(f: Finding, n: Numbers) -> str:
    gores, key = n.text("gores"), 'gores = "shoulder"'
    if gores == "none":
        return _("Choose {key}, or make the cape shorter.", key=key)
    if gores == "squares":
        return _(
            "Choose {key} and leave garment.hood.gore out; if that is not enough, make the cape longer.",
            key=key,
        )
    return _("Leave garment.hood.gore out; if that is not enough, make the cape longer.")


def _add(key: str, times: float = 1.0) -> Say:
    return lambda f, n: _("Add {much} to {key}.", much=n.more(times * _more(f)), key=key)


def _at_least(key: str) -> Say:
    return lambda f, n: _("Make {key} {much} or more.", key=key, much=n.more(f.needed or 0.0))


OTHER_WHY: Final[Mapping[str, Say]] = {
    "head-by-estimate": _head_by_estimate,
    "hood-neck": _judged("hood-neck", "head"),
    "hood-face": _judged("hood-face"),
    "hood-cape": _judged("hood-cape", "cape"),
    "cloak-neck": _judged("cloak-neck", "neck"),
    "cloak-covers": _judged("cloak-covers", "shoulders"),
    "other-hem": _hem,
    "coif-head": _judged("coif-head", "head"),
    "apron-covers": _judged("apron-covers", "hip"),
    "breeches-hip": _judged("breeches-hip", "hip"),
    "breeches-leg": _leg,
    "breeches-foot": _judged("breeches-foot", "foot"),
    "breeches-sitting": _judged("breeches-sitting", "body"),
}
OTHER_MEND: Final[Mapping[str, Say]] = {
    "head-by-estimate": lambda f, n: _("Measure the head, level over the brow, and give {field}.", field="head_girth"),
    "hood-neck": _add("garment.hood.ease"),
    "hood-face": lambda f, n: _(
        "Measure {one} and {other} again: the face opening comes from them.",
        one="height",
        other="nape_to_floor",
    ),
    "hood-cape": _cape_mend,
    "cloak-neck": lambda f, n: _("Measure {field} and give it.", field="neck_base_girth"),
    "cloak-covers": lambda f, n: _(
        "Choose {key} or a rectangle, or make the cloak wider where it has a width.", key='shape = "three-quarter"'
    ),
    "other-hem": lambda f, n: _("Shorten it by {much}.", much=n.more(_more(f))),
    "coif-head": _add("garment.coif.ease", 2),
    "apron-covers": _at_least("garment.apron.width"),
    "breeches-hip": _add("garment.breeches.ease"),
    "breeches-leg": lambda f, n: _("Leave {key} out, or give more ease.", key="garment.breeches.hem"),
    "breeches-foot": _at_least("garment.breeches.hem"),
    "breeches-sitting": lambda f, n: _(
        "Measure {one} and {other} and give them.", one="waist_to_floor", other="crotch_to_floor"
    ),
}


def _tied_at_neck(n: Numbers) -> str:
    if n.text("what") == "coif":
        return _(
            "Child: a coif tied at the neck can strangle; close it with something that comes undone at a pull, and"
            " follow local rules (EN 14682, 16 CFR 1120)."
        )
    return _(
        "Child: a cloak tied at the neck can strangle; close it with something that comes undone at a pull, and follow"
        " local rules (EN 14682, 16 CFR 1120)."
    )


OTHER_CAUTIONS: Final[Mapping[str, Callable[[Numbers], str]]] = {
    "child-tied-at-neck": _tied_at_neck,
    "long-tail": lambda n: _(
        "A tail {length} long catches in wheels, doors and machines: tuck it in or wind it round the head.",
        length=n.of("tail"),
    ),
    "wide-cloak": lambda n: _("A cloak swings into flames and wheels: throw it back over the shoulders near them."),
}
