"""The proof of a garment whose pieces were pieced to fit the cloth: it fits as before, but is sewn anew."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from ellwand.model.draft import Draft
from ellwand.model.garment import Proof
from ellwand.model.wearer import Wearer
from ellwand.prove.assembles import assembles
from ellwand.prove.noted import noted
from ellwand.prove.sewn import sewn_up

ASSEMBLY: Final = frozenset({"seams-match", "outlines", "surface", "one-piece", "two-sided", "openings"})
"""What is found of every shell: of the one that is sewn, not of the one before it was pieced."""


def prove_pieced(proof: Proof, draft: Draft, wearer: Wearer) -> Proof:
    """The proof of the same garment, unpieced, carried over to ``draft``: its shell, its seams and its notes anew.

    Raises InternalFault when a seam names an edge that no part has.
    """
    sewn = sewn_up(draft, wearer)
    known = {(finding.code, finding.subject) for finding in proof.findings}
    told = [finding for finding in noted(draft) if (finding.code, finding.subject) not in known]
    kept = [finding for finding in proof.findings if finding.code not in ASSEMBLY]
    return replace(proof, shell=sewn.shell, findings=(*assembles(sewn), *kept, *told))
