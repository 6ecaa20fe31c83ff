"""A garment hung on its wearer, on its coarsest mesh: enough for what is asked here."""

from __future__ import annotations

import json
import struct
from dataclasses import replace
from functools import cache
from io import BytesIO

import numpy as np
import pytest
import trimesh
from PIL import Image

from ellwand.depict import words
from ellwand.drape import hang, hang_findings
from ellwand.drape.meshing import mesh_of, quality, refined
from ellwand.drape.readings import girth_at
from ellwand.errors import BadInput
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Draft
from ellwand.model.mesh import Hang
from ellwand.model.wearer import Wearer
from ellwand.publish.glb import Solid, glb
from ellwand.publish.png import moving_png, png
from proving_specimens import drafted
from sweep import garment_at, made

GORED = {"gores": [{"place": "side", "start": "hip", "base": 40}]}
CLOTH = Cloth("main", 150.0, grams=220.0, bends_warp=2.5)


@cache
def specimen() -> tuple[Draft, Wearer]:
    draft, wearer = drafted(GORED)
    return draft, wearer


@cache
def hung() -> Hang:
    return hang(*specimen(), (CLOTH,), finer=0)


def test_what_is_sewn_is_one_surface() -> None:
    draft, _ = specimen()
    mesh = mesh_of(draft, 5.0)
    body = trimesh.Trimesh(np.zeros((mesh.count, 3)), mesh.corners, process=False)
    # every side belongs to one triangle (at a rim) or two, walked in opposite senses
    assert body.is_winding_consistent
    many = np.bincount(body.edges_unique_inverse)
    assert set(many) == {1, 2}
    rim = sum(len(pairs) for pairs in mesh.rims.values())
    assert int((many == 1).sum()) == rim
    # of a tunic: neck, hem and two cuffs (checked by another library)
    assert len(trimesh.graph.connected_components(body.edges_unique[many == 1], min_len=2)) == 4
    assert len(trimesh.graph.connected_components(body.edges_unique)) == 1


def test_triangles_are_well_shaped_and_keep_their_area() -> None:
    draft, _ = specimen()
    mesh = mesh_of(draft, 3.0)
    assert float(np.mean(quality(mesh))) > 0.97
    finer, between = refined(mesh)
    assert len(finer.corners) == 4 * len(mesh.corners)
    assert finer.count == mesh.count + len(between)

    def whole(flat: np.ndarray) -> float:
        u, v = flat[:, 1] - flat[:, 0], flat[:, 2] - flat[:, 0]
        return float((u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]).sum() / 2)

    assert whole(finer.flat) == pytest.approx(whole(mesh.flat))


def test_the_order_of_pieces_does_not_matter() -> None:
    draft, _ = specimen()
    turned = replace(draft, parts=draft.parts[::-1], seams=draft.seams[::-1])
    one, other = mesh_of(draft, 5.0), mesh_of(turned, 5.0)
    assert (one.count, len(one.corners), len(one.seams)) == (other.count, len(other.corners), len(other.seams))


def test_it_hangs_on_the_body_and_not_through_it() -> None:
    found, (draft, wearer) = hung(), specimen()
    trunk = found.points[np.unique(found.mesh.corners[found.mesh.part == 0])]
    meant = wearer["nape_to_floor"] - draft.dimensions.length
    assert abs(min(found.readings.hem.heights) - meant) < 6.0
    assert trunk[:, 2].max() < wearer["height"]
    # on so coarse a mesh; a finer one lies closer
    assert found.deepest < 0.5
    assert found.readings.girths["hip"] > wearer["hip_girth"]


def test_the_same_garment_hangs_the_same_way() -> None:
    again = hang(*specimen(), (CLOTH,), finer=0)
    assert np.array_equal(again.points, hung().points)


def test_both_sides_of_an_even_garment_hang_alike() -> None:
    # left and right are cut, meshed and hung each on its own; folds need not be alike to the last centimetre
    hem = hung().readings.hem
    heights = dict(zip(hem.directions, hem.heights, strict=True))
    pairs = [(heights[way], heights[360.0 - way]) for way in heights if 0 < way < 180 and 360.0 - way in heights]
    assert len(pairs) > 5
    assert max(abs(one - other) for one, other in pairs) < 2.0


def test_a_garment_without_a_body_is_refused() -> None:
    _draft, wearer = specimen()
    hood, _ = drafted({"style": "hood"})
    with pytest.raises(BadInput, match="only a garment with a body"):
        hang(hood, wearer, (CLOTH,))


def test_what_is_found_has_words() -> None:
    for finding in hang_findings(hung()):
        assert words.why(finding, "cm").startswith("As it hangs")
        assert bool(words.mend(finding, "in")) == (finding.outcome != "sound")


def test_a_girth_is_read_as_a_tape_lies() -> None:
    # a round box: its girth by hand
    drum = trimesh.creation.cylinder(radius=10.0, height=20.0, sections=96)
    assert girth_at(np.array(drum.vertices), np.array(drum.faces, np.int64), 1.3) == pytest.approx(62.83, rel=1e-3)


def test_a_glb_is_read_by_another_library() -> None:
    box = trimesh.creation.box((20.0, 40.0, 60.0))
    points, corners = np.array(box.vertices), np.array(box.faces, np.int64)
    data = glb([Solid("box", points, corners, np.array(box.vertex_normals), np.full((8, 3), 0.5))])
    scene = trimesh.load(BytesIO(data), file_type="glb")
    found = next(iter(scene.geometry.values()))
    # metres, upright along y; volume and sense are kept
    assert found.extents == pytest.approx([0.2, 0.6, 0.4])
    assert found.volume == pytest.approx(0.2 * 0.4 * 0.6, rel=1e-5)
    length = struct.unpack("<I", data[12:16])[0]
    assert json.loads(data[20 : 20 + length])["asset"]["version"] == "2.0"


def test_a_png_is_read_by_another_library() -> None:
    picture = np.random.default_rng(1).integers(0, 256, (31, 17, 3), np.uint8)
    assert np.array_equal(np.array(Image.open(BytesIO(png(picture)))), picture)


@pytest.mark.parametrize("number", [6, 14, 16, 32])
def test_strange_garments_hang_too(number: int) -> None:
    # of the sweep: lozengy shares too thin for inner points, coats open in front, barry bodies in one, no sleeves
    garment = made(*garment_at(7, number))
    found = hang(garment.draft, garment.wearer, garment.cloths, finer=0)
    assert np.isfinite(found.points).all()
    meant = garment.wearer["nape_to_floor"] - garment.draft.dimensions.length + garment.choices.blouse
    heights = found.readings.hem.heights
    # gores on the bias, splits, belts and longer backs move the hem, but not all of it by more than this
    assert min(heights) < max(meant, 0.0) + 15.0
    assert max(heights) > max(meant, 0.0) - 15.0


def test_a_moving_png_is_read_by_another_library() -> None:
    dice = np.random.default_rng(2)
    pictures = [dice.integers(0, 256, (12, 9, 3), np.uint8) for _ in range(4)]
    read = Image.open(BytesIO(moving_png(pictures, 200)))
    assert read.n_frames == 4  # type: ignore[attr-defined]
    for number, picture in enumerate(pictures):
        read.seek(number)
        assert np.array_equal(np.array(read.convert("RGB")), picture)
    assert read.info["duration"] == 200.0
