"""Every control in every mode has a name for assistive technology and a tip that explains it."""

import numpy as np
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSlider,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialogButtonBox,
    QLineEdit,
    QScrollBar,
    QToolButton,
    QWidget,
)

from tests.shapes import cube
from tests.window.test_window_layout import nameless_in
from viewer.geometry.face_classes import CLASS_A
from viewer.window.choices import Extent
from viewer.window.fold import Fold
from viewer.window.stages import Stage

CONTROLS = (QAbstractButton, QAbstractSpinBox, QAbstractSlider, QComboBox, QLineEdit)


def tipless_in(window: QWidget) -> set[str]:
    """Controls of ours that nothing explains; the parts of a field or a dialog belong to Qt."""
    found = set()
    for kind in CONTROLS:
        for widget in window.findChildren(kind):
            parent = widget.parentWidget()
            parts = isinstance(parent, QAbstractSpinBox | QComboBox | QLineEdit | QDialogButtonBox)
            qts_own = isinstance(widget, QScrollBar) or widget.objectName().startswith("qt_")
            if not widget.isVisible() or parts or qts_own or widget.toolTip():
                continue
            words = widget.accessibleName() or getattr(widget, "text", str)()
            found.add(f"{type(widget).__name__} in {type(parent).__name__}: {words}")
    return found


def modes_of(opened):
    """The modes of the window one after the other, named."""
    window = opened.window
    for stage in Stage:
        window.choices.set_stage(stage)
        for fold in window.findChildren(Fold):
            if fold.isVisible() and not fold.is_open:
                fold.head.click()
        opened.draw()
        yield stage.name
    window.choices.set_stage(Stage.MARK)
    for extent in Extent:
        window.choices.set_mark(extent=extent)
        opened.draw()
        yield extent.name
    window.choices.set_stage(Stage.TURN)
    for key in "KXKYKP":
        opened.press_keys(key)
    opened.press_keys("C")
    opened.draw()
    yield "side by side"
    opened.press_keys("F5")
    yield "presentation"
    opened.press_keys("Escape")
    opened.press_keys("C")


def test_no_control_lacks_a_name_or_a_tip(opened):
    opened.show(cube(), np.full(12, CLASS_A, np.uint8))
    missing = {}
    for mode in modes_of(opened):
        QApplication.processEvents()
        for what in (*nameless_in(opened.window), *tipless_in(opened.window)):
            missing.setdefault(what, mode)
    assert not missing, "\n".join(f"{mode}: {what}" for what, mode in missing.items())


def test_the_test_sees_a_control_without_a_tip(opened):
    QToolButton(opened.window.stage_column, text="?").show()
    assert any(what.endswith(": ?") for what in tipless_in(opened.window))
