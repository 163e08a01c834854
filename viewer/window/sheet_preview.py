"""The pages of a client sheet to look at, before they are saved or printed."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QImage, QKeySequence, QPixmap, QResizeEvent, QShortcut
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QScrollArea, QWidget

from viewer.files.made_sheet import MadeSheet
from viewer.window.pieces import button, column, text_label
from viewer.words import say

_GAP_PX = 14
LEAST_ZOOM, MOST_ZOOM, ZOOM_STEP = 0.4, 2.5, 1.25


class SheetPreview(QDialog):
    """Pages below one another, as wide as the window times the zoom."""

    def __init__(self, parent: QWidget, actions: dict) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Client sheet"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.resize(900, 720)
        self.zoom = 1.0
        self._images: list[QImage] = []
        layout = column(gap=8, margins=(12, 12, 12, 12))
        self.setLayout(layout)
        self._pages = QWidget()
        self._column = column(gap=_GAP_PX, margins=(_GAP_PX,) * 4)
        self._pages.setLayout(self._column)
        self.scroll = QScrollArea()
        self.scroll.setWidget(self._pages)
        self.scroll.setAccessibleName(say("Pages of the client sheet"))
        self.scroll.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        self.scroll.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        layout.addWidget(self.scroll, 1)
        self.about = text_label(quiet=True)
        layout.addWidget(self.about)
        line = QHBoxLayout()
        for text, tip, keys, pressed in (
            (
                say("Smaller"),
                say("Show the pages smaller"),
                "Ctrl+-",
                lambda: self.grow(1 / ZOOM_STEP),
            ),
            (say("Larger"), say("Show the pages larger"), "Ctrl++", lambda: self.grow(ZOOM_STEP)),
        ):
            made = button(text, pressed, f"{tip} ({keys})")
            made.setAutoDefault(False)
            line.addWidget(made)
            QShortcut(QKeySequence(keys), self, pressed)
        line.addStretch(1)
        for key, text in (("sheet_save", say("Save …")), ("sheet_print", say("Print …"))):
            action = actions[key]
            made = button(text, action.trigger, action.toolTip(), leading=key == "sheet_save")
            made.setAutoDefault(False)
            QShortcut(action.shortcut(), self, action.trigger)
            line.addWidget(made)
        close = button(say("Close"), self.close, say("Back to the window (Esc)"))
        close.setAutoDefault(False)
        line.addWidget(close)
        layout.addLayout(line)
        self.scroll.setFocus()

    def show_pages(self, made: MadeSheet, images: list[QImage]) -> None:
        """Show another sheet."""
        self._images = images
        while self._column.count():
            widget = self._column.takeAt(0).widget()
            widget.hide()
            widget.deleteLater()
        for number, _ in enumerate(images, 1):
            page = QLabel()
            page.setAccessibleName(say("Page {page} of {count}", page=number, count=len(images)))
            self._column.addWidget(page, 0, Qt.AlignmentFlag.AlignHCenter)
        part = made.turnable
        self.about.setText(
            say(
                "As HTML the part can be turned, with {now:,} of {before:,} faces, at most "
                "{most_mm:.2g} mm off.",
                now=len(part.triangles),
                before=part.faces_before,
                most_mm=max(part.deviation_mm, 0.001),
            )
        )
        self._fit()

    def grow(self, factor: float) -> None:
        """Show the pages larger or smaller."""
        self.zoom = min(max(self.zoom * factor, LEAST_ZOOM), MOST_ZOOM)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Pages follow the width."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        if not self._images:
            return
        room = self.scroll.viewport().width() - 2 * _GAP_PX
        wide = round(min(room, 1.2 * self.scroll.viewport().height()) * self.zoom)
        scale = self.devicePixelRatioF()
        for place, image in enumerate(self._images):
            high = round(wide * image.height() / image.width())
            picture = QPixmap.fromImage(
                image.scaled(
                    QSize(round(wide * scale), round(high * scale)),
                    Qt.AspectRatioMode.IgnoreAspectRatio,
                    Qt.TransformationMode.SmoothTransformation,
                )
            )
            picture.setDevicePixelRatio(scale)
            page = self._column.itemAt(place).widget()
            page.setPixmap(picture)
            page.setFixedSize(wide, high)
        self._pages.resize(self._column.sizeHint())
