"""The section of a part at half its first layer: what really stands on the platform."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_blocks import faces_across
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.turned_part import TurnedPart


def first_layer_segments(part: PreparedPart, turned: TurnedPart, layer_mm: float) -> np.ndarray:
    """Outline of the section at half the first layer, touching and overlapping shells united.

    returns (s, 2, 2) float64, start and end (x, y) of each segment, the material on its left
    """
    z = turned.platform_mm + 0.5 * layer_mm
    near = faces_across(part.solid_blocks, part.solid_faces, turned.rotation[2], z)
    return section_segments(part.solid_points_mm, part.solid_faces[near], turned.rotation, z)


def section_segments(
    points_mm: np.ndarray, faces: np.ndarray, rotation: np.ndarray, z_mm: float
) -> np.ndarray:
    """Where faces meet the level plane z once turned by `rotation` ((3, 3) float64).

    points_mm : (n, 3) float64
    faces : (m, 3) int32, wound outward
    returns (s, 2, 2) float64 in the turned frame, the material on the left of each segment
    """
    return _cut_faces(points_mm, faces, rotation, z_mm)


@compiled
def _cut_faces(points, faces, rotation, z):
    segments = np.empty((len(faces), 2, 2))
    count = 0
    turned = np.empty((3, 3))
    for f in range(len(faces)):
        for k in range(3):
            p = points[faces[f, k]]
            for axis in range(3):
                turn = rotation[axis]
                turned[k, axis] = turn[0] * p[0] + turn[1] * p[1] + turn[2] * p[2]
        below = 0
        for k in range(3):
            below += turned[k, 2] <= z
        if below == 0 or below == 3:
            continue
        for k in range(3):
            a, b = turned[k], turned[(k + 1) % 3]
            rises = a[2] <= z and b[2] > z
            falls = b[2] <= z and a[2] > z
            if rises or falls:
                low, high = (a, b) if rises else (b, a)
                share = (z - low[2]) / (high[2] - low[2])
                # Seen from outside, with the material behind the face, its rising edge is on the
                # right; walking with the material on the left ends there.
                end = 1 if rises else 0
                for axis in range(2):
                    segments[count, end, axis] = low[axis] + share * (high[axis] - low[axis])
        count += 1
    return segments[:count]


def section_area_mm2(segments_mm: np.ndarray) -> float:
    """Area enclosed by the segments of a section (Green's theorem), holes taken off.

    segments_mm : (s, 2, 2) float64 from `section_segments`
    """
    if not len(segments_mm):
        return 0.0
    a, b = (segments_mm[:, k] - segments_mm.mean(axis=(0, 1)) for k in range(2))
    return max(0.0, float(0.5 * np.sum(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])))
