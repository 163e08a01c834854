"""Cut-outs in stage Try: which way, where, how the pieces are laid, and what comes of it."""

from functools import partial

import numpy as np
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from viewer.document.cutting import CutPlan
from viewer.live.live_pieces import LivePieces
from viewer.window.cut_planner import CutPlanner
from viewer.window.joint_fields import JointFields
from viewer.window.piece_words import made_text
from viewer.window.pieces import ActionButton, FieldRow, NumberField, column, text_label
from viewer.words import later, say

REACH_MM = 5000.0
WAYS = ("quarters", "slab", "box")
TIPS = {
    "middle": later("Middle of the cut from the middle of the part, and its height over the "
                    "platform; or drag the round handle in the scene."),
    "size": later("Size of the box; or drag the handles on its sides."),
    "heights": later("Height over the platform; or drag the handles in the scene."),
    "angle": later("Turn of the cut about the upright axis, anticlockwise seen from above."),
    "anew": later("Lay each piece on its largest cut face. Otherwise it lies as in the whole, so "
                  "that it shows the same terraces and supports."),
    "largest": later("Keep only the largest body of what lies in the box."),
}  # fmt: skip


class CutBox(QWidget):
    """Writes to the planner, and listens to it."""

    def __init__(
        self, planner: CutPlanner, numbers: LivePieces, actions: dict[str, QAction]
    ) -> None:
        super().__init__()
        self._planner, self._numbers = planner, numbers
        layout = column(gap=6)
        self.setLayout(layout)
        layout.addLayout(
            _buttons(actions, ("cut_quarters", say("Quarters")), ("cut_slab", say("Slab")),
                     ("cut_box", say("Box")))
        )  # fmt: skip
        layout.addWidget(text_label(say("Around the worst patch of"), quiet=True))
        layout.addLayout(
            _buttons(actions, ("worst_touch", say("Touch")), ("worst_terrace", say("Terraces")))
        )
        self.middle = self._row("middle", ("X", "Y", "Z"), say("Middle"), self._set_middle)
        self.size = self._row("size", (say("Width"), say("Depth"), say("Height")), say("Size"),
                              self._set_size)  # fmt: skip
        self.heights = self._row("heights", (say("From"), say("To")), say("Slab"),
                                 self._set_heights)  # fmt: skip
        self.angle = self._row("angle", (say("Turn"),), say("Turn of the cut"), self._set_angle,
                               "°")  # fmt: skip
        self.largest = self._check(say("Largest body only"), "largest", "largest_only")
        self.joint = JointFields(planner)
        self.anew = self._check(say("Lay on a cut face"), "anew", "anew")
        layout.addWidget(self.joint)
        layout.addWidget(self.anew)
        self.words = text_label(quiet=True)
        layout.addWidget(self.words)
        layout.addLayout(
            _buttons(actions, ("take_cut", say("Take it")), ("cut_away", say("Put away")))
        )
        planner.changed.connect(self._show)
        numbers.told.connect(self._show_words)
        self._show()

    def _row(self, key, names, what, changed, unit="mm") -> list[NumberField]:
        row, fields = FieldRow(), []
        for place, name in enumerate(names):
            low = 0.1 if key == "size" else -REACH_MM
            limits = (-180.0, 180.0, 1, 5.0) if unit == "°" else (low, REACH_MM, 1, 1.0)
            field = NumberField(f"{what} {name}", unit, *limits, partial(changed, place))
            row.add(name, field, say(TIPS[key]))
            fields.append(field)
        self.layout().addWidget(row)
        return fields

    def _check(self, text: str, tip: str, name: str) -> QCheckBox:
        box = QCheckBox(text)
        box.setToolTip(say(TIPS[tip]))
        box.toggled.connect(lambda on: self._planner.change(**{name: on}))
        self.layout().addWidget(box)
        return box

    # --- what the fields ask for
    def _set_middle(self, axis: int, value: float) -> None:
        plan = self._planner.plan
        if plan is not None:
            by = np.zeros(3)
            by[axis] = value - float((plan.middle_mm @ plan.axes)[axis])
            self._planner.move(by)

    def _set_size(self, axis: int, value: float) -> None:
        plan = self._planner.plan
        if plan is not None:
            size = np.array(plan.high_mm) - plan.low_mm
            size[axis] = value
            self._planner.set_plan(plan.placed(plan.middle_mm, size))

    def _set_heights(self, end: int, value: float) -> None:
        plan = self._planner.plan
        if plan is not None:
            self._planner.set_plan(plan.with_side(2, bool(end), value))

    def _set_angle(self, _: int, value: float) -> None:
        plan = self._planner.plan
        if plan is None:
            return
        place = plan.middle_mm @ plan.axes  # which stays where it is
        turned = CutPlan("box", angle_deg=value).axes @ place
        half = 0.5 * (np.array(plan.high_mm) - plan.low_mm)
        low, high = (tuple((turned + s * half).tolist()) for s in (-1, 1))
        self._planner.change(angle_deg=value, low_mm=low, high_mm=high)

    # --- showing
    def _show(self) -> None:
        plan = self._planner.plan
        plan = None if plan is None or plan.way not in WAYS else plan
        way = "" if plan is None else plan.way
        for fields, ways in (
            (self.middle, ("quarters", "box")), (self.size, ("box",)),
            (self.heights, ("slab",)), (self.angle, ("quarters", "box")),
        ):  # fmt: skip
            fields[0].parentWidget().setVisible(way in ways)
        self.largest.setVisible(way == "box")
        self.anew.setVisible(bool(way))
        self.joint.setVisible(way == "quarters")
        self.middle[2].setEnabled(way == "box")
        if plan is not None:
            self._fill(plan)
        self._show_words()

    def _fill(self, plan: CutPlan) -> None:
        middle, size = plan.middle_mm @ plan.axes, np.array(plan.high_mm) - plan.low_mm
        for fields, values in (
            (self.middle, middle), (self.size, size),
            (self.heights, (plan.low_mm[2], plan.high_mm[2])), (self.angle, (plan.angle_deg,)),
        ):  # fmt: skip
            for field, value in zip(fields, values, strict=True):
                field.show_number(float(value))
        for box, on in ((self.largest, plan.largest_only), (self.anew, plan.anew)):
            box.blockSignals(True)
            box.setChecked(on)
            box.blockSignals(False)

    def _show_words(self) -> None:
        plan = self._planner.plan
        mine = plan is not None and plan.way in WAYS
        self.words.setText(planned_text(self._planner, self._numbers) if mine else say(
            "Cut a small piece out of the part and print it first; nothing of the part changes."
        ))  # fmt: skip


def planned_text(planner: CutPlanner, numbers: LivePieces) -> str:
    """What the plan in force is and makes."""
    lines = [planner.sentence] if planner.sentence else []
    made = planner.made
    if made:
        lines.append(made_text(made, [numbers.numbers_of(piece) for piece in made]))
        lines += dict.fromkeys(planner.live.latest.notes)
    elif planner.live.working:
        lines.append(say("Cutting …"))
    return "\n".join(lines)


def _buttons(actions: dict[str, QAction], *places: tuple[str, str]) -> QGridLayout:
    grid = QGridLayout()
    grid.setSpacing(6)
    for place, (key, text) in enumerate(places):
        made = ActionButton(actions[key], text, leading=key == "take_cut")
        made.setObjectName(key)
        grid.addWidget(made, 0, place)
    return grid
