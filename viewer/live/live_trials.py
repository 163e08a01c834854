"""The trials of shop and job together, what they teach, and the shop's store kept in step."""

from collections import deque
from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.errors import RequestProblem, ShowsideError
from viewer.files.trial_store import StoredTrials, forget_trial, keep_trial, read_stored_trials
from viewer.live.jobs import Job, Jobs
from viewer.live.live_shop import LiveShop
from viewer.progress import Progress
from viewer.shop.job_numbers import Chosen, choose
from viewer.shop.lessons import CLEAN_ONLY, Lesson, lessons, release_lesson
from viewer.shop.trials import Outcome, Trial, known_trials

Step = Callable[[], object]


class LiveTrials(QObject):
    """Listens to the document; a trial of the job goes into the store and out of it as it does.

    A step on the job's trials, and undo and redo of one, is followed in the store. A trial that
    only the shop has is changed there at once; `bring_back` takes that back.

    changed : the trials, or what they teach, are others
    failed : a sentence for the user
    """

    changed = Signal()
    failed = Signal(str)

    def __init__(self, document: Document, jobs: Jobs, live_shop: LiveShop) -> None:
        super().__init__()
        self._document, self._jobs, self._shop = document, jobs, live_shop
        self._stored = StoredTrials()
        self._of_job = document.state.trials
        self._steps: deque[Step] = deque()
        self._job: Job | None = None
        self._before: tuple[str, Trial | None] | None = None
        self._told: tuple[tuple, tuple[Lesson, ...]] | None = None
        self.good: tuple[Outcome, ...] = CLEAN_ONLY
        live_shop.shop_changed.connect(self._tell)
        self._stop_listening = document.listen(self._document_changed)
        self._work()

    # --- reading
    @property
    def known(self) -> tuple[Trial, ...]:
        """Those of shop and job, the oldest first."""
        return known_trials(self._stored.trials, self._document.state.trials)

    @property
    def notes(self) -> tuple[str, ...]:
        """What the store has to say of itself."""
        return self._stored.notes

    @property
    def working(self) -> bool:
        """Whether the store is being read or written."""
        return self._job is not None

    @property
    def can_bring_back(self) -> bool:
        """Whether a change of a trial that only the shop has can be taken back."""
        return self._before is not None

    def in_job(self, key: str) -> bool:
        """Whether the job has that trial."""
        return any(each.key == key for each in self._document.state.trials)

    def chosen(self) -> Chosen | None:
        """Machine, pair, materials and process of the job; None where a name is not there."""
        try:
            return choose(self._shop.shop, self._document.state.shop_choice)
        except RequestProblem:
            return None

    def lessons(self) -> tuple[Lesson, ...]:
        """What they teach about the job's machine, material and pair."""
        chosen, state = self.chosen(), self._document.state
        if chosen is None:
            return ()
        machine, known = chosen.machine.name, self.known
        asked = (known, machine, chosen.materials.model, chosen.pair, state.settings, state.taken,
                 self.good)  # fmt: skip
        if self._told is None or self._told[0] != asked:
            found = lessons(known, machine, chosen.materials.model, state.settings, self.good)
            release = release_lesson(known, machine, chosen.pair, state.taken)
            self._told = asked, found if release is None else (*found, release)
        return self._told[1]

    def set_good(self, good: tuple[Outcome, ...]) -> None:
        """Other outcomes count as having come out."""
        self.good = good
        self._tell()

    # --- changing
    def write_down(self, trial: Trial) -> None:
        """A new trial, or one that was changed."""
        old = next((each for each in self.known if each.key == trial.key), None)
        if old is None or self.in_job(trial.key):
            self._document.write_down_trial(trial)
        else:
            self._before = (trial.key, old)
            self._do(partial(keep_trial, trial))

    def remove(self, key: str) -> None:
        """Forget a trial."""
        if self.in_job(key):
            self._document.remove_trial(key)
            return
        old = next((each for each in self.known if each.key == key), None)
        if old is not None:
            self._before = (key, old)
            self._do(partial(forget_trial, key))

    def bring_back(self) -> None:
        """Take the last change of a trial back that only the shop has."""
        if self._before is not None:
            (_, old), self._before = self._before, None
            self._do(partial(keep_trial, old))

    # --- the store
    def _document_changed(self, what: Changed) -> None:
        if what & Changed.TRIALS:
            before, now = self._of_job, self._document.state.trials
            self._of_job = now
            if not what & Changed.PART:  # another job was opened: its trials are only shown
                self._follow(before, now)
        if what & (Changed.TRIALS | Changed.SHOP | Changed.SETTINGS | Changed.PART):
            self._tell()

    def _follow(self, before: tuple[Trial, ...], now: tuple[Trial, ...]) -> None:
        for gone in {each.key for each in before} - {each.key for each in now}:
            self._do(partial(forget_trial, gone))
        for each in now:
            if each not in before:
                self._do(partial(keep_trial, each))

    def _do(self, step: Step) -> None:
        self._steps.append(step)
        self._work()

    def _work(self) -> None:
        """Do what is to be done on a worker, then read the store anew."""
        if self._job is None:
            self._job = self._jobs.run(partial(_work_off, self._steps), self._read, self._fail)

    def _read(self, stored: StoredTrials) -> None:
        self._job = None
        if self._steps:
            self._work()
            return
        self._stored = stored
        self._tell()

    def _fail(self, error: ShowsideError) -> None:
        """What the job has stays with the job."""
        self._job = None
        self.failed.emit(str(error))
        if self._steps:
            self._work()
        else:
            self._tell()

    def _tell(self, *_: object) -> None:
        self.changed.emit()

    def close(self) -> None:
        """Stop listening; what is still to be written is written now."""
        self._stop_listening()
        if self._job is not None:
            self._job.cancel()
        while self._steps:
            try:
                self._steps.popleft()()
            except ShowsideError as problem:
                self.failed.emit(str(problem))
            except IndexError:  # a worker was quicker
                break


def _work_off(steps: deque[Step], progress: Progress) -> StoredTrials:
    """Runs on a worker's thread. What is to be written is not cancelled halfway."""
    while steps:
        try:
            step = steps.popleft()
        except IndexError:
            break
        step()
    progress.check()
    return read_stored_trials()
