"""What would mend a finding: one template for each code that has a mend."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.bands import BAND_MEND
from ellwand.depict.words.evidence import EVIDENCE_MEND
from ellwand.depict.words.hanging import HANG_MEND
from ellwand.depict.words.heraldry import TINCTURE_MEND
from ellwand.depict.words.layers import LAYER_MEND
from ellwand.depict.words.on_cloth import ON_CLOTH_MEND
from ellwand.depict.words.others import OTHER_MEND
from ellwand.depict.words.saying import Numbers, Say
from ellwand.depict.words.tearing import TEARING_MEND
from ellwand.language import N_, _
from ellwand.model.finding import Finding

GORE_ROOM: Final = 3.0
"""Plain seam (cm) that a gore's point wants above it, as the proof has it."""


def _short(f: Finding) -> float:
    return (f.needed or 0.0) - (f.measured or 0.0)


def _wider(n: Numbers, f: Finding) -> str:
    return n.more(_short(f) + n.number("rounding"))


def _choose(key: str) -> str:
    return _("Choose {key}.", key=key)


def _ease(f: Finding, n: Numbers) -> str:
    if f.subject == "biceps":
        return _straight_sleeve(f, n)
    return _("Add {much} to the body's ease.", much=_wider(n, f))


def _straight_sleeve(f: Finding, n: Numbers) -> str:
    return _("Choose {key} and leave {other} out.", key='sleeve.shape = "straight"', other="sleeve.cuff")


def _walking(f: Finding, n: Numbers) -> str:
    if n.number("split"):
        return _("Split it higher, to the knee or above.")
    return _(
        "Make the hem {much} wider in all (wider or more gores), or split a seam up to the hip, its gores in halves.",
        much=n.more(_short(f)),
    )


def _measure(f: Finding, n: Numbers) -> str:
    field = "upper_arm_girth" if f.subject == "biceps" else f"{f.subject}_girth"
    return _("Measure it and give {field}.", field=field)


def _reaching(f: Finding, n: Numbers) -> str:
    gusset = 'sleeve.gusset = "auto"'
    helps = n.text("chosen") != "auto" and n.number("best") >= (f.needed or 0.0)
    if n.text("cut") == "wide panels" and not helps:
        if n.text("chosen") == "auto":
            return _("Choose {key}: side panels free the arms.", key=_SIDE_PANELS)
        return _("Choose {key} and {other}: side panels free the arms.", key=_SIDE_PANELS, other=gusset)
    if not helps:
        return _("Give the body more ease: it widens the side panels.")
    if n.text("seam") == "back":
        return _(
            "Choose {key} and {other} (a cap sleeve has to be longer for it).",
            key=gusset,
            other='sleeve.seam = "under"',
        )
    return _("Choose {key} (a cap sleeve has to be longer for it).", key=gusset)


def _over_head(f: Finding, n: Numbers) -> str:
    much = _wider(n, f)
    if n.text("at"):
        return _("Add {much} to the body's ease.", much=much)
    # what is closed below a side opening has to pass as well
    at = "side" if f.outcome == "look again" else "centre-front"
    return _("Add {much} to the body's ease, or open it with a closure {key}.", much=much, key=f'at = "{at}"')


_SIDE_PANELS: Final = 'body.cut = "shoulder panels"'


def _in_slit(f: Finding, n: Numbers) -> str:
    if f.subject.startswith("centre"):
        return _("Choose {key}: in a seam the gore is easy.", key=_CENTRE_SEAM)
    return _("Move these gores to the sides or to a centre seam: in a seam a gore is easy.")


_CENTRE_SEAM: Final = 'body.centre_seam = "both"'
_KEYHOLE: Final = {"key": 'neck.shape = "keyhole"', "slit": 'slit = "centre"'}


def _neck_ease(much: str) -> str:
    return _("Add {much} to the neck's ease, or choose {key} with {slit} and the usual drops.", much=much, **_KEYHOLE)


def _plain_keyhole() -> str:
    return _("Choose {key} with {slit}, and leave {other} out.", other="neck.ease", **_KEYHOLE)


def _gore_room(f: Finding, n: Numbers) -> str:
    if n.number("splits"):
        return _("Start these gores {much} lower, and end the split there as much lower.", much=_wider(n, f))
    return _("Start these gores {much} lower.", much=_wider(n, f))


def _allowance(f: Finding, n: Numbers) -> str:
    told = {"key": "sewing.allowance", "much": n.more(f.needed or 0.0)}
    if (f.measured or 0.0) >= n.number("overcast"):
        return _("Make {key} {much}, or choose {other}.", other='sewing.finish = "overcast"', **told)
    return _("Make {key} {much}.", **told)


_ASSEMBLY: Final = N_("This is a fault of the program, not of your choices: please report it with the sheet.")

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
        lambda f, n: _(_ASSEMBLY),
    ),
    "neck-too-small": lambda f, n: _neck_ease(n.more(_short(f) + 1)),
    "neck-tight": lambda f, n: _neck_ease(n.more(_short(f))),
    "neck-by-estimate": lambda f, n: _("Measure the head, level over the brow, and give {field}.", field="head_girth"),
    "cuff-too-small": lambda f, n: _("Make the cuff at least {much}.", much=n.more((f.needed or 0.0) + 1)),
    "cuff-by-estimate": lambda f, n: _(
        "Measure the hand round the knuckles, thumb tucked in, and give {field}.", field="hand_girth"
    ),
    "over-head": _over_head,
    "riding": lambda f, n: _(
        "Split it at {one} and {other}, both up to the crotch, with any gores there in halves.",
        one="centre-front",
        other="centre-back",
    ),
    "fits": _ease,
    "fits-by-estimate": _measure,
    "walking": _walking,
    "sitting": lambda f, n: _("Add {much} to the body's ease.", much=_wider(n, f)),
    "reaching": _reaching,
    "overhead": lambda f, n: _("Make the garment {much} longer.", much=n.more(n.number("rounding") - _short(f))),
    "overhead-held": lambda f, n: _choose('sleeve.head = "straight"' if n.text("head") == "shaped" else _SIDE_PANELS),
    "elbow-room": _straight_sleeve,
    "shoulder-strip": lambda f, n: (
        _("Give the neck less ease or the body more.") if n.text("shape") == "keyhole" else _plain_keyhole()
    ),
    "neck-width": lambda f, n: _("Give the neck less ease.") if n.text("shape") == "keyhole" else _plain_keyhole(),
    "gore-room": _gore_room,
    "gore-in-slit": _in_slit,
    "slit-depth": lambda f, n: _("Give the neck more ease, so that it needs less of a slit."),
    "split-top": lambda f, n: _("Let the split end at or below the waist."),
    "underarm-room": lambda f, n: _("Make the gusset {much} smaller, or the sleeve longer.", much=_wider(n, f)),
    "sleeve-length": lambda f, n: _("Shorten the sleeve by {much}.", much=n.more(n.number("rounding") - _short(f))),
    "hem-clears": lambda f, n: _("Shorten the garment by {much}, or keep it as a train.", much=_wider(n, f)),
    "fold-with-one-centre-seam": lambda f, n: _("Choose {key} to keep the fold.", key=_CENTRE_SEAM),
    "fold-with-open-shoulder": lambda f, n: _(
        "Ask for it yourself with {key}, or choose a slit.", key='body.shoulder = "seam"'
    ),
    "centre-seam-for-closure": lambda f, n: _("Ask for it yourself with {key}.", key=_CENTRE_SEAM),
    "gore-to-armpit": lambda f, n: _("Start them at {level} or lower.", level=n.less(n.number("start") - GORE_ROOM)),
    "panel-narrowed": lambda f, n: _("Give the body more ease, or choose {key}.", key='body.cut = "wide panels"'),
    "allowance-for-finish": _allowance,
    "corners-hang": lambda f, n: _(
        "Trim them level from the floor, or choose {key} for these gores.", key='hem = "arc"'
    ),
    "lasts": lambda f, n: _(
        "Give it room to grow with {section} {key}, or more ease.", section="[garment.growth]", key="months = 12"
    ),
    **ON_CLOTH_MEND,
    **TEARING_MEND,
    **HANG_MEND,
}
