"""The bar above the scene: which lens colours the part, and the few things used all the time."""

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QLabel, QToolButton, QWidget

from viewer.scene.lenses import Lens
from viewer.window.pieces import action_tool
from viewer.words import say


class LensBar(QWidget):
    """Lenses at the left; supports, fit, undo and redo at the right."""

    def __init__(self, actions: dict[str, QAction]) -> None:
        super().__init__()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(12, 6, 12, 6)
        layout.setSpacing(4)
        label = QLabel(say("Lens"))
        label.setProperty("quiet", True)
        label.setToolTip(say("What the colours of the part show."))
        layout.addWidget(label)
        for lens in Lens:
            made = QToolButton()
            made.setDefaultAction(actions[f"lens_{lens.value}"])
            made.setProperty("lens", True)
            made.setAccessibleName(say("Lens {title}", title=say(lens.title)))
            layout.addWidget(made)
        layout.addStretch(1)
        for key in ("supports", "height_strip", "fit", "undo", "redo"):
            layout.addWidget(action_tool(actions[key]))
