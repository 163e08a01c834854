"""About Showside: version, what it rests on, and the licences of all packages in it."""

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QListWidget,
    QPlainTextEdit,
    QSplitter,
    QTabWidget,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from viewer import __version__
from viewer.window.licences import Licensed, licensed_packages, own_licence
from viewer.words import say

SIZE_PX, LIST_PX = (760, 540), 260


class AboutDialog(QDialog):
    """Two pages: about the program, and the licences."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("About Showside"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.resize(*SIZE_PX)
        self.packages: list[Licensed] = []
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName(say("About Showside"))
        self.tabs.tabBar().setAccessibleName(say("About Showside"))
        self.tabs.addTab(_about_page(), say("About"))
        self.tabs.addTab(self._licence_page(), say("Licences"))
        self.tabs.currentChanged.connect(self._fill)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, parent=self)
        buttons.rejected.connect(self.close)
        layout = QVBoxLayout(self)
        layout.addWidget(self.tabs)
        layout.addWidget(buttons)

    def _licence_page(self) -> QWidget:
        self.list = QListWidget()
        self.list.setAccessibleName(say("Packages"))
        self.list.setToolTip(say("Choose one to read its licence"))
        self.text = QPlainTextEdit()
        self.text.setReadOnly(True)
        self.text.setAccessibleName(say("Text of the licence"))
        self.text.setTabChangesFocus(True)
        self.list.currentRowChanged.connect(lambda row: self._show(self.packages[row]))
        page = QSplitter()
        page.addWidget(self.list)
        page.addWidget(self.text)
        page.setSizes([LIST_PX, SIZE_PX[0] - LIST_PX])
        page.setChildrenCollapsible(False)
        return page

    def _fill(self, tab: int) -> None:
        """Read the licences once they are looked at."""
        if tab == 0 or self.packages:
            return
        self.packages = licensed_packages()
        for one in self.packages:
            self.list.addItem(f"{one.name} {one.version}")
        self.list.setCurrentRow(0)

    def _show(self, one: Licensed) -> None:
        parts = [f"{one.name} {one.version}", say("Licence: {name}", name=one.licence)]
        parts += [one.home] if one.home else []
        texts = [f"— {name} —\n\n{text}" for name, text in one.texts]
        if not texts:
            texts = [say("The package carries no text of its licence.")]
        self.text.setPlainText("\n".join(parts) + "\n\n" + "\n\n".join(texts))


def _about_page() -> QTextBrowser:
    page = QTextBrowser()
    page.setOpenExternalLinks(True)
    page.setAccessibleName(say("About Showside"))
    licence = escape(own_licence()).replace("\n\n", "</p><p>")
    page.setHtml(
        say(
            "<h2>Showside {version}</h2><p>Lay a part so that the side that shows comes out clean."
            "</p><p>Colours: Okabe and Ito 2008; Crameri 2018. Built with Qt (LGPL-3), VTK, PyVista"
            " and Open CASCADE Technology (LGPL-2.1 with exception). Qt and Open CASCADE lie beside"
            " the program as libraries of their own and may be exchanged for other builds.</p>"
            "<p>The numbers assume straight upright supports: an estimate of where a print program "
            "will put its own.</p><p>Nothing of a part leaves this computer: the window opens no "
            "connection to the network.</p>",
            version=__version__,
        )
        + f"<hr><p>{licence}</p>"
    )
    return page
