"""Which faces overhang: undersides flatter than the support limit that do not lie on the platform.

n_z = unit outward normal · build direction; an underside has n_z < 0, and cos α = |n_z| with the
inclination α from horizontal. α < limit − 0.01° is an overhang; a face at the limit holds itself.
"""

import numpy as np

from viewer.geometry.compiled import compiled

LIMIT_TOLERANCE_DEG = 0.01
PLATFORM_ANGLE_DEG = 0.1
PLATFORM_HEIGHT_MM = 0.001

OVERHANG, ON_PLATFORM = 1, 2


def steepest_overhang_n_z(support_limit_deg: float) -> float:
    """n_z below which an underside overhangs; −2, which nothing is below, for a limit of 0°."""
    strict = support_limit_deg - LIMIT_TOLERANCE_DEG
    return -float(np.cos(np.radians(strict))) if strict > 0 else -2.0


def underside_kinds(
    normals: np.ndarray,
    up: np.ndarray,
    faces: np.ndarray,
    heights_mm: np.ndarray,
    support_limit_deg: float,
) -> tuple[np.ndarray, np.ndarray]:
    """n_z of each face, and whether it overhangs (1), lies on the platform (2) or neither (0).

    normals : (m, 3) float, unit outward normals in part coordinates
    up : (3,) float64, build direction in part coordinates
    faces : (m, 3) int32
    heights_mm : (n,) float64, vertex heights above the platform
    returns (m,) float32 and (m,) uint8

    On the platform: within 0.1° of straight down, and all corners within 0.001 mm of it.
    """
    level = -float(np.cos(np.radians(PLATFORM_ANGLE_DEG)))
    limit = steepest_overhang_n_z(support_limit_deg)
    return _sort_undersides(normals, np.asarray(up, np.float64), faces, heights_mm, limit, level)


@compiled
def _sort_undersides(normals, up, faces, heights, limit, level):
    n_z = np.empty(len(normals), np.float32)
    kinds = np.zeros(len(normals), np.uint8)
    x, y, z = up
    for f in range(len(normals)):
        dot = normals[f, 0] * x + normals[f, 1] * y + normals[f, 2] * z
        n_z[f] = dot
        if dot <= level:
            highest = max(heights[faces[f, 0]], heights[faces[f, 1]], heights[faces[f, 2]])
            if highest <= PLATFORM_HEIGHT_MM:
                kinds[f] = ON_PLATFORM
                continue
        if dot < limit:
            kinds[f] = OVERHANG
    return n_z, kinds
