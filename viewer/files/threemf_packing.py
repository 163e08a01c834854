"""Pack one mesh as 3MF through lib3mf, with its classes as triangle sets.

A process of its own runs this, so nothing is imported here that takes long, such as kernels.
"""

import numpy as np

from viewer.errors import CannotWrite
from viewer.files.lib3mf_arrays import (
    ModelError,
    fill_attachment,
    fill_mesh,
    fill_set,
    transform_of,
    wrapper,
    written_bytes,
)
from viewer.files.threemf_scene import SET_NAMES
from viewer.progress import Progress
from viewer.words import say

_MILLIMETRE = 1  # lib3mf's ModelUnit

# Path inside the package → relationship type, content ((size,) uint8)
Attachments = dict[str, tuple[str, np.ndarray]]


def packed(
    vertices_mm: np.ndarray,
    faces: np.ndarray,
    face_classes: np.ndarray,
    matrix: np.ndarray,
    name: str,
    attachments: Attachments,
    progress: Progress,
) -> np.ndarray:
    """(size,) uint8, the package; arguments as in `write_threemf`.

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
        for part_path, (relation, content) in attachments.items():
            fill_attachment(model.AddAttachment(part_path, relation), content)
            suffix = part_path.rpartition(".")[2]
            kind = "application/json" if suffix == "json" else "application/octet-stream"
            model.AddCustomContentType(suffix, kind)
        return written_bytes(model, progress)
    except ModelError as error:
        progress.check()
        raise CannotWrite(
            say(
                "The file was not saved: the part cannot be put into a 3MF ({error}). "
                "Save it as STL.",
                error=error,
            )
        ) from error
