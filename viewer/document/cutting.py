"""How a part is to be cut, told as it is laid, and the pieces that come of it."""

from dataclasses import dataclass, replace
from typing import Literal, NamedTuple, Self

import numpy as np

from viewer.document.job_piece import JobPiece
from viewer.document.piece_state import cut_piece
from viewer.document.state import State
from viewer.errors import RequestProblem
from viewer.geometry.closed_part import ClosedPart
from viewer.geometry.cut_lines import CutShape, cut_shape
from viewer.geometry.cut_pieces import (
    CutPlane,
    Piece,
    cut_out,
    cut_pieces,
    largest_body,
    pose_on_cut_face,
)
from viewer.geometry.dovetails import DovetailSizes, dovetail_pieces
from viewer.geometry.laid_planes import laid_matrix, plane_in_part, slab_planes
from viewer.geometry.pose import Pose, rotation, rotation_about_z
from viewer.geometry.registration_pins import PinSizes, pin_pieces
from viewer.geometry.worst_patch import WorstPatch
from viewer.progress import Progress
from viewer.words import later, say

Way = Literal["quarters", "slab", "box", "split"]
Joint = Literal["flat", "pins", "dovetails"]
LEAST_MM = 0.5
JOINT_MM = {"pins": PinSizes.diameter_mm, "dovetails": DovetailSizes.width_mm}  # usual widths
NAMES = {
    "quarters": later("Quarter"),
    "slab": later("Slab"),
    "box": later("Cut-out"),
    "split": later("Half"),
}


@dataclass(frozen=True)
class CutPlan:
    """One way to cut the part, in mm of the posed frame (z up from the platform).

    low_mm, high_mm : corners of the box, along axes turned by `angle_deg` about z; quarters meet at
        its middle, a slab takes its heights
    plane : where the way is to split, in part coordinates
    largest_only : of what the box cuts out only the largest body
    joint : of quarters and halves; joint_mm : diameter of pins, or width of a dovetail at its foot
    gap_mm : left for glue
    anew : pieces laid on their largest cut face instead of as the whole, or in these `poses`
    """

    way: Way
    low_mm: tuple[float, float, float] = (-10.0, -10.0, 0.0)
    high_mm: tuple[float, float, float] = (10.0, 10.0, 20.0)
    angle_deg: float = 0.0
    plane: CutPlane | None = None
    largest_only: bool = False
    joint: Joint = "flat"
    joint_mm: float = PinSizes.diameter_mm
    gap_mm: float = PinSizes.glue_gap_mm
    anew: bool = False
    poses: tuple[Pose, ...] = ()

    @property
    def middle_mm(self) -> np.ndarray:
        """(3,) middle of the box along its axes."""
        return 0.5 * (np.array(self.low_mm) + self.high_mm)

    @property
    def axes(self) -> np.ndarray:
        """(3, 3) the box's axes in the posed frame, one a row."""
        return rotation_about_z(self.angle_deg).T

    @property
    def takes_joints(self) -> bool:
        """Whether its pieces go together again."""
        return self.way in ("quarters", "split")

    def with_side(self, axis: int, high: bool, at_mm: float) -> Self:
        """The box with one side elsewhere; it stays at least half a millimetre thick."""
        low, high_mm = list(self.low_mm), list(self.high_mm)
        if high:
            high_mm[axis] = max(at_mm, low[axis] + LEAST_MM)
        else:
            low[axis] = min(at_mm, high_mm[axis] - LEAST_MM)
        return replace(self, low_mm=tuple(low), high_mm=tuple(high_mm))

    def moved(self, by_mm: np.ndarray) -> Self:
        """The box moved by (3,) in the posed frame."""
        by = self.axes @ by_mm
        low, high = (tuple((np.array(end) + by).tolist()) for end in (self.low_mm, self.high_mm))
        return replace(self, low_mm=low, high_mm=high)

    def placed(self, middle_mm: np.ndarray, size_mm: np.ndarray) -> Self:
        """The box with this middle along its axes and this size."""
        half = 0.5 * np.maximum(size_mm, LEAST_MM)
        low, high = tuple((middle_mm - half).tolist()), tuple((middle_mm + half).tolist())
        return replace(self, low_mm=low, high_mm=high)

    def scaled(self, factor: float) -> Self:
        """The same cut through a part so many times as large; widths of joints stay."""
        low, high = (tuple(factor * at for at in end) for end in (self.low_mm, self.high_mm))
        plane = self.plane
        if plane is not None:
            plane = CutPlane(tuple(factor * at for at in plane.point_mm), plane.normal)
        return replace(self, low_mm=low, high_mm=high, plane=plane)

    def planes(self, matrix: np.ndarray) -> list[CutPlane]:
        """The planes in part coordinates; matrix : (4, 4) of the pose."""
        if self.way == "split":
            return [] if self.plane is None else [self.plane]
        if self.way == "slab":
            return slab_planes(matrix, self.low_mm[2], self.high_mm[2])
        axes = self.axes
        if self.way == "quarters":
            at = self.middle_mm @ axes
            return [plane_in_part(matrix, at, axes[axis]) for axis in (0, 1)]
        planes = []
        for axis in range(3):
            for sign, end in ((-1.0, self.low_mm), (1.0, self.high_mm)):
                planes.append(plane_in_part(matrix, end[axis] * axes[axis], sign * axes[axis]))
        return planes


class Cut(NamedTuple):
    """What a plan makes: pieces, sentences about it, and what to draw of it in the posed frame."""

    plan: CutPlan
    pieces: tuple[JobPiece, ...]
    notes: tuple[str, ...]
    shape: CutShape


def box_around_patch(state: State, patch: WorstPatch) -> CutPlan:
    """The plan that cuts out the smallest box around a patch, as the part is laid."""
    matrix = laid_matrix([state.part.mesh], state.pose)
    axes = patch.axes @ rotation(state.pose).T
    shift = axes @ matrix[:3, 3]
    angle = float(np.degrees(np.arctan2(axes[0, 1], axes[0, 0])))
    low, high = (tuple((end + shift).tolist()) for end in (patch.low_mm, patch.high_mm))
    return CutPlan("box", low, high, angle, largest_only=True)


def cut_as_planned(
    state: State, part: ClosedPart, plan: CutPlan, progress: Progress | None = None
) -> Cut:
    """Cut the part of a job; `part` is its solid.

    Raises RequestProblem where nothing lies there or no place is chosen, Cancelled.
    """
    progress = progress or Progress()
    matrix = laid_matrix([state.part.mesh], state.pose)
    planes = plan.planes(matrix)
    if not planes:
        raise RequestProblem(say("Look for a place to split first."))
    whole = plan.takes_joints
    made = (cut_pieces if whole else cut_out)(part, planes, progress.part(0.0, 0.7))
    pieces, notes = made.pieces, list(made.notes)
    if plan.largest_only:
        pieces = tuple(largest_body(piece) for piece in pieces)
    if whole and plan.joint != "flat":
        pieces, sentences = _joined(state, pieces, planes, plan, progress.part(0.7, 0.9))
        notes += sentences
    shape = cut_shape([(piece.mesh, piece.origin_face < 0) for piece in pieces], matrix)
    progress.check()
    return Cut(plan, _named(state, pieces, plan, notes), tuple(notes), shape)


def _joined(
    state: State, pieces: tuple[Piece, ...], planes: list[CutPlane], plan: CutPlan, progress
) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    if plan.joint == "dovetails":
        tails = DovetailSizes(plan.joint_mm, plan.gap_mm)
        return dovetail_pieces(pieces, planes, state.face_classes, tails, progress)
    sizes = PinSizes(plan.joint_mm, 1.25 * plan.joint_mm, glue_gap_mm=plan.gap_mm)
    return pin_pieces(pieces, planes, sizes, progress)


def _named(
    state: State, pieces: tuple[Piece, ...], plan: CutPlan, notes: list[str]
) -> tuple[JobPiece, ...]:
    made = []
    for number, piece in enumerate(pieces, 1):
        name = say(NAMES[plan.way])
        name = f"{name} {number}" if len(pieces) > 1 else name
        pose: Pose | None = None
        if plan.anew:
            told = len(plan.poses) == len(pieces)
            pose = plan.poses[number - 1] if told else pose_on_cut_face(piece)
        made.append(cut_piece(state, piece, name, plan.way, pose, " ".join(notes)))
    return tuple(made)
