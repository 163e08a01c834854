"""Stage 2: which extent and class the Mark tool has, and how much area each class holds."""

import numpy as np
from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QGridLayout, QLabel, QSlider, QWidget

from viewer.document.document import Changed, Document
from viewer.geometry.face_classes import sum_by_class
from viewer.window.choices import GREATEST_BRUSH_MM, LEAST_BRUSH_MM, Choices, Extent
from viewer.window.document_signals import DocumentSignals
from viewer.window.mark_ways import MarkWays
from viewer.window.pieces import (
    ActionButton,
    ChoiceBox,
    Fields,
    NumberField,
    column,
    rule,
    text_label,
)
from viewer.window.quantities import number_text
from viewer.window.way_box import WayBox
from viewer.words import later, say

SLIDER_STEPS = 100
HINTS = {
    Extent.BRUSH: later(
        "Drag over the part. The ring shows what a touch reaches; it never goes through a wall."
    ),
    Extent.CREASE: later(
        "Click a surface: it fills up to edges sharper than the angle. What a click "
        "would mark is outlined."
    ),
    Extent.BAND: later("Drag over the part from one height to another, or type both."),
    Extent.LASSO: later("Drag a loop round what shall be marked; it closes by itself."),
    Extent.SEEN_HERE: later(
        "Turn the view until it shows what the client sees, then mark it. "
        "What a press would mark is outlined."
    ),
    Extent.SEEN_IN_USE: later(
        "Marks what can be seen from any of the viewpoints on a circle round the part."
    ),
    Extent.CHANGE: later(
        "Grow and shrink change the class chosen above. What a press would change is outlined."
    ),
    Extent.PATCH: later(
        "Click a smooth region: the whole of it is marked; of a STEP or IGES part, one "
        "face of the CAD model. What a click would mark is outlined."
    ),
}


class MarkPanel(QWidget):
    """The options of the Mark tool and the area of each class."""

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        actions: dict[str, QAction],
        ways: MarkWays,
    ) -> None:
        super().__init__()
        self._document, self._choices = document, choices
        self._extent = ChoiceBox()
        self._extent.setAccessibleName(say("Extent"))
        for extent in Extent:
            self._extent.addItem(say(extent.value), extent)
        self._extent.activated.connect(self._choose_extent)
        self._hint = text_label(quiet=True)
        self._brush = NumberField(
            say("Brush radius"), "mm", LEAST_BRUSH_MM, GREATEST_BRUSH_MM, 1, 0.5, self._set_brush
        )
        self._slider = QSlider(Qt.Orientation.Horizontal)
        self._slider.setRange(0, SLIDER_STEPS)
        self._slider.setAccessibleName(say("Brush radius slider"))
        self._slider.setToolTip(say("Brush radius; [ and ] change it too"))
        self._slider.valueChanged.connect(self._slide_brush)
        self._crease = NumberField(say("Crease angle"), "°", 1, 179, 0, 5, self._set_crease)
        self._areas = {name: QLabel("–") for name in ("A", "B", "unmarked")}
        self.ways = WayBox(ways, choices, actions)
        self._lay_out(actions)
        choices.mark_changed.connect(self._show_choices)
        signals.changed.connect(self._document_changed)
        self._show_choices()
        self._show_areas()

    def _lay_out(self, actions: dict[str, QAction]) -> None:
        layout = column()
        self.setLayout(layout)
        fields = Fields()
        fields.add(say("Extent"), self._extent, say("How far one use of the tool reaches."))
        layout.addWidget(fields)
        layout.addWidget(text_label(say("Mark as"), heading=True))
        classes = QGridLayout()
        classes.setSpacing(6)
        for place, (key, text) in enumerate(
            (("mark_a", "A"), ("mark_b", "B"), ("mark_erase", say("Erase")))
        ):
            classes.addWidget(ActionButton(actions[key], text), 0, place)
        layout.addLayout(classes)
        self._sizes = Fields()
        self._sizes.add(
            say("Radius"), self._brush, say("Radius of the brush on the surface; [ and ].")
        )
        self._angles = Fields()
        self._angles.add(
            say("Crease angle"),
            self._crease,
            say("Filling stops at edges where neighbouring faces meet at more than this angle."),
        )
        layout.addWidget(self._sizes)
        layout.addWidget(self._slider)
        layout.addWidget(self._angles)
        layout.addWidget(self._hint)
        layout.addWidget(self.ways)
        layout.addWidget(rule())
        layout.addWidget(text_label(say("Area by class"), heading=True))
        grid = QGridLayout()
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(0, 1)
        for row, (name, text) in enumerate(
            (
                ("A", say("A, always in view")),
                ("B", say("B, seen in use")),
                ("unmarked", say("unmarked")),
            )
        ):
            grid.addWidget(text_label(text), row, 0)
            grid.addWidget(self._areas[name], row, 1, Qt.AlignmentFlag.AlignRight)
        layout.addLayout(grid)
        layout.addWidget(ActionButton(actions["unmark_all"]))
        self._new, self._outline_new = text_label(), ActionButton(actions["not_carried"])
        layout.addWidget(self._new)
        layout.addWidget(self._outline_new)
        self.say_what_is_new("")
        layout.addStretch(1)

    def say_what_is_new(self, sentence: str) -> None:
        """What could not be carried over from the version before; "" for nothing."""
        self._new.setText(sentence)
        self._new.setVisible(bool(sentence))
        self._outline_new.setVisible(bool(sentence))

    # --- the user chooses
    def _choose_extent(self) -> None:
        self._choices.set_mark(extent=self._extent.currentData())

    def _set_brush(self, radius_mm: float) -> None:
        self._choices.set_mark(brush_mm=radius_mm)

    def _slide_brush(self, place: int) -> None:
        share = place / SLIDER_STEPS  # sizes a factor apart are equal steps on the slider
        self._choices.set_mark(
            brush_mm=round(LEAST_BRUSH_MM * (GREATEST_BRUSH_MM / LEAST_BRUSH_MM) ** share, 1)
        )

    def _set_crease(self, angle_deg: float) -> None:
        self._choices.set_mark(crease_deg=angle_deg)

    # --- the choices and the document are shown
    def _show_choices(self) -> None:
        choices = self._choices
        self._extent.setCurrentIndex(self._extent.findData(choices.extent))
        self._hint.setText(say(HINTS[choices.extent]))
        self._brush.show_number(choices.brush_mm)
        self._crease.show_number(choices.crease_deg)
        share = np.log(choices.brush_mm / LEAST_BRUSH_MM) / np.log(
            GREATEST_BRUSH_MM / LEAST_BRUSH_MM
        )
        blocker = QSignalBlocker(self._slider)
        self._slider.setValue(round(SLIDER_STEPS * share))
        blocker.unblock()
        brush = choices.extent is Extent.BRUSH
        self._sizes.setVisible(brush)
        self._slider.setVisible(brush)
        self._angles.setVisible(choices.extent is Extent.CREASE)

    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.PART | Changed.CLASSES):
            self._show_areas()

    def _show_areas(self) -> None:
        state = self._document.state
        if state.part is None:
            for label in self._areas.values():
                label.setText("–")
            return
        areas = sum_by_class(state.part.mesh.face_areas_mm2, state.face_classes)
        for name, label in self._areas.items():
            label.setText(f"{number_text(getattr(areas, name))} mm²")
