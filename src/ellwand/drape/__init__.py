"""See it hang: the sewn pieces in their cloth on a form with the wearer's girths, at rest."""

from __future__ import annotations

from ellwand.drape.findings import hang_findings
from ellwand.drape.hanging import hang

__all__ = ["hang", "hang_findings"]
