"""Corners of open edges that lie on the middle of other open edges."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.progress import Progress

_AT_THE_END = 1e-6  # share of an edge: a corner so near its end does not cut it
_EDGES_A_GO = 512  # edges between two looks at the progress token


def corners_on_edges(
    points: np.ndarray,
    faces: np.ndarray,
    open_edges: np.ndarray,
    at_edge: np.ndarray,
    within_mm: float,
    progress: Progress,
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Which corners lie on which edges: edge ((h,) int64), vertex ((h,) int32), share ((h,)).

    points : (n, 3) float64; faces : (m, 3) int32; open_edges : (k, 2) int32
    at_edge : (k,) int64, the face behind each edge, whose own corners do not count
    share : how far along the edge, from its start at 0 to its end at 1, ends left out
    Raises Cancelled.
    """
    rim = np.unique(open_edges)
    rim = rim[np.argsort(points[rim, 0], kind="stable")]
    # Those that lie within reach of an edge along x follow one another.
    ends_x = np.sort(points[open_edges, 0], axis=1)
    x = points[rim, 0]
    first = np.searchsorted(x, ends_x[:, 0] - within_mm)
    last = np.searchsorted(x, ends_x[:, 1] + within_mm)
    places = points[rim]
    found = []
    for start in range(0, len(open_edges), _EDGES_A_GO):
        progress.check()
        stop = min(start + _EDGES_A_GO, len(open_edges))
        found.append(
            _on_edges(
                points, faces, open_edges, at_edge, first, last, rim, places, within_mm,
                start, stop, progress.stop_flag,
            )
        )  # fmt: skip
    progress.check()
    edge, corner, share = (np.concatenate(parts) for parts in zip(*found, strict=True))
    return edge, corner, share


@compiled
def _on_edges(
    points, faces, open_edges, at_edge, first, last, rim, places, within, start, stop, stopped
):  # fmt: skip
    edge, corner, share = [np.int64(0)], [np.int32(0)], [0.0]
    for e in range(start, stop):
        if stopped[0]:
            break
        a, b, face = points[open_edges[e, 0]], points[open_edges[e, 1]], faces[at_edge[e]]
        dx, dy, dz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
        length = dx * dx + dy * dy + dz * dz
        if length <= within * within:
            continue
        margin = max(_AT_THE_END, within / length**0.5 * 0.5)
        for i in range(first[e], last[e]):
            x, y, z = places[i, 0] - a[0], places[i, 1] - a[1], places[i, 2] - a[2]
            along = (x * dx + y * dy + z * dz) / length
            if along <= margin or along >= 1.0 - margin:
                continue
            x, y, z = x - along * dx, y - along * dy, z - along * dz
            if x * x + y * y + z * z > within * within:
                continue
            if rim[i] == face[0] or rim[i] == face[1] or rim[i] == face[2]:
                continue
            edge.append(np.int64(e))
            corner.append(rim[i])
            share.append(along)
    return np.array(edge)[1:], np.array(corner)[1:], np.array(share)[1:]
