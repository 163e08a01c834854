"""Write one mesh as 3MF in millimetres through lib3mf, with its classes as triangle sets."""

from pathlib import Path

import numpy as np

from viewer.errors import CannotWrite
from viewer.files.lib3mf_arrays import (
    ModelError,
    fill_attachment,
    fill_mesh,
    fill_set,
    stoppable,
    transform_of,
    wrapper,
    written_bytes,
)
from viewer.files.threemf_scene import SET_NAMES
from viewer.progress import Progress

_MILLIMETRE = 1  # lib3mf's ModelUnit
_DECIMALS = 9  # enough to give back every float32 from 0.01 mm on


def separate_corners(vertices: np.ndarray, faces: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Vertices and faces in which no face names a vertex twice: 3MF allows no such triangle.

    Repeated corners of a face without area get a vertex of their own at the same place, added at
    the end; all other faces are as they were. Returns (n + k, 3) and (m, 3).
    """
    first, second, third = faces.T
    again = [(1, second == first), (2, (third == first) | (third == second))]
    faces, added = faces.copy(), []
    for corner, repeated in again:
        rows = np.flatnonzero(repeated)
        start = len(vertices) + sum(map(len, added))
        added.append(vertices[faces[rows, corner]])
        faces[rows, corner] = np.arange(start, start + len(rows))
    return np.concatenate([vertices, *added]), faces


def write_threemf(
    target: Path,
    vertices_mm: np.ndarray,
    faces: np.ndarray,
    face_classes: np.ndarray,
    matrix: np.ndarray,
    name: str,
    progress: Progress,
    attachments: dict[str, tuple[str, bytes]] | None = None,
) -> None:
    """Write one object as the one build item of a 3MF file at `target` (not atomic by itself).

    vertices_mm : (n, 3), stored as float32; faces : (m, 3) without repeated corners
    face_classes : (m,) uint8; matrix : (4, 4) of the build item, for column vectors
    attachments : path inside the package → (relationship type, content)
    Raises CannotWrite, Cancelled.
    """
    try:
        model = wrapper().CreateModel()
        model.SetUnit(_MILLIMETRE)
        mesh = model.AddMeshObject()
        mesh.SetName(name)
        fill_mesh(mesh, vertices_mm, faces)
        for face_class, set_name in SET_NAMES.items():
            triangles = np.flatnonzero(face_classes == face_class)
            if len(triangles):
                fill_set(
                    mesh.AddTriangleSet(set_name.lower().replace(" ", "-"), set_name), triangles
                )
        model.AddBuildItem(mesh, transform_of(matrix))
        for part_path, (relation, content) in (attachments or {}).items():
            fill_attachment(model.AddAttachment(part_path, relation), content)
            suffix = part_path.rpartition(".")[2]
            kind = "application/json" if suffix == "json" else "application/octet-stream"
            model.AddCustomContentType(suffix, kind)
        writer = model.QueryWriter("3mf")
        writer.SetDecimalPrecision(_DECIMALS)
        callback = stoppable(writer, progress, "Writing the model")
        try:
            content = written_bytes(writer)
        finally:
            del callback
    except ModelError as error:
        progress.check()
        raise CannotWrite(
            f"The file was not saved: the part cannot be put into a 3MF ({error}). Save it as STL."
        ) from error
    target.write_bytes(content)
