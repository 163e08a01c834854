"""The holes of a mesh: loops of edges that do not add up, measured all at once."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.mend.chain_boundary import chain_boundary, loops_in_a_row
from viewer.geometry.mesh import Mesh
from viewer.geometry.self_intersections import near_distance_mm

FLAT_SHARE = 1e-4  # bulge of a flat hole as a share of its extent


class Hole(NamedTuple):
    """One loop of edges to be closed.

    corners : (n,) int32, vertices in the order in which a lid runs along them
    normal : (3,) float64, unit, of the lid; area_mm2 : of the lid if it were flat
    extent_mm : diagonal of the box of the hole; flat : it lies in one plane
    """

    corners: np.ndarray
    normal: np.ndarray
    area_mm2: float
    extent_mm: float
    flat: bool


class Holes(NamedTuple):
    """Many holes in arrays, see `Hole`.

    corners : int32, of all holes one after the other; starts : (h + 1,) int64, where each begins
    normals : (h, 3); areas_mm2, extents_mm : (h,); flat : (h,) bool; boxes_mm : (h, 2, 3)
    """

    corners: np.ndarray
    starts: np.ndarray
    normals: np.ndarray
    areas_mm2: np.ndarray
    extents_mm: np.ndarray
    flat: np.ndarray
    boxes_mm: np.ndarray

    @property
    def sizes(self) -> np.ndarray:
        """(h,) int64: number of corners."""
        return np.diff(self.starts)

    def one(self, number: int) -> Hole:
        """One of them by itself."""
        return Hole(
            self.corners[self.starts[number] : self.starts[number + 1]],
            self.normals[number],
            float(self.areas_mm2[number]),
            float(self.extents_mm[number]),
            bool(self.flat[number]),
        )


def measure_holes(mesh: Mesh) -> Holes:
    """All holes of a mesh."""
    corners, starts = loops_in_a_row(chain_boundary(mesh.faces))
    if not len(corners):
        nothing, none = np.empty(0), np.empty(0, bool)
        return Holes(corners, starts, np.empty((0, 3)), nothing, nothing, none, np.empty((0, 2, 3)))
    # A lid runs against the faces around it: each loop backwards, from its last corner on.
    size = np.diff(starts)
    loop = np.repeat(np.arange(len(size)), size)
    corners = corners[starts[:-1][loop] + starts[1:][loop] - 1 - np.arange(len(corners))]
    points = mesh.vertices_mm[corners]
    first = starts[:-1]
    low, high = np.minimum.reduceat(points, first), np.maximum.reduceat(points, first)
    arms = points - (np.add.reduceat(points, first) / size[:, None])[loop]
    following = np.arange(1, len(corners) + 1)
    following[starts[1:] - 1] = first
    vectors = 0.5 * np.add.reduceat(np.cross(arms, arms[following]), first)
    areas = np.linalg.norm(vectors, axis=1)
    normals = np.where(areas[:, None] > 0.0, vectors / np.maximum(areas, 1e-300)[:, None], 0.0)
    bulges = np.maximum.reduceat(np.abs((arms * normals[loop]).sum(axis=1)), first)
    extents = np.linalg.norm(high - low, axis=1)
    near = near_distance_mm(mesh.box_mm)
    flat = (areas > 0.0) & (bulges <= 2.0 * near + FLAT_SHARE * extents)
    flat |= size == 3
    return Holes(corners, starts, normals, areas, extents, flat, np.stack([low, high], axis=1))


def find_holes(mesh: Mesh) -> list[Hole]:
    """All holes of a mesh, one by one."""
    holes = measure_holes(mesh)
    return [holes.one(number) for number in range(len(holes.flat))]


def lone_triangles(holes: Holes) -> np.ndarray:
    """(h,) bool: holes of three corners that lie in no other hole and have none in them.

    For these the lid is known without looking any further. Told by boxes, so that some are missed.
    """
    wanted = (holes.sizes == 3) & (holes.areas_mm2 > 0.0)
    if not wanted.any():
        return wanted
    order = np.argsort(holes.boxes_mm[:, 0, 0], kind="stable")
    boxes = np.ascontiguousarray(holes.boxes_mm[order])
    meets = np.zeros(len(order), bool)
    _mark_boxes_that_meet(boxes, meets)
    wanted[order[meets]] = False
    return wanted


@compiled
def _mark_boxes_that_meet(boxes, meets):
    """Boxes in order of their lower end along x."""
    for i in range(len(boxes)):
        for j in range(i + 1, len(boxes)):
            if boxes[j, 0, 0] > boxes[i, 1, 0]:
                break
            if (
                boxes[j, 0, 1] <= boxes[i, 1, 1]
                and boxes[i, 0, 1] <= boxes[j, 1, 1]
                and boxes[j, 0, 2] <= boxes[i, 1, 2]
                and boxes[i, 0, 2] <= boxes[j, 1, 2]
            ):
                meets[i] = meets[j] = True
