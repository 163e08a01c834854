"""Write the part as it is laid: turned, centred, standing on z = 0, in millimetres."""

from collections.abc import Callable
from pathlib import Path

import numpy as np

from viewer.document.state import State
from viewer.errors import CannotWrite
from viewer.files.atomic_write import replacing
from viewer.files.in_pieces import write_in_pieces
from viewer.files.stl_write import write_stl
from viewer.files.threemf_write import separate_corners, write_threemf
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, pose_matrix
from viewer.progress import Progress
from viewer.words import say

# What the export dialog offers: a name, and the suffix it stands for.
EXPORT_SUFFIXES: dict[str, str] = {
    "3MF": ".3mf",
    "STL (binary)": ".stl",
    "OBJ": ".obj",
    "PLY (binary)": ".ply",
}

_ROWS = 20_000  # rows written between two looks at the progress token
_ROWS_AS_TEXT = 8_000  # the same for text, whose making lets no other thread run meanwhile


def _used(mesh: Mesh) -> np.ndarray:
    """(n,) bool: the vertices that a face uses."""
    used = np.zeros(len(mesh.vertices_mm), bool)
    used[mesh.faces] = True
    return used


def part_pose_matrix(mesh: Mesh, pose: Pose) -> np.ndarray:
    """(4, 4) matrix that lays the mesh, from the vertices its faces use."""
    return pose_matrix(mesh.vertices_mm[_used(mesh)], pose)


def laid_vertices_mm(mesh: Mesh, pose: Pose, progress: Progress | None = None) -> np.ndarray:
    """(n, 3) float64 vertices as laid; the lowest one that a face uses is at z = 0 exactly.

    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    used = _used(mesh)
    progress.check()
    standing = mesh.vertices_mm[used]
    progress.check()
    matrix = pose_matrix(standing, pose)
    progress.check()
    laid = mesh.vertices_mm @ matrix[:3, :3].T
    progress.check()
    laid += matrix[:3, 3]
    progress.check()
    laid[:, 2] -= laid[used, 2].min()
    progress.check()
    return laid + 0.0  # no −0 in text files


def write_posed(
    state: State, path: Path | str, progress: Progress | None = None, finer: bool = False
) -> None:
    """Write the posed part as .3mf, .stl, .obj or .ply, whichever suffix `path` has.

    finer : write the pieces that marks have cut the file's triangles in; otherwise the triangles,
    each with the class that covers most of it

    The file replaces an older one only when it is complete. Raises CannotWrite (no part, unknown
    suffix, full disk, folder that cannot be written to), Cancelled.
    """
    path, progress = Path(path), progress or Progress()
    if state.part is None:
        raise CannotWrite(say("There is no part to write. Open one first."))
    suffix = path.suffix.lower()
    if suffix not in _WRITERS:
        known = ", ".join(_WRITERS)
        raise CannotWrite(
            say(
                "{name} was not saved: end its name in one of {known}.", name=path.name, known=known
            )
        )
    state = state if finer else state.on_file_triangles()
    vertices = laid_vertices_mm(state.part.mesh, state.pose, progress)
    progress.check()
    with replacing(path, progress) as temporary:
        _WRITERS[suffix](temporary, state, vertices, progress)
        progress.check()


def _write_3mf(target: Path, state: State, vertices: np.ndarray, progress: Progress) -> None:
    vertices, faces = separate_corners(vertices, state.part.mesh.faces)
    progress.check()
    write_threemf(target, vertices, faces, state.face_classes, np.eye(4), state.part.name, progress)


def _write_stl(target: Path, state: State, vertices: np.ndarray, progress: Progress) -> None:
    write_stl(target, vertices, state.part.mesh.faces, progress)


def _write_obj(target: Path, state: State, vertices: np.ndarray, progress: Progress) -> None:
    faces = state.part.mesh.faces
    with target.open("wb") as stream:
        stream.write(b"# millimetres, z is up\n")
        for line, rows, share in (
            ("v %.9g %.9g %.9g\n", vertices, (0.0, 0.5)),
            ("f %d %d %d\n", faces + 1, (0.5, 1.0)),
        ):
            part = progress.part(*share)
            for start in range(0, len(rows), _ROWS_AS_TEXT):
                block = rows[start : start + _ROWS_AS_TEXT]
                text = (line * len(block)) % tuple(block.ravel().tolist())
                stream.write(text.encode("ascii"))
                part.report(start / len(rows), "Writing the triangles")


def _write_ply(target: Path, state: State, vertices: np.ndarray, progress: Progress) -> None:
    faces = state.part.mesh.faces
    header = (
        "ply\nformat binary_little_endian 1.0\ncomment millimetres, z is up\n"
        f"element vertex {len(vertices)}\n"
        "property float x\nproperty float y\nproperty float z\n"
        f"element face {len(faces)}\nproperty list uchar int vertex_indices\nend_header\n"
    )
    row = np.dtype([("count", "u1"), ("corners", "<i4", 3)])
    with target.open("wb") as stream:
        stream.write(header.encode("ascii"))
        write_in_pieces(stream, vertices.astype("<f4"), progress)
        for start in range(0, len(faces), _ROWS):
            block = faces[start : start + _ROWS]
            rows = np.empty(len(block), row)
            rows["count"], rows["corners"] = 3, block
            stream.write(rows.tobytes())
            progress.report(start / len(faces), "Writing the triangles")


_WRITERS: dict[str, Callable[[Path, State, np.ndarray, Progress], None]] = {
    ".3mf": _write_3mf,
    ".stl": _write_stl,
    ".obj": _write_obj,
    ".ply": _write_ply,
}
