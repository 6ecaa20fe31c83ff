"""Does it go on, fit and move: findings of a garment on its wearer in words."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say, level
from ellwand.language import N_, _
from ellwand.model.finding import Finding, Outcome
from ellwand.model.names import named


def _at(f: Finding) -> str:
    return level("upper arm" if f.subject == "biceps" else f.subject)


# --- goes on --------------------------------------------------------------------------------------------


def _neck_opens(f: Finding, n: Numbers) -> str:
    if n.text("face") == "front":
        return _("The front opens all the way down, so the head need not pass the neck.")
    return _("The back opens all the way down, so the head need not pass the neck.")


PULLED_ON: Final[Mapping[Outcome, str]] = {
    "sound": N_("Pulled on over the head, the arms after it, its narrowest girth of {girth} passes {body}."),
    "look again": N_(
        "Pulled on over the head, the arms after it, its narrowest girth of {girth} barely passes {body}."
    ),
    "will not work": N_(
        "Pulled on over the head, the arms after it, its narrowest girth of {girth} does not pass {body}."
    ),
}


def _over_head(f: Finding, n: Numbers) -> str:
    beneath = n.number("beneath")
    if "head" in n.values and beneath:
        body = _("a head of {head} and {beneath} beneath", head=n.of("head"), beneath=n.of("beneath"))
    elif "head" in n.values:
        body = _("a head of {head}", head=n.of("head"))
    elif beneath:
        body = _("a bust of {bust} and {beneath} beneath", bust=n.of("bust"), beneath=n.of("beneath"))
    else:
        body = _("a bust of {bust}", bust=n.of("bust"))
    return _(PULLED_ON[f.outcome], girth=n.cm(f.measured), body=body)


def _stepped_into(f: Finding, n: Numbers) -> str:
    return _(
        "Opened at the {place} and stepped into, it passes a body of {body} at its narrowest: {girth} at the {where}.",
        place=named(n.text("at")),
        body=n.cm(f.needed),
        girth=n.cm(f.measured),
        where=level(n.text("stage")),
    )


# --- fits -----------------------------------------------------------------------------------------------


def _fits(f: Finding, n: Numbers) -> str:
    over = (
        _("{body} of body and {beneath} beneath", body=n.of("body"), beneath=n.of("beneath"))
        if n.number("beneath")
        else _("{body} of body", body=n.of("body"))
    )
    told = {"where": _at(f), "girth": n.cm(f.measured), "over": over}
    if f.outcome == "will not work":
        return _("At the {where} the garment is {girth} round, less than {over}.", **told)
    told["ease"] = n.of("ease")
    if f.outcome == "look again":
        return _(
            "At the {where} the garment is {girth} round, {ease} of ease over {over}, less than the {least} it wants.",
            least=n.of("least"),
            **told,
        )
    return _("At the {where} the garment is {girth} round, {ease} of ease over {over}.", **told)


def _fits_by_estimate(f: Finding, n: Numbers) -> str:
    return _(
        "At the {where} the garment is {girth} round; the body is estimated at {body}, give or take {sd}, and may be"
        " too large for it.",
        where=_at(f),
        girth=n.cm(f.measured),
        body=n.of("body"),
        sd=n.of("sd"),
    )


# --- moves ----------------------------------------------------------------------------------------------

WALKING: Final[Mapping[Outcome, str]] = {
    "sound": N_(
        "The closed skirt is {girth} round at its lowest, which leaves room for a step of {step}; the full step takes"
        " {need}."
    ),
    "look again": N_(
        "The closed skirt is {girth} round at its lowest, which shortens a step of {step}; the full step takes {need}."
    ),
    "will not work": N_(
        "The closed skirt is {girth} round at its lowest, which stops a step of {step}; the full step takes {need}."
    ),
}


def _walking_open(f: Finding, n: Numbers) -> str:
    if n.text("face") == "front":
        return _("The front opens to the hem, so the legs are free to walk.")
    return _("The back opens to the hem, so the legs are free to walk.")


def _under(n: Numbers) -> str:
    """What an arm lifts with, after 'lifts'."""
    if n.number("gusset"):
        return f" {_('with a gusset of {size}', size=n.of('gusset'))}"
    if n.number("panel"):
        return f" {_('over a side panel {width} wide', width=n.of('panel'))}"
    return ""


def _reaching(f: Finding, n: Numbers) -> str:
    needed, far = f.needed or 0.0, f.measured or 0.0
    told = {"with": _under(n), "rises": n.of("rises")}
    angles = {"far": f"{far:.0f}", "level": f"{needed:.0f}"}
    if far >= needed:
        first = _(
            "Before the hem rises by {rises} the arm lifts{with} to {far}° (level is {level}°).", **told, **angles
        )
    elif far:
        first = _("The arm lifts{with} to only {far}° of {level}° before the hem rises by {rises}.", **told, **angles)
    else:
        first = _("The armhole is too close{with} for the arm to lift without the hem rising by {rises}.", **told)
    if math.isinf(n.number("level")):
        return f"{first} {_('The sleeve itself holds the arm below level.')}"
    if n.number("gusset") and math.isfinite(n.number("bare_level")):
        then = _(
            "With the arm level it rises {much}, without the gusset it would rise {bare}.",
            much=n.of("level"),
            bare=n.of("bare_level"),
        )
    else:
        then = _("With the arm level it rises {much}.", much=n.of("level"))
    return f"{first} {then}"


def _overhead(f: Finding, n: Numbers) -> str:
    bare = n.number("bare")
    told = {"much": n.cm(f.measured), "hem": n.of("hem")}
    if math.isfinite(bare) and abs(bare - (f.measured or 0.0)) > 0.1:
        told["bare"] = n.of("bare")
        if f.outcome == "sound":
            return _(
                "With both arms straight up the hem rises {much} at the sides (without the gusset {bare}), to {hem}"
                " above the floor.",
                **told,
            )
        return _(
            "With both arms straight up the hem rises {much} at the sides (without the gusset {bare}), to {hem} above"
            " the floor, above the waist.",
            **told,
        )
    if f.outcome == "sound":
        return _("With both arms straight up the hem rises {much} at the sides, to {hem} above the floor.", **told)
    return _(
        "With both arms straight up the hem rises {much} at the sides, to {hem} above the floor, above the waist.",
        **told,
    )


def _elbow(f: Finding, n: Numbers) -> str:
    told = {"girth": n.cm(f.measured), "need": n.cm(f.needed), "straight": n.of("straight"), "bent": n.of("bent")}
    if n.number("beneath"):
        return _(
            "At the elbow the sleeve is {girth} round; a bent elbow takes {need}: {straight} straight, {bent} more"
            " bent, {beneath} beneath.",
            beneath=n.of("beneath"),
            **told,
        )
    return _(
        "At the elbow the sleeve is {girth} round; a bent elbow takes {need}: {straight} straight, {bent} more bent.",
        **told,
    )


def _sitting(f: Finding, n: Numbers) -> str:
    told = {"need": n.cm(f.needed), "girth": n.cm(f.measured)}
    if f.subject != "seat":
        if f.outcome == "sound":
            return _("Sitting with knees apart takes {need}: the garment's {girth} there is room for that.", **told)
        return _("Sitting with knees apart takes {need}: the garment's {girth} there is less than that.", **told)
    told["body"] = n.of("body")
    if n.number("beneath"):
        if f.outcome == "sound":
            return _(
                "Sitting, a seat of {body} spreads to {need} with what is beneath: the garment's {girth} is room for"
                " that.",
                **told,
            )
        return _(
            "Sitting, a seat of {body} spreads to {need} with what is beneath: the garment's {girth} is less than"
            " that.",
            **told,
        )
    if f.outcome == "sound":
        return _("Sitting, a seat of {body} spreads to {need}: the garment's {girth} is room for that.", **told)
    return _("Sitting, a seat of {body} spreads to {need}: the garment's {girth} is less than that.", **told)


def _sitting_open(f: Finding, n: Numbers) -> str:
    return _("Sitting, the seat finds it open.") if f.subject == "seat" else _("Sitting, the knees find it open.")


def _riding(f: Finding, n: Numbers) -> str:
    told = {"height": n.of("height"), "need": n.cm(f.needed), "girth": n.cm(f.measured)}
    if f.outcome == "sound":
        return _("It can be ridden in: astride, {height} above the floor, the legs take {need} of its {girth}.", **told)
    return _("Astride, {height} above the floor, the legs take {need}, and it is closed at {girth}.", **told)


WEARING_WHY: Final[Mapping[str, Say]] = {
    "neck-opens": _neck_opens,
    "neck-passes": lambda f, n: _(
        "The neck opens to {around} and passes a head of {head}.", around=n.cm(f.measured), head=n.of("head")
    ),
    "neck-tight": lambda f, n: _(
        "The neck opens to {around}, barely enough for a head of {head}.", around=n.cm(f.measured), head=n.of("head")
    ),
    "neck-too-small": lambda f, n: _(
        "The neck opens to {around}, too small for a head of {head}.", around=n.cm(f.measured), head=n.of("head")
    ),
    "neck-by-estimate": lambda f, n: _(
        "The neck opens to {around}, but the head was not measured: it is estimated at {head}, give or take {sd}.",
        around=n.cm(f.measured),
        head=n.of("head"),
        sd=n.of("sd"),
    ),
    "cuff": lambda f, n: _(
        "The sleeve is at least {girth} round and passes a hand of {hand}.", girth=n.cm(f.measured), hand=n.of("hand")
    ),
    "cuff-opened": lambda f, n: _(
        "Opened {opening} up its seam, the cuff gives {girth} and passes a hand of {hand}.",
        opening=n.of("opening"),
        girth=n.cm(f.measured),
        hand=n.of("hand"),
    ),
    "cuff-too-small": lambda f, n: _(
        "The cuff passes {girth}, too small for a hand of {hand}.", girth=n.cm(f.measured), hand=n.of("hand")
    ),
    "cuff-by-estimate": lambda f, n: _(
        "The cuff passes {girth}; the hand is estimated at {hand}, give or take {sd}, and may be larger.",
        girth=n.cm(f.measured),
        hand=n.of("hand"),
        sd=n.of("sd"),
    ),
    "over-head": _over_head,
    "over-head-opens": lambda f, n: _(
        "It opens at the {place}, so it need not be pulled on closed.", place=named(n.text("at"))
    ),
    "stepped-into": _stepped_into,
    "fits": _fits,
    "fits-by-estimate": _fits_by_estimate,
    "fits-open": lambda f, n: _(
        "At the {where} the cloth is {girth} round and split open, so it gives way to a body of {body}.",
        where=_at(f),
        girth=n.cm(f.measured),
        body=n.of("body"),
    ),
    "walking": lambda f, n: _(WALKING[f.outcome], girth=n.cm(f.measured), step=n.of("step"), need=n.cm(f.needed)),
    "walking-open": _walking_open,
    "walking-split": lambda f, n: _(
        "A split reaches {split} above the hem, to the knee or higher, so the legs are free to walk.",
        split=n.of("split"),
    ),
    "reaching": _reaching,
    "overhead": _overhead,
    "overhead-held": lambda f, n: _("The sleeve holds the arms from going straight up, however far the hem rises."),
    "elbow-room": _elbow,
    "sitting": _sitting,
    "sitting-open": _sitting_open,
    "riding": _riding,
    "riding-open": lambda f, n: _("It can be ridden in: it opens up to the crotch or higher."),
}
