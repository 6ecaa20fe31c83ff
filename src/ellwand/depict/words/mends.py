"""What would mend a finding: one template for each code that has a mend."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.bands import BAND_MEND
from ellwand.depict.words.evidence import EVIDENCE_MEND
from ellwand.depict.words.heraldry import TINCTURE_MEND
from ellwand.depict.words.layers import LAYER_MEND
from ellwand.depict.words.on_cloth import ON_CLOTH_MEND
from ellwand.depict.words.others import OTHER_MEND
from ellwand.depict.words.saying import Numbers, Say
from ellwand.depict.words.tearing import TEARING_MEND
from ellwand.model.finding import Finding

GORE_ROOM: Final = 3.0
"""Plain seam (cm) that a gore's point wants above it, as the proof has it."""


def _short(f: Finding) -> float:
    return (f.needed or 0.0) - (f.measured or 0.0)


def _ease(f: Finding, n: Numbers) -> str:
    if f.subject == "biceps":
        return 'Choose sleeve.shape = "straight" and leave sleeve.cuff out.'
    return f"Add {n.more(_short(f) + n.number('rounding'))} to the body's ease."


def _walking(f: Finding, n: Numbers) -> str:
    if n.number("split"):
        return "Split it higher, to the knee or above."
    more = n.more(_short(f))
    return (
        f"Make the hem {more} wider in all (wider or more gores), or split a seam up to the hip, its gores in halves."
    )


def _measure(f: Finding, n: Numbers) -> str:
    field = "upper_arm_girth" if f.subject == "biceps" else f"{f.subject}_girth"
    return f"Measure it and give {field}."


def _reaching(f: Finding, n: Numbers) -> str:
    helps = n.text("chosen") != "auto" and n.number("best") >= (f.needed or 0.0)
    if n.text("cut") == "wide panels" and not helps:
        gusset = "" if n.text("chosen") == "auto" else ' and sleeve.gusset = "auto"'
        return f"Choose {_SIDE_PANELS}{gusset}: side panels free the arms."
    if not helps:
        return "Give the body more ease: it widens the side panels."
    seam = ' and sleeve.seam = "under"' if n.text("seam") == "back" else ""
    return f'Choose sleeve.gusset = "auto"{seam} (a cap sleeve has to be longer for it).'


def _over_head(f: Finding, n: Numbers) -> str:
    ease = f"Add {n.more(_short(f) + n.number('rounding'))} to the body's ease"
    if n.text("at"):
        return f"{ease}."
    # what is closed below a side opening has to pass as well
    passes = f.outcome == "look again"
    return f'{ease}, or open it with a closure at = "{"side" if passes else "centre-front"}".'


_SIDE_PANELS: Final = 'body.cut = "shoulder panels"'


def _in_slit(f: Finding, n: Numbers) -> str:
    if f.subject.startswith("centre"):
        return 'Choose body.centre_seam = "both": in a seam the gore is easy.'
    return "Move these gores to the sides or to a centre seam: in a seam a gore is easy."


_KEYHOLE: Final = 'choose neck.shape = "keyhole" with slit = "centre" and the usual drops'

_ASSEMBLY = "This is a fault of the program, not of your choices: please report it with the sheet."

MEND: Final[Mapping[str, Say]] = {
    **OTHER_MEND,
    **BAND_MEND,
    **LAYER_MEND,
    **EVIDENCE_MEND,
    **TINCTURE_MEND,
    **dict.fromkeys(
        (
            "seam-length",
            "seam-kind",
            "edge-sewn-twice",
            "edge-unsewn",
            "outline-crosses",
            "outline-reversed",
            "outline-gap",
            "surface",
            "one-piece",
            "two-sided",
            "openings",
        ),
        lambda f, n: _ASSEMBLY,
    ),
    "neck-too-small": lambda f, n: f"Add {n.more(_short(f) + 1)} to the neck's ease, or {_KEYHOLE}.",
    "neck-tight": lambda f, n: f"Add {n.more(_short(f))} to the neck's ease, or {_KEYHOLE}.",
    "neck-by-estimate": lambda f, n: "Measure the head, level over the brow, and give head_girth.",
    "cuff-too-small": lambda f, n: f"Make the cuff at least {n.more((f.needed or 0.0) + 1)}.",
    "cuff-by-estimate": lambda f, n: "Measure the hand round the knuckles, thumb tucked in, and give hand_girth.",
    "over-head": _over_head,
    "riding": lambda f, n: (
        "Split it at centre-front and centre-back, both up to the crotch, with any gores there in halves."
    ),
    "fits": _ease,
    "fits-by-estimate": _measure,
    "walking": _walking,
    "sitting": lambda f, n: f"Add {n.more(_short(f) + n.number('rounding'))} to the body's ease.",
    "reaching": _reaching,
    "overhead": lambda f, n: f"Make the garment {n.more(n.number('rounding') - _short(f))} longer.",
    "overhead-held": lambda f, n: (
        'Choose sleeve.head = "straight".' if n.text("head") == "shaped" else f"Choose {_SIDE_PANELS}."
    ),
    "elbow-room": lambda f, n: 'Choose sleeve.shape = "straight" and leave sleeve.cuff out.',
    "shoulder-strip": lambda f, n: (
        "Give the neck less ease or the body more."
        if n.text("shape") == "keyhole"
        else 'Choose neck.shape = "keyhole" with slit = "centre", and leave neck.ease out.'
    ),
    "neck-width": lambda f, n: (
        "Give the neck less ease."
        if n.text("shape") == "keyhole"
        else 'Choose neck.shape = "keyhole" with slit = "centre", and leave neck.ease out.'
    ),
    "gore-room": lambda f, n: (
        f"Start these gores {n.more(_short(f) + n.number('rounding'))} lower"
        f"{', and end the split there as much lower' if n.number('splits') else ''}."
    ),
    "gore-in-slit": _in_slit,
    "slit-depth": lambda f, n: "Give the neck more ease, so that it needs less of a slit.",
    "split-top": lambda f, n: "Let the split end at or below the waist.",
    "underarm-room": lambda f, n: (
        f"Make the gusset {n.more(_short(f) + n.number('rounding'))} smaller, or the sleeve longer."
    ),
    "sleeve-length": lambda f, n: f"Shorten the sleeve by {n.more(n.number('rounding') - _short(f))}.",
    "hem-clears": lambda f, n: (
        f"Shorten the garment by {n.more(_short(f) + n.number('rounding'))}, or keep it as a train."
    ),
    "fold-with-one-centre-seam": lambda f, n: 'Choose body.centre_seam = "both" to keep the fold.',
    "fold-with-open-shoulder": lambda f, n: 'Ask for it yourself with body.shoulder = "seam", or choose a slit.',
    "centre-seam-for-closure": lambda f, n: 'Ask for it yourself with body.centre_seam = "both".',
    "gore-to-armpit": lambda f, n: f"Start them at {n.less(n.number('start') - GORE_ROOM)} or lower.",
    "panel-narrowed": lambda f, n: 'Give the body more ease, or choose body.cut = "wide panels".',
    "allowance-for-finish": lambda f, n: (
        f"Make sewing.allowance {n.more(f.needed or 0.0)}"
        + (', or choose sewing.finish = "overcast".' if (f.measured or 0.0) >= n.number("overcast") else ".")
    ),
    "corners-hang": lambda f, n: 'Trim them level from the floor, or choose hem = "arc" for these gores.',
    "lasts": lambda f, n: "Give it room to grow with [garment.growth] months = 12, or more ease.",
    **ON_CLOTH_MEND,
    **TEARING_MEND,
}
