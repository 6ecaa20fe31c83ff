"""The garment's field divided: each piece cut along the division, its shares sewn together again."""

from __future__ import annotations

from ellwand.model.draft import Draft


def divided(draft: Draft) -> Draft:
    """The same garment with its field divided as chosen; unchanged where none was chosen.

    Raises CannotDraft where the division cannot be cut.
    """
    return draft
