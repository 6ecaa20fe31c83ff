"""How the inner functions are compiled."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from numba import njit

Work = TypeVar("Work", bound=Callable[..., object])


def compiled(work: Work) -> Work:
    """The function as machine code in double precision, kept on disk between runs."""
    done: Work = njit(work, cache=True, nogil=True, error_model="numpy")
    return done
