"""Islands against the definition, by exact sections of a solid modeller, and in closed form."""

import manifold3d
import numpy as np
import pytest

from tests import shapes
from tests.island_oracle import islands_by_sections
from viewer.errors import Cancelled
from viewer.geometry.islands import find_islands
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.turned_part import turn_part
from viewer.progress import Progress


def islands_of(mesh, up=(0, 0, 1), layer_mm=0.2):
    part = prepare_part(mesh)
    turned = turn_part(part.points_mm, Pose(tuple(up)).up)
    return find_islands(part, turned, PrintSettings(layer_mm=layer_mm), Progress()), turned


def compare(solid: manifold3d.Manifold, up, layer_mm, mesh: Mesh | None = None):
    """Same layers, areas and places as by sections; returns how many islands there are."""
    mesh = mesh or shapes.of_solid(solid)
    found, turned = islands_of(mesh, up, layer_mm)
    centre = mesh.box_mm.mean(axis=0)
    matrix = np.column_stack([turned.rotation, -turned.rotation @ centre])
    matrix[2, 3] -= turned.platform_mm
    true = [i for i in islands_by_sections(solid.transform(matrix), layer_mm) if not i.leaning]
    assert found.count == len(true)
    # Shells that come near each other are grown by 0.0005 mm before they are united.
    part = prepare_part(mesh)
    united = part.solid_faces is not part.faces
    rel, slack, near = (0.05, 1e-3, 0.02) if united else (1e-3, 1e-6, 2e-3)
    left = list(range(found.count))
    for island in true:
        same = [
            i
            for i in left
            if found.layer[i] == island.layer
            and found.area_mm2[i] == pytest.approx(island.area_mm2, rel=rel, abs=slack)
            and np.linalg.norm(found.centre_mm[i, :2] - island.centre_mm) < near
        ]
        assert same, island
        left.remove(same[0])
    assert (found.height_mm > (found.layer - 0.5) * layer_mm).all()
    assert (found.height_mm <= (found.layer + 0.5) * layer_mm + 1e-3).all()
    return found.count


def arch():
    return shapes.solid_box([0, 0, 0], [30, 10, 20]) - shapes.solid_box([5, -1, -1], [25, 11, 12])


MADE = {
    "hanging post": (shapes.hanging_post, 1),
    "hanging cone": (shapes.hanging_cone, 1),
    "spiky table": (shapes.spiky_table, 36),
    "table with one spike": (lambda: shapes.spiky_table(1), 1),
    "arch": (arch, 0),
}


@pytest.mark.parametrize("name", MADE)
@pytest.mark.parametrize("layer_mm", [0.2, 0.37])
def test_made_parts_as_they_stand(name, layer_mm):
    make, count = MADE[name]
    assert compare(make(), (0, 0, 1), layer_mm) == count


@pytest.mark.parametrize("name", MADE)
@pytest.mark.parametrize("seed", range(3))
def test_made_parts_in_any_pose(name, seed):
    compare(MADE[name][0](), np.random.default_rng(seed).normal(size=3), 0.4)


def as_solid(mesh: Mesh) -> manifold3d.Manifold:
    return manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=mesh.vertices_mm.copy(),
            tri_verts=mesh.faces.astype(np.uint64),
        )
    )


@pytest.mark.parametrize("up", [(0, 0, 1), (0, 0, -1), (1, 0, 0), (0, 1, 0.2), (1, 1, 1)])
def test_a_spring(up):
    mesh = shapes.coil()
    compare(as_solid(mesh), up, 0.3, mesh)


def random_solids(rng, bodies=8):
    """Hulls of random points, boxes and cones, strewn about."""
    made = []
    for _ in range(bodies):
        place = rng.uniform(-12, 12, 3)
        kind = rng.integers(3)
        if kind == 0:
            made.append(manifold3d.Manifold.hull_points(place + rng.normal(0, 3, (8, 3))))
        elif kind == 1:
            made.append(shapes.solid_box(place - rng.uniform(0.5, 4, 3), place + 1))
        else:
            cone = manifold3d.Manifold.cylinder(rng.uniform(2, 8), 0.0, rng.uniform(0.5, 3), 9)
            made.append(cone.rotate(list(rng.uniform(0, 360, 3))).translate(list(place)))
    return made


@pytest.mark.parametrize("seed", range(25))
def test_random_bodies_as_one_solid(seed):
    """One mesh of all bodies united, some of them loose, in a random pose."""
    rng = np.random.default_rng(100 + seed)
    united = manifold3d.Manifold.batch_boolean(random_solids(rng), manifold3d.OpType.Add)
    compare(united, rng.normal(size=3), float(rng.uniform(0.1, 0.6)))


@pytest.mark.parametrize("seed", range(10))
def test_random_bodies_as_shells_that_overlap(seed):
    """The same as separate shells, which the program unites by itself."""
    rng = np.random.default_rng(300 + seed)
    bodies = random_solids(rng)
    united = manifold3d.Manifold.batch_boolean(bodies, manifold3d.OpType.Add)
    mesh = shapes.joined(*(shapes.of_solid(body) for body in bodies))
    compare(united, rng.normal(size=3), 0.4, mesh)


@pytest.mark.parametrize("seed", range(8))
def test_random_bodies_less_random_bodies(seed):
    """Hollows, windows, pits and moats."""
    rng = np.random.default_rng(500 + seed)
    union = manifold3d.OpType.Add
    whole = manifold3d.Manifold.batch_boolean(random_solids(rng, 12), union)
    carved = whole - manifold3d.Manifold.batch_boolean(random_solids(rng, 20), union)
    compare(carved, rng.normal(size=3), float(rng.uniform(0.2, 0.9)))


def test_a_flat_end_in_closed_form():
    """16 mm² at z = 12, layer 60: nothing under it down to the platform, 192 mm³ (CALC)."""
    found, _ = islands_of(shapes.of_solid(shapes.hanging_post()))
    assert found.layer.tolist() == [60]
    assert found.area_mm2 == pytest.approx([16])
    assert found.height_mm == pytest.approx([12])
    assert found.lowest_part_mm[0, 2] == pytest.approx(12)
    assert 3 <= found.lowest_part_mm[0, 0] <= 7
    assert found.support_mm3 == pytest.approx(192)
    assert found.support_error_mm3 == pytest.approx(0, abs=1e-6)


def test_a_steep_tip_in_closed_form():
    """A cone of r = 2, h = 20, 64 sides, tip at z = 8.

    Its first middle of a layer lies 0.1 mm above the tip: r = 0.01 there. Support under the cup:
    area times (height of the tip + two thirds of 0.1 mm), the mean height of a cone (CALC).
    """
    found, _ = islands_of(shapes.of_solid(shapes.hanging_cone()))
    area = 32 * np.sin(2 * np.pi / 64) * 0.01**2
    assert found.layer.tolist() == [40]
    assert found.lowest_part_mm == pytest.approx(np.array([[5, 0, 8]]))
    assert found.area_mm2 == pytest.approx([area], rel=1e-6)
    assert found.support_mm3 == pytest.approx(area * (8 + 0.2 / 3), rel=1e-6)


@pytest.mark.parametrize("height", [12.0, 12.1, 12.2, 12.3])
def test_level_ends_on_the_middle_of_a_layer(height):
    """An end exactly at (k + ½) layers starts in layer k, whatever rounding does to it (CALC)."""
    solid = shapes.gallows(shapes.solid_box([3, -2, height], [7, 2, 32]))
    mesh = shapes.of_solid(solid)
    far = Mesh(np.float32(mesh.vertices_mm + 50.3).astype(np.float64), mesh.faces)
    for shifted in (mesh, far):
        found, _ = islands_of(shifted)
        assert found.layer.tolist() == [int(np.ceil(round(height / 0.2 - 0.5, 3)))]
        assert found.area_mm2 == pytest.approx([16], rel=1e-5)


def test_support_down_to_a_slope():
    """A post of 4 × 4 with its end at z = 20 over a ramp of 45° whose height is x (CALC)."""
    ramp = shapes.extruded([(0, 0), (15, 0), (15, 15)], 10)
    post = shapes.joined(
        shapes.moved(ramp, [0, 0, 0]),
        shapes.box([4, 3, 20], [8, 7, 30]),
        shapes.box([20, 0, 0], [25, 9, 30]),
    )
    found, _ = islands_of(post)
    assert found.area_mm2 == pytest.approx([16])
    assert abs(found.support_mm3 - 16 * (20 - 6)) <= 4 * found.support_error_mm3
    assert 0 < found.support_error_mm3 < 0.5


@pytest.mark.parametrize(
    ("low", "count"),
    [([10, 10, 10.05], 0), ([10, 10, 10.25], 1), ([21, 10, 10.05], 1), ([18, 10, 10.05], 0)],
)
def test_a_loose_body_above_another(low, count):
    """In the layer above a body 10 mm high, over it or beside it; one layer higher it floats."""
    loose = shapes.box(low, np.add(low, 5))
    mesh = shapes.joined(
        shapes.box([0, 0, 0], [20, 20, 10]), loose, shapes.box([30, 0, 0], [35, 5, 20])
    )
    assert islands_of(mesh)[0].count == count


def test_a_thin_spike_below_the_middle_of_a_plate():
    """A plate 0.05 mm above the tip of a spike: the spike ends in the layer below the plate."""
    spike = shapes.turned_profile([(3.0, 0.0), (0.002, 9.95)], sides=12)
    plate = shapes.box([-10.3, -9.1, 10.0], [9.2, 8.8, 15])
    assert islands_of(shapes.joined(spike, plate))[0].count == 0
    assert islands_of(shapes.joined(spike, shapes.moved(plate, [0, 0, 0.2])))[0].count == 1
    assert islands_of(shapes.joined(spike, shapes.moved(plate, [12, 0, 0])))[0].count == 1


def test_a_thin_plate_on_two_hanging_legs_is_two_islands():
    """A foot thinner than a layer lies between two middles of layers; what shows are its legs."""
    legs = shapes.solid_box([2, -2, 12.15], [4, 2, 32]) + shapes.solid_box(
        [8, -2, 12.15], [9, 2, 32]
    )
    foot = shapes.solid_box([2, -2, 12.12], [9, 2, 12.25])
    found, _ = islands_of(shapes.of_solid(shapes.gallows(legs + foot)))
    assert sorted(found.area_mm2) == pytest.approx([4, 8])
    assert found.support_mm3 == pytest.approx(7 * 4 * 12.12)
    assert compare(shapes.gallows(legs + foot), (0, 0, 1), 0.2) == 2


def test_a_pit_in_an_island_is_no_part_of_it():
    """A blind hole whose bottom is still inside the island's first layer (CALC)."""
    cup = shapes.solid_box([3, -2, 12.0], [7, 2, 32]) - shapes.solid_box([4, -1, 12.05], [6, 1, 25])
    found, _ = islands_of(shapes.of_solid(shapes.gallows(cup)))
    assert found.area_mm2 == pytest.approx([16 - 4])
    assert found.support_mm3 == pytest.approx(16 * 12)


def test_the_bottom_of_a_hollow_is_no_island_and_a_body_in_it_is_one():
    assert islands_of(shapes.sealed_cavity())[0].count == 0
    floating = shapes.joined(shapes.sealed_cavity(), shapes.box([8] * 3, [12] * 3))
    found, _ = islands_of(floating)
    assert found.count == 1
    assert found.support_mm3 == pytest.approx(16 * 3)  # down to the floor of the hollow


def test_winding_in_the_file_does_not_matter():
    mesh = shapes.of_solid(shapes.spiky_table())
    assert islands_of(shapes.turned_inside_out(mesh))[0].count == 36
    mixed = mesh.faces.copy()
    mixed[::3] = mixed[::3, ::-1]
    assert islands_of(Mesh(mesh.vertices_mm, mixed))[0].count == 36


def test_a_hole_in_the_surface_costs_only_the_island_it_is_in():
    mesh = shapes.of_solid(shapes.spiky_table())
    tips = np.argsort(
        mesh.corners_mm[..., 2].min(axis=1) + 100 * (mesh.corners_mm[..., 2].min(axis=1) < 1)
    )
    top = np.flatnonzero(mesh.corners_mm[..., 2].min(axis=1) > 24.9)
    assert islands_of(shapes.without_faces(mesh, top[:1]))[0].count == 36
    assert islands_of(shapes.without_faces(mesh, tips[:1]))[0].count == 35


def test_islands_turn_with_the_part():
    """The same part, turned in its file and posed accordingly, has the same islands."""
    mesh = shapes.of_solid(shapes.spiky_table())
    rng = np.random.default_rng(4)
    turn, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    turn *= np.linalg.det(turn)
    up = rng.normal(size=3)
    one, _ = islands_of(mesh, up)
    other, _ = islands_of(Mesh(mesh.vertices_mm @ turn.T, mesh.faces), turn @ up)
    assert one.count == other.count > 0
    assert np.sort(one.area_mm2) == pytest.approx(np.sort(other.area_mm2), rel=1e-5)
    assert one.support_mm3 == pytest.approx(other.support_mm3, abs=6 * one.support_error_mm3 + 1e-3)
    assert one.lowest_part_mm.mean(0) @ turn.T == pytest.approx(other.lowest_part_mm.mean(0))


def test_a_cancel_stops_it():
    part = prepare_part(shapes.of_solid(shapes.spiky_table()))
    progress = Progress()
    progress.cancel()
    with pytest.raises(Cancelled):
        find_islands(part, turn_part(part.points_mm, (0, 0, 1)), PrintSettings(), progress)


def test_open_shells_elsewhere_that_overlap_take_no_island_away():
    """A hanging post, and far from it two open boxes that overlap and so cannot be united."""
    alone, _ = islands_of(shapes.of_solid(shapes.hanging_post()))
    one = shapes.without_faces(shapes.box((60, 0, 0), (70, 10, 10)), [0])
    other = shapes.without_faces(shapes.box((65, 5, 0), (75, 15, 10)), [0])
    found, _ = islands_of(shapes.joined(shapes.of_solid(shapes.hanging_post()), one, other))
    assert found.count == alone.count == 1
    assert found.height_mm == pytest.approx(alone.height_mm)
    assert found.support_mm3 == pytest.approx(alone.support_mm3)
