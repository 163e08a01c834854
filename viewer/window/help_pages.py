"""The short pages of the Help menu; they do not block the window."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QMessageBox,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from viewer import __version__
from viewer.resource_files import resource_file

MOUSE = (
    ("Left button", "works the tool of the stage; beside the part it turns the view"),
    ("Right button", "turns the view"),
    ("Middle button", "shifts the view"),
    ("Wheel", "comes closer or goes farther, towards the pointer"),
    ("[ and ]", "smaller and larger brush"),
    ("Ctrl while turning", "15° steps instead of 1°"),
    ("Esc", "takes back the drag under way, closes the cut, or stops a long job"),
    ("Return in the list of faults", "the next place of the fault; up and down change the fault"),
    ("1 to 6", "lenses"),
    ("H", "the height strip; drag in it to cut the part open"),
    ("Ctrl+1 to Ctrl+5", "stages"),
    ("Ctrl+Shift+A", "find any action by name"),
)


def show_mouse(window: QWidget) -> None:
    """What buttons and keys do."""
    rows = "".join(
        f"<tr><td style='padding:3px 14px 3px 0'><b>{what}</b></td><td>{does}</td></tr>"
        for what, does in MOUSE
    )
    _show(window, "Mouse and keys", f"<table>{rows}</table>")


def show_how_it_measures(window: QWidget) -> None:
    """Each number in plain words, with its formula, source and limits."""
    _show_page(window, "How it measures", "how-it-measures.md")


def show_how_it_mends(window: QWidget) -> None:
    """Each step of mending in plain words: what it changes and what it costs."""
    _show_page(window, "How it mends", "how-it-mends.md")


def _show_page(window: QWidget, title: str, file_name: str) -> None:
    dialog = QDialog(window)
    dialog.setWindowTitle(title)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    page = QTextBrowser(dialog)
    page.setAccessibleName(title)
    page.setMarkdown(resource_file(f"help/{file_name}").read_text(encoding="utf-8"))
    page.setOpenLinks(False)
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, dialog)
    buttons.rejected.connect(dialog.close)
    layout = QVBoxLayout(dialog)
    layout.addWidget(page)
    layout.addWidget(buttons)
    dialog.resize(720, 640)
    dialog.show()


def show_about(window: QWidget) -> None:
    """Version and licence."""
    _show(
        window,
        "About Showside",
        f"<p><b>Showside {__version__}</b></p><p>Lay a part so that the side that shows comes out "
        "clean.</p><p>MIT licence. Colours: Okabe and Ito 2008; Crameri 2018. Built with Qt "
        "(LGPL-3), VTK, PyVista and Open CASCADE Technology (LGPL-2.1 with exception)."
        "</p><p>The numbers assume straight upright supports: an "
        "estimate of where a print program will put its own.</p>",
    )


def _show(window: QWidget, title: str, page: str) -> None:
    box = QMessageBox(window)
    box.setWindowTitle(title)
    box.setTextFormat(Qt.TextFormat.RichText)
    box.setText(page)
    box.setStandardButtons(QMessageBox.StandardButton.Close)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.open()
