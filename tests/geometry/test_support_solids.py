"""Support bodies: closed, off the part, and as large as the closed forms of the check values."""

import manifold3d
import numpy as np
import pytest
import trimesh

from tests import shapes
from tests.shared_meshes import names, open_mesh
from viewer.errors import RequestProblem, ShowsideError
from viewer.files.mesh_files import read_part
from viewer.geometry.closed_part import closed_part
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.support_solids import SupportShape, posed_solid, support_solids

UPRIGHT, EDGE, CORNER = Pose(), Pose((1, 0, 1)), Pose((1, 1, 1))


def solid_of(points, faces):
    return manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=np.array(points), tri_verts=np.asarray(faces).astype(np.uint64)
        )
    )


def made(mesh, pose=UPRIGHT, shape=None, **process):
    part = prepare_part(mesh)
    settings = PrintSettings(**process)
    classes = np.zeros(mesh.face_count, np.uint8)
    measures = measure_pose(part, classes, pose, settings, tier="quick")
    supports = support_solids(part, measures, pose, settings, shape)
    return supports, solid_of(*posed_solid(part, pose)), measures


def assert_closed_and_off_the_part(supports, part):
    area = part.surface_area()
    for mesh in (supports.body, supports.contact):
        if not mesh.face_count:
            continue
        body = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
        assert body.is_watertight
        assert body.is_winding_consistent
        solid = solid_of(mesh.vertices_mm, mesh.faces)
        assert solid.status() == manifold3d.Error.NoError
        assert solid.volume() == pytest.approx(mesh.signed_volume_mm3, rel=1e-6)
        # Vertices that change nothing by more than 0.1 µm may have been left out.
        assert (solid ^ part).volume() < 1e-4 * area
        assert mesh.box_mm[0, 2] >= 0


# Volumes: rows of the check values, CALC.
ROWS = {
    13: (shapes.sphere(subdivisions=5), 216.88, {}),
    14: (shapes.sphere(subdivisions=5), 305.41, {"support_limit_deg": 50}),
    15: (shapes.sphere(subdivisions=4), 1047.20, {"support_limit_deg": 90}),
    17: (shapes.cube(), 0.0, {"pose": EDGE}),
    18: (shapes.cube(), 4000.0, {"pose": EDGE, "support_limit_deg": 45.1}),
    20: (shapes.cube(), 8000.0, {"pose": CORNER, "support_limit_deg": 60}),
    21: (shapes.inverted_cone(20.0, 10.0), 8377.6, {"support_limit_deg": 46}),
    22: (shapes.post_and_cap(), 16000.0, {}),
    23: (shapes.post_inside_cap(), 16000.0, {}),
    24: (shapes.c_bracket(), 14000.0, {}),
    25: (shapes.tunnel(), 4000.0, {}),
    26: (shapes.shelves(), 15200.0, {}),
    27: (shapes.sealed_cavity(), 1000.0, {}),
}


@pytest.mark.parametrize("row", sorted(ROWS))
def test_volumes_of_the_check_values(row):
    mesh, wanted, more = ROWS[row]
    supports, part, _ = made(mesh, **more)
    assert supports.standing_mm3 == pytest.approx(wanted, rel=0.02, abs=1e-6)
    # Without a gap body and contact layers fill all of it, but for the smallest bits.
    assert supports.volume_mm3 == pytest.approx(supports.standing_mm3, rel=2e-3, abs=1e-6)
    assert_closed_and_off_the_part(supports, part)


def test_two_touching_shells_are_one():
    supports, part, _ = made(shapes.post_touching_cap())
    assert supports.standing_mm3 == pytest.approx(16000, rel=0.02)
    assert_closed_and_off_the_part(supports, part)


def test_what_is_bridged_gets_no_body():
    """Row 25 with a bridge limit of 20: nothing needs support."""
    supports, _, _ = made(shapes.tunnel(), bridge_mm=20.0)
    assert supports.volume_mm3 == pytest.approx(0.0, abs=1.0)
    assert supports.measured_mm3 == pytest.approx(0.0, abs=1.0)


def test_gap_and_contact_layers_are_as_thick_as_they_are_said_to_be():
    """CALC: under the cap's 800 mm² a gap of 0.2 and three layers of 0.2 leave 19.2 of 20 mm."""
    supports, part, _ = made(shapes.post_and_cap(), shape=SupportShape(0.2, 3))
    plan = supports.standing_mm3 / 20
    assert plan == pytest.approx(800, rel=0.02)
    assert supports.contact.signed_volume_mm3 == pytest.approx(plan * 0.6, rel=0.01)
    assert supports.body.signed_volume_mm3 == pytest.approx(plan * 19.2, rel=0.01)
    assert supports.contact.box_mm[:, 2] == pytest.approx([19.2, 19.8], abs=1e-6)
    assert supports.body.box_mm[:, 2] == pytest.approx([0, 19.2], abs=1e-6)
    assert_closed_and_off_the_part(supports, part)
    together, *_ = made(shapes.post_and_cap(), shape=SupportShape(0.2, 0))
    assert together.contact.face_count == 0
    assert together.body.signed_volume_mm3 == pytest.approx(plan * 19.8, rel=0.01)


def test_thinned_supports_keep_walls_round_cells_and_their_contact_layers():
    """CALC: 32 of the 36 cells of 5 × 5 mm under the cap are no post; each loses 4 × 4 mm."""
    whole, *_ = made(shapes.post_and_cap(), shape=SupportShape(0.2, 2))
    thin, part, _ = made(shapes.post_and_cap(), shape=SupportShape(0.2, 2, 4.0, 1.0))
    assert thin.standing_mm3 == whole.standing_mm3
    assert thin.contact.signed_volume_mm3 == pytest.approx(whole.contact.signed_volume_mm3)
    lost = whole.body.signed_volume_mm3 - thin.body.signed_volume_mm3
    assert lost == pytest.approx(32 * 16 * 19.4, rel=0.01)
    assert_closed_and_off_the_part(thin, part)
    downward = thin.body.face_normals[:, 2] < -0.01
    assert thin.body.corners_mm[downward, :, 2].max() == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("pose", [Pose((0, 0, 1), 33.0), Pose((0.3, -0.4, 0.8), 10.0)])
def test_bodies_turn_with_the_part(pose):
    supports, part, _ = made(shapes.post_and_cap(), pose=pose)
    assert supports.standing_mm3 == pytest.approx(supports.measured_mm3, rel=0.02)
    assert_closed_and_off_the_part(supports, part)


@pytest.mark.parametrize(
    "mesh", [shapes.of_solid(shapes.spiky_table(4)), shapes.coil()], ids=["spiky table", "coil"]
)
def test_many_small_undersides(mesh):
    supports, part, _ = made(mesh, shape=SupportShape(0.1, 2))
    assert supports.standing_mm3 == pytest.approx(supports.measured_mm3, rel=0.02)
    assert_closed_and_off_the_part(supports, part)


@pytest.mark.parametrize("name", names(".stl")[3::8])
def test_real_meshes(name):
    mesh = read_part(open_mesh(name)).part.mesh
    if mesh.face_count > 6_000:
        pytest.skip("large; takes minutes on a shared machine")
    closed = closed_part(prepare_part(mesh))
    if not closed.closed:
        pytest.skip("cannot be closed")
    supports, part, measures = made(closed.mesh)
    # The measure is a sample itself, and a small one in the quick tier.
    sampled = 3 * measures.error.get("support_volume_mm3", 0.0)
    allowed = max(0.02 * supports.measured_mm3, sampled, 5.0)
    assert abs(supports.standing_mm3 - supports.measured_mm3) <= allowed
    assert_closed_and_off_the_part(supports, part)


def test_an_open_part_is_refused_in_one_sentence():
    mesh = shapes.without_faces(shapes.post_and_cap(), [3])
    with pytest.raises(ShowsideError, match="mend it first"):
        made(mesh)
    with pytest.raises(RequestProblem, match="contact gap"):
        SupportShape(-1.0)
    with pytest.raises(RequestProblem, match="walls"):
        SupportShape(0.2, 2, 30.0)
    with pytest.raises(RequestProblem, match="contact layers over their cells"):
        SupportShape(0.2, 0, 3.0)
