"""The machine code of the search that is kept on disk: whether it is there, and new enough."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final

HERE: Final = Path(__file__).parent

CALLED: Final = ("sums.pair_up", "kernel.build", "annealing.anneal")
"""What Python calls of it; the rest comes with these."""

SOURCES: Final = ("compiled.py", "sums.py", "kernel.py", "annealing.py")


def ready() -> bool:
    """Whether a search can begin at once: compiled in this process, or by an earlier one after the last change.

    Only files are looked at.  Where neither the program's folder nor NUMBA_CACHE_DIR can be written, so that the
    code is kept in the user's own folder, the answer is False until this process has loaded it.
    """
    # another thread may be at importing it just now
    anneal = getattr(sys.modules.get("ellwand.lay.search.annealing"), "anneal", None)
    if anneal is not None and anneal.signatures:
        return True
    changed = _changed()
    return all(any(index.stat().st_mtime >= changed for index in _indexes(name)) for name in CALLED)


def forget_old() -> None:
    """Removes kept code that is older than any of the sources.

    By itself numba looks only at the file a function stands in, not at those that it calls.
    """
    changed = _changed()
    for index in _indexes("*"):
        if index.stat().st_mtime < changed:
            index.unlink(missing_ok=True)


def _changed() -> float:
    return max((HERE / source).stat().st_mtime for source in SOURCES)


def _indexes(name: str) -> Iterator[Path]:
    chosen = os.environ.get("NUMBA_CACHE_DIR")
    folder = Path(chosen) if chosen else HERE
    within = f"{HERE.name}_*" if chosen else "__pycache__"
    yield from folder.glob(f"{within}/{name}-*.py{sys.version_info.major}{sys.version_info.minor}.nbi")
