"""Ra of stairs: closed forms of the ideal profile, and the shape of the semi-empirical model."""

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.roughness import estimated_ra_um, measure_roughness

ALL_STEP = np.ones(1, bool)


def one_face(n_z: float, layer: float, touch: float = 0.0):
    return measure_roughness(
        np.array([n_z], np.float32), np.ones(1), np.zeros(1, np.uint8), ALL_STEP,
        np.array([touch], np.float32), layer,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("layer", "inclination", "ra"),
    [(0.2, 5, 49.8), (0.2, 10, 49.2), (0.2, 30, 43.3), (0.2, 45, 35.4), (0.2, 60, 25.0),
     (0.1, 10, 24.6), (0.3, 15, 72.4)],
)  # fmt: skip
def test_ideal_ra_of_rows_1_to_7(layer, inclination, ra):
    """CALC, α from horizontal."""
    got = one_face(np.cos(np.radians(inclination)), layer).ra_ideal_um
    assert got.unmarked == got.total == pytest.approx(ra, abs=0.05)
    assert got.A == got.B == 0


def test_the_estimate_has_no_jump_and_more_where_a_support_bears():
    """The constants are from memory, so only the form of the model is tested."""
    angles = np.linspace(0, 90, 1801)
    ra = np.array([estimated_ra_um(0.2, angle) for angle in angles])
    assert np.abs(np.diff(ra)).max() < 0.3
    assert estimated_ra_um(0.2, 30, supported=True) == pytest.approx(1.2 * ra[600])
    assert estimated_ra_um(0.4, 30) == pytest.approx(2 * ra[600])
    half = one_face(np.sin(np.radians(30)), 0.2, 0.5).ra_estimate_um.total
    assert half == pytest.approx(1.1 * ra[600], rel=1e-5)


def test_means_are_weighted_by_area_and_flat_faces_have_no_stairs():
    """CALC: a 30° wedge of class A; its walls at 90° count as 0, its floor does not count."""
    mesh = shapes.wedge(30.0)
    part = prepare_part(mesh)
    slope = np.abs(mesh.face_normals[:, 2] - np.cos(np.radians(30))) < 1e-6
    classes = np.where(slope, CLASS_A, 0).astype(np.uint8)
    got = measure_pose(part, classes, Pose(), PrintSettings())
    assert pytest.approx(250 * 0.2 * np.cos(np.radians(30)), rel=1e-6) == got.ra_ideal_um.A
    walls = mesh.face_areas_mm2[np.abs(mesh.face_normals[:, 2]) < 1e-6].sum()
    area = mesh.face_areas_mm2[slope].sum()
    mean = got.ra_ideal_um.A * area / (area + walls)
    assert got.ra_ideal_um.total == pytest.approx(mean, rel=1e-6)
    assert pytest.approx(estimated_ra_um(0.2, 60), rel=1e-5) == got.ra_estimate_um.A
