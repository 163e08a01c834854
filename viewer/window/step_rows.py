"""The steps of a test piece as rows of three buttons, judged by mouse or by one key each."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QLabel, QPushButton, QWidget

from viewer.shop.trial_steps import OUTCOME_NAMES, SIGNS, AskedStep, step_text
from viewer.shop.trials import OUTCOMES, Outcome, StepResult
from viewer.window.pieces import NumberField
from viewer.words import say

KEYS = {Qt.Key.Key_1: "clean", Qt.Key.Key_2: "acceptable", Qt.Key.Key_3: "bad"}


class StepRows(QWidget):
    """One row for each step. In a row 1, 2 and 3 judge and go on to the next; 0 takes it back."""

    def __init__(self, changed: Callable[[], object]) -> None:
        super().__init__()
        self._changed = changed
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(6, 1)  # behind the last field
        self.rows: list[StepRow] = []
        self._measured = False

    def show_steps(
        self, steps: tuple[AskedStep, ...], results: tuple[StepResult, ...] = ()
    ) -> None:
        """Other steps; what was judged of steps that are there again stays."""
        judged = {(r.value, r.unit, r.row): r for r in (*self.results(), *results)}
        for row in self.rows:
            row.put_away()
        self.rows = []
        for place, step in enumerate(steps):
            row = StepRow(self, step, self._changed)
            row.show_result(judged.get((step.value, step.unit, step.row)))
            row.add_to(self._grid, place)
            row.show_measured(self._measured)
            self.rows.append(row)

    def show_measured(self, wanted: bool) -> None:
        """With or without the fields for what was measured."""
        self._measured = wanted
        for row in self.rows:
            row.show_measured(wanted)

    def results(self) -> tuple[StepResult, ...]:
        """What was judged, in the order of the rows."""
        return tuple(found for row in self.rows if (found := row.result()) is not None)

    def has_measured(self) -> bool:
        """Whether anything was measured."""
        return any(step.ra_um is not None or step.terrace_mm is not None for step in self.results())

    def next_after(self, row: "StepRow") -> None:
        """Put the cursor into the row below, if there is one."""
        place = self.rows.index(row) + 1
        if place < len(self.rows):
            self.rows[place].take_focus()


class StepRow(QWidget):
    """One step; the widget itself is only the parent of its name."""

    def __init__(self, rows: StepRows, step: AskedStep, changed: Callable[[], object]) -> None:
        super().__init__(rows)
        self.hide()
        self._rows, self._changed, self.step = rows, changed, step
        name = step_text(step)
        self._name = QLabel(name)
        self._group = QButtonGroup(self)
        self._group.setExclusive(False)
        self.buttons: dict[Outcome, QPushButton] = {}
        for number, outcome in enumerate(OUTCOMES, 1):
            made = QPushButton(f"{SIGNS[outcome]} {say(OUTCOME_NAMES[outcome])}")
            made.setCheckable(True)
            made.setAutoDefault(False)
            made.setAccessibleName(f"{name}: {say(OUTCOME_NAMES[outcome])}")
            made.setToolTip(
                say("Key {number}; 0 takes the judgement of this step back.", number=number)
            )
            made.clicked.connect(lambda on, of=outcome: self.judge(of if on else None))
            made.installEventFilter(self)
            self.buttons[outcome] = made
        self._name.setBuddy(self.buttons["clean"])
        self.ra = NumberField(
            say("Ra, {step}", step=name), "µm", 0, 1000, 1, 1, self._typed,
            say("Measured roughness Ra; 0 where it was not measured."),
        )  # fmt: skip
        self.terrace = NumberField(
            say("Terrace, {step}", step=name), "mm", 0, 20, 2, 0.05, self._typed,
            say("Measured height of a terrace; 0 where it was not measured."),
        )  # fmt: skip
        self._outcome: Outcome | None = None

    def add_to(self, grid: QGridLayout, place: int) -> None:
        """Lay its widgets into a line of a grid."""
        for across, widget in enumerate(self._widgets()):
            grid.addWidget(widget, place, across)

    def _widgets(self) -> tuple[QWidget, ...]:
        return (self._name, *self.buttons.values(), self.ra, self.terrace)

    def put_away(self) -> None:
        """Leave the grid."""
        for widget in (*self._widgets(), self):
            widget.hide()
            widget.deleteLater()

    def take_focus(self) -> None:
        """Put the cursor on the button that is pressed, or the first."""
        self.buttons[self._outcome or "clean"].setFocus(Qt.FocusReason.TabFocusReason)

    def show_measured(self, wanted: bool) -> None:
        """With or without the fields for what was measured."""
        self.ra.setVisible(wanted)
        self.terrace.setVisible(wanted)

    def judge(self, outcome: Outcome | None) -> None:
        """Note how it came out; None: nothing."""
        self._outcome = outcome
        for name, button in self.buttons.items():
            button.setChecked(name == outcome)
        self._changed()

    def show_result(self, result: StepResult | None) -> None:
        """Show what was judged and measured before."""
        if result is None:
            return
        self._outcome = result.outcome
        self.buttons[result.outcome].setChecked(True)
        self.ra.show_number(result.ra_um or 0.0)
        self.terrace.show_number(result.terrace_mm or 0.0)

    def result(self) -> StepResult | None:
        """What was judged, None where nothing was."""
        if self._outcome is None:
            return None
        return StepResult(
            value=self.step.value, unit=self.step.unit, row=self.step.row, outcome=self._outcome,
            ra_um=self.ra.value() or None, terrace_mm=self.terrace.value() or None,
        )  # fmt: skip

    def _typed(self, _value: float) -> None:
        self._changed()

    def eventFilter(self, watched: QWidget, event: QEvent) -> bool:
        """1, 2 and 3 judge and go on, 0 takes back, up and down go to other rows."""
        if event.type() != QEvent.Type.KeyPress or watched not in self.buttons.values():
            return False
        return self._key(event)

    def _key(self, event: QKeyEvent) -> bool:
        key, place = event.key(), self._rows.rows.index(self)
        if key in KEYS:
            self.judge(KEYS[key])
            self._rows.next_after(self)
        elif key == Qt.Key.Key_0:
            self.judge(None)
        elif key == Qt.Key.Key_Down:
            self._rows.next_after(self)
        elif key == Qt.Key.Key_Up and place > 0:
            self._rows.rows[place - 1].take_focus()
        else:
            return False
        return True
