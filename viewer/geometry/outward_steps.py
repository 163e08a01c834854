"""Steps of vertices that move every face outward by the same distance."""

import numpy as np


def outward_steps(
    points_mm: np.ndarray, faces: np.ndarray, normals: np.ndarray, distance_mm: float
) -> np.ndarray:
    """Step of each vertex that moves every face at it outward by about `distance_mm`.

    points_mm : (n, 3) float64; faces : (m, 3) int32; normals : (m, 3) float64, unit
    returns (n, 3) float64

    Along the mean normal (weighed by the angle at the vertex, so that it does not depend on how a
    flat side is cut into triangles), lengthened so that the steepest face still moves the whole
    distance; at a sharp tip, by three distances at most.
    """
    mean = np.zeros_like(points_mm)
    for k in range(3):
        a, b, c = (points_mm[faces[:, (k + j) % 3]] for j in range(3))
        sine = np.linalg.norm(np.cross(b - a, c - a), axis=1)
        angle = np.arctan2(sine, np.einsum("ij,ij->i", b - a, c - a))
        for axis in range(3):
            mean[:, axis] += np.bincount(faces[:, k], angle * normals[:, axis], len(points_mm))
    mean /= np.maximum(np.linalg.norm(mean, axis=1), 1e-12)[:, None]
    least = np.ones(len(points_mm))
    for k in range(3):
        np.minimum.at(least, faces[:, k], np.einsum("ij,ij->i", mean[faces[:, k]], normals))
    return mean * (distance_mm / np.maximum(least, 1 / 3))[:, None]
