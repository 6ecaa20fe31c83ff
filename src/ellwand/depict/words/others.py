"""Findings, mends and cautions of hood, cloak, coif, apron and breeches in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say
from ellwand.model.finding import Finding


def _more(f: Finding) -> float:
    return (f.needed or 0.0) - (f.measured or 0.0)


def _verdict(f: Finding, good: str, close: str, bad: str) -> str:
    return {"sound": good, "look again": close, "will not work": bad}[f.outcome]


def _cape_mend(f: Finding, n: Numbers) -> str:
    return {
        "none": 'Choose gores = "shoulder", or make the cape shorter.',
        "squares": 'Choose gores = "shoulder" and leave garment.hood.gore out; if that is not enough, make the cape'
        " longer.",
    }.get(n.text("gores"), "Leave garment.hood.gore out; if that is not enough, make the cape longer.")


OTHER_WHY: Final[Mapping[str, Say]] = {
    "head-by-estimate": lambda f, n: (
        f"The {f.subject} takes the head with {n.cm(f.measured)} for the {n.cm(f.needed)} it may need, but the head was"
        f" not measured: it is estimated at {n.of('head')}, give or take {n.of('sd')}."
    ),
    "hood-neck": lambda f, n: (
        f"The hood is {n.cm(f.measured)} round at the neck and"
        f" {_verdict(f, 'passes', 'barely passes', 'does not pass')} a head of {n.of('head')}."
    ),
    "hood-face": lambda f, n: (
        f"The face opening is {n.cm(f.measured)} round"
        f"{_verdict(f, ' and leaves the face free', ', which hides brow or chin', ', too small for a face')}."
    ),
    "hood-cape": lambda f, n: (
        f"The cape is {n.cm(f.measured)} round at its hem, {n.of('cape')} below the neck,"
        f" {_verdict(f, 'enough for', 'tight for', 'too narrow for')} shoulders of {n.cm(f.needed)} there."
    ),
    "cloak-neck": lambda f, n: (
        f"The neck edge is {n.cm(f.measured)} long"
        f"{_verdict(f, ' and meets', ', too short to meet', ', far too short to meet')} round a neck of"
        f" {n.of('neck')}."
    ),
    "cloak-covers": lambda f, n: (
        f"At the armpits the cloak reaches {n.cm(f.measured)} round shoulders and arms of {n.of('shoulders')}"
        f"{_verdict(f, '', ', leaving the front bare', ', much too little')}."
    ),
    "other-hem": lambda f, n: (
        f"The hem of the {n.text('what')} clears the floor by {n.cm(f.measured)}."
        if f.outcome == "sound"
        else f"The hem of the {n.text('what')} trails {n.cm(-(f.measured or 0.0))} on the floor."
    ),
    "coif-head": lambda f, n: (
        f"From one side of the face round the back the coif measures {n.cm(f.measured)},"
        f" {_verdict(f, 'enough', 'barely enough', 'too little')} for a head of {n.of('head')}."
    ),
    "apron-covers": lambda f, n: (
        f"The apron is {n.cm(f.measured)} wide on hips of {n.of('hip')}"
        f"{_verdict(f, '', ', which leaves the sides bare', ', too narrow to cover anything')}."
    ),
    "breeches-hip": lambda f, n: (
        f"Opened, the waist is {n.cm(f.measured)} round and"
        f" {_verdict(f, 'passes', 'barely passes', 'does not pass')} hips of {n.of('hip')}."
    ),
    "breeches-leg": lambda f, n: (
        f"At the {f.subject} a leg is {n.cm(f.measured)} round"
        f"{_verdict(f, ', enough', ', which binds when it bends,', ', too tight')} for one of {n.of('body')}."
    ),
    "breeches-foot": lambda f, n: (
        f"The hem of a leg, {n.cm(f.measured)} round,"
        f" {_verdict(f, 'passes', 'may not pass', 'does not pass')} a foot of {n.of('foot')} round the heel."
    ),
    "breeches-sitting": lambda f, n: (
        f"From waist to waist between the legs there are {n.cm(f.measured)} of cloth"
        f"{_verdict(f, ', room to sit', ', which pulls when sitting', ', too short')}: the body takes {n.of('body')}."
    ),
}
OTHER_MEND: Final[Mapping[str, Say]] = {
    "head-by-estimate": lambda f, n: "Measure the head, level over the brow, and give head_girth.",
    "hood-neck": lambda f, n: f"Add {n.more(_more(f))} to garment.hood.ease.",
    "hood-face": lambda f, n: "Measure height and nape_to_floor again: the face opening comes from them.",
    "hood-cape": _cape_mend,
    "cloak-neck": lambda f, n: "Measure neck_base_girth and give it.",
    "cloak-covers": lambda f, n: (
        'Choose shape = "three-quarter" or a rectangle, or make the cloak wider where it has a width.'
    ),
    "other-hem": lambda f, n: f"Shorten it by {n.more(_more(f))}.",
    "coif-head": lambda f, n: f"Add {n.more(2 * _more(f))} to garment.coif.ease.",
    "apron-covers": lambda f, n: f"Make garment.apron.width {n.more(f.needed or 0.0)} or more.",
    "breeches-hip": lambda f, n: f"Add {n.more(_more(f))} to garment.breeches.ease.",
    "breeches-leg": lambda f, n: "Leave garment.breeches.hem out, or give more ease.",
    "breeches-foot": lambda f, n: f"Make garment.breeches.hem {n.more(f.needed or 0.0)} or more.",
    "breeches-sitting": lambda f, n: "Measure waist_to_floor and crotch_to_floor and give them.",
}
OTHER_CAUTIONS: Final[Mapping[str, Callable[[Numbers], str]]] = {
    "child-tied-at-neck": lambda n: (
        f"Child: a {n.text('what')} tied at the neck can strangle; close it with something that comes undone at a pull,"
        " and follow local rules (EN 14682, 16 CFR 1120)."
    ),
    "long-tail": lambda n: (
        f"A tail {n.of('tail')} long catches in wheels, doors and machines: tuck it in or wind it round the head."
    ),
    "wide-cloak": lambda n: "A cloak swings into flames and wheels: throw it back over the shoulders near them.",
}
