"""Terms of many directions against closed forms and against a plain loop in numpy."""

import numpy as np
import pytest
import trimesh

from viewer.geometry.direction_terms import LEVEL_N_Z, direction_terms
from viewer.geometry.overhang import steepest_overhang_n_z
from viewer.geometry.print_settings import PrintSettings


def _directions(count, seed=1):
    up = np.random.default_rng(seed).normal(size=(count, 3))
    return up / np.linalg.norm(up, axis=1)[:, None]


def _by_numpy(directions, normals, areas, face_classes, settings):
    """One direction after the other, in the same single precision products, summed in double."""
    overhang, wide = np.zeros((len(directions), 3)), np.zeros((len(directions), 3))
    plan, cusps = np.zeros((len(directions), 3)), np.zeros((len(directions), 3))
    cusp = np.zeros(len(directions))
    limit = np.float32(steepest_overhang_n_z(settings.support_limit_deg))
    for d, up in enumerate(directions.astype(np.float32)):
        n_z = normals @ up
        size = np.abs(n_z).astype(np.float64)
        stepped = size < LEVEL_N_Z
        width = settings.layer_mm * size / np.sqrt(np.maximum(1 - size**2, 1e-12))
        for number in range(3):
            chosen = face_classes == number
            overhang[d, number] = areas[chosen & (n_z < limit)].sum()
            wide[d, number] = areas[chosen & stepped & (width > settings.road_mm)].sum()
            plan[d, number] = (areas * size)[chosen & (n_z < limit)].sum()
            of_class = chosen & stepped
            cusps[d, number] = (areas * size)[of_class].sum() / areas[of_class].sum()
        cusp[d] = settings.layer_mm * (areas * size)[stepped].sum() / areas[stepped].sum()
    return overhang, plan, wide, settings.layer_mm * cusps, cusp


@pytest.mark.parametrize("count", [1, 2, 7, 40])
@pytest.mark.parametrize("limit_deg", [0.0, 45.0, 60.0])
def test_like_a_loop_in_numpy(count, limit_deg):
    draw = np.random.default_rng(5)
    normals = _directions(9001, seed=2).astype(np.float32)
    areas, face_classes = draw.exponential(1.0, 9001), draw.integers(0, 3, 9001).astype(np.uint8)
    settings = PrintSettings(support_limit_deg=limit_deg)
    directions = _directions(count)
    ours = direction_terms(directions, normals, areas, face_classes, settings)
    overhang, plan, wide, cusps, cusp = _by_numpy(
        directions, normals, areas, face_classes, settings
    )
    assert ours.overhang_plan_mm2 == pytest.approx(plan, rel=1e-5)
    assert ours.cusp_mm == pytest.approx(cusps, rel=1e-5)
    assert ours.overhang_mm2 == pytest.approx(overhang, rel=1e-5)
    assert ours.wide_terrace_mm2 == pytest.approx(wide, rel=1e-5)
    assert ours.cusp_mean_mm == pytest.approx(cusp, rel=1e-5)


def test_a_sphere_from_every_side():
    """Row 16 (CALC): 14.645 % of a sphere overhangs at 45°. CALC: mean |n_z| is ½."""
    ball = trimesh.creation.icosphere(6, 10)
    terms = direction_terms(
        _directions(12),
        np.asarray(ball.face_normals, np.float32),
        np.asarray(ball.area_faces),
        np.zeros(len(ball.faces), np.uint8),
        PrintSettings(),
    )
    assert terms.overhang_mm2[:, 0] / ball.area == pytest.approx(0.14645, rel=0.01)
    assert not terms.overhang_mm2[:, 1:].any()
    assert terms.cusp_mean_mm == pytest.approx(0.1, rel=0.002)


def test_a_cube_on_its_face_edge_and_corner():
    """Rows 17 to 20 (CALC); the bottom of a standing cube counts, as normals know no platform."""
    cube = trimesh.creation.box((20, 20, 20))
    ups = np.array([[0, 0, 1], [0, 1, 1], [1, 1, 1]]) / np.sqrt([[1], [2], [3]])
    given = (
        ups, np.asarray(cube.face_normals, np.float32), np.asarray(cube.area_faces),
        np.full(12, 2, np.uint8),
    )  # fmt: skip
    at_45 = direction_terms(*given, PrintSettings(support_limit_deg=45.0))
    assert at_45.overhang_mm2[:, 2] == pytest.approx([400, 0, 0])
    at_60 = direction_terms(*given, PrintSettings(support_limit_deg=60.0))
    assert at_60.overhang_mm2[:, 2] == pytest.approx([400, 800, 1200])
    # Level faces have no stairs; upright ones have cusps of no height.
    assert at_45.cusp_mean_mm == pytest.approx(
        [0, 0.2 * np.sqrt(0.5) * 2 / 3, 0.2 / np.sqrt(3)], abs=1e-7
    )


def test_a_part_without_faces_has_no_terms():
    terms = direction_terms(
        _directions(3), np.zeros((0, 3), np.float32), np.zeros(0), np.zeros(0, np.uint8),
        PrintSettings(),
    )  # fmt: skip
    assert not terms.overhang_mm2.any()
    assert not terms.cusp_mean_mm.any()
