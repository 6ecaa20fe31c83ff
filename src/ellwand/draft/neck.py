"""The neck opening on this wearer: its size, its slit or open shoulders, and what it leaves of the shoulder."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Final, Literal

from ellwand.draft.neck_curves import curve
from ellwand.draft.seamline import HALF_SLIT
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line
from ellwand.language import _
from ellwand.model.choices import Choices, Neck
from ellwand.model.draft import Note
from ellwand.model.wearer import HANDS, Hand, Wearer, upper
from ellwand.units import format_length, round_up

NECK_ALLOWANCE: Final = 1.0
"""A wider allowance will not turn on a tight curve (cm): common practice, no source."""
CLOSE_EASE: Final = 2.0
"""Over the neck base girth, for an opening close to the neck (cm): common practice, no source."""
PULL_ON_EASE: Final = 2.0
"""Over the head girth, for an opening pulled on without a slit (cm): common practice, no source."""
SLIT_EASE: Final = 1.0
"""A slit neck passes the head with this much to spare (cm): common practice, no source."""
SHORTEST_SLIT: Final = 4.0
"""A shorter slit is not worth its facing (cm): common practice, no source."""
SHOULDER_LEFT: Final = 2.0
"""An open shoulder leaves at least this much seam beside the arm (cm): common practice, no source."""


@dataclass(frozen=True, slots=True)
class NeckLine:
    """Half the opening: ``front`` from the centre front to the shoulder line, ``back`` on to the centre back.

    ``slit``: its length, cut down the ``slit_face`` at ``slit_x``; ``open_shoulders``: how far each shoulder seam is
    left open from the neck (cm).
    """

    front: Line
    back: Line
    target: float
    slit: float = 0.0
    slit_x: float = 0.0
    slit_face: Literal["front", "back"] = "front"
    open_shoulders: Mapping[str, float] = field(default_factory=dict)

    @property
    def front_drop(self) -> float:
        """Depth below the shoulder line at the centre front (cm)."""
        return -self.front[0][1]

    @property
    def back_drop(self) -> float:
        """Depth below the shoulder line at the centre back (cm)."""
        return self.back[-1][1]

    @property
    def at_shoulder(self) -> float:
        """Half the width on the shoulder line (cm)."""
        return self.front[-1][0]

    @property
    def half_width(self) -> float:
        """Half the greatest width (cm)."""
        return max(x for x, _ in (*self.front, *self.back))


def neck_allowance(choices: Choices) -> float:
    """Allowance (cm) inside the neck's edge."""
    return min(choices.sewing.allowance, NECK_ALLOWANCE)


def slit_of(neck: Neck) -> str:
    """Where the slit is cut: none, centre, left, right or back; a keyhole's is at the centre unless told otherwise."""
    if neck.slit != "auto":
        return neck.slit
    return "centre" if neck.shape == "keyhole" else "none"


def shoulders_open(neck: Neck) -> tuple[Hand, ...]:
    """The shoulders whose seams are left open beside the neck."""
    if neck.opening == "both shoulders":
        return HANDS
    return tuple(hand for hand in HANDS if neck.opening == f"shoulder {hand}")


def neck_of(choices: Choices, wearer: Wearer, grid: float, notes: list[Note]) -> NeckLine:
    """The neck opening for these choices on this wearer.

    Raises CannotDraft when the opening would be wider than the shoulders, or cannot have the depth asked for.
    """
    neck = choices.neck
    slit_side, shoulders = slit_of(neck), shoulders_open(neck)
    _legal(neck, slit_side)
    closed = slit_side != "none" or bool(shoulders)
    head = upper(wearer.measures["head_girth"])
    if closed:
        base = upper(wearer.measures["neck_base_girth"])
        target = base + (CLOSE_EASE if neck.ease is None else neck.ease)
    else:
        target = head + (PULL_ON_EASE if neck.ease is None else neck.ease)
    if wearer.measures["head_girth"].source == "estimated":
        notes.append(Note("head-estimated", "neck", {"head": wearer["head_girth"], "used": head}))
    line = NeckLine(*curve(target, wearer, neck), target)
    if 2 * line.half_width >= wearer["across_shoulder"]:
        raise CannotDraft(
            "garment.neck",
            _(
                "the opening would be {wide} wide, wider than the shoulders ({shoulders})",
                wide=format_length(2 * line.half_width),
                shoulders=format_length(wearer["across_shoulder"]),
            ),
            _('choose less ease, or shape = "keyhole"'),
        )
    missing = (head + SLIT_EASE - target) / 2
    if shoulders:
        each = max(SHORTEST_SLIT, round_up(missing / len(shoulders), grid))
        return replace(line, open_shoulders=dict.fromkeys(shoulders, each))
    if not closed:
        return line
    return replace(
        line,
        slit=max(SHORTEST_SLIT, round_up(missing, grid)),
        slit_x=_slit_x(choices, slit_side, line.half_width),
        slit_face="back" if slit_side == "back" else "front",
    )


def _legal(neck: Neck, slit_side: str) -> None:
    if neck.shape == "keyhole" and slit_side == "none":
        raise CannotDraft(
            "garment.neck.slit",
            _("a keyhole neck is a round neck with a slit"),
            _('choose slit = "centre", or shape = "round"'),
        )
    if neck.opening != "none" and slit_side != "none":
        raise CannotDraft(
            "garment.neck.opening",
            _("the neck has a slit already, so no shoulder need be open"),
            _('choose shape = "round" and slit = "none", or opening = "none"'),
        )
    if neck.back == "pointed" and neck.shape != "V":
        raise CannotDraft(
            "garment.neck.back", _("only a V neck has a pointed back"), _('choose shape = "V", or leave it out')
        )


def _slit_x(choices: Choices, side: str, half_width: float) -> float:
    """Where the slit lies: on a rectangle it runs on from the cut edge of its side, elsewhere well inside the curve."""
    sign = {"left": 1.0, "right": -1.0}.get(side, 0.0)
    if choices.neck.shape in ("rectangle", "square"):
        # a hair further in, so that both lips start on the lower edge
        return sign * (half_width - neck_allowance(choices) - HALF_SLIT - 1e-8)
    return sign * 0.6 * half_width


def leaves_shoulder(neck: NeckLine, panel: float) -> None:
    """Raises CannotDraft when the neck, with what is open beside it, leaves no shoulder on a panel so wide (cm)."""
    if 2 * neck.half_width > panel - 4:
        raise CannotDraft(
            "garment.neck",
            _(
                "the opening, {wide} wide, leaves no shoulder on a panel of {panel}",
                wide=format_length(2 * neck.half_width),
                panel=format_length(panel),
            ),
            _('choose less ease, or shape = "keyhole"'),
        )
    seam, opened = panel / 2 - neck.at_shoulder, max(neck.open_shoulders.values(), default=0.0)
    if opened > seam - SHOULDER_LEFT:
        one = len(neck.open_shoulders) == 1
        raise CannotDraft(
            "garment.neck.opening",
            _(
                "{opened} of shoulder must open for the head to pass, and the seam is {seam}",
                opened=format_length(opened),
                seam=format_length(seam),
            ),
            _('choose opening = "both shoulders", or more ease') if one else _("choose more ease, or a slit instead"),
        )
