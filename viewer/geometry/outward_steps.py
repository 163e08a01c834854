"""Steps of vertices that move every face outward by the same distance."""

import numpy as np

from viewer.progress import Progress

_FACES_A_GO = 1 << 16  # some 10 ms


def outward_steps(
    points_mm: np.ndarray,
    faces: np.ndarray,
    normals: np.ndarray,
    distance_mm: float,
    progress: Progress | None = None,
) -> np.ndarray:
    """Step of each vertex that moves every face at it outward by about `distance_mm`.

    points_mm : (n, 3) float64; faces : (m, 3) int32; normals : (m, 3) float64, unit
    returns (n, 3) float64

    Along the mean normal (weighed by the angle at the vertex, so that it does not depend on how a
    flat side is cut into triangles), lengthened so that the steepest face still moves the whole
    distance; at a sharp tip, by three distances at most. Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    mean = np.zeros_like(points_mm)
    angle = np.empty(len(faces))
    for k in range(3):
        for some in _pieces(len(faces)):
            a, b, c = (points_mm[faces[some, (k + j) % 3]] for j in range(3))
            sine = np.linalg.norm(np.cross(b - a, c - a), axis=1)
            angle[some] = np.arctan2(sine, np.einsum("ij,ij->i", b - a, c - a))
            progress.check()
        for axis in range(3):
            mean[:, axis] += np.bincount(faces[:, k], angle * normals[:, axis], len(points_mm))
            progress.check()
    mean /= np.maximum(np.linalg.norm(mean, axis=1), 1e-12)[:, None]
    least = np.ones(len(points_mm))
    for k in range(3):
        for some in _pieces(len(faces)):
            at = faces[some, k]
            np.minimum.at(least, at, np.einsum("ij,ij->i", mean[at], normals[some]))
            progress.check()
    return mean * (distance_mm / np.maximum(least, 1 / 3))[:, None]


def _pieces(count: int) -> list[slice]:
    return [slice(first, first + _FACES_A_GO) for first in range(0, count, _FACES_A_GO)]
