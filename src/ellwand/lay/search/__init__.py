"""Our own constructive search: pieces laid one after the other in ever better orders, poses and ways of placing."""

from ellwand.lay.search.engine import brief, fill, first, prepare, search
from ellwand.lay.search.kept import ready

__all__ = ["brief", "fill", "first", "prepare", "ready", "search"]
