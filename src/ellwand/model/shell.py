"""The sewn surface as topology: vertices, edges, faces, and the rims that are left open."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.model.draft import EdgeRef


@dataclass(frozen=True, slots=True)
class Rim:
    """One opening of the sewn shell: its unsewn edges, their length (cm) and what it opens to."""

    id: str
    edges: tuple[EdgeRef, ...]
    length: float
    opens_to: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Shell:
    """Counts of the sewn surface; Euler characteristic = vertices − edges + faces."""

    vertices: int
    edges: int
    faces: int
    euler: int
    components: int
    orientable: bool
    rims: tuple[Rim, ...]
