"""The draft's own rules as sums to do by hand: each blank with what is added, taken away, multiplied or compared.

A rule is data: where it starts, its steps in their order, how it is rounded.  What is printed and what is reckoned
both come from it.  Rules of the tunic's kind are in ``handout_tunic``, those of other garments in ``handout_others``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from ellwand.language import N_, _
from ellwand.model.measurement import MEASUREMENTS
from ellwand.model.wearer import Wearer, upper
from ellwand.units import Unit, decimal, format_length, round_near, round_up

Rounding = Literal["up", "near", "shop", ""]
"""To the chalk grid, up or to the nearest; up to what a shop cuts; or not at all."""
Op = Literal["+", "-", "×", "÷", "at least", "at most"]


@dataclass(frozen=True, slots=True)
class Taken:
    """A measurement, by its field; ``upper``: an estimate counts as the largest that it may well be."""

    field: str
    upper: bool = False


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of the cloth or the maker, by its words in the catalogue's English."""

    what: str


@dataclass(frozen=True, slots=True)
class Result:
    """What another rule came to, by its key."""

    key: str


@dataclass(frozen=True, slots=True)
class Given:
    """A length (cm) that is the same for everyone; ``why``: what it is, in the catalogue's English."""

    cm: float
    why: str = ""


@dataclass(frozen=True, slots=True)
class Times:
    """A plain number."""

    number: float


Operand = Taken | Asked | Result | Given | Times
Step = tuple[Op, Operand]


@dataclass(frozen=True, slots=True)
class Rule:
    """One line of the sums. ``name``: what it gives, in the catalogue's English; ``largest``: where it starts.

    ``shown``: a size of the garment, set bold; the others are on the way to one.
    """

    key: str
    name: str
    largest: tuple[Operand, ...]
    steps: tuple[Step, ...] = ()
    rounding: Rounding = ""
    shown: bool = True


@dataclass(frozen=True, slots=True)
class Sums:
    """All rules of one garment in the order in which they are done; ``notes``: sentences below a rule, by its key.

    ``grid``: the chalk's, ``shop``: cloth is sold by so much (cm).
    """

    grid: float
    rules: tuple[Rule, ...]
    shop: float = 10.0
    notes: Mapping[str, str] = field(default_factory=dict)

    def letters(self) -> dict[str, str]:
        """Rule key -> the letter that its result carries, for those that others start from."""
        asked = {each.key for rule in self.rules for each in operands(rule) if isinstance(each, Result)}
        wanted = [rule.key for rule in self.rules if rule.key in asked]
        return dict(zip(wanted, LETTERS, strict=False))


_ONE: Final = "ABCDEFGHJKLMNPQRSTUVWXYZ"
LETTERS: Final = (*_ONE, *(first + second for first in _ONE for second in _ONE))
"""Without I and O, which look like numbers."""
SIGNS: Final[Mapping[Op, str]] = {
    "+": "+",
    "-": "−",
    "×": "×",
    "÷": "÷",
    "at least": N_("but at least"),
    "at most": N_("but at most"),
}


def operands(rule: Rule) -> Iterator[Operand]:
    """Everything that a rule is reckoned from."""
    yield from rule.largest
    yield from (each for _op, each in rule.steps)


Measured = Callable[[Taken | Asked], float]
"""What someone writes into a blank (cm)."""


def measures_of(wearer: Wearer, cloth: float) -> Measured:
    """What one person writes into the blanks, with a cloth so wide (cm)."""

    def measured(each: Taken | Asked) -> float:
        if isinstance(each, Asked):
            return cloth
        return upper(wearer.measures[each.field]) if each.upper else wearer[each.field]

    return measured


def reckoned(sums: Sums, measured: Measured) -> dict[str, float]:
    """What every rule comes to (cm) for one person's measurements."""
    out: dict[str, float] = {}

    for rule in sums.rules:
        total = max(_value(each, out, measured) for each in rule.largest)
        for op, each in rule.steps:
            total = _done(op, total, _value(each, out, measured))
        out[rule.key] = _rounded(rule.rounding, total, sums)
    return out


def _value(each: Operand, so_far: Mapping[str, float], measured: Measured) -> float:
    match each:
        case Taken() | Asked():
            return measured(each)
        case Result(key):
            return so_far[key]
        case Given(cm):
            return cm
        case Times(number):
            return number


def _done(op: Op, total: float, by: float) -> float:
    match op:
        case "+":
            return total + by
        case "-":
            return total - by
        case "×":
            return total * by
        case "÷":
            return total / by
        case "at least":
            return max(total, by)
        case "at most":
            return min(total, by)


def _rounded(rounding: Rounding, cm: float, sums: Sums) -> float:
    match rounding:
        case "up":
            return round_up(cm, sums.grid)
        case "near":
            return round_near(cm, sums.grid)
        case "shop":
            return round_up(cm, sums.shop)
        case "":
            return cm


@dataclass(frozen=True, slots=True)
class Bit:
    """A stretch of a printed rule: words, then a line to write on where there is a ``blank``.

    ``sign``: it belongs to what follows.
    """

    text: str
    blank: bool = False
    sign: bool = False


def printed(sums: Sums, rule: Rule, unit: Unit) -> list[Bit]:
    """A rule as it is printed: what to take, what to do with it, and what to round to.

    What was added up so far gets a blank of its own before it is multiplied or divided.
    """
    first = [_named(sums, each, unit) for each in rule.largest]
    out = [Bit(_("the largest of")), *first] if len(first) > 1 else first
    for i, (op, each) in enumerate(rule.steps):
        if _closes(rule, i):
            out.append(Bit("=", True))
        sign = SIGNS[op]
        out.append(Bit(_(sign) if op in COMPARED else sign, sign=True))
        out.append(_named(sums, each, unit))
    if rule.rounding and rule_asks(rule):
        out.append(Bit(_(ROUNDED[rule.rounding], grid=format_length(sums.shop, unit))))
    return out


def _closes(rule: Rule, step: int) -> bool:
    """Whether what comes before a step has to be done first, against the usual order."""
    before = rule.steps[step - 1][0] if step else "at least" if len(rule.largest) > 1 else "×"
    return rule.steps[step][0] in ("×", "÷") and before not in ("×", "÷")


COMPARED: Final = ("at least", "at most")
ROUNDED: Final[Mapping[Rounding, str]] = {
    "up": N_("(round up)"),
    "near": N_("(round)"),
    "shop": N_("(round up to {grid})"),
    "": "",
}


def _named(sums: Sums, each: Operand, unit: Unit) -> Bit:
    match each:
        case Taken(name):
            return Bit(_(MEASUREMENTS[name].label), True)
        case Asked(what):
            return Bit(_(what), True)
        case Result(key):
            return Bit(sums.letters()[key], True)
        case Given(cm, why):
            return Bit(f"{format_length(cm, unit)} ({_(why)})" if why else format_length(cm, unit))
        case Times(number):
            return Bit(_number(number))


def _number(number: float) -> str:
    places = next(n for n in range(4) if n == 3 or abs(number - round(number, n)) < 1e-9)
    return decimal(number, places)


def worked(sums: Sums, rule: Rule, values: Mapping[str, float], measured: Measured, unit: Unit) -> str:
    """The rule with one person's numbers: '96 + 14 = 110'."""

    def said(each: Operand) -> str:
        match each:
            case Taken() | Asked():
                return format_length(measured(each), unit, mark=False)
            case Result(key):
                return format_length(values[key], unit, mark=False)
            case Given(cm):
                return format_length(cm, unit, mark=False)
            case Times(number):
                return _number(number)

    start = [said(each) for each in rule.largest]
    out = _("largest of {these}", these=", ".join(start)) if len(start) > 1 else start[0]
    total = max(_value(each, values, measured) for each in rule.largest)
    for i, (op, each) in enumerate(rule.steps):
        if _closes(rule, i):
            so_far = format_length(total, unit, mark=False)
            out += f" = {so_far}; {so_far}"
        sign = SIGNS[op]
        out += f" {_(sign) if op in COMPARED else sign} {said(each)}"
        total = _done(op, total, _value(each, values, measured))
    return f"{out} = {format_length(values[rule.key], unit, mark=False)}"


def used(sums: Sums) -> list[str]:
    """The measurements that are needed, in the order they are taken."""
    asked = {each.field for rule in sums.rules for each in operands(rule) if isinstance(each, Taken)}
    return [name for name in MEASUREMENTS if name in asked]


def rule_asks(rule: Rule) -> bool:
    """Whether there is anything to reckon; otherwise the size is the same for everyone."""
    return not all(isinstance(each, Given) for each in operands(rule))


def rule_name(rule: Rule) -> str:
    """What a rule gives, in the language spoken."""
    return _(rule.name)


def steps(*each: tuple[Op, Operand | float]) -> tuple[Step, ...]:
    """Steps, without those that add or take away nothing; a bare number is one to multiply or divide by."""
    out = ((op, Times(by) if isinstance(by, (int, float)) else by) for op, by in each)
    return tuple(step for step in out if not (step[0] in ("+", "-") and isinstance(step[1], Given) and not step[1].cm))
