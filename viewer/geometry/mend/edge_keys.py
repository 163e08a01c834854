"""Edges as single whole numbers, so that many are found, counted or compared at once."""

import numpy as np


def edge_keys(faces: np.ndarray) -> np.ndarray:
    """(m, 3) int64: a number for the edge from corner k to corner k + 1, whichever way it runs."""
    start, end = faces.astype(np.int64), np.roll(faces, -1, axis=1).astype(np.int64)
    return np.minimum(start, end) << 32 | np.maximum(start, end)


def directed_keys(edges: np.ndarray) -> np.ndarray:
    """(k,) int64: a number for each edge, (k, 2) vertices from start to end."""
    return edges[:, 0].astype(np.int64) << 32 | edges[:, 1].astype(np.int64)


def faces_with_edge_at(faces: np.ndarray, vertices: np.ndarray, vertex_count: int) -> np.ndarray:
    """The faces, ascending, that have two corners or more among some vertices."""
    chosen = np.zeros(vertex_count, bool)
    chosen[vertices] = True
    return np.flatnonzero(chosen[faces].sum(axis=1) > 1)


def faces_along(faces: np.ndarray, edges: np.ndarray, vertex_count: int) -> np.ndarray:
    """(k,) int64: a face that runs along each directed edge, the last if several do; −1 if none.

    faces : (m, 3) int32; edges : (k, 2) int32, directed
    """
    few = faces_with_edge_at(faces, edges, vertex_count)
    if not len(few) or not len(edges):
        return np.full(len(edges), -1, np.int64)
    corners = faces[few]
    keys = directed_keys(np.stack([corners, np.roll(corners, -1, axis=1)], axis=2).reshape(-1, 2))
    order = np.argsort(keys, kind="stable")
    wanted = directed_keys(edges)
    place = np.searchsorted(keys, wanted, side="right", sorter=order) - 1
    found = order[place]
    return np.where((place >= 0) & (keys[found] == wanted), few[found // 3], -1)
