"""Points spread evenly over the surface of a part, kept for all build directions.

The points follow one another along the ray tree's curve, so that every k-th of them is spread over
the whole surface, too (systematic sampling). Within a face they lie on the R2 sequence (Roberts
2018, "The unreasonable effectiveness of quasirandom sequences"; MEM).
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.prepared_part import PreparedPart
from viewer.progress import Progress

_STEP_U, _STEP_V = 0.7548776662466927, 0.5698402909980532  # 1 / ρ and 1 / ρ², ρ the plastic number


class SurfaceSamples(NamedTuple):
    """s points, each of which stands for the same area, `each_mm2`.

    points_mm : (s, 3) float64, in the frame of `PreparedPart.points_mm`
    x, y, z : (s,) float32, unit outward normal
    classes : (s,) uint8, class number of the face
    class_of_place : (t,) uint8, class number of the face at each place of the ray tree
    """

    points_mm: np.ndarray
    x: np.ndarray
    y: np.ndarray
    z: np.ndarray
    classes: np.ndarray
    class_of_place: np.ndarray
    each_mm2: float


def surface_samples(
    part: PreparedPart, face_classes: np.ndarray, count: int, progress: Progress
) -> SurfaceSamples:
    """About `count` points on the united surface. Raises Cancelled.

    face_classes : (m,) uint8
    """
    part.get_ready(progress, "ray_tree")
    tree = part.ray_tree
    origin = part.solid_origin[tree.order]
    progress.check()
    # Where shells could not be united, what is buried is left out by the share that is exposed.
    share = part.exposed_share[origin] if part.solid_faces is part.faces else None
    made = _lay_samples(
        tree.corners_mm, np.ones(1, np.float32) if share is None else share, count,
        progress.stop_flag,
    )  # fmt: skip
    progress.check()
    points, normals, places, each_mm2 = made
    class_of_place = face_classes[origin]
    rows = (np.ascontiguousarray(normals[:, axis]) for axis in range(3))
    return SurfaceSamples(points, *rows, class_of_place[places], class_of_place, each_mm2)


@compiled
def _lay_samples(corners, share, count, stop):
    areas, total = np.empty(len(corners)), 0.0
    normal = np.empty(3)
    for f in range(len(corners)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        areas[f] = _area_and_normal(corners[f], normal) * share[f if len(share) > 1 else 0]
        total += areas[f]
    points, normals = np.empty((count, 3)), np.zeros((count, 3), np.float32)
    places = np.zeros(count, np.int64)
    found, passed, step = 0, 0.0, total / count
    for f in range(len(corners)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        passed += areas[f]
        while found < count and (found + 0.5) * step < passed:
            _area_and_normal(corners[f], normal)
            u, v = (found * _STEP_U) % 1.0, (found * _STEP_V) % 1.0
            if u + v > 1.0:
                u, v = 1.0 - u, 1.0 - v
            for axis in range(3):
                a = corners[f, 0, axis]
                points[found, axis] = (
                    a + u * (corners[f, 1, axis] - a) + v * (corners[f, 2, axis] - a)
                )
                normals[found, axis] = normal[axis]
            places[found] = f
            found += 1
    return points[:found], normals[:found], places[:found], step


@compiled
def _area_and_normal(corners, normal):
    """Area of a face; its unit normal is written into `normal`."""
    ux, uy, uz = corners[1] - corners[0]
    vx, vy, vz = corners[2] - corners[0]
    normal[0], normal[1], normal[2] = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    length = np.sqrt(normal[0] ** 2 + normal[1] ** 2 + normal[2] ** 2)
    if length > 0:
        for axis in range(3):
            normal[axis] /= length
    return 0.5 * length
