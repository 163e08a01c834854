"""Terraces of made shapes (CALC): which faces count, and what they add up to."""

# ruff: noqa: SIM300  (it takes the class name A for a constant)

import numpy as np
import pytest

from tests import shapes
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings


def measured(mesh, classes=None, **settings):
    part = prepare_part(mesh)
    if classes is None:
        classes = np.zeros(mesh.face_count, np.uint8)
    return measure_pose(part, classes, Pose(), PrintSettings(**settings), "quick")


@pytest.mark.parametrize(
    ("layer", "slope", "cusp", "terrace"),
    [(0.2, 5, 0.1992, 2.286), (0.2, 30, 0.1732, 0.3464), (0.3, 15, 0.2898, 1.120)],
)
def test_the_upper_side_of_a_wedge(layer, slope, cusp, terrace):
    """Rows 1, 3 and 7: the ramp alone is class A."""
    mesh = shapes.wedge(slope)
    ramp = mesh.face_normals[:, 2] > 0.1
    result = measured(mesh, ramp.astype(np.uint8), layer_mm=layer)
    assert result.terrace_mean_width_mm.A == pytest.approx(terrace, abs=6e-4)
    assert result.cusp_mean_mm.A == pytest.approx(cusp, abs=6e-5)
    area = mesh.face_areas_mm2[ramp].sum()
    visible = area if terrace > 0.42 else 0
    assert result.terrace_visible_area_mm2.A == pytest.approx(visible)
    assert result.terrace_visible_area_mm2.total == pytest.approx(visible)
    # The base lies in one layer; the walls stand upright.
    assert not result.faces.terrace_counts[mesh.face_normals[:, 2] < -0.9].any()
    assert result.terrace_mean_width_mm.unmarked == pytest.approx(0, abs=1e-6)


def test_level_and_upright_faces_have_no_stairs():
    """Row 8: nothing of a cube steps."""
    result = measured(shapes.cube())
    assert result.terrace_mean_width_mm.total == pytest.approx(0, abs=1e-9)
    assert result.cusp_mean_mm.total == pytest.approx(0, abs=1e-9)
    assert result.terrace_visible_area_mm2.total == 0


def test_relief_lower_than_a_layer_is_no_terrace_field():
    """A ramp that rises 0.15 mm counts with layers of 0.1, not with layers of 0.2."""
    slope = float(np.degrees(np.arctan(0.15 / 40)))
    mesh = shapes.wedge(slope)
    ramp = (mesh.face_normals[:, 2] > 0.9).astype(np.uint8)
    assert measured(mesh, ramp, layer_mm=0.2).terrace_visible_area_mm2.A == 0
    fine = measured(mesh, ramp, layer_mm=0.1)
    assert fine.terrace_visible_area_mm2.A == pytest.approx(800, rel=1e-4)
    # 0.1 / tan(slope) is 26.7 mm; wider than 20 mm is not counted wider.
    assert fine.terrace_mean_width_mm.A == pytest.approx(20)


def test_a_ball_averages_over_its_slopes():
    """CALC: mean cusp of a sphere is t/2, as |n_z| is spread evenly between 0 and 1."""
    result = measured(shapes.sphere(10))
    assert result.cusp_mean_mm.total == pytest.approx(0.1, rel=1e-3)
    # Wider than the road: tan α < t / w; the two caps hold 1 − cos α of the area.
    slope = np.arctan(0.2 / 0.42)
    expected = 4 * np.pi * 100 * (1 - np.cos(slope))
    assert result.terrace_visible_area_mm2.total == pytest.approx(expected, rel=0.01)


def test_a_crease_ends_a_run():
    """A roof of 9° and a roof of 11° between its slopes: only the first is one run with its top."""
    for bend, one_run in ((9.0, True), (11.0, False)):
        rise = 10 * np.tan(np.radians(bend))
        mesh = shapes.extruded([(0, 0), (20, 0), (20, 5), (10, 5), (0, 5 - rise)], 10)
        part = prepare_part(mesh)
        runs = part.runs.run_of_face
        level = np.flatnonzero(part.normals[:, 2] > 0.9999)[0]
        slope = np.flatnonzero((part.normals[:, 2] > 0.9) & (part.normals[:, 2] < 0.999))[0]
        assert (runs[level] == runs[slope]) == one_run


def test_merged_and_split_flat_faces_count_alike():
    mesh = shapes.wedge(10)
    split = Mesh(
        np.vstack([mesh.vertices_mm, mesh.corners_mm.mean(axis=1)]),
        np.vstack(
            [
                np.column_stack(
                    [mesh.faces[:, k], mesh.faces[:, (k + 1) % 3],
                     len(mesh.vertices_mm) + np.arange(mesh.face_count)]
                )
                for k in range(3)
            ]
        ),
    )  # fmt: skip
    whole, cut = measured(mesh), measured(split)
    assert cut.terrace_mean_width_mm == pytest.approx(whole.terrace_mean_width_mm)
    assert cut.terrace_visible_area_mm2 == pytest.approx(whole.terrace_visible_area_mm2)


def test_what_trials_say_shows_takes_the_place_of_the_road_width():
    """Row 3: terraces of 0.3464 mm show from 0.3 mm on, not from 0.4 mm, whatever the road."""
    mesh = shapes.wedge(30)
    ramp = mesh.face_normals[:, 2] > 0.1
    area, classes = mesh.face_areas_mm2[ramp].sum(), ramp.astype(np.uint8)
    for visible_mm, road_mm, wanted in ((0.3, 0.5, area), (0.4, 0.3, 0.0), (0.0, 0.3, area)):
        result = measured(mesh, classes, visible_terrace_mm=visible_mm, road_mm=road_mm)
        assert result.terrace_visible_area_mm2.A == pytest.approx(wanted)
