"""Space to be kept clear lies beside class A, outside the part, closed, as far as it was said."""

import manifold3d
import numpy as np
import pytest
import trimesh

from tests import shapes
from viewer.errors import RequestProblem
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.keep_clear import keep_clear_body
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.support_solids import posed_solid


def made(mesh, classes, reach_mm=1.5, pose=None):
    pose = pose or Pose()
    part = prepare_part(mesh)
    measures = measure_pose(part, classes, pose, PrintSettings(), tier="quick")
    return keep_clear_body(part, classes, measures, pose, reach_mm), posed_solid(part, pose)


def assert_beside_the_part(clear, part, reach_mm):
    body = trimesh.Trimesh(clear.vertices_mm, clear.faces, process=False)
    assert body.is_watertight
    solids = [
        manifold3d.Manifold(
            manifold3d.Mesh64(
                vert_properties=np.array(points), tri_verts=np.asarray(faces).astype(np.uint64)
            )
        )
        for points, faces in ((clear.vertices_mm, clear.faces), part)
    ]
    assert solids[0].status() == manifold3d.Error.NoError
    assert (solids[0] ^ solids[1]).volume() < 1e-3
    surface = trimesh.Trimesh(*part, process=False)
    _, away, _ = trimesh.proximity.closest_point_naive(surface, clear.vertices_mm[:2000])
    assert away.max() <= reach_mm * (1 + np.sqrt(3) / 6) + 1e-6


@pytest.mark.parametrize("pose", [Pose(), Pose((1, 2, 3), 20)])
def test_one_side_of_a_cube(pose):
    """CALC: 20 × 20 × 1.5, with up to 26° of the quarter rounds along its edges and half a cell."""
    mesh = shapes.cube()
    classes = np.where(mesh.face_normals[:, 0] > 0.9, CLASS_A, 0).astype(np.uint8)
    clear, part = made(mesh, classes, pose=pose)
    assert 560 < clear.signed_volume_mm3 < 680
    assert_beside_the_part(clear, part, 1.5)


def test_what_needs_a_support_is_left_out():
    """Row 22: the cap's underside is touched, so only its rim and top are guarded."""
    mesh = shapes.post_and_cap()
    clear, part = made(mesh, np.full(mesh.face_count, CLASS_A, np.uint8))
    under = (clear.corners_mm[:, :, 2].mean(axis=1) < 19) & (
        np.abs(clear.corners_mm[:, :, :2]).max(axis=(1, 2)) > 9
    )
    assert not under.any()
    assert clear.box_mm[1, 2] == pytest.approx(26.5, abs=0.3)
    assert_beside_the_part(clear, part, 1.5)


def test_none_without_class_a_and_none_out_of_range():
    mesh = shapes.cube()
    assert made(mesh, np.zeros(12, np.uint8))[0].face_count == 0
    with pytest.raises(RequestProblem, match=r"0\.2 to 20"):
        made(mesh, np.zeros(12, np.uint8), reach_mm=0.0)
