"""Time, material, money and tool changes of a pose on a machine, as ranges.

Three runs over the layers with low, likely and high assumptions (`layer_work.Assumptions`) make
the range. Height, volume and support volume dominate time, and estimates from such numbers are
rough (Medina-Sánchez et al. 2019, Materials 12(23):3982; READ): hence a range, which finished
prints make narrower (`calibrate`).
"""

from dataclasses import dataclass, field, replace

import msgspec
import numpy as np

from viewer.errors import RequestProblem
from viewer.shop.extrusion import mass_g
from viewer.shop.job_layers import JobLayers
from viewer.shop.layer_work import (
    HIGH,
    LIKELY,
    LOW,
    NOTHING_MM2,
    Assumptions,
    LayerAreas,
    filled_areas,
    road_seconds,
)
from viewer.shop.machines import Machine, nozzle_for
from viewer.shop.materials import Material
from viewer.shop.motion import move_time_s
from viewer.shop.pairs import Pair
from viewer.shop.processes import Order, Process
from viewer.shop.purging import Purging, purging_of
from viewer.shop.ranges import Range
from viewer.shop.shop import PairMaterials
from viewer.shop.tool_changes import ToolChanges, count_tool_changes
from viewer.words import say

PART_NAMES = {
    "walls": "walls",
    "skins": "full layers",
    "fill": "fill",
    "support": "support body",
    "contact": "contact layers",
    "travel": "travel",
    "waiting": "waiting for layers to set",
    "changes": "tool changes",
    "purge": "purging",
    "start": "start and layer changes",
    "beside": "test pieces beside the part",
}
_BETWEEN_COPIES_MM = 50.0


@dataclass(frozen=True)
class PrintJob:
    """What is asked: machine, pair and its materials, process, road width, number of copies."""

    machine: Machine
    pair: Pair
    materials: PairMaterials
    process: Process = field(default_factory=lambda: Process(name="Usual"))
    road_mm: float = 0.42
    copies: int = 1


@dataclass(frozen=True)
class Beside:
    """What pieces beside the part take, which the sums of an Estimate hold.

    names : of the pieces counted; left_out : of those that the machine cannot print
    """

    names: tuple[str, ...]
    left_out: tuple[str, ...]
    time_s: Range
    cost: Range
    mass_g: Range


@dataclass(frozen=True, eq=False)
class Estimate:
    """What a print takes; ranges are low, likely, high.

    time_parts_s : likely seconds of each part of the work, keys as in PART_NAMES
    material_g : by name of material, everything that is fed of it
    model_g, support_g, purge_g : in the part, in supports, purged; waste_g : the last two
    layer_s : (k,) float64, likely time of each layer; changes_by_layer : (k,) int32
    purge_body_mm : what stands beside the part (width, depth, height), zeros where nothing does
    dominates : one sentence that says what takes most time and what makes the range wide
    estimated_s, estimated_g : likely time and mass before finished prints corrected them
    beside : pieces that are counted with it, None where none stand beside the part; `layer_s` and
        `changes_by_layer` are of the part alone
    """

    machine: str
    pair: str
    copies: int
    time_s: Range
    time_parts_s: dict[str, float]
    material_g: dict[str, Range]
    model_g: Range
    support_g: Range
    purge_g: Range
    cost: Range
    currency: str
    tool_changes: Range
    layer_s: np.ndarray
    changes_by_layer: np.ndarray
    purge_body_mm: tuple[float, float, float]
    dominates: str
    estimated_s: float
    estimated_g: float
    beside: Beside | None = None

    @property
    def waste_g(self) -> Range:
        """Supports and what is purged."""
        return self.support_g.plus(self.purge_g)


@dataclass(frozen=True, eq=False)
class _Run:
    """One run over the layers with one set of assumptions."""

    parts_s: dict[str, float]
    layer_s: np.ndarray
    grams: dict[str, np.ndarray]  # of model, support, purge, by material
    changes: ToolChanges
    body_mm: tuple[float, float, float]

    @property
    def time_s(self) -> float:
        return sum(self.parts_s.values())


def why_not_printable(machine: Machine, pair: Pair) -> str:
    """Why a machine cannot print a pair, "" where it can."""
    needed = pair.materials
    if len(needed) <= machine.materials:
        return ""
    loaded = (
        say("1 material")
        if machine.materials == 1
        else say("{count} materials", count=machine.materials)
    )
    return say(
        "“{pair}” needs {count} materials ({names}), and “{machine}” is loaded with {loaded}.",
        pair=say(pair.name),
        count=len(needed),
        names=", ".join(needed),
        machine=say(machine.name),
        loaded=loaded,
    )


def changes_by_order(layers: JobLayers, job: PrintJob) -> dict[Order, ToolChanges]:
    """The tool changes of both orders, which no machine changes; see `estimate`."""
    if not (layers.support_mm2 > NOTHING_MM2).any():
        job = _without_supports(job)
    return {order: _changes(layers, job, order) for order in ("alternating", "fixed")}


def estimate(
    layers: JobLayers, job: PrintJob, by_order: dict[Order, ToolChanges] | None = None
) -> Estimate:
    """What it takes to print `layers` as `job` says.

    by_order : from `changes_by_order`, if they are known from another machine
    Raises RequestProblem if the machine cannot take that many materials.
    """
    if not (layers.support_mm2 > NOTHING_MM2).any():
        job = _without_supports(job)
    if problem := why_not_printable(job.machine, job.pair):
        raise RequestProblem(
            say("{problem} Choose another machine or another pair.", problem=problem)
        )
    if not 1 <= job.copies <= 10_000:
        raise RequestProblem(say("The number of copies must lie between 1 and 10000."))
    by_order = by_order or changes_by_order(layers, job)
    fewest = min(by_order.values(), key=lambda changes: changes.count)
    most = max(by_order.values(), key=lambda changes: changes.count)
    spread = 2.0 * layers.support_error
    low = LOW._replace(support=max(LOW.support - spread, 0.0))
    high = HIGH._replace(support=HIGH.support + spread)
    runs = (
        _run(layers, job, fewest, low),
        _run(layers, job, by_order[job.process.order], LIKELY),
        _run(layers, job, most, high),
    )
    return _summed(job, runs)


def _without_supports(job: PrintJob) -> PrintJob:
    """The same job, for which the material of the model is enough."""
    name = job.pair.model
    pair = msgspec.structs.replace(job.pair, support_body=name, contact=name)
    return replace(job, pair=pair, materials=PairMaterials(*(job.materials.model,) * 3))


def _changes(layers: JobLayers, job: PrintJob, order: Order) -> ToolChanges:
    names = job.pair.materials
    contact = layers.contact_mm2(job.pair.contact_layers)
    uses = np.zeros((len(layers.area_mm2), len(names)), bool)
    for material, area in zip(
        job.materials, (layers.area_mm2, layers.support_mm2 - contact, contact), strict=True
    ):
        uses[:, names.index(material.name)] |= area > NOTHING_MM2
    places = list(range(len(names)))
    # In fixed order supports come first, so that the part is printed on what is there.
    return count_tool_changes(uses, order, places if order == "alternating" else places[::-1])


def _run(layers: JobLayers, job: PrintJob, changes: ToolChanges, assumed: Assumptions) -> _Run:
    machine, names = job.machine, job.pair.materials
    nozzles = tuple(names.index(material.name) for material in job.materials)
    areas = filled_areas(layers, job.pair, job.process, job.road_mm, assumed.support)
    seconds = road_seconds(
        layers, areas, machine, job.materials, nozzles, job.process, job.road_mm, assumed
    )
    seconds = {name: each * job.copies for name, each in seconds.items()}
    if job.copies > 1:
        hop_s = float(move_time_s(_BETWEEN_COPIES_MM, machine.travel_mm_s,
                                  machine.acceleration_mm_s2))  # fmt: skip
        seconds["travel"] = seconds["travel"] + job.copies * hop_s
    purging = purging_of(changes, machine, layers.layer_mm)
    seconds["changes"] = changes.by_layer * machine.tool_change_s * assumed.change
    seconds["purge"] = _purge_seconds(purging, job) * assumed.change
    busy = np.sum(list(seconds.values()), axis=0)
    seconds["waiting"] = np.maximum(_least_seconds(layers, job) - busy, 0.0)
    layer_s = busy + seconds["waiting"] + machine.layer_change_s
    parts = {name: float(each.sum()) for name, each in seconds.items()}
    parts["start"] = machine.start_s + machine.layer_change_s * len(busy)
    grams = _grams(layers, job, areas, purging, assumed)
    return _Run(parts, layer_s, grams, changes, purging.body_mm)


def _purge_seconds(purging: Purging, job: PrintJob) -> np.ndarray:
    """(k,) time of pushing out what is purged, as fast as nozzle and material let it through."""
    seconds = np.zeros(len(purging.filler_mm3))
    for place, name in enumerate(job.pair.materials):
        material = next(each for each in job.materials if each.name == name)
        flow = _flow_limit_mm3_s(job.machine, place, material)
        seconds += purging.purged_mm3[:, place] / flow
    return seconds + purging.filler_mm3 / _flow_limit_mm3_s(job.machine, 0, job.materials.model)


def _flow_limit_mm3_s(machine: Machine, place: int, material: Material) -> float:
    return min(nozzle_for(machine, place).flow_limit_mm3_s, material.flow_limit_mm3_s)


def _least_seconds(layers: JobLayers, job: PrintJob) -> np.ndarray:
    """(k,) the shortest time of a layer, by the slowest to set of the materials in it."""
    model, body, _ = job.materials
    part = np.where(layers.area_mm2 > NOTHING_MM2, model.min_layer_s, 0.0)
    support = np.where(layers.support_mm2 > NOTHING_MM2, body.min_layer_s, 0.0)
    return np.maximum(part, support)


def _grams(
    layers: JobLayers, job: PrintJob, areas: LayerAreas, purging: Purging, assumed: Assumptions
) -> dict[str, np.ndarray]:
    """Grams in the model, in supports and purged, each by material in the order of the pair."""
    names = job.pair.materials
    each = layers.layer_mm * job.copies * assumed.flow
    density = [next(m for m in job.materials if m.name == n).density_g_cm3 for n in names]
    grams = {kind: np.zeros(len(names)) for kind in ("model", "support", "purge")}
    for kind, area, material in zip(
        ("model", "support", "support"),
        (areas.model_mm2, areas.support_mm2, areas.contact_mm2),
        job.materials,
        strict=True,
    ):
        volume = float(area.sum()) * each
        grams[kind][names.index(material.name)] += mass_g(volume, material.density_g_cm3)
    purged = purging.purged_mm3.sum(axis=0) * assumed.change
    purged[0] += purging.filler_mm3.sum()
    grams["purge"] += mass_g(1.0, 1.0) * purged * np.array(density)
    return grams


def _summed(job: PrintJob, runs: tuple[_Run, _Run, _Run]) -> Estimate:
    names, likely = job.pair.materials, runs[1]
    price = [next(m for m in job.materials if m.name == n).price_per_kg for n in names]
    whole = [sum(run.grams.values()) for run in runs]
    money = [
        float(grams @ price) / 1000.0 + run.time_s / 3600.0 * job.machine.hourly_rate
        for grams, run in zip(whole, runs, strict=True)
    ]
    kinds = {k: Range.of(*(float(run.grams[k].sum()) for run in runs)) for k in likely.grams}
    return Estimate(
        machine=job.machine.name,
        pair=job.pair.name,
        copies=job.copies,
        time_s=Range.of(*(run.time_s for run in runs)),
        time_parts_s=likely.parts_s,
        material_g={n: Range.of(*(float(g[i]) for g in whole)) for i, n in enumerate(names)},
        model_g=kinds["model"],
        support_g=kinds["support"],
        purge_g=kinds["purge"],
        cost=Range.of(*money),
        currency=job.machine.currency,
        tool_changes=Range.of(*(run.changes.count for run in runs)),
        layer_s=likely.layer_s,
        changes_by_layer=likely.changes.by_layer,
        purge_body_mm=likely.body_mm,
        dominates=_dominates(runs),
        estimated_s=likely.time_s,
        estimated_g=float(whole[1].sum()),
    )


def _dominates(runs: tuple[_Run, _Run, _Run]) -> str:
    """What takes the largest part of the time, and what makes the range as wide as it is."""
    low, likely, high = (run.parts_s for run in runs)
    largest = max(likely, key=lambda name: likely[name])
    share = 100.0 * likely[largest] / max(sum(likely.values()), 1e-9)
    widest = max(likely, key=lambda name: abs(high[name] - low[name]))
    return say(
        "Most time goes into {part}, {share:.0f} %; the range is as wide as it is most of all "
        "through {widest}.",
        part=say(PART_NAMES[largest]),
        share=share,
        widest=say(PART_NAMES[widest]),
    )
