"""What of a platform is free: where nozzles reach, and the rectangles that nothing stands in."""

from collections.abc import Sequence

import numpy as np

from viewer.shop.machines import Machine
from viewer.shop.placing import ROUNDING_MM, Rectangle


def reach_of(machine: Machine, nozzles: Sequence[int] = ()) -> Rectangle:
    """The part of the platform that each of these nozzles reaches; () for all of them.

    A shared nozzle has place 0 whatever it prints. An empty reach is a point.
    """
    places = [0] if machine.shared_nozzle else list(nozzles) or range(len(machine.nozzles))
    reached = [machine.nozzles[place] for place in places]
    low = np.max([machine.low_mm, *(nozzle.reach_low_mm for nozzle in reached)], axis=0)[:2]
    high = np.min([machine.high_mm, *(nozzle.reach_high_mm for nozzle in reached)], axis=0)[:2]
    return Rectangle(tuple(low.tolist()), tuple(np.maximum(low, high).tolist()))


def free_rectangles(within: Rectangle, taken: Sequence[Rectangle]) -> list[Rectangle]:
    """The largest rectangles between sides of `within` and of what is taken, the largest first.

    Rectangles that lie in another one are left out.
    """
    if not taken:
        return [within]
    low, high = np.array(within.low_mm), np.array(within.high_mm)
    lows, highs = np.array([t.low_mm for t in taken]), np.array([t.high_mm for t in taken])
    spans, blocked = [], []
    for axis in (0, 1):
        cuts = np.concatenate([[low[axis], high[axis]], lows[:, axis], highs[:, axis]])
        cuts = np.unique(cuts[(cuts >= low[axis]) & (cuts <= high[axis])])
        first, last = np.triu_indices(len(cuts), 1)
        spans.append(np.column_stack([cuts[first], cuts[last]]))
        begins, ends = lows[:, axis] < cuts[last][:, None] - ROUNDING_MM, highs[:, axis]
        blocked.append(begins & (cuts[first][:, None] < ends - ROUNDING_MM))
    free = ~(blocked[0][:, None] & blocked[1][None]).any(axis=2)
    x, y = np.nonzero(free)
    boxes = np.column_stack([spans[0][x], spans[1][y]])  # x from, to; y from, to
    boxes = boxes[np.argsort(-(boxes[:, 1] - boxes[:, 0]) * (boxes[:, 3] - boxes[:, 2]))]
    kept: list[tuple[float, float, float, float]] = []
    for x0, x1, y0, y1 in boxes:
        within_one = any(a0 <= x0 and x1 <= a1 and b0 <= y0 and y1 <= b1 for a0, a1, b0, b1 in kept)
        if not within_one:
            kept.append((float(x0), float(x1), float(y0), float(y1)))
    return [Rectangle((x0, y0), (x1, y1)) for x0, x1, y0, y1 in kept]
