"""Measures of a pose against closed forms.

Rows are those of the project's table of check values. CALC: derived in closed form. Full tier
within 1 % (or 0.1 % of the part's area, of its box for volumes), quick tier within 5 % (or 0.5 %).
"""

import numpy as np
import pytest

from tests import shapes
from viewer.errors import Cancelled
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress

SHARE = {"quick": (0.05, 0.005), "full": (0.01, 0.001)}
AS_IT_IS, EDGE, CORNER = Pose(), Pose((0, 1, 1)), Pose((1, 1, 1))


def measured(mesh: Mesh, tier="full", pose=AS_IT_IS, classes=None, **settings) -> PoseMeasures:
    part = prepare_part(mesh)
    if classes is None:
        classes = np.zeros(mesh.face_count, np.uint8)
    return measure_pose(part, classes, pose, PrintSettings(**settings), tier)


# row: shape, pose, settings, volume, touch, plan area, landing on part and on platform
CLOSED_FORMS = {
    13: (shapes.sphere, Pose(), {}, 216.88, 184.03, 157.08, 0, 157.08),
    14: (shapes.sphere, Pose(), {"support_limit_deg": 50}, 305.41, 224.44, 184.36, 0, 184.36),
    15: (shapes.sphere, Pose(), {"support_limit_deg": 90}, 1047.20, 628.3, 314.16, 0, 314.16),
    17: (shapes.cube, EDGE, {}, 0, 0, 0, 0, 0),
    18: (shapes.cube, EDGE, {"support_limit_deg": 45.1}, 4000, 800, 565.7, 0, 565.7),
    19: (shapes.cube, CORNER, {}, 0, 0, 0, 0, 0),
    20: (shapes.cube, CORNER, {"support_limit_deg": 60}, 8000, 1200, 692.8, 0, 692.8),
    21: (lambda: shapes.inverted_cone(20, 10), Pose(), {}, 8377.6, 1405.0, 1256.6, 0, 1256.6),
    22: (shapes.post_and_cap, Pose(), {}, 16000, 800, 800, 0, 800),
    "23 touching": (shapes.post_touching_cap, Pose(), {}, 16000, 800, 800, 0, 800),
    "23 overlapping": (shapes.post_inside_cap, Pose(), {}, 16000, 800, 800, 0, 800),
    24: (shapes.c_bracket, Pose(), {}, 14000, 700, 700, 700, 0),
    25: (shapes.tunnel, Pose(), {}, 4000, 400, 400, 0, 400),
    26: (shapes.shelves, Pose(), {}, 15200, 800, 800, 400, 400),
    27: (shapes.sealed_cavity, Pose(), {}, 1000, 100, 100, 100, 0),
    28: (shapes.torus, Pose(), {}, 404.7, 986.96, 888.6, 0, 888.6),
}


@pytest.mark.parametrize("tier", ["quick", "full"])
@pytest.mark.parametrize("row", CLOSED_FORMS)
def test_supports_of_closed_forms(row, tier):
    """Rows 13–15, 17–28 (CALC): volume, touch, plan area, landing."""
    shape, pose, settings, volume, touch, plan, on_part, on_platform = CLOSED_FORMS[row]
    mesh = shape()
    result = measured(mesh, tier, pose, **settings)
    relative, of_part = SHARE[tier]
    area = {"rel": relative, "abs": of_part * mesh.face_areas_mm2.sum()}
    box = of_part * np.prod(mesh.box_mm[1] - mesh.box_mm[0])
    assert result.support_volume_mm3 == pytest.approx(volume, rel=relative, abs=box)
    assert result.touch_area_mm2.total == pytest.approx(touch, **area)
    assert result.support_plan_area_mm2 == pytest.approx(plan, **area)
    assert result.landing_area_mm2.platform == pytest.approx(on_platform, **area)
    assert result.landing_area_mm2.unmarked == pytest.approx(on_part, **area)
    assert result.landing_area_mm2.total == pytest.approx(on_part + on_platform, **area)
    assert result.doubtful_share == 0


@pytest.mark.parametrize("row", [18, 20, 22, "23 touching", "23 overlapping", 24, 25, 26, 27])
def test_flat_faces_give_exact_touch_on_any_grid(row):
    """Areas come from the faces, not from samples (CALC); overlaps are known to 0.01 %."""
    shape, pose, settings, _, touch, _, _, _ = CLOSED_FORMS[row]
    tolerance = 1e-4 if str(row).startswith("23") else 1e-9
    result = measured(shape(), "quick", pose, **settings)
    assert result.touch_area_mm2.total == pytest.approx(touch, rel=tolerance)
    assert "touch_area_mm2" not in result.error


@pytest.mark.parametrize(("limit", "share"), [(45, 0.14645), (60, 0.25)])
def test_share_of_a_sphere_that_needs_support(limit, share):
    """Row 16 (CALC)."""
    ball = shapes.sphere(subdivisions=7)
    result = measured(ball, "quick", support_limit_deg=limit)
    assert result.overhang_area_mm2.total / ball.face_areas_mm2.sum() == pytest.approx(
        share, rel=0.01
    )


def test_height_and_layers_of_a_cube_on_its_corner():
    """Row 20 (CALC): height 34.64, 174 layers of 0.2."""
    result = measured(shapes.cube(), "quick", CORNER)
    assert result.height_mm == pytest.approx(20 * np.sqrt(3), abs=1e-9)
    assert result.layers == 174
    assert measured(shapes.cube(), "quick").layers == 100


@pytest.mark.parametrize(
    ("shape", "angle"),
    [
        (shapes.cube, 45.0),
        (lambda: shapes.cylinder(10, 100), 11.31),
        (lambda: shapes.cone(10, 40), 45.0),
        (lambda: shapes.box([0, 0, 0], [10, 40, 100]), 5.71),
        (shapes.sheared_prism, 0.0),
    ],
)
def test_tip_angle(shape, angle):
    """Rows 38 and 39 (CALC), with a first layer thin enough not to matter."""
    assert measured(shape(), "quick", layer_mm=0.01).tip_angle_deg == pytest.approx(angle, abs=0.02)


def test_first_layer_and_contact_of_a_box_and_of_a_ball():
    """CALC: a box stands on its base; a ball's section at t/2 has radius² = t·r − t²/4."""
    standing = measured(shapes.box([0, 0, 0], [10, 20, 5]), "quick")
    assert standing.platform_contact_mm2.total == pytest.approx(200, rel=1e-12)
    assert standing.first_layer_mm2 == pytest.approx(200, rel=1e-12)
    ball = measured(shapes.sphere(10), "quick", layer_mm=0.2)
    assert ball.platform_contact_mm2.total == 0
    assert ball.first_layer_mm2 == pytest.approx(np.pi * (0.2 * 10 - 0.01), rel=0.01)


def test_what_does_not_reach_the_first_section_cannot_stand():
    """The tip angle is None where the section at half the first layer is empty."""
    flat = shapes.box([0, 0, 0], [10, 10, 0.05])
    result = measured(flat, "quick", layer_mm=0.2)
    assert result.first_layer_mm2 == 0
    assert result.tip_angle_deg is None


def test_an_inverted_part_is_measured_as_what_it_encloses():
    right = measured(shapes.c_bracket())
    wrong = measured(shapes.turned_inside_out(shapes.c_bracket()))
    assert wrong.support_volume_mm3 == pytest.approx(right.support_volume_mm3, rel=1e-9)
    assert wrong.touch_area_mm2.total == pytest.approx(700)
    assert "wrong way" in wrong.notes[0]
    assert right.notes == ()


def test_classes_share_the_touch_and_the_landing():
    """Row 26: the upper side of the lower shelf is class A, both undersides class B."""
    mesh = shapes.shelves()
    centres, normals = mesh.corners_mm.mean(axis=1), mesh.face_normals
    classes = np.zeros(mesh.face_count, np.uint8)
    classes[(normals[:, 2] > 0.9) & (abs(centres[:, 2] - 22) < 0.1)] = 1
    classes[(normals[:, 2] < -0.9) & (centres[:, 2] > 1)] = 2
    result = measured(mesh, "quick", classes=classes)
    assert result.touch_area_mm2 == pytest.approx((0, 800, 0, 800))
    assert result.landing_area_mm2 == pytest.approx((400, 0, 0, 400, 800))


def test_an_open_part_still_gives_numbers():
    """One triangle of the top is missing: its lines are doubtful, the rest still counts."""
    mesh = shapes.c_bracket()
    top = np.flatnonzero(mesh.face_normals[:, 2] > 0.9)
    result = measured(shapes.without_faces(mesh, top[-1:]))
    assert result.doubtful_share > 0
    assert result.support_volume_mm3 == pytest.approx(14000, rel=0.01)
    assert any("not closed" in note for note in result.notes)


def test_far_from_the_origin_nothing_changes():
    """10 m away, as some files are."""
    near, far = shapes.torus(), shapes.moved(shapes.torus(), [10_000, -10_000, 10_000])
    assert measured(far).support_volume_mm3 == pytest.approx(
        measured(near).support_volume_mm3, rel=1e-6
    )


def test_columns_for_drawing_fill_the_gap():
    """Row 24: what is drawn adds up to the measured volume, and stands between the arms."""
    part = prepare_part(shapes.c_bracket())
    classes = np.zeros(len(part.faces), np.uint8)
    result = measure_pose(part, classes, Pose(spin_deg=90), PrintSettings(), "full", columns=True)
    columns = result.columns
    volume = np.sum(columns.top_mm - columns.bottom_mm) * columns.pitch_mm**2
    assert volume == pytest.approx(14000, rel=0.02)
    assert columns.bottom_mm == pytest.approx(5, abs=1e-5)
    assert columns.top_mm == pytest.approx(25, abs=1e-5)
    ix, iy = np.divmod(columns.cell, columns.shape[1])
    y = columns.origin_mm[1] + iy * columns.pitch_mm
    x = columns.origin_mm[0] + ix * columns.pitch_mm
    # Turned by 90° the opening, from x = 5 to 40 of 40, points to +y.
    assert (y.min(), y.max()) == pytest.approx((-15, 20), abs=columns.pitch_mm)
    assert (x.min(), x.max()) == pytest.approx((-10, 10), abs=columns.pitch_mm)
    assert measure_pose(part, classes, Pose(), PrintSettings(), "quick").columns is None


def test_touch_share_marks_the_faces_that_touch():
    mesh = shapes.post_touching_cap()
    result = measured(mesh, "quick")
    touching = (result.faces.touch_share * mesh.face_areas_mm2).sum()
    assert touching == pytest.approx(800, rel=1e-4)
    assert result.faces.touch_share.dtype == np.float32
    assert result.faces.terrace_counts.shape == (mesh.face_count,)


def test_a_cancelled_measurement_stops():
    progress = Progress()
    progress.cancel()
    part = prepare_part(shapes.cube())
    with pytest.raises(Cancelled):
        measure_pose(part, np.zeros(12, np.uint8), Pose(), PrintSettings(), progress=progress)
