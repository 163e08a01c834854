"""All of a job but its meshes and marks, as JSON: written, read and checked."""

import dataclasses
import math
from typing import Annotated, Any

import msgspec
import numpy as np

from viewer.document.state import KeptPose, Part, State
from viewer.errors import RequestProblem
from viewer.files.job_wishes import (
    MattersData,
    SpinData,
    matters_data,
    matters_of,
    spin_data,
    spin_of,
)
from viewer.files.raw_mesh import UNITS_MM
from viewer.geometry.point_box import point_box
from viewer.geometry.pose import Pose
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.unit_doubt import unit_doubt
from viewer.shop.shop_choice import ShopChoice
from viewer.shop.taken_limits import TakenLimit
from viewer.words import later, say

JOB_VERSION = 1
NEWER = later(
    "This job was saved by a newer version of the program; its settings were left "
    "aside. Update the program to see all of it."
)
DAMAGED_WORDS = later("The job's settings are damaged and were left aside.")

_Name = Annotated[str, msgspec.Meta(max_length=1000)]


class _PoseData(msgspec.Struct):
    up: tuple[float, float, float]
    spin_deg: float = 0.0


class _KeptData(msgspec.Struct):
    pose: _PoseData
    name: _Name = ""
    note: _Name = ""


class _ShopData(msgspec.Struct):
    machine: _Name = ""
    pair: _Name = ""
    process: _Name = ""
    copies: int = 1
    beside: tuple[_Name, ...] = ()


class JobData(msgspec.Struct):
    """What the metadata part may hold; unknown keys are passed over."""

    version: Annotated[int, msgspec.Meta(ge=1)]
    name: _Name = ""
    file_name: _Name = ""
    unit: str = "mm"
    unit_settled: bool = True
    pose: _PoseData | None = None
    pinned_pose: _PoseData | None = None
    kept_poses: list[_KeptData] = []
    settings: dict[str, Any] = {}
    shop: _ShopData | None = None
    what_matters: MattersData | None = None
    spin: SpinData | None = None
    taken: tuple[TakenLimit, ...] = ()
    camera: dict[str, Any] | None = None
    mended: bool = False  # since it was received
    client: _Name = ""


def job_words(state: State, camera: dict[str, Any] | None = None) -> bytes:
    """All of a job but its meshes and marks, as the JSON that `with_job_words` reads."""
    data = JobData(
        version=JOB_VERSION,
        name=state.part.name,
        file_name=state.part.file_name,
        unit=state.part.unit,
        unit_settled=not state.part.unit_doubt,
        pose=_PoseData(state.pose.up, state.pose.spin_deg),
        pinned_pose=state.pinned_pose
        and _PoseData(state.pinned_pose.up, state.pinned_pose.spin_deg),
        kept_poses=[
            _KeptData(_PoseData(one.pose.up, one.pose.spin_deg), one.name, one.note)
            for one in state.kept_poses
        ],
        settings=dataclasses.asdict(state.settings),
        shop=_ShopData(**dataclasses.asdict(state.shop_choice)),
        what_matters=matters_data(state.what_matters),
        spin=spin_data(state.spin_wish),
        taken=state.taken,
        camera=camera,
        mended=state.part.received is not None,
        client=state.client,
    )
    return msgspec.json.encode(data)


def state_with(part: Part, face_classes: np.ndarray, job: JobData, **more: Any) -> State:
    """The state of a part with its (m,) uint8 classes as a checked `job` tells it.

    more : what is kept beside the words, such as pieces and trials
    """
    return State.of_part(
        part,
        face_classes,
        pose=pose_of(job.pose) or Pose(),
        pinned_pose=pose_of(job.pinned_pose),
        kept_poses=_kept_poses(job),
        settings=_settings(job),
        shop_choice=_shop_choice(job),
        what_matters=matters_of(job.what_matters),
        spin_wish=spin_of(job.spin),
        taken=job.taken,
        client=job.client,
        **more,
    )


def with_job_words(part: Part, face_classes: np.ndarray, words: bytes, **more: Any) -> State | None:
    """The job of a part ((m,) uint8 classes) with what `job_words` wrote, None if that is damaged.

    The part gets the names and the unit that stand there; what is written is checked first.
    more : what is kept beside the words, such as pieces and trials
    """
    job, _ = decoded(words)
    if job is None:
        return None
    return state_with(with_saved_names(part, job, None), face_classes, job, **more)


def with_saved_names(part: Part, job: JobData, unit: str | None) -> Part:
    """The part under the names of the job, in its unit or, where that was a doubt, in `unit`."""
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


def decoded(words: bytes) -> tuple[JobData | None, tuple[str, ...]]:
    """The words of a job, checked, or None and why they were left aside."""
    try:
        job = msgspec.json.decode(words, type=JobData)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError, RequestProblem):
        return None, (say(DAMAGED_WORDS),)
    if job.version > JOB_VERSION:
        return None, (say(NEWER),)
    try:
        pose_of(job.pose), pose_of(job.pinned_pose), _kept_poses(job)
        _settings(job), _shop_choice(job)
        matters_of(job.what_matters), spin_of(job.spin)
    except RequestProblem:  # a value out of its range
        return None, (say(DAMAGED_WORDS),)
    return job, ()


def pose_of(data: _PoseData | None) -> Pose | None:
    """A saved pose. Raises RequestProblem where it is none."""
    return None if data is None else Pose(data.up, data.spin_deg)


def _kept_poses(job: JobData) -> tuple[KeptPose, ...]:
    """The kept poses; a job saved before there were any has none."""
    return tuple(
        KeptPose(data.name or f"Pose {number}", pose_of(data.pose), data.note)
        for number, data in enumerate(job.kept_poses, 1)
    )


def _shop_choice(job: JobData) -> ShopChoice:
    return ShopChoice() if job.shop is None else ShopChoice(**msgspec.structs.asdict(job.shop))


def _settings(job: JobData) -> PrintSettings:
    """The saved process; a setting this version does not know is passed over."""
    kept = {}
    for setting in dataclasses.fields(PrintSettings):
        value = job.settings.get(setting.name, setting.default)
        if isinstance(setting.default, float) and (
            isinstance(value, bool) or not isinstance(value, (int, float))
        ):
            raise RequestProblem(say("The job's {name} is not a number.", name=setting.name))
        kept[setting.name] = value
    return PrintSettings(**kept)


def camera_in(job: JobData) -> dict[str, Any] | None:
    """What the window kept of its camera, None where that is not plain."""
    camera = job.camera
    return camera if camera and all(map(_is_plain, camera.values())) else None


def _is_plain(value: Any) -> bool:
    if isinstance(value, list):
        return len(value) <= 100 and all(_is_plain(v) and not isinstance(v, list) for v in value)
    if isinstance(value, (int, float)):
        return math.isfinite(value)
    return isinstance(value, str) and len(value) <= 1000
