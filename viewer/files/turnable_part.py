"""The part small enough to travel in a page: fewer faces, whole numbers, colours by kind.

Faces are left out where that changes nothing by more than a tolerance, which grows until few enough
are left; borders between kinds of faces stay. What is no solid is snapped to ever coarser cells
instead. How far the result lies from the part is measured, not taken from the tolerance.
"""

import base64
import math
from dataclasses import dataclass

import numpy as np

from viewer.geometry.deviation import find_deviation
from viewer.geometry.mesh import Mesh
from viewer.geometry.simplify_solid import simplify_to
from viewer.geometry.unite_solids import Solid
from viewer.progress import Progress

MOST_FACES = 90_000  # some 2 MB in the page, and no burden for a telephone
_CREASE_DEG = 35.0  # flatter edges are shaded round
_FIRST, _LAST = 1e-4, 0.02  # tolerances, of the part's size
_LARGEST = 32767


@dataclass(frozen=True, eq=False)
class TurnablePart:
    """A mesh for drawing, in the posed frame, about the middle of its box.

    positions : (n, 3) int16, in units of `unit_mm`; normals : (n, 3) int8; kinds : (n,) uint8
    triangles : (m, 3) uint32
    faces_before, deviation_mm : faces of the part, and the farthest any place lies from it
    """

    positions: np.ndarray
    normals: np.ndarray
    kinds: np.ndarray
    triangles: np.ndarray
    unit_mm: float
    faces_before: int
    deviation_mm: float

    def packed(self) -> dict[str, object]:
        """Plain values and base64, little-endian, for the script of the page."""
        return {
            "unit_mm": self.unit_mm,
            "positions": _base64(self.positions.astype("<i2")),
            "normals": _base64(self.normals.astype("i1")),
            "kinds": _base64(self.kinds.astype("u1")),
            "triangles": _base64(self.triangles.astype("<u4")),
        }


def turnable_part(
    mesh: Mesh,
    kinds: np.ndarray,
    matrix: np.ndarray,
    most_faces: int = MOST_FACES,
    progress: Progress | None = None,
) -> TurnablePart:
    """The part with at most so many faces.

    kinds : (m,) int, what a face is drawn as; matrix : (4, 4), how the part lies
    Raises Cancelled.
    """
    progress = progress or Progress()
    points, faces, kept = _reduced(mesh, kinds, most_faces, progress.part(0.0, 0.6))
    deviation_mm = 0.0
    if faces is not mesh.faces:
        reduced = Mesh(points, faces)
        deviation_mm = find_deviation(mesh, reduced, progress.part(0.6, 0.9)).max_mm
    laid = points @ matrix[:3, :3].T + matrix[:3, 3]
    corners, normals = laid[faces], _corner_normals(laid, faces, progress)
    low, high = corners.reshape(-1, 3).min(axis=0), corners.reshape(-1, 3).max(axis=0)
    unit_mm = max(float((high - low).max()) / 2.0, 1e-6) / _LARGEST
    whole = np.rint((corners - (low + high) / 2.0) / unit_mm).astype(np.int64).reshape(-1, 3)
    turned = np.rint(normals.reshape(-1, 3) * 127.0).astype(np.int64)
    rows = np.column_stack([whole, turned, np.repeat(kept, 3)])
    unique, place = np.unique(rows, axis=0, return_inverse=True)
    half_unit_mm = unit_mm * math.sqrt(3.0) / 2.0
    return TurnablePart(
        unique[:, :3].astype(np.int16), unique[:, 3:6].astype(np.int8),
        unique[:, 6].astype(np.uint8), place.reshape(-1, 3).astype(np.uint32), unit_mm,
        mesh.face_count, deviation_mm + half_unit_mm,
    )  # fmt: skip


def _reduced(
    mesh: Mesh, kinds: np.ndarray, most: int, progress: Progress
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Points, faces and kinds; the mesh's own where it is small enough."""
    if mesh.face_count <= most:
        return mesh.vertices_mm, mesh.faces, kinds
    size_mm = float(np.linalg.norm(mesh.box_mm[1] - mesh.box_mm[0]))
    faces = np.array(mesh.faces, np.uint64, order="C")  # copies: the modeller takes no frozen array
    points = np.array(mesh.vertices_mm, order="C")
    solid = Solid(points, faces, np.array(kinds, np.uint64))
    made = simplify_to(solid, most, _FIRST * size_mm, _LAST * size_mm, progress)
    if made is not None:
        return made.points_mm, made.faces, np.asarray(made.origin)
    return _snapped(mesh, kinds, most, size_mm / 600.0, progress)


def _snapped(
    mesh: Mesh, kinds: np.ndarray, most: int, cell_mm: float, progress: Progress
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Vertices of one cell become one, their mean; cells grow until few enough faces are left."""
    low = mesh.box_mm[0]
    while True:
        progress.check()
        cells = np.floor((mesh.vertices_mm - low) / cell_mm).astype(np.int64)
        _, place, counts = np.unique(cells, axis=0, return_inverse=True, return_counts=True)
        place = place.reshape(-1)
        faces = place[mesh.faces]
        a, b, c = faces.T
        open_ = (a != b) & (b != c) & (c != a)
        ordered = np.sort(faces[open_], axis=1)
        _, first = np.unique(ordered, axis=0, return_index=True)
        if len(first) <= most:
            points = np.stack(
                [np.bincount(place, mesh.vertices_mm[:, k]) / counts for k in range(3)], axis=1
            )
            return points, faces[open_][first], kinds[open_][first]
        cell_mm *= 1.25


def _corner_normals(points: np.ndarray, faces: np.ndarray, progress: Progress) -> np.ndarray:
    """(m, 3, 3) unit normals: at each corner the mean of the faces round it that lie flat to it."""
    edges = points[faces[:, 1]] - points[faces[:, 0]], points[faces[:, 2]] - points[faces[:, 0]]
    vectors = np.cross(*edges)
    lengths = np.maximum(np.linalg.norm(vectors, axis=1), 1e-300)
    own = vectors / lengths[:, None]
    corner_vertex = faces.reshape(-1)
    order = np.argsort(corner_vertex, kind="stable")
    starts = np.searchsorted(corner_vertex[order], np.arange(len(points) + 1))
    valence = np.diff(starts)[corner_vertex]
    result = np.zeros((len(corner_vertex), 3))
    flat = math.cos(math.radians(_CREASE_DEG))
    for turn in range(int(valence.max(initial=0))):
        progress.check()
        some = np.flatnonzero(valence > turn)
        other = order[starts[corner_vertex[some]] + turn] // 3
        near = np.einsum("ij,ij->i", own[some // 3], own[other]) >= flat
        np.add.at(result, some[near], vectors[other[near]])
    size = np.linalg.norm(result, axis=1)
    result[size == 0] = own[np.flatnonzero(size == 0) // 3]
    result /= np.maximum(np.linalg.norm(result, axis=1), 1e-300)[:, None]
    return result.reshape(-1, 3, 3)


def _base64(array: np.ndarray) -> str:
    return base64.b64encode(np.ascontiguousarray(array).tobytes()).decode("ascii")
