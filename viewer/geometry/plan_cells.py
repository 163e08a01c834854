"""Faces sorted into the square cells of the plan that they lie over.

All lines asked about are upright, so a plain grid over the plan answers what lies above a place
faster than a tree of boxes can: a few faces share a cell, and nothing has to be climbed.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress

_ROUNDING = 1e-4  # of a cell: what single precision may move a face by


class PlanGrid(NamedTuple):
    """Square cells: place (x, y) lies in cell j · nx + i, i = (x − x0) · per_mm rounded down."""

    x0_mm: float
    y0_mm: float
    per_mm: float
    nx: int
    ny: int


class FacesInPlan(NamedTuple):
    """Faces of each cell: those of cell c are faces[starts[c]:starts[c + 1]], both int32.

    corners_mm : (k, 9) float32, x, y, z of their three corners, x and y about the cell's own
        corner: what is asked about together lies together, and keeps its digits
    """

    grid: PlanGrid
    starts: np.ndarray
    faces: np.ndarray
    corners_mm: np.ndarray


def plan_grid(low_mm: np.ndarray, high_mm: np.ndarray, cell_mm: float) -> PlanGrid:
    """Cells of side `cell_mm` over the box from `low_mm` to `high_mm`, (2,) float64 each."""
    nx, ny = (int(n) + 1 for n in np.floor((high_mm - low_mm) / cell_mm))
    return PlanGrid(float(low_mm[0]), float(low_mm[1]), 1.0 / cell_mm, nx, ny)


def cells_under(
    points_mm: np.ndarray,
    faces: np.ndarray,
    grid: PlanGrid,
    asked: np.ndarray,
    top_mm: np.ndarray,
    progress: Progress | None = None,
) -> tuple[np.ndarray, np.ndarray]:
    """Every pair of a face and a cell that it lies over.

    points_mm : (n, 3) float64, z up; faces : (m, 3) int32
    asked : (m,) bool, faces that are looked at
    top_mm : (nx · ny,) float64, faces that lie above it over a cell are left out there
    returns cell and face, (k,) int32 each, faces rising
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    room = len(faces) + len(faces) // 2 + 4 * grid.nx * grid.ny
    places = _in_cells(points_mm, grid)
    while True:
        progress.check()
        cell, face, count = _cover(
            places, points_mm, faces, grid, asked, top_mm, room, progress.stop_flag
        )
        progress.check()
        if count <= room:
            return cell[:count], face[:count]
        room = int(count)


def faces_in_plan(
    points_mm: np.ndarray,
    faces: np.ndarray,
    grid: PlanGrid,
    top_mm: np.ndarray,
    progress: Progress | None = None,
) -> FacesInPlan:
    """Faces sorted into cells, in each of them those that reach below `top_mm` ((nx · ny,)).

    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    everything = np.ones(len(faces), np.bool_)
    cell, face = cells_under(points_mm, faces, grid, everything, top_mm, progress)
    sorted_faces = _sort_by_cell(cell, face, points_mm, faces, grid, progress.stop_flag)
    progress.check()
    return FacesInPlan(grid, *sorted_faces)


@compiled
def _in_cells(points, grid):
    """(n, 2) float32: u and v of each point in cells; few bytes a point stay in the cache."""
    places = np.empty((len(points), 2), np.float32)
    for i in range(len(points)):
        places[i, 0] = (points[i, 0] - grid.x0_mm) * grid.per_mm
        places[i, 1] = (points[i, 1] - grid.y0_mm) * grid.per_mm
    return places


@compiled
def _cover(places, points, faces, grid, asked, top, room, stop):
    cells, owners = np.empty(room, np.int32), np.empty(room, np.int32)
    count = 0
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        if not asked[f]:
            continue
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        au, av, bu, bv = places[a, 0], places[a, 1], places[b, 0], places[b, 1]
        cu, cv = places[c, 0], places[c, 1]
        u_low, u_high = min(au, bu, cu), max(au, bu, cu)
        v_low, v_high = min(av, bv, cv), max(av, bv, cv)
        if u_high < 0.0 or v_high < 0.0 or u_low >= grid.nx or v_low >= grid.ny:
            continue
        bottom = min(points[a, 2], points[b, 2], points[c, 2])
        first = int(max(v_low - _ROUNDING, 0.0))
        last = int(min(v_high + _ROUNDING, grid.ny - 1.0))
        for row in range(first, last + 1):
            low, high = u_low, u_high
            if first < last and u_high - u_low > 1.0:
                low, high = _span_in_row(au, av, bu, bv, cu, cv, float(row))
            start = int(max(low - _ROUNDING, 0.0))
            end = int(min(high + _ROUNDING, grid.nx - 1.0))
            for cell in range(row * grid.nx + start, row * grid.nx + end + 1):
                if bottom <= top[cell]:
                    if count < room:
                        cells[count], owners[count] = cell, f
                    count += 1
    return cells, owners, count


@compiled
def _span_in_row(au, av, bu, bv, cu, cv, row):
    """Range of u in which a triangle lies over the row of cells row <= v <= row + 1."""
    below, above = row - _ROUNDING, row + 1.0 + _ROUNDING
    low, high = np.inf, -np.inf
    for u, v, to_u, to_v in ((au, av, bu, bv), (bu, bv, cu, cv), (cu, cv, au, av)):
        if below <= v <= above:
            low, high = min(low, u), max(high, u)
        for level in (below, above):
            if (v < level) != (to_v < level):
                cut = u + (level - v) / (to_v - v) * (to_u - u)
                low, high = min(low, cut), max(high, cut)
    return low, high


@compiled
def _sort_by_cell(cell, face, points, faces, grid, stop):
    cells = grid.nx * grid.ny
    starts = np.zeros(cells + 1, np.int32)
    for i in range(len(cell)):
        starts[cell[i] + 1] += 1
    for c in range(cells):
        starts[c + 1] += starts[c]
    place = starts[:-1].copy()
    sorted_faces = np.empty(len(cell), np.int32)
    for i in range(len(cell)):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        sorted_faces[place[cell[i]]] = face[i]
        place[cell[i]] += 1
    corners = np.empty((len(cell), 9), np.float32)
    for c in range(cells):
        if c % 256 == 0 and stop[0]:
            break
        x0, y0 = _corner_of(grid, c)
        for i in range(starts[c], starts[c + 1]):
            for k in range(3):
                p = points[faces[sorted_faces[i], k]]
                corners[i, 3 * k], corners[i, 3 * k + 1] = p[0] - x0, p[1] - y0
                corners[i, 3 * k + 2] = p[2]
    return starts, sorted_faces, corners


@compiled
def _corner_of(grid, cell):
    return grid.x0_mm + (cell % grid.nx) / grid.per_mm, grid.y0_mm + (cell // grid.nx) / grid.per_mm


@compiled
def cell_at(grid, x, y):
    """The cell of a place, −1 outside the grid."""
    u, v = (x - grid.x0_mm) * grid.per_mm, (y - grid.y0_mm) * grid.per_mm
    if u < 0.0 or v < 0.0 or u >= grid.nx or v >= grid.ny:
        return -1
    return int(v) * grid.nx + int(u)


@compiled
def first_face_above(grid, starts, sorted_faces, corners, cell, x, y, z):
    """The first face straight above (x, y, z), which lies in `cell`; −1 if there is none.

    grid, starts, sorted_faces, corners : those of FacesInPlan
    """
    nearest, found = np.inf, -1
    x0, y0 = _corner_of(grid, cell)
    x, y = x - x0, y - y0
    for i in range(starts[cell], starts[cell + 1]):
        ax, ay, az = corners[i, 0] - x, corners[i, 1] - y, corners[i, 2]
        bx, by, bz = corners[i, 3] - x, corners[i, 4] - y, corners[i, 5]
        cx, cy, cz = corners[i, 6] - x, corners[i, 7] - y, corners[i, 8]
        wa, wb, wc = bx * cy - by * cx, cx * ay - cy * ax, ax * by - ay * bx
        if (wa < 0.0 or wb < 0.0 or wc < 0.0) and (wa > 0.0 or wb > 0.0 or wc > 0.0):
            continue
        whole = wa + wb + wc
        if whole == 0.0:
            continue  # upright: seen edge on
        height = (wa * az + wb * bz + wc * cz) / whole
        if z < height < nearest:
            nearest, found = height, sorted_faces[i]
    return found
