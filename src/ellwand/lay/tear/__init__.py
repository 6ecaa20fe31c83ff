"""Cloth torn from edge to edge into blocks of pieces."""

from __future__ import annotations

from ellwand.lay.tear.plan import tear_plan

__all__ = ["tear_plan"]
