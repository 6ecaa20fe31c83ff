"""One garment, done: who it is for, what was chosen, its pieces, its proof, its lay and its order of sewing."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.model.choices import Choices
from ellwand.model.closing import Closing
from ellwand.model.cloth import Cloth
from ellwand.model.cost import Prices
from ellwand.model.draft import Draft
from ellwand.model.finding import Caution, Finding, Girth
from ellwand.model.lay import Lay
from ellwand.model.mesh import Hang
from ellwand.model.shell import Shell
from ellwand.model.step import Step
from ellwand.model.tearing import TearPlan
from ellwand.model.wearer import Wearer


@dataclass(frozen=True, slots=True)
class Proof:
    """What was found before cutting."""

    shell: Shell
    girths: tuple[Girth, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Garment:
    """The whole job's result; ``lays`` is empty when only proved.

    ``questions``: improbable measurements; they are among the proof's findings too.  ``tears``: how each cloth is torn
    that is not cut freely; ``hang``: how it hangs on its wearer, where that was asked for.
    """

    title: str
    wearer: Wearer
    choices: Choices
    cloths: tuple[Cloth, ...]
    draft: Draft
    proof: Proof
    lays: tuple[Lay, ...]
    steps: tuple[Step, ...]
    cautions: tuple[Caution, ...]
    questions: tuple[Finding, ...] = ()
    tears: tuple[TearPlan, ...] = ()
    prices: Prices | None = None
    hang: Hang | None = None

    @property
    def closings(self) -> tuple[Closing, ...]:
        """Its closures in numbers."""
        return self.draft.closings
