"""The worst patch is the largest one of its kind on class A, in the least upright box."""

import numpy as np
import pytest

from tests import shapes
from viewer.errors import RequestProblem
from viewer.geometry.closed_part import closed_part
from viewer.geometry.cut_pieces import cut_out
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose, rotation
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.worst_patch import worst_patch

SETTINGS = PrintSettings()
UPRIGHT = Pose()


def patch_of(mesh, classes, pose=UPRIGHT, kind="touch", **more):
    prepared = prepare_part(mesh)
    fields = measure_pose(prepared, classes, pose, SETTINGS, tier="quick").faces
    return prepared, worst_patch(prepared, classes, fields, pose, SETTINGS, kind, **more)


@pytest.mark.parametrize("spin_deg", [0.0, 30.0])
def test_the_upper_shelf_alone_is_class_a(spin_deg):
    """Row 26: an underside of 20 × 20 at z 40; margin 1 makes a box 22 × 22 × 2 (CALC)."""
    mesh = shapes.shelves()
    turn = rotation(Pose((0, 0, 1), spin_deg))
    mesh = type(mesh)(mesh.vertices_mm @ turn, mesh.faces)
    classes = np.zeros(mesh.face_count, np.uint8)
    under = (mesh.face_normals[:, 2] < -0.9) & (mesh.corners_mm[:, :, 2].min(axis=1) > 30)
    classes[under] = CLASS_A
    prepared, patch = patch_of(mesh, classes, margin_mm=1.0)
    assert patch.area_mm2 == pytest.approx(400)
    assert sorted(patch.faces) == sorted(np.flatnonzero(under))
    assert np.sort(patch.high_mm - patch.low_mm) == pytest.approx([2, 22, 22])
    np.testing.assert_allclose(patch.axes[2], [0, 0, 1], atol=1e-12)
    np.testing.assert_allclose(patch.axes @ patch.axes.T, np.eye(3), atol=1e-12)
    # Of the 22 × 22 × 2 the shelf fills 20 × 20 above z 40 and the wall 1 × 20 × 2 (CALC).
    (piece,) = cut_out(closed_part(prepared), patch.planes).pieces
    assert piece.volume_mm3 == pytest.approx(20 * 20 * 1 + 1 * 20 * 2)


def test_the_larger_of_two_is_taken_and_only_on_class_a():
    mesh = shapes.joined(
        shapes.post_and_cap(), shapes.moved(shapes.scaled(shapes.post_and_cap(), 2.0), [100, 0, 0])
    )
    classes = np.full(mesh.face_count, CLASS_A, np.uint8)
    _, patch = patch_of(mesh, classes)
    assert patch.area_mm2 == pytest.approx(3200)  # row 22 twice as large
    classes[mesh.face_count // 2 :] = 0
    _, patch = patch_of(mesh, classes)
    assert patch.area_mm2 == pytest.approx(800)


def test_terraces_wider_than_the_road_come_first():
    """Two ramps: at 10° a terrace is 1.134 mm wide, at 60° 0.115 mm (rows 2 and 5)."""
    ramps = [shapes.wedge(10.0), shapes.moved(shapes.wedge(60.0), [100, 0, 0])]
    mesh = shapes.joined(*ramps)
    classes = np.full(mesh.face_count, CLASS_A, np.uint8)
    _, patch = patch_of(mesh, classes, kind="terrace")
    assert patch.area_mm2 == pytest.approx(20 * 40 / np.cos(np.radians(10)))
    _, patch = patch_of(ramps[1], classes[: ramps[1].face_count], kind="terrace")
    assert patch.area_mm2 == pytest.approx(20 * 40 / np.cos(np.radians(60)))


def test_without_any_there_is_none():
    mesh = shapes.cube()
    with pytest.raises(RequestProblem, match="no touch on class A"):
        patch_of(mesh, np.full(mesh.face_count, CLASS_A, np.uint8))
    with pytest.raises(RequestProblem, match="no terraces on class A"):
        patch_of(
            shapes.wedge(10.0), np.zeros(shapes.wedge(10.0).face_count, np.uint8), kind="terrace"
        )
