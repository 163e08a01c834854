"""The file's own triangles inside a job whose marks have cut them in pieces.

The model of the job holds the pieces, so that any reader sees the marks as they are. Beside it:

    Metadata/showside-pieces.bin     little-endian int32: the four counts below, then the rows
        vertices of the file, triangles of the file, vertices of the pieces, pieces
        (b, 3) triangles of the file; (m, 3) pieces; (m,) triangle that each piece lies on

Vertices of the file come first among those of the pieces. It is believed only where the pieces are
those of the model.
"""

import dataclasses

import numpy as np

from viewer.document.state import Part
from viewer.geometry.mesh import Mesh
from viewer.words import later

PIECES_PART = "Metadata/showside-pieces.bin"
_COUNTS = 4
DAMAGED = later(
    "This job's own triangles are damaged; the finer ones of its marks are taken for them."
)


def pieces_content(part: Part) -> bytes:
    """What is kept of a part that was cut in pieces."""
    base, mesh = part.base, part.mesh
    counts = (len(base.vertices_mm), len(base.faces), len(mesh.vertices_mm), len(mesh.faces))
    arrays = (np.array(counts), base.faces, mesh.faces, part.base_face)
    return b"".join(np.ascontiguousarray(array, "<i4").tobytes() for array in arrays)


def most_bytes(face_count: int) -> int:
    """More than a job whose model has so many triangles can hold of its pieces."""
    return 4 * (_COUNTS + 7 * face_count)


def with_pieces(
    part: Part, content: bytes, corners: np.ndarray, vertices_mm: np.ndarray, scale: float
) -> Part | None:
    """The part with the file's triangles and their pieces, or None if they are not of its model.

    part : as read from the model; corners : (m, 3) its triangles' indices into vertices_mm (n, 3)
    scale : mm to a unit of `vertices_mm`
    """
    rows = np.frombuffer(content[: len(content) // 4 * 4], "<i4")
    if len(rows) < _COUNTS or (rows[:_COUNTS] <= 0).any():
        return None
    base_vertices, base_count, vertex_count, count = (int(n) for n in rows[:_COUNTS])
    ends = np.cumsum([_COUNTS, 3 * base_count, 3 * count, count])
    if len(rows) != ends[-1] or not base_vertices <= vertex_count <= len(vertices_mm):
        return None
    if count != len(corners) or base_count > count:
        return None
    base_faces, faces = (rows[ends[k] : ends[k + 1]].reshape(-1, 3) for k in (0, 1))
    base_face = rows[ends[2] :]
    for indices, limit in ((base_faces, base_vertices), (faces, vertex_count)):
        if indices.min() < 0 or indices.max() >= limit:
            return None
    in_order = np.array_equal(base_face[:base_count], np.arange(base_count))
    if not in_order or base_face.min() < 0 or base_face.max() >= base_count:
        return None
    if not np.array_equal(vertices_mm[faces], vertices_mm[corners]):
        return None
    vertices_mm = vertices_mm * scale
    whole = dataclasses.replace(part, mesh=Mesh(vertices_mm[:base_vertices], base_faces))
    return whole.refined(vertices_mm[:vertex_count], faces, base_face)
