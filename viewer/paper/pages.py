"""The client sheet on A4 pages, by Qt: as PDF, as pictures to look at, and on a printer."""

import re
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QRectF, QSizeF, Qt, QUrl
from PySide6.QtGui import (
    QFont,
    QGuiApplication,
    QImage,
    QPagedPaintDevice,
    QPageLayout,
    QPageSize,
    QPaintDevice,
    QPainter,
    QPdfWriter,
    QTextDocument,
)

from viewer.errors import CannotWrite
from viewer.files.atomic_write import replacing
from viewer.files.made_sheet import MadeSheet
from viewer.paper.page_text import PageText
from viewer.paper.qt_ready import get_qt_ready
from viewer.progress import Progress
from viewer.words import say, speaking

PAGE_MM, MARGIN_MM, FOOT_MM = (210.0, 297.0), 14.0, 7.0
MOST_PAGES = 2
_SCALES = (1.0, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7)
_DPI = 300
_FAMILIES = ("DejaVu Sans", "Segoe UI", "Helvetica Neue", "Arial", "Liberation Sans")
_MM_IN = 25.4
_LETTERS = re.compile(rb"(<[0-9A-F]{4}> <[0-9A-F]{4}> )(\[[<>0-9A-F ]*\]|<[0-9A-F]{4}>)")


class SheetPages:
    """The sheet laid out for one device; of the sizes of letters the largest that needs two pages.

    Lengths in pixels count as Qt's own, 96 or so to the inch, and grow with the device.
    """

    def __init__(self, made: MadeSheet, device: QPaintDevice) -> None:
        self._made, self._device = made, device
        self._zoom = device.logicalDpiY() / _own_dpi()
        self._document = QTextDocument()
        self._document.documentLayout().setPaintDevice(device)
        font = QFont()
        font.setFamilies(_FAMILIES)
        font.setFeature(QFont.Tag("liga"), 0)  # so that "fi" is found in the file as two letters
        self._document.setDefaultFont(font)
        self._document.setDocumentMargin(0)
        for name, data in _resources(made).items():
            image = QImage.fromData(QByteArray(data))
            self._document.addResource(QTextDocument.ResourceType.ImageResource, QUrl(name), image)
        page = QSizeF(
            self._px(PAGE_MM[0] - 2 * MARGIN_MM), self._px(PAGE_MM[1] - 2 * MARGIN_MM - FOOT_MM)
        )
        for scale in _SCALES:
            with speaking(made.sheet.language):
                text = PageText(made, page.width() / self._zoom, scale, self._zoom).html()
            self._document.setHtml(text)
            self._document.setPageSize(page)
            if self._document.pageCount() <= MOST_PAGES:
                break

    def _px(self, length_mm: float) -> float:
        return length_mm / _MM_IN * self._device.logicalDpiY()

    @property
    def count(self) -> int:
        """How many pages there are."""
        return self._document.pageCount()

    def draw(self, painter: QPainter, page: int, left_mm: float = MARGIN_MM) -> None:
        """Draw a page, from 0; the painter's origin is `left_mm` and as much above the text."""
        size = self._document.pageSize()
        painter.save()
        painter.translate(self._px(left_mm), self._px(left_mm) - page * size.height())
        band = QRectF(0.0, page * size.height(), size.width(), size.height())
        painter.setClipRect(band)
        self._document.drawContents(painter, band)
        painter.restore()
        painter.save()
        painter.translate(self._px(left_mm), self._px(left_mm))
        font = self._document.defaultFont()
        font.setPointSizeF(7.5)
        painter.setFont(QFont(font, self._device))
        painter.setPen(Qt.GlobalColor.darkGray)
        foot = QRectF(0.0, size.height(), size.width(), self._px(FOOT_MM))
        painter.drawText(foot, Qt.AlignmentFlag.AlignBottom, self._foot(page))
        painter.restore()

    def _foot(self, page: int) -> str:
        with speaking(self._made.sheet.language):
            return say(
                "{part}, page {page} of {count}",
                part=self._made.sheet.part,
                page=page + 1,
                count=self.count,
            )


def _own_dpi() -> float:
    """What Qt takes for a pixel of rich text."""
    screen = QGuiApplication.primaryScreen()
    return 96.0 if screen is None else screen.logicalDotsPerInchY()


def _resources(made: MadeSheet) -> dict[str, bytes]:
    found = dict(made.pictures)
    found |= {f"legend-{number}": png for number, (_, png) in enumerate(made.legend)}
    if made.logo_png:
        found["logo"] = made.logo_png
    return found


def sheet_pdf(made: MadeSheet, progress: Progress | None = None) -> bytes:
    """The sheet as the bytes of a PDF file. Raises Cancelled."""
    get_qt_ready()
    progress = progress or Progress()
    content = QBuffer()
    content.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(content)
    writer.setResolution(_DPI)
    writer.setTitle(f"{made.sheet.title}: {made.sheet.part}")
    writer.setCreator("Showside")
    paint_pages(made, writer, progress)
    content.close()
    return _with_spaces(bytes(content.data()))


def _with_spaces(pdf: bytes) -> bytes:
    """The file with its spaces told as such to whoever takes text out of it.

    Fonts draw tab and space by one glyph, and Qt's table from glyphs back to letters (ToUnicode)
    names the first letter that a glyph stands for. Nothing changes its length.
    """
    return _LETTERS.sub(lambda found: found[1] + found[2].replace(b"<0009>", b"<0020>"), pdf)


def paint_pages(
    made: MadeSheet, device: QPagedPaintDevice, progress: Progress | None = None
) -> int:
    """Draw all pages on a PDF writer or a printer, A4; returns how many. Raises Cancelled."""
    progress = progress or Progress()
    nothing = QMarginsF(0, 0, 0, 0)
    layout = QPageLayout(
        QPageSize(QPageSize.PageSizeId.A4), QPageLayout.Orientation.Portrait, nothing
    )
    layout.setMode(QPageLayout.Mode.FullPageMode)
    device.setPageLayout(layout)
    pages = SheetPages(made, device)
    painter = QPainter(device)
    try:
        for page in range(pages.count):
            progress.report(page / pages.count, "Setting the pages")
            if page:
                device.newPage()
            pages.draw(painter, page)
    finally:
        painter.end()
    return pages.count


def page_images(made: MadeSheet, dpi: int) -> list[QImage]:
    """The pages as pictures, white behind."""
    get_qt_ready()
    images, pages = [], None
    while pages is None or len(images) < pages.count:
        image = QImage(
            *(round(side / _MM_IN * dpi) for side in PAGE_MM), QImage.Format.Format_RGB32
        )
        image.setDotsPerMeterX(round(dpi / _MM_IN * 1000))
        image.setDotsPerMeterY(round(dpi / _MM_IN * 1000))
        image.fill(Qt.GlobalColor.white)
        pages = pages or SheetPages(made, image.copy())
        painter = QPainter(image)
        pages.draw(painter, len(images))
        painter.end()
        images.append(image)
    return images


def write_sheet_pdf(made: MadeSheet, path: Path, progress: Progress | None = None) -> None:
    """Write the sheet as a whole or not at all. Raises CannotWrite, Cancelled."""
    content = sheet_pdf(made, progress)
    if not content.startswith(b"%PDF"):
        raise CannotWrite(say("The pages could not be made; write the sheet as HTML instead."))
    with replacing(path, progress) as temporary:
        temporary.write_bytes(content)
