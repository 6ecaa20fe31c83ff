"""The words of a blazon, and those that say the same in plain English."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.language import N_
from ellwand.model.heraldry import FieldPoint, Partition

AT: Final[Mapping[FieldPoint, str]] = {
    "dexter chief": N_("in dexter chief"),
    "middle chief": N_("in chief"),
    "sinister chief": N_("in sinister chief"),
    "honour point": N_("at the honour point"),
    "fess point": "",
    "nombril point": N_("at the nombril point"),
    "dexter base": N_("in dexter base"),
    "middle base": N_("in base"),
    "sinister base": N_("in sinister base"),
}
PLAIN_AT: Final[Mapping[FieldPoint, str]] = {
    "dexter chief": N_("high on the right as worn"),
    "middle chief": N_("high in the middle"),
    "sinister chief": N_("high on the left as worn"),
    "honour point": N_("above the middle"),
    "fess point": N_("in the middle"),
    "nombril point": N_("below the middle"),
    "dexter base": N_("low on the right as worn"),
    "middle base": N_("low in the middle"),
    "sinister base": N_("low on the left as worn"),
}
ORDERED: Final[Mapping[int, str]] = {
    2: N_("in pale"),
    4: N_("two and two"),
    5: N_("in saltire"),
    6: N_("three, two and one"),
}
PLAIN_ORDERED: Final[Mapping[int, str]] = {
    2: N_("one above the other"),
    3: N_("two above one"),
    4: N_("two above two"),
    5: N_("two, one and two"),
    6: N_("three, two and one"),
}
BANDS: Final[Mapping[str, str]] = {
    "chief": N_("a band across the top"),
    "pale": N_("an upright band down the middle"),
    "fess": N_("a level band across the middle"),
    "bend": N_("a slanting band from the right shoulder to the left foot, as worn"),
    "bend sinister": N_("a slanting band from the left shoulder to the right foot, as worn"),
    "chevron": N_("a band bent like a gable"),
    "cross": N_("an upright cross from edge to edge"),
    "saltire": N_("a slanting cross from corner to corner"),
    "pile": N_("a wedge from the top, its point down"),
    "bordure": N_("a border all round"),
}
PARTITIONS: Final[Mapping[Partition, str]] = {
    "per pale": N_("per pale"),
    "per fess": N_("per fess"),
    "quarterly": N_("quarterly"),
    "per bend": N_("per bend"),
    "per bend sinister": N_("per bend sinister"),
    "per chevron": N_("per chevron"),
    "per saltire": N_("per saltire"),
    "gyronny": N_("gyronny"),
    "paly": N_("paly"),
    "barry": N_("barry"),
    "bendy": N_("bendy"),
    "chequy": N_("chequy"),
    "lozengy": N_("lozengy"),
}
SEVERAL: Final = frozenset(
    {
        N_("annulets"),
        N_("billets"),
        N_("chevrons"),
        N_("crescents"),
        N_("crosses couped"),
        N_("escutcheons"),
        N_("fleurons"),
        N_("hearts"),
        N_("keys"),
        N_("knots"),
        N_("lozenges"),
        N_("mullets"),
        N_("roundels"),
        N_("saltires"),
        N_("vine-scrolls"),
    }
)
"""Charges of which there may be more than one."""
PARTED: Final[Mapping[Partition, str]] = {
    "per pale": N_("the right half {one}, the left half {two}, as worn"),
    "per fess": N_("the upper half {one}, the lower half {two}"),
    "quarterly": N_("in quarters: upper right and lower left {one}, the other two {two}, as worn"),
    "per bend": N_("parted from the right shoulder to the left foot as worn: above it {one}, below it {two}"),
    "per bend sinister": N_("parted from the left shoulder to the right foot as worn: above it {one}, below it {two}"),
    "per chevron": N_("parted like a gable: above it {one}, below it {two}"),
    "per saltire": N_("parted crosswise from corner to corner: top and bottom {one}, the sides {two}"),
    "gyronny": N_("{count} wedges about the middle, {one} and {two} in turn"),
    "paly": N_("{count} upright stripes, {one} and {two} in turn, {one} on the right as worn"),
    "barry": N_("{count} level stripes, {one} and {two} in turn, {one} at the top"),
    "bendy": N_("{count} stripes that slant from the right shoulder to the left foot as worn, {one} and {two} in turn"),
    "chequy": N_("checks, {count} across, {one} and {two} in turn"),
    "lozengy": N_("lozenges, {count} across, {one} and {two} in turn"),
}
PARTED_IN_FOUR: Final[Mapping[Partition, str]] = {
    "quarterly": N_(
        "in quarters, as worn: upper right {one}, upper left {two}, lower right {three}, lower left {four}"
    ),
    "per saltire": N_(
        "parted from corner to corner, as worn: top {one}, right side {two}, left side {three}, bottom {four}"
    ),
}
