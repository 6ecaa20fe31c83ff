"""Structure: the same sewn garment put together in other ways, and what each saves."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import inf
from typing import Any, Final

from ellwand.choose import Sheet
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, bounds
from ellwand.lay import Stop, usable_width
from ellwand.model.choices import Choices, plainest
from ellwand.model.freedom import Change, Tried, Way
from ellwand.model.garment import Garment
from ellwand.pipeline import proved, read_wearer
from ellwand.plan.laying import fails, lies_on_cloth, needs, needs_at_least, seam_length
from ellwand.plan.same import same, sewn
from ellwand.units import round_near

WORTH_A_SEAM: Final = 0.05
"""Each metre of seam more must save at least 5 cm of cloth: our own figure."""
NARROWEST: Final = 0.5
"""A panel is not pieced to less than this share of its width: common practice, no source."""
STRIPS: Final = 4
"""So many widths to piece panels to are tried."""
MOST: Final = 24
"""So many structures are laid at most."""
BEAM: Final = 2

Edit = Callable[[Choices], Choices]
Option = tuple[Change, Edit]


@dataclass(frozen=True, slots=True)
class Factor:
    """One thing that may be put together in several ways; ``plain`` as it is is always one of them."""

    options: tuple[Option, ...]


def alternatives(sheet: Sheet) -> Iterator[Way]:
    """Every way the maker left open, the plainest first, then by how much is changed."""
    plain = plainest(sheet.choices)
    ways = product(*([None, *factor.options] for factor in _open(sheet, plain)))
    for picked in sorted(ways, key=lambda way: sum(option is not None for option in way)):
        yield _way(plain, [option for option in picked if option])


def best_structure(sheet: Sheet, *, most: int = MOST, stop: Stop = lambda: False) -> tuple[Tried, ...]:
    """The ways that were tried, the best first: least cloth, each metre of seam more counted as 5 cm of it.

    Every one is the same sewn garment as the plainest and proves no worse; none: no way lies on the cloth.  At most
    ``most`` are laid, and none after ``stop`` says so.
    Raises BadInput (CannotDraft among it) where the plainest cannot be drafted.
    """
    trial = _Trial(sheet)
    trial.of(())
    beam: list[Picked] = [()]
    factors = _open(sheet, trial.plain, trial.reference)
    while beam and trial.count < most and not stop():
        fresh = []
        for picked in beam:
            for i, factor in enumerate(factors):
                for option in factor.options:
                    more = (*(each for each in picked if each[0] != i), (i, option))
                    if trial.count < most and not stop() and trial.is_new(more) and trial.of(more):
                        fresh.append(more)
        before = beam
        ranked = sorted({*fresh, *before}, key=trial.cost)
        beam = [picked for picked in ranked[:BEAM] if picked in fresh]
    return trial.ranked()


def what_if(sheet: Sheet) -> tuple[Tried, ...]:
    """What single changes of what the maker did not leave open would save: those that do, the best first.

    Raises BadInput (CannotDraft among it) where the garment as chosen cannot be drafted.
    """
    trial = _Trial(sheet)
    first = trial.of(())
    for factor in _closed(sheet, trial.reference):
        for option in factor.options:
            trial.of(((0, option),), hopeless=False)
    return tuple(each for each in trial.ranked() if first and each is not first and _cost(each) < _cost(first))


# --- what may be done -----------------------------------------------------------------------------------


def _way(plain: Choices, options: list[Option]) -> Way:
    choices = plain
    for _, edit in options:
        choices = edit(choices)
    return Way(tuple(change for change, _ in options), choices)


def _body(code: str, **values: Any) -> Option:
    return Change(code), lambda choices: replace(choices, body=replace(choices.body, **values))


def _sleeve(code: str, **values: Any) -> Option:
    return Change(code), lambda choices: replace(choices, sleeve=replace(choices.sleeve, **values))


def _gore(place: str, make: str) -> Option:
    def edit(choices: Choices) -> Choices:
        gores = (replace(g, make=make) if g.place == place else g for g in choices.gores)  # type: ignore[arg-type]
        return replace(choices, gores=tuple(gores))

    return Change(f"gores-{make}", place), edit


SHOULDER: Final = _body("shoulder-seam", shoulder="seam")
CENTRES: Final = tuple(_body(f"centre-seam-{where}", centre_seam=where) for where in ("both", "back", "front"))
TWO_SLEEVES: Final = _sleeve("sleeves-in-two", pieces="two")
TRIANGLES: Final = _sleeve("gussets-in-two", gusset_shape="triangles")
SIDE_HALVES: Final = _body("side-panels-in-two", side_panel="halves")


def _open(sheet: Sheet, plain: Choices, garment: Garment | None = None) -> list[Factor]:
    """What was left open; the widths that panels may be pieced to are read off the garment, where there is one."""
    asked, body, sleeve = sheet.choices, sheet.choices.body, sheet.choices.sleeve
    if asked.other is not None:
        return []
    freely = body.pieced == "freely"
    factors = []
    if body.shoulder == "either" and plain.body.shoulder == "fold":
        factors.append(Factor((SHOULDER,)))
    if body.centre_seam == "either":
        factors.append(Factor(CENTRES))
    for place in dict.fromkeys(gore.place for gore in asked.gores if gore.make == "either"):
        factors.append(Factor((_gore(place, "halves"), *([_gore(place, "pieced")] if freely else []))))
    if body.side_panel == "auto" and body.cut == "shoulder panels":
        factors.append(Factor((SIDE_HALVES,)))
    if sleeve.pieces == "auto" and sleeve.shape != "none":
        factors.append(Factor((TWO_SLEEVES,)))
    if sleeve.gusset_shape == "either" and sleeve.shape != "none" and sleeve.gusset != "none":
        factors.append(Factor((TRIANGLES,)))
    if freely and garment is not None:
        factors.append(Factor(_strips(sheet, garment)))
    return factors


def _closed(sheet: Sheet, garment: Garment) -> list[Factor]:
    """Changes of what was not left open."""
    asked, body, sleeve = sheet.choices, sheet.choices.body, sheet.choices.sleeve
    if asked.other is not None:
        return []
    options: list[Option] = []
    if body.shoulder == "fold":
        options.append(SHOULDER)
    if body.centre_seam == "none":
        options += CENTRES
    for gore in {gore.place: gore for gore in asked.gores}.values():
        if gore.make == "halves":
            options.append(_gore(gore.place, "whole"))
        if gore.make == "whole":
            options.append(_gore(gore.place, "halves"))
        if gore.make != "pieced" and body.pieced != "freely":
            options.append(_gore(gore.place, "pieced"))
    if body.side_panel == "whole":
        options.append(SIDE_HALVES)
    if sleeve.pieces == "one" and sleeve.shape != "none":
        options.append(TWO_SLEEVES)
    if sleeve.gusset_shape == "square" and sleeve.shape != "none" and sleeve.gusset != "none":
        options.append(TRIANGLES)
    if body.pieced in ("auto", "never"):
        options += _strips(sheet, garment)
    return [Factor((option,)) for option in options]


def _strips(sheet: Sheet, garment: Garment) -> tuple[Option, ...]:
    """Widths that panels may be cut down to, so that they lie side by side, or beside one or two of the others."""
    grid, room = garment.choices.sewing.chalk, usable_width(sheet.cloth)
    widths = sorted({_width(garment, i) for i in range(len(garment.draft.pieces))}, reverse=True)
    widest = widths[0]
    beside = [room - other for other in widths] + [room - 2 * other for other in widths]
    targets = {grid * int(each / grid + 1e-6) for each in (room / 2, room / 3, *beside)}
    good = sorted((each for each in targets if NARROWEST * widest <= each < widest - grid), reverse=True)
    return tuple(
        (Change("panels-pieced", cm=width), _body("panels-pieced", pieced=width)[1])
        for width in (round_near(cm, grid) for cm in good[:STRIPS])
    )


def _width(garment: Garment, i: int) -> float:
    left, _, right, _ = bounds(garment.draft.pieces[i].cut)
    return round(right - left, 3)


# --- trying ---------------------------------------------------------------------------------------------

Picked = tuple[tuple[int, Option], ...]


class _Trial:
    """Ways drafted, proved and laid, each once; all beside ``reference``, the plainest before it is pieced to fit."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.wearer, self.questions = read_wearer(sheet)
        self.plain = plainest(sheet.choices)
        self.reference = proved(sheet, self.plain, self.wearer, self.questions)
        self.as_sewn = sewn(self.reference)
        if not lies_on_cloth(self.reference) and self.plain.body.pieced in ("auto", "freely"):
            self.plain = replace(self.plain, body=replace(self.plain.body, pieced=usable_width(sheet.cloth)))
        self.known: dict[frozenset[Change], Tried | None] = {}
        self.cut: set[frozenset[tuple[str, int, Line]]] = set()
        self.count = 0

    def is_new(self, picked: Picked) -> bool:
        return frozenset(change for _, (change, _) in picked) not in self.known

    def of(self, picked: Picked, *, hopeless: bool = True) -> Tried | None:
        """That way, or None where it cannot be cut, is another garment, proves worse or (``hopeless``) cannot win."""
        way = _way(self.plain, [option for _, option in picked])
        try:
            tried = self._tried(way, min(map(_cost, self.ranked()), default=inf) if hopeless else inf)
        except CannotDraft:
            tried = None
        self.known[frozenset(way.changes)] = tried
        return tried

    def _tried(self, way: Way, least: float) -> Tried | None:
        garment = proved(self.sheet, way.choices, self.wearer, self.questions)
        seams = seam_length(garment)
        pieces = frozenset((piece.id, piece.count, piece.cut) for piece in garment.draft.pieces)
        if pieces in self.cut:
            return None
        self.cut.add(pieces)
        if not same(self.as_sewn, sewn(garment)) or fails(garment) > fails(self.reference):
            return None
        if not lies_on_cloth(garment) or needs_at_least(garment) + WORTH_A_SEAM * seams >= least:
            return None
        self.count += 1
        return Tried(way, garment, needs(garment), seams, self.as_sewn.area)

    def cost(self, picked: Picked) -> float:
        tried = self.known[frozenset(change for _, (change, _) in picked)]
        return _cost(tried) if tried else inf

    def ranked(self) -> tuple[Tried, ...]:
        return tuple(sorted(filter(None, self.known.values()), key=_cost))


def _cost(tried: Tried) -> float:
    return tried.length + WORTH_A_SEAM * tried.seams
