"""The list of faults in stage Check: each leads from place to place, by mouse and by keys."""

from collections.abc import Callable
from itertools import pairwise

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from viewer.geometry.fault_places import look_at_place
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import Fault, Place
from viewer.window.pieces import button, column, text_label
from viewer.words import later, say

NEXT_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}
TIP = later("Click or press Return to see one place after the other.")


class FaultBox(QWidget):
    """Faults under one another, lowest first; at most one of them is shown in the scene.

    chosen : the `Sight` of a place to look at, or None for none
    """

    chosen = Signal(object)

    def __init__(self, drawn_mesh: Callable[[], Mesh]) -> None:
        """`drawn_mesh()` has faces turned outward, so that places are looked at from outside."""
        super().__init__()
        self._drawn_mesh = drawn_mesh
        self._layout: QVBoxLayout = column(gap=4)
        self.setLayout(self._layout)
        self.rows: list[FaultRow] = []
        # What is made later comes last for the Tab key, unless it is told what it comes after: that
        # has to be able to take the focus, though nobody ever sees it.
        self._first = QWidget(self)
        self._first.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self._first.hide()

    def show_faults(self, faults: tuple[Fault, ...]) -> None:
        """List other faults."""
        if self.rows:
            self.chosen.emit(None)
        for row in self.rows:
            self._layout.removeWidget(row)
            row.hide()
            row.deleteLater()
        self.rows = [FaultRow(fault) for fault in faults]
        for row in self.rows:
            row.looked.connect(self._look)
            row.left.connect(self._step_from)
            self._layout.addWidget(row)
        for before, row in pairwise([self._first, *self.rows]):
            QWidget.setTabOrder(before, row)

    def put_away(self) -> None:
        """Show no fault any more."""
        for row in self.rows:
            row.put_away()
        self.chosen.emit(None)

    def _look(self, row: "FaultRow") -> None:
        for other in self.rows:
            if other is not row:
                other.put_away()
        place = row.place
        if place is None:
            self.chosen.emit(None)
        else:
            mesh, faces = self._drawn_mesh(), row.fault.faces
            self.chosen.emit(look_at_place(mesh, faces, place.point_mm, place.size_mm))

    def _step_from(self, row: "FaultRow", step: int) -> None:
        number = self.rows.index(row) + step
        if 0 <= number < len(self.rows):
            self.rows[number].setFocus(Qt.FocusReason.TabFocusReason)


class FaultRow(QFrame):
    """One kind of fault: how many, at which heights, and which of its places is looked at.

    looked : this row, after it went on to its next place or to none
    left : this row and −1 or 1, when the keys ask for the row above or below
    """

    looked = Signal(object)
    left = Signal(object, int)

    def __init__(self, fault: Fault) -> None:
        super().__init__()
        self.fault = fault
        self._number = -1
        layout = QHBoxLayout(self)
        layout.setContentsMargins(4, 3, 4, 3)
        low, high = fault.from_mm, fault.to_mm
        where = (
            say("at {low:.1f} mm", low=low)
            if high - low < 0.05
            else say("from {low:.1f} to {high:.1f} mm", low=low, high=high)
        )
        self._words = f"{fault.words[:1].upper()}{fault.words[1:]} {where}"
        lines = column(gap=1)
        lines.addWidget(text_label(self._words))
        self.where = text_label(quiet=True)
        lines.addWidget(self.where)
        layout.addLayout(lines, 1)
        self.button = button(
            say("Show"), self.go_on, say("Look at them on the part. {advice}", advice=fault.advice)
        )
        self.button.setAccessibleName(say("Show {words}", words=fault.words))
        self.button.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the row has it, for the keys
        layout.addWidget(self.button, 0, Qt.AlignmentFlag.AlignTop)
        self.setProperty("fault", True)
        self.setToolTip(f"{fault.effect} {fault.advice} {say(TIP)}".strip())
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._show_place()

    @property
    def place(self) -> Place | None:
        """The place of the fault that is looked at; None for none."""
        return self.fault.places[self._number] if self._number >= 0 else None

    def put_away(self) -> None:
        """Another fault is shown, or none."""
        self._number = -1
        self._show_place()

    def go_on(self) -> None:
        """To the first place, then from place to place, and then to none."""
        self._number += 1
        if self._number >= len(self.fault.places):
            self._number = -1
        self._show_place()
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        self.looked.emit(self)

    def _show_place(self) -> None:
        place, count = self.place, len(self.fault.places)
        text = ""
        if place is not None:
            text = say(
                "Place {number} of {count}, at {height_mm:.1f} mm",
                number=self._number + 1,
                count=count,
                height_mm=place.height_mm,
            )
        self.where.setText(text)
        self.where.setVisible(place is not None)
        last = self._number == count - 1
        self.button.setText(say("Show") if place is None else say("Done") if last else say("Next"))
        self.button.setVisible(count > 0)
        self.setAccessibleName(f"{self._words}. {text}".strip())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A click anywhere on the row goes on."""
        inside = self.rect().contains(event.position().toPoint())
        if event.button() == Qt.MouseButton.LeftButton and inside:
            self.go_on()
        else:
            super().mouseReleaseEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Keep the press, or the release would go elsewhere."""
        event.setAccepted(event.button() == Qt.MouseButton.LeftButton)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes on; Up and Down change the row."""
        if event.key() in NEXT_KEYS:
            self.go_on()
        elif event.key() in STEPS:
            self.left.emit(self, STEPS[event.key()])
        else:
            super().keyPressEvent(event)
