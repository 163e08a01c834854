"""Finds ways to mend the open part and takes them, one undo step each; the looking is on a worker.

What each step makes is worked out before it is offered, each on what the one before leaves. So
taking a step is a swap of the part, and undo walks back along the same meshes.
"""

from dataclasses import replace
from functools import partial
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.document.state import State
from viewer.errors import RequestProblem, ShowsideError
from viewer.geometry.known_of_mesh import get_to_know
from viewer.geometry.mend.mend_effect import MendEffect, preview
from viewer.geometry.mend.mended import MendedMesh, after, unchanged
from viewer.geometry.mend.plan_mending import plan_mending
from viewer.geometry.mend.steps import Step, step_named
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.nearest_face import carried_over
from viewer.live.jobs import Job, Jobs
from viewer.progress import Progress
from viewer.window.document_signals import DocumentSignals
from viewer.words import say


class Way(NamedTuple):
    """One step of a way to mend: what it is, what it is done to, and what it changes."""

    step: Step
    before: Mesh
    effect: MendEffect

    @property
    def mesh(self) -> Mesh:
        """The part once the step is taken."""
        return self.effect.mended.mesh


class MendWork(QObject):
    """The way found for the open part, and how far along it the part is.

    started, progressed, ended, failed : of the looking, as of `FileWork`
    changed : `ways`, `taken` or `looked` are others now
    """

    started = Signal(object, str)
    progressed = Signal(float, str)
    ended = Signal()
    failed = Signal(str)
    changed = Signal()

    def __init__(self, document: Document, signals: DocumentSignals, jobs: Jobs) -> None:
        super().__init__()
        self._document, self._jobs = document, jobs
        self._job: Job | None = None
        self.ways: tuple[Way, ...] = ()
        self.looked = False
        signals.changed.connect(self._document_changed)

    def close(self) -> None:
        """Stop looking."""
        if self._job is not None:
            self._job.cancel()
            self._job = None
            self.ended.emit()

    @property
    def taken(self) -> int:
        """How many of the steps the open part has behind it."""
        part = self._document.state.part
        mesh = None if part is None else part.file_mesh
        for number, way in enumerate(self.ways):
            if mesh is way.before:
                return number
        return len(self.ways)

    @property
    def safe_ahead(self) -> int:
        """How many harmless steps come next, before one that needs the user's word."""
        count = 0
        for way in self.ways[self.taken :]:
            if not way.step.safe:
                break
            count += 1
        return count

    # --- looking
    def look(self, *_: object) -> None:
        """Choose steps for the part and work out what each would change."""
        if self._document.state.part is not None:
            mesh = self._document.state.part.file_mesh
            self._run(partial(_look, mesh), say("Looking for ways to mend"))

    def look_at_new_skin(self, resolution_mm: float) -> None:
        """Work out what a new skin around the whole part would change."""
        part = self._document.state.part
        if part is not None:
            mesh = part.file_mesh
            step = step_named("re-skin", mesh).with_options(resolution_mm=resolution_mm)
            self._run(partial(_effects, (), mesh, (step,)), say("Laying a new skin"))

    def look_again(self, number: int, length_mm: float) -> None:
        """Work out a step anew with another length, and those after it."""
        kept, rest = self.ways[:number], self.ways[number:]
        first = rest[0].step.with_options(**{rest[0].step.length_option: length_mm})
        steps = (first, *(way.step for way in rest[1:]))
        self._run(partial(_effects, kept, rest[0].before, steps), say("Looking at the step again"))

    def _run(self, function, doing: str, done=None) -> None:
        self.close()
        self._job = self._jobs.run(
            function, done or self._found, self._fail, self.progressed.emit, 1
        )
        self.started.emit(self._job, doing)

    def _found(self, ways: tuple[Way, ...]) -> None:
        self._job = None
        self.ended.emit()
        self.ways, self.looked = ways, True
        self.changed.emit()

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.ended.emit()
        self.failed.emit(str(error))

    # --- taking
    def take_next(self) -> None:
        """Take the next step: one undo step."""
        if self.taken < len(self.ways):
            way = self.ways[self.taken]
            self._take(way.effect.mended, way.mesh, say("Mend ({name})", name=way.step.name))

    def take_safe(self, *_: object) -> None:
        """Take the harmless steps that come next in one go; looks for them first if need be."""
        if not self.looked:
            self.look()
            return
        ways = self.ways[self.taken : self.taken + self.safe_ahead]
        if ways:
            done = unchanged(ways[0].before)
            for way in ways:
                done = after(done, way.effect.mended)
            self._take(done, ways[-1].mesh, say("Mend what is safe"))

    def _take(self, mended: MendedMesh, mesh: Mesh, label: str) -> None:
        """`mesh` is the mended mesh as the way knows it, so that the part is found on it again."""
        self.close()  # another length is no longer asked for
        state = self._document.state
        if state.part.base is None:
            self._put(state, mesh, label, state.mended(mended))
            return
        self._job = self._jobs.run(
            partial(state.mended, mended),
            partial(self._put, state, mesh, label),
            self._fail,
            self.progressed.emit,
            1,
        )
        self.started.emit(self._job, say("Cutting the marks into the mended part"))

    def _put(self, asked: State, mesh: Mesh, label: str, state: State) -> None:
        """Swap the part for the mended one, unless part or marks have changed meanwhile."""
        if self._job is not None:
            self._job = None
            self.ended.emit()
        now = self._document.state
        if now.part is asked.part and now.face_classes is asked.face_classes:
            part = state.part
            held = {"mesh": mesh} if part.base is None else {"base": mesh}
            self._document.replace_part(
                now.with_(part=replace(part, **held), face_classes=state.face_classes), label
            )

    @property
    def can_go_back(self) -> bool:
        """Whether the part was mended, and it is known what it was received as."""
        part = self._document.state.part
        return part is not None and part.received is not None

    def go_back(self, *_: object) -> None:
        """Lay the part as received in place of the mended one, with its marks: one undo step."""
        if self.can_go_back:
            asked = self._document.state
            self._run(
                partial(_as_received, asked), say("Going back to the part as received"),
                partial(self._laid_back, asked),
            )  # fmt: skip

    def _laid_back(self, asked: State, found: State) -> None:
        self._job = None
        self.ended.emit()
        now = self._document.state
        if now.face_classes is not asked.face_classes:  # marked meanwhile
            self.go_back()
            return
        back = now.with_(part=found.part, face_classes=found.face_classes)
        self._document.replace_part(back, say("Back to the part as received"))

    def _document_changed(self, what: Changed) -> None:
        if not what & (Changed.PART | Changed.REFINED):
            return
        part = self._document.state.part
        known = [way.before for way in self.ways] + [way.mesh for way in self.ways[-1:]]
        if part is None or not any(part.file_mesh is mesh for mesh in known):
            self.close()
            self.ways, self.looked = (), False
        self.changed.emit()


# --- what runs on a worker: plain functions of frozen values
def _as_received(state: State, progress: Progress) -> State:
    """The job with the part as received; marks and patches go to the nearest faces of it."""
    part, mesh = state.part, state.part.mesh
    progress.report(0.1, say("Carrying the marks over"))
    onto, values = part.received, [state.face_classes]
    if part.patch_of_face is not None:
        values.append(part.patch_of_face)
    carried = [carried_over(mesh.vertices_mm, mesh.faces, one, onto) for one in values]
    progress.check()
    get_to_know(onto)
    patches = frozen(carried[1]) if len(carried) > 1 else None
    received = part.as_received(patches)
    if part.base is None:
        return state.with_(part=received, face_classes=carried[0])
    return state.with_fine_marks_on(received, carried[0], progress=progress.part(0.5, 1.0))


def _look(mesh: Mesh, progress: Progress) -> tuple[Way, ...]:
    steps = plan_mending(mesh, None, progress.part(0.0, 0.6))
    return _effects((), mesh, steps, progress.part(0.6, 1.0))


def _effects(
    kept: tuple[Way, ...], mesh: Mesh, steps: tuple[Step, ...], progress: Progress
) -> tuple[Way, ...]:
    """The ways kept, then each step with its effect on what the one before leaves."""
    ways = list(kept)
    for number, step in enumerate(steps):
        part = progress.part(number / len(steps), (number + 1) / len(steps))
        part.report(0.0, step.words)
        effect = preview(step, mesh, part)
        if not effect.faces_after:
            raise RequestProblem(say("With this length nothing would be left of the part."))
        get_to_know(effect.mended.mesh)
        ways.append(Way(step, mesh, effect))
        mesh = effect.mended.mesh
    return tuple(ways)
