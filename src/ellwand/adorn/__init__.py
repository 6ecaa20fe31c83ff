"""What is put on the shell: closures in numbers, and their places on the pieces."""

from __future__ import annotations

from ellwand.adorn.closings import adorn

__all__ = ["adorn"]
