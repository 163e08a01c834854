"""The difference of two poses, face by face: closed forms, antisymmetry, sums by class."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.shapes import cube
from viewer.geometry.pose import Pose
from viewer.geometry.pose_difference import (
    broadest_mm,
    clear_difference_mm,
    difference_of_poses,
    step_widths_mm,
)
from viewer.geometry.pose_measures import FaceFields
from viewer.geometry.print_settings import PrintSettings

SETTINGS = PrintSettings(layer_mm=0.2, road_mm=0.42)
TILTED_10 = Pose(up=(0.0, -np.sin(np.radians(10.0)), np.cos(np.radians(10.0))))


def fields(count: int, touch=0.0, terraces=True) -> FaceFields:
    return FaceFields(np.full(count, touch, np.float32), np.full(count, terraces, bool))


def normal_at(inclination_deg: float) -> np.ndarray:
    angle = np.radians(inclination_deg)
    return np.array([[np.sin(angle), 0.0, np.cos(angle)]])


@pytest.mark.parametrize(
    ("inclination_deg", "width_mm"),
    # t / tan α with t = 0.2 (check-values, CALC); 5° would be 2.286 mm, capped at 3 · 0.42
    [(90.0, 0.0), (45.0, 0.2), (30.0, 0.3464), (10.0, 1.1343), (5.0, 1.26), (0.4, 0.0), (0.0, 0.0)],
)
def test_a_terrace_is_layer_over_tangent_at_most_three_roads(inclination_deg, width_mm):
    widths = step_widths_mm(normal_at(inclination_deg), Pose(), fields(1), SETTINGS)
    assert widths[0] == pytest.approx(width_mm, abs=1e-4)


def test_touch_counts_like_the_broadest_and_mixes_by_its_share():
    at_45 = normal_at(45.0)
    assert step_widths_mm(at_45, Pose(), fields(1, 1.0), SETTINGS)[0] == pytest.approx(1.26)
    # CALC: 0.2 + 0.25 · (1.26 − 0.2)
    assert step_widths_mm(at_45, Pose(), fields(1, 0.25), SETTINGS)[0] == pytest.approx(0.465)
    no_field = step_widths_mm(at_45, Pose(), fields(1, 0.0, False), SETTINGS)
    assert no_field[0] == 0.0
    assert broadest_mm(SETTINGS) == pytest.approx(1.26)
    assert clear_difference_mm(SETTINGS) == pytest.approx(0.42 / 4)


def test_a_cube_tilted_by_10_degrees_steps_on_four_sides():
    """Tilted about x: two sides at 10°, two at 80°, two stay walls (CALC, 20 mm cube)."""
    mesh = cube(20.0)
    classes = np.zeros(12, np.uint8)
    classes[mesh.face_normals[:, 2] > 0.5] = 1
    found = difference_of_poses(
        mesh, classes, SETTINGS, (TILTED_10, fields(12)), (Pose(), fields(12, 0.0, False))
    )
    wide, narrow = 0.2 / np.tan(np.radians(10.0)), 0.2 / np.tan(np.radians(80.0))
    along = np.abs(mesh.face_normals)
    expected = wide * along[:, 2] + narrow * along[:, 1]
    np.testing.assert_allclose(found.face_mm, expected, atol=1e-5)
    assert found.worse_mm2 == pytest.approx((400.0, 0.0, 400.0, 800.0))
    assert found.better_mm2 == (0.0, 0.0, 0.0, 0.0)
    assert pytest.approx(wide, abs=1e-5) == found.mean_mm.A
    assert found.mean_mm.B == 0.0
    assert found.mean_mm.total == pytest.approx((wide + narrow) / 3, abs=1e-5)


directions = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: np.linalg.norm(v) > 0.1)
shares = st.lists(st.floats(0, 1), min_size=12, max_size=12)


@given(directions, directions, shares, shares)
def test_the_other_way_round_only_the_sign_changes(up, other_up, touch, other_touch):
    mesh, classes = cube(20.0), np.arange(12).astype(np.uint8) % 3
    one = Pose(up), FaceFields(np.array(touch, np.float32), np.arange(12) % 2 == 0)
    other = Pose(other_up), FaceFields(np.array(other_touch, np.float32), np.arange(12) % 3 == 0)
    there = difference_of_poses(mesh, classes, SETTINGS, one, other)
    back = difference_of_poses(mesh, classes, SETTINGS, other, one)
    np.testing.assert_array_equal(there.face_mm, -back.face_mm)
    assert there.better_mm2 == back.worse_mm2
    assert there.mean_mm == pytest.approx([-x for x in back.mean_mm])
    assert np.abs(there.face_mm).max() <= broadest_mm(SETTINGS) + 1e-6
    same = difference_of_poses(mesh, classes, SETTINGS, one, one)
    assert not same.face_mm.any()
