"""Level faces against the layer grid: closed forms (CALC)."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings


def flat(mesh, classes=None, up=(0, 0, 1), **of_print):
    classes = np.zeros(mesh.face_count, np.uint8) if classes is None else classes
    got = measure_pose(prepare_part(mesh), classes, Pose(up), PrintSettings(**of_print))
    return got.flat_faces, got.flat_off_grid_mm2


def test_heights_of_floors_and_ceilings():
    """A post with a cap, layers of 0.3: 20 is 66.67 layers, 25 is 83.33."""
    faces, off = flat(shapes.post_and_cap(), layer_mm=0.3)
    assert [(round(f.height_mm, 6), f.up) for f in faces] == [(25, True), (20, False)]
    assert faces[0].area_mm2.total == pytest.approx(900)
    assert faces[1].area_mm2.total == pytest.approx(800)
    assert faces[0].off_grid_mm == pytest.approx(25 - 83 * 0.3)
    assert faces[1].off_grid_mm == pytest.approx(20 - 67 * 0.3)
    assert off.total == pytest.approx(1700)


def test_whole_numbers_of_layers_are_on_the_grid_and_the_platform_is_left_out():
    faces, off = flat(shapes.cube(20.0))
    assert len(faces) == 1
    assert faces[0].off_grid_mm == pytest.approx(0, abs=1e-9)
    assert off.total == 0


def test_classes_are_kept_apart():
    mesh = shapes.box((0, 0, 0), (10, 20, 7.1))
    classes = np.zeros(mesh.face_count, np.uint8)
    classes[np.flatnonzero(mesh.face_normals[:, 2] > 0.9)[0]] = CLASS_A
    _, off = flat(mesh, classes)
    assert off.A == off.unmarked == pytest.approx(100)
    assert off.B == 0


def test_slopes_and_tilted_parts_have_none():
    assert flat(shapes.cube(20.0), up=(0.02, 0, 1))[0] == ()
    assert flat(shapes.sphere(10.0, 4))[1].total == 0
