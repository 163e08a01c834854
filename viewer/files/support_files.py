"""Write supports so that they can be printed as they were judged, aligned with the posed part.

As 3MF the support body is an object of type "support", its contact layers of type "solidsupport"
(3MF Core 1.4.0, §4.1): printed filled, next to the part. Space to be kept clear goes into a file of
its own, so that nobody prints it. As STL each body is a file in the same coordinates.
"""

from pathlib import Path

import numpy as np

from viewer.document.state import State
from viewer.files.atomic_write import replacing
from viewer.files.posed_files import laid_vertices_mm
from viewer.files.stl_write import write_stl
from viewer.files.threemf_objects import PrintObject, write_objects
from viewer.files.threemf_write import separate_corners
from viewer.geometry.mesh import Mesh
from viewer.geometry.support_solids import SupportSolids
from viewer.progress import Progress

_BODY_COLOUR, _CONTACT_COLOUR, _CLEAR_COLOUR = (85, 85, 85), (230, 159, 0), (86, 180, 233)


def write_supports(
    state: State, supports: SupportSolids, folder: Path, progress: Progress | None = None
) -> list[Path]:
    """The part with its supports as supports.3mf, and each body as STL; those that were written.

    Raises CannotWrite, Cancelled.
    """
    progress = progress or Progress()
    bodies = [
        ("Support body", "support", supports.body, _BODY_COLOUR),
        ("Contact layers", "solidsupport", supports.contact, _CONTACT_COLOUR),
    ]
    objects = [
        PrintObject(name, kind, mesh.vertices_mm, mesh.faces, colour=colour)
        for name, kind, mesh, colour in bodies
        if mesh.face_count
    ]
    if not objects:
        return []
    written = [_together(state, objects, folder / "supports.3mf", progress)]
    for name, _, mesh, _ in bodies:
        if mesh.face_count:
            written.append(_alone(mesh, folder / f"{name.lower().replace(' ', '-')}.stl", progress))
    return written


def write_keep_clear(
    state: State, clear: Mesh, folder: Path, progress: Progress | None = None
) -> list[Path]:
    """The part with the space to be kept clear as keep-clear.3mf, and that space as STL.

    Raises CannotWrite, Cancelled.
    """
    progress = progress or Progress()
    if not clear.face_count:
        return []
    name = "Keep clear: no support here, do not print"
    space = PrintObject(name, "support", clear.vertices_mm, clear.faces, colour=_CLEAR_COLOUR)
    return [
        _together(state, [space], folder / "keep-clear.3mf", progress),
        _alone(clear, folder / "keep-clear.stl", progress),
    ]


def write_coloured(state: State, path: Path, progress: Progress | None = None) -> Path:
    """The posed part alone, its classes as triangle sets and as colours; see `write_objects`.

    Raises CannotWrite, Cancelled.
    """
    return _together(state, [], path, progress or Progress())


def _together(state: State, objects: list[PrintObject], path: Path, progress: Progress) -> Path:
    vertices = laid_vertices_mm(state.part.mesh, state.pose, progress)
    vertices, faces = separate_corners(vertices, state.part.mesh.faces)
    part = PrintObject(
        state.part.name, "model", vertices, faces, np.asarray(state.face_classes, np.uint8)
    )
    with replacing(path, progress) as temporary:
        write_objects(temporary, [part, *objects], progress)
    return path


def _alone(mesh: Mesh, path: Path, progress: Progress) -> Path:
    with replacing(path, progress) as temporary:
        write_stl(temporary, mesh.vertices_mm, mesh.faces, progress)
    return path
