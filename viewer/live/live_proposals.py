"""Which test pays, worked out beside the window while somebody looks, as pieces ready to take."""

from dataclasses import dataclass, replace
from functools import partial

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.document.job_piece import JobPiece
from viewer.document.piece_state import cut_piece, specimen_piece
from viewer.document.state import State
from viewer.errors import RequestProblem, ShowsideError
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart
from viewer.live.jobs import Job, Jobs
from viewer.live.live_measures import LiveMeasures
from viewer.live.live_shop import LiveShop
from viewer.live.live_trials import LiveTrials
from viewer.progress import Progress
from viewer.shop.open_points import Asked
from viewer.shop.packing import Footprint, Placed, pack
from viewer.shop.piece_numbers import Printing
from viewer.shop.trial_steps import PIECE_NAMES
from viewer.shop.which_test import Candidate, Proposal, propose_tests
from viewer.words import say, written


@dataclass(frozen=True, eq=False)
class Proposals:
    """What pays, best first.

    pieces : the piece of each proposal; places : where they stand together on the machine's
        platform, () where they do not find room; problem : why not
    """

    proposals: tuple[Proposal, ...]
    pieces: tuple[JobPiece, ...]
    places: tuple[Placed, ...] = ()
    problem: str = ""

    @property
    def time_s(self) -> float:
        """Likely printing time of all, one after the other."""
        return sum(each.time_s for each in self.proposals)


class LiveProposals(QObject):
    """Asks anew while it is `watched` and the shop has told of the pose at rest.

    told : Proposals, or None while they are not known; kept in `latest`
    failed : a sentence for the user
    """

    told = Signal(object)
    failed = Signal(str)

    def __init__(
        self, document: Document, jobs: Jobs, measures: LiveMeasures, shop: LiveShop,
        trials: LiveTrials,
    ) -> None:  # fmt: skip
        super().__init__()
        self._document, self._jobs, self._measures = document, jobs, measures
        self._shop, self._trials = shop, trials
        self._job: Job | None = None
        self._asked: tuple | None = None
        self.watched = False
        self.latest: Proposals | None = None
        shop.told.connect(self._ask)
        trials.changed.connect(self._ask)
        self._stop_listening = document.listen(self._document_changed)

    def watch(self, wanted: bool) -> None:
        """Work it out from now on, or no longer."""
        self.watched = wanted
        if wanted:
            self._ask()
        elif self._job is not None:  # what is known stays known
            self._stop()

    @property
    def working(self) -> bool:
        """Whether it is being worked out."""
        return self._job is not None

    def close(self) -> None:
        """Stop listening and asking."""
        self.watched = False
        self._stop_listening()
        self._stop()

    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.PART | Changed.CLASSES | Changed.POSE | Changed.SETTINGS | Changed.SHOP):
            self._stop()
            self._tell(None)

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()
        self._job = self._asked = None

    def _ask(self, *_: object) -> None:
        state, measures, numbers = self._document.state, self._measures.latest, self._shop.latest
        prepared, chosen = self._measures.prepared, self._trials.chosen()
        known = numbers is not None and self._shop.latest_pose == state.pose
        if not self.watched or not known or state.part is None or chosen is None:
            return
        if measures is None or measures.profile is None or prepared is None:
            return
        shown = 0 if measures.faces is None else len(measures.faces.terrace_counts)
        if not shown == len(prepared.faces) == len(state.face_classes):
            return  # marks were cut finer or undone, and the part is not measured anew yet
        asked = (measures, state.face_classes, chosen, self._trials.known, state.taken,
                 self._trials.good)  # fmt: skip
        if self._asked is not None and _same(asked, self._asked):
            return
        self._stop()
        self._asked = asked
        request = partial(
            _answer, state, prepared, measures, chosen, numbers.risks, self._trials.known,
            self._trials.good,
            Printing(state.settings, self._shop.shop, state.shop_choice, self._shop.prints),
        )  # fmt: skip
        self._job = self._jobs.run(request, self._done, self._fail)
        self._tell(None)

    def _done(self, proposals: Proposals) -> None:
        self._job = None
        self._tell(proposals)

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.failed.emit(str(error))
        self._tell(Proposals((), ()))

    def _tell(self, proposals: Proposals | None) -> None:
        self.latest = proposals
        self.told.emit(proposals)


def _same(first: tuple, second: tuple) -> bool:
    """Large things are the same or not; small ones are compared."""
    large = all(a is b for a, b in zip(first[:2], second[:2], strict=True))
    return large and first[2:] == second[2:]


def _answer(
    state: State, prepared: PreparedPart, measures: PoseMeasures, chosen, risks, trials, good,
    printing: Printing, progress: Progress,
) -> Proposals:  # fmt: skip
    """Runs on a worker's thread."""
    asked = Asked(
        prepared, state.face_classes, state.pose, state.settings, chosen, trials, state.taken,
        measures, risks, good,
    )  # fmt: skip
    found = propose_tests(asked, printing, progress)
    pieces = tuple(piece_of(state, each.best, each.sentence) for each in found)
    try:
        places = pack([footprint(each) for each in pieces], chosen.machine)
    except RequestProblem as problem:
        return Proposals(found, pieces, problem=str(problem))
    return Proposals(found, pieces, places)


def piece_of(state: State, candidate: Candidate, note: str) -> JobPiece:
    """A candidate as a piece of the job, its steps in its name."""
    name = say(PIECE_NAMES[candidate.kind])
    if candidate.specimen is None:
        return cut_piece(state, candidate.cut, name, "worst", note=note)
    ends = (candidate.values[0], candidate.values[-1])
    name += " " + " – ".join(written(value, "g") for value in ends)
    return replace(specimen_piece(candidate.specimen), name=name, note=note)


def footprint(piece: JobPiece) -> Footprint:
    """What a piece takes of a platform as it stands."""
    width, depth, height = (float(each) for each in piece.size_mm)
    return Footprint(piece.name, (width, depth), height)
