"""The part in a page: small enough, as near as it says, its classes where they were."""

import base64

import numpy as np
import pytest
import pyvista

from tests import shapes
from viewer.files.turnable_part import turnable_part
from viewer.geometry.mesh import Mesh


def triangles_of(part) -> np.ndarray:
    """(m, 3, 3) corners in mm as the script of the page unpacks them."""
    packed = part.packed()
    positions = np.frombuffer(base64.b64decode(packed["positions"]), "<i2").reshape(-1, 3)
    triangles = np.frombuffer(base64.b64decode(packed["triangles"]), "<u4").reshape(-1, 3)
    return positions[triangles] * packed["unit_mm"]


def areas_by_kind(corners, kinds) -> np.ndarray:
    areas = np.linalg.norm(
        np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1
    )
    return np.bincount(kinds, weights=0.5 * areas, minlength=2)


def test_a_small_part_keeps_every_face_where_it_is():
    mesh = shapes.box((0, 0, 0), (10, 20, 30))
    kinds = np.where(mesh.face_normals[:, 0] > 0.9, 1, 0)
    part = turnable_part(mesh, kinds, np.eye(4))
    corners = triangles_of(part)
    assert corners == pytest.approx(mesh.corners_mm - [5, 10, 15], abs=part.deviation_mm)
    assert part.deviation_mm < 0.001
    assert part.faces_before == 12
    normals = np.round(part.normals[part.triangles[:, 0]] / 127.0)
    assert (normals == np.round(mesh.face_normals)).all()  # edges of 90° stay sharp
    assert (part.kinds[part.triangles] == kinds[:, None]).all()


@pytest.mark.parametrize("closed", [True, False])
def test_a_large_part_is_made_smaller_and_says_by_how_much_it_differs(closed):
    """Distances by VTK, as an independent library; areas CALC: 2πR² each half."""
    mesh = shapes.sphere(10.0, 5)
    if not closed:
        mesh = shapes.without_faces(mesh, range(40))
    kinds = (mesh.corners_mm[:, :, 2].mean(axis=1) > 0).astype(np.int64)
    part = turnable_part(mesh, kinds, np.eye(4), most_faces=3000)
    corners = triangles_of(part)
    assert 500 < len(corners) <= 3000
    low, high = mesh.box_mm
    placed = corners + (low + high) / 2
    off_mm = np.abs(np.linalg.norm(placed.reshape(-1, 3), axis=1) - 10.0).max()
    assert off_mm <= part.deviation_mm + 0.02  # the facets of the sphere itself lie within 0.02
    assert part.deviation_mm < 0.5
    if closed:
        rows = np.column_stack([np.full(len(placed), 3), np.arange(3 * len(placed)).reshape(-1, 3)])
        whole = pyvista.PolyData(placed.reshape(-1, 3), rows.ravel())
        asked = pyvista.PolyData(mesh.vertices_mm).compute_implicit_distance(whole)
        assert np.abs(asked["implicit_distance"]).max() <= part.deviation_mm + 1e-6
        half = 2 * np.pi * 100
        found = areas_by_kind(corners, part.kinds[part.triangles[:, 0]])
        assert found == pytest.approx([half, half], rel=0.03)
    outward = np.einsum("mi,mi->m", part.normals[part.triangles[:, 0]] / 127.0, placed[:, 0]) / 10
    assert outward.mean() > 0.98  # round edges are shaded round


def test_an_open_sheet_without_volume_is_still_drawn():
    mesh = shapes.sphere(10.0, 4)
    sheet = Mesh(mesh.vertices_mm, mesh.faces[mesh.face_normals[:, 2] > 0.3])
    part = turnable_part(sheet, np.zeros(sheet.face_count, int), np.eye(4), most_faces=200)
    assert 20 < len(part.triangles) <= 200
