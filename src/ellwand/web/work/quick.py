"""First lays, in processes beside the one that answers, so that nobody waits for another's."""

from __future__ import annotations

import json
import multiprocessing
import os
import sys
from concurrent.futures import ProcessPoolExecutor
from typing import Final

from ellwand.errors import BadInput
from ellwand.language import speaking
from ellwand.web.work.at_once import laid_at_once

AT_ONCE: Final = 2
PLAIN: Final = {"wearer": {"height": 170, "bust_girth": 92}, "cloth": {"main": {"width": 150}}}
"""A garment to warm up with."""


def pool() -> ProcessPoolExecutor:
    """The processes, begun when the first lay is asked for."""
    way = "spawn" if sys.platform == "win32" else "forkserver"
    return ProcessPoolExecutor(AT_ONCE, multiprocessing.get_context(way), _aside)


def _aside() -> None:
    """Whoever draws goes first."""
    if hasattr(os, "nice"):
        os.nice(5)


def laid_quickly(tables: str, language: str) -> tuple[bool, str]:
    """(whether it can be laid, the cloth on the page or the sentence) of a sheet's tables as JSON text."""
    from ellwand.web.cloth_laid import cloth_laid

    with speaking(language):
        try:
            return True, cloth_laid(laid_at_once(json.loads(tables)))
        except BadInput as error:
            return False, str(error)


def ready() -> int:
    """What a process does to be there before the first lay is asked for."""
    laid_quickly(json.dumps(PLAIN), "en")
    return os.getpid()
