"""Findings in words: one template for each code."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.bands import BAND_WHY
from ellwand.depict.words.evidence import EVIDENCE_WHY
from ellwand.depict.words.heraldry import TINCTURE_WHY
from ellwand.depict.words.layers import LAYER_WHY
from ellwand.depict.words.on_cloth import ON_CLOTH_WHY
from ellwand.depict.words.others import OTHER_WHY
from ellwand.depict.words.saying import Numbers, Say, place
from ellwand.depict.words.tearing import TEARING_WHY
from ellwand.model.finding import Finding

PUSHED_UP: Final = 2.0
"""A sleeve that is so much longer than the arm (cm) is told to lie in folds."""


def _fits(f: Finding, n: Numbers) -> str:
    over = f"{n.of('body')} of body" + (f" and {n.of('beneath')} beneath" if n.number("beneath") else "")
    where = "upper arm" if f.subject == "biceps" else f.subject
    if f.outcome == "will not work":
        return f"At the {where} the garment is {n.cm(f.measured)} round, less than {over}."
    little = f", less than the {n.of('least')} it wants" if f.outcome == "look again" else ""
    return f"At the {where} the garment is {n.cm(f.measured)} round, {n.of('ease')} of ease over {over}{little}."


def _fits_by_estimate(f: Finding, n: Numbers) -> str:
    where = "upper arm" if f.subject == "biceps" else f.subject
    return (
        f"At the {where} the garment is {n.cm(f.measured)} round; the body is estimated at {n.of('body')},"
        f" give or take {n.of('sd')}, and may be too large for it."
    )


def _over_head(f: Finding, n: Numbers) -> str:
    verdict = {"sound": "passes", "look again": "barely passes", "will not work": "does not pass"}[f.outcome]
    beneath = f" and {n.of('beneath')} beneath" if n.number("beneath") else ""
    girth = n.cm(f.measured)
    widest = f"a head of {n.of('head')}" if "head" in n.values else f"a bust of {n.of('bust')}"
    return f"Pulled on over the head, the arms after it, its narrowest girth of {girth} {verdict} {widest}{beneath}."


def _riding(f: Finding, n: Numbers) -> str:
    if f.outcome == "sound":
        return (
            f"It can be ridden in: astride, {n.of('height')} above the floor, the legs take {n.cm(f.needed)} of its"
            f" {n.cm(f.measured)}."
        )
    return (
        f"Astride, {n.of('height')} above the floor, the legs take {n.cm(f.needed)}, and it is closed at"
        f" {n.cm(f.measured)}."
    )


def _stepped_into(f: Finding, n: Numbers) -> str:
    return (
        f"Opened at the {n.text('at')} and stepped into, it passes a body of {n.cm(f.needed)} at its narrowest:"
        f" {n.cm(f.measured)} at the {n.text('stage')}."
    )


def _walking(f: Finding, n: Numbers) -> str:
    verdict = {"sound": "which leaves room for", "look again": "which shortens", "will not work": "which stops"}
    return (
        f"The closed skirt is {n.cm(f.measured)} round at its lowest, {verdict[f.outcome]} a step of {n.of('step')};"
        f" the full step takes {n.cm(f.needed)}."
    )


def _sitting(f: Finding, n: Numbers) -> str:
    room = "room for" if f.outcome == "sound" else "less than"
    if f.subject == "seat":
        worn = " with what is beneath" if n.number("beneath") else ""
        return (
            f"Sitting, a seat of {n.of('body')} spreads to {n.cm(f.needed)}{worn}: the garment's {n.cm(f.measured)} is"
            f" {room} that."
        )
    return f"Sitting with knees apart takes {n.cm(f.needed)}: the garment's {n.cm(f.measured)} there is {room} that."


def _sleeve_length(f: Finding, n: Numbers) -> str:
    much = "too far beyond an arm of" if f.outcome != "sound" else "on an arm of"
    over = (f.measured or 0.0) - n.number("arm")
    folds = f" Its {n.cm(over)} beyond the wrist are pushed up the forearm in folds." if over >= PUSHED_UP else ""
    return f"The sleeve ends {n.cm(f.measured)} from the shoulder point, {much} {n.of('arm')}.{folds}"


def _reaching(f: Finding, n: Numbers) -> str:
    under = ""
    if n.number("gusset"):
        under = f" with a gusset of {n.of('gusset')}"
    elif n.number("panel"):
        under = f" over a side panel {n.of('panel')} wide"
    level = f.needed or 0.0
    far = f.measured or 0.0
    if far >= level:
        first = f"Before the hem rises by {n.of('rises')} the arm lifts{under} to {far:.0f}° (level is {level:.0f}°)."
    elif far:
        first = f"The arm lifts{under} to only {far:.0f}° of {level:.0f}° before the hem rises by {n.of('rises')}."
    else:
        first = f"The armhole is too close{under} for the arm to lift without the hem rising by {n.of('rises')}."
    if math.isinf(n.number("level")):
        return f"{first} The sleeve itself holds the arm below level."
    bare = ""
    if n.number("gusset") and math.isfinite(n.number("bare_level")):
        bare = f", without the gusset it would rise {n.of('bare_level')}"
    return f"{first} With the arm level it rises {n.of('level')}{bare}."


def _overhead(f: Finding, n: Numbers) -> str:
    where = "" if f.outcome == "sound" else ", above the waist"
    bare = n.number("bare")
    told = math.isfinite(bare) and abs(bare - (f.measured or 0.0)) > 0.1
    without = f" (without the gusset {n.of('bare')})" if told else ""
    return (
        f"With both arms straight up the hem rises {n.cm(f.measured)} at the sides{without}, to {n.of('hem')} above the"
        f" floor{where}."
    )


def _lasts(f: Finding, n: Numbers) -> str:
    most = n.number("most")

    def until(name: str) -> str:
        months = n.number(name)
        return f"for {most:.0f} months or more" if months >= most else f"for about {months:.0f} months"

    down = ", let down," if n.number("taken") else ""
    return f"As the child grows it goes on and fits {until('wide')}, and{down} it is long enough {until('long')}."


def _hem(f: Finding, n: Numbers) -> str:
    if f.outcome == "sound":
        return f"The hem clears the floor by {n.cm(f.measured)}."
    return (
        f"The hem trails: the garment is {n.of('length')} long, {n.cm(-(f.measured or 0.0))} more than nape to floor."
    )


def _slit_depth(f: Finding, n: Numbers) -> str:
    where = "above" if f.outcome == "sound" else "below"
    return f"The neck slit ends {n.cm(abs(f.measured or 0.0))} {where} the waist."


def _split_top(f: Finding, n: Numbers) -> str:
    beyond = ", above the waist" if f.outcome != "sound" else ""
    return (
        f"The split at the {place(f.subject)} is open up to {n.cm(f.measured)} above the hem{beyond}: sew a bar or a"
        " small patch across its top."
    )


def _gore_room(f: Finding, n: Numbers) -> str:
    verdict = "" if f.outcome == "sound" else ", too little to hold the point"
    return f"Above the gore points at the {place(f.subject)} {n.cm(f.measured)} of plain seam are left{verdict}."


def _underarm(f: Finding, n: Numbers) -> str:
    little = "" if f.outcome == "sound" else " only"
    return f"Beyond the gusset{little} {n.cm(f.measured)} of plain underarm seam are left."


def _shoulder(f: Finding, n: Numbers) -> str:
    verdict = "" if f.outcome == "sound" else f", less than the {n.cm(f.needed)} that hold"
    return f"Between neck and panel edge {n.cm(f.measured)} of shoulder are left{verdict}."


def _neck_width(f: Finding, n: Numbers) -> str:
    verdict = "stays on" if f.outcome == "sound" else "is likely to slip off"
    return f"The neck is {n.cm(f.measured)} wide and {verdict} the shoulders; it may be {n.cm(f.needed)}."


def _whole(number: float | None) -> str:
    return f"{number or 0.0:.0f}".replace("-", "−")


WHY: Final[Mapping[str, Say]] = {
    **OTHER_WHY,
    **BAND_WHY,
    **LAYER_WHY,
    **EVIDENCE_WHY,
    **TINCTURE_WHY,
    "allowance-for-finish": lambda f, n: (
        f"{n.cm(f.measured)} of seam allowance is too little for seams finished {n.text('finish')}, which want"
        f" {n.cm(f.needed)} at least."
    ),
    # assembles
    "seams-match": lambda f, n: f"Both edges of all {n.number('count'):.0f} seams have the same length.",
    "seam-length": lambda f, n: f"Seam {n.text('a')} to {n.text('b')}: {n.fine(f.measured)} meets {n.fine(f.needed)}.",
    "seam-kind": lambda f, n: (
        f"Seam {n.text('a')} to {n.text('b')} joins edges that do not belong together: {n.text('one')} and"
        f" {n.text('other')}."
    ),
    "edge-sewn-twice": lambda f, n: f"The edge {f.subject} is sewn {f.measured:.0f} times.",
    "edge-unsewn": lambda f, n: f"The edge {f.subject}, {n.cm(f.measured)} long, is sewn to nothing.",
    "outlines": lambda f, n: (
        f"The outlines of all {n.number('count'):.0f} shapes are closed and do not cross themselves."
    ),
    "outline-crosses": lambda f, n: f"The {n.text('which')} outline of the {f.subject} crosses itself.",
    "outline-reversed": lambda f, n: f"The {n.text('which')} outline of the {f.subject} runs the wrong way round.",
    "outline-gap": lambda f, n: (
        f"The named edges of the {f.subject} come to {n.cm(f.measured)}, its outline to {n.cm(f.needed)}."
    ),
    "surface": lambda f, n: (
        f"Sewn together, {n.number('vertices'):.0f} corners − {n.number('edges'):.0f} edges +"
        f" {n.number('faces'):.0f} faces = {_whole(f.measured)}; a shell with {n.number('rims'):.0f} openings has"
        f" {_whole(f.needed)}."
    ),
    "one-piece": lambda f, n: (
        "All parts hang together in one garment."
        if f.outcome == "sound"
        else f"The garment falls into {f.measured:.0f} separate pieces."
    ),
    "two-sided": lambda f, n: (
        "Every part has its right side outward."
        if f.outcome == "sound"
        else "Some part would be sewn in with its wrong side outward."
    ),
    "openings": lambda f, n: (
        f"The openings left are those asked for: {n.text('found')}."
        if f.outcome == "sound"
        else f"The openings left are {n.text('found')}; asked for were {n.text('asked')}."
    ),
    # goes on
    "neck-opens": lambda f, n: f"The {n.text('face')} opens all the way down, so the head need not pass the neck.",
    "neck-passes": lambda f, n: f"The neck opens to {n.cm(f.measured)} and passes a head of {n.of('head')}.",
    "neck-tight": lambda f, n: f"The neck opens to {n.cm(f.measured)}, barely enough for a head of {n.of('head')}.",
    "neck-too-small": lambda f, n: f"The neck opens to {n.cm(f.measured)}, too small for a head of {n.of('head')}.",
    "neck-by-estimate": lambda f, n: (
        f"The neck opens to {n.cm(f.measured)}, but the head was not measured: it is estimated at {n.of('head')},"
        f" give or take {n.of('sd')}."
    ),
    "cuff": lambda f, n: f"The sleeve is at least {n.cm(f.measured)} round and passes a hand of {n.of('hand')}.",
    "cuff-opened": lambda f, n: (
        f"Opened {n.of('opening')} up its seam, the cuff gives {n.cm(f.measured)} and passes a hand of {n.of('hand')}."
    ),
    "cuff-too-small": lambda f, n: f"The cuff passes {n.cm(f.measured)}, too small for a hand of {n.of('hand')}.",
    "cuff-by-estimate": lambda f, n: (
        f"The cuff passes {n.cm(f.measured)}; the hand is estimated at {n.of('hand')}, give or take {n.of('sd')},"
        " and may be larger."
    ),
    "over-head": _over_head,
    "over-head-opens": lambda f, n: f"It opens at the {n.text('at')}, so it need not be pulled on closed.",
    "stepped-into": _stepped_into,
    # fits
    "fits": _fits,
    "fits-by-estimate": _fits_by_estimate,
    "fits-open": lambda f, n: (
        f"At the {f.subject} the cloth is {n.cm(f.measured)} round and split open, so it gives way to a body of"
        f" {n.of('body')}."
    ),
    # moves
    "walking": _walking,
    "walking-open": lambda f, n: f"The {n.text('face')} opens to the hem, so the legs are free to walk.",
    "walking-split": lambda f, n: (
        f"A split reaches {n.of('split')} above the hem, to the knee or higher, so the legs are free to walk."
    ),
    "reaching": _reaching,
    "overhead": _overhead,
    "overhead-held": lambda f, n: "The sleeve holds the arms from going straight up, however far the hem rises.",
    "elbow-room": lambda f, n: (
        f"At the elbow the sleeve is {n.cm(f.measured)} round; a bent elbow takes {n.cm(f.needed)}:"
        f" {n.of('straight')} straight, {n.of('bent')} more bent"
        + (f", {n.of('beneath')} beneath." if n.number("beneath") else ".")
    ),
    "sitting": _sitting,
    "sitting-open": lambda f, n: f"Sitting, the {f.subject} {'finds' if f.subject == 'seat' else 'find'} it open.",
    "riding": _riding,
    "riding-open": lambda f, n: "It can be ridden in: it opens up to the crotch or higher.",
    # holds
    "shoulder-strip": _shoulder,
    "neck-width": _neck_width,
    "gore-room": _gore_room,
    "gore-in-slit": lambda f, n: (
        f"The gores at the {place(f.subject)} go into a slit {n.cm(f.measured)} long cut in the cloth, and the point"
        " of a slit is hard to sew: reinforce it."
    ),
    "gore-at-opening": lambda f, n: (
        f"The gore points at the {place(f.subject)} meet the lower end of the opening: reinforce that corner."
    ),
    "slit-depth": _slit_depth,
    "split-top": _split_top,
    "underarm-room": _underarm,
    "sleeve-length": _sleeve_length,
    "hem-clears": _hem,
    # noted by the draft
    "fold-with-one-centre-seam": lambda f, n: (
        "With a centre seam on one side only, front and back cannot be one length: they are cut apart and sewn at"
        " the shoulders."
    ),
    "fold-with-open-shoulder": lambda f, n: (
        "A fold has no seam to leave open: front and back are cut apart and sewn at the shoulders."
    ),
    "centre-seam-for-closure": lambda f, n: (
        "Front and back are cut in two halves each, because they open down the middle."
        if n.text("face") == "front and back"
        else f"The {n.text('face')} is cut in two halves, because it opens down the middle."
    ),
    "gore-to-armpit": lambda f, n: (
        f"The gores at the {place(f.subject)} were asked to start {n.of('asked')} above the hem; the seam ends at"
        f" {n.of('start')}, so they run up to its top."
    ),
    "panel-narrowed": lambda f, n: (
        f"Front and back are {n.of('panel')} wide instead of the shoulders' {n.of('shoulder')}, to leave side panels"
        " worth sewing."
    ),
    "lasts": _lasts,
    "pieced": lambda f, n: (
        f"The {n.text('piece')} is too {n.text('what')} for the cloth: the {n.text('off')}, {n.of('size')}"
        f" {n.text('what')}, is cut apart and sewn on before anything else."
    ),
    "bloused": lambda f, n: (
        f"Of its {n.of('length')} of length {n.of('blouse')} are drawn up over a belt at the waist; unbelted it hangs"
        " so much lower."
    ),
    "trailing": lambda f, n: (
        f"The back's hem dips {n.cm(f.measured)} below the front's and lies {n.of('trail')} long on the floor."
    ),
    "corners-hang": lambda f, n: (
        f"The gores at the {place(f.subject)} are cut straight below: once hung, their corners hang"
        f" {n.cm(f.measured)} below the hem."
    ),
    **ON_CLOTH_WHY,
    **TEARING_WHY,
}
