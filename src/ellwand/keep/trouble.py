"""What can go wrong with keeping; each is one sentence (``BadInput``)."""

from __future__ import annotations

from ellwand.errors import BadInput
from ellwand.keep.things import Thing
from ellwand.language import _


class CannotKeep(BadInput):
    """The file, the disk or the database does not give or take what is kept; nothing of the change was kept."""


class Missing(BadInput):
    """There is no such thing, or it was erased."""


class Stale(BadInput):
    """Someone else saved in between; ``newer`` is what they saved, and nothing was written."""

    def __init__(self, newer: Thing) -> None:
        self.newer = newer
        super().__init__(
            newer.name,
            _("someone else saved this in between"),
            _("look at what they saved, then keep one of the two or both"),
        )
