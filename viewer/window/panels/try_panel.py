"""Stage 4: what is still open about this pose, and what a small test print would tell."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from viewer.document.document import Changed, Document
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose_measures import PoseMeasures
from viewer.live.live_check import LiveCheck
from viewer.live.live_measures import LiveMeasures
from viewer.window.document_signals import DocumentSignals
from viewer.window.pieces import column, rule, text_label
from viewer.window.questions import Question, open_questions
from viewer.words import say


class TryPanel(QWidget):
    """The open questions of the present pose, the gravest first."""

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        live_measures: LiveMeasures,
        live_check: LiveCheck,
        boxes: tuple[QWidget, ...] = (),
    ) -> None:
        """`boxes` stand below the questions."""
        super().__init__()
        self._document = document
        self._measures: PoseMeasures | None = live_measures.latest
        self._report: HealthReport | None = live_check.latest
        self._shown: list[Question] | None = None
        layout = column()
        self.setLayout(layout)
        self._summary = text_label(heading=True)
        layout.addWidget(self._summary)
        self._list = column(gap=6)
        layout.addLayout(self._list)
        for box in boxes:
            layout.addWidget(rule())
            layout.addWidget(box)
        layout.addStretch(1)
        signals.changed.connect(self._document_changed)
        live_measures.measured.connect(self._measured)
        live_check.checked.connect(self._checked)
        self._show()

    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.PART | Changed.CLASSES):
            self._show()

    def _measured(self, measures: PoseMeasures | None) -> None:
        self._measures = measures
        self._show()

    def _checked(self, report: HealthReport | None) -> None:
        self._report = report
        self._show()

    def _show(self) -> None:
        if self._document.state.part is None:
            self._summary.setText(say("No file is open"))
            self._rewrite([])
        elif self._measures is None or self._report is None:
            self._summary.setText(say("Measuring …"))
        else:
            questions = open_questions(self._document.state, self._measures, self._report)
            self._summary.setText(
                say("Nothing is open: the numbers answer every question asked here.")
                if not questions
                else say("Still open: {questions}", questions=len(questions))
            )
            self._rewrite(questions)

    def _rewrite(self, questions: list[Question]) -> None:
        if questions == self._shown:
            return
        self._shown = questions
        _empty(self._list)
        for number, question in enumerate(questions, 1):
            if number > 1:
                self._list.addWidget(rule())
            self._list.addWidget(text_label(f"{number}. {question.sentence}"))
            self._list.addWidget(text_label(question.test, quiet=True))


def _empty(layout: QVBoxLayout) -> None:
    while layout.count():
        widget = layout.takeAt(0).widget()
        widget.hide()
        widget.deleteLater()
