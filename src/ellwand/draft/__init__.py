"""From wearer and choices to pieces and shell."""

from __future__ import annotations

from ellwand.draft.assemble import draft

__all__ = ["draft"]
