"""Stage 3: rings or standing on a face, typed angles, quarter turns, process, pinned and kept."""

from dataclasses import replace
from functools import partial

from PySide6.QtGui import QAction, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from viewer.document.document import Changed, Document
from viewer.window.document_signals import DocumentSignals
from viewer.window.fold import Fold
from viewer.window.kept_box import KeptBox
from viewer.window.pieces import ActionButton, FieldRow, NumberField, column, rule, text_label
from viewer.window.turn_angles import pose_of_angles, typed_angles_deg
from viewer.words import later, say

# field of the settings, short and long name, (unit, lowest, highest, decimals, step), meaning
PROCESS = (
    (
        "layer_mm",
        later("Layer"),
        later("Layer height"),
        ("mm", 0.01, 5, 2, 0.05),
        later("height of one layer."),
    ),
    (
        "support_limit_deg",
        later("Limit"),
        later("Support limit"),
        ("°", 0, 90, 1, 1),
        later("smallest inclination, from horizontal, that holds itself up."),
    ),
    (
        "road_mm",
        later("Road"),
        later("Road width"),
        ("mm", 0.05, 10, 2, 0.02),
        later("width of one extruded road."),
    ),
    (
        "bridge_mm",
        later("Bridge"),
        later("Bridge limit"),
        ("mm", 0, 200, 1, 1),
        later("longest span from wall to wall that needs no support; 0 for none."),
    ),
    (
        "clearance_mm",
        later("Clearance"),
        later("Clearance"),
        ("mm", 0, 10, 2, 0.05),
        later("a support closer to the surface than this marks it (graze)."),
    ),
    (
        "visible_terrace_mm",
        later("Terraces"),
        later("Visible terraces"),
        ("mm", 0, 20, 2, 0.05),
        later("width from which terraces count as wide; 0 for the road width."),
    ),
)


class TurnPanel(QWidget):
    """Everything that lays the part, and the process settings its numbers depend on."""

    def __init__(
        self, document: Document, signals: DocumentSignals, actions: dict[str, QAction]
    ) -> None:
        super().__init__()
        self._document = document
        self._angles = (
            NumberField(say("Tilt about X"), "°", -180, 180, 1, 1, partial(self._turn, 0)),
            NumberField(say("Tilt about Y"), "°", -90, 90, 1, 1, partial(self._turn, 1)),
            NumberField(say("Spin about Z"), "°", -180, 180, 1, 1, partial(self._turn, 2)),
        )
        for field in self._angles:
            field.setWrapping(True)
        self._angles[1].setWrapping(False)
        self.process = {
            name: NumberField(say(long_name), *limits, partial(self._set_process, name))
            for name, _, long_name, limits, _ in PROCESS
        }
        self._mirror = text_label()
        self._pinned = text_label(quiet=True)
        self.kept = KeptBox(document, signals, actions)
        self._fold = Fold(
            say("Process"), say("Layer height, support limit and what else numbers depend on.")
        )
        self._lay_out(actions)
        signals.changed.connect(self._show)
        self._show(Changed.EVERYTHING)

    def _lay_out(self, actions: dict[str, QAction]) -> None:
        layout = column(gap=5)
        self.setLayout(layout)
        layout.addWidget(self._mirror)
        modes = QGridLayout()
        modes.setSpacing(6)
        modes.addWidget(ActionButton(actions["turn_rings"], say("Rings")), 0, 0)
        modes.addWidget(ActionButton(actions["turn_stand"], say("Stand on face")), 0, 1)
        layout.addLayout(modes)
        angles = FieldRow()
        tips = (
            say("Tilt of the part about its own X, before the spin."),
            say("Tilt of the part about its own Y, before the spin."),
            say("Turn about the upright axis, anticlockwise seen from above."),
        )
        for name, field, tip in zip(
            (say("Tilt X"), say("Tilt Y"), say("Spin Z")), self._angles, tips, strict=True
        ):
            angles.add(name, field, tip)
        layout.addWidget(angles)
        layout.addWidget(text_label(say("Quarter turns"), heading=True))
        quarters = QGridLayout()
        quarters.setSpacing(6)
        for place, axis in enumerate("xyz"):
            quarters.addWidget(
                ActionButton(actions[f"quarter_{axis}_plus"], f"{axis.upper()} +90°"), 0, place
            )
            quarters.addWidget(
                ActionButton(actions[f"quarter_{axis}_minus"], f"{axis.upper()} −90°"), 1, place
            )
        layout.addLayout(quarters)
        ways = QGridLayout()
        ways.setSpacing(6)
        ways.addWidget(ActionButton(actions["as_drawn"], say("As in file")), 0, 0)
        ways.addWidget(
            ActionButton(actions["search_directions"], say("Search all"), leading=True), 0, 1
        )
        layout.addLayout(ways)
        layout.addWidget(rule())
        head = QGridLayout()
        head.addWidget(text_label(say("Compare"), heading=True), 0, 0)
        head.addWidget(ActionButton(actions["compare"], say("Side by side")), 0, 1)
        layout.addLayout(head)
        pins = QGridLayout()
        pins.setSpacing(6)
        pins.addWidget(ActionButton(actions["pin"], say("Pin")), 0, 0)
        pins.addWidget(ActionButton(actions["unpin"], say("Unpin")), 0, 1)
        pins.addWidget(ActionButton(actions["keep_pose"], say("Keep")), 0, 2)
        layout.addLayout(pins)
        layout.addWidget(self._pinned)
        layout.addWidget(self.kept)
        layout.addWidget(rule())
        layout.addWidget(self._fold)
        for start in (0, 3):
            process = FieldRow()
            for name, short_name, long_name, _, meaning in PROCESS[start : start + 3]:
                process.add(
                    say(short_name), self.process[name], f"{say(long_name)}: {say(meaning)}"
                )
            self._fold.add(process)
        layout.addStretch(1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another size may have room for what was folded, or none any more."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        """Fold the process when the column would scroll otherwise, until somebody unfolds it."""
        viewport = self.parentWidget()
        if viewport is not None and self.layout().count():
            open_px = self.layout().totalHeightForWidth(self.width())
            if not self._fold.is_open:
                open_px += self._fold.inner_height_px(self.width())
            self._fold.set_wanted(open_px <= viewport.height())

    # --- the user types
    def _turn(self, which: int, angle_deg: float) -> None:
        # The other two as they are, not as they are shown: rounding would turn the part.
        angles_deg = list(typed_angles_deg(self._document.state.pose))
        angles_deg[which] = angle_deg
        self._document.turn(pose_of_angles(*angles_deg))

    def _set_process(self, name: str, value: float) -> None:
        self._document.set_settings(replace(self._document.state.settings, **{name: value}))

    # --- the document is shown
    def _show(self, what: Changed) -> None:
        state = self._document.state
        if what & (Changed.POSE | Changed.PART):
            for field, angle_deg in zip(self._angles, typed_angles_deg(state.pose), strict=True):
                field.show_number(angle_deg)
        if what & (Changed.SETTINGS | Changed.PART):
            for name, process in self.process.items():
                process.show_number(getattr(state.settings, name))
        if what & (Changed.PINNED | Changed.POSE | Changed.PART):
            self._pinned.setText(_pinned_sentence(state.pinned_pose, state.pose))
        if what & Changed.KEPT:  # a list says by itself what it is for
            self._pinned.setVisible(not state.kept_poses)
            self._make_room()
        if what & Changed.PART:
            notes = state.part.notes if state.part is not None else ()
            mirrored = [note for note in notes if "mirror" in note.lower()]
            self._mirror.setText("! " + " ".join(mirrored) if mirrored else "")
            self._mirror.setVisible(bool(mirrored))


def _pinned_sentence(pinned: object, pose: object) -> str:
    if pinned is None:
        return say("Pin a pose to see by how much every other pose differs from it.")
    if pinned == pose:
        return say("This is the pinned pose.")
    return say("The numbers show the difference to the pinned pose.")
