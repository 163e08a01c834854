"""What layers of different heights would do for the present pose, while somebody looks at it."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.errors import ShowsideError
from viewer.geometry.adaptive_layers import AdaptiveLayers, adapt_layers
from viewer.geometry.pose_measures import PoseMeasures
from viewer.live.jobs import Job, Jobs
from viewer.live.live_measures import MEASURED, LiveMeasures


@dataclass(frozen=True)
class LayersAsked:
    """cusp_limit_mm : on class A; thinnest_mm, thickest_mm : what the machine can lay

    The heights are common for a nozzle of 0.4 mm: a fifth to four fifths of it (common practice,
    no source).
    """

    cusp_limit_mm: float = 0.05
    thinnest_mm: float = 0.08
    thickest_mm: float = 0.32


class LiveLayers(QObject):
    """Listens to the measures, so that it asks only about poses at rest.

    told : AdaptiveLayers of the present pose, or None where they are not known (yet)
    refused : a sentence for the user about heights that make no sense
    """

    told = Signal(object)
    refused = Signal(str)

    def __init__(self, document: Document, jobs: Jobs, live_measures: LiveMeasures) -> None:
        super().__init__()
        self._document, self._jobs, self._live = document, jobs, live_measures
        self._job: Job | None = None
        self.asked, self.wanted = LayersAsked(), False
        self.latest: AdaptiveLayers | None = None
        live_measures.measured.connect(self._measured)
        self._stop_listening = document.listen(self._document_changed)

    def set_wanted(self, wanted: bool) -> None:
        """Whether somebody looks."""
        if wanted != self.wanted:
            self.wanted = wanted
            self._ask()

    def ask_for(self, asked: LayersAsked) -> None:
        """Other limits."""
        if asked != self.asked:
            self.asked = asked
            self._tell(None)
            self._ask()

    def adapting(self) -> Callable[..., AdaptiveLayers] | None:
        """The function that works them out for the present pose, given a `progress`.

        None where the part is not ready to be measured.
        """
        state, part, asked = self._document.state, self._live.prepared, self.asked
        if part is None or len(part.faces) != len(state.face_classes):
            return None
        return partial(
            adapt_layers,
            part,
            state.face_classes,
            state.pose.up,
            state.settings,
            asked.cusp_limit_mm,
            asked.thinnest_mm,
            asked.thickest_mm,
        )

    def close(self) -> None:
        """Stop listening and asking."""
        self._stop_listening()
        self._stop()

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()
            self._job = None

    def _document_changed(self, what: Changed) -> None:
        if what & MEASURED:
            self._stop()
            self._tell(None)

    def _measured(self, measures: PoseMeasures | None) -> None:
        if measures is not None and measures.tier == "full" and self.latest is None:
            self._ask()

    def _ask(self) -> None:
        self._stop()
        adapting = self.adapting()
        if self.wanted and self.latest is None and adapting is not None:
            self._job = self._jobs.run(adapting, done=self._done, failed=self._fail)

    def _done(self, found: AdaptiveLayers) -> None:
        self._job = None
        self._tell(found)

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.refused.emit(str(error))

    def _tell(self, found: AdaptiveLayers | None) -> None:
        self.latest = found
        self.told.emit(found)
