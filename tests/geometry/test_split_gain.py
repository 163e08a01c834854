"""A part that overhangs in one piece and not in two is said to come out cleaner in two."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.closed_part import closed_part
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.split_gain import Shown, SplitGain, split_gains
from viewer.geometry.split_planes import propose_splits


def gains(mesh, classes):
    pose = Pose()
    prepared = prepare_part(mesh)
    splits = propose_splits(prepared, classes, pose)
    found = split_gains(prepared, closed_part(prepared), classes, pose, PrintSettings(), splits[:3])
    return found


def test_a_sphere_loses_its_touch_when_each_half_lies_on_its_cut_face():
    """CALC: the cap below the limit of 45° of a ball of 10 has 2πr²(1 − cos 45°) = 184 mm²."""
    mesh = shapes.sphere(subdivisions=4)
    radius = 0.5 * float(np.ptp(mesh.box_mm, axis=0).max())
    level = np.abs(mesh.corners_mm[:, :, 2]).max(axis=1)
    classes = ((level > 0.3 * radius) * 1).astype(np.uint8)
    found = gains(mesh, classes)
    best = min(found, key=lambda gain: gain.halves.touch_mm2)
    area = 2 * np.pi * radius**2 * (1 - np.cos(np.radians(45)))
    assert best.whole.touch_mm2 == pytest.approx(area, rel=0.05)
    assert best.halves.touch_mm2 < 0.02 * area
    assert best.cleaner
    assert abs(best.split.plane.normal[2]) > 0.99
    # A ball has no axes of its own: which of the planes near the equator is best, rounding says.
    normal = np.array(best.split.plane.normal)
    found = np.array([pose.up for pose in best.poses])
    assert found == pytest.approx(np.stack([-normal, normal]), abs=1e-3)


def test_a_cube_comes_out_no_cleaner():
    mesh = shapes.cube()
    classes = (mesh.face_normals[:, 2] > 0.5).astype(np.uint8)
    for gain in gains(mesh, classes):
        assert gain.whole.touch_mm2 == 0
        assert not gain.cleaner


@pytest.mark.parametrize(
    ("whole", "halves", "cleaner"),
    [
        ((100, 0), (50, 0), True),
        ((100, 0), (51, 0), False),
        ((0, 100), (0, 40), True),
        ((0, 100), (2, 0), False),
        ((0, 0), (0, 0), False),
    ],
)
def test_what_counts_as_cleaner(whole, halves, cleaner):
    assert SplitGain(None, Shown(*whole), Shown(*halves), ()).cleaner is cleaner
