"""What risks are told from, what one is, and the way back from heights to places on the part."""

from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.pose_profile import PoseProfile
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.turned_part import turn_part
from viewer.shop.machines import Machine
from viewer.shop.pairs import Pair
from viewer.shop.print_job import Estimate
from viewer.shop.shop import PairMaterials

Kind = Literal[
    "tip_over", "thin_walls", "small_island", "lifting", "unreachable", "small_foot", "wobble",
    "ooze", "idle", "limits",
]  # fmt: skip


class Risk(NamedTuple):
    """One thing that may go wrong.

    serious : it will hardly come out well; otherwise worth a look
    from_mm, to_mm : heights above the platform
    place_mm : in part coordinates, None where the heights are all that is known
    thick_mm : of a thin island on average, None where that is not told
    """

    kind: Kind
    serious: bool
    reason: str
    from_mm: float
    to_mm: float
    place_mm: tuple[float, float, float] | None = None
    thick_mm: float | None = None


@dataclass(frozen=True, eq=False)
class Looked:
    """What the risks are told from.

    measures : of the full tier; estimate : None where no machine is chosen
    machine : None where none is chosen
    class_a_mm : heights between which class A lies, None where nothing is marked
    mesh, pose : how it is laid, which leads back to part coordinates
    """

    measures: PoseMeasures
    pair: Pair
    materials: PairMaterials
    settings: PrintSettings
    estimate: Estimate | None = None
    machine: Machine | None = None
    class_a_mm: tuple[float, float] | None = None
    mesh: Mesh | None = None
    pose: Pose = Pose()  # noqa: RUF009 -- a frozen value


def runs_of(wanted: np.ndarray) -> list[tuple[int, int]]:
    """First and last+1 of each run of True in (k,) bool."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], wanted, [False]]).astype(np.int8)))
    return [(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def heights_mm(profile: PoseProfile, first: int, end: int) -> tuple[float, float]:
    """From the bottom of one layer to the bottom of another, above the platform."""
    return first * profile.layer_mm, end * profile.layer_mm


def in_part(looked: Looked, point_mm) -> tuple[float, float, float] | None:
    """A point (3,) of the posed frame in part coordinates."""
    if looked.mesh is None:
        return None
    matrix = pose_matrix(looked.mesh.vertices_mm, looked.pose)
    place = matrix[:3, :3].T @ (np.array(point_mm) - matrix[:3, 3])
    return tuple(float(v) for v in place)


def in_part_of_turned(looked: Looked, point_mm) -> tuple[float, float, float] | None:
    """A point of the frame of `TurnedPart`, z above the platform, in part coordinates."""
    on_axis = in_part(looked, (0.0, 0.0, point_mm[2]))
    if on_axis is None:
        return None
    # That frame has its origin at the centre of the part's box.
    rotation = turn_part(np.zeros((1, 3)), looked.pose.up).rotation
    centre = looked.mesh.box_mm.mean(axis=0)
    rise = rotation[2] @ (np.array(on_axis) - centre)
    place = centre + rotation.T @ np.array([point_mm[0], point_mm[1], rise])
    return tuple(float(v) for v in place)
