"""What goes on the garment when its pieces are settled: bands, repeats and charges."""

from __future__ import annotations

from collections.abc import Mapping

from ellwand.adorn.bands.banded import banded
from ellwand.adorn.charges.charged import UNBOUNDED, Room, charged
from ellwand.adorn.repeats.repeated import repeated
from ellwand.model.draft import Draft


def trimmed(draft: Draft, rooms: Mapping[str, Room] = UNBOUNDED) -> Draft:
    """The draft with its bands, repeats and charges placed, and what is cut for them among its pieces.

    ``rooms``: of each tincture how wide a charge may be cut, where that is to be heeded.
    Raises CannotDraft where one cannot go where it was asked.
    """
    return charged(repeated(banded(draft)), rooms)
