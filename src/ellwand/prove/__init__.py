"""Proof before cutting."""

from __future__ import annotations

from ellwand.prove.proof import prove
from ellwand.prove.safe import cautions

__all__ = ["cautions", "prove"]
