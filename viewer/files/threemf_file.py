"""Read 3MF as a mesh of ours in a process of its own, which a cancel can end.

lib3mf asks only every 100 to 200 ms whether to go on, and copies a whole mesh in one call. It is
native code that sees whatever bytes a stranger sent: where it crashes, hangs or swells, that is one
sentence in the window.
"""

import zipfile
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from viewer.errors import ShowsideError, UnreadableFile
from viewer.files.raw_mesh import RawMesh
from viewer.files.threemf_reading import read_arrays
from viewer.own_process import memory_limit_bytes, run_in_own_process
from viewer.progress import Progress
from viewer.words import say

SMALL_BYTES = 0  # unpacked; up to here it is read in this process: only tests, to be quick
TIME_LIMIT_S = 900.0


@dataclass(frozen=True, eq=False)
class ThreeMf:
    """A 3MF as read: the mesh in the file's unit, classes of its faces, and its items' matrices.

    face_classes : (m,) uint8
    item_matrices : for each build item that was read, its (4, 4) transform in the file's unit
    """

    raw: RawMesh
    face_classes: np.ndarray
    item_matrices: tuple[np.ndarray, ...]


def read_threemf(
    path: Path,
    data: np.ndarray,
    package: zipfile.ZipFile,
    item: int | None,
    progress: Progress,
    placed: bool = True,
) -> ThreeMf:
    """All build items of a checked package as one rigid mesh, or only item number `item` (from 1).

    data : (size,) uint8, the same bytes that `package` reads
    placed : False leaves out the transforms of the build items (our own jobs)
    Raises UnreadableFile, NothingToPrint, RequestProblem (no such item), Cancelled.
    """
    if sum(entry.file_size for entry in package.infolist()) <= SMALL_BYTES:
        read = read_arrays(path, data, item, placed, progress)
    else:
        crashed = say(
            "Reading {name} came to a sudden end in its own process, perhaps for "
            "lack of memory. Export it again, or as STL.",
            name=path.name,
        )
        try:
            read = run_in_own_process(
                read_arrays,
                path,
                data,
                item,
                placed,
                progress=progress,
                crashed=crashed,
                limit_s=TIME_LIMIT_S,
                memory_bytes=memory_limit_bytes(),
            )
        except ShowsideError as error:
            if str(error) == crashed:
                raise UnreadableFile(crashed) from error
            raise
    raw = RawMesh(read.positions, read.faces, unit=read.unit, notes=read.notes)
    return ThreeMf(raw, read.face_classes, read.item_matrices)
