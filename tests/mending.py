"""A mend's words done to the sheet: each of its alternatives, with the numbers and the choices that it names."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass
from typing import Any, Final

from ellwand.depict import words
from ellwand.model.choices import Span
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.others import KINDS

Tables = dict[str, Any]
Match = re.Match[str]
BODY_EASE: Final = {"skin": 10, "middle": 14, "outer": 22, "armour": 26}
NECK_EASE: Final = 2
"""What docs/sheet.md says of an ease that is left out (cm)."""
PAIRED: Final = ("side", "side-front", "side-back", "panel-front", "panel-back")


@dataclass
class Bench:
    """A sheet on which a mend is done: its tables, the garment that it made and what was found of it."""

    tables: Tables
    person: Tables
    garment: Garment
    finding: Finding

    @property
    def sheet(self) -> Tables:
        """[garment], to be changed."""
        table: Tables = self.tables["garment"]
        return table

    def put(self, table: str, key: str, value: object) -> None:
        """Set one key of a table below [garment]."""
        self.sheet[table] = {**self.sheet.get(table, {}), key: value}

    def entries(self, name: str) -> list[Tables]:
        """The list of gores, splits or closures as chosen, by a style or on the sheet; to be changed."""
        chosen = getattr(self.garment.choices, name)
        if name not in self.sheet:
            fields = [{key: getattr(each, key) for key in each.__slots__} for each in chosen]
            self.sheet[name] = [
                {key: _plain(value) for key, value in each.items() if value is not None} for each in fields
            ]
        entries: list[Tables] = self.sheet[name]
        return entries

    def here(self, name: str) -> list[Tables]:
        """Those entries that lie where the finding is."""
        return [entry for entry in self.entries(name) if entry["place"] == self.finding.subject]


def _plain(value: object) -> object:
    if isinstance(value, Span):
        return [f"{value.low} cm", f"{value.high} cm"]
    return f"{value} cm" if isinstance(value, float) else value


def _cm(value: float) -> str:
    return f"{value:.3f} cm"


def _add_ease(bench: Bench, found: Match) -> None:
    choices, table = bench.garment.choices, found[2]
    chosen = choices.body.ease if table == "body" else choices.neck.ease
    usual = BODY_EASE[choices.layer] if table == "body" else NECK_EASE
    bench.put(table, "ease", _cm((usual if chosen is None else chosen) + float(found[1])))


def _shorten_other(bench: Bench, found: Match) -> None:
    length = bench.garment.draft.settled.length
    bench.put(bench.garment.choices.style, "length", _cm(length - float(found[1])))


def _add_own_ease(bench: Bench, found: Match) -> None:
    bench.put(found[2], "ease", _cm(bench.garment.choices.other.ease + float(found[1])))


def _choose(bench: Bench, found: Match) -> None:
    if found[1] == "sewing":
        bench.tables["sewing"] = {**bench.tables["sewing"], found[2]: found[3]}
        return
    if found[1] == "bands":
        _band(bench)[found[2]] = found[3]
        return
    if found[2] == "tincture":
        for charge in bench.sheet["charges"]:
            charge["tincture"] = found[3]
        return
    before = re.findall(r"(\w+)\.\w+ =", found.string[: found.end()])
    own = bench.garment.choices.style
    table = found[1] or (before[-1] if before else own if own in KINDS else "")
    if found.string[: found.start()].endswith("closure "):
        bench.entries("closures").append({"at": found[3]})
    elif found[2] == "hem" and not table:
        for gore in bench.here("gores"):
            gore["hem"] = found[3]
    else:
        bench.put(table, found[2], found[3])


def _band(bench: Bench) -> Tables:
    """The band that the finding is of."""
    band: Tables = bench.sheet["bands"][int(bench.finding.values["number"]) - 1]
    return band


def _leave_out(bench: Bench, found: Match) -> None:
    bench.sheet.get(found[1], {}).pop(found[2], None)


def _measure(bench: Bench, found: Match) -> None:
    value = bench.garment.wearer[found[1]]
    bench.person[found[1]] = value / 2.54 if bench.person.get("unit") == "in" else value


def _widen(bench: Bench, found: Match) -> None:
    gores = [gore for gore in bench.entries("gores") if not isinstance(gore.get("base"), list)]
    for gore in gores:
        now = float(str(gore.get("base", "40 cm")).removesuffix(" cm"))
        gore["base"] = _cm(now + float(found[1]) / sum(2 if each["place"] in PAIRED else 1 for each in gores))
    if not gores:
        bench.entries("gores").append({"place": "side", "base": _cm(max(2.0, float(found[1]) / 2))})


def _length(bench: Bench, found: Match, sign: int) -> None:
    chosen, drafted = bench.garment.choices, bench.garment.draft
    taken = drafted.taken_up.body if drafted.taken_up else 0.0
    now = chosen.length if isinstance(chosen.length, float) else drafted.dimensions.length - chosen.blouse - taken
    bench.sheet["length"] = _cm(now + sign * float(found[1]))


def _lower(bench: Bench, found: Match) -> None:
    levels, chosen = bench.garment.draft.dimensions.levels, iter(bench.garment.choices.gores)
    starts = [levels[gore.start] if isinstance(gore.start, str) else gore.start for gore in chosen]
    for gore, start in zip(bench.entries("gores"), starts, strict=True):
        if gore["place"] == bench.finding.subject:
            gore["start"] = _cm(start - float(found[1]))


def _split_lower(bench: Bench, found: Match) -> None:
    levels = bench.garment.draft.dimensions.levels
    for split in bench.garment.choices.splits:
        if split.place == bench.finding.subject:
            top = levels[split.height] if isinstance(split.height, str) else split.height
            bench.here("splits")[0]["height"] = _cm(top - float(found[1]))


def _start(bench: Bench, found: Match) -> None:
    for gore in bench.here("gores"):
        gore["start"] = f"{found[1]} cm"


def _sleeve(bench: Bench, found: Match) -> None:
    chosen, drafted = bench.garment.choices.sleeve.length, bench.garment.draft
    taken = max(drafted.taken_up.sleeves.values()) if drafted.taken_up else 0.0
    now = chosen if isinstance(chosen, float) else max(drafted.dimensions.sleeve_lengths.values()) - taken
    bench.put("sleeve", "length", _cm(now - float(found[1])))


def _gusset(bench: Bench, found: Match) -> None:
    bench.put("sleeve", "gusset", _cm(bench.garment.draft.dimensions.gusset - float(found[1])))


def _split_up(bench: Bench, found: Match) -> None:
    bench.entries("splits").append({"place": "side", "height": "hip"})
    for gore in bench.entries("gores"):
        if gore["place"] == "side":
            gore["make"] = "halves"


def _split_there(bench: Bench, found: Match) -> None:
    splits = [each for each in bench.entries("splits") if each["place"] not in found.groups()[:2]]
    bench.sheet["splits"] = [*splits, *({"place": at, "height": found[3]} for at in found.groups()[:2])]
    for gore in bench.entries("gores"):
        if gore["place"] in found.groups()[:2]:
            gore["make"] = "halves"


def _split_to_knee(bench: Bench, found: Match) -> None:
    for split in bench.entries("splits"):
        split["height"] = "knee"


def _split_below_waist(bench: Bench, found: Match) -> None:
    for split in bench.here("splits"):
        grid = bench.garment.draft.dimensions.grid
        split["height"] = _cm(math.floor((bench.finding.needed or 0.0) / grid) * grid)


def _to_the_sides(bench: Bench, found: Match) -> None:
    for gore in bench.here("gores"):
        gore["place"] = "side"


def _usual_drops(bench: Bench, found: Match) -> None:
    for drop in ("front_drop", "back_drop"):
        bench.sheet.get("neck", {}).pop(drop, None)


def _months(bench: Bench, found: Match) -> None:
    bench.sheet["growth"] = {"months": int(found[1])}


DONE: Final[Mapping[str, Callable[[Bench, Match], None]]] = {
    r"[Aa]dd ([\d.]+) cm to the (body|neck)'s ease": _add_ease,
    r"Add ([\d.]+) cm to garment\.(\w+)\.ease": _add_own_ease,
    r"Make garment\.(\w+)\.(\w+) ([\d.]+) cm": lambda bench, found: bench.put(found[1], found[2], f"{found[3]} cm"),
    r"Make sewing\.allowance ([\d.]+) cm": lambda bench, found: bench.tables.update(
        sewing={**bench.tables["sewing"], "allowance": f"{found[1]} cm"}
    ),
    r'(?:(\w+)\.)?(\w+) = "([^"]+)"': _choose,
    r"[Ll]eave (?:garment\.)?(\w+)\.(\w+) out": _leave_out,
    r"(?:give|Measure) (\w+_girth|height)": _measure,
    r"Make the hem ([\d.]+) cm wider": _widen,
    r"Make the garment ([\d.]+) cm longer": lambda bench, found: _length(bench, found, 1),
    r"Shorten the garment by ([\d.]+) cm": lambda bench, found: _length(bench, found, -1),
    r"Shorten it by ([\d.]+) cm": _shorten_other,
    r"Start these gores ([\d.]+) cm lower": _lower,
    r"Start these gores ([\d.]+) cm lower, and end the split": _split_lower,
    r"Start them at ([\d.]+) cm": _start,
    r"Shorten the sleeve by ([\d.]+) cm": _sleeve,
    r"Make the gusset ([\d.]+) cm smaller": _gusset,
    r"Make the band ([\d.]+) cm wide": lambda bench, found: _band(bench).update(width=f"{found[1]} cm"),
    r"Make the cuff at least ([\d.]+) cm": lambda bench, found: bench.put("sleeve", "cuff", f"{found[1]} cm"),
    r"split a seam up to the hip": _split_up,
    r"Split it at (centre-front) and (centre-back), both up to the (crotch)": _split_there,
    r"Split it higher, to the knee": _split_to_knee,
    r"Let the split end at or below the waist": _split_below_waist,
    r"Move these gores to the sides": _to_the_sides,
    r"the usual drops": _usual_drops,
    r"months = (\d+)": _months,
}
"""What words tell to do, and how it is done."""


def mended(tables: Tables, person: Tables, garment: Garment, finding: Finding) -> Iterator[tuple[str, Tables, Tables]]:
    """Each alternative of the finding's mend that can be done to the sheet: its words, and both tables changed."""
    if finding.outcome == "sound" or finding.code.startswith("period"):  # the evidence has tests of its own
        return
    for clause in re.split(r",? or (?=choose|open|leave|keep|split|make|move|more|a )", words.mend(finding, "cm")):
        bench = Bench(deepcopy(tables), dict(person), garment, finding)
        todo = [(found.start(), do, found) for words_, do in DONE.items() for found in re.finditer(words_, clause)]
        for _, do, found in sorted(todo, key=lambda each: each[0]):
            do(bench, found)
        if todo:
            yield clause, bench.tables, bench.person
