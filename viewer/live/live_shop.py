"""What the shop says about the present pose, told each time the part was measured at rest."""

from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from viewer.document.beside_pieces import reckoned_beside
from viewer.document.document import Changed, Document
from viewer.document.state import State
from viewer.errors import RequestProblem, ShowsideError
from viewer.files.shop_folder import read_finished_prints, read_user_shop
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.live.jobs import Job, Jobs
from viewer.live.live_measures import LiveMeasures
from viewer.progress import Progress
from viewer.shop.calibrate import FinishedPrint
from viewer.shop.job_numbers import JobNumbers, choose, job_numbers
from viewer.shop.shop import Shop
from viewer.shop.taken_limits import pair_with
from viewer.shop.touch_weight import TouchWorth, touch_worth


@dataclass(frozen=True, eq=False)
class ShopRequest:
    """Everything the shop's numbers depend on."""

    state: State
    pose: Pose
    measures: PoseMeasures
    shop: Shop
    prints: tuple[FinishedPrint, ...]

    def answer(self, progress: Progress) -> JobNumbers:
        """Work them out; runs on a worker's thread."""
        state = self.state
        return job_numbers(
            state.part.mesh,
            state.face_classes,
            self.pose,
            state.settings,
            self.measures,
            self.shop,
            state.shop_choice,
            self.prints,
            progress,
            reckoned_beside(state, progress),
        )


class LiveShop(QObject):
    """Listens to the measures and to the choice of the document.

    told : JobNumbers of the present pose, or None where it is not measured at rest yet; kept in
        `latest`, and its pose in `latest_pose`
    pinned_told : JobNumbers of the pinned pose, or None
    shop_changed : Shop, read anew
    failed : a sentence for the user
    """

    told = Signal(object)
    pinned_told = Signal(object)
    shop_changed = Signal(object)
    failed = Signal(str)

    def __init__(self, document: Document, jobs: Jobs, measures: LiveMeasures) -> None:
        super().__init__()
        self._document, self._jobs, self._measures = document, jobs, measures
        self._running: dict[str, Job | None] = {"present": None, "pinned": None}
        self._asked: dict[str, ShopRequest] = {}
        self._told_from: ShopRequest | None = None
        self.latest: JobNumbers | None = None
        self.pinned: JobNumbers | None = None
        self.shop, self.prints = Shop(), ()
        self.read_again()
        measures.measured.connect(self._measured)
        measures.pinned_measured.connect(self._pinned_measured)
        self._stop_listening = document.listen(self._document_changed)

    @property
    def latest_pose(self) -> Pose | None:
        """The pose that `latest` is of."""
        return None if self._told_from is None else self._told_from.pose

    @property
    def asking(self) -> bool:
        """Whether numbers of the present pose are being worked out."""
        return self._running["present"] is not None

    def touch_worth(self) -> TouchWorth | None:
        """How much worse a touched face of the chosen pair is than a clean one; None for none."""
        try:
            state = self._document.state
            return touch_worth(pair_with(choose(self.shop, state.shop_choice).pair, state.taken))
        except RequestProblem:
            return None

    def read_again(self) -> None:
        """Read the user's shop and finished prints from disk; for the start and after a change."""
        self.shop = read_user_shop()
        try:
            self.prints = read_finished_prints()
        except ShowsideError as problem:
            self.prints = ()
            self.failed.emit(str(problem))
        self.shop_changed.emit(self.shop)
        self._ask_again()

    def request(self) -> ShopRequest | None:
        """What `latest` was told from, for whoever asks further; None where nothing is known."""
        return self._told_from if self.latest is not None else None

    def close(self) -> None:
        """Stop listening and asking."""
        self._stop_listening()
        for name in self._running:
            self._cancel(name)

    def _document_changed(self, what: Changed) -> None:
        beside = self._document.state.shop_choice.beside
        if what & Changed.SHOP or (beside and what & Changed.PIECES):
            self._ask_again()

    def _ask_again(self) -> None:
        self._measured(self._measures.latest)
        self._pinned_measured(self._measures.pinned)

    def _measured(self, measures: PoseMeasures | None) -> None:
        """Quick numbers have no layers: what was told last stays until the part lies still."""
        if measures is None:
            self._cancel("present")
            self._tell(None)
        elif measures.profile is not None:
            self._ask("present", self._document.state.pose, measures, self._tell)

    def _pinned_measured(self, measures: PoseMeasures | None) -> None:
        pinned = self._document.state.pinned_pose
        if measures is None or pinned is None or measures.profile is None:
            self._cancel("pinned")
            self._tell_pinned(None)
        else:
            self._ask("pinned", pinned, measures, self._tell_pinned)

    def _ask(self, name: str, pose: Pose, measures: PoseMeasures, tell) -> None:
        self._cancel(name)
        request = ShopRequest(self._document.state, pose, measures, self.shop, self.prints)
        self._asked[name] = request
        if request.state.part is not None:
            self._running[name] = self._jobs.run(
                request.answer, done=tell, failed=self._fail, priority=1
            )

    def _cancel(self, name: str) -> None:
        job = self._running[name]
        if job is not None:
            job.cancel()
        self._running[name] = None

    def _tell(self, numbers: JobNumbers | None) -> None:
        self._running["present"] = None
        self.latest = numbers
        self._told_from = None if numbers is None else self._asked["present"]
        self.told.emit(numbers)

    def _tell_pinned(self, numbers: JobNumbers | None) -> None:
        self._running["pinned"] = None
        self.pinned = numbers
        self.pinned_told.emit(numbers)

    def _fail(self, error: ShowsideError) -> None:
        self.failed.emit(str(error))
