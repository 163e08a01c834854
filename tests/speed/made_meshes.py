"""Meshes of any number of facets, the same at every run."""

import numpy as np

from viewer.geometry.mesh import Mesh


def bumpy_ball(facets: int) -> Mesh:
    """A closed ball of about 50 mm with bumps that overhang; `facets` is met within a few per cent.

    A grid of latitudes and longitudes between two poles.
    """
    around = max(int(np.sqrt(facets)), 8)
    rings = max(round(facets / (2 * around)), 3)
    polar = np.pi * (np.arange(rings) + 1) / (rings + 1)
    turn = 2 * np.pi * np.arange(around) / around
    p, t = np.meshgrid(polar, turn, indexing="ij")
    radius = 20 + 2.5 * np.sin(9 * p) * np.sin(8 * t) * np.sin(p) + np.sin(23 * p + 17 * t)
    points = np.stack([np.sin(p) * np.cos(t), np.sin(p) * np.sin(t), np.cos(p)], axis=-1)
    poles = [[0.0, 0.0, 20.0], [0.0, 0.0, -20.0]]
    points = np.vstack([(radius[..., None] * points).reshape(-1, 3), poles])
    north, south = rings * around, rings * around + 1
    i = np.arange(around)
    j = (i + 1) % around
    row = around * np.arange(rings - 1)[:, None]
    a, b, c, d = row + i, row + j, row + around + i, row + around + j
    faces = [np.stack(x, axis=-1).reshape(-1, 3) for x in ((a, c, b), (b, c, d))]
    last = (rings - 1) * around
    caps = [np.stack([np.full(around, north), i, j], axis=-1)]
    caps.append(np.stack([np.full(around, south), last + j, last + i], axis=-1))
    return Mesh(points, np.vstack(faces + caps).astype(np.int32))


def random_classes(facets: int) -> np.ndarray:
    """(m,) uint8: a class for every face, at random with a fixed seed."""
    return np.random.default_rng(3).integers(0, 3, facets).astype(np.uint8)
