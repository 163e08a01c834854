"""The section of a part at half its first layer: what really stands on the platform."""

import numpy as np

from viewer.geometry.compiled import compiled


def section_segments(turned_mm: np.ndarray, faces: np.ndarray, z_mm: float) -> np.ndarray:
    """Where the faces meet the level plane z, each segment with the material on its left.

    turned_mm : (n, 3) float64, z up
    faces : (m, 3) int32, wound outward
    returns (s, 2, 2) float64, start and end (x, y) of each segment
    """
    below = turned_mm[:, 2] <= z_mm
    count = below[faces].sum(axis=1)
    cut = faces[(count == 1) | (count == 2)]
    return _cut_faces(turned_mm, cut, z_mm)


@compiled
def _cut_faces(points, faces, z):
    segments = np.empty((len(faces), 2, 2))
    for f in range(len(faces)):
        for k in range(3):
            a, b = faces[f, k], faces[f, (k + 1) % 3]
            rises = points[a, 2] <= z and points[b, 2] > z
            falls = points[b, 2] <= z and points[a, 2] > z
            if rises or falls:
                low, high = (a, b) if rises else (b, a)
                share = (z - points[low, 2]) / (points[high, 2] - points[low, 2])
                # Seen from outside, with the material behind the face, its rising edge is on the
                # right; walking with the material on the left ends there.
                end = 1 if rises else 0
                for axis in range(2):
                    start = points[low, axis]
                    segments[f, end, axis] = start + share * (points[high, axis] - start)
    return segments


def section_area_mm2(segments_mm: np.ndarray) -> float:
    """Area enclosed by the segments of a section (Green's theorem), holes taken off.

    segments_mm : (s, 2, 2) float64 from `section_segments`
    """
    if not len(segments_mm):
        return 0.0
    a, b = (segments_mm[:, k] - segments_mm.mean(axis=(0, 1)) for k in range(2))
    return max(0.0, float(0.5 * np.sum(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])))
