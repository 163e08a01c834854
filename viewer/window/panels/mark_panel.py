"""Stage 2: which extent and class the Mark tool has, and how much area each class holds."""

import numpy as np
from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QSlider, QWidget

from viewer.document.document import Changed, Document
from viewer.geometry.face_classes import sum_by_class
from viewer.window.choices import GREATEST_BRUSH_MM, LEAST_BRUSH_MM, Choices, Extent
from viewer.window.document_signals import DocumentSignals
from viewer.window.pieces import ActionButton, Fields, NumberField, column, rule, text_label
from viewer.window.quantities import number_text

SLIDER_STEPS = 100
HINTS = {
    Extent.BRUSH: "Drag over the part. The ring shows what a touch reaches; it never goes "
    "through a wall.",
    Extent.CREASE: "Click a surface: it fills up to edges sharper than the angle. What a click "
    "would mark is outlined.",
    Extent.PATCH: "Click a smooth region: the whole of it is marked; of a STEP or IGES part, one "
    "face of the CAD model. What a click would mark is outlined.",
}


class MarkPanel(QWidget):
    """The options of the Mark tool and the area of each class."""

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        actions: dict[str, QAction],
    ) -> None:
        super().__init__()
        self._document, self._choices = document, choices
        self._extent = QComboBox()
        self._extent.setAccessibleName("Extent")
        for extent in Extent:
            self._extent.addItem(extent.value, extent)
        self._extent.activated.connect(self._choose_extent)
        self._hint = text_label(quiet=True)
        self._brush = NumberField(
            "Brush radius", "mm", LEAST_BRUSH_MM, GREATEST_BRUSH_MM, 1, 0.5, self._set_brush
        )
        self._slider = QSlider(Qt.Orientation.Horizontal)
        self._slider.setRange(0, SLIDER_STEPS)
        self._slider.setAccessibleName("Brush radius slider")
        self._slider.setToolTip("Brush radius; [ and ] change it too")
        self._slider.valueChanged.connect(self._slide_brush)
        self._crease = NumberField("Crease angle", "°", 1, 179, 0, 5, self._set_crease)
        self._areas = {name: QLabel("–") for name in ("A", "B", "unmarked")}
        self._lay_out(actions)
        choices.mark_changed.connect(self._show_choices)
        signals.changed.connect(self._document_changed)
        self._show_choices()
        self._show_areas()

    def _lay_out(self, actions: dict[str, QAction]) -> None:
        layout = column()
        self.setLayout(layout)
        fields = Fields()
        fields.add("Extent", self._extent, "How far one use of the tool reaches.")
        layout.addWidget(fields)
        layout.addWidget(text_label("Mark as", heading=True))
        classes = QGridLayout()
        classes.setSpacing(6)
        for place, (key, text) in enumerate(
            (("mark_a", "A"), ("mark_b", "B"), ("mark_erase", "Erase"))
        ):
            classes.addWidget(ActionButton(actions[key], text), 0, place)
        layout.addLayout(classes)
        self._sizes = Fields()
        self._sizes.add("Radius", self._brush, "Radius of the brush on the surface; [ and ].")
        self._angles = Fields()
        self._angles.add(
            "Crease angle",
            self._crease,
            "Filling stops at edges where neighbouring faces meet at more than this angle.",
        )
        layout.addWidget(self._sizes)
        layout.addWidget(self._slider)
        layout.addWidget(self._angles)
        layout.addWidget(self._hint)
        layout.addWidget(rule())
        layout.addWidget(text_label("Area by class", heading=True))
        grid = QGridLayout()
        grid.setVerticalSpacing(4)
        for row, (name, text) in enumerate(
            (("A", "A, always in view"), ("B", "B, seen in use"), ("unmarked", "unmarked"))
        ):
            grid.addWidget(QLabel(text), row, 0)
            grid.addWidget(self._areas[name], row, 1, Qt.AlignmentFlag.AlignRight)
        layout.addLayout(grid)
        layout.addWidget(ActionButton(actions["unmark_all"]))
        layout.addStretch(1)

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
        self._hint.setText(HINTS[choices.extent])
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
