"""Plans told as the part is laid: where they cut, how pieces lie; and faults do not stop them."""

import json
from dataclasses import replace

import manifold3d
import numpy as np
import pytest
import trimesh

from tests import shapes
from tests.shared_meshes import FOLDER, open_mesh
from viewer.document.cutting import CutPlan, box_around_patch, cut_as_planned
from viewer.document.demo_job import faulty_demo_job
from viewer.document.state import Part, State
from viewer.errors import RequestProblem
from viewer.files.mesh_files import read_part
from viewer.geometry.closed_part import closed_part
from viewer.geometry.laid_planes import laid_matrix
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.worst_patch import worst_patch

TURNED = Pose((1.0, 2.0, 0.5), 33.0)


def state_of(mesh, pose=TURNED):
    return State.of_part(Part("part", mesh), np.ones(mesh.face_count, np.uint8), pose=pose)


def cut(state, plan):
    return cut_as_planned(state, closed_part(prepare_part(state.part.mesh)), plan)


def assert_closed_by_two_libraries(mesh):
    body = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    assert body.is_watertight
    solid = manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=np.array(mesh.vertices_mm), tri_verts=mesh.faces.astype(np.uint64)
        )
    )
    assert solid.status() == manifold3d.Error.NoError


def test_a_turned_box_holds_what_lies_in_it_as_the_part_is_laid():
    """CALC: inside a large cube a box cuts out itself, wherever it is and however turned."""
    state = state_of(shapes.cube(100.0))
    middle = laid_matrix([state.part.mesh], state.pose)[:3, 3]
    plan = CutPlan("box", angle_deg=20.0)
    plan = plan.placed(plan.axes @ (middle + np.array([3, 4, 5])), np.array([6.0, 8.0, 10.0]))
    (piece,) = cut(state, plan).pieces
    assert piece.volume_mm3 == pytest.approx(480)
    assert piece.pose == state.pose
    moved = plan.moved(np.array([2.0, -1.0, 0.5]))
    np.testing.assert_allclose(
        (moved.middle_mm - plan.middle_mm) @ plan.axes, [2, -1, 0.5], atol=1e-12
    )
    wider = plan.with_side(0, True, plan.high_mm[0] + 2.0)
    assert cut(state, wider).pieces[0].volume_mm3 == pytest.approx(8 * 8 * 10)
    # The box comes back upright in the frame of the plan.
    corners = (
        piece.bodies[0].mesh.vertices_mm @ laid_matrix([state.part.mesh], state.pose)[:3, :3].T
    )
    along = corners @ plan.axes.T
    np.testing.assert_allclose(np.ptp(along, axis=0), [6, 8, 10], atol=1e-9)
    assert plan.with_side(1, True, -1e6).high_mm[1] > plan.low_mm[1]


def test_the_box_around_the_worst_patch_is_the_same_told_as_laid():
    state = state_of(shapes.post_and_cap(), Pose((0.1, 0.0, 1.0), 25.0))
    prepared = prepare_part(state.part.mesh)
    found = measure_pose(prepared, state.face_classes, state.pose, state.settings, "quick")
    patch = worst_patch(prepared, state.face_classes, found.faces, state.pose, state.settings)
    plan = box_around_patch(state, patch)
    matrix = laid_matrix([state.part.mesh], state.pose)
    for mine, theirs in zip(plan.planes(matrix), patch.planes, strict=True):
        np.testing.assert_allclose(mine.normal, theirs.normal, atol=1e-9)
        assert np.dot(mine.normal, mine.point_mm) == pytest.approx(
            np.dot(theirs.normal, theirs.point_mm), abs=1e-9
        )
    assert plan.largest_only


def test_pieces_lie_as_the_whole_or_on_a_cut_face_or_as_told():
    state = state_of(shapes.cube(), Pose())
    plan = CutPlan("slab", (0, 0, 5.0), (0, 0, 9.0))
    same = cut(state, plan).pieces[0]
    assert (same.pose, same.volume_mm3) == (Pose(), pytest.approx(1600))
    quarters = CutPlan("quarters", (-1, -1, 0), (1, 1, 1))
    upright = {piece.pose.up for piece in cut(state, quarters).pieces}
    anew = {piece.pose.up for piece in cut(state, replace(quarters, anew=True)).pieces}
    assert upright == {(0, 0, 1)}
    assert all(abs(up[2]) < 1e-9 for up in anew)
    told = tuple(Pose((0.0, float(k), 1.0)) for k in range(4))
    laid = cut(state, replace(quarters, anew=True, poses=told)).pieces
    assert tuple(piece.pose for piece in laid) == told
    shape = cut(state, quarters).shape
    assert shape.points_mm[:, 2].max() == pytest.approx(20)
    # CALC: each of four pieces has two cut faces of 10 × 20 mm.
    area = Mesh(shape.points_mm, shape.faces).face_areas_mm2.sum()
    assert area == pytest.approx(4 * 2 * 200)
    with pytest.raises(RequestProblem, match="Look for a place"):
        cut(state, CutPlan("split"))


WAYS = (
    CutPlan("quarters"),
    CutPlan("quarters", joint="pins", joint_mm=1.0),
    CutPlan("quarters", joint="dovetails", joint_mm=1.5),
    CutPlan("slab"),
    CutPlan("box"),
)


def faulty_open_meshes():
    listed = FOLDER / "open" / "facts.json"
    if not listed.is_file():
        return []
    known = json.loads(listed.read_text(encoding="utf-8"))["files"]
    facts = {name: each.get("facts", {}) for name, each in known.items()}
    return [
        name
        for name, fact in facts.items()
        if name.endswith(".stl")
        and 0 < fact.get("triangles", 0) < 4000
        and not fact.get("watertight", True)
    ][:5]


@pytest.mark.parametrize("name", ["the faulty demo", *faulty_open_meshes()])
def test_no_way_to_cut_fails_on_a_part_with_faults(name):
    state = faulty_demo_job(0.08) if name == "the faulty demo" else read_part(open_mesh(name))
    part = closed_part(prepare_part(state.part.mesh))
    matrix = laid_matrix([state.part.mesh], state.pose)
    laid = part.mesh.vertices_mm @ matrix[:3, :3].T + matrix[:3, 3]
    low, high = laid.min(axis=0), laid.max(axis=0)
    for plan in WAYS:
        placed = plan.placed(0.5 * (low + high) + 0.013 * (high - low), 0.4 * (high - low))
        try:
            made = cut_as_planned(state, part, placed)
        except RequestProblem:  # nothing of a hollow part lies there
            if plan.way not in ("box", "slab"):
                raise
            continue
        if part.closed and not any("touch along" in note for note in made.notes):
            for piece in made.pieces:
                assert_closed_by_two_libraries(piece.bodies[0].mesh)
        if plan.way == "quarters" and plan.joint == "flat":
            total = sum(piece.volume_mm3 for piece in made.pieces)
            assert total == pytest.approx(part.mesh.signed_volume_mm3, rel=1e-6, abs=1e-9)
