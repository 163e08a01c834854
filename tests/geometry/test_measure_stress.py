"""Nothing that can be laid on the platform upsets the measures: all stay finite and watertight."""

import manifold3d
import numpy as np
import pytest

from tests import shapes
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.geometry.pose_profile import PoseProfile
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.section_islands import SectionIslands

# Tip angles of what falls over are negative; places and moments lie on any side of the origin.
SIGNED = (
    "tip_angle_deg", "tip_angle_supported_deg", "tip_angle_worst_deg", "centre_of_mass_mm",
    "contact_polygon_mm", "island_places", "unreachable_places", "flat_faces", "profile",
)  # fmt: skip
UPS = [(0, 0, 1), (1, 0, 0), (0, -1, 0), (0, 1, 1), (1, 1, 1), (0.3, -0.4, 0.8)]


def hull_of(points: np.ndarray) -> Mesh:
    made = manifold3d.Manifold.hull_points(points.astype(np.float64)).to_mesh64()
    return Mesh(np.array(made.vert_properties)[:, :3], np.array(made.tri_verts).astype(np.int32))


def numbers_in(value) -> list[float]:
    if isinstance(value, dict):
        return [x for one in value.values() for x in numbers_in(one)]
    if isinstance(value, PoseProfile | SectionIslands):
        return numbers_in(tuple(vars(value).values()))
    if isinstance(value, np.ndarray):
        return value.astype(float).ravel().tolist()
    if isinstance(value, tuple):
        return [x for one in value for x in numbers_in(one)]
    return [] if value is None or isinstance(value, str) else [float(value)]


def measured(mesh: Mesh, up, tier: str, seed: int = 0):
    """Measures with finite numbers, none below zero but places, and angles of what falls over."""
    classes = np.random.default_rng(seed).integers(0, 3, mesh.face_count).astype(np.uint8)
    result = measure_pose(
        prepare_part(mesh), classes, Pose(up), PrintSettings(support_limit_deg=60), tier
    )
    for name, value in vars(result).items():
        if name not in ("faces", "columns", "notes", "tier"):
            found = np.array(numbers_in(value))
            assert np.isfinite(found).all(), name
            assert name in SIGNED or (found >= -1e-9).all(), name
    assert np.isfinite(result.faces.touch_share).all()
    return result


def test_two_hundred_hulls_with_integer_vertices():
    """A closed part has no odd line, in either tier, along axes and askew."""
    rng = np.random.default_rng(5)
    supported = 0
    for i in range(200):
        mesh = hull_of(rng.integers(0, 9, (rng.integers(6, 30), 3)))
        if not mesh.face_count:
            continue
        result = measured(mesh, UPS[i % len(UPS)], ("quick", "full")[i % 2], i)
        assert result.doubtful_share == 0
        supported += result.support_volume_mm3 > 0
    assert supported > 20


@pytest.mark.parametrize("tier", ["quick", "full"])
def test_bodies_that_share_faces(tier):
    """Two cubes face against face, and the same cube twice, are their union."""
    apart = shapes.joined(shapes.box([0, 0, 0], [10, 10, 10]), shapes.box([10, 0, 0], [20, 10, 10]))
    twice = shapes.joined(shapes.cube(), shapes.cube())
    for up in UPS:
        assert measured(apart, up, tier).doubtful_share == 0
        one, two = measured(shapes.cube(), up, tier), measured(twice, up, tier)
        assert two.doubtful_share == 0
        volume = pytest.approx(one.support_volume_mm3, rel=0.02, abs=1)
        assert two.support_volume_mm3 == volume


@pytest.mark.parametrize("tier", ["quick", "full"])
def test_needles_ten_metres_away(tier):
    """A cone of 720 slivers, each 30 mm long and 0.09 mm wide at its base, 10 m from the origin."""
    needles = shapes.moved(shapes.inverted_cone(10, 30), [10_000, -10_000, 10_000])
    for up in UPS:
        assert measured(needles, up, tier).doubtful_share == 0


@pytest.mark.parametrize("tier", ["quick", "full"])
def test_an_open_part_tells_what_is_doubtful(tier):
    """A bracket without two faces: numbers all the same, and a share of doubtful lines."""
    mesh = shapes.without_faces(shapes.c_bracket(), [3, 11])
    told = [measured(mesh, up, tier).doubtful_share for up in UPS]
    assert max(told) > 0
    assert max(told) <= 1
