"""Marks finer than the triangles: cut faces along an outline until its rim looks smooth.

Only faces that the rim may cross are cut, down to the outline's finest edge, so a mark costs faces
in proportion to the length of its rim; marking the same place again finds them fine enough.
"""

import numpy as np

from viewer.geometry.bisect_faces import (
    Pieces,
    cut_once,
    lock_crowded_edges,
    longest_edge,
    with_room,
)
from viewer.geometry.compiled import compiled
from viewer.geometry.mesh import Mesh
from viewer.geometry.outlines import (
    CROSSED,
    INSIDE,
    OUTSIDE,
    Outline,
    beyond_outline,
    middle_of_face,
    side_of_face,
    side_of_triangle,
)

SPARE_PARTS = 64  # so small a part of the room may be left over: to copy all costs more


def met_faces(mesh: Mesh, outline: Outline) -> np.ndarray:
    """Sorted (k,) int32 faces that lie inside an outline or may be crossed by its rim."""
    return _met(mesh.vertices_mm, mesh.faces, outline)


def cut_along(
    mesh: Mesh, neighbours: np.ndarray, reached: np.ndarray, outline: Outline
) -> tuple[Pieces, np.ndarray]:
    """Cut the reached faces along an outline: the pieces, and which of them lie inside.

    neighbours : (m, 3) int32 as of `face_neighbours`
    reached : (k,) faces that may be marked, as of `met_faces`, or of `stroke_faces` for a brush
    returns the pieces and the sorted (c,) int32 rows of those whose middle lies inside
    """
    is_reached = np.zeros(mesh.face_count, np.bool_)
    is_reached[reached] = True
    vertices, faces, linked, parents = _cut(
        mesh.vertices_mm,
        mesh.faces,
        lock_crowded_edges(mesh.faces, neighbours),
        np.ascontiguousarray(reached, np.int64),
        is_reached,
        outline,
    )
    rows = np.concatenate([reached, np.arange(mesh.face_count, len(faces))])
    rows = np.sort(rows[is_reached[parents[rows]]]).astype(np.int32)
    inside = _inside(vertices, faces, rows, outline)
    return Pieces(vertices, faces, np.maximum(linked, -1), parents), rows[inside]


def rows_inside(mesh: Mesh, rows: np.ndarray, outline: Outline) -> np.ndarray:
    """Those of (k,) faces whose middle lies inside an outline."""
    rows = np.ascontiguousarray(rows, np.int32)
    return rows[_inside(mesh.vertices_mm, mesh.faces, rows, outline)]


def mark_preview(mesh: Mesh, reached: np.ndarray, outline: Outline) -> np.ndarray:
    """(t, 3, 3) triangles in mm that cover what a mark will take, for drawing alone.

    They lie on the surface, but do not meet corner to corner.
    """
    reached = np.ascontiguousarray(reached, np.int64)
    return _preview(mesh.vertices_mm, mesh.faces, reached, outline)


@compiled
def _met(vertices, faces, outline):
    met = np.empty(len(faces), np.int32)
    count = 0
    for f in range(len(faces)):
        met[count] = f
        count += side_of_face(outline, vertices, faces, f) != OUTSIDE
    return met[:count].copy()


@compiled
def _cut(old_vertices, old_faces, old_linked, reached, is_reached, outline):
    spare = 4096
    counts = np.array([len(old_vertices), len(old_faces)])
    vertices = with_room(old_vertices, counts[0] + spare)
    faces = with_room(old_faces, counts[1] + spare)
    linked = with_room(old_linked, counts[1] + spare)
    parents = np.empty((counts[1] + spare, 1), np.int32)
    for f in range(counts[1]):
        parents[f, 0] = f
    todo = np.empty(len(reached) + spare, np.int64)
    todo[: len(reached)] = reached
    left = len(reached)
    while left:
        left -= 1
        face = todo[left]
        while True:
            _, square = longest_edge(vertices, faces, face)
            if square <= outline.finest_mm**2:
                break
            if side_of_face(outline, vertices, faces, face) != CROSSED:
                break
            if counts[0] + 1 > len(vertices):
                vertices = with_room(vertices, 2 * len(vertices))
            if counts[1] + 2 > len(faces):
                faces = with_room(faces, 2 * len(faces))
                linked = with_room(linked, 2 * len(linked))
                parents = with_room(parents, 2 * len(parents))
            if left + 4 > len(todo):
                todo = np.concatenate((todo, np.empty(len(todo), np.int64)))
            before = counts[1]
            one, other, cut = cut_once(vertices, faces, linked, parents, counts, face)
            if not cut:
                break
            for piece in (one, other, before, before + 1):
                if 0 <= piece < counts[1] and piece != face and is_reached[parents[piece, 0]]:
                    todo[left] = piece
                    left += 1
    points, rows = counts[0], counts[1]
    parent = parents[:rows, 0].copy()
    if len(faces) - rows <= rows // SPARE_PARTS and len(vertices) - points <= points // SPARE_PARTS:
        return vertices[:points], faces[:rows], linked[:rows], parent
    return vertices[:points].copy(), faces[:rows].copy(), linked[:rows].copy(), parent


@compiled
def _inside(vertices, faces, rows, outline):
    inside = np.zeros(len(rows), np.bool_)
    for i in range(len(rows)):
        x, y, z = middle_of_face(vertices, faces, rows[i])
        inside[i] = beyond_outline(outline, x, y, z, 0.0) <= 0.0
    return inside


@compiled
def _corners(triangles, i):
    ax, ay, az, bx, by, bz, cx, cy, cz = triangles[i]
    return (ax, ay, az), (bx, by, bz), (cx, cy, cz)


@compiled
def _longest_side(a, b, c):
    """Corner at which the longest side begins, and its length squared."""
    first = (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2
    second = (b[0] - c[0]) ** 2 + (b[1] - c[1]) ** 2 + (b[2] - c[2]) ** 2
    third = (c[0] - a[0]) ** 2 + (c[1] - a[1]) ** 2 + (c[2] - a[2]) ** 2
    if first >= second and first >= third:
        return 0, first
    return (1, second) if second >= third else (2, third)


@compiled
def _preview(vertices, faces, reached, outline):
    found = np.empty((256, 9))
    count = 0
    waiting = np.empty((64, 9))  # each cut halves a triangle: far more than a part is ever cut
    for f in reached:
        for k in range(3):
            for axis in range(3):
                waiting[0, 3 * k + axis] = vertices[faces[f, k], axis]
        left = 1
        while left:
            left -= 1
            a, b, c = _corners(waiting, left)
            at, square = _longest_side(a, b, c)
            side = CROSSED
            if square > outline.finest_mm**2 and left + 2 <= len(waiting):
                side = side_of_triangle(outline, a, b, c)
                if side == CROSSED:
                    p, q = 3 * at, 3 * ((at + 1) % 3)
                    for i in range(9):
                        waiting[left + 1, i] = waiting[left, i]
                    for axis in range(3):
                        middle = 0.5 * (waiting[left, p + axis] + waiting[left, q + axis])
                        waiting[left, q + axis] = middle
                        waiting[left + 1, p + axis] = middle
                    left += 2
                    continue
            if side == CROSSED:
                x, y, z = (
                    (a[0] + b[0] + c[0]) / 3,
                    (a[1] + b[1] + c[1]) / 3,
                    (a[2] + b[2] + c[2]) / 3,
                )
                side = INSIDE if beyond_outline(outline, x, y, z, 0.0) <= 0.0 else OUTSIDE
            if side == INSIDE:
                if count == len(found):
                    found = with_room(found, 2 * len(found))
                for i in range(9):
                    found[count, i] = waiting[left, i]
                count += 1
    return found[:count].copy().reshape(count, 3, 3)
