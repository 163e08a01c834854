"""The job file: a valid 3MF that any reader opens as the posed part, with our own metadata part.

Inside the package, beside the model:

    Metadata/showside-job.json       version, names, pose, pinned pose, process, camera
    Metadata/showside-vertices.bin   vertices in part coordinates, little-endian float64

lib3mf keeps coordinates as float32. The second part gives them back to the bit, so that saving
and opening again and again changes nothing. It is believed only where it agrees with the model.
"""

import dataclasses
import math
import zipfile
from pathlib import Path
from typing import Annotated, Any

import msgspec
import numpy as np

from viewer.document.state import Part, State
from viewer.errors import CannotWrite, RequestProblem
from viewer.files.atomic_write import replacing
from viewer.files.package_check import BROKEN, open_package
from viewer.files.posed_files import part_pose_matrix
from viewer.files.raw_mesh import UNITS_MM, build_part
from viewer.files.threemf_file import ThreeMf, read_threemf
from viewer.files.threemf_write import separate_corners, write_threemf
from viewer.geometry.point_box import point_box
from viewer.geometry.pose import Pose
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.unit_doubt import unit_doubt
from viewer.progress import Progress

JOB_SUFFIX = ".3mf"
JOB_VERSION = 1

_NAMESPACE = "urn:showside:job:1"
_JOB_PART = "Metadata/showside-job.json"
_VERTEX_PART = "Metadata/showside-vertices.bin"
_MOST_JOB_BYTES = 5_000_000
_VERTICES_A_GO = 1 << 16  # unpacked and compared in some 10 ms

_Name = Annotated[str, msgspec.Meta(max_length=1000)]


class _PoseData(msgspec.Struct):
    up: tuple[float, float, float]
    spin_deg: float = 0.0


class _JobData(msgspec.Struct):
    """What the metadata part may hold; unknown keys are passed over."""

    version: Annotated[int, msgspec.Meta(ge=1)]
    name: _Name = ""
    file_name: _Name = ""
    unit: str = "mm"
    unit_settled: bool = True
    pose: _PoseData | None = None
    pinned_pose: _PoseData | None = None
    settings: dict[str, Any] = {}
    camera: dict[str, Any] | None = None


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
        raise CannotWrite("There is no part to save. Open one first.")
    if path.suffix.lower() != JOB_SUFFIX:
        raise CannotWrite(f"{path.name} was not saved: end its name in {JOB_SUFFIX}.")
    mesh = state.part.mesh
    vertices, faces = separate_corners(mesh.vertices_mm, mesh.faces)
    progress.check()
    attachments = {
        f"/{_JOB_PART}": (_NAMESPACE, msgspec.json.encode(_job_data(state, camera))),
        f"/{_VERTEX_PART}": (f"{_NAMESPACE}:vertices", vertices.astype("<f8").tobytes()),
    }
    progress.check()
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


def _job_data(state: State, camera: dict[str, Any] | None) -> _JobData:
    return _JobData(
        version=JOB_VERSION,
        name=state.part.name,
        file_name=state.part.file_name,
        unit=state.part.unit,
        unit_settled=not state.part.unit_doubt,
        pose=_PoseData(state.pose.up, state.pose.spin_deg),
        pinned_pose=state.pinned_pose
        and _PoseData(state.pinned_pose.up, state.pinned_pose.spin_deg),
        settings=dataclasses.asdict(state.settings),
        camera=camera,
    )


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
        notes = ("Another program changed this job, so the part is read as it was laid there.",)
    read = read_threemf(path, data, package, item, progress.part(0.1, 0.6))
    part = build_part(path, read.raw, unit, progress.part(0.6, 1.0))
    part = dataclasses.replace(part, notes=(*notes, *part.notes))
    return State.of_part(part, read.face_classes)


def _state_of_job(
    path: Path,
    data: np.ndarray,
    package: zipfile.ZipFile,
    job: _JobData,
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
    pose, pinned, settings = _pose(job.pose) or Pose(), _pose(job.pinned_pose), _settings(job)
    expected = part_pose_matrix(part.mesh, pose)
    if not np.allclose(read.item_matrices[0], expected, rtol=1e-5, atol=1e-4):
        return None
    if unit is not None:  # the user answers a doubt that was open when the job was saved
        part = build_part(path, dataclasses.replace(raw, unit=""), unit, Progress())
    part = _with_saved_names(part, job, unit)
    return State.of_part(part, read.face_classes, pose=pose, pinned_pose=pinned, settings=settings)


def _with_saved_names(part: Part, job: _JobData, unit: str | None) -> Part:
    doubt, suggested = "", ""
    if unit is None and not job.unit_settled:
        doubt, suggested = unit_doubt(np.ptp(point_box(part.mesh.vertices_mm)[0], axis=0))
    return dataclasses.replace(
        part,
        name=job.name or part.name,
        file_name=job.file_name.replace("\\", "/").rpartition("/")[2],
        unit=unit or (job.unit if job.unit in UNITS_MM else "mm"),
        unit_doubt=doubt,
        suggested_unit=suggested,
    )


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


def _read_job_data(package: zipfile.ZipFile) -> tuple[_JobData | None, tuple[str, ...]]:
    """The checked metadata part, or None and why it was left aside."""
    if _JOB_PART not in package.namelist():
        return None, ()
    damaged = ("The job's settings are damaged and were left aside.",)
    if package.getinfo(_JOB_PART).file_size > _MOST_JOB_BYTES:
        return None, damaged
    try:
        job = msgspec.json.decode(package.read(_JOB_PART), type=_JobData)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        return None, damaged
    if job.version > JOB_VERSION:
        return None, (
            "This job was saved by a newer version of the program; its settings were left aside. "
            "Update the program to see all of it.",
        )
    try:
        _pose(job.pose), _pose(job.pinned_pose), _settings(job)
    except RequestProblem:  # a value out of its range
        return None, damaged
    return job, ()


def _pose(data: _PoseData | None) -> Pose | None:
    return None if data is None else Pose(data.up, data.spin_deg)


def _settings(job: _JobData) -> PrintSettings:
    """The saved process; a setting this version does not know is passed over."""
    kept = {}
    for setting in dataclasses.fields(PrintSettings):
        value = job.settings.get(setting.name, setting.default)
        if isinstance(setting.default, float) and (
            isinstance(value, bool) or not isinstance(value, (int, float))
        ):
            raise RequestProblem(f"The job's {setting.name} is not a number.")
        kept[setting.name] = value
    return PrintSettings(**kept)


def read_job_camera(path: Path | str) -> dict[str, Any] | None:
    """The camera that was saved with a job, or None: names with numbers, words, lists of numbers.

    Only that one part of the package is unpacked. A file that is no job has no camera.
    """
    try:
        with zipfile.ZipFile(path) as package:
            job, _ = _read_job_data(package)
    except BROKEN:
        return None
    if job is None or job.camera is None or not all(map(_is_plain, job.camera.values())):
        return None
    return job.camera


def _is_plain(value: Any) -> bool:
    if isinstance(value, list):
        return len(value) <= 100 and all(_is_plain(v) and not isinstance(v, list) for v in value)
    if isinstance(value, (int, float)):
        return math.isfinite(value)
    return isinstance(value, str) and len(value) <= 1000
