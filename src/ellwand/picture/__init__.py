"""From marks on a picture to lengths for this wearer, and to the structures that would look like it."""

from __future__ import annotations

from ellwand.picture.marking import read_marks
from ellwand.picture.offering import offers
from ellwand.picture.reading import read

__all__ = ["offers", "read", "read_marks"]
