"""How cut faces go together again: flat, with pins or with dovetails, and the gap for glue."""

from PySide6.QtWidgets import QWidget

from viewer.document.cutting import JOINT_MM
from viewer.window.cut_planner import CutPlanner
from viewer.window.pieces import ChoiceBox, FieldRow, NumberField, column
from viewer.words import later, say

JOINTS = {
    "flat": (later("Flat faces"), later("Nothing but the two faces; held by glue alone.")),
    "pins": (
        later("Pins"),
        later("Two round pins of different thickness on one face and holes in the other, so that "
              "the pieces go together in one way only."),
    ),
    "dovetails": (
        later("Dovetail"),
        later("A tail on one face slides into a slot of the other, which is open at one end only, "
              "where no class A is."),
    ),
}  # fmt: skip


class JointFields(QWidget):
    """Writes to the planner, and listens to it."""

    def __init__(self, planner: CutPlanner) -> None:
        super().__init__()
        self._planner = planner
        layout = column(gap=6)
        self.setLayout(layout)
        self.kind = ChoiceBox()
        self.kind.setAccessibleName(say("Joint of the pieces"))
        self.kind.setToolTip(say("How the pieces go together again."))
        self.kind.setMinimumWidth(60)
        for place, (key, (name, tip)) in enumerate(JOINTS.items()):
            self.kind.addItem(say(name), key)
            self.kind.setItemData(place, say(tip), 3)  # Qt.ToolTipRole
        self.kind.activated.connect(self._choose)
        layout.addWidget(self.kind)
        self._row = FieldRow()
        self.size = NumberField(say("Width of the joint"), "mm", 0.5, 50, 1, 0.5, self._set_size)
        self.gap = NumberField(say("Glue gap"), "mm", 0, 2, 2, 0.05,
                               lambda value: planner.change(gap_mm=value))  # fmt: skip
        self._row.add(say("Width"), self.size, say("Diameter of the thicker pin, or width of a "
                                                   "dovetail at its foot."))  # fmt: skip
        self._row.add(say("Glue gap"), self.gap, say("By which holes and slots are wider all "
                                                     "round and deeper."))  # fmt: skip
        layout.addWidget(self._row)
        planner.changed.connect(self._show)
        self._show()

    def _choose(self) -> None:
        joint = self.kind.currentData()
        self._planner.change(joint=joint, joint_mm=JOINT_MM.get(joint, 4.0))

    def _set_size(self, value: float) -> None:
        self._planner.change(joint_mm=value)

    def _show(self) -> None:
        plan = self._planner.plan
        if plan is None:
            return
        self.kind.setCurrentIndex(self.kind.findData(plan.joint))
        self.size.show_number(plan.joint_mm)
        self.gap.show_number(plan.gap_mm)
        self._row.setVisible(plan.joint != "flat")
