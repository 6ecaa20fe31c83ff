"""From wearer and choices to pieces and shell."""

from __future__ import annotations

from ellwand.draft.assemble import draft
from ellwand.draft.growing import draft_to_grow
from ellwand.draft.on_width import pieced_to_fit

__all__ = ["draft", "draft_to_grow", "pieced_to_fit"]
