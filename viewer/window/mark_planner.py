"""Shows what a way to mark would change, and does it: worked out on a worker, one undo step.

The same answer serves the preview and the click. While a pointer is dragged, an answer under way
is let come to its end and the newest wish is asked next, so that the preview keeps up however
large the part is.
"""

from collections.abc import Callable, Hashable
from typing import NamedTuple

import numpy as np
from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.errors import ShowsideError
from viewer.geometry.cut_surface import Marked
from viewer.geometry.mesh import Mesh
from viewer.live.jobs import Job, Jobs
from viewer.progress import Progress
from viewer.window.document_signals import DocumentSignals
from viewer.window.quantities import count_text, number_text
from viewer.words import say


class Plan(NamedTuple):
    """One way to mark, as the document and the options are now.

    kind : which way; key : everything else that decides the answer, besides the document
    label : of the undo step; work : (progress) → Marked, a plain function
    """

    kind: str
    key: Hashable
    label: str
    work: Callable[[Progress], Marked]


Maker = Callable[[], Plan | None]


class MarkPlanner(QObject):
    """At most one preview and one click at a time.

    started, progressed, ended, failed : of a click that takes a while, as of `FileWork`
    hint, redraw : as of a tool
    """

    started = Signal(object, str)
    progressed = Signal(float, str)
    ended = Signal()
    failed = Signal(str)
    hint = Signal(str)
    redraw = Signal()

    def __init__(
        self,
        scene: object,
        document: Document,
        signals: DocumentSignals,
        jobs: Jobs,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._scene, self._document, self._jobs = scene, document, jobs
        self._job: Job | None = None
        self._running: tuple | None = None
        self._wanted: Maker | None = None
        self._taking: Plan | None = None
        self._answer: tuple[tuple, Marked] | None = None
        signals.changed.connect(self._document_changed)

    def close(self) -> None:
        """Stop everything."""
        self._wanted = None
        self._stop()

    # --- what is asked for
    def show(self, make: Maker) -> None:
        """Preview the plan that `make` makes, from now on until `put_away`."""
        self._wanted = make
        if not self._busy_taking():
            self._go(make())

    def put_away(self) -> None:
        """Show nothing any more; a click that is being worked out goes on."""
        if self._wanted is None:
            return
        self._wanted = None
        if not self._busy_taking():
            self._stop()
        self._hide()
        self.hint.emit("")

    def take(self, make: Maker) -> None:
        """Do what the plan says: one undo step, as soon as it is worked out."""
        plan = make()
        if plan is None:
            return
        if self._busy_taking():
            self._stop()
        self._taking = plan
        self._go(plan)
        if self._busy_taking():
            self.started.emit(self._job, plan.label)

    @property
    def working(self) -> bool:
        """Whether an answer is being worked out."""
        return self._job is not None and not self._job.progress.cancelled

    # --- working it out
    def _busy_taking(self) -> bool:
        """Whether a click waits for its answer; one that the user has stopped does not."""
        if self._taking is not None and not self.working:
            self._taking = None
        return self._taking is not None

    def _go(self, plan: Plan | None) -> None:
        if plan is None:
            self._hide()
            return
        key = self._key(plan)
        if self._answer is not None and self._answer[0] == key:
            self._use(plan)
            return
        if self.working:
            same_way = self._running[0] == plan.kind and self._taking is None
            if self._running == key or same_way:
                return  # its answer is what is wanted, or asks again for what is
            self._cancel_job()
        if self._taking is None:
            self.hint.emit(say("{label}: working it out …", label=plan.label))
        self._running = key
        self._job = self._jobs.run(
            lambda progress: (key, plan.work(progress)),
            done=self._found,
            failed=self._fail,
            progressed=self._report,
            priority=1,
        )

    def _key(self, plan: Plan) -> tuple:
        return (plan.kind, plan.key, self._document.revision)

    def _cancel_job(self) -> None:
        if self._job is not None:
            self._job.cancel()
        self._job = self._running = None

    def _stop(self) -> None:
        self._cancel_job()
        if self._taking is not None:
            self._taking = None
            self.ended.emit()

    def _report(self, fraction: float, doing: str) -> None:
        if self._taking is not None:
            self.progressed.emit(fraction, doing)

    def _fail(self, error: ShowsideError) -> None:
        self._wanted = None
        self._stop()
        self.failed.emit(str(error))

    def _found(self, answer: tuple[tuple, Marked]) -> None:
        self._job = self._running = None
        self._answer = answer
        plan = self._taking
        if plan is None and self._wanted is not None:
            plan = self._wanted()
        if plan is None:
            return
        if answer[0] != self._key(plan) and self._taking is None:
            self._preview(plan.label, answer[1])  # a step behind the pointer, but on its way
        self._go(plan)

    # --- using it
    def _use(self, plan: Plan) -> None:
        marked = self._answer[1]
        if self._taking is None:
            self._preview(plan.label, marked)
            return
        self._taking = None
        self.ended.emit()
        self._hide()
        if not len(marked.changed(self._document.state.face_classes)):
            self.hint.emit(say("{label}: nothing to change", label=plan.label))
        elif marked.pieces is None:
            self._document.set_classes(marked.face_classes, plan.label)
        else:
            self._document.mark_finely(marked.pieces, marked.face_classes, plan.label)

    def _preview(self, label: str, marked: Marked) -> None:
        state = self._document.state
        changed = marked.changed(state.face_classes)
        mesh, pieces = state.part.mesh, marked.pieces
        if pieces is None:
            self._scene.preview_faces(changed)
        else:
            mesh = Mesh(pieces.vertices_mm, pieces.faces)
            self._scene.preview_pieces(mesh, pieces.neighbours, changed)
        if len(changed):
            area = number_text(_area_mm2(mesh, changed))
            self.hint.emit(f"{label}: {count_text(len(changed), 'face')}, {area} mm²")
        else:
            self.hint.emit(say("{label}: nothing would change", label=label))
        self.redraw.emit()

    def _hide(self) -> None:
        self._scene.preview_faces(None)
        self.redraw.emit()

    def _document_changed(self, what: Changed) -> None:
        if not what & (Changed.PART | Changed.CLASSES | Changed.POSE):
            return
        self._answer = None
        self._stop()
        if self._wanted is not None:
            self._hide()
            self._go(self._wanted())


def _area_mm2(mesh: Mesh, rows: np.ndarray) -> float:
    """Area of some faces; all of a mesh that is only looked at would take too long."""
    a, b, c = (mesh.vertices_mm[mesh.faces[rows, k]] for k in range(3))
    return 0.5 * float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum())
