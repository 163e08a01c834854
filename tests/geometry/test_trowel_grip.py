"""The demo part: closed, of the promised size, textured outside, plain inside; and its twin."""

import numpy as np
import pytest
import trimesh

from viewer.geometry.face_classes import CLASS_A, CLASS_B, UNMARKED
from viewer.geometry.leaf_relief import LeafPattern, leaf_relief_mm
from viewer.geometry.trowel_grip import (
    CREST_MM,
    ROLL_CENTRE_MM,
    ROLL_MM,
    SOCKET_END_MM,
    SOCKET_MM,
    grip_grid,
    trowel_grip,
)
from viewer.geometry.trowel_grip_faults import as_received_from_designer


@pytest.mark.parametrize("resolution", [0.1, 0.3, 1.0])
def test_grip_is_one_closed_outward_ring(resolution):
    mesh, classes = trowel_grip(resolution)
    independent = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    assert independent.is_watertight
    assert independent.is_winding_consistent
    assert independent.body_count == 1
    assert independent.euler_number == 0  # a through hole: the topology of a ring (CALC)
    assert mesh.signed_volume_mm3 > 50_000
    assert mesh.face_areas_mm2.min() > 0
    assert len(np.unique(mesh.vertices_mm, axis=0)) == len(mesh.vertices_mm)
    assert classes.dtype == np.uint8
    assert len(classes) == mesh.face_count


def test_full_grip_has_the_size_the_demo_promises():
    mesh, _ = trowel_grip()
    assert np.ptp(mesh.box_mm, axis=0) == pytest.approx([125, 38, 45], abs=2.0)
    assert 280_000 < mesh.face_count < 320_000


def test_grip_is_the_same_every_time():
    one, two = trowel_grip(0.2), trowel_grip(0.2)
    assert np.array_equal(one[0].vertices_mm, two[0].vertices_mm)
    assert np.array_equal(one[0].faces, two[0].faces)
    assert np.array_equal(one[1], two[1])


def test_classes_lie_where_they_are_seen():
    grid = grip_grid(0.3)
    rows = grid.points_mm.mean(axis=1)  # round rows have their middle at their mean
    radius = np.linalg.norm(grid.points_mm - rows[:, None, :], axis=2)
    socket = np.flatnonzero(grid.label == UNMARKED)
    # Plain and round: every socket row is a circle between the narrow end's and the mouth's radius.
    assert np.ptp(radius[socket], axis=1).max() < 1e-5
    assert radius[socket].min() >= SOCKET_END_MM - 1e-5
    assert radius[socket].max() <= max(SOCKET_MM, CREST_MM) + 1e-5
    collar = np.flatnonzero(grid.label == CLASS_B)
    assert np.ptp(radius[collar], axis=1).max() < 1e-5
    assert radius[collar].max() == pytest.approx(ROLL_CENTRE_MM + ROLL_MM, abs=0.02)
    # Three connected zones, in the order outside, collar, socket.
    assert np.count_nonzero(np.diff(grid.label.astype(int))) == 2
    assert (grid.label[0], grid.label[-1]) == (CLASS_A, UNMARKED)


def test_drawn_position_is_not_the_best_to_print_in():
    """Standing on its collar the grip has far less class A facing down than as drawn."""
    mesh, classes = trowel_grip(0.4)
    facing_down = {}
    for up in ((0, 0, 1), (-1, 0, 0)):
        steep = mesh.face_normals @ np.array(up, float) < -np.cos(np.radians(45))
        facing_down[up] = mesh.face_areas_mm2[steep & (classes == CLASS_A)].sum()
    assert facing_down[-1, 0, 0] < 0.25 * facing_down[0, 0, 1]


def test_leaves_are_fine_and_close_around():
    u, v = np.linspace(0, 120, 500), np.linspace(0, 100, 400, endpoint=False)
    pattern = LeafPattern(start_mm=10, end_mm=110, around_mm=100)
    height = leaf_relief_mm(u, v, pattern)
    assert 0.4 <= height.max() <= 0.6  # the demo promises 0.4 to 0.6 mm
    assert height.min() == 0
    assert height[u < 9].max() == 0
    assert height[u > 111].max() == 0
    assert 0.3 < (height > 0.05).mean() < 0.7  # neither bare nor crowded
    turned = leaf_relief_mm(u, v + 100, pattern)
    assert turned == pytest.approx(height, abs=1e-9)


@pytest.mark.parametrize("resolution", [0.1, 0.3])
def test_twin_differs_from_the_grip_only_where_it_says(resolution):
    sound, sound_classes = trowel_grip(resolution)
    spoilt, classes, faults = as_received_from_designer(resolution)
    assert np.array_equal(classes[: sound.face_count], sound_classes)
    moved = np.abs(spoilt.corners_mm[: sound.face_count] - sound.corners_mm).max(axis=(1, 2)) > 0
    assert 0 < moved.sum() < 0.05 * sound.face_count
    low, high = spoilt.corners_mm[..., 2].min(axis=1), spoilt.corners_mm[..., 2].max(axis=1)
    known = np.zeros(spoilt.face_count, bool)
    for fault in faults:
        known |= (high >= fault.from_mm) & (low <= fault.to_mm)
    assert known[: sound.face_count][moved].all()


@pytest.mark.parametrize("resolution", [0.1, 0.3])
def test_twin_has_the_faults_it_lists(resolution):
    mesh, _, faults = as_received_from_designer(resolution)
    heights = {fault.kind: fault for fault in faults}
    independent = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    edges, uses = np.unique(independent.edges_sorted, axis=0, return_counts=True)
    for kind, found in (("open_edges", uses == 1), ("nonmanifold_edges", uses > 2)):
        z = mesh.vertices_mm[edges[found], 2]
        assert (z.min(), z.max()) == (heights[kind].from_mm, heights[kind].to_mm)
    same = np.unique(np.sort(mesh.faces, axis=1), axis=0, return_inverse=True)[1]
    twice = np.bincount(same)[same] == 2
    z = mesh.corners_mm[twice][..., 2]
    wanted = heights["duplicate_faces"]
    assert (z.min(), z.max()) == (wanted.from_mm, wanted.to_mm)
    blister = min(independent.split(only_watertight=True), key=lambda shell: len(shell.faces))
    assert blister.volume < 0
    wanted = heights["inward_shells"]
    assert tuple(blister.bounds[:, 2]) == (wanted.from_mm, wanted.to_mm)


def test_seam_gap_is_two_hundredths():
    mesh, _, faults = as_received_from_designer(0.3)
    seam = next(fault for fault in faults if fault.kind == "open_edges")
    independent = trimesh.Trimesh(mesh.vertices_mm, mesh.faces, process=False)
    edges, uses = np.unique(independent.edges_sorted, axis=0, return_counts=True)
    rim = np.unique(edges[uses == 1])
    apart = np.linalg.norm(mesh.vertices_mm[rim, None] - mesh.vertices_mm[None, rim], axis=2)
    np.fill_diagonal(apart, np.inf)
    # Every split vertex has its partner a gap away; only the two ends are still sewn.
    nearest = np.sort(apart.min(axis=1))
    assert nearest[:-2] == pytest.approx(np.full(len(rim) - 2, 0.02), abs=1e-5)
    assert seam.to_mm > seam.from_mm
