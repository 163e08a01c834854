"""A group under a heading that opens and closes with a click, Space or Return."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLayout, QSizePolicy, QToolButton, QWidget

from viewer.window.pieces import column
from viewer.words import say


class Fold(QWidget):
    """It follows `set_wanted` until the user opens or closes it by hand."""

    def __init__(self, title: str, tip: str, opened: bool = True) -> None:
        """`opened` : at first."""
        super().__init__()
        layout = column(gap=6)
        self.setLayout(layout)
        self.head = QToolButton()
        self.head.setText(title)
        self.head.setToolTip(tip)
        self.head.setCheckable(True)
        self.head.setProperty("fold", True)
        self.head.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.head.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._inner = QWidget()
        self._inner.setLayout(column(gap=6))
        layout.addWidget(self.head)
        layout.addWidget(self._inner)
        self._by_hand = False
        self.head.clicked.connect(self._clicked)
        self._show(opened)

    @property
    def is_open(self) -> bool:
        """Whether what is inside is shown."""
        return self.head.isChecked()

    def add(self, widget: QWidget) -> None:
        """Put something inside."""
        self._inner.layout().addWidget(widget)

    def inner_height_px(self, width_px: int) -> int:
        """What opening it takes, the gap included."""
        layout = self._inner.layout()
        if layout.hasHeightForWidth():
            needed = layout.totalHeightForWidth(width_px)
        else:
            needed = layout.sizeHint().height()
        return needed + self.layout().spacing()

    def relay(self) -> None:
        """Lay out what is inside at once, so that a column around it learns its height."""
        self._inner.layout().activate()
        self.layout().activate()

    def add_layout(self, layout: QLayout) -> None:
        """Put a whole layout inside."""
        self._inner.layout().addLayout(layout)

    def set_wanted(self, wanted: bool) -> None:
        """Open or closed, as there is room; what the user chose stays."""
        if not self._by_hand and wanted != self.is_open:
            self._show(wanted)

    def _clicked(self, opened: bool) -> None:
        self._by_hand = True
        self._show(opened)

    def _show(self, opened: bool) -> None:
        self.head.setChecked(opened)
        self.head.setArrowType(Qt.ArrowType.DownArrow if opened else Qt.ArrowType.RightArrow)
        state = say("open") if opened else say("closed")
        self.head.setAccessibleName(f"{self.head.text()}, {state}")
        self._inner.setVisible(opened)


def relay_around(widget: QWidget) -> None:
    """Lay out the fold that a widget stands in at once, after its words have become others."""
    while widget is not None and not isinstance(widget, Fold):
        if widget.layout() is not None:
            widget.layout().activate()
        widget = widget.parentWidget()
    if widget is not None:
        widget.relay()
