"""The part's surface for marking: neighbours of every face, worked out once per part.

When faces are cut in pieces, those that were cut know their new neighbours, so nothing is prepared.
"""

import numpy as np
from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.document.state import Part
from viewer.geometry.brush_stroke import BrushStroke
from viewer.geometry.face_corners import face_corners_mm
from viewer.geometry.face_patches import FacePatches, face_patches
from viewer.geometry.fine_marks import mark_preview
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.outlines import sweep_outline
from viewer.geometry.refined_classes import paint_stroke
from viewer.geometry.regions import crease_fill
from viewer.geometry.swept_faces import Scratch, scratch_for
from viewer.live.jobs import Job, Jobs
from viewer.progress import Progress
from viewer.window.document_signals import DocumentSignals
from viewer.words import say

SPARE = 4  # room for a quarter more faces, as each stroke cuts some


def prepare_surface(part: Part, progress: Progress) -> tuple[np.ndarray, FacePatches]:
    """Neighbours (m, 3) of the faces of a part, and groups of its file's; runs on a worker."""
    mesh, base = part.mesh, part.file_mesh
    neighbours = neighbours_of(mesh)
    patches = face_patches(base.vertices_mm, base.faces, neighbours_of(base))
    progress.report(0.5, say("Looking at the surface"))
    normals = mesh.face_normals
    if mesh.face_count:
        # The first use compiles: here, where nobody waits, and not under the first stroke.
        stroke = BrushStroke(mesh, neighbours, 0.0, patches if base is mesh else None)
        _, crossed = stroke.add(0, mesh.vertices_mm[mesh.faces[0, 0]])
        mark_preview(mesh, crossed, sweep_outline(np.array(stroke.sweeps_mm), 0.0))
        face_corners_mm(mesh, crossed, np.zeros(3))
        paint_stroke(stroke, np.zeros(mesh.face_count, np.uint8), 0)
        crease_fill(neighbours, normals, 0, 0.0)
    return neighbours, patches


class MarkingSurface(QObject):
    """Answers which faces a stroke or a fill reaches; `ready` once it can."""

    became_ready = Signal()

    def __init__(self, document: Document, signals: DocumentSignals, jobs: Jobs) -> None:
        super().__init__()
        self._document, self._jobs = document, jobs
        self._job: Job | None = None
        self._mesh: Mesh | None = None
        self._neighbours: np.ndarray | None = None
        self._base_patches: FacePatches | None = None
        self._patches: FacePatches | None = None
        self._scratch: Scratch | None = None
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

    def stroke(self, radius_mm: float) -> BrushStroke:
        """A stroke of a round brush that begins."""
        return BrushStroke(self._mesh, self._neighbours, radius_mm, self._patches, self._scratch)

    def fill(self, face: int, crease_deg: float) -> np.ndarray:
        """Sorted faces reached from one without crossing a sharper edge."""
        return crease_fill(self._neighbours, self._mesh.face_normals, face, crease_deg)

    def normal(self, face: int) -> np.ndarray:
        """(3,) unit normal of a face; of one alone, as those of all take time after each cut."""
        a, b, c = self._mesh.vertices_mm[self._mesh.faces[face]]
        normal = np.cross(b - a, c - a)
        length = np.linalg.norm(normal)
        return normal / length if length > 0 else normal

    def _document_changed(self, what: Changed) -> None:
        part = self._document.state.part
        if what & Changed.REFINED and self.ready:
            self._know(part, neighbours_of(part.mesh))
            return
        if not what & (Changed.PART | Changed.REFINED):
            return
        self.close()
        self._mesh = self._neighbours = self._patches = self._base_patches = None
        if part is not None:
            self._job = self._jobs.run(
                lambda progress: (part, *prepare_surface(part, progress)),
                done=self._prepared,
                failed=lambda error: None,  # the reader has already vouched for the mesh
            )

    def _know(self, part: Part, neighbours: np.ndarray) -> None:
        self._mesh, self._neighbours = part.mesh, neighbours
        self._patches = self._base_patches
        if part.base_face is not None:
            self._patches = self._base_patches.of_pieces(part.base_face, neighbours)
        faces, groups = part.mesh.face_count, len(self._patches.balls_mm)
        if self._scratch is None or not self._scratch.holds(faces, groups):
            self._scratch = scratch_for(faces + faces // SPARE, groups)

    def _prepared(self, answer: tuple[Part, np.ndarray, FacePatches]) -> None:
        self._job = None
        part, neighbours, self._base_patches = answer
        self._know(part, neighbours)
        self.became_ready.emit()
