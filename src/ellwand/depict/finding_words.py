"""Findings in words: one template for each code."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from ellwand.depict.saying import Numbers, place
from ellwand.model.finding import Finding

Say = Callable[[Finding, Numbers], str]


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
    return f"Pulled on over the head, its narrowest girth of {girth} {verdict} {widest}{beneath}."


def _walking(f: Finding, n: Numbers) -> str:
    verdict = {"sound": "which leaves room for", "look again": "which shortens", "will not work": "which stops"}
    return (
        f"The closed skirt is {n.cm(f.measured)} round at its lowest, {verdict[f.outcome]} a step of {n.of('step')};"
        f" the full step takes {n.cm(f.needed)}."
    )


def _sleeve_length(f: Finding, n: Numbers) -> str:
    much = "too far beyond an arm of" if f.outcome != "sound" else "on an arm of"
    return f"The sleeve ends {n.cm(f.measured)} from the shoulder point, {much} {n.of('arm')}."


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
    "neck-opens": lambda f, n: "The front opens all the way down, so the head need not pass the neck.",
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
    # fits
    "fits": _fits,
    "fits-by-estimate": _fits_by_estimate,
    "fits-open": lambda f, n: (
        f"At the {f.subject} the cloth is {n.cm(f.measured)} round and split open, so it gives way to a body of"
        f" {n.of('body')}."
    ),
    # moves
    "walking": _walking,
    "walking-open": lambda f, n: "The front opens to the hem, so the legs are free to walk.",
    "walking-split": lambda f, n: (
        f"A split reaches {n.of('split')} above the hem, to the knee or higher, so the legs are free to walk."
    ),
    "reaching": lambda f, n: (
        f"Without a gusset the armhole, {n.cm(f.measured)} deep, lets the arm reach up; the rule asks for"
        f" {n.cm(f.needed)}."
        if f.outcome == "sound"
        else f"Without a gusset the armhole, {n.cm(f.measured)} deep, pulls when the arm reaches up; it wants"
        f" {n.cm(f.needed)}."
    ),
    "reaching-gusset": lambda f, n: f"A gusset of {n.of('gusset')} lets the arm reach up.",
    "reaching-panel": lambda f, n: f"The side panel, {n.of('panel')} wide under the arm, does a gusset's work.",
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
    "centre-seam-for-closure": lambda f, n: "The front is cut in two halves, because it opens down the middle.",
    "gore-to-armpit": lambda f, n: (
        f"The gores at the {place(f.subject)} were asked to start {n.of('asked')} above the hem; the seam ends at"
        f" {n.of('start')}, so they run up to its top."
    ),
    "panel-narrowed": lambda f, n: (
        f"Front and back are {n.of('panel')} wide instead of the shoulders' {n.of('shoulder')}, to leave side panels"
        " worth sewing."
    ),
    "lasts": _lasts,
    # on the cloth
    "cloth-enough": lambda f, n: (
        f"The lay takes {n.cm(f.needed)} of the {n.cm(f.measured)} of {f.subject} cloth at hand."
        if f.outcome == "sound"
        else f"The lay takes {n.cm(f.needed)}, more than the {n.cm(f.measured)} of {f.subject} cloth at hand."
    ),
    "cloth-fault": lambda f, n: (
        f"The fault {n.of('x')} from the left selvedge, {n.of('y')} from the cut end, falls into {n.text('part')}."
        if f.outcome != "sound"
        else f"The fault {n.of('x')} from the left selvedge, {n.of('y')} from the cut end, falls between the pieces."
    ),
    "cloth-laid-flat": lambda f, n: f"A {n.text('asked')} fold was asked for; the pieces are laid on the flat cloth.",
    "cloth-remnants-unused": lambda f, n: (
        f"{n.number('count'):.0f} remnants are listed, but the lay does not use them."
    ),
}
