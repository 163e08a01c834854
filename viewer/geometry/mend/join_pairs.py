"""Let near vertices become one, the nearest first, but never two that an edge joins."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.union_find import lowest_of_group


@compiled
def join_pairs(pairs, starts, ends, banned, stop):
    """(n,) int32: for each vertex the lowest of those that it becomes one with, or itself.

    pairs : (p, 2) int32, in the order in which they are joined, unless an edge joins any two of
        the vertices that would become one
    starts, ends : (n + 1,) int64 and int32, edges between such vertices, see `sew_seams`
    banned : (n,) bool, vertices that stay as they are
    stop : (1,) uint8, not 0 to return early
    """
    count = len(banned)
    parent = np.arange(count).astype(np.int32)
    after = np.full(count, -1, np.int32)  # the next member of the group, from its lowest on
    last = np.arange(count).astype(np.int32)
    for p in range(len(pairs)):
        if p % 4096 == 0 and stop[0]:
            break
        if banned[pairs[p, 0]] or banned[pairs[p, 1]]:
            continue
        a = lowest_of_group(parent, pairs[p, 0])
        b = lowest_of_group(parent, pairs[p, 1])
        if a == b or _edge_between(a, b, parent, after, starts, ends):
            continue
        low, high = min(a, b), max(a, b)
        parent[high] = low
        after[last[low]] = high
        last[low] = last[high]
    for v in range(count):
        parent[v] = parent[parent[v]]  # a parent is lower than its child, so it is final already
    return parent


@compiled
def _edge_between(a, b, parent, after, starts, ends):
    member = a
    while member >= 0:
        for i in range(starts[member], starts[member + 1]):
            if lowest_of_group(parent, ends[i]) == b:
                return True
        member = after[member]
    return False
