"""What goes on the garment when its pieces are settled: bands, repeats and charges."""

from __future__ import annotations

from ellwand.model.draft import Draft


def trimmed(draft: Draft) -> Draft:
    """The draft with its bands, repeats and charges placed, and what is cut for them among its pieces.

    Raises CannotDraft where one cannot go where it was asked.
    """
    return draft
