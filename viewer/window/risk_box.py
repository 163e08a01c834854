"""The risks of a pose, each with its reason; a button at each goes where it sits."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QToolButton, QWidget

from viewer.shop.looked import Risk
from viewer.window.pieces import column, text_label
from viewer.words import say, written

MOST_RISKS = 12


class RiskBox(QWidget):
    """chosen : a Risk whose place the user wants to see."""

    chosen = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._risks: tuple[Risk, ...] = ()
        self.buttons: list[QToolButton] = []
        self.setLayout(column(gap=2))

    def show_risks(self, risks: tuple[Risk, ...]) -> None:
        """List other risks, the serious ones first; what is listed already stays."""
        if risks == self._risks:
            return
        self._risks, self.buttons = risks, []
        layout = self.layout()
        while layout.count():
            layout.takeAt(0).widget().deleteLater()
        for risk in risks[:MOST_RISKS]:
            made = QToolButton()
            made.setText(f"{'!!' if risk.serious else '!'} {height_words(risk)}")
            made.setProperty("flat", True)
            made.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
            made.setToolTip(say("Look there"))
            made.setAccessibleName(f"{height_words(risk)}: {risk.reason}")
            made.clicked.connect(lambda _, risk=risk: self.chosen.emit(risk))
            self.buttons.append(made)
            layout.addWidget(made)
            layout.addWidget(text_label(risk.reason))
        if len(risks) > MOST_RISKS:
            more = written(len(risks) - MOST_RISKS, ",")
            layout.addWidget(text_label(say("and {more} more", more=more)))


def height_words(risk: Risk) -> str:
    """The height or heights that a risk sits at."""
    if risk.to_mm - risk.from_mm < 1.0:
        return say("{from_mm:.0f} mm", from_mm=risk.from_mm)
    return say("{from_mm:.0f} to {to_mm:.0f} mm", from_mm=risk.from_mm, to_mm=risk.to_mm)
