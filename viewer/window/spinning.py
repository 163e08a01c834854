"""Spins the part by a rule, now or whenever it is laid for another direction."""

from functools import partial
from typing import Protocol

import numpy as np
from PySide6.QtCore import QObject, Signal

from viewer.document.document import Document
from viewer.geometry.pose import Pose
from viewer.geometry.spin_wish import Side, SpinRule
from viewer.live.live_search import LiveSearch
from viewer.window.part_view import PartView
from viewer.window.search_choices import SearchChoices
from viewer.window.searched_spin import PosedCorners, pose_towards
from viewer.window.spin_rules import NAMES, REFUSALS, Shown, pose_spun
from viewer.window.verbs import Verbs, plain
from viewer.words import say

RULE_OF = {
    "least_rectangle": SpinRule.RECTANGLE,
    "seam_away": SpinRule.SEAM_AWAY,
    "seam_side": SpinRule.SEAM_SIDE,
    "walls_along": SpinRule.WALLS,
}


class SpinningWindow(Protocol):
    """What spinning needs of the window."""

    document: Document
    view: PartView


class Spinning(QObject):
    """failed : a sentence for the user"""

    failed = Signal(str)

    def __init__(
        self, window: SpinningWindow, choices: SearchChoices, live: LiveSearch, parent: QObject
    ) -> None:
        super().__init__(parent)
        self._window, self._document = window, window.document
        self._choices, self._live = choices, live
        self._corners: PosedCorners | None = None
        self._shown: Shown | None = None

    def verbs(self) -> Verbs:
        """Spin the part now, by each rule."""
        return {key: plain(partial(self.spin_now, rule)) for key, rule in RULE_OF.items()}

    def forget(self) -> None:
        """For another part."""
        self._corners = self._shown = None

    def corners(self) -> PosedCorners:
        """Of the present part, those of its hull once they are known."""
        part, rays = self._document.state.part, self._live.closer.rays
        if self._corners is None or not self._corners.belongs_to(part.mesh):
            self._corners = PosedCorners(part.mesh)
        if rays is not None and rays.searched.part.mesh is part.mesh:
            self._corners.use_hull(rays.searched.hull_points_mm + rays.searched.part.centre_mm)
        return self._corners

    def shown(self) -> Shown:
        """What of the present part shows."""
        state = self._document.state
        if self._shown is None or not self._shown.belongs_to(state):
            self._shown = Shown(state)
        return self._shown

    def pose_towards(self, up: np.ndarray) -> Pose:
        """The pose with `up` up and the spin that the chosen rule gives it.

        Where that rule says nothing, the least rectangle decides.
        """
        wish = self._choices.spin_wish
        rule = wish.rule
        spin_deg = self._spin_deg(rule, up, wish.side)
        if spin_deg is not None:
            return pose_spun(up, spin_deg)
        keep, platform_mm = rule is SpinRule.KEEP, self._live.platform_mm
        return pose_towards(up, self._document.state.pose, self.corners(), keep, platform_mm)

    def _spin_deg(self, rule: SpinRule, up: np.ndarray, side: Side | None) -> float | None:
        if rule not in REFUSALS:
            return None
        return self.shown().spin_deg(rule, up, side, self.corners(), self._live.platform_mm)

    def _side_in_view(self) -> Side:
        """The side of the part that is in view now."""
        towards = self._window.view.eye().towards
        return tuple(-float(x) for x in towards)

    def choose(self, rule: SpinRule) -> None:
        """Another rule, for the part as it lies and for every direction gone to: one step."""
        with self._document.gesture(say(NAMES[rule])):
            self._choices.set_spin_rule(rule, self._side_in_view())
            self.spin_now(rule)

    def spin_now(self, rule: SpinRule) -> None:
        """Spin the part as it lies: one step."""
        state = self._document.state
        if state.part is None or rule is SpinRule.KEEP:
            return
        side = self._side_in_view()
        up = np.array(state.pose.up)
        if rule is SpinRule.RECTANGLE:
            platform_mm = self._live.platform_mm
            pose = pose_towards(up, state.pose, self.corners(), False, platform_mm)
            self._document.turn(pose, say("Least platform rectangle"))
            return
        spin_deg = self._spin_deg(rule, up, side)
        if spin_deg is None:
            self.failed.emit(say(REFUSALS[rule]))
            return
        with self._document.gesture(say(NAMES[rule])):
            if rule is SpinRule.SEAM_SIDE and self._choices.spin_wish.rule is rule:
                self._choices.set_spin_rule(rule, side)  # this side from now on
            self._document.turn(pose_spun(up, spin_deg))
