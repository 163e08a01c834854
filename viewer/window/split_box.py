"""Split for real in stage Try: places that cross no class A, whether it is worth while, joints."""

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QWidget

from viewer.live.live_pieces import LivePieces
from viewer.window.cut_box import planned_text
from viewer.window.cut_planner import CutPlanner
from viewer.window.joint_fields import JointFields
from viewer.window.pieces import ActionButton, ChoiceBox, column, text_label
from viewer.window.split_words import advice_text, gain_text, place_text
from viewer.window.split_work import SplitWork
from viewer.words import say


class SplitBox(QWidget):
    """Writes to `SplitWork` and the planner, and listens to both."""

    def __init__(
        self,
        work: SplitWork,
        planner: CutPlanner,
        numbers: LivePieces,
        actions: dict[str, QAction],
    ) -> None:
        super().__init__()
        self._work, self._planner, self._numbers = work, planner, numbers
        layout = column(gap=6)
        self.setLayout(layout)
        layout.addWidget(ActionButton(actions["cut_split"], say("Look for a place")))
        self.advice = text_label(quiet=True)
        layout.addWidget(self.advice)
        self.places = ChoiceBox()
        self.places.setAccessibleName(say("Place to split"))
        self.places.setToolTip(
            say("Planes that cross no face of class A, the best first: shares of the length, and "
                "the area of the cut face.")
        )  # fmt: skip
        self.places.setMinimumWidth(60)
        self.places.activated.connect(work.choose)
        layout.addWidget(self.places)
        self.joint = JointFields(planner)
        layout.addWidget(self.joint)
        self.anew = QCheckBox(say("Lay for the least touch"))
        self.anew.setToolTip(
            say("Lay each half as the whole or on its cut face, whichever shows less touch and "
                "fewer terraces on class A. Otherwise both lie as the whole.")
        )  # fmt: skip
        self.anew.toggled.connect(lambda on: planner.change(anew=on))
        layout.addWidget(self.anew)
        self.words = text_label(quiet=True)
        layout.addWidget(self.words)
        self._buttons = QWidget()
        row = QHBoxLayout(self._buttons)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        row.addWidget(ActionButton(actions["take_cut"], say("Take it"), leading=True))
        row.addWidget(ActionButton(actions["cut_away"], say("Put away")))
        layout.addWidget(self._buttons)
        work.changed.connect(self._show)
        planner.changed.connect(self._show)
        numbers.told.connect(self._show_words)
        self._show()

    def _show(self) -> None:
        work, plan = self._work, self._planner.plan
        splitting = plan is not None and plan.way == "split"
        self.advice.setText(
            say("Look for planes that part the piece to be made without crossing class A.")
            if work.advice is None
            else advice_text(work.advice)
        )
        texts = [f"{n}. {place_text(gain)}" for n, gain in enumerate(work.gains, 1)]
        if texts != [self.places.itemText(k) for k in range(self.places.count())]:
            self.places.clear()
            self.places.addItems(texts)
        self.places.setCurrentIndex(work.place if texts else -1)
        self.places.setVisible(bool(texts))
        for shown in (self.joint, self.anew, self.words, self._buttons):
            shown.setVisible(splitting)
        if splitting:
            self.anew.blockSignals(True)
            self.anew.setChecked(plan.anew)
            self.anew.blockSignals(False)
        self._show_words()

    def _show_words(self) -> None:
        work, plan = self._work, self._planner.plan
        if plan is None or plan.way != "split" or not work.gains:
            return
        sentence = gain_text(work.gains[work.place])
        lines = [say("Here {words}", words=sentence), planned_text(self._planner, self._numbers)]
        self.words.setText("\n".join(filter(None, lines)))
