"""The numbered list of stages down the left edge, each with its state as a sign and a word."""

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QSizePolicy, QVBoxLayout, QWidget

from viewer.window.stages import OPEN, TITLES, WHAT_TO_DO, Stage, StageState
from viewer.window.theme import LIGHT, Theme
from viewer.words import say

ROW_PX = 38


class StageRow(QAbstractButton):
    """One stage: number in a disc, title, and its state beneath."""

    def __init__(self, stage: Stage) -> None:
        super().__init__()
        self.stage = stage
        self._state = OPEN
        self._theme = LIGHT
        self.setCheckable(True)
        self.setFixedHeight(ROW_PX)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setToolTip(
            say("{what_to_do} (Ctrl+{stage})", what_to_do=say(WHAT_TO_DO[stage]), stage=int(stage))
        )
        self._name_it()

    @property
    def state_word(self) -> str:
        """The word beneath the title."""
        return say(self._state.word)

    def show_state(self, state: StageState) -> None:
        """Write another sign and word."""
        if state != self._state:
            self._state = state
            self._name_it()
            self.update()

    def show_theme(self, theme: Theme) -> None:
        """Draw in the colours of another theme."""
        self._theme = theme
        self.update()

    def _name_it(self) -> None:
        self.setText(say(TITLES[self.stage]))
        self.setAccessibleName(f"{int(self.stage)} {say(TITLES[self.stage])}, {self.state_word}")

    def sizeHint(self) -> QSize:
        """As wide as the longest word needs."""
        return QSize(170, ROW_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Disc with the number, title, and the sign and word of the state beneath."""
        theme, here = self._theme, self.isChecked()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(6, 1.5, -6, -1.5)
        painter.setPen(Qt.PenStyle.NoPen)
        if here or self.underMouse():
            painter.setBrush(QColor(theme.accent_soft if here else theme.hover))
            painter.drawRoundedRect(box, 6, 6)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(theme.accent), 1.5))
            painter.drawRoundedRect(box, 6, 6)
        bold = QFont(self.font())
        bold.setWeight(QFont.Weight.DemiBold)
        disc = QRectF(box.left() + 7, box.center().y() - 11, 22, 22)
        painter.setPen(QPen(QColor(theme.accent if here else theme.edge), 1.4))
        painter.setBrush(QColor(theme.accent) if here else Qt.BrushStyle.NoBrush)
        painter.drawEllipse(disc)
        painter.setFont(bold)
        painter.setPen(QColor(theme.accent_text if here else theme.text))
        painter.drawText(disc, Qt.AlignmentFlag.AlignCenter, str(int(self.stage)))
        painter.setFont(bold if here else self.font())
        painter.setPen(QColor(theme.text))
        words = box.adjusted(38, 2, -6, -2)
        top = QRectF(words.left(), words.top(), words.width(), words.height() / 2)
        painter.drawText(top, Qt.AlignmentFlag.AlignVCenter, say(TITLES[self.stage]))
        small = QFont(self.font())
        small.setPointSizeF(max(self.font().pointSizeF() - 1.0, 7.0))
        painter.setFont(small)
        painter.setPen(QColor(theme.quiet_text))
        below = QRectF(words.left(), words.center().y(), words.width(), words.height() / 2)
        state = f"{self._state.sign} {self.state_word}"
        painter.drawText(below, Qt.AlignmentFlag.AlignVCenter, state)
        painter.end()


class StageList(QWidget):
    """The five rows; exactly one is the present stage."""

    chosen = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 6, 0, 6)
        layout.setSpacing(0)
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self.rows = {stage: StageRow(stage) for stage in Stage}
        for stage, row in self.rows.items():
            self._group.addButton(row, int(stage))
            layout.addWidget(row)
        self._group.idClicked.connect(self._clicked)

    def _clicked(self, number: int) -> None:
        self.chosen.emit(Stage(number))

    def show_stage(self, stage: Stage) -> None:
        """Mark the present stage."""
        self.rows[stage].setChecked(True)

    def show_states(self, states: dict[Stage, StageState]) -> None:
        """Write how far each stage is."""
        for stage, state in states.items():
            self.rows[stage].show_state(state)

    def show_theme(self, theme: Theme) -> None:
        """Draw in the colours of another theme."""
        for row in self.rows.values():
            row.show_theme(theme)
