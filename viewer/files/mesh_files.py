"""The door to all part files: read a part from any format we know, write the posed part."""

from collections.abc import Callable
from pathlib import Path

import numpy as np

from viewer.document.state import State
from viewer.errors import RequestProblem, UnreadableFile
from viewer.files.job_file import read_threemf_state
from viewer.files.obj_file import read_obj
from viewer.files.off_file import read_off
from viewer.files.ply_file import read_ply
from viewer.files.posed_files import EXPORT_SUFFIXES, write_posed
from viewer.files.raw_mesh import RawMesh, build_part
from viewer.files.read_bytes import read_bytes
from viewer.files.step_file import CAD_SUFFIXES, IGES_SUFFIXES, STEP_SUFFIXES, read_cad
from viewer.files.stl_file import read_stl
from viewer.progress import Progress
from viewer.words import say

__all__ = ["EXPORT_SUFFIXES", "OPEN_SUFFIXES", "read_part", "write_posed"]

# What the open dialog offers: a name, and the suffixes it stands for.
OPEN_SUFFIXES: dict[str, tuple[str, ...]] = {
    "3MF part or saved job": (".3mf",),
    "STL mesh": (".stl",),
    "OBJ mesh": (".obj",),
    "PLY mesh": (".ply",),
    "OFF mesh": (".off",),
    "STEP model": STEP_SUFFIXES,
    "IGES model": IGES_SUFFIXES,
}

_READERS: dict[str, Callable[[Path, np.ndarray, Progress], RawMesh]] = {
    ".stl": read_stl,
    ".obj": read_obj,
    ".ply": read_ply,
    ".off": read_off,
}


def read_part(
    path: Path | str,
    progress: Progress | None = None,
    unit: str | None = None,
    item: int | None = None,
    chord_mm: float | None = None,
    sew_mm: float = 0.0,
) -> State:
    """The part of a file as a fresh state; classes, pose and process where the file has them.

    unit : mm, cm, m, inch or ft for the file's numbers; None takes them as written and fills
        `unit_doubt` of the part where they look wrong
    item : number of the one build item of a 3MF to read, from 1; None reads all as one rigid part
    chord_mm, sew_mm : for STEP and IGES, see `read_cad`; other files have no use for them
    Raises FileProblem (UnreadableFile, NothingToPrint), RequestProblem, Cancelled.
    """
    path, progress = Path(path), progress or Progress()
    suffix = path.suffix.lower()
    if suffix not in (".3mf", *_READERS, *CAD_SUFFIXES):
        known = ", ".join(s for suffixes in OPEN_SUFFIXES.values() for s in suffixes)
        raise UnreadableFile(
            say(
                "{name} is of a kind that is not known here. Open one of {known}.",
                name=path.name,
                known=known,
            )
        )
    data = read_bytes(path, progress.part(0.0, 0.1))
    rest = progress.part(0.1, 1.0)
    try:
        if suffix == ".3mf":
            return read_threemf_state(path, data, unit, item, rest)
        if item not in (None, 1):
            raise RequestProblem(
                say("{name} has one item only; leave the item number out.", name=path.name)
            )
        if suffix in CAD_SUFFIXES:
            return State.of_part(read_cad(path, data, unit, rest, chord_mm, sew_mm))
        raw = _READERS[suffix](path, data, rest.part(0.0, 0.5))
        return State.of_part(build_part(path, raw, unit, rest.part(0.5, 1.0)))
    except MemoryError as error:
        raise UnreadableFile(
            say("{name} does not fit into this computer's memory.", name=path.name)
        ) from error
