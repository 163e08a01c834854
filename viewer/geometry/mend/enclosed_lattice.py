"""Which points of a lattice a faulty surface encloses.

The surface is closed by fans over the loops of its chain boundary; of a closed surface the winding
number at a point is the count of signed crossings along a line (`column_field`). What the fans add
is then taken off again with their generalised winding number, so that the whole is the generalised
winding number of the open surface (Jacobson, Kavan & Sorkine-Hornung 2013, "Robust inside-outside
segmentation using generalized winding numbers"), exact where nothing is open and quick everywhere.
A point is inside where it exceeds one half: holes are closed by the smooth surface on which it is
one half, bodies that overlap are one.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.column_field import column_field, faces_for_lines
from viewer.geometry.column_grid import ColumnGrid, even_grid
from viewer.geometry.compiled import compiled
from viewer.geometry.mend.chain_boundary import boundary_loops, chain_boundary
from viewer.geometry.winding_tree import WindingTree, build_winding_tree, winding_at
from viewer.progress import Progress

HALF = 0.5
_ROOM = 2  # cells around the part


class Lattice(NamedTuple):
    """Two grids of nodes, the corners of cubic cells and the middles of the cells.

    Node (i, j, k) has the place (j · nx + i) · nz + k. A corner lies at origin + spacing · (i, j,
    k), the middle of the same number half a cell further along each axis.
    """

    x0_mm: float
    y0_mm: float
    z0_mm: float
    spacing_mm: float
    nx: int
    ny: int
    nz: int

    @property
    def cells(self) -> int:
        """Number of cells."""
        return self.nx * self.ny * self.nz


class Enclosed(NamedTuple):
    """For both grids of a lattice.

    winding : (2, cells) int16, winding number of the surface closed by fans
    inside : (2, cells) bool
    lids : tree over the fans, None where nothing is open
    """

    winding: np.ndarray
    inside: np.ndarray
    lids: WindingTree | None


def lattice_over(box_mm: np.ndarray, spacing_mm: float) -> Lattice:
    """The lattice over a box (2, 3), with room on all sides.

    It stands askew to round numbers, so that flat faces of made parts pass between its nodes.
    """
    askew = np.array([0.3819660, 0.4142136, 0.3247180])
    low = box_mm[0] - spacing_mm * (_ROOM - askew)
    counts = np.ceil((box_mm[1] - low) / spacing_mm).astype(int) + _ROOM
    return Lattice(*(float(x) for x in low), float(spacing_mm), *(int(n) for n in counts))


def find_enclosed(points_mm: np.ndarray, faces: np.ndarray, lattice: Lattice,
                  progress: Progress | None = None) -> Enclosed:  # fmt: skip
    """Which nodes lie inside of (m, 3) int32 faces of (n, 3) float64 points. Raises Cancelled."""
    progress = progress or Progress()
    progress.report(0.0, "Looking for what the surface encloses")
    fan_points, fans = _fans(points_mm, faces)
    for_lines = faces_for_lines(fan_points, np.concatenate([faces, fans]))
    winding = np.empty((2, lattice.cells), np.int16)
    for shift in range(2):
        progress.report(0.2 * shift, "Looking for what the surface encloses")
        half = 0.5 * lattice.spacing_mm * shift
        grid = _grid(lattice, half)
        field = column_field(for_lines, np.eye(3), grid, progress)
        progress.check()
        _wind(field.starts, field.z_mm, field.side, lattice, lattice.z0_mm + half, winding[shift])
    inside = winding > 0
    if not len(fans):
        return Enclosed(winding, inside, None)
    lids = build_winding_tree(fan_points, fans)
    low, high = lids.corners_mm.min(axis=(0, 1)), lids.corners_mm.max(axis=(0, 1))
    for row in range(lattice.ny):
        progress.report(0.4 + 0.6 * row / lattice.ny, "Closing what is open")
        _take_off_lids(lids, lattice, row, low, high, winding, inside, progress.stop_flag)
        progress.check()
    return Enclosed(winding, inside, lids)


def _grid(lattice: Lattice, half_mm: float) -> ColumnGrid:
    """Upright lines through the nodes."""
    to_line = half_mm - 0.5 * lattice.spacing_mm
    return even_grid(
        lattice.x0_mm + to_line, lattice.y0_mm + to_line, lattice.spacing_mm, lattice.nx, lattice.ny
    )


def _fans(points_mm: np.ndarray, faces: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Points with the middles of all loops, and faces from each loop to its middle."""
    loops = boundary_loops(chain_boundary(faces))
    if not loops:
        return points_mm, np.empty((0, 3), np.int32)
    middles = np.array([points_mm[loop].mean(axis=0) for loop in loops])
    fans = [
        np.stack([np.roll(loop, -1), loop, np.full(len(loop), len(points_mm) + k)], axis=1)
        for k, loop in enumerate(loops)
    ]
    return np.concatenate([points_mm, middles]), np.concatenate(fans).astype(np.int32)


@compiled
def _wind(starts, z, side, lattice, z0, winding):
    """Winding numbers along every line, from below; a node at a crossing lies below it."""
    nz = lattice.nz
    for line in range(lattice.nx * lattice.ny):
        number, node = 0, line * nz
        for c in range(starts[line], starts[line + 1]):
            steps = np.floor((z[c] - z0) / lattice.spacing_mm) + 1.0
            end = line * nz + int(min(max(steps, 0.0), float(nz)))
            while node < end:
                winding[node] = number
                node += 1
            number += -1 if side[c] & 1 else 1
        while node < (line + 1) * nz:
            winding[node] = number
            node += 1


@compiled
def _take_off_lids(lids, lattice, row, low, high, winding, inside, stop):
    """Decide anew about the nodes of a row that lie in the box of the lids.

    Beyond it a lid covers no more than half of the view, which changes no answer.
    """
    step = lattice.spacing_mm
    for shift in range(2):
        y = lattice.y0_mm + step * (row + 0.5 * shift)
        if y < low[1] or y > high[1]:
            continue
        for i in range(lattice.nx):
            x = lattice.x0_mm + step * (i + 0.5 * shift)
            if x < low[0] or x > high[0]:
                continue
            if stop[0]:
                return
            z0 = lattice.z0_mm + 0.5 * step * shift
            first = max(int(np.ceil((low[2] - z0) / step)), 0)
            last = min(int(np.floor((high[2] - z0) / step)), lattice.nz - 1)
            for k in range(first, last + 1):
                node = (row * lattice.nx + i) * lattice.nz + k
                number = winding[shift, node] - winding_at(lids, x, y, z0 + step * k)
                inside[shift, node] = number > HALF
