"""The job file: a valid 3MF that any reader opens as the posed part, with our own metadata part.

Inside the package, beside the model:

    Metadata/showside-job.json       version, names, pose, pinned and kept poses, process, camera
    Metadata/showside-vertices.bin   vertices in part coordinates, little-endian float64
    Metadata/showside-pieces.bin     only where marks are finer than triangles: see `job_pieces`
    Metadata/showside-test-pieces.bin  where there are pieces: see `job_test_pieces`
    Metadata/showside-trials.bin     only where there are any: see `job_trials`
    Metadata/showside-received.bin   of mended parts only: the mesh as received, see `received_mesh`

lib3mf keeps coordinates as float32. The second part gives them back to the bit, so that saving
and opening again and again changes nothing. It is believed only where it agrees with the model.
"""

import dataclasses
import zipfile
from pathlib import Path
from typing import Any

import numpy as np

from viewer.document.state import Part, State
from viewer.errors import CannotWrite
from viewer.files.atomic_write import replacing
from viewer.files.job_pieces import (
    DAMAGED,
    PIECES_PART,
    most_bytes,
    pieces_content,
    with_pieces,
)
from viewer.files.job_test_pieces import TEST_PIECES_PART, pieces_of_job, read_test_pieces
from viewer.files.job_trials import TRIALS_PART, trials_content, trials_in
from viewer.files.job_words import (
    DAMAGED_WORDS,
    JobData,
    camera_in,
    decoded,
    job_words,
    pose_of,
    state_with,
    with_saved_names,
)
from viewer.files.package_check import BROKEN, open_package
from viewer.files.posed_files import part_pose_matrix
from viewer.files.raw_mesh import UNITS_MM, RawMesh, build_part
from viewer.files.received_mesh import MOST_PACKED_BYTES, packed_mesh, unpacked_mesh
from viewer.files.threemf_file import ThreeMf, read_threemf
from viewer.files.threemf_write import separate_corners, write_threemf
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose
from viewer.progress import Progress
from viewer.words import later, say

JOB_SUFFIX = ".3mf"
CHANGED_ELSEWHERE = later(
    "Another program changed this job, so the part is read as it was laid there."
)
_NAMESPACE = "urn:showside:job:1"
_JOB_PART = "Metadata/showside-job.json"
_VERTEX_PART = "Metadata/showside-vertices.bin"
_RECEIVED_PART = "Metadata/showside-received.bin"
_MOST_JOB_BYTES = 5_000_000
_VERTICES_A_GO = 1 << 16  # unpacked and compared in some 10 ms


# --- writing
def write_job(
    state: State,
    path: Path | str,
    camera: dict[str, Any] | None = None,
    progress: Progress | None = None,
) -> None:
    """Save the job; an older file is replaced only when the new one is complete.

    camera : what the window wants back from `read_job_camera`: numbers, words and lists of numbers
    Raises CannotWrite, Cancelled.
    """
    path, progress = Path(path), progress or Progress()
    if state.part is None:
        raise CannotWrite(say("There is no part to save. Open one first."))
    if path.suffix.lower() != JOB_SUFFIX:
        raise CannotWrite(
            say(
                "{name} was not saved: end its name in {job_suffix}.",
                name=path.name,
                job_suffix=JOB_SUFFIX,
            )
        )
    mesh = state.part.mesh
    vertices, faces = separate_corners(mesh.vertices_mm, mesh.faces)
    progress.check()
    attachments = {
        f"/{_JOB_PART}": (_NAMESPACE, job_words(state, camera)),
        f"/{_VERTEX_PART}": (f"{_NAMESPACE}:vertices", vertices.astype("<f8").tobytes()),
    }
    if state.part.base is not None:
        attachments[f"/{PIECES_PART}"] = (f"{_NAMESPACE}:pieces", pieces_content(state.part))
    trials = trials_content(state.trials)
    if trials is not None:
        attachments[f"/{TRIALS_PART}"] = (f"{_NAMESPACE}:trials", trials)
    progress.check()
    if state.pieces:
        pieces = pieces_of_job(state.pieces, progress)
        attachments[f"/{TEST_PIECES_PART}"] = (f"{_NAMESPACE}:test-pieces", pieces)
    if state.part.received is not None:
        packed = packed_mesh(state.part.received, progress)
        if packed is not None:
            attachments[f"/{_RECEIVED_PART}"] = (f"{_NAMESPACE}:received", packed)
    matrix = part_pose_matrix(mesh, state.pose)
    progress.check()
    with replacing(path, progress) as temporary:
        write_threemf(
            temporary,
            vertices,
            faces,
            state.face_classes,
            matrix,
            state.part.name,
            progress,
            attachments,
        )
        progress.check()


# --- reading
def read_threemf_state(
    path: Path, data: np.ndarray, unit: str | None, item: int | None, progress: Progress
) -> State:
    """The state in a 3MF: a job as it was saved, any other 3MF as a fresh state with its classes.

    data : (size,) uint8, the bytes of the file; unit, item : see `read_part`
    Raises FileProblem, RequestProblem, Cancelled.
    """
    package = open_package(path, data, progress.part(0.0, 0.1))
    job, notes = _read_job_data(package)
    if job is not None and item in (None, 1):
        state = _state_of_job(path, data, package, job, unit, progress.part(0.1, 1.0))
        if state is not None:
            return state
        notes = (say(CHANGED_ELSEWHERE),)
    read = read_threemf(path, data, package, item, progress.part(0.1, 0.6))
    part = build_part(path, read.raw, unit, progress.part(0.6, 1.0))
    part = dataclasses.replace(part, notes=(*notes, *part.notes))
    return State.of_part(part, read.face_classes)


def _state_of_job(
    path: Path,
    data: np.ndarray,
    package: zipfile.ZipFile,
    job: JobData,
    unit: str | None,
    progress: Progress,
) -> State | None:
    """The saved state, or None where the model in the package is no longer the one saved."""
    read = read_threemf(path, data, package, None, progress.part(0.0, 0.5), placed=False)
    exact = _exact_vertices(package, read, progress)
    if exact is None or len(read.item_matrices) != 1:
        return None
    raw = dataclasses.replace(read.raw, positions=exact)
    part = build_part(path, raw, None, progress.part(0.5, 1.0))
    expected = part_pose_matrix(part.mesh, pose_of(job.pose) or Pose())
    if not np.allclose(read.item_matrices[0], expected, rtol=1e-5, atol=1e-4):
        return None
    received, more = _received(package, progress) if job.mended else (None, ())
    trials, damaged = trials_in(package)
    if unit is not None:  # the user answers a doubt that was open when the job was saved
        part = build_part(path, dataclasses.replace(raw, unit=""), unit, Progress())
        if received is not None:
            received = Mesh(received.vertices_mm * UNITS_MM[unit], received.faces)
    pieces, spoilt = read_test_pieces(package, progress)
    part = dataclasses.replace(
        part, received=received, notes=(*part.notes, *more, *spoilt, *damaged)
    )
    part = with_saved_names(part, job, unit)
    if PIECES_PART in package.namelist():
        part = _with_saved_pieces(part, package, raw, UNITS_MM[unit or "mm"])
    return state_with(part, read.face_classes, job, pieces=pieces, trials=trials)


def _with_saved_pieces(part: Part, package: zipfile.ZipFile, raw: RawMesh, scale: float) -> Part:
    pieces = None
    if package.getinfo(PIECES_PART).file_size <= most_bytes(len(raw.faces)):
        pieces = with_pieces(part, package.read(PIECES_PART), raw.faces, raw.positions, scale)
    if pieces is None:
        return dataclasses.replace(part, notes=(*part.notes, DAMAGED))
    return pieces


def _exact_vertices(
    package: zipfile.ZipFile, read: ThreeMf, progress: Progress
) -> np.ndarray | None:
    """(n, 3) float64 vertices that round to those in the model, or None."""
    positions = read.raw.positions
    if _VERTEX_PART not in package.namelist() or read.raw.unit != "mm":
        return None
    if package.getinfo(_VERTEX_PART).file_size != 24 * len(positions):
        return None
    exact = np.empty(positions.shape)
    with package.open(_VERTEX_PART) as stream:
        for first in range(0, len(positions), _VERTICES_A_GO):
            some = slice(first, first + _VERTICES_A_GO)
            content = stream.read(24 * len(positions[some]))
            if len(content) != 24 * len(positions[some]):
                return None
            exact[some] = np.frombuffer(content, "<f8").reshape(-1, 3)
            with np.errstate(invalid="ignore", over="ignore"):
                # lib3mf reads its own digits back with errors up to two units of float32's last
                # place
                agrees = np.abs(exact[some] - positions[some]) <= 1e-6 * np.abs(exact[some]) + 1e-7
            if not agrees.all():
                return None
            progress.check()
    return exact


def _received(package: zipfile.ZipFile, progress: Progress) -> tuple[Mesh | None, tuple[str, ...]]:
    """The part of a mended job as it was received, or None and why it is not there."""
    if _RECEIVED_PART not in package.namelist():
        return None, (
            say(
                "The part as received was too large to keep beside the mended one in this job. To "
                "compare with it, open the file it came from."
            ),
        )
    mesh = None
    if package.getinfo(_RECEIVED_PART).file_size <= MOST_PACKED_BYTES:
        mesh = unpacked_mesh(package.read(_RECEIVED_PART), progress)
    if mesh is None:
        return None, (
            say(
                "The part as received, which this job keeps, is damaged and was left aside. To "
                "compare with it, open the file it came from."
            ),
        )
    return mesh, ()


def _read_job_data(package: zipfile.ZipFile) -> tuple[JobData | None, tuple[str, ...]]:
    """The checked metadata part, or None and why it was left aside."""
    if _JOB_PART not in package.namelist():
        return None, ()
    if package.getinfo(_JOB_PART).file_size > _MOST_JOB_BYTES:
        return None, (say(DAMAGED_WORDS),)
    return decoded(package.read(_JOB_PART))


def read_job_camera(path: Path | str) -> dict[str, Any] | None:
    """The camera that was saved with a job, or None: names with numbers, words, lists of numbers.

    Only that one part of the package is unpacked. A file that is no job has no camera.
    """
    try:
        with zipfile.ZipFile(path) as package:
            job, _ = _read_job_data(package)
    except BROKEN:
        return None
    return None if job is None else camera_in(job)
