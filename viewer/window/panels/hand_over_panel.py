"""Stage 5: write the posed part, save the job, and the usual cautions."""

import numpy as np
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QGridLayout, QWidget

from viewer.document.document import Changed, Document
from viewer.document.state import State
from viewer.window.choices import Choices
from viewer.window.document_signals import DocumentSignals
from viewer.window.pieces import ActionButton, column, rule, text_label

CAUTIONS = (
    "Hot nozzle, platform and fresh parts burn. Printing gives off fumes and fine particles: "
    "ventilate, and follow the supplier's safety data sheet and local rules. Not for load-bearing, "
    "protective, medical, food or child use without a qualified assessment."
)
WRITTEN = (
    "Written: the same triangles, turned as shown, lowest point at z = 0, in mm. A 3MF also keeps "
    "the classes as triangle sets."
)


class HandOverPanel(QWidget):
    """What is written, in which formats, and what has been written."""

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        actions: dict[str, QAction],
    ) -> None:
        super().__init__()
        self._document, self._choices = document, choices
        layout = column()
        self.setLayout(layout)
        self._pose = text_label()
        self._done = text_label(heading=True)
        layout.addWidget(text_label("Export the posed part", heading=True))
        formats = QGridLayout()
        formats.setSpacing(6)
        for place, kind in enumerate(("3mf", "stl", "obj", "ply")):
            formats.addWidget(
                ActionButton(actions[f"export_{kind}"], kind.upper(), leading=kind == "3mf"),
                place // 2,
                place % 2,
            )
        layout.addLayout(formats)
        layout.addWidget(text_label(WRITTEN, quiet=True))
        layout.addWidget(self._pose)
        layout.addWidget(self._done)
        layout.addWidget(rule())
        layout.addWidget(text_label("Keep the job", heading=True))
        layout.addWidget(ActionButton(actions["save"]))
        layout.addWidget(
            text_label("A job is a 3MF that any reader opens as the posed part.", quiet=True)
        )
        layout.addWidget(rule())
        layout.addWidget(text_label(CAUTIONS, quiet=True))
        layout.addStretch(1)
        signals.changed.connect(self._show)
        choices.handed_over_changed.connect(self._show_handed_over)
        self._show(Changed.EVERYTHING)

    def _show(self, what: Changed) -> None:
        state = self._document.state
        if what & (Changed.POSE | Changed.PART):
            if state.part is None:
                self._pose.setText("")
            else:
                self._pose.setText(_pose_sentence(state))
            self._show_handed_over()

    def _show_handed_over(self) -> None:
        handed_over, state = self._choices.handed_over, self._document.state
        if handed_over is None or handed_over.part is not state.part:
            self._done.hide()
            return
        if handed_over.pose == state.pose:
            self._done.setText("✓ Written in this pose")
        else:
            self._done.setText("! Turned since it was written")
        self._done.show()


def _pose_sentence(state: State) -> str:
    up = ", ".join(f"{x + 0.0:.3f}".rstrip("0").rstrip(".") for x in np.round(state.pose.up, 3))
    up = up.replace("-", "−")
    return f"Build direction {up} of the part, spin {state.pose.spin_deg:.1f}°."
