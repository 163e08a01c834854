"""The demo part as received from its designer: the faults that surface modelling leaves.

Four places of the trowel grip are spoilt on purpose, each where its height is known: an unsewn
seam, a patch that is there twice, a sliver folded over its neighbours, an inside-out blister.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.mesh import Mesh
from viewer.geometry.trowel_grip import GripGrid, grid_faces, grid_normals, grip_grid

SEAM_GAP_MM = 0.02
BLISTER_RADIUS_MM, BLISTER_HALF_HEIGHT_MM, BLISTER_LIFT_MM = 1.6, 0.7, 0.2


class KnownFault(NamedTuple):
    """A fault put in on purpose: its kind as in the health report, and its heights in part z."""

    kind: str
    from_mm: float
    to_mm: float


def _rows(grid: GripGrid, first_mm: float, last_mm: float, at_least: int) -> np.ndarray:
    """Consecutive rows of the outside between two places, `at_least` so many."""
    outside = np.flatnonzero(grid.label == CLASS_A)
    start, end = np.searchsorted(grid.place_mm[outside], [first_mm, last_mm])
    return outside[start : max(end, start + at_least)]


def _column(grid: GripGrid, degrees: float) -> int:
    """The column nearest to a direction around the middle line (0° above, 90° to +y)."""
    columns = grid.points_mm.shape[1]
    return round(degrees / 360.0 * columns) % columns


def _heights(kind: str, points: np.ndarray) -> KnownFault:
    z = points.reshape(-1, 3)[:, 2]
    return KnownFault(kind, float(z.min()), float(z.max()))


def _unsew_seam(
    grid: GripGrid, vertices: np.ndarray, faces: np.ndarray
) -> tuple[np.ndarray, KnownFault]:
    """Part the surface along a line of edges: one side gets vertices of its own, a gap away."""
    columns = grid.points_mm.shape[1]
    rows, column = _rows(grid, 38.0, 62.0, 4), _column(grid, 118.0)
    seam, beside = rows * columns + column, rows * columns + (column + 1) % columns
    aside = vertices[beside[1:-1]] - vertices[seam[1:-1]]
    aside *= SEAM_GAP_MM / np.linalg.norm(aside, axis=1, keepdims=True)
    copies = np.round(vertices[seam[1:-1]] + aside, 6)
    new_index = np.arange(len(vertices))
    new_index[seam[1:-1]] = len(vertices) + np.arange(len(copies))
    cells = rows[:-1] * columns + column
    side = np.concatenate([2 * cells, 2 * cells + 1])
    faces[side] = new_index[faces[side]]
    fault = _heights("open_edges", np.concatenate([vertices[seam], copies]))
    return np.concatenate([vertices, copies]), fault


def _doubled_patch(grid: GripGrid, faces: np.ndarray) -> np.ndarray:
    """The faces of a patch on the upper side, to be added a second time."""
    columns = grid.points_mm.shape[1]
    rows = _rows(grid, 80.0, 85.0, 2)
    around = np.arange(_column(grid, 20.0), max(_column(grid, 42.0), _column(grid, 20.0) + 2))
    cells = (rows[:, None] * columns + around[None, :]).ravel()
    return faces[np.stack([2 * cells, 2 * cells + 1], axis=1).ravel()]


def _fold_sliver(grid: GripGrid, vertices: np.ndarray) -> KnownFault:
    """Push a short line of vertices past its neighbours, to and fro through the surface."""
    columns = grid.points_mm.shape[1]
    rows, column = _rows(grid, 66.0, 70.0, 4), _column(grid, 285.0)
    line, following, third = (rows * columns + (column + k) % columns for k in range(3))
    normals = grid_normals(grid.points_mm)[rows, (column + 1) % columns]
    past = vertices[following] + 0.5 * (vertices[third] - vertices[following])
    sign = np.where(np.arange(len(rows)) % 2, -1.0, 1.0)
    vertices[line] = np.round(past + 0.03 * sign[:, None] * normals, 6)
    touched = (rows[0] - 1 + np.arange(len(rows) + 2))[:, None] * columns
    touched = touched + (column + np.arange(-1, 4))[None, :] % columns
    return _heights("self_intersecting_faces", vertices[touched])


def _blister(grid: GripGrid) -> tuple[np.ndarray, np.ndarray]:
    """Vertices and faces of a closed lens, wound inwards, half sunk into the side of the palm."""
    row, column = int(_rows(grid, 24.0, 24.0, 1)[0]), _column(grid, 262.0)
    normal = grid_normals(grid.points_mm)[row, column]
    along = grid.points_mm[row + 1, column] - grid.points_mm[row, column]
    across = np.cross(normal, along)
    across /= np.linalg.norm(across)
    along = np.cross(across, normal)
    rings, around = 9, 28
    tilt = np.pi * (np.arange(rings) + 1.0) / (rings + 1.0)
    turn = 2.0 * np.pi * np.arange(around) / around
    flat = BLISTER_RADIUS_MM * np.sin(tilt)[:, None, None]
    lens = (
        flat * np.cos(turn)[None, :, None] * along
        + flat * np.sin(turn)[None, :, None] * across
        + BLISTER_HALF_HEIGHT_MM * np.cos(tilt)[:, None, None] * normal
    ).reshape(-1, 3)
    poles = np.stack([normal, -normal]) * BLISTER_HALF_HEIGHT_MM
    vertices = np.concatenate([lens, poles]) + grid.points_mm[row, column]
    vertices = np.round(vertices + BLISTER_LIFT_MM * normal, 6)
    index = np.arange(rings * around).reshape(rings, around)
    after = np.roll(index, -1, axis=1)
    a, b, c, d = index[:-1], index[1:], after[1:], after[:-1]
    north, south = np.full(around, len(lens)), np.full(around, len(lens) + 1)
    outward = [
        np.stack([a, b, c], -1).reshape(-1, 3),
        np.stack([a, c, d], -1).reshape(-1, 3),
        np.stack([north, index[0], after[0]], -1),
        np.stack([south, after[-1], index[-1]], -1),
    ]
    return vertices, np.concatenate(outward)[:, ::-1]


def as_received_from_designer(
    resolution: float = 1.0,
) -> tuple[Mesh, np.ndarray, tuple[KnownFault, ...]]:
    """The trowel grip with four faults at known heights; `resolution` as in `trowel_grip`.

    returns the Mesh (the sound faces first, in the order of `trowel_grip`, then the doubled patch,
    then the blister), its face classes ((m,) uint8), and the faults, highest known first
    """
    grid = grip_grid(resolution)
    vertices = grid.points_mm.reshape(-1, 3).copy()
    faces = grid_faces(grid.points_mm)
    classes = np.repeat(grid.label, 2 * grid.points_mm.shape[1])
    patch = _doubled_patch(grid, faces)
    doubled = _heights("duplicate_faces", vertices[patch])
    fold = _fold_sliver(grid, vertices)
    vertices, seam = _unsew_seam(grid, vertices, faces)
    lens, lens_faces = _blister(grid)
    blister = _heights("inward_shells", lens)
    crossing = KnownFault("overlapping_shells", blister.from_mm, blister.to_mm)
    nonmanifold = KnownFault("nonmanifold_edges", doubled.from_mm, doubled.to_mm)
    mesh = Mesh(
        np.concatenate([vertices, lens]),
        np.concatenate([faces, patch, lens_faces + len(vertices)]),
    )
    extra = np.full(len(patch) + len(lens_faces), CLASS_A, np.uint8)
    faults = sorted((seam, doubled, nonmanifold, fold, blister, crossing), key=lambda f: -f.to_mm)
    return mesh, np.concatenate([classes, extra]), tuple(faults)
