"""Stage 1: unit question, size, shells, faults with their heights, and the verdict."""

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from viewer.document.document import Changed, Document
from viewer.document.state import Part
from viewer.files.raw_mesh import ASKED_UNITS
from viewer.geometry.known_of_mesh import shells_to_draw
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.unit_doubt import unit_word
from viewer.live.kernel_warm_up import BEGINS_LATER
from viewer.live.live_check import LiveCheck
from viewer.scene.outward import turned_outward
from viewer.window.cad_box import CadBox
from viewer.window.document_signals import DocumentSignals
from viewer.window.fault_box import FaultBox
from viewer.window.mend_box import MendBox
from viewer.window.mend_work import MendWork
from viewer.window.pieces import ActionButton, button, column, rule, text_label
from viewer.window.quantities import count_text, size_text
from viewer.words import say

VERDICT_SIGNS = {"sound": "✓", "printable with care": "!", "will fail": "✕"}


class CheckPanel(QWidget):
    """What the file is, what is wrong with it, and whether that matters.

    fault_chosen : the `Sight` of a fault's place to show in the scene, or None for none
    """

    fault_chosen = Signal(object)

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        live_check: LiveCheck,
        rescale: Callable[[str], None],
        split_anew: Callable[[float, float], None],
        mending: MendWork,
        actions: dict[str, QAction],
    ) -> None:
        """`rescale(unit)` reads the file in another unit; `split_anew`: see `CadBox`."""
        super().__init__()
        self._document, self._rescale = document, rescale
        layout = column()
        self.setLayout(layout)
        self._question = QWidget()
        self._question.setLayout(column(gap=6))
        layout.addWidget(self._question)
        self._verdict = text_label(heading=True)
        self._reason = text_label(quiet=True)
        self._facts, self._line = text_label(), rule()
        self._notes = text_label(quiet=True)
        self.fault_box = FaultBox(self._drawn_mesh)
        self.fault_box.chosen.connect(self.fault_chosen)
        for piece in (self._verdict, self._reason, self._line, self._facts):
            layout.addWidget(piece)
        layout.addWidget(self.fault_box)
        layout.addWidget(self._notes)
        self.mend_box = MendBox(mending)
        layout.addWidget(self.mend_box)
        self._cad = CadBox(split_anew)
        layout.addWidget(self._cad)
        layout.addWidget(ActionButton(actions["open"]))
        layout.addStretch(1)
        signals.changed.connect(self._document_changed)
        self._live_check = live_check
        live_check.checked.connect(self._show_report)
        live_check.failed.connect(self._show_failure)
        self._document_changed(Changed.EVERYTHING)
        self._show_report(live_check.latest)

    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART:
            self._show_part(self._document.state.part)

    def _show_part(self, part: Part | None) -> None:
        empty(self._question.layout())
        self._cad.show_part(part)
        self.mend_box.show_part(part)
        self._notes.setText("" if part is None else "\n".join(part.notes))
        self._notes.setVisible(part is not None and bool(part.notes))
        self._question.setVisible(part is not None and bool(part.unit_doubt))
        if part is None or not part.unit_doubt:
            return
        layout = self._question.layout()
        layout.addWidget(text_label("! " + part.unit_doubt, heading=True))
        size = part.mesh.box_mm[1] - part.mesh.box_mm[0]
        layout.addWidget(
            text_label(
                say(
                    "Now: {size}, read as {unit}.",
                    size=size_text(size),
                    unit=unit_word(part.unit),
                ),
                quiet=True,
            )
        )
        if part.suggested_unit:
            layout.addWidget(
                button(
                    say(
                        "The numbers are in {suggested_unit}",
                        suggested_unit=unit_word(part.suggested_unit),
                    ),
                    lambda: self._rescale(part.suggested_unit),
                    say("Scale the part so that the numbers of the file mean this unit."),
                    leading=True,
                )
            )
        grid = QGridLayout()
        grid.setSpacing(6)
        others = [unit for unit in ASKED_UNITS if unit != part.suggested_unit]
        for place, unit in enumerate(others):
            word = unit_word(unit)
            text = say("Keep mm") if unit == part.unit == "mm" else word
            made = button(
                text,
                lambda _=False, unit=unit: self._rescale(unit),
                say("The numbers are in {unit}.", unit=word),
            )
            made.setAccessibleName(say("The numbers are in {unit}", unit=word))
            grid.addWidget(made, place // 3, place % 3)
        layout.addLayout(grid)
        layout.addWidget(rule())

    def _show_failure(self, sentence: str) -> None:
        self._tell(say("! The check did not finish"), sentence, "")

    def _tell(self, verdict: str, reason: str, facts: str) -> None:
        self._verdict.setText(verdict)
        self._reason.setText(reason)
        self._facts.setText(facts)
        self._reason.setVisible(bool(reason))
        for piece in (self._line, self._facts, self.fault_box):
            piece.setVisible(bool(facts))

    def put_away(self) -> None:
        """Show no fault any more."""
        self.fault_box.put_away()

    def _drawn_mesh(self) -> Mesh:
        mesh = self._document.state.part.file_mesh
        return turned_outward(mesh, shells_to_draw(mesh).orientation)

    def _show_report(self, report: HealthReport | None) -> None:
        self.fault_box.show_faults(report.faults if report else ())
        part = self._document.state.part
        if report is None:
            if part is None:
                open_one = say("Open a mesh, or drop one on the window.")
                self._tell(say("No file is open"), open_one, "")
            elif self._live_check.waits_for_kernels:
                self._tell(say("Not checked yet"), say(BEGINS_LATER), "")
            else:
                self._tell(say("Checking …"), "", "")
            return
        self._tell(
            f"{VERDICT_SIGNS[report.verdict]} {say(report.verdict.capitalize())}",
            report.reason,
            f"{size_text(report.size_mm)}\n{count_text(report.shells, 'shell')}, "
            f"{count_text(report.cavities, 'cavity', 'cavities')}\n"
            f"{count_text(part.file_mesh.face_count, 'face')}",
        )


def empty(layout: QVBoxLayout | QGridLayout) -> None:
    """Take everything out of a layout and delete it."""
    while layout.count():
        item = layout.takeAt(0)
        if item.widget() is not None:
            item.widget().hide()
            item.widget().deleteLater()
        elif item.layout() is not None:
            empty(item.layout())
