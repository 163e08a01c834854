"""Keep-clear bodies: the space beside class A in which no support should stand, as closed bodies.

All places outside the part whose nearest face is one of class A, no farther than a given reach, in
small cells; the part is taken away, so that a body lies on the faces that it guards. Faces that
need a support in this pose are left out: it would stand there anyway.
"""

import numpy as np

from viewer.errors import RequestProblem, ShowsideError
from viewer.geometry.carve_solids import Block, Carving, carve
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.mesh import Mesh
from viewer.geometry.nearest_face import nearest_faces
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.support_solids import posed_solid
from viewer.progress import Progress
from viewer.words import say

_CELLS_IN_REACH = 3
_BEFORE = 0.9  # least cosine between a face's normal and the way to a place that lies before it
_MOST_CELLS = 3_000_000
_MOST_SAMPLES = 4_000_000
_LEAST_MM3 = 0.05


def keep_clear_body(
    part: PreparedPart,
    face_classes: np.ndarray,
    measures: PoseMeasures,
    pose: Pose,
    reach_mm: float = 1.2,
    progress: Progress | None = None,
) -> Mesh:
    """The space within reach of class A, a closed mesh in the posed frame; empty if there is none.

    part : of a closed solid (see `closed_part`); face_classes : (m,) uint8
    reach_mm : 0.2 to 20
    Raises RequestProblem, ShowsideError where the part is no solid, Cancelled.
    """
    if not 0.2 <= reach_mm <= 20:
        raise RequestProblem(say("The space to keep clear reaches 0.2 to 20 mm from class A."))
    progress = progress or Progress()
    guarded = (face_classes == CLASS_A) & (measures.faces.touch_share <= 0)
    points, faces = posed_solid(part, pose)
    chosen = guarded[part.solid_origin]
    empty = Mesh(np.empty((0, 3)), np.empty((0, 3), np.int32))
    if not chosen.any():
        return empty
    progress.report(0.1, "Looking beside class A")
    cells = _Cells.around(points[faces[chosen]], reach_mm)
    near = cells.near_faces(points[faces[chosen]], reach_mm)
    places = np.argwhere(near)
    found = nearest_faces(points, faces, cells.middles_mm(places), progress.part(0.2, 0.7))
    near = (found.distances_mm <= reach_mm) & chosen[found.faces]
    kept = places[near & _is_before(points, faces, cells.middles_mm(places), found)]
    if not len(kept):
        return empty
    carving = Carving(points, faces, 0.0, 0.0, 1, _LEAST_MM3)
    carved = carve(cells.slabs(kept), carving, progress.part(0.7, 1.0))
    if carved is None:
        raise ShowsideError(
            say("The part is not closed, so no space can be kept clear beside it; mend it first.")
        )
    return Mesh(*carved.body) if len(carved.body[1]) else empty


def _is_before(points, faces, places_mm, found) -> np.ndarray:
    """(k,) whether a place lies before its nearest face rather than round the corner from it."""
    a, b, c = (points[faces[found.faces, k]] for k in range(3))
    across = np.cross(b - a, c - a)
    size = np.maximum(np.linalg.norm(across, axis=1), 1e-300)
    height = np.einsum("ij,ij->i", places_mm - a, across) / size
    return np.abs(height) >= _BEFORE * found.distances_mm


class _Cells:
    """Cubes side by side around some faces; none lies below the platform."""

    def __init__(self, low_mm: np.ndarray, side_mm: float, shape: tuple[int, int, int]) -> None:
        self.low_mm, self.side_mm, self.shape = low_mm, side_mm, shape

    @classmethod
    def around(cls, corners_mm: np.ndarray, reach_mm: float) -> "_Cells":
        low = corners_mm.min(axis=(0, 1)) - reach_mm
        high = corners_mm.max(axis=(0, 1)) + reach_mm
        low[2] = max(low[2], 0.0)
        size = np.maximum(high - low, reach_mm)
        side = max(reach_mm / _CELLS_IN_REACH, float(np.prod(size) / _MOST_CELLS) ** (1 / 3))
        nx, ny, nz = (int(n) for n in np.ceil(size / side))
        return cls(low, side, (nx, ny, nz))

    def middles_mm(self, places: np.ndarray) -> np.ndarray:
        """(k, 3) middles of cells."""
        return self.low_mm + (places + 0.5) * self.side_mm

    def near_faces(self, corners_mm: np.ndarray, reach_mm: float) -> np.ndarray:
        """(nx, ny, nz) bool: cells that may lie within reach of a face."""
        points = _points_on(corners_mm, self.side_mm)
        place = np.floor((points - self.low_mm) / self.side_mm).astype(np.int64)
        place = np.clip(place, 0, np.array(self.shape) - 1)
        near = np.zeros(self.shape, bool)
        near[tuple(place.T)] = True
        # A point lies within a cell of a sample, and a sample within a cell of its own middle.
        for _ in range(int(np.ceil(reach_mm / self.side_mm)) + 2):
            near = _grown(near)
        return near

    def slabs(self, places: np.ndarray) -> list[Block]:
        """One block for each level of cells, of rectangles along x."""
        blocks = []
        for level in np.unique(places[:, 2]):
            x, y = places[places[:, 2] == level][:, :2].T
            order = np.lexsort((x, y))
            x, y = x[order], y[order]
            new = np.ones(len(x), bool)
            new[1:] = (y[1:] != y[:-1]) | (x[1:] != x[:-1] + 1)
            first = np.flatnonzero(new)
            last = np.append(first[1:], len(x)) - 1
            cells = np.column_stack([x[first], y[first], x[last] + 1, y[first] + 1])
            rectangles = cells * self.side_mm + np.tile(self.low_mm[:2], 2)
            bottom, top = (self.low_mm[2] + (level + k) * self.side_mm for k in (0, 1))
            blocks.append(Block(float(bottom), float(top), rectangles))
        return blocks


def _grown(near: np.ndarray) -> np.ndarray:
    """Cells that are chosen or have a chosen one beside them, across corners too."""
    for axis in range(3):
        ahead, behind = [slice(None)] * 3, [slice(None)] * 3
        ahead[axis], behind[axis] = slice(1, None), slice(None, -1)
        grown = near.copy()
        grown[tuple(ahead)] |= near[tuple(behind)]
        grown[tuple(behind)] |= near[tuple(ahead)]
        near = grown
    return near


def _points_on(corners_mm: np.ndarray, step_mm: float) -> np.ndarray:
    """(k, 3) points on faces (f, 3, 3), none farther than `step_mm` from the next."""
    edges = np.linalg.norm(corners_mm - np.roll(corners_mm, -1, axis=1), axis=2)
    parts = np.maximum(np.ceil(edges.max(axis=1) / step_mm).astype(np.int64), 1)
    if int(((parts + 1) * (parts + 2) // 2).sum()) > _MOST_SAMPLES:
        parts = np.maximum(parts // 2, 1)
    points = []
    for count in np.unique(parts):
        own = corners_mm[parts == count]
        i, j = np.mgrid[0 : count + 1, 0 : count + 1]
        inside = i + j <= count
        u, v = i[inside] / count, j[inside] / count
        shares = np.stack([1 - u - v, u, v])
        points.append(np.einsum("ks,fkx->fsx", shares, own).reshape(-1, 3))
    return np.concatenate(points)
