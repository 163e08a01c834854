"""What trials teach about the job's machine and material: proposals, taken one by one."""

from PySide6.QtWidgets import QComboBox, QGridLayout, QWidget

from viewer.document.document import Changed, Document
from viewer.live.live_trials import LiveTrials
from viewer.shop.lessons import (
    CLEAN_ONLY,
    GOOD_ENOUGH,
    NAMES,
    Lesson,
    basis_sentence,
    lesson_sentence,
    value_text,
)
from viewer.shop.taken_limits import TakenLimit
from viewer.window.document_signals import DocumentSignals
from viewer.window.fold import relay_around
from viewer.window.pieces import ChoiceBox, Sentence, button, column, text_label
from viewer.words import later, say

NOTHING = later("Nothing is learnt yet for this machine and material: write down a result first.")


class LessonBox(QWidget):
    """A paragraph for each limit, with buttons to take it or to put it back."""

    def __init__(self, document: Document, signals: DocumentSignals, live: LiveTrials) -> None:
        super().__init__()
        self._document, self._live = document, live
        self._shown: tuple[tuple[Lesson, ...], tuple[TakenLimit, ...]] | None = None
        layout = column(gap=6)
        self.setLayout(layout)
        self.good = ChoiceBox()
        self.good.setAccessibleName(say("What counts as having come out"))
        self.good.setToolTip(say("Which outcomes of a step count as having come out."))
        for title, outcomes in ((say("Only clean counts"), CLEAN_ONLY),
                                (say("Acceptable counts too"), GOOD_ENOUGH)):  # fmt: skip
            self.good.addItem(title, outcomes)
        self.good.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        self.good.currentIndexChanged.connect(lambda at: live.set_good(self.good.itemData(at)))
        layout.addWidget(self.good)
        self._list = column(gap=6)
        layout.addLayout(self._list)
        self.buttons: dict[tuple[str, str], QWidget] = {}
        live.changed.connect(self._show)
        signals.changed.connect(self._document_changed)
        self._show()

    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.TRIALS | Changed.SETTINGS | Changed.SHOP):
            self._show()

    def _show(self) -> None:
        """Write the list anew, if it is another one."""
        lessons, taken = self._live.lessons(), self._document.state.taken
        if (lessons, taken) == self._shown:
            return
        self._shown = (lessons, taken)
        self._empty()
        left = list(taken)
        for lesson in lessons:
            mine = [t for t in left if t.limit == lesson.limit and t.of == lesson.of]
            left = [t for t in left if t not in mine]
            self._add_lesson(lesson, mine)
        for each in left:  # of another machine or material, but in force
            self._add_taken(each)
        if not lessons and not taken:
            self._list.addWidget(text_label(say(NOTHING), quiet=True))
        self.good.setVisible(bool(lessons))
        relay_around(self)

    def _empty(self) -> None:
        self.buttons.clear()
        while self._list.count():
            widget = self._list.takeAt(0).widget()
            widget.hide()
            widget.deleteLater()

    def _add_lesson(self, lesson: Lesson, taken: list[TakenLimit]) -> None:
        name = say(NAMES[lesson.limit])
        sentence = Sentence(f"{name}: {lesson_sentence(lesson)}")
        sentence.setToolTip(basis_sentence(lesson))
        self._list.addWidget(sentence)
        self._list.addWidget(text_label(basis_sentence(lesson), quiet=True))
        line = _Line()
        likely, safe = (value_text(lesson.limit, each) for each in (lesson.likely, lesson.safe))
        if lesson.likely != lesson.now:
            self._button(line, lesson.limit, "take", say("Take {value}", value=likely), say(
                "Go by the likely value from now on; one step that undo takes back. The pose is "
                "measured again."), lambda: self._document.take_limit(lesson.take()))  # fmt: skip
        if lesson.safe not in (lesson.likely, lesson.now) and lesson.limit != "touch_weight":
            self._button(line, lesson.limit, "safe", say("Safe {value}", value=safe), say(
                "Go by the value at which nine of ten prints come out."),
                lambda: self._document.take_limit(lesson.take(lesson.safe)))  # fmt: skip
        for each in taken:
            self._put_back(line, each)
        self._list.addWidget(line)

    def _add_taken(self, taken: TakenLimit) -> None:
        self._list.addWidget(text_label(say(
            "{name}: {value} was taken from trials of “{of}” on “{machine}”.",
            name=say(NAMES[taken.limit]), value=value_text(taken.limit, taken.value),
            of=say(taken.of), machine=say(taken.machine),
        )))  # fmt: skip
        line = _Line()
        self._put_back(line, taken)
        self._list.addWidget(line)

    def _put_back(self, line: "_Line", taken: TakenLimit) -> None:
        before = value_text(taken.limit, taken.before)
        self._button(line, taken.limit, "back", say("Back to {value}", value=before), say(
            "Go by what stood there before anything was taken from trials."),
            lambda: self._document.put_back_limit(taken))  # fmt: skip

    def _button(self, line: "_Line", limit: str, key: str, text: str, tip: str, pressed) -> None:
        made = button(text, pressed, tip, leading=key == "take")
        made.setAccessibleName(f"{say(NAMES[limit])}: {text}")
        self.buttons[limit, key] = made
        line.add(made)


class _Line(QWidget):
    """Buttons, one below the other, as German ones are wide."""

    def __init__(self) -> None:
        super().__init__()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(6)

    def add(self, widget: QWidget) -> None:
        """Another one."""
        self._grid.addWidget(widget, self._grid.count(), 0)
