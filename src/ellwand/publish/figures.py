"""The picture of the tapes as a file of its own, for docs/measuring.md."""

from __future__ import annotations

from typing import Final

from ellwand.depict.figure import three_views
from ellwand.publish.svg import svg

SCALE: Final = 0.06
"""Paper cm per cm of the figure."""


def figures_svg() -> str:
    """The three views with every tape, as docs/measuring.svg."""
    return svg(three_views(), SCALE, "Where the tape goes")


if __name__ == "__main__":
    print(figures_svg(), end="")
