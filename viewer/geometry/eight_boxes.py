"""A tree of boxes over faces in order, eight to a node, for rays.

Eight faces that follow one another along the curve share a node of the lowest level, eight such
nodes one of the next, and so on up to a single one. A node keeps the boxes of its children as whole
numbers of 8 bits, rounded outwards (after Ylitie, Karras & Laine 2017, "Efficient incoherent ray
traversal on GPUs through compressed wide BVHs"; MEM), so that a million faces take 9 MB and a ray
touches little memory. Boxes only tell what cannot be met; faces are asked in double precision.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.eight_lanes import CORNER, HIGH, LANES, LEVEL, LOW, NODE_BYTES, STEP
from viewer.progress import Progress

_GROWN, _THINNEST = 1e-6, 1e-5  # of the farthest coordinate; rounding of single precision is 6e-8
_CODES = 250.0  # of the 255 there are; the rest is for rounding
_EDGE = 0.05  # of a step, for rounding in single precision


class EightBoxes(NamedTuple):
    """nodes : (k, 64) uint8, see `eight_lanes`, the uppermost first
    shifts : (levels,) int64, the first child of node i on level l is 8·i + shifts[l]
    lowest : int, the first node whose children are faces; its first child is face 8·(i − lowest)
    """

    nodes: np.ndarray
    shifts: np.ndarray
    lowest: int


def build_eight_boxes(corners_mm: np.ndarray, progress: Progress | None = None) -> EightBoxes:
    """The tree over (m, 3, 3) float64 corners of faces in a curve's order. Raises Cancelled."""
    progress = progress or Progress()
    sizes = [max(-(-len(corners_mm) // LANES), 1)]
    while sizes[0] > 1:
        sizes.insert(0, -(-sizes[0] // LANES))
    starts = np.concatenate([[0], np.cumsum(sizes)])
    nodes = _on_cache_lines(int(starts[-1]))
    far_mm = max(float(np.abs(corners_mm).max(initial=0.0)), 1e-6)
    boxes = _lowest_nodes(
        corners_mm, nodes[starts[-2] :], len(sizes) - 1, far_mm, progress.stop_flag
    )
    progress.check()
    for level in range(len(sizes) - 2, -1, -1):
        boxes = _joined_nodes(boxes, nodes[starts[level] : starts[level + 1]], level, far_mm)
    return EightBoxes(nodes, starts[1:] - LANES * starts[:-1], int(starts[-2]))


def _on_cache_lines(count: int) -> np.ndarray:
    """(count, 64) uint8, each row in one line of the processor's cache."""
    room = np.zeros((count + 1) * NODE_BYTES, np.uint8)
    first = -room.ctypes.data % NODE_BYTES
    return room[first : first + count * NODE_BYTES].reshape(count, NODE_BYTES)


@compiled
def _lowest_nodes(corners, nodes, level, far, stop):
    """Fill the nodes whose children are faces; returns their boxes, low and high (k, 2, 3)."""
    around, eight = np.empty((len(nodes), 2, 3)), np.empty((LANES, 2, 3))
    for i in range(len(nodes)):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        count = min(LANES, len(corners) - LANES * i)
        for k in range(count):
            a, b, c = corners[LANES * i + k]
            for axis in range(3):
                eight[k, 0, axis] = min(a[axis], b[axis], c[axis]) - _GROWN * far
                eight[k, 1, axis] = max(a[axis], b[axis], c[axis]) + _GROWN * far
        _fill_node(eight, count, nodes[i], level, far, around[i])
    return around


@compiled
def _joined_nodes(boxes, nodes, level, far):
    around = np.empty((len(nodes), 2, 3))
    for i in range(len(nodes)):
        eight = boxes[LANES * i : LANES * (i + 1)]
        _fill_node(eight, len(eight), nodes[i], level, far, around[i])
    return around


@compiled
def _fill_node(boxes, count, node, level, far, around):
    """Write `count` boxes into a node, and the box around them into `around` (2, 3)."""
    corner = node[CORNER : CORNER + 12].view(np.float32)
    node[LEVEL] = level
    for axis in range(3):
        low, high = np.inf, -np.inf
        for k in range(count):
            low, high = min(low, boxes[k, 0, axis]), max(high, boxes[k, 1, axis])
        if count <= 0:
            low, high = 0.0, 0.0
        around[0, axis], around[1, axis] = low, high
        power = np.ceil(np.log2(max(high - low, _THINNEST * far) / _CODES))
        step = 2.0**power
        node[STEP + axis] = int(power) + 127
        corner[axis] = low - 2.0 * step
        start = np.float64(corner[axis])
        for k in range(LANES):
            first, last = 255.0, 0.0  # an empty box, which no ray meets
            if k < count:
                first = np.floor((boxes[k, 0, axis] - start) / step - _EDGE)
                last = np.ceil((boxes[k, 1, axis] - start) / step + _EDGE)
            node[LOW + LANES * axis + k] = int(min(max(first, 0.0), 255.0))
            node[HIGH + LANES * axis + k] = int(min(max(last, 0.0), 255.0))
