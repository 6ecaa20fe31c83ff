"""Lengths that no lay of these pieces can undercut, each with its reason in a maker's words."""

from ellwand.lay.bounds.best import better_bound, bound_of, lower_bound

__all__ = ["better_bound", "bound_of", "lower_bound"]
