"""What is put on the shell: closures in numbers, bands, repeats, and the division of its field."""

from __future__ import annotations

from ellwand.adorn.closures.closings import adorn
from ellwand.adorn.division.dividing import divided
from ellwand.adorn.trimming import trimmed

__all__ = ["adorn", "divided", "trimmed"]
