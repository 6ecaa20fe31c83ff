"""How fast a garment comes to rest, and how that grows with its mesh.

    python benchmarks/drape.py                        the table, in about a minute on one core
    python benchmarks/drape.py --mesh FILE            also writes the sheet that the other solvers are given

Times are of one core (set OPENBLAS_NUM_THREADS=1).  'left' is the sum of all forces left over, over the weight.
A first, untimed run compiles.
"""

from __future__ import annotations

import argparse
import math
import resource
import time
from dataclasses import replace
from pathlib import Path

import numpy as np

from ellwand.drape import hang
from ellwand.drape.equilibrium import settled, task_of
from ellwand.drape.field import field_of
from ellwand.drape.form import form_of
from ellwand.drape.hanging import cloth_area
from ellwand.drape.meshing import mesh_of
from ellwand.drape.placing import begun
from ellwand.loading import load_sheet
from ellwand.pipeline import prove_sheet

SHEET = Path(__file__).parents[1] / "src" / "ellwand" / "examples" / "joan-netmaker.toml"
GROWTH = (1000, 2000, 4000, 9000, 16000, 30000)


def main() -> None:
    """Print the tables."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--mesh", type=Path, help="where to write points, triangles and flat corners (.npz)")
    asked = parser.parse_args()
    garment = prove_sheet(load_sheet(SHEET))
    draft, wearer = garment.draft, garment.wearer
    hang(draft, wearer, garment.cloths, finer=1)
    print("the whole way, set-up included")
    print("  points  seconds  steps   left  deepest (cm)")
    for finer in (1, 2):
        start = time.perf_counter()
        hung = hang(draft, wearer, garment.cloths, finer=finer)
        took = time.perf_counter() - start
        print(f"  {hung.mesh.count:6d}  {took:7.1f}  {hung.steps:5d}  {hung.residual:5.2f}  {hung.deepest:.3f}")
    print(f"most memory: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MiB")
    form = form_of(wearer)
    field = field_of(form)
    print("one mesh from the start, ten steps")
    print("  points  set-up (s)  a step (s)")
    for count in GROWTH:
        start = time.perf_counter()
        mesh = mesh_of(draft, math.sqrt(cloth_area(draft) / (0.866 * count)))
        points = begun(draft, mesh, form, field, wearer).points
        many = len(mesh.corners)
        task = task_of(
            mesh, np.tile((400.0, 400.0, 40.0), (many, 1)), np.tile((0.3,) * 3, (many, 1)), np.full(many, 0.022), field
        )
        ready = time.perf_counter()
        done = settled(replace(task), points, most=10, enough=0.0)
        each = (time.perf_counter() - ready) / max(1, len(done.energies))
        print(f"  {mesh.count:6d}  {ready - start:10.2f}  {each:10.3f}")
        if asked.mesh and count == 2000:
            np.savez(asked.mesh, points=points, corners=mesh.corners, flat=mesh.flat)


if __name__ == "__main__":
    main()
