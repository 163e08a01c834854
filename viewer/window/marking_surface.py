"""The part's surface for marking: neighbours of every face, worked out once per part."""

import numpy as np
from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.regions import crease_fill, stroke_faces
from viewer.live.jobs import Job, Jobs
from viewer.progress import Progress
from viewer.window.document_signals import DocumentSignals


def prepare_surface(mesh: Mesh, progress: Progress) -> tuple[np.ndarray, np.ndarray]:
    """Neighbours (m, 3) and unit normals (m, 3) of the faces of `mesh`; runs on a worker."""
    neighbours = neighbours_of(mesh)
    progress.report(0.5, "Looking at the surface")
    normals = mesh.face_normals
    if mesh.face_count:
        # The first use compiles: here, where nobody waits, and not under the first stroke.
        corner = mesh.vertices_mm[mesh.faces[0, 0]]
        stroke_faces(mesh, neighbours, [(0, corner)], 0.0)
        crease_fill(neighbours, normals, 0, 0.0)
    return neighbours, normals


class MarkingSurface(QObject):
    """Answers which faces a dab, a stroke or a fill reaches; `ready` once it can."""

    became_ready = Signal()

    def __init__(self, document: Document, signals: DocumentSignals, jobs: Jobs) -> None:
        super().__init__()
        self._document, self._jobs = document, jobs
        self._job: Job | None = None
        self._mesh: Mesh | None = None
        self._neighbours: np.ndarray | None = None
        self._normals: np.ndarray | None = None
        signals.changed.connect(self._document_changed)
        self._document_changed(Changed.EVERYTHING)

    @property
    def ready(self) -> bool:
        """Whether marking can begin."""
        return self._neighbours is not None

    def close(self) -> None:
        """Stop preparing."""
        if self._job is not None:
            self._job.cancel()

    def stroke(self, hits: list[tuple[int, np.ndarray]], radius_mm: float) -> np.ndarray:
        """Sorted faces that a round brush covers along surface points (face, point (3,) mm)."""
        return stroke_faces(self._mesh, self._neighbours, hits, radius_mm)

    def fill(self, face: int, crease_deg: float) -> np.ndarray:
        """Sorted faces reached from one without crossing a sharper edge."""
        return crease_fill(self._neighbours, self._normals, face, crease_deg)

    def normal(self, face: int) -> np.ndarray:
        """(3,) unit normal of a face."""
        return self._normals[face]

    def _document_changed(self, what: Changed) -> None:
        if not what & Changed.PART:
            return
        self.close()
        part = self._document.state.part
        self._mesh = self._neighbours = self._normals = None
        if part is not None:
            mesh = part.mesh
            self._job = self._jobs.run(
                lambda progress: (mesh, *prepare_surface(mesh, progress)),
                done=self._prepared,
                failed=lambda error: None,  # the reader has already vouched for the mesh
            )

    def _prepared(self, answer: tuple[Mesh, np.ndarray, np.ndarray]) -> None:
        self._job = None
        self._mesh, self._neighbours, self._normals = answer
        self.became_ready.emit()
