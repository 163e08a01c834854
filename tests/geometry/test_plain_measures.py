"""The plain path: the closed forms, agreement with the fast path, and no compiled code in it.

Rows are those of the project's table of check values; CALC: derived in closed form.
"""

import subprocess
import sys
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests import shapes
from tests.few import few
from tests.geometry.test_measure_pose import CLOSED_FORMS
from viewer.errors import Cancelled
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.plain_measures import FIRST_NUMBERS, NO_BRIDGES, measure_plainly
from viewer.geometry.plain_part import PlainPart, prepare_plain_part
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress

RELATIVE, OF_PART = 0.05, 0.005
EVERY_AREA = (
    "overhang_area_mm2", "touch_area_mm2", "landing_area_mm2", "platform_contact_mm2",
    "terrace_visible_area_mm2", "touch_short_mm2",
)  # fmt: skip
PARTS = {
    "bracket": shapes.c_bracket(),
    "shelves": shapes.shelves(),
    "touching": shapes.post_touching_cap(),
    "overlapping": shapes.post_inside_cap(),
    "cavity": shapes.sealed_cavity(),
    "torus": shapes.torus(around=90, facets=60),
    "cone": shapes.cone(10, 25),
    "inside out": shapes.turned_inside_out(shapes.sealed_cavity()),
    "balls in one another": shapes.joined(
        shapes.sphere(10, 3), shapes.moved(shapes.sphere(8, 3), [7, 5, 3]), shapes.cone(6, 25)
    ),
}
ups = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: np.linalg.norm(v) > 0.1)


@cache
def plain_part(name: str) -> PlainPart:
    return prepare_plain_part(PARTS[name])


@cache
def prepared_part(name: str) -> PreparedPart:
    return prepare_part(PARTS[name])


def measured(mesh: Mesh, pose=Pose(), classes=None, **more):  # noqa: B008 (a Pose is frozen)
    if classes is None:
        classes = np.zeros(mesh.face_count, np.uint8)
    return measure_plainly(prepare_plain_part(mesh), classes, pose, PrintSettings(**more))


@pytest.mark.parametrize("row", CLOSED_FORMS)
def test_supports_of_closed_forms(row):
    """Rows 13–28 (CALC) within 5 % or 0.5 % of the part."""
    shape, pose, process, volume, touch, plan, on_part, on_platform = CLOSED_FORMS[row]
    mesh = shape()
    found = measured(mesh, pose, **process)
    area = {"rel": RELATIVE, "abs": OF_PART * mesh.face_areas_mm2.sum()}
    box = OF_PART * np.prod(mesh.box_mm[1] - mesh.box_mm[0])
    assert found.support_volume_mm3 == pytest.approx(volume, rel=RELATIVE, abs=box)
    assert found.touch_area_mm2.total == pytest.approx(touch, **area)
    assert found.support_plan_area_mm2 == pytest.approx(plan, **area)
    assert found.landing_area_mm2.platform == pytest.approx(on_platform, **area)
    assert found.landing_area_mm2.unmarked == pytest.approx(on_part, **area)
    assert found.doubtful_share == 0


@pytest.mark.parametrize(("limit", "share"), [(45, 0.14645), (60, 0.25)])
def test_share_of_a_sphere_that_needs_support(limit, share):
    """Row 16 (CALC)."""
    ball = shapes.sphere(subdivisions=6)
    found = measured(ball, support_limit_deg=limit)
    assert found.overhang_area_mm2.total / ball.face_areas_mm2.sum() == pytest.approx(
        share, rel=0.01
    )


@settings(max_examples=few(12, 40), deadline=None)
@given(st.sampled_from(sorted(PARTS)), ups, st.floats(20, 80), st.integers(0, 1000))
def test_the_fast_path_agrees(name, up, limit_deg, seed):
    """Every measure by class, quick and full, within 5 %, 0.5 % of the part, or its own error."""
    mesh, process = PARTS[name], PrintSettings(support_limit_deg=limit_deg)
    classes = np.random.default_rng(seed).integers(0, 3, mesh.face_count).astype(np.uint8)
    plain = measure_plainly(plain_part(name), classes, Pose(up), process)
    slack = OF_PART * mesh.face_areas_mm2.sum()
    box = OF_PART * np.prod(mesh.box_mm[1] - mesh.box_mm[0])
    for tier in ("quick", "full"):
        fast = measure_pose(prepared_part(name), classes, Pose(up), process, tier)
        for key in EVERY_AREA:
            expected, found = (np.array(getattr(one, key)) for one in (fast, plain))
            # Few lines meet the share of one class: its own error says by how much it may be off.
            own = 4 * np.array(plain.error.get(key, np.zeros(len(found))))
            allowed = np.maximum(np.maximum(RELATIVE * np.abs(expected), slack), own)
            assert (np.abs(found - expected) <= allowed).all(), key
        for key, within in (
            ("support_volume_mm3", box), ("support_plan_area_mm2", slack),
            ("first_layer_mm2", slack), ("height_mm", 1e-9), ("layers", 0),
        ):  # fmt: skip
            expected = getattr(fast, key)
            assert getattr(plain, key) == pytest.approx(expected, rel=RELATIVE, abs=within), key
        assert np.array(plain.cusp_mean_mm) == pytest.approx(
            np.array(fast.cusp_mean_mm), rel=RELATIVE, abs=0.01
        )
        assert (plain.tip_angle_deg is None) == (fast.tip_angle_deg is None)
        if fast.tip_angle_deg is not None:
            assert plain.tip_angle_deg == pytest.approx(fast.tip_angle_deg, abs=1.0)
    assert (plain.faces.terrace_counts == fast.faces.terrace_counts).all()


@settings(max_examples=20, deadline=None)
@given(st.sampled_from(["bracket", "shelves", "torus", "cone", "inside out"]), ups)
def test_where_nothing_is_sampled_both_ways_give_the_same(name, up):
    """Areas of single solids are sums over faces; only rounding may differ (normals of 4 bytes)."""
    classes = np.zeros(PARTS[name].face_count, np.uint8)
    plain = measure_plainly(plain_part(name), classes, Pose(up), PrintSettings())
    fast = measure_pose(prepared_part(name), classes, Pose(up), PrintSettings(), "quick")
    for key in ("overhang_area_mm2", "platform_contact_mm2", "terrace_mean_width_mm",
                "terrace_visible_area_mm2", "cusp_mean_mm"):  # fmt: skip
        assert getattr(plain, key).total == pytest.approx(getattr(fast, key).total, rel=1e-4), key
    assert plain.first_layer_mm2 == pytest.approx(fast.first_layer_mm2, rel=1e-9, abs=1e-9)
    assert plain.tip_angle_deg == pytest.approx(fast.tip_angle_deg, abs=1e-6)


@settings(max_examples=20, deadline=None)
@given(st.sampled_from(["bracket", "shelves", "torus", "cavity"]), ups)
def test_the_standard_error_covers_the_difference(name, up):
    """|plain − full| within four of both errors, and a thousandth of the box for what is exact."""
    classes = np.zeros(PARTS[name].face_count, np.uint8)
    plain = measure_plainly(plain_part(name), classes, Pose(up), PrintSettings())
    full = measure_pose(prepared_part(name), classes, Pose(up), PrintSettings(), "full")
    if not plain.support_volume_mm3:
        assert full.support_volume_mm3 == 0
        return
    error = plain.error["support_volume_mm3"] + full.error["support_volume_mm3"]
    box = 1e-3 * np.prod(np.ptp(PARTS[name].box_mm, axis=0))
    assert abs(plain.support_volume_mm3 - full.support_volume_mm3) <= 4 * error + box


def test_an_open_part_still_gives_numbers():
    mesh = shapes.c_bracket()
    top = np.flatnonzero(mesh.face_normals[:, 2] > 0.9)
    found = measured(shapes.without_faces(mesh, top[-1:]))
    assert found.doubtful_share > 0
    assert found.support_volume_mm3 == pytest.approx(14000, rel=0.05)  # row 24, CALC
    assert any("not closed" in note for note in found.notes)


def test_a_face_wound_the_wrong_way_is_turned_and_named():
    mesh = shapes.c_bracket()
    faces = mesh.faces.copy()
    faces[3] = faces[3][::-1]
    found = measured(Mesh(mesh.vertices_mm, faces))
    assert found.support_volume_mm3 == pytest.approx(14000, rel=0.05)  # row 24, CALC
    assert any("1 face is wound against" in note for note in found.notes)


@pytest.mark.parametrize("name", PARTS)
def test_shells_are_wound_as_the_fast_path_winds_them(name):
    plain, fast = plain_part(name), prepared_part(name)
    normals = np.asarray(fast.normals, np.float64)
    assert plain.normals == pytest.approx(normals, abs=1e-6)
    # A partly buried face counts at its middle, which moves the centroid a little.
    within = 0.02 * np.ptp(PARTS[name].box_mm, axis=0).max() if fast.overlapping else 1e-9
    assert plain.centroid_mm == pytest.approx(fast.centroid_mm, abs=within)


def test_it_says_what_it_is():
    found = measured(shapes.cube())
    assert found.tier == "quick"
    assert found.notes == (FIRST_NUMBERS,)
    assert found.graze_area_mm2 is None
    assert NO_BRIDGES in measured(shapes.tunnel(), bridge_mm=10.0).notes


def test_a_cancelled_measurement_stops():
    progress = Progress()
    progress.cancel()
    classes = np.zeros(12, np.uint8)
    with pytest.raises(Cancelled):
        measure_plainly(
            prepare_plain_part(shapes.cube()), classes, Pose(), PrintSettings(), progress
        )
    with pytest.raises(Cancelled):
        prepare_plain_part(shapes.cube(), progress)


def test_it_needs_no_compiled_code():
    program = (
        "import sys, viewer.geometry.plain_measures, viewer.geometry.plain_part;"
        "assert 'numpy' in sys.modules; assert 'numba' not in sys.modules;"
        "assert not [name for name in sys.modules if name.startswith('llvmlite')]"
    )
    subprocess.run([sys.executable, "-c", program], check=True, cwd=Path(__file__).parents[2])
