"""Under the panes: which pose stands in which, and the table of their numbers."""

from functools import partial

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from viewer.scene.side_by_side import MOST_PANES
from viewer.window.compare_table import CompareTable
from viewer.window.name_pick import NamePick
from viewer.window.pieces import ActionButton, button
from viewer.words import say


class CompareBox(QWidget):
    """chosen : another pose for a pane (place, number of the choice); more, fewer : panes."""

    chosen = Signal(int, int)
    more = Signal()
    fewer = Signal()

    def __init__(self, actions: dict[str, QAction]) -> None:
        super().__init__()
        self.setAccessibleName(say("Compare"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.bar, self.table = QWidget(), CompareTable()
        row = QHBoxLayout(self.bar)
        row.setContentsMargins(12, 6, 12, 6)
        row.setSpacing(6)
        self.picks = [self._pick(place) for place in range(MOST_PANES)]
        self._numbers = [QLabel(str(place + 1)) for place in range(MOST_PANES)]
        for number, pick in zip(self._numbers, self.picks, strict=True):
            number.setBuddy(pick)
            row.addWidget(number)
            row.addWidget(pick, 1)
        self.more_button = button("+", self.more.emit, say("One more pose beside these"))
        self.fewer_button = button("−", self.fewer.emit, say("Leave out the last pose"))
        for made, name in (
            (self.more_button, say("More poses")),
            (self.fewer_button, say("Fewer poses")),
        ):
            made.setAccessibleName(name)
            row.addWidget(made)
        row.addWidget(ActionButton(actions["compare"], say("End")))
        layout.addWidget(self.bar)
        layout.addWidget(self.table)
        self.hide()

    def _pick(self, place: int) -> NamePick:
        pick = NamePick()
        name = say("Pose of the first pane, which the others are compared with")
        pick.setAccessibleName(name if place == 0 else say("Pose of pane {place}", place=place + 1))
        pick.setToolTip(f"{pick.accessibleName()}.")
        pick.activated.connect(partial(self.chosen.emit, place))
        return pick

    def show_choice(self, names: list[str], chosen: list[int], more: bool, fewer: bool) -> None:
        """`names` of all poses there are, and which of them stand in the panes."""
        for place, (number, pick) in enumerate(zip(self._numbers, self.picks, strict=True)):
            for widget in (number, pick):
                widget.setVisible(place < len(chosen))
            if place < len(chosen):
                blocker = QSignalBlocker(pick)
                pick.show_names(names)
                pick.setCurrentIndex(chosen[place])
                pick.setToolTip(f"{pick.accessibleName()}: {pick.currentText()}.")
                blocker.unblock()
        self.more_button.setEnabled(more)
        self.fewer_button.setEnabled(fewer)

    def set_large(self, large: bool) -> None:
        """In front of a client: large numbers, and nothing to choose."""
        self.bar.setVisible(not large)
        self.table.set_large(large)
