"""The same pose on every machine, and in every pair for its material: what each of them takes."""

from dataclasses import dataclass

import msgspec

from viewer.errors import RequestProblem
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.shop.calibrate import FinishedPrint, calibrate_prints, corrected
from viewer.shop.comparing import Difference, difference
from viewer.shop.fit import Fit
from viewer.shop.job_layers import layers_of
from viewer.shop.job_numbers import JobNumbers
from viewer.shop.pairs import Pair
from viewer.shop.print_job import Estimate, PrintJob, estimate, why_not_printable
from viewer.shop.shop import Shop
from viewer.words import say


@dataclass(frozen=True, eq=False)
class Offer:
    """One way to print the pose.

    machine, pair : names; known : whether the shop has such a pair
    made : None where it cannot be printed, and problem says why
    fit : None where it was not looked at
    against : what it takes more than what is chosen, None for that itself
    """

    machine: str
    pair: str
    known: bool
    made: Estimate | None
    problem: str = ""
    fit: Fit | None = None
    against: Difference | None = None


def machine_offers(numbers: JobNumbers, shop: Shop) -> tuple[Offer, ...]:
    """The chosen pair on every machine, the chosen machine first."""
    chosen, own = numbers.chosen.machine, numbers.estimate
    rest = [machine for machine in shop.machines if machine.name != chosen.name]
    found = []
    for machine in (chosen, *rest):
        made = numbers.estimates.get(machine.name)
        problem = "" if made is not None else why_not_printable(machine, numbers.chosen.pair)
        against = difference(own, made) if own and made and made is not own else None
        fit = numbers.fits[machine.name]
        pair = numbers.chosen.pair.name
        found.append(Offer(machine.name, pair, True, made, problem, fit, against))
    return tuple(found)


def pair_offers(
    numbers: JobNumbers,
    measures: PoseMeasures,
    settings: PrintSettings,
    shop: Shop,
    prints: tuple[FinishedPrint, ...],
    progress: Progress,
) -> tuple[Offer, ...]:
    """Every pair for the part's material, the chosen first, on the chosen machine where it can.

    Otherwise on the first machine that can.
    Of a pair whose support is of another material there are both: only its contact layers of it,
    and the whole support. Raises Cancelled.
    """
    process, layers = numbers.chosen.process, layers_of(measures)
    machines = (numbers.chosen.machine, *shop.machines)
    copies = numbers.estimate.copies if numbers.estimate else 1
    found = []
    for pair, of_shop in _pairs(numbers.chosen.pair, shop):
        progress.check()
        able = (each for each in machines if not why_not_printable(each, pair))
        machine = next(able, machines[0])
        try:
            job = PrintJob(
                machine, pair, shop.materials_of(pair), process, settings.road_mm, copies
            )
            known = calibrate_prints(prints, machine.name)
            made = corrected(estimate(layers, job), known, machine.hourly_rate)
        except RequestProblem as problem:
            found.append(Offer(machine.name, pair.name, of_shop, None, str(problem)))
            continue
        own = found[0].made if found else None
        against = difference(own, made) if own is not None else None
        found.append(Offer(machine.name, pair.name, of_shop, made, against=against))
    return tuple(found)


def _pairs(chosen: Pair, shop: Shop) -> list[tuple[Pair, bool]]:
    others = [pair for pair in shop.pairs_of(chosen.model) if pair.name != chosen.name]
    found = [(chosen, True), *((pair, True) for pair in others)]
    for made in _variants(chosen):
        if all(_alike(made) != _alike(pair) for pair, _ in found):
            found.append((made, False))
    return found


def _variants(pair: Pair) -> list[Pair]:
    """Only the contact layers of the other material, and the whole support."""
    other = pair.contact if pair.contact != pair.model else pair.support_body
    if other == pair.model:
        return []
    layers = max(pair.contact_layers, 1)
    changed = msgspec.structs.replace
    return [
        changed(pair, name=say("{model}, {other} contact layers", model=pair.model, other=other),
                support_body=pair.model, contact=other, contact_layers=layers),
        changed(pair, name=say("{model}, whole support of {other}", model=pair.model, other=other),
                support_body=other, contact=other, contact_layers=layers),
    ]  # fmt: skip


def _alike(pair: Pair) -> tuple[str, str, str]:
    return pair.model, pair.support_body, pair.contact if pair.contact_layers else pair.support_body
