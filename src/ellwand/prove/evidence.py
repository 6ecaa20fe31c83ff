"""Does it suit its time: each choice against dated evidence. A hint with its source, never a bar."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any, Final

from ellwand.model.choices import Choices
from ellwand.model.draft import Dimensions, Draft
from ellwand.model.finding import Finding
from ellwand.model.others import Cloak, Hood

EVERYWHERE: Final = "Europe"
"""The region that holds all others."""
STANDINGS: Final = ("usual", "known", "rare or debated")
"""From the firmest down; what has no row is 'not known'."""
FIRM: Final = STANDINGS[:2]
"""What needs no second look."""
DEFAULTS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "body.centre_seam": "none",
        "sleeve.head": "straight",
        "sleeve.gusset": "none",
        "sleeve.pieces": "one",
        "neck.back": "round",
        "hood.gores": "none",
    }
)
"""What a feature of this key is given up for in the sheet; one that is not named here is left out."""
ALWAYS: Final = ("body.cut", "body.shoulder", "sleeve.shape", "neck.shape", "cloak.shape")
"""Keys that always have one value or another."""


@dataclass(frozen=True, slots=True)
class Row:
    """One piece of evidence; years, with ``margin`` on both sides."""

    region: str
    start: int
    end: int
    margin: int
    standing: str
    source: str
    remark: str = ""

    def covers(self, date: int) -> bool:
        """Whether the year lies within it, its margin included."""
        return self.start - self.margin <= date <= self.end + self.margin

    def off(self, date: int) -> int:
        """How many years the year lies outside it."""
        return max(self.start - date, date - self.end, 0)


@dataclass(frozen=True, slots=True)
class Collection:
    """All of it: rows by choice and value; each region's parent; each other name's region."""

    rows: Mapping[str, Mapping[str, tuple[Row, ...]]]
    within: Mapping[str, str | None]
    names: Mapping[str, str]

    def region(self, name: str | None) -> str | None:
        """The region of that name, everywhere if none is given; None if the evidence knows of no such region."""
        return EVERYWHERE if name is None else self.names.get(" ".join(name.casefold().split()))

    def related(self, one: str, other: str) -> bool:
        """Whether a region is the other, lies within it or holds it."""
        return one in self._up(other) or other in self._up(one)

    def _up(self, region: str | None) -> Iterator[str]:
        while region is not None:
            yield region
            region = self.within[region]


@cache
def collected() -> Collection:
    """The evidence that comes with the package."""
    data: dict[str, Any] = tomllib.loads(resources.files("ellwand.prove").joinpath("evidence.toml").read_text("utf-8"))
    rows = {
        choice: {value: tuple(_row(each, data["sources"]) for each in found) for value, found in values.items()}
        for choice, values in data["choices"].items()
    }
    regions = data["regions"]
    return Collection(
        MappingProxyType(rows),
        MappingProxyType({name: each.get("within") for name, each in regions.items()}),
        MappingProxyType({other.casefold(): name for name, each in regions.items() for other in (name, *each["also"])}),
    )


def _row(raw: Mapping[str, Any], sources: Mapping[str, str]) -> Row:
    return Row(
        raw["region"],
        raw["from"],
        raw["to"],
        raw["margin"],
        raw["standing"],
        sources[raw["source"]],
        raw.get("remark", ""),
    )


def evidence(draft: Draft) -> tuple[Finding, ...]:
    """One finding for each choice that the evidence speaks of; none where the sheet gives no date.

    'sound' for what is usual or known at that date, in the region or, failing that, in another; else 'look again';
    never 'will not work'.
    """
    choices, all_ = draft.choices, collected()
    if choices.date is None:
        return ()
    region = all_.region(choices.region)
    if region is None:
        return (Finding("period-elsewhere", "region", "look again", values={"region": str(choices.region)}),)
    return tuple(_judged(all_, key, value, choices.date, region) for key, value in dict.fromkeys(_chosen(draft)))


def _judged(all_: Collection, key: str, value: str, date: int, region: str) -> Finding:
    rows = _rows(all_, key, value)
    here = [row for row in rows if row.covers(date) and all_.related(row.region, region)]
    subject = key if key in ALWAYS else f"{key}-{value}".replace(" ", "-")
    values: dict[str, float | str] = {"choice": key, "value": value, "date": date, "region": region}
    instead = {"instead": _instead(all_, key, value, date, region)}
    abroad = [row for row in rows if row.covers(date) and row.standing in FIRM]
    if not here and abroad:
        known = _told(min(abroad, key=lambda each: each.off(date))) | {"standing": "known elsewhere"}
        return Finding("period-abroad", subject, "sound", unit="", values=values | known | instead)
    if not here:
        nearest = _told(
            min(rows, key=lambda each: (not all_.related(each.region, region), each.off(date)), default=None)
        )
        return Finding(
            "period-unknown",
            subject,
            "look again",
            unit="",
            values=values | nearest | {"standing": "not known"} | instead,
        )
    row = min(here, key=lambda each: (STANDINGS.index(each.standing), each.off(date)))
    firm = row.standing in FIRM
    return Finding("period", subject, "sound" if firm else "look again", unit="", values=values | _told(row) | instead)


def _told(row: Row | None) -> dict[str, float | str]:
    """A row as a finding's values; its source is '' where there is none."""
    if row is None:
        return {"source": ""}
    told = {"standing": row.standing, "place": row.region, "source": row.source, "remark": row.remark}
    return told | {"from": row.start, "to": row.end}


def _rows(all_: Collection, key: str, value: str) -> tuple[Row, ...]:
    """A closure has rows of its place and way, and rows of its way anywhere."""
    rows = all_.rows[key]
    anywhere = f"by {value.split(' by ')[-1]}" if key == "closures" else value
    return (*rows.get(value, ()), *(rows.get(anywhere, ()) if anywhere != value else ()))


def _instead(all_: Collection, key: str, value: str, date: int, region: str) -> str:
    """What the sheet could say instead: a value that is usual then (or known, if none is); '' to leave it out."""
    without = (key, value) == ("gores", "none")
    if key not in ALWAYS and not without:
        return f'{key} = "{DEFAULTS[key]}"' if key in DEFAULTS else ""
    firm = [
        (STANDINGS.index(row.standing), other)
        for other, rows in all_.rows[key].items()
        for row in rows
        if other != value and row.standing in FIRM and row.covers(date) and all_.related(row.region, region)
    ]
    if not firm:
        return ""
    other = min(firm, key=lambda each: each[0])[1]
    if without:
        return f'gores of place = "{other}"'
    return f'{key} = "{other}"' + (' with neck.slit = "centre"' if other == "keyhole" else "")


# --- what was chosen --------------------------------------------------------------------------------------


def _chosen(draft: Draft) -> Iterator[tuple[str, str]]:
    """(key, value) of every choice that the evidence has a list for."""
    rows = collected().rows
    pairs = _of_other(draft.choices) if draft.choices.other is not None else _of_tunic(draft)
    return ((key, value) for key, value in pairs if key in rows)


def _of_other(choices: Choices) -> Iterator[tuple[str, str]]:
    other = choices.other
    if isinstance(other, Hood):
        yield "hood.gores", other.gores
        if other.liripipe:
            yield "hood.liripipe", "liripipe"
    if isinstance(other, Cloak):
        yield "cloak.shape", other.shape


def _of_tunic(draft: Draft) -> Iterator[tuple[str, str]]:
    choices, size = draft.choices, draft.settled
    body, sleeve, neck = choices.body, choices.sleeve, choices.neck
    yield "body.cut", body.cut
    yield "body.shoulder", body.shoulder
    if body.centre_seam != "none":
        yield "body.centre_seam", body.centre_seam
    if body.back_longer:
        yield "body.back_longer", "longer"
    if body.flare:
        yield "body.flare", "flared"
    yield from (("gores", gore.place) for gore in choices.gores)
    if not choices.gores and not body.flare:
        yield "gores", "none"
    yield "sleeve.shape", sleeve.shape
    if sleeve.shape != "none":
        if sleeve.head == "shaped":
            yield "sleeve.head", "shaped"
        if isinstance(size, Dimensions) and size.gusset:
            yield "sleeve.gusset", "gusset"
        if sleeve.pieces == "two":
            yield "sleeve.pieces", "two"
    yield "neck.shape", neck.shape
    if neck.back == "pointed":
        yield "neck.back", "pointed"
    if neck.collar:
        yield "neck.collar", "collar"
    if choices.division is not None:
        by = choices.division.by
        yield "division", by if by in ("per pale", "per fess", "quarterly") else "in many parts"
    yield from (("splits", split.place) for split in choices.splits)
    yield from (("closures", f"{closure.at} by {closure.by}") for closure in choices.closures)
