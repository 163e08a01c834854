"""Cuts the part beside the window as it is planned, so that what comes of it is seen beforehand."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from viewer.document.cutting import Cut, CutPlan, box_around_patch, cut_as_planned
from viewer.document.document import Changed, Document
from viewer.document.state import State
from viewer.errors import ShowsideError
from viewer.geometry.closed_part import ClosedPart, closed_part
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.split_gain import SplitGain, split_gains
from viewer.geometry.split_planes import propose_splits
from viewer.geometry.worst_patch import Kind, WorstPatch, worst_patch
from viewer.live.jobs import Job, Jobs
from viewer.live.live_measures import MEASURED, LiveMeasures
from viewer.progress import Progress
from viewer.shop.machines import Machine

SETTLED_MS = 120
MOST_SPLITS = 4  # places that are measured


@dataclass(frozen=True)
class SplitAdvice:
    """Places to split the part, and what each brings.

    machine : that it is printed on; too_large : why it does not fit that one, "" if it does
    """

    gains: tuple[SplitGain, ...]
    machine: str
    too_large: str


class LiveCuts(QObject):
    """Knows the plan in force, and the cut that comes of it once that is worked out.

    cut : Cut, or None while it is not known; kept in `latest`
    placed : CutPlan and WorstPatch: a box was found
    advised : SplitAdvice
    refused, failed : a sentence for the user, about the plan and about what was waited for
    started, progressed, ended : of a job that the user waits for, as of `FileWork`
    """

    cut = Signal(object)
    placed = Signal(object, object)
    advised = Signal(object)
    refused = Signal(str)
    failed = Signal(str)
    started = Signal(object, str)
    progressed = Signal(float, str)
    ended = Signal()

    def __init__(self, document: Document, jobs: Jobs, live_measures: LiveMeasures) -> None:
        super().__init__()
        self._document, self._jobs, self._live = document, jobs, live_measures
        self._job: Job | None = None
        self._waited = False
        self._solid: tuple[Mesh, ClosedPart] | None = None
        self.plan: CutPlan | None = None
        self.latest: Cut | None = None
        self._settled = QTimer(self, singleShot=True, interval=SETTLED_MS)
        self._settled.timeout.connect(self._ask)
        self._stop_listening = document.listen(self._document_changed)

    def set_plan(self, plan: CutPlan | None) -> None:
        """Cut otherwise, once the plan has settled; None: not at all."""
        self.plan = plan
        self._forget()
        if plan is not None:
            self._settled.start()

    @property
    def working(self) -> bool:
        """Whether a cut is being worked out, or about to be."""
        at_work = self._job is not None and not self._job.progress.cancelled
        return at_work or self._settled.isActive()

    def close(self) -> None:
        """Stop listening and cutting."""
        self._stop_listening()
        self._settled.stop()
        self._stop()

    def find_worst(self, kind: Kind, doing: str) -> None:
        """Look for the worst patch of this kind in this pose, and tell the box around it."""
        state = self._document.state
        self.run_waited_for(partial(_find_worst, state, self._prepared(state), kind), doing,
                            lambda found: self.placed.emit(*found))  # fmt: skip

    def find_splits(self, machine: Machine, too_large: str, doing: str) -> None:
        """Look for places to split the part, and measure what the best of them bring."""
        state = self._document.state
        function = partial(_find_splits, state, self._prepared(state), machine, too_large)
        self.run_waited_for(function, doing, self.advised.emit)

    def run_waited_for(
        self, function: Callable[..., Any], doing: str, done: Callable[[Any], None]
    ) -> None:
        """Run a job that the user waits for, in place of a cut."""
        self._stop()
        self._settled.stop()

        def finished(answer: object) -> None:
            self._end()
            done(answer)

        self._job = self._jobs.run(function, finished, self._fail, self.progressed.emit, priority=2)
        self._waited = True
        self.started.emit(self._job, doing)

    def _prepared(self, state: State) -> PreparedPart | None:
        prepared = self._live.prepared
        same = prepared is not None and prepared.mesh is state.part.mesh
        return prepared if same else None

    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART:
            self._solid = None
        if what & (MEASURED | Changed.REFINED):
            self._forget()
            if self.plan is not None and self._document.state.part is not None:
                self._settled.start()

    def _forget(self) -> None:
        self._stop()
        if self.latest is not None:
            self.latest = None
            self.cut.emit(None)

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()
            self._end()

    def _end(self) -> None:
        waited, self._job, self._waited = self._waited, None, False
        if waited:
            self.ended.emit()

    def _ask(self) -> None:
        state = self._document.state
        if self.plan is None or state.part is None:
            return
        solid = self._solid[1] if self._solid and self._solid[0] is state.part.mesh else None
        function = partial(_cut, state, self._prepared(state), solid, self.plan)
        self._job = self._jobs.run(function, done=partial(self._done, state), failed=self._fail)

    def _done(self, asked: State, answer: tuple[ClosedPart, Cut]) -> None:
        self._end()
        self._solid = (asked.part.mesh, answer[0])
        self.latest = answer[1]
        self.cut.emit(self.latest)

    def _fail(self, error: ShowsideError) -> None:
        told = self.failed if self._waited else self.refused
        self._end()
        told.emit(str(error))


# --- what runs on a worker: plain functions of frozen values
def _cut(
    state: State,
    prepared: PreparedPart | None,
    solid: ClosedPart | None,
    plan: CutPlan,
    progress: Progress,
) -> tuple[ClosedPart, Cut]:
    if solid is None:
        prepared = prepared or prepare_part(state.part.mesh, progress)
        solid = closed_part(prepared, progress.part(0.0, 0.6))
    return solid, cut_as_planned(state, solid, plan, progress.part(0.6, 1.0))


def _find_worst(
    state: State, prepared: PreparedPart | None, kind: Kind, progress: Progress
) -> tuple[CutPlan, WorstPatch]:
    prepared = prepared or prepare_part(state.part.mesh, progress)
    measures = measure_pose(
        prepared, state.face_classes, state.pose, state.settings, "quick", progress.part(0.1, 0.9)
    )
    patch = worst_patch(
        prepared, state.face_classes, measures.faces, state.pose, state.settings, kind
    )
    return box_around_patch(state, patch), patch


def _find_splits(
    state: State,
    prepared: PreparedPart | None,
    machine: Machine,
    too_large: str,
    progress: Progress,
) -> SplitAdvice:
    prepared = prepared or prepare_part(state.part.mesh, progress)
    room = machine.build_volume_mm if too_large else None
    splits = propose_splits(
        prepared, state.face_classes, state.pose, room, MOST_SPLITS, progress.part(0.0, 0.4)
    )
    solid = closed_part(prepared, progress.part(0.4, 0.5))
    gains = split_gains(
        prepared, solid, state.face_classes, state.pose, state.settings, splits,
        progress.part(0.5, 1.0),
    )  # fmt: skip
    return SplitAdvice(gains, machine.name, too_large)
