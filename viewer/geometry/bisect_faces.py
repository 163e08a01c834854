"""Cut faces in two across their longest edge, and their neighbours with them, so that none gapes.

A face is cut only together with the face across its longest edge, when that edge is the longest of
both; otherwise that neighbour's turn comes first. The walk ends, as each edge on it is longer than
the one before. Source: M.-C. Rivara, New longest-edge algorithms for the refinement and/or
improvement of unstructured triangulations (1997). However often faces are cut, no angle falls below
half the smallest angle of the face it came from (Rosenberg & Stenger 1975).

New vertices are midpoints of edges, so the surface stays where it was, and so does its volume.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled

OPEN, LOCKED = -1, -2  # no face beyond an edge; an edge of three or more faces, which stays whole


class Pieces(NamedTuple):
    """A surface whose faces were cut in pieces.

    vertices_mm : (n', 3) float64; the first n rows are the vertices there were before
    faces : (m', 3) int32; row f < m is a piece of face f, the others follow
    neighbours : (m', 3) int32 as of `face_neighbours`
    parents : (m',) int32, the face there was before that each is a piece of
    """

    vertices_mm: np.ndarray
    faces: np.ndarray
    neighbours: np.ndarray
    parents: np.ndarray


def lock_crowded_edges(faces: np.ndarray, neighbours: np.ndarray) -> np.ndarray:
    """A copy of `neighbours` in which edges of three or more faces are `LOCKED`, not `OPEN`.

    faces, neighbours : (m, 3) int32 as for and of `face_neighbours`
    """
    linked = np.array(neighbours, np.int32)
    if linked.min(initial=0) >= 0:  # closed, as most parts are
        return linked
    face, corner = np.nonzero(linked < 0)
    ends = np.stack([faces[face, corner], faces[face, (corner + 1) % 3]], axis=1)
    ends.sort(axis=1)
    _, which, count = np.unique(ends, axis=0, return_inverse=True, return_counts=True)
    crowded = count[which.ravel()] > 1
    linked[face[crowded], corner[crowded]] = LOCKED
    return linked


@compiled
def with_room(array, room):
    """A copy of a two-column-or-more array with `room` rows in all."""
    larger = np.empty((room, array.shape[1]), array.dtype)
    larger[: len(array)] = array
    return larger


@compiled
def longest_edge(vertices, faces, f):
    """Corner at which the longest edge of face f begins; equal lengths go by vertex numbers."""
    best, best_low, best_high, best_square = 0, -1, -1, -1.0
    for k in range(3):
        a, b = faces[f, k], faces[f, (k + 1) % 3]
        low, high = min(a, b), max(a, b)
        x = vertices[low, 0] - vertices[high, 0]
        y = vertices[low, 1] - vertices[high, 1]
        z = vertices[low, 2] - vertices[high, 2]
        square = x * x + y * y + z * z
        if square > best_square or (
            square == best_square and (low > best_low or (low == best_low and high > best_high))
        ):
            best, best_low, best_high, best_square = k, low, high, square
    return best, best_square


@compiled
def _corner_of_edge(faces, neighbours, g, f, a, b):
    """Corner of face g at which the edge a–b to face f begins."""
    for j in range(3):
        p, q = faces[g, j], faces[g, (j + 1) % 3]
        if neighbours[g, j] == f and ((p == a and q == b) or (p == b and q == a)):
            return j
    return -1


@compiled
def _halve(faces, neighbours, f, k, middle, piece):
    """Cut face f at the edge from corner k; the half without that corner becomes row `piece`."""
    after = (k + 1) % 3
    for c in range(3):
        faces[piece, c] = faces[f, c]
        neighbours[piece, c] = neighbours[f, c]
    beyond = neighbours[f, after]
    if beyond >= 0:
        j = _corner_of_edge(faces, neighbours, beyond, f, faces[f, after], faces[f, (k + 2) % 3])
        neighbours[beyond, j] = piece
    faces[piece, k] = middle
    faces[f, after] = middle
    neighbours[f, after] = piece
    neighbours[piece, (k + 2) % 3] = f


@compiled
def cut_once(vertices, faces, neighbours, parents, counts, face):
    """One cut on the way to cutting `face`: (first, second, whether any was cut).

    counts : (2,) int64, vertices and faces in use; there must be room for one and two more
    first, second : the faces that were cut, −1 for none; their other halves are the last rows
    """
    f = face
    while True:
        k, _ = longest_edge(vertices, faces, f)
        g = neighbours[f, k]
        if g == LOCKED:
            return -1, -1, False
        if g == OPEN:
            break
        a, b = faces[f, k], faces[f, (k + 1) % 3]
        j = _corner_of_edge(faces, neighbours, g, f, a, b)
        other, _ = longest_edge(vertices, faces, g)
        if other == j:
            break
        f = g
    a, b = faces[f, k], faces[f, (k + 1) % 3]
    middle, piece = counts[0], counts[1]
    for axis in range(3):
        vertices[middle, axis] = 0.5 * (vertices[a, axis] + vertices[b, axis])
    _halve(faces, neighbours, f, k, middle, piece)
    parents[piece, 0] = parents[f, 0]
    counts[0] += 1
    counts[1] += 1
    if g == OPEN:
        return f, -1, True
    other_piece = counts[1]
    _halve(faces, neighbours, g, j, middle, other_piece)
    parents[other_piece, 0] = parents[g, 0]
    counts[1] += 1
    # f kept its end a and g the end at which its own edge begins, by whichever way it is wound.
    with_f, against_f = (other_piece, g) if faces[g, j] == b else (g, other_piece)
    neighbours[f, k], neighbours[with_f, j] = with_f, f
    neighbours[piece, k], neighbours[against_f, j] = against_f, piece
    return f, g, True
