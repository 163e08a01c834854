"""Rules for the spin of a pose: by the platform, the seam, the axes of the machine, or as it is."""

import numpy as np

from viewer.document.state import State
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.geometry.pose import Pose
from viewer.geometry.seam_and_axes import (
    facing_mm2,
    gather_area_vectors,
    outlines_mm2,
    seam_away,
    share_along,
    spin_of_side,
    walls_along,
)
from viewer.geometry.spin_wish import Side, SpinRule
from viewer.window.quantities import number_text
from viewer.window.searched_spin import PosedCorners
from viewer.window.turn_angles import tidy
from viewer.words import later, say, written

Platform = tuple[float, float] | None


NAMES = {
    SpinRule.RECTANGLE: later("Least rectangle"),
    SpinRule.SEAM_AWAY: later("Seam away from class A"),
    SpinRule.SEAM_SIDE: later("Seam on the side in view"),
    SpinRule.WALLS: later("Walls along X or Y"),
    SpinRule.KEEP: later("Leave the spin"),
}
TIPS = {
    SpinRule.RECTANGLE: later("The part takes the least rectangle of the platform."),
    SpinRule.SEAM_AWAY: later(
        "Where each layer begins, at the back of the machine, the least of class A is seen."
    ),
    SpinRule.SEAM_SIDE: later(
        "The side of the part that you look at comes to the back of the machine, where each layer "
        "begins."
    ),
    SpinRule.WALLS: later(
        "The longest walls of class A lie along X or Y, so that one axis draws them alone and no "
        "pattern of both shows on them."
    ),
    SpinRule.KEEP: later("The spin stays as it is."),
}
REFUSALS = {
    SpinRule.SEAM_AWAY: later("Every side is alike for the seam, so the spin stays as it is."),
    SpinRule.SEAM_SIDE: later(
        "You look at the part from above or below: turn the view to the side that may carry the "
        "seam, then choose it again."
    ),
    SpinRule.WALLS: later("No wall stands out that could lie along X or Y."),
}


class Shown:
    """What of a part shows: class A, or the whole part where nothing is marked so."""

    def __init__(self, state: State) -> None:
        mesh, classes = state.part.mesh, state.face_classes
        self._of = (mesh, classes)
        self.has_a = bool((classes == CLASS_A).any())
        first = classes == CLASS_A if self.has_a else np.ones(len(classes), bool)
        self._first = gather_area_vectors(mesh, first)
        self._second = gather_area_vectors(mesh, classes == CLASS_B) if self.has_a else None

    def belongs_to(self, state: State) -> bool:
        """Whether it is of these marks."""
        return self._of[0] is state.part.mesh and self._of[1] is state.face_classes

    def spin_deg(
        self,
        rule: SpinRule,
        up: np.ndarray,
        side: Side | None,
        corners: PosedCorners,
        platform_mm: Platform,
    ) -> float | None:
        """By a rule about the seam or the axes; None where the rule says nothing."""
        first = outlines_mm2(self._first, up)
        if rule is SpinRule.SEAM_AWAY:
            second = None if self._second is None else outlines_mm2(self._second, up)
            found = seam_away(first, second)
            return None if found is None else found.spin_deg
        if rule is SpinRule.SEAM_SIDE:
            return spin_of_side(up, np.array(side))
        walls = walls_along(first)
        if walls is None:
            return None
        quarters = walls.spin_deg + np.array([0.0, 90.0, 180.0, 270.0])
        facing = np.round(facing_mm2(first, quarters), 6)
        over = [round(corners.over_mm(up, spin, platform_mm), 6) for spin in quarters]
        # The one that fits; of several the one with the least of the side at the back.
        return float(quarters[min(range(4), key=lambda k: (over[k], facing[k]))])

    def words(self, pose: Pose) -> str:
        """Where seam and axes fall with a pose."""
        first = outlines_mm2(self._first, np.array(pose.up))
        facing = facing_mm2(first, np.append(pose.spin_deg, np.arange(0.0, 360.0, 2.0)))
        values = {
            "facing": number_text(float(facing[0])),
            "most": number_text(float(facing.max())),
            "share": written(round(100.0 * share_along(first, pose.spin_deg))),
        }
        if self.has_a:
            return say(
                "Seam at the back: {facing} mm² of class A face it, of at most {most}. Along X or "
                "Y: {share} % of its walls.",
                **values,
            )
        return say(
            "Seam at the back: {facing} mm² of the part face it, of at most {most}. Along X or Y: "
            "{share} % of its walls.",
            **values,
        )


def pose_spun(up: np.ndarray, spin_deg: float) -> Pose:
    """The pose with a direction up and a spin."""
    return tidy(Pose(tuple(float(x) for x in up), spin_deg))
