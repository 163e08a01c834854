"""What a client sheet is made of: measured and reckoned, before a word of it is said."""

from dataclasses import dataclass

import numpy as np

from viewer.document.state import State
from viewer.geometry.deviation import Deviation
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.shop.job_numbers import JobNumbers
from viewer.shop.maker import Maker
from viewer.words import say

MOST_OTHERS = 3  # alternatives beside the chosen pose


@dataclass(frozen=True, eq=False)
class PoseFacts:
    """One way to lay the part; `measures` of the full tier."""

    name: str
    pose: Pose
    measures: PoseMeasures
    numbers: JobNumbers


@dataclass(frozen=True, eq=False)
class SheetFacts:
    """Everything the sheet tells of.

    date : as it is to be written; report : of the part as it is printed
    received : the report of the file as it came, deviation : how far mending moved the surface;
        both None where nothing was mended
    """

    state: State
    maker: Maker
    date: str
    chosen: PoseFacts
    others: tuple[PoseFacts, ...]
    report: HealthReport
    received: HealthReport | None = None
    deviation: Deviation | None = None

    @property
    def class_mm2(self) -> tuple[float, float, float]:
        """Area of the unmarked faces, of class A and of class B."""
        areas = self.state.part.mesh.face_areas_mm2
        return tuple(np.bincount(self.state.face_classes, weights=areas, minlength=3).tolist())


def other_poses(state: State) -> tuple[tuple[str, Pose], ...]:
    """Name and pose of up to three alternatives: the pinned one, then the kept ones in order."""
    found: dict[Pose, str] = {}
    if state.pinned_pose is not None:
        found[state.pinned_pose] = say("Pinned pose")
    for one in state.kept_poses:  # a name of the user's own says more
        found[one.pose] = one.name
    found.pop(state.pose, None)
    return tuple((name, pose) for pose, name in found.items())[:MOST_OTHERS]


def chosen_name(state: State) -> str:
    """What the chosen pose is called."""
    own = next((one.name for one in state.kept_poses if one.pose == state.pose), "")
    return own or say("Chosen")
