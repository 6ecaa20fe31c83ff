"""The outside solvers, each in a process of its own."""

from __future__ import annotations

from ellwand.lay.solvers.asked import Asked, ask, only_boxes
from ellwand.lay.solvers.worker import Worker, available, beside

__all__ = ["Asked", "Worker", "ask", "available", "beside", "only_boxes"]
