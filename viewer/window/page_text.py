"""Text on a page of its own, where nothing has to give way to a narrow column."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget


def page_text(text: str = "", *, quiet: bool = False) -> QLabel:
    """A label that wraps and is as high as its lines."""
    label = QLabel(text)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setProperty("quiet", quiet)
    policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
    policy.setHeightForWidth(True)
    label.setSizePolicy(policy)
    return label


def fit_height(page: QWidget, width_px: int) -> None:
    """Give a page the height that its text takes at a width."""
    page.ensurePolished()
    page.setFixedWidth(width_px)
    page.setFixedHeight(page.layout().totalHeightForWidth(width_px))
