"""The few questions that need an answer before anything can go on: file names, unsaved changes."""

from enum import Enum
from pathlib import Path

from PySide6.QtGui import QColor
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QColorDialog, QFileDialog, QMessageBox, QWidget

from viewer.files.maker_file import LOGO_SUFFIXES
from viewer.files.mesh_files import OPEN_SUFFIXES
from viewer.files.picture_files import STILL_SUFFIX, TURNTABLE_SUFFIXES
from viewer.window.trial_photo import PHOTO_PATTERNS
from viewer.words import later, say

EXPORT_FILTERS = {
    "3mf": "3MF (*.3mf)",
    "stl": later("Binary STL (*.stl)"),
    "obj": "OBJ (*.obj)",
    "ply": "PLY (*.ply)",
}
SHEET_FILTERS = {
    ".pdf": later("PDF to be printed and signed (*.pdf)"),
    ".html": later("One page with the part to be turned (*.html)"),
}
PACK_FILTERS = {".zip": later("Zip (*.zip)"), "": later("Folder (*)")}
TURNTABLE_FILTERS = {
    ".gif": later("Animated GIF (*.gif)"),
    ".webp": later("Animated WebP (*.webp)"),
}


class Unsaved(Enum):
    """What to do with unsaved changes."""

    SAVE = "save"
    DISCARD = "discard"
    STAY = "stay"


def open_filters() -> str:
    """The filters of the Open dialog: all known kinds first, then one by one."""
    patterns = {name: " ".join(f"*{s}" for s in kinds) for name, kinds in OPEN_SUFFIXES.items()}
    together = say("Parts and jobs ({patterns})", patterns=" ".join(patterns.values()))
    return ";;".join([together, *(f"{say(name)} ({kinds})" for name, kinds in patterns.items())])


class Prompts:
    """Asks in dialogs; None for a file name means the user changed their mind."""

    def __init__(self, window: QWidget) -> None:
        self._window = window

    def print_colour(self, present: QColor) -> QColor | None:
        """In which colour the part will be printed."""
        chosen = QColorDialog.getColor(
            present,
            self._window,
            say("Colour of the print"),
            QColorDialog.ColorDialogOption.DontUseNativeDialog,
        )
        return chosen if chosen.isValid() else None

    def file_to_open(self, folder: Path) -> Path | None:
        """Which mesh or job to open."""
        name, _ = QFileDialog.getOpenFileName(
            self._window, say("Open a mesh or a job"), str(folder), open_filters()
        )
        return Path(name) if name else None

    def job_to_save(self, suggested: Path) -> Path | None:
        """Where to keep the job."""
        return self._file_to_write(say("Save the job"), suggested, say("Job (*.3mf)"), ".3mf")

    def file_to_export(self, suggested: Path, kind: str) -> Path | None:
        """Where to write the posed part."""
        return self._file_to_write(
            say("Export the posed part"), suggested, say(EXPORT_FILTERS[kind]), f".{kind}"
        )

    def table_to_save(self, suggested: Path) -> Path | None:
        """Where to write a table."""
        filters = say("Table, comma-separated (*.csv)")
        return self._file_to_write(say("Write a table"), suggested, filters, ".csv")

    def photo_to_open(self) -> Path | None:
        """Which picture file to keep with a trial."""
        filters = say("Pictures ({patterns})", patterns=" ".join(PHOTO_PATTERNS))
        name, _ = QFileDialog.getOpenFileName(self._window, say("Choose a photo"), "", filters)
        return Path(name) if name else None

    def picture_to_save(self, suggested: Path) -> Path | None:
        """Where to write a still picture."""
        return self._file_to_write(say("Save a picture"), suggested, "PNG (*.png)", STILL_SUFFIX)

    def turntable_to_save(self, suggested: Path) -> Path | None:
        """Where to write a turntable; the suffix chosen names the format."""
        name, kind = QFileDialog.getSaveFileName(
            self._window,
            say("Save a turntable"),
            str(suggested),
            ";;".join(TURNTABLE_FILTERS.values()),
        )
        if not name:
            return None
        path = Path(name)
        if path.suffix.lower() in TURNTABLE_FILTERS:
            return path
        suffixes = {words: suffix for suffix, words in TURNTABLE_FILTERS.items()}
        return path.with_name(path.name + suffixes.get(kind, TURNTABLE_SUFFIXES[0]))

    def folder_to_write(self, suggested: Path) -> Path | None:
        """Where to make a folder of that name for several files."""
        title = say("Where to make the folder {name}", name=suggested.name)
        name = QFileDialog.getExistingDirectory(self._window, title, str(suggested.parent))
        return Path(name) / suggested.name if name else None

    def sheet_to_save(self, suggested: Path) -> Path | None:
        """Where to write the client sheet; the suffix chosen names the kind."""
        return self._one_of(say("Save the client sheet"), suggested, SHEET_FILTERS)

    def pack_to_save(self, suggested: Path) -> Path | None:
        """Where to write a pack: a zip, or a folder under the name that was typed."""
        return self._one_of(say("Pack the job"), suggested, PACK_FILTERS)

    def logo_to_open(self) -> Path | None:
        """Which picture is the logo."""
        patterns = " ".join(f"*{suffix}" for suffix in LOGO_SUFFIXES)
        name, _ = QFileDialog.getOpenFileName(
            self._window,
            say("Choose a logo"),
            str(Path.home()),
            say("Pictures ({patterns})", patterns=patterns),
        )
        return Path(name) if name else None

    def printer(self, title: str) -> QPrinter | None:
        """On which printer, in its own dialog; A4 upright."""
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        printer.setDocName(title)
        dialog = QPrintDialog(printer, self._window)
        accepted = dialog.exec() == QPrintDialog.DialogCode.Accepted
        dialog.deleteLater()
        return printer if accepted else None

    def _one_of(self, title: str, suggested: Path, kinds: dict[str, str]) -> Path | None:
        """A file name with one of the suffixes; that of the filter where it has none."""
        words = {say(name): suffix for suffix, name in kinds.items()}
        name, kind = QFileDialog.getSaveFileName(
            self._window, title, str(suggested), ";;".join(words)
        )
        if not name:
            return None
        path, suffix = Path(name), words.get(kind, next(iter(kinds)))
        known = path.suffix.lower() in kinds and path.suffix
        if suffix == "" and path.suffix.lower() in kinds:
            return path.with_suffix("")  # a folder was asked for
        return path if known else path.with_name(path.name + suffix)

    def _file_to_write(self, title: str, suggested: Path, filters: str, suffix: str) -> Path | None:
        name, _ = QFileDialog.getSaveFileName(self._window, title, str(suggested), filters)
        if not name:
            return None
        path = Path(name)
        return path if path.suffix.lower() == suffix else path.with_name(path.name + suffix)

    def about_unsaved(self, part_name: str) -> Unsaved:
        """What to do with changes that are not saved."""
        box = QMessageBox(self._window)
        box.setWindowTitle(say("Unsaved changes"))
        box.setText(
            say("The job “{part_name}” has changes that are not saved.", part_name=part_name)
        )
        box.setInformativeText(say("Save them first?"))
        buttons = QMessageBox.StandardButton
        box.setStandardButtons(buttons.Save | buttons.Discard | buttons.Cancel)
        box.setDefaultButton(buttons.Save)
        answer = box.exec()
        box.deleteLater()
        return {buttons.Save: Unsaved.SAVE, buttons.Discard: Unsaved.DISCARD}.get(
            answer, Unsaved.STAY
        )
