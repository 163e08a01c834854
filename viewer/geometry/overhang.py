"""Which faces overhang: undersides flatter than the support limit that do not lie on the platform.

n_z = unit outward normal · build direction; an underside has n_z < 0, and cos α = |n_z| with the
inclination α from horizontal. α < limit − 0.01° is an overhang; a face at the limit holds itself.
On the platform: within 0.1° of straight down, and all corners within 0.001 mm of it.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.turned_part import TurnedPart

LIMIT_TOLERANCE_DEG = 0.01
PLATFORM_ANGLE_DEG = 0.1
PLATFORM_HEIGHT_MM = 0.001

OVERHANG, ON_PLATFORM = 1, 2


class Undersides(NamedTuple):
    """What faces down in a pose; areas lie on the surface of the union of all shells.

    n_z : (m,) float32
    kinds : (m,) uint8: OVERHANG, ON_PLATFORM or 0
    overhang_share : (m,) float32, share of each face's area that overhangs
    """

    n_z: np.ndarray
    kinds: np.ndarray
    overhang_share: np.ndarray
    overhang_mm2: ByClass
    platform_contact_mm2: ByClass


def steepest_overhang_n_z(support_limit_deg: float) -> float:
    """n_z below which an underside overhangs; −2, which nothing is below, for a limit of 0°."""
    strict = support_limit_deg - LIMIT_TOLERANCE_DEG
    return -float(np.cos(np.radians(strict))) if strict > 0 else -2.0


def find_undersides(
    part: PreparedPart, turned: TurnedPart, face_classes: np.ndarray, support_limit_deg: float
) -> Undersides:
    """Overhangs and platform contact of a turned part, exact for each face.

    face_classes : (m,) uint8
    """
    level = -float(np.cos(np.radians(PLATFORM_ANGLE_DEG)))
    limit = steepest_overhang_n_z(support_limit_deg)
    highest_contact = turned.platform_mm + PLATFORM_HEIGHT_MM
    n_z, kinds, share, sums = _sort_undersides(
        part.normals, part.exposed_mm2, part.exposed_share, face_classes, part.faces,
        turned.points_mm, turned.up, highest_contact, limit, level,
    )  # fmt: skip
    return Undersides(n_z, kinds, share, _by_class(sums[0]), _by_class(sums[1]))


def _by_class(sums: np.ndarray) -> ByClass:
    unmarked, a, b = (float(x) for x in sums)
    return ByClass(a, b, unmarked, a + b + unmarked)


@compiled
def _sort_undersides(
    normals, exposed, exposed_share, face_classes, faces, points, up, highest_contact, limit, level
):
    n_z = np.empty(len(normals), np.float32)
    kinds = np.zeros(len(normals), np.uint8)
    share = np.zeros(len(normals), np.float32)
    sums = np.zeros((2, 3))
    x, y, z = np.float32(up[0]), np.float32(up[1]), np.float32(up[2])
    for f in range(len(normals)):
        dot = normals[f, 0] * x + normals[f, 1] * y + normals[f, 2] * z
        n_z[f] = dot
        if dot >= limit and dot > level:
            continue
        if dot <= level:
            a, b, c = points[faces[f, 0], 2], points[faces[f, 1], 2], points[faces[f, 2], 2]
            if max(a, b, c) <= highest_contact:
                kinds[f] = ON_PLATFORM
                sums[1, face_classes[f]] += exposed[f]
                continue
        if dot < limit and exposed_share[f] > 0:
            kinds[f] = OVERHANG
            share[f] = exposed_share[f]
            sums[0, face_classes[f]] += exposed[f]
    return n_z, kinds, share, sums
