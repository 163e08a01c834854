"""How a newer file lies in its coordinates: known motions are found, none that is not needed."""

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from tests.shapes import box, cube, cylinder, joined, moved, sphere, torus
from viewer.document.demo_job import demo_job
from viewer.geometry.mesh import Mesh
from viewer.geometry.rigid_motion import STILL, RigidMotion, likely_motion

WITHIN_MM = 0.3


@pytest.fixture(scope="module")
def grips() -> list[Mesh]:
    return [demo_job(share).part.mesh for share in (0.18, 0.12)]


def laid_otherwise(mesh: Mesh, turn: np.ndarray, shift) -> Mesh:
    return Mesh(mesh.vertices_mm @ turn.T + np.asarray(shift, float), mesh.faces)


def bracket() -> Mesh:
    """A plate with a block at a corner: no turn carries it onto itself."""
    return joined(box((0, 0, 0), (60, 40, 10)), box((45, 5, 9.5), (56, 12, 30)))


SQUARE = Rotation.create_group("O").as_matrix()


@pytest.mark.parametrize("which", [3, 8, 13, 17, 22])
def test_quarter_turns_are_found_exactly(which):
    old, turn = bracket(), SQUARE[which]
    new = laid_otherwise(old, turn, (7.0, -3.0, 12.0))
    motion = likely_motion(old, new, WITHIN_MM)
    assert np.array_equal(motion.turn, np.round(turn))
    assert motion.shift_mm == pytest.approx((7.0, -3.0, 12.0), abs=1e-9)


@pytest.mark.parametrize(
    ("axis", "deg"), [((1, 2, 3), 37.0), ((0, 0, 1), 10.0), ((1, -1, 0.2), 163.0)]
)
def test_any_turn_is_found_though_the_mesh_is_another(grips, axis, deg):
    old, other = grips
    turn = Rotation.from_rotvec(np.radians(deg) * np.array(axis) / np.linalg.norm(axis)).as_matrix()
    new = laid_otherwise(other, turn, (40.0, 5.0, -90.0))
    motion = likely_motion(old, new, WITHIN_MM)
    off = RigidMotion(motion.turn @ turn.T, np.zeros(3))
    assert off.turn_deg < 0.1
    assert motion.turn_deg == pytest.approx(deg, abs=0.1)
    middle = old.box_mm.mean(axis=0)
    assert motion.of_points(middle) == pytest.approx(turn @ middle + (40.0, 5.0, -90.0), abs=0.05)


def test_a_turned_part_that_was_changed_is_found_too():
    old = bracket()
    changed = joined(bracket(), box((5, 5, 9.5), (15, 30, 18)))
    turn = Rotation.from_euler("x", 90.0, degrees=True).as_matrix()
    motion = likely_motion(old, laid_otherwise(changed, turn, (1.0, 2.0, 3.0)), WITHIN_MM)
    assert motion.turn_deg == pytest.approx(90.0, abs=1e-6)
    assert motion.shift_mm == pytest.approx((1.0, 2.0, 3.0), abs=1e-6)


@pytest.mark.parametrize(
    "new",
    [
        bracket(),
        joined(box((0, 0, 0), (60, 40, 10)), box((4, 28, 9.5), (15, 35, 30))),  # block moved
        joined(bracket(), box((5, 5, 9.5), (15, 30, 18))),  # something new
        box((0, 0, 0), (66, 40, 10)),  # grown, and the block gone
    ],
)
def test_what_lies_as_before_is_left_there_though_it_was_changed(new):
    assert likely_motion(bracket(), new, WITHIN_MM) is STILL


@pytest.mark.parametrize(
    "mesh", [cube(20.0), sphere(10.0, 4), torus(20.0, 5.0, 48, 72), cylinder(8.0, 30.0)]
)
def test_turns_that_carry_a_part_onto_itself_are_none(mesh):
    turn = Rotation.from_euler("z", 90.0, degrees=True).as_matrix()
    assert likely_motion(mesh, laid_otherwise(mesh, turn, (0, 0, 0)), WITHIN_MM) is STILL
    away = likely_motion(mesh, laid_otherwise(mesh, turn, (3.0, 0.0, 1.0)), WITHIN_MM)
    assert away.turn_deg == 0.0
    assert away.shift_mm == pytest.approx((3.0, 0.0, 1.0), abs=1e-9)


def test_of_turns_that_fit_the_smallest_is_taken():
    """A plate set upright: of four ways it might have been turned, two by 90° and none by 180°."""
    plate = box((-30, -20, -5), (30, 20, 5))
    upright = box((-30, -5, -20), (30, 5, 20))
    motion = likely_motion(plate, upright, WITHIN_MM)
    assert motion.turn_deg == pytest.approx(90.0)
    assert motion.shift_mm == pytest.approx((0.0, 0.0, 0.0), abs=1e-9)


def test_another_part_altogether_is_left_where_it_is():
    assert likely_motion(torus(20.0, 5.0, 48, 72), moved(cube(9.0), (50, 0, 0)), 0.1) is STILL


def test_nothing_comes_of_nothing():
    nothing = Mesh(np.zeros((0, 3)), np.zeros((0, 3), np.int32))
    flat = Mesh(np.zeros((3, 3)), np.array([[0, 1, 2]], np.int32))
    for one, other in ((nothing, cube()), (cube(), nothing), (cube(), flat), (flat, cube())):
        assert likely_motion(one, other, WITHIN_MM) is STILL
