"""From wearer and choices to pieces and shell."""

from __future__ import annotations

from ellwand.draft.assemble import draft
from ellwand.draft.growing import draft_to_grow

__all__ = ["draft", "draft_to_grow"]
