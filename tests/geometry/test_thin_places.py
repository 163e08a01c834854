"""Walls, gaps and relief of known measure; expected values in closed form (CALC)."""

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.shapes import box, extruded, joined, moved, sphere, turned_inside_out
from viewer.errors import Cancelled
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose
from viewer.progress import Progress

KINDS = ("thin_walls", "one_road_walls", "narrow_gaps", "fine_relief")
ROAD = 0.42


def found(mesh, road=ROAD, pose=None):
    report = check_mesh(mesh, pose, road_mm=road)
    return {fault.kind: fault for fault in report.faults if fault.kind in KINDS}


def solid(made):
    mesh = made.to_mesh64()
    return Mesh(np.array(mesh.vert_properties)[:, :3], np.array(mesh.tri_verts, np.int64))


@pytest.mark.parametrize("thickness", [0.2, 0.4, 0.42, 0.6, 0.83, 0.84, 1.2])
@pytest.mark.parametrize("up", [(0, 0, 1), (1, 2, 3), (1, 1, 0)])
def test_a_plate_of_known_thickness(thickness, up):
    """In a layer the plate is a strip t / √(1 − n_z²) wide, with n_z of its normal y."""
    plate = box([0, 0, 0], [30, thickness, 20])
    strip = thickness / np.sqrt(1 - (up[1] / np.linalg.norm(up)) ** 2)
    roads = 1 + (strip >= ROAD - 1e-6) + (strip >= 2 * ROAD - 1e-6)
    kind = {1: "thin_walls", 2: "one_road_walls"}.get(roads)
    walls = found(plate, pose=Pose(up))
    assert set(walls) == ({kind} if kind else set())
    if kind:
        (fault,) = walls.values()
        assert fault.count == 1
        assert fault.area_mm2 == pytest.approx(2 * 30 * 20, rel=0.05)
        assert f"{thickness:.2g} mm" in fault.advice
        assert fault.gravity == ("will fail" if kind == "thin_walls" else "harmless")


@pytest.mark.parametrize(("thickness", "lost"), [(0.15, True), (0.2, False), (0.4, False)])
def test_a_film_that_lies_flat_is_lost_only_below_a_layer(thickness, lost):
    film = box([0, 0, 0], [30, 20, thickness])
    assert set(found(film)) == ({"thin_walls"} if lost else set())
    assert set(found(film, pose=Pose((1, 0, 0)))) == {"thin_walls"}  # stood on its edge


@pytest.mark.parametrize(("wall", "kind"), [(0.3, "thin_walls"), (0.7, "one_road_walls")])
def test_a_tube_of_known_wall(wall, kind):
    outer = manifold3d.Manifold.cylinder(30, 15, 15, 256)
    inner = manifold3d.Manifold.cylinder(40, 15 - wall, 15 - wall, 256).translate([0, 0, -5])
    walls = found(solid(outer - inner))
    assert set(walls) == {kind}
    fault = walls[kind]
    assert fault.count == 1
    assert fault.area_mm2 == pytest.approx(2 * np.pi * (30 - wall) * 30, rel=0.05)
    assert (fault.from_mm, fault.to_mm) == pytest.approx((0, 30), abs=0.5)
    # A polygon of 256 sides is thinner by its sagitta, 15·(1 − cos(π/256)) = 0.0011 mm at most.
    assert fault.places[0].size_mm == pytest.approx(np.sqrt(30**2 * 3), rel=0.05)


@pytest.mark.parametrize("taper_deg", [2.0, 5.0, 10.0, 19.0])
def test_a_tapered_wedge_is_thin_up_to_where_it_is_a_road_thick(taper_deg):
    """Thickness straight behind the lower side is x·tan(taper), so thin up to x = road/tan."""
    run = 30.0
    wedge = extruded([(0, 0), (run, 0), (run, run * np.tan(np.radians(taper_deg)))], 20)
    fault = found(wedge, pose=Pose((0, 1, 0)))["thin_walls"]  # its edge upright
    reach = ROAD / np.tan(np.radians(taper_deg))
    # From the upper side rays lean towards the edge: the wall there is x·sin(taper) thick.
    upper = ROAD / np.sin(np.radians(taper_deg))
    assert fault.area_mm2 == pytest.approx(20 * (reach + upper), rel=0.12)
    points = np.array([place.point_mm for place in fault.places])
    assert points[:, 0].max() < upper + 0.1


def test_an_edge_sharper_than_a_wall_tapers_is_no_thin_wall():
    for edge_deg in (21.0, 30.0, 45.0):
        high = 30 * np.tan(np.radians(edge_deg))
        for up in ((0, 0, 1), (0, 1, 0)):
            assert found(extruded([(0, 0), (30, 0), (30, high)], 20), pose=Pose(up)) == {}
    assert found(sphere(10, 5)) == {}
    assert found(box([0] * 3, [20] * 3)) == {}


@pytest.mark.parametrize("road", [0.3, 0.42, 0.6, 0.8])
def test_the_road_decides(road):
    """A plate of 0.5: thinner than one road of 0.6, than two of 0.3 and 0.42."""
    kind = "thin_walls" if road > 0.5 else "one_road_walls"
    assert set(found(box([0, 0, 0], [30, 0.5, 20]), road)) == {kind}


def test_the_same_mesh_with_another_road_is_measured_anew():
    mesh = box([0, 0, 0], [30, 0.5, 20])
    assert set(found(mesh, 0.42)) == {"one_road_walls"}
    assert set(found(mesh, 0.6)) == {"thin_walls"}
    assert set(found(mesh, 0.2)) == set()
    assert set(found(mesh, 0.42)) == {"one_road_walls"}


@pytest.mark.parametrize(("gap", "narrow"), [(0.1, True), (0.4, True), (0.42, False), (1.0, False)])
def test_a_gap_between_two_bodies(gap, narrow):
    pair = joined(box([0] * 3, [20] * 3), box([20 + gap, 0, 0], [40, 20, 20]))
    gaps = found(pair)
    assert set(gaps) == ({"narrow_gaps"} if narrow else set())
    if narrow:
        assert gaps["narrow_gaps"].count == 1
        assert gaps["narrow_gaps"].area_mm2 == pytest.approx(800, rel=0.05)
        assert f"{gap:.2g} mm" in gaps["narrow_gaps"].advice


def test_a_gap_between_bodies_is_no_relief_however_small_it_is():
    """A bead hovers over a plate; the place is so small that open ground is near all of it."""
    bead = moved(sphere(2.0, 4), (15, 10, 10 + 2.0 + 0.2))
    plate = box([0] * 3, [30, 20, 10])
    upright = Pose((1, 0, 0))
    gaps = found(joined(plate, bead), pose=upright)
    assert set(gaps) == {"narrow_gaps"}
    assert gaps["narrow_gaps"].count == 1
    # On an arm that stands on the plate it is one body with it, and a gap all the same.
    foot = box([14.5, 9.5, 13.8], [20, 10.5, 14.8]), box([19, 9, 10], [20, 11, 15])
    assert set(found(joined(plate, bead, *foot), pose=upright)) == {"narrow_gaps"}


def relief(width, height):
    """A block 30 × 20 × 10 with a strip on top, `height` up (or sunk, if negative)."""
    block = manifold3d.Manifold.cube([30, 20, 10])
    strip = manifold3d.Manifold.cube([20, width, abs(height) + 1]).translate([5, 10, 9])
    if height > 0:
        return solid(block + strip)
    return solid(block - strip.translate([0, 0, 1 - abs(height)]))


@pytest.mark.parametrize("height", [0.5, -0.5, 1.0])
def test_a_strip_narrower_than_a_road_is_fine_relief(height):
    fault = found(relief(0.3, height))
    assert set(fault) == {"fine_relief"}
    assert fault["fine_relief"].count == 1
    assert fault["fine_relief"].area_mm2 == pytest.approx(2 * 20 * abs(height), rel=0.25)
    low, high = (10, 10 + height) if height > 0 else (10 + height, 10)
    assert fault["fine_relief"].from_mm == pytest.approx(low, abs=0.1)
    assert fault["fine_relief"].to_mm == pytest.approx(high, abs=0.1)
    assert ("sunk" in fault["fine_relief"].advice) == (height < 0)


def cut_out(block, *sizes_and_places):
    """A box of the given size with boxes (size, lowest corner) taken out of it, in one shell."""
    made = manifold3d.Manifold.cube(block)
    for size, place in sizes_and_places:
        made -= manifold3d.Manifold.cube(size).translate(place)
    assert len(made.decompose()) == 1
    return solid(made)


RING = ([8, 8, 3], [1, 1, -1])
SLIT_RING = cut_out([10, 10, 1], RING, ([0.3, 3, 3], [5, -1, -1]))
SLIT_PLATE = cut_out([20, 15, 1], ([10, 0.3, 3], [5, 7, -1]))
FINGER = cut_out([20, 20, 5], ([14, 20, 0.3], [-1, -1, 3]), ([14, 9, 3], [-1, -1, 3]),
                 ([14, 20, 3], [-1, 9.8, 3]))  # fmt: skip
CROSS = cut_out([20, 20, 5], ([10, 0.3, 3], [5, 10, 4.4]), ([0.3, 10, 3], [10, 5, 4.4]))
BLIND_SLOT = cut_out([20, 15, 5], ([10, 0.3, 3], [15, 7, 4.4]))  # open at its end too


@pytest.mark.parametrize(
    ("part", "area_mm2"),
    [(SLIT_RING, 2 * 1 * 1), (SLIT_PLATE, 2 * 10 * 1), (FINGER, 2 * 13 * 1.8)],
    ids=["slit ring", "slit plate", "finger over a plate"],
)
@pytest.mark.parametrize("up", [(0, 0, 1), (1, 2, 3), (1, 0, 0)])
def test_a_gap_of_one_shell_is_none_of_its_sunk_lines(part, area_mm2, up):
    """All of them lie within three roads of open ground, yet none has a floor beneath it.

    In a layer a gap of 0.3 is 0.3 / √(1 − n_z²) wide (CALC): the finger's, lying flat, is more than
    a layer of 0.2 high, and the slanting ones are wider than a road where n_z² > 1 − (0.3/0.42)².
    """
    n_z = np.array(up) / np.linalg.norm(up)
    normal = {id(SLIT_RING): 0, id(SLIT_PLATE): 1, id(FINGER): 2}[id(part)]
    across = np.sqrt(1 - n_z[normal] ** 2)
    kinds = found(part, pose=Pose(up))
    kinds.pop("one_road_walls", None)
    if ROAD * across <= 0.3:
        assert kinds == {}
        return
    assert set(kinds) == {"narrow_gaps"}
    assert kinds["narrow_gaps"].count == 1
    assert kinds["narrow_gaps"].area_mm2 == pytest.approx(area_mm2, rel=0.1)


@pytest.mark.parametrize("part", [CROSS, BLIND_SLOT], ids=["cross", "slot open at its end"])
def test_sunk_lines_have_floors_and_stay_relief(part):
    fault = found(part)
    assert set(fault) == {"fine_relief"}
    assert fault["fine_relief"].count == 1
    assert fault["fine_relief"].from_mm == pytest.approx(4.4, abs=0.1)


def test_a_line_turned_into_a_round_bar_is_relief_and_a_slit_sleeve_gapes():
    bar = manifold3d.Manifold.cylinder(30, 4, 4, 128)
    cutter = manifold3d.Manifold.cylinder(0.3, 5, 5, 128) - manifold3d.Manifold.cylinder(
        0.3, 3.5, 3.5, 128
    )
    turned = found(solid(bar - cutter.translate([0, 0, 15])), pose=Pose((1, 0, 0)))
    assert set(turned) == {"fine_relief"}
    assert turned["fine_relief"].area_mm2 == pytest.approx(2 * np.pi * (4**2 - 3.5**2), rel=0.1)
    sleeve = bar - manifold3d.Manifold.cylinder(30, 3, 3, 128)
    slit = manifold3d.Manifold.cube([5, 0.3, 40]).translate([0, -0.15, -5])
    assert set(found(solid(sleeve - slit))) == {"narrow_gaps"}


def test_a_groove_that_closes_to_an_edge_has_a_floor():
    """Sides at 8° to the vertical run together 0.9 deep: sunk, as if it had a level floor."""
    deep = 0.9
    half = deep * np.tan(np.radians(8.0))
    made = extruded([(0, 0), (20, 0), (20, 5), (10 + half, 5), (10, 5 - deep), (10 - half, 5),
                     (0, 5)], 20)  # fmt: skip
    assert set(found(made, pose=Pose((0, 1, 0)))) == {"fine_relief"}


def test_a_strip_wider_than_two_roads_is_none():
    assert found(relief(1.0, 0.5)) == found(relief(1.0, -0.5)) == {}


def test_a_high_rib_is_a_wall_and_a_deep_slot_a_gap():
    assert set(found(relief(0.3, 8.0))) == {"thin_walls"}
    assert set(found(relief(0.3, -8.0))) == {"narrow_gaps"}


def test_walls_inside_other_shells_do_not_count():
    """A sheet of 0.2 that runs through a block is a wall only where it stands out."""
    block = joined(box([0] * 3, [20] * 3), box([5, 5, -1], [15, 5.2, 15]))
    kinds = found(block)
    # Only what stands out below the block is left: 1 mm high, which is relief.
    assert set(kinds) == {"fine_relief"}
    assert kinds["fine_relief"].to_mm <= 1.0 + 1e-6


def test_the_wall_around_a_hollow_counts_at_its_sides():
    """Floor and ceiling, 0.3 thick, are more than a layer of 0.2."""
    hollow = joined(box([0] * 3, [20] * 3), turned_inside_out(box([0.3] * 3, [19.7] * 3)))
    walls = found(hollow)["thin_walls"]
    assert walls.gravity == "will fail"
    assert walls.area_mm2 == pytest.approx(4 * (20**2 + 19.4**2), rel=0.08)


@given(
    angles=st.tuples(st.floats(0, 3), st.floats(0, 3), st.floats(0, 3)),
    factor=st.sampled_from([0.5, 2.0, 10.0]),
)
@settings(max_examples=10, deadline=None)
def test_turning_changes_nothing_and_scaling_scales(angles, factor):
    plate = box([0, 0, 0], [30, 0.35, 20])
    turn = trimesh.transformations.euler_matrix(*angles)[:3, :3]
    first = found(plate)["thin_walls"]
    stood = Pose(turn @ [0, 0, 1])
    turned = found(Mesh(plate.vertices_mm @ turn.T, plate.faces), pose=stood)["thin_walls"]
    assert turned.area_mm2 == pytest.approx(first.area_mm2, rel=0.03)
    larger = found(Mesh(plate.vertices_mm * factor, plate.faces), ROAD * factor)
    assert larger["thin_walls"].area_mm2 == pytest.approx(first.area_mm2 * factor**2, rel=0.03)


def test_cancel_is_heard_while_walls_are_measured():
    progress = Progress(lambda share, _: progress.cancel() if share > 0.8 else None)
    with pytest.raises(Cancelled):
        check_mesh(sphere(10, 5), progress=progress)
