"""Bridged area against slow random points, on made and real parts, classes painted at random.

Poses lie near faces of the part, since what is bridged is nearly level; 20 poses a part.
"""

import manifold3d
import numpy as np
import pytest
import trimesh

from tests import shapes
from tests.bridge_oracle import bridged_by_random_points
from tests.few import few
from tests.geometry.test_measure_against_oracle import painted
from tests.shared_meshes import open_mesh
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings

SHARE = {"quick": (0.05, 0.005), "full": (0.01, 0.001)}


def drilled_block() -> Mesh:
    """Holes of several widths across a block, blind and through, round and square."""
    rng = np.random.default_rng(5)
    solid = shapes.solid_box([0, 0, 0], [60, 40, 50])
    for _ in range(7):
        hole = manifold3d.Manifold.cylinder(80, rng.uniform(2, 6), -1.0, 48)
        solid -= hole.rotate([90, 0, 0]).translate(list(rng.uniform([5, 60, 8], [55, 70, 45])))
        low = rng.uniform([-10, 5, 5], [30, 30, 35])
        solid -= shapes.solid_box(low, low + rng.uniform([20, 3, 3], [60, 14, 10]))
    return shapes.of_solid(solid)


def table() -> Mesh:
    """A plate on legs that stand anyhow, so that chords end on walls at all angles."""
    rng = np.random.default_rng(6)
    solid = shapes.solid_box([0, 0, 20], [60, 60, 24])
    for _ in range(9):
        leg = manifold3d.Manifold.cylinder(22, rng.uniform(2, 6), -1.0, int(rng.integers(3, 24)))
        solid += leg.rotate([0, 0, rng.uniform(0, 90)]).translate([*rng.uniform(4, 56, 2), 0])
    return shapes.of_solid(solid)


def honeycomb() -> Mesh:
    """Six-sided pockets of 11 mm between walls of 1.5 mm under a lid."""
    solid = shapes.solid_box([0, 0, 0], [70, 60, 15])
    pocket = manifold3d.Manifold.cylinder(20, 5.5, -1.0, 6)
    for row in range(-1, 8):
        for column in range(-1, 8):
            place = [(column + row % 2 / 2) * 11.0, row * 9.6, -8]
            solid -= pocket.rotate([0, 0, 30]).translate(place)
    return shapes.of_solid(solid)


def wedge_slot() -> Mesh:
    """A slot that widens from 4 to 24 mm: its shortest chords are square to neither wall."""
    outline = [(0, 0), (50, 0), (50, 40), (0, 40)]
    slot = [(3, 18), (47, 8), (47, 32), (3, 22)]
    section = manifold3d.CrossSection([outline]) - manifold3d.CrossSection([slot])
    lid = manifold3d.Manifold.extrude(manifold3d.CrossSection([outline]), 4).translate([0, 0, 12])
    return shapes.of_solid(manifold3d.Manifold.extrude(section, 13) + lid)


MADE = {
    "tunnel": shapes.tunnel,
    "drilled": drilled_block,
    "table": table,
    "honeycomb": honeycomb,
    "wedge": wedge_slot,
}
REAL = [
    "trimesh-models/featuretype.STL",
    "azdle-printables/havrsis-shade.stl",
    "so-arm100/Moving_Jaw_SO101.stl",
    "azdle-printables/marker-rack.stl",
]


def near_a_face(mesh: Mesh, rng) -> np.ndarray:
    """A build direction in which some face, chosen by area, lies level or up to 12° off."""
    area = mesh.face_areas_mm2
    normal = np.asarray(mesh.face_normals[rng.choice(len(area), p=area / area.sum())], float)
    lean = np.tan(np.radians(rng.choice([0.0, rng.uniform(0, 12)])))
    aside = np.cross(normal, rng.normal(size=3))
    return -normal + lean * aside / np.linalg.norm(aside)


def compare(mesh: Mesh, seed: int, poses: int = 20, samples: int = 1_500) -> None:
    """Within 1 % or 0.1 % of the part's area; within three standard errors in 95 % of all."""
    rng = np.random.default_rng(seed)
    part, area = prepare_part(mesh), mesh.face_areas_mm2.sum()
    pulls, bridged_at_all = {tier: [] for tier in SHARE}, 0
    for _ in range(poses):
        up, classes = near_a_face(mesh, rng), painted(mesh, rng)
        layer, bridge = float(rng.uniform(0.1, 0.5)), float(rng.uniform(3, 30))
        truth, unsure, level = bridged_by_random_points(
            mesh.vertices_mm, mesh.faces, classes, up, 45.0, layer, bridge, samples,
            int(rng.integers(1 << 30)),
        )  # fmt: skip
        bridged_at_all += truth.sum() > 0
        # The oracle misses what fewer than one of its points stand for.
        unsure = np.maximum(unsure, level / samples)
        # Graze has an oracle of its own; without a clearance it costs nothing here.
        settings = PrintSettings(layer_mm=layer, bridge_mm=bridge, clearance_mm=0)
        for tier, (relative, of_part) in SHARE.items():
            got = measure_pose(part, classes, Pose(tuple(up)), settings, tier)
            ours = np.array([got.bridged_area_mm2.unmarked, *got.bridged_area_mm2[:2]])
            said = got.error.get("bridged_area_mm2")
            error = np.array([said.unmarked, said.A, said.B]) if said else np.zeros(3)
            apart = abs(ours - truth)
            slack = np.maximum(relative * truth, of_part * area) + 4 * unsure
            assert (apart <= slack).all(), (tier, ours, truth, unsure, error)
            touch = np.array([got.touch_area_mm2.unmarked, *got.touch_area_mm2[:2]])
            over = got.overhang_area_mm2
            np.testing.assert_allclose(
                touch + ours, [over.unmarked, over.A, over.B], atol=1e-6 * area
            )
            asked = (ours > 0) | (truth > 0)
            pulls[tier] += list(apart[asked] / (3 * np.hypot(error, unsure)[asked]))
    assert bridged_at_all >= poses // 4, "these poses do not try much"
    for tier, found in pulls.items():
        assert np.sum(np.array(found) > 1) <= max(1, 0.05 * len(found)), tier


@pytest.mark.parametrize("name", MADE)
def test_made_parts(name):
    compare(MADE[name](), seed=len(name), poses=few(8, 20))


@pytest.mark.parametrize("name", REAL)
def test_real_parts(name):
    loaded = trimesh.load_mesh(open_mesh(name), process=True)
    assert loaded.is_watertight, "the oracle needs a closed part"
    loaded.apply_scale(100 / loaded.extents.max())  # their units differ
    compare(Mesh(loaded.vertices, loaded.faces), seed=len(name))
