"""Findings in words: one template for each code."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.assembling import ASSEMBLING_WHY
from ellwand.depict.words.bands import BAND_WHY
from ellwand.depict.words.evidence import EVIDENCE_WHY
from ellwand.depict.words.hanging import HANG_WHY
from ellwand.depict.words.heraldry import TINCTURE_WHY
from ellwand.depict.words.layers import LAYER_WHY
from ellwand.depict.words.on_cloth import ON_CLOTH_WHY
from ellwand.depict.words.others import OTHER_WHY
from ellwand.depict.words.saying import Numbers, Say, place
from ellwand.depict.words.tearing import TEARING_WHY
from ellwand.depict.words.wearing import WEARING_WHY
from ellwand.language import N_, _, plural
from ellwand.model.finding import Finding
from ellwand.model.names import named
from ellwand.units import decimal

PUSHED_UP: Final = 2.0
"""A sleeve that is so much longer than the arm (cm) is told to lie in folds."""


# --- lasts ----------------------------------------------------------------------------------------------


def _lasts(f: Finding, n: Numbers) -> str:
    most = n.number("most")

    def until(name: str) -> str:
        months = n.number(name)
        if months >= most:
            return _("for {n} months or more", n=decimal(most))
        return plural("for about {n} months", "for about {n} months", round(months))

    told = {"wide": until("wide"), "long": until("long")}
    if n.number("taken"):
        return _("As the child grows it goes on and fits {wide}, and, let down, it is long enough {long}.", **told)
    return _("As the child grows it goes on and fits {wide}, and it is long enough {long}.", **told)


# --- holds ----------------------------------------------------------------------------------------------


def _shoulder(f: Finding, n: Numbers) -> str:
    left = n.cm(f.measured)
    if f.outcome == "sound":
        return _("Between neck and panel edge {left} of shoulder are left.", left=left)
    return _(
        "Between neck and panel edge {left} of shoulder are left, less than the {need} that hold.",
        left=left,
        need=n.cm(f.needed),
    )


def _neck_width(f: Finding, n: Numbers) -> str:
    told = {"width": n.cm(f.measured), "most": n.cm(f.needed)}
    if f.outcome == "sound":
        return _("The neck is {width} wide and stays on the shoulders; it may be {most}.", **told)
    return _("The neck is {width} wide and is likely to slip off the shoulders; it may be {most}.", **told)


def _gore_room(f: Finding, n: Numbers) -> str:
    told = {"place": place(f.subject), "left": n.cm(f.measured)}
    if f.outcome == "sound":
        return _("Above the gore points at the {place} {left} of plain seam are left.", **told)
    return _(
        "Above the gore points at the {place} {left} of plain seam are left, too little to hold the point.", **told
    )


def _slit_depth(f: Finding, n: Numbers) -> str:
    much = n.cm(abs(f.measured or 0.0))
    if f.outcome == "sound":
        return _("The neck slit ends {much} above the waist.", much=much)
    return _("The neck slit ends {much} below the waist.", much=much)


def _split_top(f: Finding, n: Numbers) -> str:
    told = {"place": place(f.subject), "top": n.cm(f.measured)}
    if f.outcome == "sound":
        return _(
            "The split at the {place} is open up to {top} above the hem: sew a bar or a small patch across its top.",
            **told,
        )
    return _(
        "The split at the {place} is open up to {top} above the hem, above the waist: sew a bar or a small patch across"
        " its top.",
        **told,
    )


def _underarm(f: Finding, n: Numbers) -> str:
    if f.outcome == "sound":
        return _("Beyond the gusset {left} of plain underarm seam are left.", left=n.cm(f.measured))
    return _("Beyond the gusset only {left} of plain underarm seam are left.", left=n.cm(f.measured))


def _sleeve_length(f: Finding, n: Numbers) -> str:
    told = {"end": n.cm(f.measured), "arm": n.of("arm")}
    if f.outcome == "sound":
        said = _("The sleeve ends {end} from the shoulder point, on an arm of {arm}.", **told)
    else:
        said = _("The sleeve ends {end} from the shoulder point, too far beyond an arm of {arm}.", **told)
    over = (f.measured or 0.0) - n.number("arm")
    if over < PUSHED_UP:
        return said
    return f"{said} {_('Its {over} beyond the wrist are pushed up the forearm in folds.', over=n.cm(over))}"


def _hem(f: Finding, n: Numbers) -> str:
    if f.outcome == "sound":
        return _("The hem clears the floor by {much}.", much=n.cm(f.measured))
    return _(
        "The hem trails: the garment is {length} long, {much} more than nape to floor.",
        length=n.of("length"),
        much=n.cm(-(f.measured or 0.0)),
    )


# --- noted by the draft ---------------------------------------------------------------------------------


def _two_halves(f: Finding, n: Numbers) -> str:
    if n.text("face") == "front and back":
        return _("Front and back are cut in two halves each, because they open down the middle.")
    if n.text("face") == "front":
        return _("The front is cut in two halves, because it opens down the middle.")
    return _("The back is cut in two halves, because it opens down the middle.")


def _pieced(f: Finding, n: Numbers) -> str:
    told = {"piece": named(n.text("piece")), "off": named(n.text("off")), "size": n.of("size")}
    if n.text("what") == "wide":
        return _(
            "The {piece} is too wide for the cloth: the {off}, {size} wide, is cut apart and sewn on before anything"
            " else.",
            **told,
        )
    return _(
        "The {piece} is too long for the cloth: the {off}, {size} long, is cut apart and sewn on before anything else.",
        **told,
    )


FINISHED: Final[Mapping[str, str]] = {
    "plain": N_("{width} of seam allowance is too little for seams finished plain, which want {need} at least."),
    "run and fell": N_(
        "{width} of seam allowance is too little for seams finished run and fell, which want {need} at least."
    ),
    "flat-felled": N_(
        "{width} of seam allowance is too little for seams finished flat-felled, which want {need} at least."
    ),
    "french": N_("{width} of seam allowance is too little for seams finished french, which want {need} at least."),
    "overcast": N_("{width} of seam allowance is too little for seams finished overcast, which want {need} at least."),
    "open and stitched down": N_(
        "{width} of seam allowance is too little for seams finished open and stitched down, which want {need} at least."
    ),
}


WHY: Final[Mapping[str, Say]] = {
    **OTHER_WHY,
    **BAND_WHY,
    **LAYER_WHY,
    **EVIDENCE_WHY,
    **TINCTURE_WHY,
    **WEARING_WHY,
    "allowance-for-finish": lambda f, n: _(FINISHED[n.text("finish")], width=n.cm(f.measured), need=n.cm(f.needed)),
    **ASSEMBLING_WHY,
    # holds
    "shoulder-strip": _shoulder,
    "neck-width": _neck_width,
    "gore-room": _gore_room,
    "gore-in-slit": lambda f, n: _(
        "The gores at the {place} go into a slit {length} long cut in the cloth, and the point of a slit is hard to"
        " sew: reinforce it.",
        place=place(f.subject),
        length=n.cm(f.measured),
    ),
    "gore-at-opening": lambda f, n: _(
        "The gore points at the {place} meet the lower end of the opening: reinforce that corner.",
        place=place(f.subject),
    ),
    "slit-depth": _slit_depth,
    "split-top": _split_top,
    "underarm-room": _underarm,
    "sleeve-length": _sleeve_length,
    "hem-clears": _hem,
    # noted by the draft
    "fold-with-one-centre-seam": lambda f, n: _(
        "With a centre seam on one side only, front and back cannot be one length: they are cut apart and sewn at"
        " the shoulders."
    ),
    "fold-with-open-shoulder": lambda f, n: _(
        "A fold has no seam to leave open: front and back are cut apart and sewn at the shoulders."
    ),
    "centre-seam-for-closure": _two_halves,
    "gore-to-armpit": lambda f, n: _(
        "The gores at the {place} were asked to start {asked} above the hem; the seam ends at {start}, so they run up"
        " to its top.",
        place=place(f.subject),
        asked=n.of("asked"),
        start=n.of("start"),
    ),
    "panel-narrowed": lambda f, n: _(
        "Front and back are {panel} wide instead of the shoulders' {shoulder}, to leave side panels worth sewing.",
        panel=n.of("panel"),
        shoulder=n.of("shoulder"),
    ),
    "pieced": _pieced,
    "lasts": _lasts,
    "bloused": lambda f, n: _(
        "Of its {length} of length {blouse} are drawn up over a belt at the waist; unbelted it hangs so much lower.",
        length=n.of("length"),
        blouse=n.of("blouse"),
    ),
    "trailing": lambda f, n: _(
        "The back's hem dips {dip} below the front's and lies {trail} long on the floor.",
        dip=n.cm(f.measured),
        trail=n.of("trail"),
    ),
    "corners-hang": lambda f, n: _(
        "The gores at the {place} are cut straight below: once hung, their corners hang {much} below the hem.",
        place=place(f.subject),
        much=n.cm(f.measured),
    ),
    **ON_CLOTH_WHY,
    **TEARING_WHY,
    **HANG_WHY,
}
