"""Stage 5: write the posed part, save the job, and the usual cautions."""

import numpy as np
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from viewer.document.document import Changed, Document
from viewer.document.state import State
from viewer.window.choices import Choices
from viewer.window.document_signals import DocumentSignals
from viewer.window.pieces import ActionButton, column, rule, text_label
from viewer.words import later, say, written

CAUTIONS = later(
    "Hot nozzle, platform and fresh parts burn. Printing gives off fumes and fine particles: "
    "ventilate, and follow the supplier's safety data sheet and local rules. Not for load-bearing, "
    "protective, medical, food or child use without a qualified assessment."
)
WRITTEN = later(
    "Written: the same triangles, turned as shown, lowest point at z = 0, in mm. A 3MF also keeps "
    "the classes as triangle sets."
)
OWN_TRIANGLES_TIP = later(
    "On: the triangles of the file, each with the class that covers most of it. Off: where marks "
    "are finer than the triangles, the pieces these were cut in, on the same surface (Ctrl+Alt+T)."
)


class HandOverPanel(QWidget):
    """What is written, in which formats, what has been written, and the client sheet."""

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        actions: dict[str, QAction],
        sheet_box: QWidget,
    ) -> None:
        super().__init__()
        self._document, self._choices = document, choices
        layout = column()
        self.setLayout(layout)
        self._pose = text_label()
        self._done = text_label(heading=True)
        layout.addWidget(text_label(say("Export the posed part"), heading=True))
        formats = QGridLayout()
        formats.setSpacing(6)
        for place, kind in enumerate(("3mf", "stl", "obj", "ply")):
            formats.addWidget(
                ActionButton(actions[f"export_{kind}"], kind.upper(), leading=kind == "3mf"),
                place // 2,
                place % 2,
            )
        layout.addLayout(formats)
        self._own_triangles = QCheckBox(say("The file's own triangles"))
        self._own_triangles.setAccessibleName(say("Write the file's own triangles"))
        self._own_triangles.setToolTip(say(OWN_TRIANGLES_TIP))
        self._own_triangles.setChecked(choices.own_triangles)
        self._own_triangles.toggled.connect(choices.set_own_triangles)
        choices.own_triangles_changed.connect(self._own_triangles.setChecked)
        layout.addWidget(self._own_triangles)
        layout.addWidget(ActionButton(actions["export_layers"], say("Adaptive layers …")))
        self._written = text_label(quiet=True)
        layout.addWidget(self._written)
        layout.addWidget(self._pose)
        layout.addWidget(self._done)
        layout.addWidget(rule())
        layout.addWidget(sheet_box)
        layout.addWidget(rule())
        layout.addWidget(text_label(say("Keep the job"), heading=True))
        layout.addWidget(ActionButton(actions["save"]))
        layout.addWidget(
            text_label(say("A job is a 3MF that any reader opens as the posed part."), quiet=True)
        )
        layout.addWidget(rule())
        layout.addWidget(text_label(say(CAUTIONS), quiet=True))
        layout.addStretch(1)
        signals.changed.connect(self._show)
        choices.own_triangles_changed.connect(self._show_written)
        choices.handed_over_changed.connect(self._show_handed_over)
        self._show(Changed.EVERYTHING)

    def _show(self, what: Changed) -> None:
        state = self._document.state
        if what & (Changed.POSE | Changed.PART | Changed.REFINED):
            if state.part is None:
                self._pose.setText("")
            else:
                self._pose.setText(_pose_sentence(state))
            self._show_handed_over()
            self._show_written()

    def _show_written(self, *_: object) -> None:
        part, sentence = self._document.state.part, say(WRITTEN)
        if part is not None and part.base is not None:
            count, finer = part.base.face_count, part.mesh.face_count
            if self._choices.own_triangles:
                sentence += say(
                    " The marks are cut in {finer:,} pieces; {count:,} triangles are written.",
                    finer=finer,
                    count=count,
                )
            else:
                sentence += say(
                    " The file has {count:,} triangles; {finer:,} pieces are written.",
                    count=count,
                    finer=finer,
                )
        self._written.setText(sentence)

    def _show_handed_over(self) -> None:
        handed_over, state = self._choices.handed_over, self._document.state
        if handed_over is None or not state.same_part(handed_over):
            self._done.hide()
            return
        if handed_over.pose == state.pose:
            self._done.setText(say("✓ Written in this pose"))
        else:
            self._done.setText(say("! Turned since it was written"))
        self._done.show()


def _pose_sentence(state: State) -> str:
    up = [written(x + 0.0, ".3f") for x in np.round(state.pose.up, 3)]
    up = [text.rstrip("0").rstrip(".,").replace("-", "−") for text in up]
    return say(
        "Build direction {up} of the part, spin {spin_deg:.1f}°.",
        up=say("{x}, {y}, {z}", x=up[0], y=up[1], z=up[2]),
        spin_deg=state.pose.spin_deg,
    )
