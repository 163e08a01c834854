"""How a pose changes with tilt and limit, against closed forms."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.direction_search import SearchRequest, rays_for
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.sensitivity import KEYS, measure_sensitivity
from viewer.progress import Progress


def sensitivity(mesh, up, show=None):
    part = prepare_part(mesh)
    classes = np.zeros(mesh.face_count, np.uint8)
    if show is not None:
        classes[show(part.normals)] = CLASS_A
    asked = SearchRequest(part, classes, PrintSettings())
    return measure_sensitivity(rays_for(asked, Progress()), np.array(up, np.float64))


def test_a_cube_on_its_edge_is_a_knife_edge():
    """Rows 17 and 18 (CALC): 0 at 45°, touch 800 mm² as soon as the limit is passed; one face
    (400 mm²) when it is tilted about the edge."""
    found = sensitivity(shapes.cube(), np.array([1, 1, 0]) / 2**0.5)
    assert found.here["touch_mm2"] == 0
    assert found.limits["touch_mm2"] == pytest.approx((0, 800))
    assert found.tilted["touch_mm2"] == pytest.approx((0, 400))
    assert found.knife_edge


def test_a_cube_on_its_face_is_safe_and_a_ball_moves_as_the_formula_says():
    """Rows 13 and 14 (CALC): 184.03 at 45°, 224.44 at 50°; 2πR²(1 − cos 40°) at 40°."""
    lying = sensitivity(shapes.cube(), (0, 0, 1))
    assert not lying.knife_edge
    assert lying.tilted["touch_mm2"] == pytest.approx((0, 0), abs=1e-3)
    assert lying.limits["touch_mm2"] == pytest.approx((0, 0), abs=1e-3)
    ball = sensitivity(shapes.sphere(10.0, 6), (0, 0, 1))
    low, high = ball.limits["touch_mm2"]
    assert low == pytest.approx(200 * np.pi * (1 - np.cos(np.radians(40))), rel=0.02)
    assert high == pytest.approx(224.44, rel=0.02)
    assert ball.tilted["touch_mm2"] == pytest.approx((184.03, 184.03), rel=0.02)
    assert ball.knife_edge  # 5° more of limit: 40 of 1257 mm², more than 2 %
    assert ball.limits["support_volume_mm3"].high == pytest.approx(305.41, rel=0.05)


def test_ranges_hold_the_pose_itself():
    found = sensitivity(shapes.of_solid(shapes.hanging_cone()), (0, 0, 1), lambda n: n[:, 0] > 0)
    for ranges in (found.tilted, found.limits):
        assert set(ranges) == set(KEYS)
        for key, (low, high) in ranges.items():
            assert low <= found.here[key] <= high
