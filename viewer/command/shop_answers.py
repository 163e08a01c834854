"""What the shop says about a pose: time, material, money, tool changes, fit, risks, cautions."""

import argparse
from typing import Any

from viewer.command.options import shop_choice
from viewer.document.beside_pieces import reckoned_beside
from viewer.document.state import State
from viewer.errors import RequestProblem
from viewer.files.shop_folder import read_finished_prints, read_user_shop
from viewer.geometry.pose_measures import PoseMeasures
from viewer.shop.fit import Fit
from viewer.shop.job_numbers import JobNumbers, job_numbers
from viewer.shop.print_job import Beside


def shop_numbers(state: State, measures: PoseMeasures, asked: argparse.Namespace) -> JobNumbers:
    """The numbers for what was asked; raises RequestProblem where the machine cannot print it."""
    numbers = job_numbers(
        state.part.mesh,
        state.face_classes,
        state.pose,
        state.settings,
        measures,
        read_user_shop(),
        shop_choice(state.shop_choice, asked),
        read_finished_prints(),
        beside=reckoned_beside(state),
    )
    if numbers.estimate is None:
        raise RequestProblem(numbers.problem)
    return numbers


def with_shop(answer: dict[str, Any], numbers: JobNumbers) -> dict[str, Any]:
    """The answer of `measure` and what the shop adds to it."""
    made, chosen = numbers.estimate, numbers.chosen
    names = {
        "machine": chosen.machine.name,
        "pair": chosen.pair.name,
        "walls_and_fill": chosen.process.name,
    }
    return {
        **answer,
        "process": {**answer["process"], **names},
        "time_s": dict(made.time_s._asdict()),
        "time_parts_s": dict(made.time_parts_s),
        "time_says": made.dominates,
        "material_g": {name: each.likely for name, each in made.material_g.items()},
        "purge_g": made.purge_g.likely,
        "cost": {**made.cost._asdict(), "currency": made.currency},
        "tool_changes": round(made.tool_changes.likely),
        **_beside_answer(made.beside),
        "fits": {name: _fit_answer(fit) for name, fit in numbers.fits.items()},
        "other_machines": [each.sentence for each in numbers.others.values()],
        "risks": [
            {key: value for key, value in risk._asdict().items() if value is not None}
            for risk in numbers.risks
        ],
        "cautions": [caution.text for caution in numbers.cautions],
        "notes": [*answer["notes"], *numbers.shop_problems],
    }


def _beside_answer(beside: Beside | None) -> dict[str, Any]:
    """What stands beside the part, which time, material and cost hold; nothing where none does."""
    if beside is None:
        return {}
    return {
        "beside": {
            "pieces": list(beside.names),
            "left_out": list(beside.left_out),
            "time_s": dict(beside.time_s._asdict()),
            "material_g": beside.mass_g.likely,
            "cost": dict(beside.cost._asdict()),
        }
    }


def _fit_answer(fit: Fit) -> dict[str, Any]:
    return {"fits": fit.fits, "spin_deg": fit.spin_deg, "over_mm": fit.over_mm, "why": fit.why}
