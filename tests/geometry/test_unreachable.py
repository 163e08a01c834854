"""Unreachable and sealed support: closed forms, and rays and a flood by other libraries."""

import manifold3d
import numpy as np
import pytest
import scipy.ndimage
import trimesh

from tests import shapes
from tests.few import few
from tests.shared_meshes import open_mesh
from viewer.errors import Cancelled
from viewer.geometry.face_pass import pass_over_faces
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, posed_vertices_mm
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.supports import measure_supports
from viewer.geometry.turned_part import turn_part
from viewer.geometry.unreachable import (
    measure_unreachable,
    unreachable_in_pose,
    unreachable_points,
)
from viewer.progress import Progress


def measured(mesh, up=(0, 0, 1), limit=45.0):
    part = prepare_part(mesh)
    turned = turn_part(part.points_mm, Pose(tuple(up)).up)
    classes = np.zeros(mesh.face_count, np.uint8)
    under = pass_over_faces(part, turned, classes, PrintSettings(support_limit_deg=limit))[0]
    sums = measure_supports(part, turned, under, classes, PrintSettings(), 256)
    return measure_unreachable(part, turned, sums.samples, Progress()), sums, part, turned


def room(way_out: manifold3d.Manifold | None) -> Mesh:
    """A block of 30 around a hollow of 10³, and a channel cut from it."""
    solid = shapes.solid_box([0, 0, 0], [30, 30, 30]) - shapes.solid_box([10] * 3, [20] * 3)
    return shapes.of_solid(solid if way_out is None else solid - way_out)


def all_reachable(found, sums):
    """Nothing is found; what its points might have missed is said, and is next to nothing."""
    assert (found.unreachable_mm3, found.sealed_mm3, found.places) == (0, 0, ())
    assert found.sealed_error_mm3 == 0
    assert 0 < found.unreachable_error_mm3 < 2e-3 * sums.volume_mm3


def test_row_27():
    """Cube of 20 around a hollow of 10³: 1000 mm³ unreachable, 1000 sealed (CALC)."""
    found = measured(shapes.sealed_cavity())[0]
    assert found.unreachable_mm3 == pytest.approx(1000)
    assert found.sealed_mm3 == pytest.approx(1000)
    assert found.unreachable_error_mm3 == pytest.approx(0, abs=1e-6)
    assert found.sealed_error_mm3 == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(
    "shape",
    [
        shapes.post_and_cap, shapes.post_touching_cap, shapes.post_inside_cap,
        shapes.c_bracket, shapes.tunnel, shapes.shelves,
    ],
)  # fmt: skip
def test_rows_22_to_26_are_all_reachable(shape):
    """Open from at least one side all along (CALC)."""
    all_reachable(*measured(shape())[:2])


def test_a_wide_window_reaches_everything():
    """One wall of the hollow left out: straight out through it from everywhere (CALC)."""
    all_reachable(*measured(room(shapes.solid_box([19, 10, 10], [31, 20, 20])))[:2])


def test_a_chimney_reaches_what_stands_under_it():
    """A chimney of 2 × 2 up from the ceiling of the hollow.

    Straight up leads out of its 4 mm² × 10; slanting ways of 45° and flatter strike its walls
    (10 high, 2 wide) from every place in the hollow. No support stands under the chimney itself,
    for there is no ceiling there, so all of (100 − 4) × 10 is unreachable, none sealed (CALC).
    """
    chimney = shapes.solid_box([14, 14, 19], [16, 16, 31])
    found, _, part, turned = measured(room(chimney))
    assert found.sealed_mm3 == 0
    assert found.unreachable_mm3 == pytest.approx(960)
    points = np.array([[15, 15, 15.0], [11, 11, 15], [15.9, 14.1, 10.5], [16.1, 15, 15]])
    stuck = unreachable_points(part, turned.up, points - part.centre_mm, Progress())
    assert stuck.tolist() == [False, True, False, True]


def test_a_side_channel_reaches_a_strip():
    """A channel of 2 × 2 out to one side, in the middle of the wall's height.

    Reachable is the beam of 2 × 2 through the hollow of length 10: 40 mm³. Support under the
    channel's own ceiling (4 mm², 10 long: 2 wide, 2 high = 40 mm³) is reachable too. Slanting lines
    strike the channel's walls (CALC).
    """
    found = measured(room(shapes.solid_box([19, 14, 14], [31, 16, 16])))[0]
    assert found.sealed_mm3 == 0
    assert abs(found.unreachable_mm3 - 960) <= max(4 * found.unreachable_error_mm3, 3)
    assert 0 < found.unreachable_error_mm3 < 10


def test_a_bent_channel_reaches_nothing_but_seals_nothing():
    """From the hollow sideways, then up: all 1000 mm³ of the hollow are unreachable (CALC)."""
    bent = shapes.solid_box([19, 14, 10], [26, 16, 12]) + shapes.solid_box(
        [24, 14, 10], [26, 16, 31]
    )
    found, sums, _, _ = measured(room(bent))
    assert found.sealed_mm3 == 0
    # Under the channel's own ceiling, 4 × 2 × 2: all of it is stuck too, except beneath the shaft.
    assert sums.volume_mm3 == pytest.approx(1000 + 16)
    assert found.unreachable_mm3 == pytest.approx(1016, rel=0.01)


def test_two_half_shells_that_overlap_seal_a_hollow():
    """A tub and a lid pushed 1 mm into it: 10³ less the lid's 1 mm is left to support (CALC)."""
    tub = shapes.solid_box([0, 0, 0], [20, 20, 15]) - shapes.solid_box([5, 5, 5], [15, 15, 16])
    lid = shapes.box([-2, -2, 14], [22, 22, 20])
    found, sums, _, _ = measured(shapes.joined(shapes.of_solid(tub), lid))
    # 10 × 10 × 9 inside; outside the rim of the lid stands on the platform, 14 high.
    assert found.sealed_mm3 == pytest.approx(900, rel=0.01)
    assert found.unreachable_mm3 == pytest.approx(900, rel=0.01)
    assert sums.volume_mm3 == pytest.approx(900 + (24**2 - 20**2) * 14, rel=0.01)


def test_a_body_that_floats_in_a_hollow_is_sealed_in():
    """Under the ball of the hollow and under its ceiling beside it: all of it is sealed."""
    mesh = shapes.joined(shapes.sealed_cavity(), shapes.box([8] * 3, [12] * 3))
    found, sums, _, _ = measured(mesh)
    assert sums.volume_mm3 == pytest.approx(1000 - 64, rel=1e-3)
    assert found.sealed_mm3 == pytest.approx(sums.volume_mm3)
    assert found.unreachable_mm3 == pytest.approx(sums.volume_mm3)


@pytest.mark.parametrize("up", [(0, 0, 1), (1, 2, -3)])
def test_against_rays_and_a_flood_of_other_libraries(up):
    """A bottle with a narrow neck lying in a block, random parts: embree rays for each point."""
    for seed in range(3):
        rng = np.random.default_rng(seed)
        solid = manifold3d.Manifold.sphere(12, 32) - manifold3d.Manifold.sphere(9, 32)
        for _ in range(3 + seed):
            hole = manifold3d.Manifold.cylinder(30, rng.uniform(1, 4), -1.0, 24)
            solid -= hole.rotate(list(rng.uniform(0, 360, 3)))
        mesh = shapes.of_solid(solid)
        found, sums, part, turned = measured(mesh, up)
        samples = sums.samples
        volume = samples.plan_mm2 * (samples.top_mm - samples.bottom_mm)
        chosen = rng.choice(len(volume), 4000, p=volume / volume.sum())
        height = samples.bottom_mm + rng.random(len(volume)) * (samples.top_mm - samples.bottom_mm)
        points = np.column_stack([samples.places_mm, height + turned.platform_mm])[chosen]
        points = points @ turned.rotation
        stuck = unreachable_points(part, turned.up, points, Progress())
        slow = _stuck_by_embree(part, turned.up, points)
        assert np.mean(stuck != slow) < 2e-3  # rays along edges
        share = slow.mean()
        true = share * volume.sum()
        slack = 4 * np.sqrt(share * (1 - share) / len(slow)) * volume.sum()
        assert abs(found.unreachable_mm3 - true) <= slack + 4 * found.unreachable_error_mm3 + 1e-6
        assert found.sealed_mm3 == 0


@pytest.mark.parametrize(
    "name", ["azdle-printables/havrsis-shade.stl", "trimesh-models/featuretype.STL"]
)
def test_real_parts_against_rays_of_another_library(name):
    """Within 1 % or 0.1 % of the box volume, and the error said is the error made."""
    loaded = trimesh.load_mesh(open_mesh(name), process=True)
    loaded.apply_scale(100 / loaded.extents.max())  # their units differ
    mesh = Mesh(loaded.vertices, loaded.faces)
    part, box = prepare_part(mesh), np.prod(np.ptp(mesh.box_mm, axis=0))
    rng = np.random.default_rng(len(name))
    classes = np.zeros(mesh.face_count, np.uint8)
    pulls, errors = [], []
    for _ in range(few(7, 20)):
        turned = turn_part(part.points_mm, Pose(tuple(rng.normal(size=3))).up)
        process = PrintSettings(support_limit_deg=float(rng.uniform(30, 80)))
        under = pass_over_faces(part, turned, classes, process)[0]
        samples = measure_supports(part, turned, under, classes, PrintSettings(), 512).samples
        found = measure_unreachable(part, turned, samples, Progress())
        volume = samples.plan_mm2 * (samples.top_mm - samples.bottom_mm)
        if not len(volume):
            assert found == (0, 0, 0, 0, ())
            continue
        chosen = rng.choice(len(volume), 12_000, p=volume / volume.sum())
        share = rng.uniform(0.001, 0.999, len(chosen))
        z = (1 - share) * samples.bottom_mm[chosen] + share * samples.top_mm[chosen]
        points = np.column_stack([samples.places_mm[chosen], z + turned.platform_mm])
        stuck = _stuck_by_embree(part, turned.up, points @ turned.rotation).mean()
        truth = stuck * volume.sum()
        unsure = volume.sum() * np.sqrt(max(stuck * (1 - stuck), 1e-3) / len(chosen))
        apart = abs(found.unreachable_mm3 - truth)
        assert apart <= max(0.01 * truth, 0.001 * box) + 4 * unsure
        pulls.append(apart / (3 * np.hypot(found.unreachable_error_mm3, unsure)))
        errors.append(found.unreachable_error_mm3 / max(0.01 * truth, 0.001 * box))
    assert np.mean(np.array(pulls) <= 1) >= 0.95
    assert np.median(errors) <= 0.5


def _stuck_by_embree(part, up, points):
    slow = trimesh.Trimesh(part.solid_points_mm, part.solid_faces, process=False)
    rays = trimesh.ray.ray_pyembree.RayMeshIntersector(slow)
    z = np.asarray(up)
    axis = np.cross(z, [0, 0, 1.0])
    turn = trimesh.geometry.align_vectors(z, [0, 0, 1.0])[:3, :3]
    if np.linalg.norm(axis) > 0:
        angle = np.arctan2(np.linalg.norm(axis), z[2])
        turn = trimesh.transformations.rotation_matrix(angle, axis)[:3, :3]
    stuck = np.ones(len(points), bool)
    for d in np.ndindex(3, 3, 3):
        d = np.array(d) - 1.0
        if d.any():
            ahead = np.tile(turn.T @ (d / np.linalg.norm(d)), (len(points), 1))
            stuck &= rays.intersects_any(points, ahead)
    return stuck


@pytest.mark.parametrize("seed", range(4))
def test_sealed_against_a_flood_of_voxels(seed):
    """Hollows at random, some open, in a block of two shells pushed into each other."""
    rng = np.random.default_rng(seed)
    lower = shapes.solid_box([0, 0, 0], [30, 30, 16])
    upper = shapes.solid_box([0, 0, 14], [30, 30, 30])
    hollows = [
        shapes.solid_box(place - half, place + half)
        for place, half in zip(rng.uniform(3, 27, (6, 3)), rng.uniform(1, 5, (6, 3)), strict=True)
    ]
    lower, upper = (
        body - manifold3d.Manifold.batch_boolean(hollows, manifold3d.OpType.Add)
        for body in (lower, upper)
    )
    found = measured(shapes.joined(shapes.of_solid(lower), shapes.of_solid(upper)))[0]
    step = 0.2
    at = np.arange(-0.5, 30.5, step) + 0.5 * step
    x, y, z = np.meshgrid(at, at, at, indexing="ij")
    block = (x > 0) & (x < 30) & (y > 0) & (y < 30) & (z > 0) & (z < 30)
    hollow = np.zeros(x.shape, bool)
    for body in hollows:
        low_x, low_y, low_z, high_x, high_y, high_z = body.bounding_box()
        hollow |= (
            (x > low_x) & (x < high_x) & (y > low_y) & (y < high_y) & (z > low_z) & (z < high_z)
        )
    regions, _ = scipy.ndimage.label(~block | hollow)
    inside = block & hollow & (regions != regions[0, 0, 0])
    true = float(inside.sum() * step**3)
    # Every hollow place has a ceiling above it, so the sealed volume is all supported.
    faces = np.count_nonzero(inside[1:] != inside[:-1]) * 3 * step**2
    assert abs(found.sealed_mm3 - true) <= 0.5 * step * faces + 0.02 * true
    assert found.unreachable_mm3 >= found.sealed_mm3 - 1e-9


def test_the_spin_of_the_directions_follows_the_build_direction_alone():
    """Points carried to the frame of the part give the same answer in whatever order."""
    _, _, part, turned = measured(room(shapes.solid_box([19, 14, 14], [31, 16, 16])))
    points = np.random.default_rng(1).uniform(10, 20, (500, 3)) - part.centre_mm
    one = unreachable_points(part, turned.up, points, Progress())
    other = unreachable_points(part, turned.up, points[::-1], Progress())[::-1]
    np.testing.assert_array_equal(one, other)
    x, y, z = (points + part.centre_mm).T
    beam = (y > 14) & (y < 16) & (z > 14) & (z < 16)
    np.testing.assert_array_equal(~one[x < 17], beam[x < 17])


@pytest.mark.parametrize("spin", [0, 33, 180])
def test_points_of_the_posed_part(spin):
    """Carried to the posed frame with whatever spin, points get the same answer."""
    mesh = room(shapes.solid_box([19, 14, 14], [31, 16, 16]))
    part = prepare_part(mesh)
    points = np.random.default_rng(2).uniform(10, 20, (400, 3))
    pose = Pose((1, 2, 3), spin)
    posed = posed_vertices_mm(mesh.vertices_mm, pose)
    move, *_ = np.linalg.lstsq(
        np.column_stack([mesh.vertices_mm, np.ones(len(posed))]), posed, rcond=None
    )
    posed_points = np.column_stack([points, np.ones(len(points))]) @ move
    one = unreachable_in_pose(part, pose, posed_points, Progress())
    other = unreachable_points(part, np.array(pose.up), points - part.centre_mm, Progress())
    assert np.mean(one != other) < 0.01
    assert 0 < one.mean() <= 1


def test_a_cancel_stops_it():
    _, sums, part, turned = measured(room(shapes.solid_box([19, 14, 14], [31, 16, 16])))
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        measure_unreachable(part, turned, sums.samples, progress)


def test_places_lie_within_the_support_they_stand_for():
    """Two sealed hollows and a bent one: three places, each inside its own."""
    apart = shapes.moved(shapes.sealed_cavity(), (40, 0, 0))
    mesh = shapes.joined(shapes.sealed_cavity(), apart)
    part, up = prepare_part(mesh), (0.3, 0.2, 1.0)
    got = measure_pose(part, np.zeros(mesh.face_count, np.uint8), Pose(up), PrintSettings())
    places = got.unreachable_places
    assert len(places) == 2
    assert all(place.sealed for place in places)
    volume = sum(place.volume_mm3 for place in places)
    assert volume == pytest.approx(got.sealed_support_mm3, rel=1e-9)
    across = sorted(place.place_mm[0] - mesh.box_mm[0, 0] for place in places)
    assert 5 < across[0] < 15
    assert 45 < across[1] < 55
