"""A slow, plain measure of a pose by random upright lines, to test the fast one against.

It shares nothing with the program but the definitions: points are drawn at random on the undersides
that need support (a face is drawn in proportion to its plan area), the line through each point is
cut with every face above or below it by barycentric coordinates, and the crossings are counted from
the platform up. Everything is numpy; the part has to be closed and wound outward (cavities inward).
"""

from dataclasses import dataclass

import numpy as np

MOST_BINS = 48
CLOSED_GAP_MM = 0.001


@dataclass(frozen=True)
class Oracle:
    """What the random lines found, each number with one standard error.

    overhang_mm2, landing_mm2, short_mm2 : unmarked, A, B and (landing only) platform; short is
        overhang less than `short_mm` above what is below it
    """

    overhang_mm2: np.ndarray
    overhang_error_mm2: np.ndarray
    landing_mm2: np.ndarray
    landing_error_mm2: np.ndarray
    volume_mm3: float
    volume_error_mm3: float
    short_mm2: np.ndarray
    short_error_mm2: np.ndarray


def rotation_to_z(up) -> np.ndarray:
    """Some rotation that carries `up` onto +z."""
    up = np.asarray(up, np.float64) / np.linalg.norm(up)
    helper = np.eye(3)[np.argmin(np.abs(up))]
    x = np.cross(helper, up)
    x /= np.linalg.norm(x)
    return np.stack([x, np.cross(up, x), up])


def measure_by_random_lines(
    vertices, faces, classes, up, limit_deg=45.0, samples=20_000, seed=0, short_mm=0.1
) -> Oracle:
    """Overhang, landing and support volume of a closed part, by `samples` random lines."""
    points = np.asarray(vertices, np.float64) @ rotation_to_z(up).T
    points[:, 2] -= points[np.unique(faces), 2].min()
    corners = points[faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    area = 0.5 * np.linalg.norm(normals, axis=1)
    n_z = 0.5 * normals[:, 2] / np.where(area > 0, area, 1)
    slope = np.degrees(np.arccos(np.clip(np.abs(n_z), 0, 1)))
    lying = (n_z < 0) & (slope <= 0.1) & (corners[:, :, 2].max(axis=1) <= 0.001)
    under = np.flatnonzero((n_z < 0) & (slope < limit_deg - 0.01) & ~lying & (area > 0))
    if not len(under):
        return Oracle(
            np.zeros(3), np.zeros(3), np.zeros(4), np.zeros(4), 0.0, 0.0, *np.zeros((2, 3))
        )
    plan = (area * np.abs(n_z))[under]
    rng = np.random.default_rng(seed)
    drawn = rng.choice(under, samples, p=plan / plan.sum())
    s, t = rng.random((2, samples))
    fold = s + t > 1
    s[fold], t[fold] = 1 - s[fold], 1 - t[fold]
    a, b, c = (corners[drawn, k] for k in range(3))
    places = a + s[:, None] * (b - a) + t[:, None] * (c - a)
    gaps, grounds = _walk(places, drawn, corners, n_z)
    return _add_up(gaps, grounds, drawn, n_z, np.asarray(classes), plan.sum(), short_mm)


def _walk(places, drawn, corners, n_z):
    """Gap under each place (−1 where it is buried), and the face below (−1: the platform)."""
    gaps, grounds = np.full(len(places), -1.0), np.full(len(places), -1)
    for line, face, z in _crossings(places, corners):
        order = np.lexsort([z, line])
        line, face, z = line[order], face[order], z[order]
        step = np.where(n_z[face] < 0, 1, -1)
        first = np.flatnonzero(np.r_[True, line[1:] != line[:-1]])
        of_line = np.repeat(first, np.diff(np.r_[first, len(line)]))
        before = np.cumsum(step) - step
        before -= before[of_line]  # how many bodies a crossing lies in
        # The last crossing below, on the same line, at which all bodies end.
        ends = np.where(before + step == 0, np.arange(len(line)), -1)
        below = np.r_[-1, np.maximum.accumulate(ends)[:-1]]
        below[below < of_line] = -1
        own = np.flatnonzero(face == drawn[line])
        i, below = line[own], below[own]
        floor = np.where(below >= 0, z[below], 0.0)
        gap = places[i, 2] - floor
        stands = (before[own] == 0) & ((below < 0) | (gap >= CLOSED_GAP_MM))
        gaps[i[stands]] = gap[stands]
        grounds[i[stands]] = np.where(below >= 0, face[below], -1)[stands]
    return gaps, grounds


def _crossings(places, corners):
    """For one bin of the ground plane after another: (line, face, z) of every crossing."""
    low, high = corners[..., :2].min(axis=1), corners[..., :2].max(axis=1)
    bins = int(np.clip(np.sqrt(len(corners)) / 4, 1, MOST_BINS))
    edges = [np.linspace(low[:, k].min(), high[:, k].max(), bins + 1) for k in range(2)]
    bin_of_place = [
        np.clip(np.searchsorted(edges[k], places[:, k]) - 1, 0, bins - 1) for k in range(2)
    ]
    for i in range(bins):
        column = np.flatnonzero((low[:, 0] <= edges[0][i + 1]) & (high[:, 0] >= edges[0][i]))
        in_column = np.flatnonzero(bin_of_place[0] == i)
        for j in range(bins):
            lines = in_column[bin_of_place[1][in_column] == j]
            if not len(lines):
                continue
            near = column[(low[column, 1] <= edges[1][j + 1]) & (high[column, 1] >= edges[1][j])]
            yield _cut(places, lines, near, corners)


def _cut(places, lines, near, corners):
    x, y = places[lines, 0][:, None], places[lines, 1][:, None]
    a, b, c = (corners[near, k] for k in range(3))
    whole = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    with np.errstate(divide="ignore", invalid="ignore"):
        u = ((b[:, 0] - x) * (c[:, 1] - y) - (b[:, 1] - y) * (c[:, 0] - x)) / whole
        v = ((c[:, 0] - x) * (a[:, 1] - y) - (c[:, 1] - y) * (a[:, 0] - x)) / whole
        inside = (u >= 0) & (v >= 0) & (u + v <= 1) & (whole != 0)
    line, face = np.nonzero(inside)
    u, v = u[line, face], v[line, face]
    z = u * a[face, 2] + v * b[face, 2] + (1 - u - v) * c[face, 2]
    return lines[line], near[face], z


def _add_up(gaps, grounds, drawn, n_z, classes, plan, short_mm):
    stands = gaps >= 0
    kind = np.eye(3)[classes[drawn]] * stands[:, None]
    overhang = plan * kind / np.abs(n_z[drawn])[:, None]
    short = overhang * (gaps < short_mm)[:, None]
    place = np.where(grounds >= 0, classes[grounds], 3)
    steep = np.where(grounds >= 0, np.maximum(np.abs(n_z[grounds]), 0.02), 1.0)
    landing = plan * np.eye(4)[place] * (stands / steep)[:, None]
    volume = plan * np.where(stands, gaps, 0.0)
    root = np.sqrt(len(gaps))
    return Oracle(
        overhang.mean(axis=0),
        overhang.std(axis=0) / root,
        landing.mean(axis=0),
        landing.std(axis=0) / root,
        float(volume.mean()),
        float(volume.std() / root),
        short.mean(axis=0),
        short.std(axis=0) / root,
    )
