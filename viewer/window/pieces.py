"""The few kinds of label, button and field that every panel is made of."""

from collections.abc import Callable

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QAction, QKeySequence, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import (
    QComboBox,
    QDoubleSpinBox,
    QFrame,
    QGridLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from viewer.words import say

GAP_PX = 8


LEAST_BAR_TEXT_PX = 360


def text_label(text: str = "", *, heading: bool = False, quiet: bool = False) -> QLabel:
    """A label that wraps and never asks for more width than it is given."""
    label = QLabel(say(text))
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setProperty("heading", heading)
    label.setProperty("quiet", quiet)
    policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
    policy.setHeightForWidth(True)  # a policy of our own forgets that the text wraps
    label.setSizePolicy(policy)
    label.setMinimumWidth(1)
    return label


def bar_label() -> QLabel:
    """The sentence of a bar across the scene, which is never narrower than this.

    A label that may become very narrow asks for the height it would then need, and the window grew
    beyond the screen for a sentence of two lines.
    """
    label = text_label()
    label.setMinimumWidth(LEAST_BAR_TEXT_PX)
    return label


class Sentence(QLabel):
    """A wrapped label that insists on the height of its words at the width it was given.

    For lists that are filled anew while they are seen: the layouts around them would only learn of
    the new words a turn later, and some keep what they knew of the old width.
    """

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.setWordWrap(True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setMinimumWidth(1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Ask for the height that goes with the new width."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width() or self.minimumHeight() == 0:
            self.setFixedHeight(self.heightForWidth(self.width()))


def rule() -> QFrame:
    """A thin line between two groups."""
    line = QFrame()
    line.setProperty("rule", True)
    line.setFixedHeight(1)
    return line


def column(*, margins: tuple[int, int, int, int] = (0, 0, 0, 0), gap: int = GAP_PX) -> QVBoxLayout:
    """An upright layout with the house's spacing."""
    layout = QVBoxLayout()
    layout.setContentsMargins(*margins)
    layout.setSpacing(gap)
    return layout


def button(
    text: str, pressed: Callable[[], object], tip: str = "", leading: bool = False
) -> QPushButton:
    """A push button; `leading` marks the one that most people want."""
    made = QPushButton(say(text))
    made.setToolTip(say(tip))
    made.setProperty("leading", leading)
    made.clicked.connect(pressed)
    return made


class ActionButton(QPushButton):
    """A push button that does, enables and checks what its action does."""

    def __init__(self, action: QAction, text: str = "", leading: bool = False) -> None:
        super().__init__(text or action.text().replace("&", "").replace("…", ""))
        self._action = action
        self.setProperty("leading", leading)
        self.setCheckable(action.isCheckable())
        self.setAccessibleName(action.text().replace("&", ""))
        self.clicked.connect(self._trigger)
        action.changed.connect(self._follow)
        self._follow()

    def _trigger(self) -> None:
        self._action.trigger()
        self._follow()

    def _follow(self) -> None:
        key = self._action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
        tip = self._action.toolTip()
        self.setToolTip(f"{tip} ({key})" if key else tip)
        self.setEnabled(self._action.isEnabled())
        if self._action.isCheckable():
            self.setChecked(self._action.isChecked())


def action_tool(action: QAction, *, flat: bool = True) -> QToolButton:
    """A small icon button for an action."""
    made = QToolButton()
    made.setDefaultAction(action)
    made.setProperty("flat", flat)
    made.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonIconOnly)
    key = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
    name = action.text().replace("&", "").replace("…", "")
    made.setToolTip(f"{name} ({key})" if key else name)
    made.setAccessibleName(name)
    return made


class NumberField(QDoubleSpinBox):
    """A number with its unit that tells of a change only when it is finished."""

    def __init__(
        self,
        name: str,
        unit: str,
        low: float,
        high: float,
        decimals: int,
        step: float,
        changed: Callable[[float], object],
        tip: str = "",
    ) -> None:
        super().__init__()
        self.setRange(low, high)
        self.setDecimals(decimals)
        self.setSingleStep(step)
        self.setSuffix(unit if unit == "°" else f" {unit}" if unit else "")
        self.setKeyboardTracking(False)
        self.setAccessibleName(say(name))
        self.setToolTip(say(tip))
        self.lineEdit().setAccessibleName(say(name))
        self.setMinimumWidth(60)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.valueChanged.connect(changed)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel scrolls the page; it changes a number only where one is about to type."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def show_number(self, value: float) -> None:
        """Show a value without telling of a change, unless the user is typing here."""
        if self.hasFocus() and self.lineEdit().isModified():
            return
        if abs(self.value() - value) > 0.5 * 10 ** -self.decimals():
            blocker = QSignalBlocker(self)
            self.setValue(value)
            blocker.unblock()


class ChoiceBox(QComboBox):
    """A list to choose from that stays as it is while the page scrolls below the mouse."""

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave it to the page."""
        event.ignore()


class FieldRow(QWidget):
    """Fields side by side, each under its name."""

    def __init__(self) -> None:
        super().__init__()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(3)

    def add(self, name: str, field: QWidget, tip: str = "") -> QWidget:
        """Add a column; returns the field."""
        label = QLabel(say(name))
        label.setBuddy(field)
        label.setToolTip(say(tip))
        field.setToolTip(say(tip) or field.toolTip())
        field.setProperty("narrow", True)
        field.setMinimumWidth(40)
        place = self._grid.columnCount() if self._grid.count() else 0
        self._grid.addWidget(label, 0, place)
        self._grid.addWidget(field, 1, place)
        self._grid.setColumnStretch(place, 1)
        return field


class Fields(QWidget):
    """Two columns: a name that explains itself on hover, and a field with the same tip."""

    def __init__(self) -> None:
        super().__init__()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(GAP_PX)
        self._grid.setVerticalSpacing(6)
        self._grid.setColumnStretch(0, 1)

    def add(self, name: str, field: QWidget, tip: str = "") -> QWidget:
        """Add a row; returns the field."""
        label = QLabel(say(name))
        label.setBuddy(field)
        label.setToolTip(say(tip))
        field.setToolTip(say(tip) or field.toolTip())
        row = self._grid.rowCount()
        self._grid.addWidget(label, row, 0)
        self._grid.addWidget(field, row, 1)
        return field
