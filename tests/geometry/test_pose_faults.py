"""What comes and goes with the pose: jumps of section and steps lower than a layer (CALC)."""

import manifold3d
import numpy as np
import pytest

from tests.shapes import box, cone, joined, post_and_cap, sphere, turned_profile
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose
from viewer.geometry.section_jumps import find_section_jumps


def found(mesh, kind, **asked):
    return [fault for fault in check_mesh(mesh, **asked).faults if fault.kind == kind]


def test_post_and_cap_jump_where_the_cap_begins():
    """Section 100 mm² below z = 20, 900 mm² above it."""
    (jump,) = found(post_and_cap(), "section_jumps")
    assert jump.count == 1
    assert (jump.from_mm, jump.to_mm) == (20, 20)
    assert jump.layers == (100,)
    (turned,) = found(post_and_cap(), "section_jumps", pose=Pose((0, 0, -1)))
    assert (turned.from_mm, turned.to_mm) == pytest.approx((5, 5))
    assert turned.places[0].height_mm == pytest.approx(5)
    assert check_mesh(post_and_cap()).verdict == "sound"


@pytest.mark.parametrize("mesh", [sphere(10), sphere(100, 5), cone(20, 10), box([0] * 3, [20] * 3)])
def test_what_widens_steadily_does_not_jump(mesh):
    assert found(mesh, "section_jumps") == []


def test_jumps_of_a_list_of_sections():
    steady = np.full(20, 400.0)
    assert find_section_jumps(steady).tolist() == []
    assert find_section_jumps(np.r_[steady, 3 * steady]).tolist() == [20]
    assert find_section_jumps(np.r_[steady, 1.5 * steady]).tolist() == []  # less than half
    assert find_section_jumps(np.r_[0.01 * steady, 0.03 * steady]).tolist() == []  # too small
    assert find_section_jumps(np.r_[3 * steady, steady, 3 * steady]).tolist() == [20, 40]
    assert find_section_jumps(np.arange(1, 30) ** 2 * 20.0).tolist() == []  # a steep cone
    assert find_section_jumps(np.array([1.0, 900.0])).tolist() == []


def raised(height):
    """A block 30 × 20 × 10 with a pad 10 × 10 on top, `height` up."""
    block = manifold3d.Manifold.cube([30, 20, 10])
    pad = manifold3d.Manifold.cube([10, 10, 1 + height]).translate([10, 5, 9])
    made = (block + pad).to_mesh64()
    return Mesh(np.array(made.vert_properties)[:, :3], np.array(made.tri_verts, np.int64))


@pytest.mark.parametrize(
    ("height", "layer", "low"),
    [(0.1, 0.2, True), (0.19, 0.2, True), (0.2, 0.2, False), (0.1, 0.1, False), (0.5, 0.2, False),
     (0.01, 0.2, False)],
)  # fmt: skip
def test_a_pad_lower_than_a_layer_is_lost(height, layer, low):
    steps = found(raised(height), "low_relief", layer_mm=layer)
    assert len(steps) == low
    if low:
        assert steps[0].count == 1
        assert (steps[0].from_mm, steps[0].to_mm) == pytest.approx((10, 10 + height))
        assert steps[0].area_mm2 == pytest.approx(4 * 10 * height)


def test_stood_upright_the_same_pad_is_none():
    assert found(raised(0.1), "low_relief", pose=Pose((1, 0, 0))) == []
    (upside_down,) = found(raised(0.1), "low_relief", pose=Pose((0, 0, -1)))
    assert (upside_down.from_mm, upside_down.to_mm) == pytest.approx((0, 0.1))


def test_a_small_chamfer_and_a_fine_sphere_have_no_low_steps():
    chamfered = turned_profile([(9.9, 0.0), (10.0, 0.1), (10.0, 9.9), (9.9, 10.0)], 90)
    assert found(chamfered, "low_relief") == []
    assert found(sphere(10), "low_relief") == []


def test_faults_are_sorted_by_height_in_each_pose():
    part = joined(raised(0.1), box([60, 5, 3], [61, 6, 4]))
    standing = [(f.kind, f.from_mm) for f in check_mesh(part).faults][:2]
    turned = [(f.kind, f.from_mm) for f in check_mesh(part, Pose((0, 0, -1))).faults]
    turned = [one for one in turned if one[0] != "section_jumps"]
    assert [kind for kind, _ in standing] == ["floating_bits", "low_relief"]
    assert [kind for kind, _ in turned] == ["low_relief", "floating_bits"]
