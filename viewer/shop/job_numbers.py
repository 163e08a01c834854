"""Everything the shop says about one pose: what it takes, where it fits, what to mind."""

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.mesh import Mesh
from viewer.geometry.outer_corners import mark_corners, span_along
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.shop.beside import BesidePiece, with_beside
from viewer.shop.calibrate import FinishedPrint, calibrate_prints, corrected
from viewer.shop.cautions import Caution, cautions_for
from viewer.shop.comparing import Difference, difference
from viewer.shop.fit import Fit, fit_machine
from viewer.shop.job_layers import JobLayers, layers_of
from viewer.shop.looked import Looked, Risk
from viewer.shop.machines import Machine
from viewer.shop.outline import PoseOutline, outline_of
from viewer.shop.pairs import Pair
from viewer.shop.print_job import (
    Estimate,
    PrintJob,
    changes_by_order,
    estimate,
    why_not_printable,
)
from viewer.shop.processes import Process
from viewer.shop.risk import find_risks
from viewer.shop.shop import PairMaterials, Shop
from viewer.shop.shop_choice import ShopChoice
from viewer.shop.turning_hull import turned_mm


class Chosen(NamedTuple):
    """The things themselves."""

    machine: Machine
    pair: Pair
    materials: PairMaterials
    process: Process


@dataclass(frozen=True, eq=False)
class JobNumbers:
    """The numbers of one pose for one choice.

    estimate : None where the chosen machine cannot print the pair; `problem` says why
    fits : by name of machine, every machine of the shop
    shop_problems : sentences about files of the shop that were left aside
    foot_mm : (k, 2) float64, outline of the part at its spin, about the middle of its box
    estimates : by name, of every machine that can print it
    others : by name, what other machines that can print it take more or less
    """

    chosen: Chosen
    estimate: Estimate | None
    problem: str
    fits: dict[str, Fit]
    others: dict[str, Difference]
    risks: tuple[Risk, ...]
    cautions: tuple[Caution, ...]
    shop_problems: tuple[str, ...]
    foot_mm: np.ndarray
    estimates: dict[str, Estimate]


def choose(shop: Shop, choice: ShopChoice) -> Chosen:
    """The things a choice names; without a name the first, of machines the first for the pair.

    Raises RequestProblem for a name that is not there and for a shop without any.
    """
    pair = shop.pair(choice.pair) if choice.pair or not shop.pairs else shop.pairs[0]
    process = (
        shop.process(choice.process) if choice.process or not shop.processes else shop.processes[0]
    )
    if choice.machine or not shop.machines:
        machine = shop.machine(choice.machine)
    else:
        able = [each for each in shop.machines if not why_not_printable(each, pair)]
        machine = (able or shop.machines)[0]
    return Chosen(machine, pair, shop.materials_of(pair), process)


def job_numbers(
    mesh: Mesh,
    face_classes: np.ndarray,
    pose: Pose,
    settings: PrintSettings,
    measures: PoseMeasures,
    shop: Shop,
    choice: ShopChoice = ShopChoice(),  # noqa: B008 -- a frozen value
    prints: tuple[FinishedPrint, ...] = (),
    progress: Progress | None = None,
    beside: tuple[BesidePiece, ...] = (),
) -> JobNumbers:
    """All numbers of the shop for a pose that was measured.

    face_classes : (m,) uint8; measures : of the full tier for that pose and these settings
    prints : finished prints, which correct the estimate; beside : what is printed with the part
    Raises RequestProblem for names that are not there, and if the layers are not measured;
    Cancelled.
    """
    progress = progress or Progress()
    chosen = choose(shop, choice)
    progress.check()
    layers, outline = layers_of(measures), outline_of(mesh, pose.up, measures)
    job = PrintJob(
        chosen.machine, chosen.pair, chosen.materials, chosen.process, settings.road_mm,
        choice.copies,
    )  # fmt: skip
    estimates, problems = _estimates(shop, job, layers, prints, beside)
    progress.check()
    fits = {
        machine.name: _fit(machine, chosen.pair, outline, pose, estimates.get(machine.name))
        for machine in shop.machines
    }
    progress.check()
    own = estimates.get(chosen.machine.name)
    others = {}
    if own is not None:
        others = {name: difference(own, e) for name, e in estimates.items() if e is not own}
    looked = Looked(
        measures, chosen.pair, chosen.materials, settings, own, chosen.machine,
        _class_a_mm(mesh, face_classes, pose, outline.lowest_mm), mesh, pose,
    )  # fmt: skip
    return JobNumbers(
        chosen,
        own,
        problems.get(chosen.machine.name, ""),
        fits,
        others,
        find_risks(looked),
        cautions_for(chosen.pair, chosen.materials),
        shop.problems,
        _foot_mm(outline, pose),
        estimates,
    )


def _foot_mm(outline: PoseOutline, pose: Pose) -> np.ndarray:
    corners = turned_mm(outline.part.corners_mm, float(np.radians(pose.spin_deg)))
    return corners - 0.5 * (corners.min(axis=0) + corners.max(axis=0))


def _estimates(
    shop: Shop,
    job: PrintJob,
    layers: JobLayers,
    prints: tuple[FinishedPrint, ...],
    beside: tuple[BesidePiece, ...],
) -> tuple[dict[str, Estimate], dict[str, str]]:
    """By name of machine: the estimate, or why there is none."""
    by_order = changes_by_order(layers, job)
    found, problems = {}, {}
    for machine in shop.machines:
        try:
            made = estimate(layers, replace(job, machine=machine), by_order)
        except RequestProblem as problem:
            problems[machine.name] = str(problem)
            continue
        known = calibrate_prints(prints, machine.name)
        made = corrected(made, known, machine.hourly_rate)
        if beside:
            made = with_beside(made, replace(job, machine=machine), known, beside)
        found[machine.name] = made
    return found, problems


def _fit(
    machine: Machine, pair: Pair, outline: PoseOutline, pose: Pose, made: Estimate | None
) -> Fit:
    body = (0.0, 0.0, 0.0) if made is None else made.purge_body_mm
    return fit_machine(outline, machine, pair, pose.spin_deg, body)


def _class_a_mm(
    mesh: Mesh, face_classes: np.ndarray, pose: Pose, lowest_mm: float
) -> tuple[float, float] | None:
    """Heights between which class A lies, None where nothing is marked."""
    shown = mark_corners(mesh.faces, face_classes == CLASS_A, len(mesh.vertices_mm))
    span = span_along(mesh.vertices_mm, shown, np.asarray(pose.up))
    return None if span is None else (span[0] - lowest_mm, span[1] - lowest_mm)
