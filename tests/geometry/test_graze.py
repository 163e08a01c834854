"""Surface that supports stand close to (CALC)."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings


def grazed(mesh, classes=None, tier="full", **settings):
    part = prepare_part(mesh)
    if classes is None:
        classes = np.zeros(mesh.face_count, np.uint8)
    return measure_pose(part, classes, Pose(), PrintSettings(**settings), tier)


@pytest.mark.parametrize(
    ("shape", "area"),
    [
        (shapes.post_and_cap, 800),  # row 22: four sides of the post, 10 × 20 each
        (shapes.post_touching_cap, 800),  # row 23
        (shapes.post_inside_cap, 800),
        (shapes.c_bracket, 400),  # row 24: the back of the bay, 20 × 20
        (shapes.tunnel, 400),  # row 25: two walls of 20 × 10
        (shapes.sealed_cavity, 400),  # row 27: four walls of 10 × 10
        (shapes.cube, 0),
    ],
)
def test_walls_beside_supports(shape, area):
    """Within 1 % or 0.1 % of the part's area."""
    mesh = shape()
    result = grazed(mesh)
    slack = max(0.01 * area, 0.001 * mesh.face_areas_mm2.sum())
    assert abs(result.graze_area_mm2.total - area) <= slack
    assert result.graze_area_mm2.total == pytest.approx(sum(result.graze_area_mm2[:3]))
    assert abs(result.graze_area_mm2.total - area) <= 4 * result.error["graze_area_mm2"].total + 1


def test_only_within_the_clearance():
    """A pillar 1 mm beside the support under a cap: grazed with a clearance of 1.5, not of 0.4."""
    mesh = shapes.joined(shapes.post_and_cap(), shapes.box([31, 0, 0], [41, 30, 20]))
    assert grazed(mesh, clearance_mm=0.4).graze_area_mm2.total == pytest.approx(800, rel=0.02)
    near = grazed(mesh, clearance_mm=1.5).graze_area_mm2.total
    assert near == pytest.approx(800 + 30 * 20, rel=0.02)


def test_graze_goes_by_class():
    mesh = shapes.c_bracket()
    back = (mesh.face_normals[:, 0] > 0.9) & (mesh.corners_mm[:, :, 0].max(axis=1) < 6)
    result = grazed(mesh, back.astype(np.uint8))
    assert pytest.approx(400, rel=0.02) == result.graze_area_mm2.A
    assert result.graze_area_mm2.unmarked == 0


def test_the_quick_tier_leaves_it_out():
    assert grazed(shapes.tunnel(), tier="quick").graze_area_mm2 is None


def test_a_bridged_ceiling_grazes_nothing():
    assert grazed(shapes.tunnel(), bridge_mm=20).graze_area_mm2.total == 0
