"""What findings, cautions and steps say: one plain sentence each, with the numbers in the maker's unit."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, TypeVar

from ellwand.depict.words.cautions import CAUTIONS
from ellwand.depict.words.findings import WHY
from ellwand.depict.words.freedom import FREEDOM_WHY
from ellwand.depict.words.mends import MEND
from ellwand.depict.words.other_steps import other_step
from ellwand.depict.words.saying import Numbers, Say
from ellwand.depict.words.slips import SLIP_MEND, SLIP_WHY
from ellwand.depict.words.steps import step as body_step
from ellwand.errors import InternalFault
from ellwand.model.draft import Draft
from ellwand.model.finding import Caution, Finding
from ellwand.model.step import Step
from ellwand.units import Unit

__all__ = ["caution", "mend", "step", "why"]

T = TypeVar("T")
_WHY: Final[Mapping[str, Say]] = {**WHY, **FREEDOM_WHY, **SLIP_WHY}
_MEND: Final[Mapping[str, Say]] = {**MEND, **SLIP_MEND}


def why(finding: Finding, unit: Unit) -> str:
    """What was found, with its numbers.

    Raises InternalFault for a code without words.
    """
    return _template(_WHY, finding.code)(finding, Numbers(finding.values, unit))


def mend(finding: Finding, unit: Unit) -> str:
    """What would mend it; '' when nothing needs to be mended."""
    template = _MEND.get(finding.code)
    if finding.outcome == "sound" or template is None:
        return ""
    return template(finding, Numbers(finding.values, unit))


def step(step: Step, draft: Draft, unit: Unit) -> str:
    """What to do in this step.

    Raises KeyError for a step without words.
    """
    return (body_step if draft.choices.other is None else other_step)(step, draft, unit)


def caution(caution: Caution, unit: Unit) -> str:
    """One caution.

    Raises InternalFault for a code without words.
    """
    return _template(CAUTIONS, caution.code)(Numbers(caution.values, unit))


def _template(table: Mapping[str, T], code: str) -> T:
    try:
        return table[code]
    except KeyError:
        raise InternalFault(f"no words for {code}") from None
