"""The flat faces of the part's convex hull, worked out when the part is to stand on one."""

import numpy as np
from PySide6.QtCore import QObject

from viewer.document.document import Changed, Document
from viewer.geometry.hull_faces import HullFace, hull_face_under, hull_faces
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, pose_matrix
from viewer.live.jobs import Job, Jobs
from viewer.progress import Progress
from viewer.window.document_signals import DocumentSignals


class HullSurface(QObject):
    """Answers which hull face a line of sight meets, once `prepare` has been asked for."""

    def __init__(self, document: Document, signals: DocumentSignals, jobs: Jobs) -> None:
        super().__init__()
        self._document, self._jobs = document, jobs
        self._job: Job | None = None
        self._wanted = False
        self._faces: tuple[HullFace, ...] | None = None
        self._vertices_mm = np.zeros((0, 3))
        self._back: tuple[Pose, np.ndarray] | None = None
        signals.changed.connect(self._document_changed)

    @property
    def ready(self) -> bool:
        """Whether the hull is known."""
        return self._faces is not None

    def prepare(self) -> None:
        """Work the hull out beside the window, now and for every part to come."""
        self._wanted = True
        part = self._document.state.part
        if part is not None and self._faces is None and self._job is None:
            mesh = part.mesh
            self._job = self._jobs.run(
                lambda progress: _prepared(mesh, progress), self._done, self._failed, priority=1
            )

    def close(self) -> None:
        """Stop preparing."""
        if self._job is not None:
            self._job.cancel()
            self._job = None

    def face_under(self, origin_mm: np.ndarray, direction: np.ndarray) -> HullFace | None:
        """The face that a line of sight in the posed frame meets; None while there is no hull."""
        if not self._faces:
            return None
        back = self._to_part()
        origin = back[:3, :3] @ np.asarray(origin_mm, float) + back[:3, 3]
        return hull_face_under(self._faces, origin, back[:3, :3] @ np.asarray(direction, float))

    def _to_part(self) -> np.ndarray:
        """(4, 4) from the posed frame to part coordinates, kept until the part is turned."""
        pose = self._document.state.pose
        if self._back is None or self._back[0] != pose:
            self._back = (pose, np.linalg.inv(pose_matrix(self._vertices_mm, pose)))
        return self._back[1]

    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART:
            self.close()
            self._faces = self._back = None
            if self._wanted:
                self.prepare()

    def _done(self, answer: tuple[tuple[HullFace, ...], np.ndarray]) -> None:
        self._job = None
        self._faces, self._vertices_mm = answer

    def _failed(self, error: Exception) -> None:
        self._job = None
        self._faces = ()


def _prepared(mesh: Mesh, progress: Progress) -> tuple[tuple[HullFace, ...], np.ndarray]:
    faces = hull_faces(mesh)
    progress.check()
    used = np.zeros(len(mesh.vertices_mm), bool)
    used[mesh.faces.ravel()] = True
    return faces, mesh.vertices_mm[used]
