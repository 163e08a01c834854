"""The faces that one straight piece of a brush stroke reaches, whole or crossed.

The search starts from the faces at both ends of the piece and follows the edges, so that it costs
no more than the faces within reach. A face whose three corners lie within the swept ball lies in it
altogether, as the ball about a straight line is convex; only the others are measured exactly. A
group of faces that hang together is taken in as one where the swept ball holds the ball about the
group, and its faces are looked at one by one only where the border of the swept ball meets it.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.distances import piece_triangle_mm

UNREACHED, CROSSED, WHOLE = 0, 1, 2


@compiled
def _line(start, end):
    """A straight line as its start, its course and the square of its length."""
    x, y, z = end[0] - start[0], end[1] - start[1], end[2] - start[2]
    return start[0], start[1], start[2], x, y, z, x * x + y * y + z * z


@compiled
def _square_mm2(x, y, z, line):
    """Squared distance of a point from a straight line."""
    sx, sy, sz, dx, dy, dz, length2 = line
    x, y, z = x - sx, y - sy, z - sz
    if length2 > 0.0:
        t = min(max((x * dx + y * dy + z * dz) / length2, 0.0), 1.0)
        x, y, z = x - t * dx, y - t * dy, z - t * dz
    return x * x + y * y + z * z


@compiled
def _reach_of(a, b, c, line, start, end, radius):
    """UNREACHED, CROSSED or WHOLE, of a triangle."""
    square = radius * radius
    count = (
        (_square_mm2(a[0], a[1], a[2], line) <= square)
        + (_square_mm2(b[0], b[1], b[2], line) <= square)
        + (_square_mm2(c[0], c[1], c[2], line) <= square)
    )
    if count:
        return WHOLE if count == 3 else CROSSED
    return CROSSED if piece_triangle_mm(start, end, a, b, c) <= radius else UNREACHED


class Scratch(NamedTuple):
    """What searches work with; kept from one stroke to the next, so that nothing grows or is made.

    stamp : (m,) int32, the piece at which each face was last queued; stack : (m,) of those waiting
    asked : (p,) int32, the piece at which each group was last asked times 4, and what it is then
    queued, held : the same as stamp and stack, of groups that the swept ball holds
    whole, crossed : (m,) what a piece finds
    number : (1,) int32, of the last piece
    """

    stamp: np.ndarray
    stack: np.ndarray
    asked: np.ndarray
    queued: np.ndarray
    held: np.ndarray
    whole: np.ndarray
    crossed: np.ndarray
    number: np.ndarray

    def holds(self, faces: int, groups: int) -> bool:
        """Whether there is room for so many."""
        return len(self.stamp) >= faces and len(self.asked) >= groups


def scratch_for(faces: int, groups: int) -> Scratch:
    """With room for so many faces and groups, in memory that is there, not only promised."""
    of_faces = [np.ones(faces, np.int32) for _ in range(4)]
    of_groups = [np.ones(groups, np.int32) for _ in range(3)]
    for stamps in (of_faces[0], *of_groups):
        stamps[:] = 0
    stamp, stack, whole, crossed = of_faces
    return Scratch(stamp, stack, *of_groups, whole, crossed, np.zeros(1, np.int32))


APART, PARTLY, HELD = 1, 2, 3  # how a group lies to the swept ball
LEFT, HIT, HEAD, TAIL, WHOLES, CROSSES = range(6)  # what `at` counts
A_HAIR = 1.0 + 1e-9  # of rounding: a group that is barely met counts as met


@compiled
def _how(x, y, z, size, line, radius):
    """How a group in a ball lies to the swept ball: APART, PARTLY or HELD."""
    square = _square_mm2(x, y, z, line)
    if square > ((radius + size) * A_HAIR) ** 2:
        return APART
    return HELD if radius >= size and square <= (radius - size) ** 2 else PARTLY


@compiled
def _through_faces(vertices, faces, neighbours, start, end, radius, reach, patches, scratch, at):
    """Follow the surface from the faces on the stack, as far as groups are not held."""
    stamp, stack, asked, queued = scratch.stamp, scratch.stack, scratch.asked, scratch.queued
    group, balls, number = patches.group, patches.balls_mm, scratch.number[0]
    line = _line(start, end)
    left, hit = at[LEFT], at[HIT]
    while left > 0:
        left -= 1
        f = stack[left]
        i, j, k = faces[f, 0], faces[f, 1], faces[f, 2]
        a = (vertices[i, 0], vertices[i, 1], vertices[i, 2])
        if reach[f] == WHOLE and _square_mm2(a[0], a[1], a[2], line) <= radius * radius:
            here = WHOLE
        else:
            b = (vertices[j, 0], vertices[j, 1], vertices[j, 2])
            c = (vertices[k, 0], vertices[k, 1], vertices[k, 2])
            here = _reach_of(a, b, c, line, start, end, radius)
        if left < hit:  # faces that are hit always belong
            hit = left
            here = max(here, CROSSED)
        if here == UNREACHED:
            continue
        if reach[f] != WHOLE:
            reach[f] = here
            if here == WHOLE:
                scratch.whole[at[WHOLES]] = f
                at[WHOLES] += 1
            else:
                scratch.crossed[at[CROSSES]] = f
                at[CROSSES] += 1
        for k in range(3):
            g = neighbours[f, k]
            if g < 0 or stamp[g] == number:
                continue
            p = group[g]
            how = asked[p] - 4 * number
            if how < 0:
                how = _how(balls[p, 0], balls[p, 1], balls[p, 2], balls[p, 3], line, radius)
                asked[p] = 4 * number + how
            if how == PARTLY:
                stamp[g] = number
                stack[left] = g
                left += 1
            elif how == HELD and queued[p] != number:
                queued[p] = number
                scratch.held[at[TAIL]] = p
                at[TAIL] += 1
    at[LEFT] = at[HIT] = 0


@compiled
def _through_groups(start, end, radius, reach, patches, done, scratch, at):
    """Take in groups that are held, and those beside them that are; put the rest on the stack."""
    stamp, asked, queued, held = scratch.stamp, scratch.asked, scratch.queued, scratch.held
    balls, number = patches.balls_mm, scratch.number[0]
    line = _line(start, end)
    left, head, tail, wholes = at[LEFT], at[HEAD], at[TAIL], at[WHOLES]
    while head < tail:
        p = held[head]
        head += 1
        if not done[p]:
            done[p] = True
            for f in patches.members[patches.starts[p] : patches.starts[p + 1]]:
                if reach[f] != WHOLE:
                    reach[f] = WHOLE
                    scratch.whole[wholes] = f
                    wholes += 1
        for i in range(patches.beside_starts[p], patches.beside_starts[p + 1]):
            q = patches.beside[i]
            how = asked[q] - 4 * number
            if how < 0:
                how = _how(balls[q, 0], balls[q, 1], balls[q, 2], balls[q, 3], line, radius)
                asked[q] = 4 * number + how
            if how == HELD and queued[q] != number:
                queued[q] = number
                held[tail] = q
                tail += 1
            elif how == PARTLY:
                for j in range(patches.across_starts[i], patches.across_starts[i + 1]):
                    g = patches.across[j]
                    if stamp[g] != number:
                        stamp[g] = number
                        scratch.stack[left] = g
                        left += 1
    at[LEFT], at[HEAD], at[TAIL], at[WHOLES] = left, head, tail, wholes


@compiled
def sweep(
    vertices, faces, neighbours, seeds, start, end, radius, reach, patches, done, scratch
):  # fmt: skip
    """The faces that a ball moved from start to end reaches from some faces on it.

    start, end : three coordinates; reach : (m,) uint8 and done : (p,) bool, of the whole stroke,
    are brought up to date. Returns (w,) int32 faces that only now are WHOLE, and (c,) CROSSED.
    """
    at = np.zeros(6, np.int64)
    scratch.number[0] += 1
    for f in seeds:
        if scratch.stamp[f] != scratch.number[0]:
            scratch.stamp[f] = scratch.number[0]
            scratch.stack[at[LEFT]] = f
            at[LEFT] += 1
    at[HIT] = at[LEFT]
    while at[LEFT] > 0 or at[HEAD] < at[TAIL]:
        _through_faces(
            vertices, faces, neighbours, start, end, radius, reach, patches, scratch, at
        )  # fmt: skip
        _through_groups(start, end, radius, reach, patches, done, scratch, at)
    return scratch.whole[: at[WHOLES]].copy(), scratch.crossed[: at[CROSSES]].copy()
