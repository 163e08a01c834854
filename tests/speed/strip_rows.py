"""What a notch of the wheel over the height strip costs on a part of 2,000 layers."""

import numpy as np
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QPixmap, QWheelEvent
from PySide6.QtWidgets import QApplication
from vtkmodules.vtkRenderingCore import vtkRenderer

from tests.speed.timing import row, seconds
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.section import CutPart
from viewer.scene.part_scene import PartScene
from viewer.scene.themes import LIGHT
from viewer.window.cut_link import gap_words
from viewer.window.height_strip import HeightStrip

LAYERS = 2000
LIMIT_S = 0.016  # a frame
PLACES = 24
WIDTH_PX = 1600


def strip(part: PreparedPart, classes: np.ndarray) -> list[dict]:
    """The dearest of some notches: outline, cut of the scene, words and the strip's own drawing.

    What the graphics side then draws is left out: it depends on the card, and notches that come
    before it is done are drawn together.
    """
    app = QApplication.instance() or QApplication(["", "-platform", "offscreen"])
    high_mm = float(np.ptp(part.points_mm[:, 2]))
    settings = PrintSettings(layer_mm=high_mm / LAYERS)
    measures = measure_pose(part, classes, Pose(), settings, "full")
    made, scene, cut_part = HeightStrip(), PartScene(vtkRenderer(), LIGHT), CutPart.of(part)
    made.resize(WIDTH_PX, made.height())
    made.show_measures(measures)
    scene.show_part(part.mesh, pickable=False)
    picture = QPixmap(made.size())

    def show_cut(layer: int) -> None:
        height_mm = made.chart.middle_mm(layer)
        scene.cut_at(height_mm)
        section = cut_part.section(scene.matrix, height_mm)
        scene.show_section(section)
        made.show_remark(gap_words(section))

    def notch() -> None:
        made.wheelEvent(_notch(1))
        made.render(picture)

    notch()  # what is drawn once, and compiled
    made.layer_chosen.connect(show_cut)
    worst = 0.0
    for layer in np.linspace(0, LAYERS - 10, PLACES).astype(int).tolist():
        made.choose(layer)
        worst = max(worst, seconds(notch, 4))
    scene.close()
    made.deleteLater()
    app.processEvents()
    name = f"limit: one frame ({made.chart.layer_count} layers, worst of {PLACES} places)"
    return [row("strip, one notch", len(part.faces), worst, name, LIMIT_S, 1)]


def _notch(turns: int) -> QWheelEvent:
    return QWheelEvent(
        QPointF(9, 60), QPointF(9, 60), QPoint(), QPoint(0, 120 * turns), Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
