"""The exact engine: CP-SAT is asked whether the pieces fit in a shorter length; both of its answers are of use."""

from __future__ import annotations

from ellwand.lay.exact.engine import Exact, leads, takes

__all__ = ["Exact", "leads", "takes"]
