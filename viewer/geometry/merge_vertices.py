"""Merge corners of equal position into one vertex each, so that edges can be followed.

Equal means equal to the last bit (−0 equals 0). Where the numbers carry noise around zero (such as
5e-17 beside 0), they can be rounded to a grid first; nothing is ever compared with a tolerance, so
the answer does not depend on the order of anything but the file.
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.progress import Progress

_CHUNK = 250_000  # corners hashed between two looks at the progress token, about 25 ms


@compiled
def _grid_value(value, step):
    """The value rounded to a multiple of `step` (0: not at all), with −0 turned into 0."""
    if step > 0.0:
        value = np.rint(value / step) * step
    return value + 0.0


@compiled
def _hash(x, y, z):
    """64 well-mixed bits of a position."""
    mixed = (
        np.float64(x).view(np.uint64) * np.uint64(0x9E3779B97F4A7C15)
        ^ np.float64(y).view(np.uint64) * np.uint64(0xC2B2AE3D27D4EB4F)
        ^ np.float64(z).view(np.uint64) * np.uint64(0x165667B19E3779F9)
    )
    # Coordinates like 0.5 differ in their highest bits only; fold those down.
    mixed = (mixed ^ (mixed >> np.uint64(29))) * np.uint64(0xBF58476D1CE4E5B9)
    return mixed ^ (mixed >> np.uint64(32))


@compiled
def _hash_chunk(positions, start, stop, step, table, vertices, found, vertex_of):
    """Give corners start..stop their vertex; `table` is an open-addressing hash of vertices."""
    mask = np.uint64(len(table) - 1)
    for corner in range(start, stop):
        x = _grid_value(np.float64(positions[corner, 0]), step)
        y = _grid_value(np.float64(positions[corner, 1]), step)
        z = _grid_value(np.float64(positions[corner, 2]), step)
        slot = _hash(x, y, z) & mask
        while True:
            vertex = table[slot]
            if vertex < 0:
                table[slot] = found
                vertices[found, 0] = x
                vertices[found, 1] = y
                vertices[found, 2] = z
                vertex_of[corner] = found
                found += 1
                break
            if vertices[vertex, 0] == x and vertices[vertex, 1] == y and vertices[vertex, 2] == z:
                vertex_of[corner] = vertex
                break
            slot = (slot + np.uint64(1)) & mask
    return found


def merge_vertices(
    positions: np.ndarray, progress: Progress | None = None, step: float = 0.0
) -> tuple[np.ndarray, np.ndarray]:
    """The distinct positions in order of first appearance, and which of them each corner is.

    positions : (n, 3) float32 or float64, finite
    step : 0, or a power of two to whose multiples the positions are rounded first; float32
        numbers from 2²⁴ steps on are multiples already and stay as they are
    Returns (k, 3) float64 vertices and (n,) int32 with (rounded) positions == vertices[index].
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    count = len(positions)
    # At worst (no corner shared) three quarters of the table fill up; usually a sixth of that.
    table = np.full(1 << max(4, (4 * count // 3).bit_length()), -1, np.int32)
    vertices = np.empty((count, 3))
    vertex_of = np.empty(count, np.int32)
    found = 0
    for start in range(0, count, _CHUNK):
        stop = min(start + _CHUNK, count)
        found = _hash_chunk(positions, start, stop, step, table, vertices, found, vertex_of)
        progress.report(stop / count, "Joining the facets")
    return vertices[:found].copy(), vertex_of
