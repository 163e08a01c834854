"""What spans from wall to wall: tunnels and holes (CALC)."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings

AS_IT_IS = Pose()


def measured(mesh, tier, pose=AS_IT_IS, classes=None, **settings):
    part = prepare_part(mesh)
    if classes is None:
        classes = np.zeros(mesh.face_count, np.uint8)
    return measure_pose(part, classes, pose, PrintSettings(**settings), tier)


@pytest.mark.parametrize("tier", ["quick", "full"])
@pytest.mark.parametrize(("limit", "bridged"), [(0, 0), (19.9, 0), (20, 400), (30, 400)])
def test_tunnel_of_20(tier, limit, bridged):
    """Row 25: equality counts; what is bridged needs no support."""
    mesh = shapes.tunnel()
    result = measured(mesh, tier, bridge_mm=limit)
    assert result.bridged_area_mm2.total == pytest.approx(bridged, rel=1e-6)
    assert result.overhang_area_mm2.total == pytest.approx(400)
    assert result.touch_area_mm2.total == pytest.approx(400 - bridged, abs=1e-6)
    assert result.support_volume_mm3 == pytest.approx(10 * (400 - bridged), abs=1e-6)
    assert result.landing_area_mm2.platform == pytest.approx(400 - bridged, abs=1e-6)
    ceiling = (mesh.face_normals[:, 2] < -0.9) & (mesh.corners_mm[:, 0, 2] > 5)
    assert result.faces.touch_share[ceiling] == pytest.approx(0 if bridged else 1)


def test_a_turned_tunnel_is_as_wide_as_a_straight_one():
    for spin in (0, 17, 33.3):
        turn = np.radians(spin)
        c, s = np.cos(turn), np.sin(turn)
        mesh = shapes.tunnel()
        turned = type(mesh)(
            mesh.vertices_mm @ np.array([[c, s, 0], [-s, c, 0], [0, 0, 1]]), mesh.faces
        )
        assert measured(turned, "quick", bridge_mm=20).bridged_area_mm2.total == pytest.approx(400)


def test_a_bracket_open_to_one_side_bridges_only_across():
    """Row 24: nothing holds the far end of the arm, so no limit helps."""
    result = measured(shapes.c_bracket(), "quick", bridge_mm=100)
    assert result.bridged_area_mm2.total == 0
    assert result.support_volume_mm3 == pytest.approx(14000)


def test_a_cap_over_a_post_is_no_bridge():
    assert measured(shapes.post_and_cap(), "quick", bridge_mm=100).bridged_area_mm2.total == 0


def test_a_steep_ceiling_is_no_bridge():
    """A roof over a tunnel inclined by 15°: flat enough to overhang, too steep to be a bridge."""
    rise = 10 * np.tan(np.radians(15))
    outline = [
        (0, 0),
        (10, 0),
        (10, 10),
        (20, 10 + rise),
        (30, 10),
        (30, 0),
        (40, 0),
        (40, 25),
        (0, 25),
    ]
    assert measured(shapes.extruded(outline, 20), "quick", bridge_mm=30).bridged_area_mm2.total == 0


def test_bridges_move_between_classes_with_the_marks():
    mesh = shapes.tunnel()
    classes = np.where(mesh.face_normals[:, 2] < -0.9, 1, 0).astype(np.uint8)
    result = measured(mesh, "quick", classes=classes, bridge_mm=25)
    assert result.bridged_area_mm2 == pytest.approx((400, 0, 0, 400))
    assert result.touch_area_mm2 == pytest.approx((0, 0, 0, 0), abs=1e-9)
    assert result.error["touch_area_mm2"] == pytest.approx((0, 0, 0, 0), abs=1e-9)


def test_touch_over_a_gap_shorter_than_half_a_layer():
    """A cap 0.05 mm above a step of 10 × 30, and 20 mm above the platform elsewhere."""
    lower = shapes.box([0, 0, 0], [10, 30, 20])
    upper = shapes.joined(shapes.box([0, 0, 20.05], [30, 30, 25]), lower)
    result = measured(upper, "full", layer_mm=0.2)
    assert result.touch_area_mm2.total == pytest.approx(900)
    assert result.touch_short_mm2.total == pytest.approx(300, rel=0.02)
    assert measured(upper, "full", layer_mm=0.05).touch_short_mm2.total == 0
