"""What is asked for in the shop, and why it is more than what is laid."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Purchase:
    """How the length of a lay becomes the length to buy (cm); every figure is what its step adds.

    ``laid``: the lay itself.  ``straightening``: cut off at both ends to bring them square to the threads.
    ``spare``: more than is needed, as the maker wished.  ``shrinkage``: what washing takes off before it is cut.
    ``rounding``: up to the seller's ``unit``.  ``cost`` is in the money of the cloth's price, None without one.
    """

    laid: float
    straightening: float
    spare: float
    shrinkage: float
    rounding: float
    unit: float
    cost: float | None = None

    @property
    def length(self) -> float:
        """The length to ask for (cm)."""
        return self.laid + self.straightening + self.spare + self.shrinkage + self.rounding
