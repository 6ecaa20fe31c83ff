"""One step of sewing."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """Step ``n`` joins ``seams`` of ``parts`` after every step in ``needs``; time in minutes, thread in m."""

    n: int
    code: str
    subject: str
    parts: tuple[str, ...]
    seams: tuple[str, ...]
    needs: tuple[int, ...]
    length: float
    minutes_hand: float
    minutes_machine: float
    thread_m: float
