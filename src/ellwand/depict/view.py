"""The sewn garment lying flat, drawn from its pieces, as they are sewn together."""

from __future__ import annotations

import math

from ellwand.depict.setting_in import Face
from ellwand.depict.view_arm import Arm
from ellwand.depict.view_bands import SleeveSeen, bands_on_body, bands_on_sleeve, body_seen
from ellwand.depict.view_beside import Beside
from ellwand.depict.view_closings import Spot, closings_on
from ellwand.depict.view_field import Shown, apart, charge_strokes, field_strokes, in_tincture, sleeve_tinctures
from ellwand.depict.view_motifs import motifs_on_body, motifs_on_sleeve
from ellwand.depict.view_other_bands import bands_on_other, hem_stitched
from ellwand.depict.view_others import other_view
from ellwand.depict.view_seams import gaping, seams_of
from ellwand.depict.view_stitching import stitched
from ellwand.depict.view_trunk import Trunk
from ellwand.geometry.lines import Point, shift
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Stroke
from ellwand.model.wearer import HANDS


def garment_view(draft: Draft, face: Face, shown: Shown = "hatching") -> Drawing:
    """The garment laid flat, seen from the front or from behind, hem at y ≈ 0, in cm.

    Gores fan out from their points: each half of the width they add turns the cloth beside it aside.
    ``shown``: how tinctures are told apart where there are any, in hatching for paper or in colours for screens.
    """
    if draft.choices.other is not None:
        drawn = other_view(draft, face).strokes
        put_on = bands_on_other(draft, face, drawn) if draft.adornment.bands else []
        return Drawing((*drawn, *put_on, *hem_stitched(draft, face, drawn)), ())
    trunk = Trunk(draft, face)
    arms = [Arm(draft, hand, face, trunk) for hand in HANDS] if draft.choices.sleeve.shape != "none" else []
    beside = Beside(draft, trunk)
    spots = _Spots(draft, trunk, beside, arms)
    outline, seams = trunk.outline(), seams_of(trunk)
    strokes: list[Stroke] = []
    if face == "front" and draft.dimensions.back_dip:
        # a longer back is seen below the front
        strokes.append(Stroke("garment back", Trunk(draft, "back").outline(), True))
    step, tinctures = apart(outline), sleeve_tinctures(draft)
    gusset = 0.0
    for arm in arms:
        strokes += [arm.ground(), *in_tincture(arm.outline(), tinctures.get(arm.hand), shown, step), *arm.seams()]
        if (hem := arm.hem()) and all(band.at != "cuffs" for band in draft.adornment.bands):
            strokes.append(hem)
        strokes.append(arm.contour())
        if draft.dimensions.gusset:
            ground, fold = arm.gusset()
            gusset = math.dist(*ground.points[:2])
            strokes += [ground, *in_tincture(ground.points, arm.gusset_tincture(), shown, step), fold]
    strokes.append(Stroke("garment", outline, True))
    strokes += field_strokes(draft, face, outline, trunk.bend, shown)
    if face == "front":
        strokes.append(Stroke("garment back", trunk.back_neck(), True))
    if collar := draft.choices.neck.collar:
        if face == "front":
            strokes.append(Stroke("garment back", shift(trunk.back_neck(), 0.0, collar), True))
        strokes.append(Stroke("garment", trunk.collar(), True))
    strokes += [stroke for stroke in (*seams, *beside.seams()) if stroke.role == "seam"]
    strokes += [*stitched(draft, trunk), *gaping(trunk)]
    strokes += charge_strokes(draft, face, outline, trunk.bend, shown)
    if draft.adornment.bands or draft.adornment.repeats:
        strokes += _put_on(draft, face, trunk, arms, seams, spots)
    strokes += [stroke for stroke in seams if stroke.role == "opening"]
    strokes += [Stroke("outline", line) for line in trunk.contours(not arms, gusset)]
    strokes += closings_on(draft, face, spots)
    return Drawing(tuple(strokes), ())


def _put_on(draft: Draft, face: Face, trunk: Trunk, arms: list[Arm], seams: list[Stroke], spot: Spot) -> list[Stroke]:
    """Bands and motifs."""
    body = body_seen(draft, face, trunk.outline(), trunk.hem(), trunk.neck, trunk.edge(), seams)
    out = [*bands_on_body(draft, body), *motifs_on_body(draft, face, body, spot)]
    for arm in arms:
        sleeve = SleeveSeen(arm.outline(), arm.at, arm.long, arm.cuff())
        out += [*bands_on_sleeve(draft, arm.hand, sleeve), *motifs_on_sleeve(draft, arm.hand, sleeve)]
    return out


class _Spots:
    """Where points of any part lie in the picture."""

    def __init__(self, draft: Draft, trunk: Trunk, beside: Beside, arms: list[Arm]) -> None:
        self.trunk, self.beside, self.arms = trunk, beside, arms
        self.panels = {panel.part: panel for panel in trunk.panels}
        self.parts = {part.id: part for part in draft.parts}

    def __call__(self, part: str, point: Point) -> Point | None:
        if panel := self.panels.get(part):
            face = self.trunk.face
            # of a panel over the shoulder only this face's half is seen
            if panel.frame.seen((point[0] + panel.moved[0], point[1] + panel.moved[1]))[0] != face:
                return None
            return self.trunk.spot(panel, point)
        for arm in self.arms:
            if part.startswith("sleeve-") and arm.hand in part.split("-"):
                there = arm.spread.place(self.parts[part], point, self.trunk.face, arm.long)
                return None if there is None else arm.at(*there)
        return self.beside.spot(part, point)
