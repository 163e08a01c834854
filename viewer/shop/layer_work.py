"""The work of each layer: what is laid in walls, skins, fill and supports, and how long it takes.

A layer of area A and perimeter P with n walls of road width w:

    walls   min(n·w·P, A)
    inside  what is left, full in `skin_layers` layers next to where the inside ends below or above
            (told from the areas alone, so a little too few under slopes that wander), else filled
            in part

An area is laid in roads of section R: length = area · t / R. Roads of a fill run from wall to wall;
their mean length is that of the chords of the section, π·A/P (Crofton; Santaló, Integral Geometry
and Geometric Probability, MEM), and each of them starts and ends at rest.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from viewer.shop.extrusion import fed_speed_mm_s, road_area_mm2
from viewer.shop.job_layers import JobLayers
from viewer.shop.machines import Machine, nozzle_for
from viewer.shop.materials import Material
from viewer.shop.motion import pace_s_mm
from viewer.shop.pairs import Pair
from viewer.shop.processes import Process

NOTHING_MM2 = 1e-6


class Assumptions(NamedTuple):
    """What the layers do not tell; all of it common practice, no source.

    corner_mm : length of outline between two corners at which the head nearly stops
    travel_share : travel without printing for each mm of road
    flow : what is laid for what is meant to be laid
    change : time and purge of a change for what the machine says
    support : support volume for what was measured
    """

    corner_mm: float
    travel_share: float
    flow: float
    change: float
    support: float


LOW = Assumptions(30.0, 0.04, 0.97, 0.85, 0.9)
LIKELY = Assumptions(8.0, 0.10, 1.0, 1.0, 1.0)
HIGH = Assumptions(2.0, 0.25, 1.04, 1.25, 1.15)


@dataclass(frozen=True, eq=False)
class LayerAreas:
    """Areas (k,) float64 that are filled in each layer, densities taken into account."""

    walls_mm2: np.ndarray
    skins_mm2: np.ndarray
    fill_mm2: np.ndarray
    support_mm2: np.ndarray
    contact_mm2: np.ndarray

    @property
    def model_mm2(self) -> np.ndarray:
        """(k,) float64, of the part."""
        return self.walls_mm2 + self.skins_mm2 + self.fill_mm2


def filled_areas(
    layers: JobLayers, pair: Pair, process: Process, road_mm: float, support: float = 1.0
) -> LayerAreas:
    """What is filled in each layer; `support` multiplies the support's areas."""
    walls = np.minimum(process.walls * road_mm * layers.perimeter_mm, layers.area_mm2)
    walls = np.maximum(walls, 0.0)
    inside = np.maximum(layers.area_mm2 - walls, 0.0)
    sparse = _lowest_within(inside, process.skin_layers)
    contact = layers.contact_mm2(pair.contact_layers)
    body = layers.support_mm2 - contact
    return LayerAreas(
        walls,
        inside - sparse,
        sparse * process.fill_density,
        body * pair.support_density * support,
        contact * pair.contact_density * support,
    )


def _lowest_within(values: np.ndarray, reach: int) -> np.ndarray:
    """(k,) the lowest of each value and its `reach` neighbours on both sides; none lie beyond."""
    lowest = values.copy()
    for step in range(1, min(reach, len(values)) + 1):
        lowest[step:] = np.minimum(lowest[step:], values[:-step])
        lowest[:step] = 0.0
        lowest[:-step] = np.minimum(lowest[:-step], values[step:])
        lowest[-step:] = 0.0
    return lowest


def road_seconds(
    layers: JobLayers,
    areas: LayerAreas,
    machine: Machine,
    materials: tuple[Material, Material, Material],
    nozzles: tuple[int, int, int],
    process: Process,
    road_mm: float,
    assumed: Assumptions,
) -> dict[str, np.ndarray]:
    """(k,) float64 seconds of each kind of work: walls, skins, fill, support, contact, travel.

    materials : of the model, the support body and the contact layers; nozzles : place of each
    """
    section, layer_mm = road_area_mm2(road_mm, layers.layer_mm), layers.layer_mm
    perimeter = np.maximum(layers.perimeter_mm, 1e-9)
    chord = np.maximum(np.pi * layers.area_mm2 / perimeter, assumed.corner_mm)
    across = np.maximum(np.pi / 4 * np.sqrt(layers.support_mm2), assumed.corner_mm)
    kinds = (
        ("walls", areas.walls_mm2, 0, process.wall_mm_s, np.float64(assumed.corner_mm)),
        ("skins", areas.skins_mm2, 0, process.fill_mm_s, chord),
        ("fill", areas.fill_mm2, 0, process.fill_mm_s, chord),
        ("support", areas.support_mm2, 1, process.support_mm_s, across),
        ("contact", areas.contact_mm2, 2, process.support_mm_s, across),
    )
    acceleration = machine.acceleration_mm_s2
    seconds, travel = {}, np.zeros(len(chord))
    for name, area, which, wanted_mm_s, move_mm in kinds:
        limits = (
            nozzle_for(machine, nozzles[which]).flow_limit_mm3_s,
            materials[which].flow_limit_mm3_s,
        )
        speed = np.full(len(chord), fed_speed_mm_s(wanted_mm_s, section, *limits))
        speed[:1] = np.minimum(speed[:1], process.first_layer_mm_s)
        length = area * layer_mm / section
        seconds[name] = length * pace_s_mm(move_mm, speed, acceleration)
        away = across if which else chord
        travel += length * assumed.travel_share * pace_s_mm(away, machine.travel_mm_s, acceleration)
    seconds["travel"] = travel
    return seconds
