"""How far the flats of a coarse tessellation lie from the curve that they stand for."""

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress

# Common practice, no source: a bend beyond this is meant as an edge, one below as rounding.
SHARPEST_BEND_DEG, SLIGHTEST_BEND_DEG = 32.0, 1.0
LEAST_MM = 0.0025  # a quarter of the thinnest layer that can be set; less is told as nothing
_ALIKE = 2.5  # neighbouring flats of a curve, and their bends, differ by no more than this factor


def chord_errors_mm(
    vertices_mm: np.ndarray,
    faces: np.ndarray,
    neighbours: np.ndarray,
    normals: np.ndarray,
    progress: Progress | None = None,
) -> np.ndarray:
    """(m,) float32: largest distance of each face from the curve it stands for; 0 where flat.

    vertices_mm : (n, 3) float64; faces, neighbours : (m, 3) int32
    normals : (m, 3) float64, unit, by winding

    A chord c of a circle that turns by δ from flat to flat lies c/2 · tan(δ/4) inside of it (CALC).
    A bend counts only in a row: on at least one side another bend of a similar angle and the same
    sense follows, across a flat of similar width. So a chamfer, or a plane between two roundings,
    is no curve. Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    low, high = np.radians(SLIGHTEST_BEND_DEG), np.radians(SHARPEST_BEND_DEG)
    errors = _chord_errors(
        vertices_mm, faces, neighbours, normals, low, high, LEAST_MM, progress.stop_flag
    )
    progress.check()
    return errors


@compiled
def _chord_errors(vertices, faces, neighbours, normals, slightest, sharpest, least_error, stop):
    errors = np.zeros(len(faces), np.float32)
    least, most = np.cos(sharpest), np.cos(slightest)
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        for k in range(3):
            g = neighbours[f, k]
            if g <= f:
                continue
            cosine = _dot(normals, f, g)
            if cosine < least or cosine > most:
                continue
            width_f = _height(vertices, faces, f, k)
            back = 0
            while back < 2 and neighbours[g, back] != f:
                back += 1
            width_g = _height(vertices, faces, g, back)
            small, large = min(width_f, width_g), max(width_f, width_g)
            if small <= 0.0 or large > _ALIKE * small:
                continue
            # tan(δ/4) < √(2(1 − cos δ)) / 3.9 up to the sharpest bend: most faces end here.
            if 0.5 * small * (2.0 * (1.0 - cosine)) ** 0.5 < 3.9 * least_error:
                continue
            bend = np.arccos(min(cosine, 1.0))
            error = 0.5 * small * np.tan(0.25 * bend)
            if error <= errors[f] and error <= errors[g]:
                continue
            sense = _sense(vertices, faces, normals, f, g, back)
            if _goes_on(vertices, faces, neighbours, normals, f, g, bend, sense, slightest) or (
                _goes_on(vertices, faces, neighbours, normals, g, f, bend, sense, slightest)
            ):
                errors[f] = max(errors[f], error)
                errors[g] = max(errors[g], error)
    return errors


@compiled
def _goes_on(vertices, faces, neighbours, normals, f, came, bend, sense, slightest):
    """Whether another bend of f, or of a flat neighbour of f, carries on the bend to `came`."""
    for k in range(3):
        g = neighbours[f, k]
        if g < 0 or g == came:
            continue
        if _dot(normals, f, g) > np.cos(0.5 * slightest):
            for j in range(3):  # the other half of a flat cut along its diagonal
                h = neighbours[g, j]
                if (
                    h >= 0
                    and h != f
                    and _is_like(vertices, faces, neighbours, normals, g, j, bend, sense)
                ):
                    return True
        elif _is_like(vertices, faces, neighbours, normals, f, k, bend, sense):
            return True
    return False


@compiled
def _is_like(vertices, faces, neighbours, normals, f, k, bend, sense):
    g = neighbours[f, k]
    angle = np.arccos(min(max(_dot(normals, f, g), -1.0), 1.0))
    if angle > _ALIKE * bend or angle * _ALIKE < bend:
        return False
    back = 0
    while back < 2 and neighbours[g, back] != f:
        back += 1
    return _sense(vertices, faces, normals, f, g, back) == sense


@compiled
def _dot(normals, f, g):
    return (
        normals[f, 0] * normals[g, 0]
        + normals[f, 1] * normals[g, 1]
        + normals[f, 2] * normals[g, 2]
    )


@compiled
def _height(vertices, faces, f, k):
    """Height of a face over its edge k."""
    a, b, c = faces[f, k], faces[f, (k + 1) % 3], faces[f, (k + 2) % 3]
    ux, uy, uz = (
        vertices[b, 0] - vertices[a, 0], vertices[b, 1] - vertices[a, 1],
        vertices[b, 2] - vertices[a, 2],
    )  # fmt: skip
    vx, vy, vz = (
        vertices[c, 0] - vertices[a, 0], vertices[c, 1] - vertices[a, 1],
        vertices[c, 2] - vertices[a, 2],
    )  # fmt: skip
    nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    length = ux * ux + uy * uy + uz * uz
    return ((nx * nx + ny * ny + nz * nz) / length) ** 0.5 if length > 0.0 else 0.0


@compiled
def _sense(vertices, faces, normals, f, g, back):
    """+1 where g falls away from the plane of f (convex), −1 where it rises."""
    free, on = faces[g, (back + 2) % 3], faces[g, back]
    height = 0.0
    for k in range(3):
        height += normals[f, k] * (vertices[free, k] - vertices[on, k])
    return 1 if height < 0.0 else -1
