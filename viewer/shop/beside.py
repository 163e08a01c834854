"""What pieces add to a print when they stand beside the part: their time, material and money.

Each is reckoned by itself, but for the start of the machine, which happens once. Layers that both
have may save a change of material or a wait; that is left out, so the sum is on the safe side.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import msgspec

from viewer.errors import RequestProblem
from viewer.shop.calibrate import Calibrations, corrected
from viewer.shop.job_layers import JobLayers
from viewer.shop.print_job import Beside, Estimate, PrintJob, estimate
from viewer.shop.ranges import Range

PART_KEY = "beside"  # of `Estimate.time_parts_s`


class BesidePiece(NamedTuple):
    """A piece by its layers; printed_full : it takes no supports, and what is of the support's
    material is printed full
    """

    name: str
    layers: JobLayers
    printed_full: bool = False


def full_job(job: PrintJob) -> PrintJob:
    """The job for bodies that take no supports, those of the support's material printed full."""
    pair = msgspec.structs.replace(job.pair, support_density=1.0, contact_layers=0)
    materials = job.materials._replace(contact=job.materials.support_body)
    return replace(job, pair=pair, materials=materials)


def with_beside(
    made: Estimate, job: PrintJob, known: Calibrations, pieces: Sequence[BesidePiece]
) -> Estimate:
    """The estimate of a part, corrected, with the pieces that stand beside it in all its sums.

    known : what finished prints on that machine correct. A piece that the machine cannot print is
    named in `Beside.left_out`.
    """
    job, none = replace(job, copies=1), Range(0.0, 0.0, 0.0)
    told, left_out, time_s, cost, changes = [], [], none, none, none
    kinds, by_name = dict.fromkeys(("model_g", "support_g", "purge_g"), none), {}
    for piece in pieces:
        try:
            own = estimate(piece.layers, full_job(job) if piece.printed_full else job)
        except RequestProblem:
            left_out.append(piece.name)
            continue
        own = _without_start(own, job)
        own = corrected(own, known, job.machine.hourly_rate)
        told.append(piece.name)
        time_s, cost = time_s.plus(own.time_s), cost.plus(own.cost)
        changes = changes.plus(own.tool_changes)
        kinds = {kind: grams.plus(getattr(own, kind)) for kind, grams in kinds.items()}
        for name, grams in own.material_g.items():
            by_name[name] = by_name.get(name, none).plus(grams)
    beside = Beside(tuple(told), tuple(left_out), time_s, cost, _whole(by_name))
    return replace(
        made,
        time_s=made.time_s.plus(time_s),
        time_parts_s=made.time_parts_s | ({PART_KEY: time_s.likely} if told else {}),
        cost=made.cost.plus(cost),
        material_g={
            name: made.material_g.get(name, none).plus(by_name.get(name, none))
            for name in made.material_g | by_name
        },
        tool_changes=made.tool_changes.plus(changes),
        estimated_s=made.estimated_s + time_s.likely,
        estimated_g=made.estimated_g + beside.mass_g.likely,
        beside=beside,
        **{kind: getattr(made, kind).plus(grams) for kind, grams in kinds.items()},
    )


def _without_start(own: Estimate, job: PrintJob) -> Estimate:
    start_s = min(job.machine.start_s, own.time_s.low)
    money = start_s / 3600.0 * job.machine.hourly_rate
    return replace(
        own,
        time_s=Range(*(each - start_s for each in own.time_s)),
        cost=Range(*(max(each - money, 0.0) for each in own.cost)),
    )


def _whole(grams: dict[str, Range]) -> Range:
    whole = Range(0.0, 0.0, 0.0)
    for each in grams.values():
        whole = whole.plus(each)
    return whole
