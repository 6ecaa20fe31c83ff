"""Text of people made safe: no control characters, none that turn the reading direction round."""

from __future__ import annotations

import unicodedata


def clean(text: str) -> str:
    """The text on one line without control characters, lone surrogates and direction overrides."""
    kept = "".join(" " if c in "\n\r\t\u2028\u2029" else c for c in text)
    return " ".join(
        "".join(c for c in kept if unicodedata.category(c) not in ("Cc", "Cf", "Cs", "Cn", "Co")).split(" ")
    )
