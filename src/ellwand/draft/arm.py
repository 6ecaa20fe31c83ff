"""The sleeve in numbers: its top, length, cuff, opening and gusset, settled on this wearer."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from ellwand.draft.gusset import Kite, arm_lifts, gusset_side, kite_of
from ellwand.draft.head import CAP_SHARE, HOLLOW_SHARE, armhole_line, head_width
from ellwand.draft.size import beneath
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import length as length_of
from ellwand.geometry.reach import ELBOW_SHARE
from ellwand.language import _
from ellwand.model.choices import Choices
from ellwand.model.wearer import HANDS, Wearer, upper
from ellwand.units import format_length, round_near, round_up

HAND_EASE: Final = 1.0
"""A closed cuff is this much wider than the hand with the thumb tucked in (cm): common practice."""
ARM_SHARES: Final = {"cap": 0.25, "elbow": ELBOW_SHARE, "three-quarter": 0.78, "wrist": 1.0, "over-hand": 1.22}
"""Where a sleeve ends as a share of the arm; but for the elbow common practice, no source."""


@dataclass(frozen=True, slots=True)
class Arm:
    """A sleeve's numbers (cm): width under its head, own length along the top of the arm, elbow width and its height
    above the cuff, cuff, opening in the long seam, gusset.

    ``behind``: from the shoulder line back to the long seam, along the top; ``rise`` of the head and ``hollow`` of the
    armhole, 0 when straight; ``drop`` of the cuff at the underarm; ``gore``: the base of an elbow gore.
    """

    top: float
    length: float
    elbow: float
    elbow_height: float
    cuff: float
    opening: float
    kite: Kite
    behind: float
    rise: float = 0.0
    hollow: float = 0.0
    drop: float = 0.0
    gore: float = 0.0

    @property
    def gusset(self) -> float:
        """The gusset's side along the sleeve, 0 without one."""
        return self.kite.sleeve


NO_ARM: Final = Arm(0, 0, 0, 0, 0, 0, Kite(0, 0), 0)


def arm_of(
    choices: Choices,
    wearer: Wearer,
    grid: float,
    armhole: float,
    side_panel: float,
    drop: float,
    pieced: bool,
    arm_length: float,
) -> Arm:
    """The sleeve for an arm of ``arm_length``, its cuff and the gusset.

    ``armhole``: its depth; below it lies a side panel's top ``side_panel`` wide, ``pieced`` when that is in two
    halves, so that a gusset can sit between them.  ``drop``: how far the body reaches down the arm.
    """
    sleeve = choices.sleeve
    if sleeve.shape == "none":
        return NO_ARM
    rise, hollow, head = _head(choices, armhole)
    top = 2 * head + side_panel
    full = arm_length - drop
    asked = sleeve.length if isinstance(sleeve.length, float) else ARM_SHARES[sleeve.length] * arm_length - drop
    length = round_near(asked, grid)
    if length < 4:
        raise CannotDraft(
            "garment.sleeve.length",
            _(
                "the body already reaches {drop} down the arm, so this sleeve would be {length} long",
                drop=format_length(drop),
                length=format_length(max(length, 0)),
            ),
            _('choose a longer sleeve, shape = "none", or cut = "shoulder panels"'),
        )
    hangs = _drop(choices, grid)
    high = length - rise
    reach = min(1.0, max(0.0, (drop + length) / arm_length))
    cuff, passes = _cuff(choices, wearer, grid, top, length / full if full > 0 else 1.0, reach)
    elbow_height = length - (ARM_SHARES["elbow"] * arm_length - drop)
    elbow = 0.0
    if sleeve.shape == "fitted forearm":
        elbow = _elbow(wearer, grid, top, cuff, elbow_height)
    above = min(1.0, max(0.0, elbow_height) / high) if high > 0 else 0.0
    at_elbow = elbow or cuff + (top - cuff) * above
    longest = max(wearer.arm(hand) for hand in HANDS)
    if side_panel and not pieced:
        gusset = 0.0
    elif arm_length < longest:
        # both arms share one gusset
        gusset = arm_of(choices, wearer, grid, armhole, side_panel, drop, pieced, longest).gusset
    else:
        lifts = arm_lifts(choices, wearer, armhole, side_panel, length, elbow_height, high, top, at_elbow)
        gusset = gusset_side(choices, wearer, grid, lifts)
    kite = kite_of(sleeve.gusset_shape, gusset)
    behind = _behind(choices, armhole, top, side_panel, gusset)
    gore = _gore(choices, grid, cuff, elbow_height, high, gusset, passes)
    opening = 0.0
    if cuff + gore < passes - 1e-6:
        opening = _opening(grid, top, elbow, elbow_height, cuff, high, gusset, passes)
    underarm = math.hypot(high, (top - cuff) / 2)
    if gusset + opening > underarm - 1:
        raise CannotDraft(
            "garment.sleeve",
            _(
                "a gusset of {gusset} and a cuff opening of {opening} do not fit on an underarm seam of {underarm}",
                gusset=format_length(gusset),
                opening=format_length(opening),
                underarm=format_length(underarm),
            ),
            _("choose a longer sleeve, a smaller gusset or a wider cuff"),
        )
    return Arm(top, length, elbow, max(elbow_height, 0.0), cuff, opening, kite, behind, rise, hollow, hangs, gore)


def _head(choices: Choices, armhole: float) -> tuple[float, float, float]:
    """(rise of the head, hollow of the armhole, half the head's width), cm."""
    sleeve, body = choices.sleeve, choices.body
    if sleeve.head == "straight":
        if sleeve.head_ease:
            raise CannotDraft(
                "garment.sleeve.head_ease",
                _("a straight head is sewn in level, without ease"),
                _('choose head = "shaped", or leave head_ease out'),
            )
        return 0.0, 0.0, armhole
    if body.cut == "wide panels" and body.shoulder == "fold":
        raise CannotDraft(
            "garment.sleeve.head",
            _("on wide panels folded over the shoulder the armhole stays straight"),
            _('choose body.shoulder = "seam", cut = "shoulder panels", or head = "straight"'),
        )
    rise, hollow = armhole * CAP_SHARE, armhole * HOLLOW_SHARE
    along = length_of(armhole_line(armhole, hollow)) + sleeve.head_ease / 2
    return rise, hollow, head_width(along, rise)


def _behind(choices: Choices, armhole: float, top: float, side_panel: float, gusset: float) -> float:
    """From the shoulder line back to the long seam, along the sleeve's top (cm).

    Behind the arm it lies where the back's side edge ends; on wide panels half way down the back of the armhole.
    """
    sleeve = choices.sleeve
    if sleeve.seam == "under":
        return top / 2
    if gusset:
        raise CannotDraft(
            "garment.sleeve.seam",
            _("a gusset ends the underarm seam, so with one the long seam cannot lie behind the arm"),
            _('choose seam = "under", gusset = "none", or body.cut = "shoulder panels" with whole side panels'),
        )
    if side_panel:
        return (top - side_panel) / 2
    if sleeve.head == "shaped":
        raise CannotDraft(
            "garment.sleeve.seam",
            _("on wide panels a seam behind the arm would cut into the shaped head"),
            _('choose seam = "under", head = "straight", or body.cut = "shoulder panels"'),
        )
    return armhole / 2


def _drop(choices: Choices, grid: float) -> float:
    sleeve = choices.sleeve
    if sleeve.drop and sleeve.shape != "wide":
        raise CannotDraft(
            "garment.sleeve.drop",
            _("only a wide sleeve's opening can hang lower"),
            _('choose shape = "wide", or drop = 0'),
        )
    if sleeve.drop and choices.growth:
        raise CannotDraft(
            "garment.sleeve.drop",
            _("a slanted cuff cannot be let down as the child grows"),
            _("leave out drop or growth"),
        )
    return round_near(sleeve.drop, grid)


def _gore(
    choices: Choices, grid: float, cuff: float, elbow_height: float, high: float, gusset: float, passes: float
) -> float:
    """The base of the elbow gore (cm), 0 for none."""
    asked = choices.sleeve.elbow_gore
    if not asked:
        return 0.0
    where = "garment.sleeve.elbow_gore"
    if choices.growth:
        raise CannotDraft(where, _("a cuff with a gore cannot be taken up evenly"), _("leave out elbow_gore or growth"))
    if choices.sleeve.drop:
        raise CannotDraft(where, _("a gore's hem does not meet a slanted cuff"), _("leave out elbow_gore or drop"))
    if elbow_height < 8 or elbow_height > high - gusset - 2:
        raise CannotDraft(
            where, _("the sleeve has no room for a gore from its elbow to its cuff"), _('choose length = "wrist"')
        )
    base = max(grid, round_near(asked, grid))
    if base > elbow_height * math.pi / 3:
        raise CannotDraft(
            where,
            _(
                "{base} is too wide for a gore {long} long",
                base=format_length(base),
                long=format_length(elbow_height),
            ),
            _("make it {most} or less", most=format_length(math.floor(elbow_height))),
        )
    if cuff + base < passes - 1e-6:
        need = round_up(passes - cuff, grid)
        raise CannotDraft(
            where,
            _(
                "cuff and gore, {both} together, do not pass the hand, which needs {passes}",
                both=format_length(cuff + base),
                passes=format_length(passes),
            ),
            _("make the gore {need} wide, or choose a wider cuff", need=format_length(need)),
        )
    return base


def _cuff(choices: Choices, wearer: Wearer, grid: float, top: float, share: float, reach: float) -> tuple[float, float]:
    """(cuff, what must pass it): girths in cm; ``share``: how far down a full sleeve this one ends."""
    sleeve = choices.sleeve
    extra = beneath(choices) if reach < 0.9 else 0.0
    passes = upper(wearer.measures["hand_girth"]) + HAND_EASE
    on_arm = wearer["upper_arm_girth"] + (wearer["wrist_girth"] - wearer["upper_arm_girth"]) * reach + extra
    if isinstance(sleeve.cuff, float):
        cuff = round_near(sleeve.cuff, grid)
        if cuff < on_arm:
            raise CannotDraft(
                "garment.sleeve.cuff",
                _(
                    "{cuff} is closer than the arm, {on_arm} where the sleeve ends",
                    cuff=format_length(cuff),
                    on_arm=format_length(on_arm),
                ),
                _("make the cuff at least {least}", least=format_length(round_up(on_arm + 0.5, grid))),
            )
        if sleeve.shape == "straight" and abs(cuff - top) > grid:
            raise CannotDraft(
                "garment.sleeve.cuff",
                _("a straight sleeve is as wide at the cuff as at its top, {top}", top=format_length(top)),
                _('leave cuff out, or choose shape = "tapered" or "wide"'),
            )
        if sleeve.shape in ("tapered", "fitted forearm") and cuff > top:
            raise CannotDraft(
                "garment.sleeve.cuff",
                _(
                    "{cuff} is wider than the sleeve's top, {top}",
                    cuff=format_length(cuff),
                    top=format_length(top),
                ),
                _('choose shape = "wide" or a closer cuff'),
            )
        if sleeve.shape == "wide" and cuff < top:
            raise CannotDraft(
                "garment.sleeve.cuff",
                _("a wide sleeve opens wider than its top, {top}", top=format_length(top)),
                _('give a larger cuff or choose shape = "tapered"'),
            )
        return cuff, passes
    if sleeve.shape == "straight":
        return top, passes
    if sleeve.shape == "wide":
        # three quarters wider at the opening than at the top: common practice, no source
        return round_up(1.75 * top, grid), passes
    close = sleeve.cuff == "close" or (sleeve.cuff == "auto" and sleeve.shape == "fitted forearm")
    if close:
        return min(top, round_up(on_arm + 2.0, grid)), passes
    at_wrist = min(top, passes)
    cuff = at_wrist if share >= 1 else top + (at_wrist - top) * share
    return min(top, round_up(max(cuff, on_arm + 2.0, passes), grid)), passes


def _elbow(wearer: Wearer, grid: float, top: float, cuff: float, elbow_height: float) -> float:
    if elbow_height < 8:
        raise CannotDraft(
            "garment.sleeve.length",
            _("a sleeve with a fitted forearm has to reach well below the elbow"),
            _('choose length = "wrist" or shape = "tapered"'),
        )
    # loose above: a bent elbow takes about the upper arm plus 6 cm (common practice, no source)
    return min(top, max(cuff, round_up(wearer["upper_arm_girth"] + 6, grid)))


def _opening(
    grid: float,
    top: float,
    elbow: float,
    elbow_height: float,
    cuff: float,
    length: float,
    gusset: float,
    passes: float,
) -> float:
    """How far up the underarm seam (cm) the sleeve must open so that the girth at its end passes the hand."""
    wide, high = (elbow, elbow_height) if elbow else (top, length)
    if passes > wide:
        wide, high, cuff_at, base = top, length, elbow, elbow_height
    else:
        cuff_at, base = cuff, 0.0
    if passes > top or wide <= cuff_at:
        raise CannotDraft(
            "garment.sleeve.cuff",
            _(
                "the sleeve is nowhere wide enough for the hand, which needs {passes}",
                passes=format_length(passes),
            ),
            _("widen the sleeve"),
        )
    share = max(0.0, passes - cuff_at) / (wide - cuff_at)
    rise = share * (high - base)
    along = math.hypot(rise, share * (wide - cuff_at) / 2)
    if base:
        along += math.hypot(base, (elbow - cuff) / 2)
    opening = round_up(along, grid)
    if opening > math.hypot(length, (top - cuff) / 2) - gusset - 1:
        raise CannotDraft(
            "garment.sleeve.cuff",
            _("the sleeve would have to open all the way to the gusset for the hand to pass"),
            _("choose a wider cuff"),
        )
    return opening
