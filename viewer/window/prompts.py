"""The few questions that need an answer before anything can go on: file names, unsaved changes."""

from enum import Enum
from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from viewer.files.mesh_files import OPEN_SUFFIXES

EXPORT_FILTERS = {
    "3mf": "3MF (*.3mf)",
    "stl": "Binary STL (*.stl)",
    "obj": "OBJ (*.obj)",
    "ply": "PLY (*.ply)",
}


class Unsaved(Enum):
    """What to do with unsaved changes."""

    SAVE = "save"
    DISCARD = "discard"
    STAY = "stay"


def open_filters() -> str:
    """The filters of the Open dialog: all known kinds first, then one by one."""
    patterns = {name: " ".join(f"*{s}" for s in kinds) for name, kinds in OPEN_SUFFIXES.items()}
    together = f"Parts and jobs ({' '.join(patterns.values())})"
    return ";;".join([together, *(f"{name} ({kinds})" for name, kinds in patterns.items())])


class Prompts:
    """Asks in dialogs; None for a file name means the user changed their mind."""

    def __init__(self, window: QWidget) -> None:
        self._window = window

    def file_to_open(self, folder: Path) -> Path | None:
        """Which mesh or job to open."""
        name, _ = QFileDialog.getOpenFileName(
            self._window, "Open a mesh or a job", str(folder), open_filters()
        )
        return Path(name) if name else None

    def job_to_save(self, suggested: Path) -> Path | None:
        """Where to keep the job."""
        return self._file_to_write("Save the job", suggested, "Job (*.3mf)", ".3mf")

    def file_to_export(self, suggested: Path, kind: str) -> Path | None:
        """Where to write the posed part."""
        return self._file_to_write(
            "Export the posed part", suggested, EXPORT_FILTERS[kind], f".{kind}"
        )

    def _file_to_write(self, title: str, suggested: Path, filters: str, suffix: str) -> Path | None:
        name, _ = QFileDialog.getSaveFileName(self._window, title, str(suggested), filters)
        if not name:
            return None
        path = Path(name)
        return path if path.suffix.lower() == suffix else path.with_name(path.name + suffix)

    def about_unsaved(self, part_name: str) -> Unsaved:
        """What to do with changes that are not saved."""
        box = QMessageBox(self._window)
        box.setWindowTitle("Unsaved changes")
        box.setText(f"The job “{part_name}” has changes that are not saved.")
        box.setInformativeText("Save them first?")
        buttons = QMessageBox.StandardButton
        box.setStandardButtons(buttons.Save | buttons.Discard | buttons.Cancel)
        box.setDefaultButton(buttons.Save)
        answer = box.exec()
        box.deleteLater()
        return {buttons.Save: Unsaved.SAVE, buttons.Discard: Unsaved.DISCARD}.get(
            answer, Unsaved.STAY
        )
