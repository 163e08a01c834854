"""Splitting for real in stage Try: the places found, what they bring, the one in force."""

from dataclasses import replace

from PySide6.QtCore import QObject, Signal

from viewer.document.cutting import JOINT_MM, CutPlan
from viewer.document.document import Changed, Document
from viewer.errors import ShowsideError
from viewer.geometry.split_gain import SplitGain
from viewer.live.live_cuts import SplitAdvice
from viewer.shop.job_numbers import choose
from viewer.shop.machines import Machine
from viewer.window.choices import Choices
from viewer.window.cut_planner import CutPlanner
from viewer.window.shop_desk import ShopDesk
from viewer.window.stages import Stage
from viewer.words import say

MEASURED = Changed.PART | Changed.CLASSES | Changed.POSE | Changed.SETTINGS | Changed.SHOP


class SplitWork(QObject):
    """Asks `LiveCuts` for places, and writes the chosen one to the planner.

    changed : the places or the chosen one are others now
    """

    changed = Signal()

    def __init__(
        self, document: Document, choices: Choices, shop: ShopDesk, planner: CutPlanner
    ) -> None:
        super().__init__(planner)
        self._document, self._choices, self._shop = document, choices, shop
        self._planner = planner
        self.advice: SplitAdvice | None = None
        self.place = 0
        planner.live.advised.connect(self._advised)
        planner.signals.changed.connect(self._document_changed)

    @property
    def gains(self) -> tuple[SplitGain, ...]:
        """The places found, () while there are none."""
        return () if self.advice is None else self.advice.gains

    def look(self) -> None:
        """Look for places to split the part as it is laid, for the chosen machine."""
        self._choices.set_stage(Stage.TRY)
        if self._document.state.part is None:
            return
        self._planner.set_plan(None)
        machine, too_large = self._machine()
        self._planner.live.find_splits(machine, too_large, say("Looking for a place to split"))

    def step(self) -> None:
        """Split at the next place."""
        if self.gains:
            self._choices.set_stage(Stage.TRY)
            self.choose((self.place + 1) % len(self.gains))

    def choose(self, place: int) -> None:
        """Plan the split at one of the places found."""
        if not 0 <= place < len(self.gains):
            return
        self.place = place
        gain, old = self.gains[place], self._planner.plan
        fresh = CutPlan("split", joint="pins", joint_mm=JOINT_MM["pins"], anew=True)
        plan = old if old is not None and old.way == "split" else fresh
        self._planner.set_plan(replace(plan, plane=gain.split.plane, poses=gain.poses))
        self._planner.begun.emit()
        self.changed.emit()

    def _machine(self) -> tuple[Machine, str]:
        """The chosen machine, and why the part does not fit it at any spin, "" if it does."""
        numbers, state = self._shop.live.latest, self._document.state
        if numbers is not None and self._shop.live.latest_pose == state.pose:
            fit = numbers.fits[numbers.chosen.machine.name]
            return numbers.chosen.machine, "" if fit.fits else fit.why
        try:
            return choose(self._shop.live.shop, state.shop_choice).machine, ""
        except ShowsideError:  # a job from another shop
            return self._shop.live.shop.machines[0], ""

    def _advised(self, advice: SplitAdvice) -> None:
        self.advice = advice
        self.choose(0)
        self.changed.emit()

    def _document_changed(self, what: Changed) -> None:
        if what & MEASURED and self.advice is not None:
            self.advice, self.place = None, 0
            plan = self._planner.plan
            if plan is not None and plan.way == "split":
                self._planner.set_plan(None)
            self.changed.emit()
