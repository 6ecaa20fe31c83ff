"""What would mend a finding, as changes of the sheet: one for each way that its words tell.

What asks for measuring again, for other cloth or for a decision that only the maker can take has none.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass
from typing import Any, Final

from ellwand.choose.form.described import lists, options
from ellwand.choose.form.labels import HEADINGS, label_of, word_said
from ellwand.choose.styles import STYLES
from ellwand.draft.size import EASE
from ellwand.language import _
from ellwand.model.choices import Choices
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.prove.holds import GORE_ROOM
from ellwand.units import HALVES, format_length, parse_length, round_up

Tables = dict[str, Any]
Changes = list[tuple[str, str | None]]
"""Paths of the sheet (entries counted from 0) with their new text, None to leave the option out."""
NECK_EASE: Final = 2.0
"""What an ease that is left out stands for (cm)."""
KEYHOLE: Final[Changes] = [("garment.neck.shape", "keyhole"), ("garment.neck.slit", "centre")]
PANELS: Final[Changes] = [("garment.body.cut", "shoulder panels")]


@dataclass(frozen=True, slots=True)
class Mend:
    """A way to mend a finding: what to choose, in a few words, and the sheet's tables with that done."""

    label: str
    tables: Tables


@dataclass(frozen=True, slots=True)
class Case:
    """A finding of a garment."""

    finding: Finding
    garment: Garment

    @property
    def choices(self) -> Choices:
        """What was chosen."""
        return self.garment.choices

    @property
    def short(self) -> float:
        """How much is missing (cm)."""
        return (self.finding.needed or 0.0) - (self.finding.measured or 0.0)

    def number(self, name: str) -> float:
        """A number among the finding's values, 0 where it has none of that name."""
        return float(self.finding.values.get(name, 0.0))

    def more(self, value: float) -> float:
        """Rounded up to half centimetres or quarter inches, so that it is enough (cm)."""
        return round_up(value, HALVES[self.garment.wearer.unit])

    def said(self, value: float) -> str:
        """A length as the sheet has it."""
        return f"{value:.3f}".rstrip("0").rstrip(".") + " cm"

    def body_ease(self, much: float) -> Changes:
        """So much more ease of the body (cm)."""
        now = self.choices.body.ease
        usual = EASE[self.choices.layer]
        return [("garment.body.ease", self.said((usual if now is None else now) + self.more(much)))]

    def neck_ease(self, much: float) -> Changes:
        """So much more ease of the neck (cm)."""
        now = self.choices.neck.ease
        return [("garment.neck.ease", self.said((NECK_EASE if now is None else now) + self.more(much)))]

    def here(self, name: str) -> Iterator[int]:
        """The numbers of those entries that lie where the finding is."""
        entries = getattr(self.choices, name)
        return (i for i, entry in enumerate(entries) if entry.place == self.finding.subject)

    def length(self, more: float) -> Changes:
        """The garment so much longer (cm)."""
        chosen, draft = self.choices, self.garment.draft
        taken = draft.taken_up.body if draft.taken_up else 0.0
        now = chosen.length if isinstance(chosen.length, float) else draft.dimensions.length - chosen.blouse - taken
        return [("garment.length", self.said(now + more))]


def _ease(case: Case) -> Iterator[Changes]:
    if case.finding.subject == "biceps":
        yield from _straight_sleeve(case)
    else:
        yield case.body_ease(case.short + case.number("rounding"))


def _straight_sleeve(case: Case) -> Iterator[Changes]:
    yield [("garment.sleeve.shape", "straight"), ("garment.sleeve.cuff", None)]


def _over_head(case: Case) -> Iterator[Changes]:
    yield case.body_ease(case.short + case.number("rounding"))
    if not case.finding.values.get("at"):
        at = "side" if case.finding.outcome == "look again" else "centre-front"
        yield [(f"garment.closures.{len(case.choices.closures)}.at", at)]


def _neck(case: Case) -> Iterator[Changes]:
    spare = 1.0 if case.finding.code == "neck-too-small" else 0.0
    yield case.neck_ease(case.short + spare)
    yield [*KEYHOLE, ("garment.neck.front_drop", None), ("garment.neck.back_drop", None)]


def _plain_keyhole(case: Case) -> Iterator[Changes]:
    if case.finding.values.get("shape") != "keyhole":
        yield [*KEYHOLE, ("garment.neck.ease", None)]


def _walking(case: Case) -> Iterator[Changes]:
    if case.number("split"):
        yield [(f"garment.splits.{i}.height", "knee") for i in range(len(case.choices.splits))]
        return
    yield _wider(case)
    sides = [i for i, gore in enumerate(case.choices.gores) if gore.place == "side"]
    new = len(case.choices.splits)
    split: Changes = [(f"garment.splits.{new}.place", "side"), (f"garment.splits.{new}.height", "hip")]
    yield [*split, *((f"garment.gores.{i}.make", "halves") for i in sides)]


def _wider(case: Case) -> Changes:
    """The hem so much wider as is missing, by its gores or by new ones at the sides."""
    much, gores = case.more(case.short), case.choices.gores
    at = {i: gore.base for i, gore in enumerate(gores) if isinstance(gore.base, float)}
    if not at:
        return [
            (f"garment.gores.{len(gores)}.place", "side"),
            (f"garment.gores.{len(gores)}.base", case.said(max(2.0, case.more(much / 2)))),
        ]
    each = much / sum(1 if gores[i].place.startswith("centre") else 2 for i in at)
    return [(f"garment.gores.{i}.base", case.said(base + case.more(each))) for i, base in at.items()]


def _riding(case: Case) -> Iterator[Changes]:
    splits, places = case.choices.splits, ("centre-front", "centre-back")
    out: Changes = []
    new = len(splits)
    for place in places:
        at = next((i for i, split in enumerate(splits) if split.place == place), new)
        new += at == new
        out += [(f"garment.splits.{at}.place", place), (f"garment.splits.{at}.height", "crotch")]
    gores = enumerate(case.choices.gores)
    yield [*out, *((f"garment.gores.{i}.make", "halves") for i, gore in gores if gore.place in places)]


def _reaching(case: Case) -> Iterator[Changes]:
    values, gusset = case.finding.values, [("garment.sleeve.gusset", "auto")]
    helps = values.get("chosen") != "auto" and case.number("best") >= (case.finding.needed or 0.0)
    if values.get("cut") == "wide panels" and not helps:
        yield [*PANELS, *(gusset if values.get("chosen") != "auto" else [])]
    elif helps:
        yield [*gusset, *([("garment.sleeve.seam", "under")] if values.get("seam") == "back" else [])]


def _gore_room(case: Case) -> Iterator[Changes]:
    levels, much = case.garment.draft.dimensions.levels, case.more(case.short + case.number("rounding"))
    gores, splits = case.choices.gores, case.choices.splits if case.number("splits") else ()

    def lower(name: str, i: int, at: str | float) -> tuple[str, str]:
        return f"garment.{name}", case.said((levels[at] if isinstance(at, str) else at) - much)

    starts = [lower(f"gores.{i}.start", i, gores[i].start) for i in case.here("gores")]
    yield [*starts, *(lower(f"splits.{i}.height", i, splits[i].height) for i in case.here("splits") if splits)]


def _gore_in_slit(case: Case) -> Iterator[Changes]:
    if case.finding.subject.startswith("centre"):
        yield [("garment.body.centre_seam", "both")]
    else:
        yield [(f"garment.gores.{i}.place", "side") for i in case.here("gores")]


def _split_top(case: Case) -> Iterator[Changes]:
    grid = case.garment.draft.dimensions.grid
    top = math.floor((case.finding.needed or 0.0) / grid) * grid
    yield [(f"garment.splits.{i}.height", case.said(top)) for i in case.here("splits")]


def _underarm_room(case: Case) -> Iterator[Changes]:
    much = case.more(case.short + case.number("rounding"))
    yield [("garment.sleeve.gusset", case.said(case.garment.draft.dimensions.gusset - much))]


def _sleeve_length(case: Case) -> Iterator[Changes]:
    chosen, draft = case.choices.sleeve.length, case.garment.draft
    taken = max(draft.taken_up.sleeves.values()) if draft.taken_up else 0.0
    now = chosen if isinstance(chosen, float) else max(draft.dimensions.sleeve_lengths.values()) - taken
    yield [("garment.sleeve.length", case.said(now - case.more(case.number("rounding") - case.short)))]


def _gore_to_armpit(case: Case) -> Iterator[Changes]:
    start = -case.more(GORE_ROOM - case.number("start"))
    yield [(f"garment.gores.{i}.start", case.said(start)) for i in case.here("gores")]


def _choose(path: str, word: str) -> Callable[[Case], Iterator[Changes]]:
    return lambda case: iter([[(path, word)]])


WAYS: Final[Mapping[str, Callable[[Case], Iterator[Changes]]]] = {
    "fits": _ease,
    "sitting": _ease,
    "over-head": _over_head,
    "neck-tight": _neck,
    "neck-too-small": _neck,
    "neck-width": _plain_keyhole,
    "shoulder-strip": _plain_keyhole,
    "elbow-room": _straight_sleeve,
    "walking": _walking,
    "riding": _riding,
    "reaching": _reaching,
    "overhead": lambda case: iter([case.length(case.more(case.number("rounding") - case.short))]),
    "hem-clears": lambda case: iter([case.length(-case.more(case.short + case.number("rounding")))]),
    "gore-room": _gore_room,
    "gore-in-slit": _gore_in_slit,
    "gore-to-armpit": _gore_to_armpit,
    "split-top": _split_top,
    "underarm-room": _underarm_room,
    "sleeve-length": _sleeve_length,
    "fold-with-one-centre-seam": _choose("garment.body.centre_seam", "both"),
    "fold-with-open-shoulder": _choose("garment.body.shoulder", "seam"),
    "centre-seam-for-closure": _choose("garment.body.centre_seam", "both"),
    "panel-narrowed": _choose("garment.body.cut", "wide panels"),
    "lasts": _choose("garment.growth.months", "12"),
    "corners-hang": lambda case: iter([[(f"garment.gores.{i}.hem", "arc") for i in case.here("gores")]]),
}
"""By the finding's code."""


def mends(finding: Finding, tables: Mapping[str, Any], garment: Garment) -> tuple[Mend, ...]:
    """Each way to mend the finding of this garment, which the sheet's tables made; none where it is sound."""
    if finding.outcome == "sound" or finding.code not in WAYS:
        return ()
    case = Case(finding, garment)
    return tuple(
        Mend(_said(changes, case), _changed(tables, changes)) for changes in WAYS[finding.code](case) if changes
    )


def _changed(tables: Mapping[str, Any], changes: Changes) -> Tables:
    """The tables with these changes; an entry of a list that only the style has is written out first."""
    out = deepcopy(dict(tables))
    for path, text in changes:
        root, name, *rest = path.split(".")
        garment = out.setdefault(root, {})
        if f"{root}.{name}" in lists():
            style = STYLES.get(garment.get("style", "tunic"), {})
            entries = garment.setdefault(name, [dict(entry) for entry in style.get(name, [])])
            number, key = int(rest[0]), rest[1]
            if number == len(entries):
                entries.append({})
            here = entries[number] = dict(entries[number])
        elif rest:
            here, key = garment.setdefault(name, {}), rest[0]
        else:
            here, key = garment, name
        if text is None:
            here.pop(key, None)
        elif isinstance(options()[f"{root}.{name}.{key}" if rest else path].default, (int, float)) and text.isdigit():
            here[key] = int(text)
        else:
            here[key] = text
    return out


def _said(changes: Changes, case: Case) -> str:
    """The changes in a few words: what each option is to be."""
    out = []
    for path, text in changes:
        if text is None:
            continue
        root, name, *rest = path.split(".")
        plain = ".".join((root, name, *rest[-1:]))
        said = _value(plain, text, case)
        label = label_of(plain)
        if len(rest) > 1:
            heading = HEADINGS[f"{root}.{name}"]
            out.append(
                _(
                    "{entry} {number}, {label}: {value}",
                    entry=_(heading),
                    number=int(rest[0]) + 1,
                    label=label,
                    value=said,
                )
            )
        else:
            out.append(_("{label}: {value}", label=label, value=said))
    return "; ".join(out)


def _value(path: str, text: str, case: Case) -> str:
    if options()[path].takes.kind == "length" and text.endswith(" cm"):
        return format_length(parse_length(text), case.garment.wearer.unit)
    return word_said(path, text)
