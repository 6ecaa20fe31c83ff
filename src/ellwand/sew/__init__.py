"""The order of sewing, with thread and time."""

from __future__ import annotations

from ellwand.sew.order import sew

__all__ = ["sew"]
