"""Specimens in stage Try: which one, its steps, what it answers and takes, and adding it."""

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QGridLayout, QLineEdit, QWidget

from viewer.geometry.specimens.catalogue import SPECIMEN_NAMES
from viewer.geometry.specimens.specimen import Specimen
from viewer.live.live_pieces import LivePieces
from viewer.window.piece_words import range_text, takes_text
from viewer.window.pieces import ActionButton, ChoiceBox, column, text_label
from viewer.window.quantities import count_text, size_text
from viewer.window.specimen_work import SpecimenWork
from viewer.words import later, say, written

STEPS_TIP = later(
    "What the specimen tries: angles in degrees, or lengths in mm, with blanks between them. "
    "Unless typed they follow from the machine, the pair and the process that are chosen."
)


class SpecimenBox(QWidget):
    """Writes to `SpecimenWork`, and listens to it."""

    def __init__(
        self, work: SpecimenWork, numbers: LivePieces, actions: dict[str, QAction]
    ) -> None:
        super().__init__()
        self._work, self._numbers = work, numbers
        layout = column(gap=6)
        self.setLayout(layout)
        self.kind = ChoiceBox()
        self.kind.setAccessibleName(say("Specimen"))
        self.kind.setToolTip(say("Standard prints that each answer one question."))
        self.kind.setMinimumWidth(60)
        for kind, name in SPECIMEN_NAMES.items():
            self.kind.addItem(say(name), kind)
        self.kind.activated.connect(self._choose)
        layout.addWidget(self.kind)
        self.steps = QLineEdit()
        self.steps.setAccessibleName(say("Steps of the specimen"))
        self.steps.setToolTip(say(STEPS_TIP))
        self.steps.editingFinished.connect(self._type)
        layout.addWidget(self.steps)
        self.words = text_label(quiet=True)
        layout.addWidget(self.words)
        grid = QGridLayout()
        grid.setSpacing(6)
        for place, (key, text) in enumerate((
            ("specimen_show", say("Show")), ("specimen_add", say("Add")),
            ("specimen_usual", say("Usual steps")),
        )):  # fmt: skip
            made = ActionButton(actions[key], text, leading=key == "specimen_add")
            made.setObjectName(key)
            grid.addWidget(made, *divmod(place, 2), 1, 1 if place < 2 else 2)
        layout.addLayout(grid)
        work.changed.connect(self._show)
        numbers.told.connect(self._show_words)
        self._show()

    def _choose(self) -> None:
        self._work.choose(self.kind.currentData())
        self._work.set_wanted(True)

    def _type(self) -> None:
        if self.steps.isModified():
            self.steps.setModified(False)
            self._work.set_steps(self.steps.text())
            if not self._work.sentence:
                self._work.set_wanted(True)

    def _show(self) -> None:
        self.kind.setCurrentIndex(self.kind.findData(self._work.kind))
        text = self._work.steps_text
        if text != self.steps.text() and not self._work.sentence:
            self.steps.setText(text)
            self.steps.setCursorPosition(0)
        self._show_words()

    def _show_words(self) -> None:
        work = self._work
        if work.sentence or work.piece is None:
            usual = say("Shows what a machine and its materials can do, before a part is risked.")
            making = say("Being worked out …") if work.wanted else usual
            self.words.setText(work.sentence or making)
            return
        known = self._numbers.numbers_of(work.piece)
        lines = [work.piece.note, *looks(work.specimen)]
        lines.append(size_text(tuple(work.piece.size_mm)))
        lines += filter(None, (takes_text(known), range_text(known)))
        self.words.setText("\n".join(lines))


def looks(specimen: Specimen) -> list[str]:
    """How many steps of what, and what to look for."""
    values = [step.value for step in specimen.steps]
    unit = "°" if specimen.steps[0].unit == "deg" else " mm"
    low, high = (written(each, "g") for each in (min(values), max(values)))
    steps = count_text(len(set(values)), "step")
    lines = [say("{steps}, {low} to {high}{unit}.", steps=steps, low=low, high=high, unit=unit)]
    return [*lines, *(say(words) for words in dict.fromkeys(s.words for s in specimen.steps))]
