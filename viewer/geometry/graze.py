"""Graze: part surface that a support stands so close to that it marks.

Counted is surface that is neither touch nor landing and lies closer than the clearance,
horizontally and on its outer side, to a support body. A support stands at a place if the first
face above it is an underside that bears on a support.

Only surface near a support in plan, and below its upper end, can be grazed; points are spread over
those faces alone, evenly by area: with the faces laid end to end, one point follows at every step
from a random start, at places within the faces that fill them evenly (Roberts 2018, "The
unreasonable effectiveness of quasirandom sequences"; MEM). Standard error: from the spread over
sets of points with random starts of their own.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.face_classes import ByClass
from viewer.geometry.plan_cells import (
    FacesInPlan,
    cell_at,
    cells_under,
    faces_in_plan,
    first_face_above,
    plan_grid,
)
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.sureness import over_allowed
from viewer.geometry.turned_part import TurnedPart, turn_part_by
from viewer.progress import Progress

_SETS, _SEED = 8, 20240301
# Points of a set at first: the fewer the more faces there are, for then each point takes longer.
_FEWEST_POINTS, _MOST_POINTS, _POINTS_TIMES_FACES = 900, 4_000, 5e8
# If they leave the area too unsure, sets of more points are taken in their place; evenly spread,
# the error falls with about that power of their number.
_MOST_MORE, _POWER, _RESERVE = 16.0, 0.7, 1.6
_ENOUGH = 0.9  # of what is allowed: an error from eight sets is not sure itself
_FEW_FACES = 200_000  # of more there is no time for that
_MOST_CELLS = 256  # along the longer side of the plan
_CELLS_TO_WHAT_IS_NEAR = 2  # finer cells would not tell more about what is near
_OFF_MM = 1e-4  # a point is asked about so far off the surface it belongs to
_ACROSS_A, _ACROSS_B = 0.7548776662466927, 0.5698402909980532  # 1/g, 1/g² for g³ = g + 1


def _cosines(degrees) -> np.ndarray:
    turns = np.radians(degrees)
    return np.column_stack([np.cos(turns), np.sin(turns)])


# Cosine and sine of the directions asked in: from straight ahead of steep surface aside up to 88°,
# and all round level surface.
ASIDE = _cosines([0.0, -30.0, 30.0, -60.0, 60.0, -88.0, 88.0])
AROUND = _cosines(np.arange(16) * 22.5)


class Graze(NamedTuple):
    """Grazed area by class, and one standard error."""

    area_mm2: ByClass
    error_mm2: ByClass


_NOTHING = Graze(ByClass(0.0, 0.0, 0.0, 0.0), ByClass(0.0, 0.0, 0.0, 0.0))


class _Near(NamedTuple):
    """What is asked at each point; heights are −∞ where there is no support."""

    inside: FacesInPlan
    bears: np.ndarray  # (m,) bool
    top_mm: np.ndarray  # (cells,) float64, highest bearing underside over the cell
    top_around_mm: np.ndarray  # the same, or over a cell within the clearance


def measure_graze(
    part: PreparedPart,
    bears: np.ndarray,
    on_platform: np.ndarray,
    face_classes: np.ndarray,
    turned: TurnedPart,
    clearance_mm: float,
    progress: Progress,
) -> Graze:
    """Grazed area of a pose.

    bears : (m,) bool, undersides that bear on a support
    on_platform : (m,) bool, faces that lie on the platform, which no support can reach
    face_classes : (m,) uint8
    turned : the part in its pose
    """
    if not bears.any() or clearance_mm == 0:
        return _NOTHING
    origin, faces = part.solid_origin, part.solid_faces
    if not bears[origin].any():
        return _NOTHING
    left_out = (bears | on_platform)[origin]
    points = turned.points_mm
    if part.solid_points_mm is not part.points_mm:
        points = turn_part_by(part.solid_points_mm, turned.rotation).points_mm
    progress.check()
    near = _what_is_near(points, faces, bears[origin], clearance_mm, progress)
    chosen, passed = _faces_near(
        points, faces, left_out, near.inside.grid, near.top_around_mm, progress.stop_flag
    )
    progress.check()
    if not len(chosen):
        return _NOTHING
    classes = face_classes[origin[chosen]]
    rng = np.random.default_rng(_SEED)

    def asked(each: float) -> tuple[np.ndarray, np.ndarray]:
        """Areas by class and in total, and their errors, by sets of so many points."""
        step = passed[-1] / each
        found = np.empty((_SETS, 3))
        for i in range(_SETS):
            progress.check()
            found[i] = step * _count_grazed(
                points, faces, chosen, passed, near, classes, clearance_mm,
                step, rng.random(3), progress.stop_flag,
            )  # fmt: skip
        progress.check()
        whole = np.column_stack([found, found.sum(axis=1)])
        # What no point met may still be as large as the area that one point stands for.
        least = step / _SETS * np.append(np.bincount(classes, minlength=3) > 0, 1)
        errors = np.maximum(whole.std(axis=0, ddof=1) / np.sqrt(_SETS), least)
        return whole.mean(axis=0), errors

    each = float(np.clip(_POINTS_TIMES_FACES / len(faces), _FEWEST_POINTS, _MOST_POINTS))
    areas, errors = asked(each)
    over = over_allowed(areas, errors, float(part.exposed_mm2.sum()))
    if over > _ENOUGH and len(faces) <= _FEW_FACES:
        areas, errors = asked(each * min((_RESERVE * over) ** (1 / _POWER), _MOST_MORE))
    return Graze(_by_class(areas), _by_class(errors))


def _by_class(sums):
    unmarked, a, b, total = (float(x) for x in sums)
    return ByClass(a, b, unmarked, total)


def _what_is_near(points, faces, bears, clearance_mm, progress) -> _Near:
    low, high = _plan_box(points, faces, bears)
    low, high = low - clearance_mm, high + clearance_mm
    cells = np.clip(0.5 * np.sqrt(len(faces)), 64, _MOST_CELLS)
    cell_mm = max(float((high - low).max()) / cells, clearance_mm / _CELLS_TO_WHAT_IS_NEAR)
    grid = plan_grid(low, high, cell_mm)
    all_heights = np.full(grid.nx * grid.ny, np.inf)
    cell, face = cells_under(points, faces, grid, bears, all_heights, progress)
    top = _highest(cell, face, points, faces, grid.nx * grid.ny)
    progress.check()
    reach = int(np.ceil(clearance_mm * grid.per_mm))
    around = _spread(top, grid.nx, grid.ny, reach, progress.stop_flag)
    progress.check()
    # What lies above every support cannot be the first face above a place with one.
    inside = faces_in_plan(points, faces, grid, top, progress)
    return _Near(inside, bears, top, around)


@compiled
def _plan_box(points, faces, asked):
    low, high = np.full(2, np.inf), np.full(2, -np.inf)
    for f in range(len(faces)):
        if asked[f]:
            for k in range(3):
                for axis in range(2):
                    low[axis] = min(low[axis], points[faces[f, k], axis])
                    high[axis] = max(high[axis], points[faces[f, k], axis])
    return low, high


@compiled
def _highest(cell, face, points, faces, cells):
    """(cells,) float64: highest corner of any of the faces over each cell."""
    top = np.full(cells, -np.inf)
    for i in range(len(cell)):
        for k in range(3):
            top[cell[i]] = max(top[cell[i]], points[faces[face[i], k], 2])
    return top


@compiled
def _spread(top, nx, ny, cells, stop):
    """The highest value within so many cells, along one side and then along the other."""
    along, both = np.empty_like(top), np.full_like(top, -np.inf)
    for j in range(ny):
        if stop[0]:
            break
        for i in range(nx):
            highest = -np.inf
            for k in range(max(i - cells, 0), min(i + cells, nx - 1) + 1):
                highest = max(highest, top[j * nx + k])
            along[j * nx + i] = highest
    for j in range(ny):
        if stop[0]:
            break
        for k in range(max(j - cells, 0), min(j + cells, ny - 1) + 1):
            for i in range(nx):
                both[j * nx + i] = max(both[j * nx + i], along[k * nx + i])
    return both


@compiled
def _faces_near(points, faces, left_out, grid, top_around, stop):
    """Faces that may be grazed, and their areas summed up from the first."""
    chosen, passed = np.empty(len(faces), np.int32), np.empty(len(faces))
    count, area = 0, 0.0
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        if left_out[f]:
            continue
        a, b, c = points[faces[f, 0]], points[faces[f, 1]], points[faces[f, 2]]
        if _may_be_grazed(a, b, c, grid, top_around):
            x, y, z = _twice_area_vector(a, b, c)
            area += 0.5 * np.sqrt(x * x + y * y + z * z)
            chosen[count], passed[count] = f, area
            count += 1
    return chosen[:count], passed[:count]


@compiled
def _may_be_grazed(a, b, c, grid, top_around):
    """Whether any cell under the face's box has a support near it that ends above the face."""
    bottom = min(a[2], b[2], c[2])
    first_u, last_u = _cell_range(a[0], b[0], c[0], grid.x0_mm, grid.per_mm, grid.nx)
    first_v, last_v = _cell_range(a[1], b[1], c[1], grid.y0_mm, grid.per_mm, grid.ny)
    for v in range(first_v, last_v + 1):
        for u in range(first_u, last_u + 1):
            if top_around[v * grid.nx + u] > bottom:
                return True
    return False


@compiled
def _cell_range(p, q, r, start, per_mm, cells):
    low, high = (min(p, q, r) - start) * per_mm, (max(p, q, r) - start) * per_mm
    return int(max(np.floor(low), 0.0)), int(min(np.floor(high), cells - 1.0))


@compiled
def _twice_area_vector(a, b, c):
    ex, ey, ez = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    fx, fy, fz = c[0] - a[0], c[1] - a[1], c[2] - a[2]
    return ey * fz - ez * fy, ez * fx - ex * fz, ex * fy - ey * fx


@compiled
def _count_grazed(points, faces, chosen, passed, near, classes, clearance, step, start, stop):
    """(3,) float64, grazed points by class; one point at each step from start[0] on."""
    found = np.zeros(3)
    k, target = 0, start[0] * step
    for i in range(len(chosen)):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        if target >= passed[i]:
            continue
        a, b, c = (
            points[faces[chosen[i], 0]],
            points[faces[chosen[i], 1]],
            points[faces[chosen[i], 2]],
        )
        nx, ny, nz = _twice_area_vector(a, b, c)
        size = np.sqrt(nx * nx + ny * ny + nz * nz)
        nx, ny, nz = nx / size, ny / size, nz / size
        while target < passed[i]:
            s, t = (start[1] + k * _ACROSS_A) % 1.0, (start[2] + k * _ACROSS_B) % 1.0
            if s + t > 1.0:
                s, t = 1.0 - s, 1.0 - t
            x = a[0] + s * (b[0] - a[0]) + t * (c[0] - a[0])
            y = a[1] + s * (b[1] - a[1]) + t * (c[1] - a[1])
            z = a[2] + s * (b[2] - a[2]) + t * (c[2] - a[2])
            cell = cell_at(near.inside.grid, x, y)
            if cell >= 0 and near.top_around_mm[cell] > z:
                x, y, z = x + _OFF_MM * nx, y + _OFF_MM * ny, z + _OFF_MM * nz
                found[classes[i]] += _is_grazed(near, x, y, z, nx, ny, nz, clearance)
            k += 1
            target += step
    return found


@compiled
def _is_grazed(near, x, y, z, nx, ny, nz, clearance):
    if nz > 0.01 and _supported(near, x, y, z):
        return False  # a support lands here
    size = np.sqrt(nx * nx + ny * ny)
    if size > 0.1:
        # Straight ahead first, where supports stand against walls, then aside up to 88°.
        ahead_x, ahead_y = clearance / size * nx, clearance / size * ny
        for k in range(len(ASIDE)):
            cos, sin = ASIDE[k]
            aside_x, aside_y = cos * ahead_x - sin * ahead_y, sin * ahead_x + cos * ahead_y
            for share in (0.01, 0.5, 0.99):
                if share < 0.1 and k > 0:
                    continue  # next to the point itself all directions are one
                if _supported(near, x + share * aside_x, y + share * aside_y, z):
                    return True
        return False
    # Level surface has no side of its own.
    for share, every in ((0.5, 2), (0.99, 1)):
        for k in range(0, len(AROUND), every):
            to_x = x + share * clearance * AROUND[k, 0]
            to_y = y + share * clearance * AROUND[k, 1]
            if _supported(near, to_x, to_y, z):
                return True
    return False


@compiled
def _supported(near, x, y, z):
    """Whether a support stands at a point: the first face above it bears on one."""
    cell = cell_at(near.inside.grid, x, y)
    if cell < 0 or near.top_mm[cell] <= z:
        return False
    inside = near.inside
    face = first_face_above(
        inside.grid, inside.starts, inside.faces, inside.corners_mm, cell, x, y, z
    )
    return face >= 0 and near.bears[face]
