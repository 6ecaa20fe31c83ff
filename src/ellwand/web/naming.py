"""Names for files, made of people's own."""

from __future__ import annotations

import re


def plain_name(text: str, most: int = 60, nameless: str = "ellwand") -> str:
    """The text as part of a file's name, in plain letters."""
    from ellwand.publish.letters import spelled

    return re.sub(r"[^a-z0-9]+", "-", spelled(text).lower()).strip("-")[:most] or nameless
