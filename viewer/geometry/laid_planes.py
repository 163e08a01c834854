"""Planes told as the part is laid, z up from the platform, in part coordinates for cutting."""

from collections.abc import Sequence

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.cut_pieces import CutPlane
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, pose_matrix
from viewer.words import say


def laid_matrix(meshes: Sequence[Mesh], pose: Pose) -> np.ndarray:
    """(4, 4) float64 that lays meshes together, from the vertices that their faces use."""
    used = []
    for mesh in meshes:
        kept = np.zeros(len(mesh.vertices_mm), bool)
        kept[mesh.faces.ravel()] = True
        used.append(mesh.vertices_mm if kept.all() else mesh.vertices_mm[kept])
    return pose_matrix(used[0] if len(used) == 1 else np.concatenate(used), pose)


def plane_in_part(matrix: np.ndarray, point_mm: np.ndarray, normal: np.ndarray) -> CutPlane:
    """A plane of the posed frame in part coordinates.

    matrix : (4, 4) float64, from part coordinates to the posed frame, a turn and a shift
    point_mm, normal : (3,) in the posed frame
    """
    turn, shift = matrix[:3, :3], matrix[:3, 3]
    point = (np.asarray(point_mm, np.float64) - shift) @ turn
    return CutPlane(tuple(point.tolist()), tuple((np.asarray(normal, np.float64) @ turn).tolist()))


def quarter_planes(matrix: np.ndarray) -> list[CutPlane]:
    """Two upright planes through the middle of the part as it is laid."""
    middle = np.zeros(3)
    return [plane_in_part(matrix, middle, np.eye(3)[axis]) for axis in (0, 1)]


def slab_planes(matrix: np.ndarray, low_mm: float, high_mm: float) -> list[CutPlane]:
    """Outward planes of the slab between two heights above the platform, for `cut_out`.

    Raises RequestProblem unless the second height lies above the first.
    """
    if not high_mm > low_mm:
        raise RequestProblem(
            say("A slab needs two heights above the platform, the lower one first.")
        )
    up = np.array([0.0, 0.0, 1.0])
    return [plane_in_part(matrix, low_mm * up, -up), plane_in_part(matrix, high_mm * up, up)]
