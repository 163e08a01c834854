"""All that the shop says about a pose against the 50 ms it may take after a full measure."""

from dataclasses import dataclass

import msgspec
import numpy as np

from tests.speed.timing import row, seconds
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.shop.job_numbers import job_numbers
from viewer.shop.machines import Machine
from viewer.shop.shop import Shop, example_shop
from viewer.shop.shop_choice import ShopChoice

LIMIT_S = 0.050
LAYERS = 2000


@dataclass(frozen=True, eq=False)
class ShopCase:
    """A part and its classes; `Case` of the other rows is one."""

    part: PreparedPart
    classes: np.ndarray


def shop(case: ShopCase) -> list[dict]:
    """Two materials on the four machines of the start set, and on four that are too small."""
    pose = Pose((0.3, -0.4, 0.8), 17.0)
    height = measure_pose(case.part, case.classes, pose, PrintSettings(), "quick").height_mm
    settings = PrintSettings(layer_mm=max(height / LAYERS, 0.01))
    measures = measure_pose(case.part, case.classes, pose, settings)
    examples, rows = example_shop(), []
    small = tuple(_smaller(machine, 0.3 * height) for machine in examples.machines)
    for name, machines in (("shop numbers", examples.machines), ("where nothing fits", small)):
        asked = Shop(machines, examples.materials, examples.pairs, examples.processes)
        given = (case.part.mesh, case.classes, pose, settings, measures, asked)
        choice = ShopChoice(pair="PLA with PVA")
        job_numbers(*given, choice)  # finds the hull, which goes with the part
        took = seconds(lambda given=given, choice=choice: job_numbers(*given, choice), 5)
        told = f"limit for {len(machines)} machines and {measures.layers} layers"
        rows.append(row(name, len(case.part.faces), took, told, LIMIT_S, 1))
    return rows


def _smaller(machine: Machine, side_mm: float) -> Machine:
    """The machine with a platform that is too small by far, but high enough."""
    half, high = side_mm / 2, machine.build_volume_mm[2]
    nozzles = tuple(
        msgspec.structs.replace(
            nozzle, reach_low_mm=(-half, -half, 0.0), reach_high_mm=(half, half, high)
        )
        for nozzle in machine.nozzles
    )
    return msgspec.structs.replace(
        machine, build_volume_mm=(side_mm, side_mm, high), nozzles=nozzles, forbidden=()
    )
