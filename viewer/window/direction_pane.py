"""The pane under the scene: direction map at the left; results and what matters at the right."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QAction, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFrame,
    QHBoxLayout,
    QProgressBar,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from viewer.geometry.spin_wish import SpinRule
from viewer.window.aims_box import AimsBox
from viewer.window.direction_map import DirectionMap
from viewer.window.map_layers import COLOURINGS
from viewer.window.name_pick import NamePick
from viewer.window.numbers_line import NumbersLine
from viewer.window.pane_grip import PaneGrip
from viewer.window.pieces import ActionButton, ChoiceBox, button
from viewer.window.results_box import ResultsBox
from viewer.window.search_choices import SearchChoices
from viewer.window.side_panels import ColumnScroll
from viewer.window.spin_rules import NAMES, TIPS
from viewer.words import say

LEAST_PX, USUAL_SHARE = 240, 0.42  # of the window's height
SIDE_SHARE = 0.46  # of the width, for results and sliders
LEAST_SIDE_PX, MOST_SIDE_PX = 340, 620


class DirectionPane(QFrame):
    """Holds the widgets; `Searching` fills them. spin_chosen : another SpinRule is picked."""

    spin_chosen = Signal(object)

    def __init__(self, actions: dict[str, QAction], choices: SearchChoices) -> None:
        super().__init__()
        self.setAccessibleName(say("Every direction"))
        self._choices = choices
        self.map, self.results, self.aims = DirectionMap(), ResultsBox(), AimsBox(choices)
        self.grip = PaneGrip(self, LEAST_PX)
        self.numbers = NumbersLine()
        self.colouring = self._colouring()
        self.progress = QProgressBar()
        self.progress.setRange(0, 100)
        self.progress.setFixedWidth(70)
        self.progress.setAccessibleName(say("Progress of the search"))
        self.search_button = ActionButton(
            actions["search_directions"], say("Search"), leading=True
        )  # fmt: skip
        self.stop_button = button(say("Stop"), lambda: None, say("Stop searching (Esc)"))
        self.close_button = button(
            say("Close"),
            lambda: choices.set_open(False),
            say("Close the direction map (Shift+D, Esc)"),
        )
        self.spin_rule = self._spin_rule()
        self.results.buttons.addWidget(self.spin_rule, 1)
        self.globe = QCheckBox(say("Globe"))
        self.globe.setToolTip(actions["direction_globe"].toolTip())
        self.globe.toggled.connect(choices.set_globe)
        self.tabs = QTabWidget()
        self.tabs.setDocumentMode(True)
        self.add_tab(self.results, say("Results"))
        self.add_tab(self.aims, say("What matters"))
        self._lay_out()
        choices.colouring_changed.connect(self._show_choices)
        choices.spin_changed.connect(self._show_choices)
        choices.globe_changed.connect(self._show_choices)
        self._show_choices()
        self.hide()

    def _colouring(self) -> QComboBox:
        picked = ChoiceBox()
        picked.setAccessibleName(say("Colour the map by"))
        picked.setToolTip(say("What the colours of the map show"))
        for measure in COLOURINGS:
            name = say(measure.name)
            picked.addItem(name[:1].upper() + name[1:], measure.key)
        picked.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        picked.setMinimumContentsLength(12)
        picked.activated.connect(lambda row: self._choices.set_colouring(picked.itemData(row)))
        return picked

    def _spin_rule(self) -> NamePick:
        picked = NamePick()
        picked.setAccessibleName(say("Spin when going to a direction"))
        for row, rule in enumerate(SpinRule):
            picked.addItem(say(NAMES[rule]), rule)
            picked.setItemData(row, say(TIPS[rule]), Qt.ItemDataRole.ToolTipRole)
        picked.activated.connect(lambda row: self.spin_chosen.emit(picked.itemData(row)))
        return picked

    def show_spin(self, words: str) -> None:
        """Where seam and axes fall now: below the results, and as a tip where there is no room."""
        self.results.spin_words.setText(words)
        how = say(TIPS[self._choices.spin_wish.rule])
        tip = say("Spin of the part: {how}", how=how)
        self.spin_rule.setToolTip(f"{tip}\n{words}" if words else tip)

    def add_tab(self, inner: QWidget, title: str) -> None:
        """One more page at the right; it scrolls where its words ask for more than there is."""
        self.tabs.addTab(ColumnScroll(inner), title)

    def _lay_out(self) -> None:
        whole = QVBoxLayout(self)
        whole.setContentsMargins(10, 0, 10, 6)
        whole.setSpacing(4)
        whole.addWidget(self.grip)
        head = QHBoxLayout()
        head.setSpacing(6)
        for widget in (self.search_button, self.stop_button, self.progress, self.colouring):
            head.addWidget(widget)
        head.addStretch(1)
        for widget in (self.globe, self.close_button):
            head.addWidget(widget)
        whole.addLayout(head)
        body = QHBoxLayout()
        body.setSpacing(10)
        body.addWidget(self.map, 1)
        body.addWidget(self.tabs)
        whole.addLayout(body, 1)
        whole.addWidget(self.numbers)

    def showEvent(self, event: QShowEvent) -> None:
        """Higher in a high window."""
        self.grip.set_wanted(USUAL_SHARE)
        super().showEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Results and sliders take a share of the width."""
        side_px = min(max(round(SIDE_SHARE * self.width()), LEAST_SIDE_PX), MOST_SIDE_PX)
        self.tabs.setFixedWidth(side_px)
        super().resizeEvent(event)

    def show_running(self, running: bool, doing: str, fraction: float) -> None:
        """How far the search is."""
        for widget in (self.progress, self.stop_button):
            widget.setVisible(running)
        self.search_button.setVisible(not running)
        self.progress.setValue(round(100 * fraction))
        self.progress.setToolTip(doing)

    def _show_choices(self, *_: object) -> None:
        blocker = QSignalBlocker(self.colouring)
        self.colouring.setCurrentIndex(self.colouring.findData(self._choices.colouring))
        blocker.unblock()
        blocker = QSignalBlocker(self.globe)
        self.globe.setChecked(self._choices.globe)
        blocker.unblock()
        self.spin_rule.setCurrentIndex(self.spin_rule.findData(self._choices.spin_wish.rule))
        self.show_spin(self.results.spin_words.text())
