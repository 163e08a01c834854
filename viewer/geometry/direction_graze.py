"""Graze of one build direction by few points: what `graze` measures closely of a single pose.

The same points of the surface serve all directions. Those that overhang tell in a coarse plan how
high supports reach about each cell; of the others those below that height in such a cell are
candidates, and some of them, evenly along the curve, are asked with rays upwards whether a support
stands within the clearance (the rule of `graze`). Area = candidates' area · share of those asked;
standard error that of a share, √(p·(1 − p) / asked), somewhat too large for evenly taken points.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.graze import AROUND, ASIDE
from viewer.geometry.overhang import PLATFORM_HEIGHT_MM
from viewer.geometry.ray_tree import nearest_hit
from viewer.geometry.surface_samples import SurfaceSamples

_OFF_MM = 1e-4  # a point is asked about so far off the surface it belongs to
_LOOKED_AT = 2  # one of so many samples may be a candidate
_MOST_CELLS = 256  # along the coarse plan
_ASIDE_ONE_IN = 4  # of the points that nothing stands ahead of, so many are asked to the sides
# Points asked of each class, A twice as many as others; of very many faces rays take longer.
_ASKED, _ASKED_OF_MANY, _MANY_FACES = 192, 64, 400_000
GRAZE_SUMS = 6  # areas of unmarked, A, B; then their standard errors


class GrazePlan(NamedTuple):
    """What is the same for all directions; see `graze_plan`.

    cell_mm, radius_mm : of the coarse plan, a square about `middle_mm` (3,); cells : along its side
    each_mm2 : area a sample stands for; clearance_mm : 0 for no graze at all
    asked : (3,) int64, how many points of each class number
    """

    cell_mm: float
    radius_mm: float
    middle_mm: np.ndarray
    cells: int
    each_mm2: float
    clearance_mm: float
    asked: np.ndarray


def graze_plan(samples: SurfaceSamples, clearance_mm: float) -> GrazePlan:
    """Made ready for `measure_direction_graze`."""
    points = samples.points_mm
    middle = 0.5 * (points.min(axis=0) + points.max(axis=0)) if len(points) else np.zeros(3)
    radius = float(np.sqrt(np.max(((points - middle) ** 2).sum(axis=1), initial=0.0))) + 1e-6
    # A cell and its eight neighbours then hold some nine samples of any underside over them.
    cell = max(clearance_mm, float(np.sqrt(samples.each_mm2)), 2 * radius / _MOST_CELLS)
    # One cell more on each side, so that every point has neighbours.
    cells = int(2 * radius / cell) + 3
    shares = np.array([1.0, 2.0, 1.0]) * (np.bincount(samples.classes, minlength=3)[:3] > 0)
    points_asked = _ASKED_OF_MANY if len(samples.class_of_place) > _MANY_FACES else _ASKED
    asked = (points_asked * shares / max(shares.sum(), 1.0)).astype(np.int64)
    return GrazePlan(cell, radius, middle, cells, samples.each_mm2, clearance_mm, asked)


@compiled
def measure_direction_graze(samples, tree, plan, rotation, low_mm, limit, weights, sums):
    """Grazed areas of a direction and their standard errors, by class number, into sums (6,).

    rotation : (3, 3) float64, whose last row is the build direction; low_mm : platform along it
    limit : n_z below which a face overhangs
    weights : (s,) float32, above 0 for the samples that overhang and do not lie on the platform
    """
    sums[:] = 0.0
    if plan.clearance_mm == 0.0:
        return
    heights = _tops(samples, plan, rotation, weights)
    up, origin = rotation[2], plan.middle_mm
    candidates = np.empty(len(weights) // _LOOKED_AT + 1, np.int64)
    number_of, found = np.zeros(3, np.int64), 0
    for i in range(0, len(weights), _LOOKED_AT):
        if weights[i] > 0:
            continue
        p = samples.points_mm[i]
        x, y, z = p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]
        height = up[0] * x + up[1] * y + up[2] * z
        if heights[_cell(plan, rotation, x, y, z)] + plan.cell_mm <= height:
            continue
        n_z = samples.x[i] * up[0] + samples.y[i] * up[1] + samples.z[i] * up[2]
        if n_z < 0 and up[0] * p[0] + up[1] * p[1] + up[2] * p[2] - low_mm <= PLATFORM_HEIGHT_MM:
            continue
        candidates[found] = i
        found += 1
        number_of[samples.classes[i]] += 1
    passed, asked = np.zeros(3, np.int64), np.zeros(3, np.int64)
    # Of each class: something stands ahead; asked to the sides; something stands there; landed on.
    tally = np.zeros((3, 4), np.int64)
    for j in range(found):
        # Evenly along the curve: the next one as soon as its share of the candidates is passed.
        number = samples.classes[candidates[j]]
        passed[number] += 1
        wanted = min(plan.asked[number], number_of[number])
        if passed[number] * wanted <= asked[number] * number_of[number]:
            continue
        asked[number] += 1
        _ask(
            samples, tree, plan, heights, rotation, limit, candidates[j], asked[number],
            tally[number],
        )  # fmt: skip
    for number in range(3):
        if asked[number] > 0:
            area = _LOOKED_AT * plan.each_mm2 * number_of[number]
            share, error = _share_of(asked[number], tally[number])
            sums[number], sums[3 + number] = area * share, area * error


@compiled
def _share_of(asked, tally):
    """The share of candidates that is grazed, and its standard error."""
    ahead, aside_asked, aside, landed = tally
    rest = (asked - ahead - landed) / asked  # nothing ahead; some of them are grazed from the side
    beside = aside / aside_asked if aside_asked > 0 else 0.0
    # Of none or all a share is no surer than one point more would make it.
    p = (ahead + 0.5) / (asked + 1.0)
    q = (aside + 0.5) / (aside_asked + 1.0)
    one = p * (1.0 - p) / asked * (1.0 - beside) ** 2
    two = rest**2 * q * (1.0 - q) / max(aside_asked, 1)
    return ahead / asked + rest * beside, np.sqrt(one + two)


@compiled
def _cell(plan, rotation, x, y, z):
    """The cell of the coarse plan over a point about its middle."""
    u = rotation[0, 0] * x + rotation[0, 1] * y + rotation[0, 2] * z
    v = rotation[1, 0] * x + rotation[1, 1] * y + rotation[1, 2] * z
    i, j = (u + plan.radius_mm) / plan.cell_mm + 1.0, (v + plan.radius_mm) / plan.cell_mm + 1.0
    i, j = min(max(i, 0.0), plan.cells - 1.0), min(max(j, 0.0), plan.cells - 1.0)
    return int(j) * plan.cells + int(i)


@compiled
def _tops(samples, plan, rotation, weights):
    """(cells²,) float32: how high supports reach in each cell or one beside it; −∞ for none."""
    cells, up, origin = plan.cells, rotation[2], plan.middle_mm
    tops = np.full(cells * cells, -np.inf, np.float32)
    for i in range(len(weights)):
        if weights[i] > 0:
            p = samples.points_mm[i]
            x, y, z = p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]
            cell = _cell(plan, rotation, x, y, z)
            tops[cell] = max(tops[cell], np.float32(up[0] * x + up[1] * y + up[2] * z))
    along = np.full(cells * cells, -np.inf, np.float32)
    around = np.full(cells * cells, -np.inf, np.float32)
    # Cells in one long row: what runs over its ends lies in the margin, where nothing is.
    _highest_of_three(tops, 1, along)
    _highest_of_three(along, cells, around)
    return around


@compiled
def _highest_of_three(values, step, highest):
    """Fill in the highest of each value and of those `step` before and after it."""
    count = len(values) - 2 * step
    before, here, after = values[:count], values[step : step + count], values[2 * step :]
    filled = highest[step : step + count]
    for i in range(len(filled)):
        most = before[i] if before[i] > here[i] else here[i]
        filled[i] = most if most > after[i] else after[i]


@compiled
def _ask(samples, tree, plan, heights, rotation, limit, i, turn, tally):
    """Ask whether a support stands beside a sample, by the rule of `graze`, and count it."""
    up, normal = rotation[2], np.empty(3)
    normal[0], normal[1], normal[2] = samples.x[i], samples.y[i], samples.z[i]
    start = samples.points_mm[i] + _OFF_MM * normal
    n_z = normal[0] * up[0] + normal[1] * up[1] + normal[2] * up[2]
    if n_z > 0.01 and _supported(tree, plan, heights, up, rotation, limit, start):
        tally[3] += 1
        return
    ahead = normal - n_z * up
    size = np.sqrt(ahead[0] ** 2 + ahead[1] ** 2 + ahead[2] ** 2)
    steep = size > 0.1
    if not steep:  # level surface has no side of its own
        ahead, size = rotation[0].copy(), 1.0
    ahead *= plan.clearance_mm / size
    across = np.array(
        [
            up[1] * ahead[2] - up[2] * ahead[1],
            up[2] * ahead[0] - up[0] * ahead[2],
            up[0] * ahead[1] - up[1] * ahead[0],
        ]
    )
    turns = ASIDE if steep else AROUND
    for share in (0.5, 0.99):
        if _supported(tree, plan, heights, up, rotation, limit, start + share * ahead):
            tally[0] += 1
            return
    if turn % _ASIDE_ONE_IN > 0:
        return
    tally[1] += 1
    for k in range(len(turns)):
        for share in (0.5, 0.99) if k > 0 else (0.01, 0.01):
            at = start + share * (turns[k, 0] * ahead + turns[k, 1] * across)
            if _supported(tree, plan, heights, up, rotation, limit, at):
                tally[2] += 1
                return


@compiled
def _supported(tree, plan, heights, up, rotation, limit, at):
    """Whether a support stands at a point: the first face above it is an underside to support."""
    origin = plan.middle_mm
    x, y, z = at[0] - origin[0], at[1] - origin[1], at[2] - origin[2]
    height = up[0] * x + up[1] * y + up[2] * z
    # What bears may be higher than its samples by what a cell rises.
    above = np.float64(heights[_cell(plan, rotation, x, y, z)]) + plan.cell_mm - height
    if not above > 0:
        return False
    _, place = nearest_hit(tree, at, up, above)
    if place < 0:
        return False
    ux, uy, uz = tree.corners_mm[place, 1] - tree.corners_mm[place, 0]
    vx, vy, vz = tree.corners_mm[place, 2] - tree.corners_mm[place, 0]
    nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    size = np.sqrt(nx * nx + ny * ny + nz * nz)
    return nx * up[0] + ny * up[1] + nz * up[2] < limit * size
