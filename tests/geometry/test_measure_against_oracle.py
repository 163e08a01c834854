"""The fast measures against slow random lines, on made and real parts, classes painted at random.

Closed parts only, since the oracle needs an inside; 20 poses a part.
"""

import numpy as np
import pytest
import trimesh

from tests import shapes
from tests.few import few
from tests.oracle import measure_by_random_lines
from tests.shared_meshes import open_mesh
from viewer.geometry import measure_pose as measuring
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings

MADE = {
    "torus": lambda: shapes.torus(around=90, facets=60),
    "bracket": shapes.c_bracket,
    "shelves": shapes.shelves,
    "touching": shapes.post_touching_cap,
    "overlapping": shapes.post_inside_cap,
    "cavity": shapes.sealed_cavity,
    "balls in one another": lambda: shapes.joined(
        shapes.sphere(10, 3), shapes.moved(shapes.sphere(8, 3), [7, 5, 3]), shapes.cone(6, 25)
    ),
}
REAL = [
    "trimesh-models/featuretype.STL",
    "azdle-printables/havrsis-shade.stl",
    "so-arm100/Moving_Jaw_SO101.stl",
    "azdle-printables/floater.stl",
    "azdle-printables/ergodox-top-case.stl",
]
LAYER_MM = 1.0  # so thick that half a layer's gap is found beside walls and platform
# While a part of very many faces turns, it has fewer sample lines than one of few; both must do.
MANY = "quick, of many faces"
SHARE = {"quick": (0.05, 0.005), MANY: (0.05, 0.005), "full": (0.01, 0.001)}


def painted(mesh: Mesh, rng) -> np.ndarray:
    """Classes in a few blobs, so that each class has neighbours of its own."""
    centres = mesh.corners_mm.mean(axis=1)
    seeds = centres[rng.integers(0, len(centres), 12)]
    nearest = np.argmin(np.linalg.norm(centres[:, None] - seeds, axis=2), axis=1)
    return rng.integers(0, 3, 12).astype(np.uint8)[nearest]


def compare(mesh: Mesh, poses: int, samples: int, seed: int) -> None:
    rng = np.random.default_rng(seed)
    part = prepare_part(mesh)
    area = mesh.face_areas_mm2.sum()
    box = np.prod(mesh.box_mm[1] - mesh.box_mm[0])
    pulls, landing_pulls, short_pulls = [], [], []
    for _ in range(poses):
        up, limit = rng.normal(size=3), float(rng.uniform(30, 80))
        classes = painted(mesh, rng)
        truth = measure_by_random_lines(
            mesh.vertices_mm, mesh.faces, classes, up, limit, samples, int(rng.integers(1 << 30)),
            0.5 * LAYER_MM,
        )  # fmt: skip
        for tier, (relative, of_part) in SHARE.items():
            # Graze has an oracle of its own; without a clearance it costs nothing here.
            settings = PrintSettings(support_limit_deg=limit, layer_mm=LAYER_MM, clearance_mm=0)
            with pytest.MonkeyPatch.context() as patch:
                patch.setattr(measuring, "MANY_FACES", 0 if tier == MANY else 1_000_000)
                got = measure_pose(part, classes, Pose(tuple(up)), settings, tier.split(",")[0])
            slack = 4 * truth.volume_error_mm3 + max(relative * truth.volume_mm3, of_part * box)
            assert abs(got.support_volume_mm3 - truth.volume_mm3) <= slack
            touch = np.array([got.touch_area_mm2.unmarked, *got.touch_area_mm2[:2]])
            slack = 4 * truth.overhang_error_mm2
            slack += np.maximum(relative * truth.overhang_mm2, of_part * area)
            assert (abs(touch - truth.overhang_mm2) <= slack).all()
            land = got.landing_area_mm2
            landing = np.array([land.unmarked, land.A, land.B, land.platform])
            # What no line meets may still be as much as three of them stand for (rule of three).
            unsure = np.maximum(truth.landing_error_mm2, 3 * area / samples)
            slack = 4 * unsure + np.maximum(relative * truth.landing_mm2, of_part * area)
            assert (abs(landing - truth.landing_mm2) <= slack).all()
            said = got.error["landing_area_mm2"]
            error = np.array([said.unmarked, said.A, said.B, said.platform])
            pull = abs(landing - truth.landing_mm2) / (3 * np.hypot(error, unsure))
            landing_pulls += list(pull[(landing > 0) | (truth.landing_mm2 > 0)])
            short, said = got.touch_short_mm2, got.error["touch_short_mm2"]
            short = np.array([short.unmarked, short.A, short.B])
            error = np.array([said.unmarked, said.A, said.B])
            unsure = np.maximum(truth.short_error_mm2, area / samples)
            pull = abs(short - truth.short_mm2) / (3 * np.hypot(error, unsure))
            short_pulls += list(pull[(short > 0) | (truth.short_mm2 > 0)])
            error = np.hypot(got.error["support_volume_mm3"], truth.volume_error_mm3)
            pulls.append(abs(got.support_volume_mm3 - truth.volume_mm3) / (3 * error + 1e-9))
    assert np.mean(np.array(pulls) <= 1) >= 0.95
    for found in (landing_pulls, short_pulls):
        assert not found or np.mean(np.array(found) <= 1) >= 0.95


@pytest.mark.parametrize("name", MADE)
def test_made_parts(name):
    compare(MADE[name](), poses=few(8, 20), samples=6_000, seed=len(name))


@pytest.mark.parametrize("name", REAL)
def test_real_parts(name):
    loaded = trimesh.load_mesh(open_mesh(name), process=True)
    assert loaded.is_watertight, "the oracle needs a closed part"
    loaded.apply_scale(100 / loaded.extents.max())  # their units differ
    compare(Mesh(loaded.vertices, loaded.faces), poses=20, samples=6_000, seed=len(name))
