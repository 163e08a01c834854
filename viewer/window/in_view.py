"""Scrolls a column so that something in it can be seen."""

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QScrollArea, QWidget

MARGIN_PX = 12


def bring_into_view(widget: QWidget) -> None:
    """Scroll the column around a widget to it, once the layout has settled."""
    QTimer.singleShot(0, widget, lambda: _scroll(widget))


def _scroll(widget: QWidget) -> None:
    above = widget.parentWidget()
    while above is not None and not isinstance(above, QScrollArea):
        above = above.parentWidget()
    if above is None or not widget.isVisible():
        return
    bar, room = above.verticalScrollBar(), above.viewport().height()
    top = widget.mapTo(above.widget(), widget.rect().topLeft()).y()
    bottom = top + widget.height()
    if bottom + MARGIN_PX > bar.value() + room:
        bar.setValue(min(top - MARGIN_PX, bottom + MARGIN_PX - room))
    if top < bar.value():
        bar.setValue(max(top - MARGIN_PX, 0))
