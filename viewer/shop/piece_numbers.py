"""Time, material and money of one piece that is printed by itself: a cut-out or a specimen."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.layer_profile import layer_count, layer_moments
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.shop.beside import full_job
from viewer.shop.calibrate import FinishedPrint, calibrate_prints, corrected
from viewer.shop.job_layers import JobLayers, layers_of
from viewer.shop.job_numbers import Chosen, choose
from viewer.shop.print_job import Estimate, PrintJob, estimate
from viewer.shop.shop import Shop
from viewer.shop.shop_choice import ShopChoice


class LaidBody(NamedTuple):
    """A body as it stands, lowest z of all bodies = 0, in which material of the pair."""

    vertices_mm: np.ndarray
    faces: np.ndarray
    material: str


class Printing(NamedTuple):
    """With what a piece is printed."""

    settings: PrintSettings
    shop: Shop
    choice: ShopChoice
    prints: tuple[FinishedPrint, ...] = ()


@dataclass(frozen=True, eq=False)
class PieceNumbers:
    """What one piece takes, a single copy of it.

    estimate : None where the chosen machine cannot print it; `problem` says why
    touch_a_mm2 : touch on class A in its pose; 0 for specimens, which take no supports
    """

    estimate: Estimate | None
    problem: str
    touch_a_mm2: float = 0.0

    @property
    def mass_g(self) -> float:
        """All material that is likely fed, 0 where nothing is known."""
        made = self.estimate
        return 0.0 if made is None else sum(each.likely for each in made.material_g.values())


def numbers_of_cut(
    mesh: Mesh,
    face_classes: np.ndarray,
    pose: Pose,
    printing: Printing,
    progress: Progress | None = None,
) -> PieceNumbers:
    """The numbers of a piece that takes supports like the whole.

    face_classes : (m,) uint8. Raises RequestProblem for names that are not there, Cancelled.
    """
    progress = progress or Progress()
    prepared = prepare_part(mesh, progress.part(0.0, 0.4))
    measures = measure_pose(
        prepared, face_classes, pose, printing.settings, progress=progress.part(0.4, 0.9)
    )
    made = _estimated(layers_of(measures), choose(printing.shop, printing.choice), printing)
    return PieceNumbers(*made, measures.touch_area_mm2.A)


def numbers_of_bodies(
    bodies: list[LaidBody], printing: Printing, progress: Progress | None = None
) -> PieceNumbers:
    """The numbers of bodies that are printed as they stand, without supports.

    What is of the support's material is printed full. Raises as `numbers_of_cut`.
    """
    progress = progress or Progress()
    chosen = choose(printing.shop, printing.choice)
    layers = layers_of_bodies(bodies, printing.settings.layer_mm, progress)
    return PieceNumbers(*_estimated(layers, chosen, printing, full=True))


def layers_of_bodies(
    bodies: list[LaidBody], layer_mm: float, progress: Progress | None = None
) -> JobLayers:
    """The layers of bodies as they stand, what is of the support's material as support."""
    progress = progress or Progress()
    height = max(float(body.vertices_mm[:, 2].max()) for body in bodies)
    layers = layer_count(height, layer_mm)
    area, support, around = np.zeros((3, layers))
    for body in bodies:
        found = layer_moments(body.vertices_mm, body.faces, layer_mm, 0.0, layers, progress)
        if body.material == "support":
            support += found.area_mm2
        else:
            area += found.area_mm2
            around += found.perimeter_mm
    nothing = frozen(np.zeros(layers))
    area, around, support = (frozen(np.maximum(each, 0.0)) for each in (area, around, support))
    return JobLayers(layer_mm, area, around, support, nothing, nothing)


def _estimated(
    layers: JobLayers, chosen: Chosen, printing: Printing, full: bool = False
) -> tuple[Estimate | None, str]:
    machine = chosen.machine
    job = PrintJob(machine, chosen.pair, chosen.materials, chosen.process,
                   printing.settings.road_mm)  # fmt: skip
    try:
        made = estimate(layers, full_job(job) if full else job)
    except RequestProblem as problem:
        return None, str(problem)
    known = calibrate_prints(printing.prints, machine.name)
    return corrected(made, known, machine.hourly_rate), ""
