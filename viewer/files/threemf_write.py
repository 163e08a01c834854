"""Write one mesh as 3MF in millimetres: a large one is packed in a process of its own.

lib3mf asks only every 100 ms or so whether to go on; a process can be ended at any moment.
"""

from pathlib import Path

import numpy as np

from viewer.errors import CannotWrite, ShowsideError
from viewer.files.in_pieces import write_in_pieces
from viewer.files.threemf_packing import packed
from viewer.own_process import run_in_own_process
from viewer.progress import Progress
from viewer.words import later, say

SMALL_FACES = 10_000  # packed in some 30 ms, for which no process is started
_CRASHED = later(
    "The file was not saved: packing it came to a sudden end in its own process, perhaps for lack "
    "of memory. Close other programs and try again, or save it as STL."
)


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
    beside = {  # as arrays, which travel to another process without a copy
        part_path: (relation, np.frombuffer(content, np.uint8))
        for part_path, (relation, content) in (attachments or {}).items()
    }
    vertices = np.asarray(vertices_mm, np.float32)  # as they are stored
    what = (vertices, np.asarray(faces, np.uint32), face_classes, matrix, name, beside)
    progress.check()
    if len(faces) <= SMALL_FACES:
        content = packed(*what, progress)
    else:
        try:
            content = run_in_own_process(packed, *what, progress=progress, crashed=say(_CRASHED))
        except ShowsideError as error:
            if str(error) == say(_CRASHED):
                raise CannotWrite(say(_CRASHED)) from error
            raise
    with target.open("wb") as stream:
        write_in_pieces(stream, content, progress)
