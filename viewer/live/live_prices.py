"""The shop's numbers of several poses at once, worked out one after the other beside the window."""

from collections.abc import Mapping
from functools import partial
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.errors import ShowsideError
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.live.jobs import Job, Jobs
from viewer.live.live_shop import LiveShop, ShopRequest
from viewer.live.machine_requests import machine_request
from viewer.progress import Progress
from viewer.shop.job_numbers import JobNumbers
from viewer.shop.machine_answer import MachineAnswer


class Priced(NamedTuple):
    """What the shop says about one pose, and what a picture of its machine has to know."""

    numbers: JobNumbers
    machine: MachineAnswer


class LivePrices(QObject):
    """Knows the numbers of each pose that is wanted, or asks for them.

    found : an answer is there, or all answers were forgotten; look at `of`
    """

    found = Signal()

    def __init__(self, document: Document, jobs: Jobs, shop: LiveShop) -> None:
        super().__init__()
        self._document, self._jobs, self._shop = document, jobs, shop
        self._wanted: dict[Pose, PoseMeasures] = {}
        self._answers: dict[Pose, tuple[PoseMeasures, Priced]] = {}
        self._job: Job | None = None
        shop.shop_changed.connect(self._forget)
        self._stop_listening = document.listen(self._document_changed)

    def set_wanted(self, wanted: Mapping[Pose, PoseMeasures]) -> None:
        """Poses somebody looks at with their full measures; none stops asking and forgets."""
        same = wanted.keys() == self._wanted.keys() and all(
            wanted[pose] is self._wanted[pose] for pose in wanted
        )
        if same:
            return
        self._wanted = dict(wanted)
        self._answers = {
            pose: known for pose, known in self._answers.items() if wanted.get(pose) is known[0]
        }
        self._stop()
        self._ask()

    def of(self, pose: Pose) -> Priced | None:
        """The answer for a pose that is wanted, None until it is there."""
        known = self._answers.get(pose)
        return None if known is None else known[1]

    @property
    def pending(self) -> bool:
        """Whether an answer is still missing."""
        return len(self._answers) < len(self._wanted)

    def close(self) -> None:
        """Stop listening and asking."""
        self._stop_listening()
        self._stop()
        self._wanted = {}

    def _document_changed(self, what: Changed) -> None:
        beside = self._document.state.shop_choice.beside
        if what & Changed.SHOP or (beside and what & Changed.PIECES):
            self._forget()

    def _forget(self, *_: object) -> None:
        self._stop()
        self._answers.clear()
        if self._wanted:
            self.found.emit()
            self._ask()

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()
            self._job = None

    def _ask(self) -> None:
        """Work out the next pose that is not known."""
        missing = next((pose for pose in self._wanted if pose not in self._answers), None)
        if missing is None or self._document.state.part is None:
            return
        measures = self._wanted[missing]
        request = ShopRequest(
            self._document.state, missing, measures, self._shop.shop, self._shop.prints
        )
        self._job = self._jobs.run(
            partial(_priced, request),
            done=partial(self._answered, missing, measures),
            failed=self._fail,
        )

    def _answered(self, pose: Pose, measures: PoseMeasures, priced: Priced) -> None:
        self._job = None
        if self._wanted.get(pose) is measures:
            self._answers[pose] = (measures, priced)
            self.found.emit()
        self._ask()

    def _fail(self, _error: ShowsideError) -> None:
        self._job = None  # LiveShop says so of the present pose


def _priced(request: ShopRequest, progress: Progress) -> Priced:
    """Runs on a worker's thread."""
    numbers = request.answer(progress)
    asked = machine_request(request.state, request.pose, numbers, request.measures)
    return Priced(numbers, asked.answer(progress))
