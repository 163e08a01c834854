"""What sticks out of the reach of which nozzle, against closed forms on a bracket."""

import numpy as np
import pytest

from tests.shapes import c_bracket
from tests.shop.made_jobs import ALONE, CONTACT, MATERIALS, WHOLE, machine
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.shop.copies import Outline
from viewer.shop.job_numbers import job_numbers
from viewer.shop.machine_answer import MachineRequest
from viewer.shop.machines import Nozzle
from viewer.shop.processes import Process
from viewer.shop.shop import Shop
from viewer.shop.shop_choice import ShopChoice

WIDE = {"reach_low_mm": (-100.0, -100.0, 0.0), "reach_high_mm": (100.0, 100.0, 200.0)}
# No spin brings the support, 35 × 20, into a strip of 10.
STRIP = {"reach_low_mm": (-5.0, -100.0, 0.0), "reach_high_mm": (5.0, 100.0, 200.0)}
LOW = {"reach_low_mm": (-100.0, -100.0, 0.0), "reach_high_mm": (100.0, 100.0, 12.0)}


def answer(pair, support_reach, beside=(), copies=1):
    mesh, settings = c_bracket(), PrintSettings()
    classes = np.zeros(mesh.face_count, np.uint8)
    measures = measure_pose(prepare_part(mesh), classes, Pose(), settings, columns=True)
    nozzles = Nozzle(name="model", **WIDE), Nozzle(name="support", **support_reach)
    shop = Shop(
        (machine(nozzles=nozzles),), tuple(MATERIALS.values()), (ALONE, WHOLE, CONTACT),
        (Process(name="Usual"),),
    )  # fmt: skip
    numbers = job_numbers(
        mesh, classes, Pose(), settings, measures, shop, ShopChoice(pair=pair.name)
    )  # fmt: skip
    request = MachineRequest(mesh, Pose(), numbers, copies, measures.columns, 0.2, beside)
    return request.answer(Progress())


def length_mm(lines):
    return float(np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).sum())


@pytest.mark.parametrize(
    ("pair", "height_mm"),
    # The whole support is 20 high; of the contact layers there are three of 0.2.
    [(WHOLE, 20.0), (CONTACT, 0.6)],
)
def test_a_support_is_outlined_where_it_leaves_the_reach_of_its_own_nozzle(pair, height_mm):
    """CALC: two sides of the strip cut the support, each in a rectangle 20 wide."""
    found = answer(pair, STRIP)
    (out,) = found.outside  # the part is within reach of its nozzle, and so is a body of its own
    assert (out.what, out.nozzle) == ("support", "support")
    assert length_mm(out.outline_mm) == pytest.approx(2 * 2 * (20.0 + height_mm), rel=1e-3)
    assert np.abs(out.outline_mm[..., 0]) == pytest.approx(5.0, abs=0.01)
    assert np.abs(out.hatch_mm[..., 0]).min() >= 5.0 - 0.01


def test_a_support_that_is_too_high_for_its_nozzle_is_outlined_at_that_height():
    """CALC: cut level at 12 mm in a rectangle of 35 × 20."""
    (out,) = answer(WHOLE, LOW).outside
    assert length_mm(out.outline_mm) == pytest.approx(2 * (35.0 + 20.0), rel=1e-3)
    assert out.outline_mm[..., 2] == pytest.approx(12.0)


def test_nothing_is_outlined_where_all_is_in_reach():
    assert answer(WHOLE, WIDE).outside == ()
    assert answer(ALONE, STRIP).outside == ()


def test_pieces_of_one_material_stand_where_its_nozzle_reaches():
    square = 15.0 * np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])
    plan = answer(ALONE, STRIP, (Outline("fan", square, 10.0, (0,)),), 2).plan
    assert plan.problem == ""
    assert len(plan.outlines_mm) == 2
    both = answer(ALONE, STRIP, (Outline("release", square, 10.0),), 2).plan
    assert "do not find room" in both.problem
