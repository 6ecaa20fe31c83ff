"""How it is put on: what has to pass what, stage by stage, over the head or stepped into.

Over the head: the cloth is gathered up, the head goes in at the hem, then the shoulders; the arms go into the sleeves
after it.  With the arms raised the shoulders are no wider round than the bust (common practice, no source), so every
closed girth of the body has to pass the bust with what is worn beneath it, or the head of a small child, which is
larger.

Stepped into: the feet go in at a neck that is opened down a centre, and it is drawn up over the widest of the
body; so is all that is closed above the garment's hip.  Beside an opening the cloth gives way.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from ellwand.model.finding import Finding, Outcome
from ellwand.model.wearer import upper
from ellwand.prove.sewn import (
    Sewn,
    body_top,
    edges_of,
    girth_at,
    girth_beneath,
    level_of,
    opened_down,
    opens_through,
    rounding,
)

OVER_HEAD_EASE: Final = 4.0
"""What the narrowest part of the shell needs over bust or head to be pulled on (cm): common practice, no source."""
SAME: Final = 0.01


@dataclass(frozen=True, slots=True)
class Stage:
    """Something of the body passing something of the garment: ``at`` names a level or the neck, girths in cm."""

    at: str
    opening: float
    body: float

    @property
    def spare(self) -> float:
        """What is left over (cm); below 0 it does not pass."""
        return self.opening - self.body


def putting_on(sewn: Sewn) -> Finding:
    """The best way into it, with its narrowest stage."""
    at = _opened_at(sewn)
    if opens_through(sewn):
        return Finding("over-head-opens", "", "sound", values={"at": at})
    head, step = over_head(sewn), stepped_into(sewn)
    narrow, neck = min(head, key=_spare, default=None), min(step, key=_spare)
    if at.startswith("centre") and neck.spare >= -SAME and (narrow is None or neck.spare > narrow.spare):
        return Finding("stepped-into", "", "sound", neck.opening, neck.body, values={"at": at, "stage": neck.at})
    if narrow is None or (at and narrow.spare >= -SAME):
        return Finding("over-head-opens", "", "sound", values={"at": at})
    return _pulled(sewn, narrow, at)


def over_head(sewn: Sewn) -> tuple[Stage, ...]:
    """Every closed level of the body, from the hem up, passing the head and then the shoulders with raised arms."""
    body = max(_bust(sewn), upper(sewn.wearer.measures["head_girth"]))
    return tuple(Stage(name, girth_at(sewn, level), body) for name, level in _closed(sewn))


def stepped_into(sewn: Sewn) -> tuple[Stage, ...]:
    """The opened neck, and what is closed above the garment's hip, drawn up over hips, belly and bust."""
    wearer = sewn.wearer
    beneath = girth_beneath(sewn)
    body = max(_bust(sewn), *(wearer[f"{name}_girth"] + beneath for name in ("hip", "belly", "waist")))
    around = math.fsum(rim.length for rim in sewn.shell.rims if "neck" in rim.opens_to)
    hip = sewn.draft.dimensions.levels["hip"]
    closed = [(name, level) for name, level in _closed(sewn) if level > hip]
    return (Stage("neck", around, body), *(Stage(name, girth_at(sewn, level), body) for name, level in closed))


# --- inside ---------------------------------------------------------------------------------------------


def _spare(stage: Stage) -> float:
    return stage.spare


def _closed(sewn: Sewn) -> Iterator[tuple[str, float]]:
    """The levels (name, cm above the hem) at which the body is closed all round, from the hem to the armholes."""
    top, lowest = body_top(sewn), _opened_from(sewn)
    levels = {"hem": 0.0, **{k: h for k, h in sewn.draft.dimensions.levels.items() if 0 < h < top}, "armhole": top}
    return ((name, level) for name, level in levels.items() if level < lowest - SAME)


def _opened_from(sewn: Sewn) -> float:
    """The lowest level (cm above the hem) of an opening that runs from there to the armpit or the neck."""
    side = [
        level_of(sewn.pieces[ref.part], point)
        for ref, edge in edges_of(sewn, "opening")
        if "side-opening" in edge.id
        for point in edge.points
    ]
    return min([*side, *opened_down(sewn).values()], default=math.inf)


def _opened_at(sewn: Sewn) -> str:
    """'centre front', 'centre back' or 'side', where a closure opens it that far; else ''."""
    lows = opened_down(sewn)
    if lows:
        return f"centre {opens_through(sewn) or min(lows, key=lambda face: lows[face])}"
    return "side" if math.isfinite(_opened_from(sewn)) else ""


def _bust(sewn: Sewn) -> float:
    return sewn.wearer["bust_girth"] + girth_beneath(sewn)


def _pulled(sewn: Sewn, narrow: Stage, at: str) -> Finding:
    """Pulled on closed it wants some ease; where it is opened, the arms find their way without."""
    bust, head = sewn.wearer["bust_girth"], upper(sewn.wearer.measures["head_girth"])
    values: dict[str, float | str] = {
        "bust": bust,
        "beneath": girth_beneath(sewn),
        "rounding": rounding(sewn),
        "at": at,
    }
    if head > _bust(sewn):
        values |= {"head": head, "beneath": 0.0}
    wanted = narrow.body + (0.0 if at else OVER_HEAD_EASE)
    outcome: Outcome = "sound" if narrow.opening >= wanted - SAME else "look again"
    if narrow.spare < -SAME:
        outcome = "will not work"
    return Finding("over-head", "", outcome, narrow.opening, wanted, values=values)
