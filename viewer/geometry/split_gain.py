"""Would a part come out cleaner in two? Both halves measured, each laid as it shows least."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.closed_part import ClosedPart
from viewer.geometry.cut_pieces import Piece, cut_pieces, pose_on_cut_face
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.split_planes import SplitPlane
from viewer.progress import Progress


@dataclass(frozen=True)
class Shown:
    """What shows of a print on class A: touch of supports, and terraces wider than a road."""

    touch_mm2: float
    terraces_mm2: float


@dataclass(frozen=True)
class SplitGain:
    """What a split brings.

    whole, halves : of the part in its pose, and of both halves together
    poses : of the lower and the upper half, each that of the whole or on its cut face
    """

    split: SplitPlane
    whole: Shown
    halves: Shown
    poses: tuple[Pose, ...]

    @property
    def cleaner(self) -> bool:
        """Whether half of the touch goes, or as little touch stays and half of the terraces."""
        before, after = self.whole, self.halves
        if before.touch_mm2 >= 1.0:
            return after.touch_mm2 <= 0.5 * before.touch_mm2
        return (
            after.touch_mm2 < 1.0
            and before.terraces_mm2 >= 1.0
            and after.terraces_mm2 <= 0.5 * before.terraces_mm2
        )


def split_gains(
    prepared: PreparedPart,
    part: ClosedPart,
    face_classes: np.ndarray,
    pose: Pose,
    settings: PrintSettings,
    splits: tuple[SplitPlane, ...],
    progress: Progress | None = None,
) -> tuple[SplitGain, ...]:
    """What each of some splits brings for a part in a pose; measured as while turning.

    face_classes : (m,) uint8 of the part. Raises RequestProblem, Cancelled.
    """
    progress = progress or Progress()
    whole = _shown(prepared, face_classes, pose, settings, progress.part(0.0, 0.1))
    found = []
    for number, split in enumerate(splits):
        low, high = 0.1 + 0.9 * number / len(splits), 0.1 + 0.9 * (number + 1) / len(splits)
        share = progress.part(low, high)
        pieces = cut_pieces(part, [split.plane], share.part(0.0, 0.2)).pieces
        best = [
            _best(piece, face_classes, pose, settings, share.part(0.2 + 0.4 * k, 0.6 + 0.4 * k))
            for k, piece in enumerate(pieces)
        ]
        halves = Shown(
            sum(shown.touch_mm2 for shown, _ in best), sum(s.terraces_mm2 for s, _ in best)
        )
        found.append(SplitGain(split, whole, halves, tuple(laid for _, laid in best)))
    return tuple(found)


def _best(
    piece: Piece, face_classes: np.ndarray, pose: Pose, settings: PrintSettings, progress: Progress
) -> tuple[Shown, Pose]:
    """The pose of the whole or the one on the cut face, whichever shows less."""
    prepared = prepare_part(piece.mesh, progress.part(0.0, 0.5))
    classes = piece.classes(face_classes)
    tried = []
    for number, laid in enumerate((pose_on_cut_face(piece) or pose, pose)):
        share = progress.part(0.5 + 0.25 * number, 0.75 + 0.25 * number)
        tried.append((_shown(prepared, classes, laid, settings, share), laid))
    return min(tried, key=lambda each: (round(each[0].touch_mm2, 1), each[0].terraces_mm2))


def _shown(prepared, face_classes, pose, settings, progress) -> Shown:
    found = measure_pose(prepared, face_classes, pose, settings, "quick", progress)
    return Shown(found.touch_area_mm2.A, found.terrace_visible_area_mm2.A)
