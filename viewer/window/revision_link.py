"""Tells what could not be carried over to a newer version of the part, and outlines it."""

from collections.abc import Callable
from typing import Protocol

import numpy as np
from PySide6.QtCore import QObject
from PySide6.QtGui import QAction

from viewer.document.document import Changed, Document
from viewer.geometry.bisect_faces import Pieces
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.revision import Revision
from viewer.geometry.rigid_motion import STILL
from viewer.window.actions import Actions
from viewer.window.choices import Choices
from viewer.window.document_signals import DocumentSignals
from viewer.window.file_work import FileWork
from viewer.window.notice_bar import NoticeBar
from viewer.window.part_view import PartView
from viewer.window.quantities import count_text, number_text
from viewer.window.stages import Stage
from viewer.words import say

LEAST_SHIFT_MM = 0.05  # what would be said as 0.0 mm


class RevisedWindow(Protocol):
    """What a window must have for this."""

    document: Document
    signals: DocumentSignals
    choices: Choices
    files: FileWork
    actions: Actions
    notice: NoticeBar
    view: PartView


class RevisionLink(QObject):
    """Remembers the last newer version; what is said of it goes and comes with undo and redo."""

    def __init__(self, window: RevisedWindow, say: Callable[[str], object]) -> None:
        """`say` shows for good what could not be carried over, "" for nothing."""
        super().__init__(window)
        self._window, self._document, self._say = window, window.document, say
        self._view = window.view
        self._action: QAction = window.actions.by_key["not_carried"]
        self._mesh: Mesh | None = None
        self._pieces: Mesh | None = None
        self._neighbours: np.ndarray | None = None
        self._revision: Revision | None = None
        window.files.revised.connect(self._take)
        window.signals.changed.connect(self._document_changed)
        self._show()

    def outline(self, shown: bool) -> None:
        """Show or hide the outlines."""
        self._action.setChecked(shown)
        self._draw()

    @property
    def sentence(self) -> str:
        """What could not be carried over, "" when that is nothing or another part is open."""
        return revision_text(self._revision) if self._is_open() else ""

    def _take(self, revision: Revision) -> None:
        """The newer version is open now."""
        part, pieces = self._document.state.part, revision.marked.pieces
        self._mesh, self._revision = part.file_mesh, revision
        self._remember(part.file_mesh, pieces)
        self._action.setChecked(True)
        self._show()
        self._window.choices.set_stage(Stage.MARK)
        self._window.notice.say(carried_text(part.name, revision))

    def _remember(self, mesh: Mesh, pieces: Pieces | None) -> None:
        if pieces is None:
            self._pieces, self._neighbours = mesh, neighbours_of(mesh)
        else:
            self._pieces = Mesh(pieces.vertices_mm, pieces.faces)
            self._neighbours = pieces.neighbours

    def _is_open(self) -> bool:
        part = self._document.state.part
        return self._revision is not None and part is not None and part.file_mesh is self._mesh

    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.PART | Changed.REFINED):
            self._show()

    def _show(self) -> None:
        self._draw()
        self._say(self.sentence)

    def _draw(self) -> None:
        scene = self._view.scene
        if self._is_open() and self._action.isChecked():
            scene.show_new(self._pieces, self._neighbours, self._revision.lost)
        else:
            scene.show_new(None, np.zeros((0, 3), int), np.zeros(0, int))
        self._view.redraw()


def revision_text(revision: Revision) -> str:
    """What could not be carried over, in one or two sentences; "" when that is nothing."""
    said = []
    if len(revision.lost):
        said.append(
            say(
                "New, so left unmarked: {count}, {lost_mm2} mm².",
                count=count_text(len(revision.lost), "face"),
                lost_mm2=number_text(revision.lost_mm2),
            )
        )
    gone = [
        say("{area} mm² of class {name}", area=number_text(area), name=name)
        for name, area in (("A", revision.gone_mm2.A), ("B", revision.gone_mm2.B))
        if area > 0.0
    ]
    if gone:
        said.append(
            say("Marked before, but no longer there: {gone}.", gone=say(" and ").join(gone))
        )
    return " ".join(said)


def motion_text(revision: Revision) -> str:
    """How the newer file lies otherwise, in one sentence."""
    turn_deg, shift_mm = revision.motion.turn_deg, revision.shift_mm
    if turn_deg == 0.0:
        how = say("shifted by {shift_mm:.1f} mm", shift_mm=shift_mm)
    elif shift_mm < LEAST_SHIFT_MM:
        how = say("turned by {turn_deg:.1f}°", turn_deg=turn_deg)
    else:
        how = say(
            "turned by {turn_deg:.1f}°, shifted by {shift_mm:.1f} mm",
            turn_deg=turn_deg,
            shift_mm=shift_mm,
        )
    return say(
        "The newer file lies otherwise in its coordinates: {how}. Marks were carried over"
        " accordingly.",
        how=how,
    )


def carried_text(name: str, revision: Revision) -> str:
    """The notice after a newer version was opened."""
    if revision.motion is STILL:
        said = [say("The marks were carried over to {name}.", name=name)]
    else:
        said = [motion_text(revision)]
    lost = revision_text(revision)
    if lost:
        said.append(lost + say(" Look at these places and mark them."))
    else:
        said.append(
            say(
                "All surfaces were found, within {within_mm} mm.",
                within_mm=number_text(revision.within_mm),
            )
        )
    return " ".join(said)
