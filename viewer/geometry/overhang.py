"""Which faces overhang: undersides flatter than the support limit that do not lie on the platform.

n_z = unit outward normal · build direction; an underside has n_z < 0, and cos α = |n_z| with the
inclination α from horizontal. α < limit − 0.01° is an overhang; a face at the limit holds itself.
On the platform: within 0.1° of straight down, and all corners within 0.001 mm of it.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass
from viewer.geometry.face_rows import FREE_ORDER, areas_by_class, n_z_of_all
from viewer.geometry.point_blocks import height_of
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.turned_part import TurnedPart

LIMIT_TOLERANCE_DEG = 0.01
PLATFORM_ANGLE_DEG = 0.1
PLATFORM_HEIGHT_MM = 0.001

OVERHANG, ON_PLATFORM = 1, 2


@dataclass(frozen=True, eq=False)
class Undersides:
    """What faces down in a pose; areas lie on the surface of the union of all shells.

    kinds : (m,) uint8: OVERHANG, ON_PLATFORM or 0
    overhang_plan_mm2 : (3,) float64, plan area of what overhangs, by class number
    """

    part: PreparedPart
    up: np.ndarray
    kinds: np.ndarray
    overhang_plan_mm2: np.ndarray
    overhang_mm2: ByClass
    platform_contact_mm2: ByClass

    @cached_property
    def n_z(self) -> np.ndarray:
        """(m,) float32, normal · build direction; worked out when first asked for."""
        return n_z_of_all(self.part.rows, self.up)

    @cached_property
    def overhang_share(self) -> np.ndarray:
        """(m,) float32, share of each face's area that overhangs; worked out when asked for."""
        return _share_of(self.kinds, self.part.exposed_share)


def steepest_overhang_n_z(support_limit_deg: float) -> float:
    """n_z below which an underside overhangs; −2, which nothing is below, for a limit of 0°."""
    strict = support_limit_deg - LIMIT_TOLERANCE_DEG
    return -float(np.cos(np.radians(strict))) if strict > 0 else -2.0


class UndersideLimits(NamedTuple):
    """What decides whether a face overhangs or lies on the platform.

    up : (3,) float64, build direction in part coordinates; n_z below `limit` overhangs, not above
    `level` lies level; highest_contact_mm : along `up`
    """

    up: np.ndarray
    limit: np.float32
    level: np.float32
    highest_contact_mm: float


def underside_limits(turned: TurnedPart, support_limit_deg: float) -> UndersideLimits:
    """The limits for a turned part."""
    return UndersideLimits(
        turned.up,
        np.float32(steepest_overhang_n_z(support_limit_deg)),
        np.float32(-np.cos(np.radians(PLATFORM_ANGLE_DEG))),
        turned.platform_mm + PLATFORM_HEIGHT_MM,
    )


def named_undersides(part, turned, kinds: np.ndarray, sums: np.ndarray) -> Undersides:
    """From what `sort_block` fills: (m,) uint8 kinds and (3, 3) float64 sums."""
    return Undersides(part, turned.up, kinds, sums[2], _by_class(sums[0]), _by_class(sums[1]))


def _by_class(sums: np.ndarray) -> ByClass:
    unmarked, a, b = (float(x) for x in sums)
    return ByClass(a, b, unmarked, a + b + unmarked)


@compiled
def sort_block(
    rows, start, stop, face_classes, faces, points, limits, n_z, lowest, room, kinds, sums
):
    """Sort the faces from `start` to `stop`, whose `n_z` is known, into `kinds`.

    lowest : least of their n_z
    room : (BLOCK,) float32, to work in
    sums : by class: area of the overhang, area on the platform, plan area of the overhang
    """
    n_z, weights = n_z[: stop - start], room[: stop - start]
    if lowest >= limits.limit and lowest > limits.level:
        return  # nothing in this block faces down
    kind, classes = kinds[start:stop], face_classes[start:stop]
    exposed = rows.exposed_mm2[start:stop]
    _overhangs_of_block(n_z, exposed, limits.limit, kind, weights)
    if lowest <= limits.level:
        for f in range(stop - start):
            if n_z[f] > limits.level:
                continue
            highest = -np.inf
            for k in range(3):
                highest = max(highest, height_of(points[faces[start + f, k]], limits.up))
            if highest <= limits.highest_contact_mm:
                kind[f], weights[f] = ON_PLATFORM, 0
                sums[1, classes[f]] += exposed[f]
    of_classes, of_plan = areas_by_class(weights, n_z, classes)
    for number in range(3):
        sums[0, number] += of_classes[number]
        sums[2, number] += of_plan[number]


@compiled
def _share_of(kinds, exposed_share):
    share = np.empty(len(kinds), np.float32)
    for f in range(len(kinds)):
        exposed = exposed_share[f]  # read before the branch, as below
        share[f] = exposed if kinds[f] == OVERHANG else np.float32(0)
    return share


@compiled(fastmath=FREE_ORDER)
def _overhangs_of_block(n_z, exposed, limit, kinds, weights):
    zero = np.float32(0)
    for f in range(len(n_z)):
        area = exposed[f]  # read before the branch, which then becomes a vector instruction
        here = area if n_z[f] < limit else zero
        weights[f] = here
        kinds[f] = here > zero  # OVERHANG is 1
