"""What pieces and their places are called, for those who show them."""

from __future__ import annotations

from ellwand.model.names import NAMES, named

__all__ = ["NAMES", "named"]
