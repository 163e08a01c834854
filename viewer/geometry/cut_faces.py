"""The flat face that closes a cut: triangles that span the rim, using no vertex but the rim's.

manifold3d's triangulation always gives triangles whose edges match the rim, even where the rim
touches or crosses itself; what it leaves out, such as loops without area, is closed by fans.
"""

import manifold3d
import numpy as np


def span_rim(rim: np.ndarray, places_mm: np.ndarray) -> np.ndarray:
    """(t, 3) int64 triangles that end along the rim, run the other way round.

    rim : (e, 2) int64, directed edges; ends that stay open are joined by straight edges
    places_mm : (n, 2) float64 of all vertices, in the plane; triangles lie anticlockwise in it
    """
    loops = closed_loops(rim[:, ::-1], places_mm)
    if not loops:
        return np.empty((0, 3), np.int64)
    corners = np.concatenate(loops)
    made = manifold3d.triangulate([places_mm[loop] for loop in loops])
    triangles = corners[np.asarray(made, np.int64).reshape(-1, 3)]
    triangles = triangles[(triangles != np.roll(triangles, 1, axis=1)).all(axis=1)]
    wanted = np.concatenate([np.stack([loop, np.roll(loop, -1)], axis=1) for loop in loops])
    left = _edges_left(wanted, triangles)
    fans = [_fan(loop) for loop in closed_loops(left, places_mm)]
    return np.concatenate([triangles, *fans])


def closed_loops(edges: np.ndarray, places_mm: np.ndarray) -> list[np.ndarray]:
    """Loops of vertices that the directed edges (e, 2) make, each edge used once.

    Where a loop meets itself it turns as far left as it can, so that loops never cross there.
    """
    leaving: dict[int, list[int]] = {}
    for start, end in edges.tolist():
        leaving.setdefault(start, []).append(end)
    _join_open_ends(leaving, edges, places_mm)
    loops = []
    for start in list(leaving):
        while leaving[start]:
            loop, before, here = [], None, start
            while leaving.get(here):
                ahead = leaving[here]
                k = 0 if len(ahead) == 1 else _leftmost(before, here, ahead, places_mm)
                loop.append(here)
                before, here = here, ahead.pop(k)
            if len(loop) > 2:
                loops.append(np.array(loop, np.int64))
    return loops


def _join_open_ends(leaving, edges, places_mm) -> None:
    """Join each open end to the nearest open start by a straight edge: the surface had a gap."""
    out = np.bincount(edges[:, 0], minlength=len(places_mm))
    balance = out - np.bincount(edges[:, 1], minlength=len(places_mm))
    ends = np.repeat(np.arange(len(balance)), np.maximum(-balance, 0)).tolist()
    starts = np.repeat(np.arange(len(balance)), np.maximum(balance, 0)).tolist()
    for end in ends:
        apart = np.linalg.norm(places_mm[starts] - places_mm[end], axis=1)
        leaving.setdefault(end, []).append(starts.pop(int(apart.argmin())))


def _leftmost(before, here, ahead, places_mm) -> int:
    """Which of the vertices ahead lies farthest to the left, seen from the vertex before."""
    if before is None:
        return 0
    back = places_mm[before] - places_mm[here]
    ways = places_mm[ahead] - places_mm[here]
    turn = np.arctan2(
        ways[:, 1] * back[0] - ways[:, 0] * back[1], ways[:, 0] * back[0] + ways[:, 1] * back[1]
    )
    # Clockwise from where one came: the least turn is the sharpest left.
    return int(np.argmax(np.where(turn > 0, turn - 2 * np.pi, turn)))


def _edges_left(wanted, triangles):
    """(k, 2) directed edges that are wanted and that the triangles do not end along."""
    start = np.concatenate([wanted[:, 0], np.roll(triangles, -1, axis=1).ravel()])
    end = np.concatenate([wanted[:, 1], triangles.ravel()])
    count = int(max(start.max(), end.max())) + 1
    keys = np.unique(np.concatenate([start * count + end, end * count + start]))
    forward = np.searchsorted(keys, start * count + end)
    backward = np.searchsorted(keys, end * count + start)
    net = np.bincount(forward, minlength=len(keys)) - np.bincount(backward, minlength=len(keys))
    return np.stack(np.divmod(np.repeat(keys, np.maximum(net, 0)), count), axis=1)


def _fan(loop):
    return np.stack([np.full(len(loop) - 2, loop[0]), loop[1:-1], loop[2:]], axis=1)
