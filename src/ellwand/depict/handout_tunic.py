"""The rules of garments with a body and sleeves, as sums to do by hand; each is that of the room that drafts it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from ellwand.depict.handout_words import (
    Asked,
    Given,
    Operand,
    Result,
    Rule,
    Step,
    Sums,
    Taken,
    steps,
)
from ellwand.draft.arm import ARM_SHARES, HAND_EASE
from ellwand.draft.fill import PAIRED
from ellwand.draft.gusset import LARGEST_GUSSET_SHARE, SMALLEST_GUSSET
from ellwand.draft.neck import CLOSE_EASE, PULL_ON_EASE, SHORTEST_SLIT, SLIT_EASE, shoulders_open, slit_of
from ellwand.draft.size import (
    ANKLE_SHARE,
    ARMPIT_CLEARANCE,
    EASE,
    FLOOR_CLEARANCE,
    NARROWEST_SIDE_PANEL,
    SLEEVE_EASE,
    SLEEVELESS_CLEARANCE,
    WIDEST_SHORT_GORE,
    beneath,
)
from ellwand.language import N_, _
from ellwand.model.choices import Gore, Span
from ellwand.model.draft import Draft
from ellwand.units import Unit, format_length, round_near

TAKE: Final = {"least cloth": 0.0, "balanced": 0.5, "fullest": 1.0}
"""Where in a range the garment is settled."""
SPARE: Final = 1.85
"""Cloth to buy over the pieces' own area, for seams, hems, washing and what falls beside them: our own figure."""
HEMS: Final = 20.0
"""Cloth to buy over the longest piece, for hems, washing and straight ends (cm): our own figure."""
SHOP: Final = {"cm": 10.0, "in": 4.5 * 2.54}
"""Cloth is sold by so much (cm): tenths of a metre, eighths of a yard."""
EASE_WORD: Final = N_("ease")
CLOTH: Final = Asked(N_("width of the cloth"))


def tunic_sums(draft: Draft, unit: Unit) -> Sums:
    """All sums of a garment with a body."""
    made = _Tunic(draft, unit)
    rules = (*made.length(), *made.armhole(), *made.gores(), *made.body(), *made.sleeve(), *made.neck(), *made.cloth())
    return Sums(draft.dimensions.grid, rules, SHOP[unit], made.notes)


def landmark(name: str, key: str = "landmark") -> tuple[list[Rule], Operand]:
    """How high above the floor a garment ends: the rules for it, and what to take away."""
    level = {"knee": "knee_to_floor", "hip": "hip_to_floor", "waist": "waist_to_floor", "crotch": "crotch_to_floor"}
    if name in level:
        return [], Taken(level[name])
    if name == "floor":
        return [], Given(FLOOR_CLEARANCE, N_("clear of the floor"))
    title = N_("how high the hem is above the floor")
    first: dict[str, tuple[Operand, tuple[Step, ...]]] = {
        "mid-thigh": (Taken("crotch_to_floor"), steps(("+", Taken("knee_to_floor")), ("÷", 2))),
        "mid-calf": (Taken("height"), steps(("×", ANKLE_SHARE), ("+", Taken("knee_to_floor")), ("÷", 2))),
        "ankle": (Taken("height"), steps(("×", ANKLE_SHARE))),
    }
    start, then = first[name]
    return [Rule(key, title, (start,), then, shown=False)], Result(key)


class _Tunic:
    """The rules while they are gathered; lengths in cm."""

    def __init__(self, draft: Draft, unit: Unit) -> None:
        self.draft, self.unit, self.size = draft, unit, draft.dimensions
        self.choices = draft.choices
        self.notes: dict[str, str] = {}
        self.extra = beneath(self.choices)
        self.sleeved = self.choices.sleeve.shape != "none"
        self.flare = self.choices.body.flare if self.size.side_panel else 0.0
        hip = self.size.levels["hip"]
        self.given = [
            i
            for i, gore in enumerate(self.choices.gores)
            if not isinstance(gore.start, float) or round_near(gore.start, self.size.grid) > hip
        ]
        """Gores that may reach above the hip."""

    def length(self) -> Iterator[Rule]:
        chosen, blouse = self.choices.length, Given(self.choices.blouse, N_("drawn up by the belt"))
        name = N_("length, from the shoulder at the neck to the hem")
        if isinstance(chosen, (float, Span)):
            own = Given(self.size.length - self.choices.blouse)
            yield Rule("length", name, (own,), steps(("+", blouse)), "near")
            return
        before, height = landmark(chosen)
        yield from before
        yield Rule("length", name, (Taken("nape_to_floor"),), steps(("-", height), ("+", blouse)), "near")

    def gores(self) -> Iterator[Rule]:
        """Length and width of every gore, and what they add to the girth at the hip."""
        for i, gore in enumerate(self.choices.gores):
            if self._like(i) == i:
                yield self._gore_length(i, gore)
            yield self._gore_base(i, gore)
        firsts = sorted({self._like(i) for i in range(len(self.choices.gores))})
        yield from (self._bases(first) for first in firsts if self._together(first))
        if self._hip_counts() and (self.given or self.flare):
            yield self._level("hip", "hip_to_floor", N_("hip above the hem"))
            for i in sorted({self._like(i) for i in self.given}):
                yield from self._given_at_hip(i)
            if self.flare:
                slope = Given(self.size.shoulder_slope, N_("slope of the shoulder"))
                seam = steps(("-", slope), ("-", Result("armhole")))
                yield Rule("seam", N_("length of the side seam"), (Result("length"),), seam, shown=False)
                wide = steps(
                    ("-", Result("hip")), ("at least", Given(0.0)), ("÷", Result("seam")), ("×", 2 * self.flare)
                )
                yield Rule("flare", N_("what the side panels give at the hip"), (Result("seam"),), wide, shown=False)

    def _like(self, i: int) -> int:
        """The first gore that begins as high."""
        starts = [gore.start for gore in self.choices.gores]
        return starts.index(starts[i])

    def _level(self, key: str, field: str, name: str) -> Rule:
        return Rule(key, name, (Result("length"),), self._up_to(field), shown=False)

    def _up_to(self, field: str) -> tuple[Step, ...]:
        """From the length to how far a level of the body lies above the hem, on the cloth."""
        return steps(
            ("-", Taken("nape_to_floor")),
            ("+", Taken(field)),
            ("-", Given(self.choices.blouse, N_("drawn up by the belt"))),
        )

    def _gore_length(self, i: int, gore: Gore) -> Rule:
        alike = [other.place for k, other in enumerate(self.choices.gores) if self._like(k) == i]
        name = GORES[gore.place][0] if len(alike) == 1 else ALL_GORES
        if isinstance(gore.start, float):
            return Rule(f"gore length {i}", name, (Given(gore.start),), (), "near")
        return Rule(f"gore length {i}", name, (Result("length"),), self._up_to(f"{gore.start}_to_floor"), "near")

    def _gore_base(self, i: int, gore: Gore) -> Rule:
        key, name = f"gore base {i}", GORES[gore.place][1]
        if isinstance(gore.base, float):
            return Rule(key, name, (Given(gore.base),), (), "near")
        usual = gore.base.low + (gore.base.high - gore.base.low) * TAKE[self.choices.take]
        return Rule(
            key,
            name,
            (Result(f"gore length {self._like(i)}"),),
            steps(("×", WIDEST_SHORT_GORE), ("at most", Given(usual)), ("at least", Given(gore.base.low))),
            "near",
        )

    def _given_at_hip(self, first: int) -> Iterator[Rule]:
        """What the gores that begin as high as this one give at the hip."""
        gore = self.choices.gores[first]
        long = Result(f"gore length {first}")
        high = steps(("-", Result("hip")), *(() if gore.start == "waist" else (("at least", Given(0.0)),)))
        share = (*high, *steps(("÷", long)))
        name = N_("what the gores give at the hip")
        if not self._together(first):
            pair = steps(("×", 2)) if gore.place in PAIRED else ()
            wide = (*share, *steps(("×", Result(f"gore base {first}"))), *pair)
            yield Rule(f"at hip {first}", name, (long,), wide, shown=False)
            return
        wide = (*share, *steps(("×", Result(f"bases {first}"))))
        yield Rule(f"at hip {first}", name, (long,), wide, shown=False)

    def _bases(self, first: int) -> Rule:
        """The width at the hem of all gores that begin as high as this one, less their blunt tops."""
        alike = [i for i in range(len(self.choices.gores)) if self._like(i) == first]
        gores = [self.choices.gores[i] for i in alike]
        tops = sum(each.top * (2 if each.place in PAIRED else 1) for each in gores)
        # those on both sides first, so that the rest is simply added
        pairs = [i for i in alike if self.choices.gores[i].place in PAIRED]
        single = [i for i in alike if i not in pairs]
        total = [step for i in pairs[1:] for step in steps(("+", Result(f"gore base {i}")))]
        total += steps(("×", 2)) if pairs else ()
        total += [step for i in (single if pairs else single[1:]) for step in steps(("+", Result(f"gore base {i}")))]
        total += steps(("-", Given(tops, N_("the blunt tops"))))
        start = (Result(f"gore base {[*pairs, *single][0]}"),)
        return Rule(f"bases {first}", N_("width of all these gores at the hem"), start, tuple(total), shown=False)

    def _together(self, first: int) -> bool:
        """Whether the gores that begin as high as this one are reckoned together."""
        alike = [gore for i, gore in enumerate(self.choices.gores) if self._like(i) == first]
        return len(alike) > 1 or alike[0].top > 0

    def _hip_counts(self) -> bool:
        """Whether the body has to close round the hip."""
        hip = self.size.levels["hip"]
        tops = [
            split.height if isinstance(split.height, float) else self.size.levels[split.height]
            for split in self.choices.splits
        ]
        return hip > -self.size.grid and not any(top >= hip for top in tops)

    def body(self) -> Iterator[Rule]:
        choices = self.choices
        ease = EASE[choices.layer] if choices.body.ease is None else choices.body.ease
        extra = Given(ease + self.extra, EASE_WORD)
        trunk = (Taken("bust_girth"), Taken("waist_girth"), Taken("belly_girth"))
        yield Rule("trunk", N_("girth"), trunk, steps(("+", extra)), shown=False)
        girth = "trunk"
        if self._hip_counts():
            given = [Result(f"at hip {i}") for i in sorted({self._like(i) for i in self.given})]
            given += [Result("flare")] if self.flare else []
            then = (*steps(("+", extra)), *(step for each in given for step in steps(("-", each))))
            then = (*then, *steps(("at least", Result("trunk"))))
            yield Rule("girth", N_("girth, with room for the hip"), (Taken("hip_girth"),), then, shown=False)
            girth = "girth"
        if choices.body.cut == "wide panels":
            yield Rule("panel", N_("width of front and back"), (Result(girth),), steps(("÷", 2)), "up")
            return
        half = steps(("÷", 2))
        yield Rule("half", N_("half the girth"), (Result(girth),), half, shown=False)
        narrow = Given(NARROWEST_SIDE_PANEL, N_("the narrowest side panel"))
        yield Rule("widest", N_("the widest panel"), (Result("half"),), steps(("-", narrow)), shown=False)
        across = (Taken("across_shoulder"),)
        yield Rule("panel", N_("width of front and back"), across, steps(("at most", Result("widest"))), "near")
        yield Rule("side", N_("width of each side panel"), (Result("half"),), steps(("-", Result("panel"))), "up")

    def armhole(self) -> Iterator[Rule]:
        """How deep the armhole is."""
        choices = self.choices
        under = choices.beneath_mm / 10
        if not self.sleeved:
            room = Given(SLEEVELESS_CLEARANCE + under, N_("room below the armpit"))
            yield Rule("armhole", N_("depth of the armhole"), (Taken("scye_depth"),), steps(("+", room)), "up")
            return
        ease = Given(SLEEVE_EASE[choices.layer] + self.extra, EASE_WORD)
        room = Given(ARMPIT_CLEARANCE + under, N_("room below the armpit"))
        half = steps(("+", ease), ("÷", 2))
        yield Rule("half arm", N_("half the upper arm with ease"), (Taken("upper_arm_girth"),), half, shown=False)
        yield Rule(
            "armhole",
            N_("depth of the armhole"),
            (Taken("scye_depth"),),
            steps(("+", room), ("at least", Result("half arm"))),
            "up",
        )

    def sleeve(self) -> Iterator[Rule]:
        """Top, length, cuff and gusset; a shaped head is not drawn by a sum."""
        choices, sleeve = self.choices, self.choices.sleeve
        if not self.sleeved or sleeve.head == "shaped":
            return
        side = (Result("side"),) if choices.body.cut == "shoulder panels" else ()
        then = steps(("×", 2), *(("+", each) for each in side))
        yield Rule("top", N_("width of the sleeve at its top"), (Result("armhole"),), then)
        yield from self._sleeve_length()
        yield from self._cuff()
        if self.size.gusset and sleeve.gusset == "auto":
            yield Rule(
                "gusset",
                N_("side of the gusset, at most"),
                (Taken("upper_arm_girth"),),
                steps(("×", LARGEST_GUSSET_SHARE)),
            )
            self.notes["gusset"] = _(
                "Pin one of {least} in first and lift the arm level; if it pulls, take a larger one.",
                least=format_length(SMALLEST_GUSSET, self.unit),
            )
        elif self.size.gusset and isinstance(sleeve.gusset, float):
            yield Rule("gusset", N_("side of the gusset"), (Given(sleeve.gusset),), (), "up")

    def _sleeve_length(self) -> Iterator[Rule]:
        sleeve = self.choices.sleeve
        name = N_("length of the sleeve")
        drop = steps(("-", Taken("across_shoulder")), ("÷", 2))
        yield Rule("drop", N_("the body reaches down the arm"), (Result("panel"),), drop, shown=False)
        if isinstance(sleeve.length, float):
            yield Rule("sleeve", name, (Given(sleeve.length),), (), "near")
            return
        share = ARM_SHARES[sleeve.length]
        part = steps(("×", share)) if share != 1.0 else ()
        yield Rule("sleeve", name, (Taken("arm_length"),), (*part, *steps(("-", Result("drop")))), "near")

    def _cuff(self) -> Iterator[Rule]:
        sleeve = self.choices.sleeve
        name, top = N_("width of the cuff"), Result("top")
        if isinstance(sleeve.cuff, float):
            yield Rule("cuff", name, (Given(sleeve.cuff),), (), "near")
            return
        if sleeve.shape == "straight":
            yield Rule("cuff", name, (top,))
            return
        if sleeve.shape == "wide":
            yield Rule("cuff", name, (top,), steps(("×", 1.75)), "up")
            return
        close = sleeve.cuff == "close" or (sleeve.cuff == "auto" and sleeve.shape == "fitted forearm")
        # at the wrist the hand needs more room than the arm
        short = sleeve.length not in ("wrist", "over-hand")
        on_arm = steps(("-", Result("narrower")), ("+", Given(self._over_arm() + 2.0, EASE_WORD)))
        arm = (Taken("upper_arm_girth"),)
        if close or short:
            yield from self._reaching()
        if close:
            yield Rule("cuff", name, arm, (*on_arm, *steps(("at most", top))), "up")
            self.notes["cuff"] = _("Leave the seam open from the cuff up to where the hand passes, and close it again.")
        else:
            yield from self._passing(arm, on_arm if short else ())
        if sleeve.shape == "fitted forearm":
            loose = steps(("+", Given(6.0, EASE_WORD)), ("at least", Result("cuff")), ("at most", top))
            yield Rule("elbow", N_("width at the elbow"), arm, loose, "up")

    def _over_arm(self) -> float:
        """What is worn beneath, where the sleeve ends well above the wrist (cm)."""
        return self.extra if self.choices.sleeve.length in ("cap", "elbow", "three-quarter") else 0.0

    def _reaching(self) -> Iterator[Rule]:
        share = steps(("+", Result("sleeve")), ("÷", Taken("arm_length")), ("at most", 1))
        yield Rule("reach", N_("share of the arm that is covered"), (Result("drop"),), share, shown=False)
        thinner = steps(("-", Taken("wrist_girth")), ("×", Result("reach")))
        yield Rule("narrower", N_("the arm is thinner there by"), (Taken("upper_arm_girth"),), thinner, shown=False)

    def _passing(self, arm: tuple[Operand, ...], on_arm: tuple[Step, ...]) -> Iterator[Rule]:
        """A cuff that the hand passes."""
        top, ease = Result("top"), Given(HAND_EASE, EASE_WORD)
        hand = (Taken("hand_girth", True),)
        yield Rule("hand", N_("the hand passes"), hand, steps(("+", ease)), shown=False)
        if on_arm:
            yield Rule("bare arm", N_("there the sleeve has to be"), arm, on_arm, shown=False)
        full = steps(("-", Result("drop")))
        yield Rule("arm", N_("a sleeve to the wrist"), (Taken("arm_length"),), full, shown=False)
        taper = steps(("-", Result("hand")), ("×", Result("sleeve")), ("÷", Result("arm")))
        yield Rule("taper", N_("the sleeve narrows by"), (top,), taper, shown=False)
        least = [Result("hand"), *([Result("bare arm")] if on_arm else [])]
        then = steps(("-", Result("taper")), *(("at least", each) for each in least), ("at most", top))
        yield Rule("cuff", N_("width of the cuff"), (top,), then, "up")

    def neck(self) -> Iterator[Rule]:
        neck = self.choices.neck
        open_at, slit = shoulders_open(neck), slit_of(neck)
        if slit == "none" and not open_at:
            ease = Given(PULL_ON_EASE if neck.ease is None else neck.ease, EASE_WORD)
            yield Rule("neck", N_("round the neck opening"), (Taken("head_girth", True),), steps(("+", ease)))
            self._told_of_neck()
            return
        ease = Given(CLOSE_EASE if neck.ease is None else neck.ease, EASE_WORD)
        yield Rule("neck", N_("round the neck opening"), (Taken("neck_base_girth", True),), steps(("+", ease)))
        self._told_of_neck()
        spare, least = Given(SLIT_EASE, EASE_WORD), Given(SHORTEST_SLIT)
        count = len(open_at) or 1
        then = steps(("+", spare), ("-", Result("neck")), ("÷", 2 * count), ("at least", least))
        name = N_("open shoulder") if open_at else N_("length of the neck slit")
        yield Rule("slit", name, (Taken("head_girth", True),), then, "up")

    def _told_of_neck(self) -> None:
        self.notes["neck"] = _("Lay a string along the line you drew: it must be as long as this.")

    def _longest(self) -> Rule:
        """The body, in one length over the shoulders or not."""
        folded = any(guide.name == "shoulder fold" for piece in self.draft.pieces for guide in piece.guides)
        both = steps(("×", 2)) if folded else ()
        spare = steps(("+", Given(HEMS, HEMS_WORD)))
        return Rule("longest", LONGEST, (Result("length"),), (*both, *spare), shown=False)

    def cloth(self) -> Iterator[Rule]:
        """Areas of the rectangles that the pieces lie in, over the width of the cloth."""
        area = steps(("×", Result("length")), ("÷", CLOTH), ("×", 2))
        yield Rule("for body", N_("cloth for front and back"), (Result("panel"),), area, shown=False)
        parts = ["for body"]
        if self.choices.body.cut == "shoulder panels":
            yield Rule("for sides", N_("cloth for the side panels"), (Result("side"),), area, shown=False)
            parts.append("for sides")
        if self.sleeved and self.choices.sleeve.head == "straight":
            widest = "cuff" if self.choices.sleeve.shape == "wide" else "top"
            area = steps(("×", Result("sleeve")), ("÷", CLOTH), ("×", 2))
            yield Rule("for sleeves", N_("cloth for the sleeves"), (Result(widest),), area, shown=False)
            parts.append("for sleeves")
        for i in sorted({self._like(i) for i in range(len(self.choices.gores))}):
            # two gores, one point up and one down, lie in one rectangle
            together = self._together(i)
            wide = Result(f"bases {i}" if together else f"gore base {i}")
            half = () if self.choices.gores[i].place in PAIRED and not together else steps(("÷", 2))
            area = (*steps(("×", Result(f"gore length {i}")), ("÷", CLOTH)), *half)
            yield Rule(f"for gores {i}", FOR_GORES, (wide,), area, shown=False)
            parts.append(f"for gores {i}")
        first, *others = parts
        yield self._longest()
        then = steps(*(("+", Result(each)) for each in others), ("×", SPARE), ("at least", Result("longest")))
        yield Rule("cloth", N_("cloth to buy, about"), (Result(first),), then, "shop")


ALL_GORES: Final = N_("length of the gores")
HEMS_WORD: Final = N_("hems and washing")
LONGEST: Final = N_("the longest piece")
FOR_GORES: Final = N_("cloth for the gores")
GORES: Final = {
    "side": (N_("length of the side gores"), N_("width of the side gores at the hem")),
    "centre-front": (N_("length of the front gore"), N_("width of the front gore at the hem")),
    "centre-back": (N_("length of the back gore"), N_("width of the back gore at the hem")),
    "side-front": (N_("length of the side front gores"), N_("width of the side front gores at the hem")),
    "side-back": (N_("length of the side back gores"), N_("width of the side back gores at the hem")),
    "panel-front": (N_("length of the gores in the front"), N_("width of the gores in the front at the hem")),
    "panel-back": (N_("length of the gores in the back"), N_("width of the gores in the back at the hem")),
}
"""What the length and the width of a gore are called."""
