"""The specimen that is chosen in stage Try: its kind, its steps, and the piece made of them."""

from functools import partial

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.document.job_piece import MOST_PIECES, JobPiece, free_name
from viewer.document.piece_state import specimen_piece
from viewer.errors import ShowsideError
from viewer.geometry.specimens.catalogue import KINDS, make_specimen
from viewer.geometry.specimens.specimen import Specimen
from viewer.live.jobs import Job, Jobs
from viewer.live.live_shop import LiveShop
from viewer.progress import Progress
from viewer.shop.job_numbers import choose
from viewer.shop.usual_steps import usual_steps
from viewer.words import GERMAN, say, spoken_language, written


class SpecimenWork(QObject):
    """Makes the specimen on a worker whenever kind or steps change, while somebody looks.

    changed : kind, steps, the piece or the sentence are others now
    """

    changed = Signal()

    def __init__(self, document: Document, jobs: Jobs, shop: LiveShop) -> None:
        super().__init__()
        self._document, self._jobs, self._shop = document, jobs, shop
        self._job: Job | None = None
        self.kind, self.steps = KINDS[0], ()
        self.by_hand = False
        self.wanted = False
        self.specimen: Specimen | None = None
        self.piece: JobPiece | None = None
        self.sentence = ""
        shop.shop_changed.connect(self._shop_changed)
        self._stop_listening = document.listen(self._document_changed)

    def close(self) -> None:
        """Stop listening and making."""
        self._stop_listening()
        self._stop()

    def set_wanted(self, wanted: bool) -> None:
        """Whether the specimen is to be made and seen."""
        if wanted != self.wanted:
            self.wanted = wanted
            self._begin()

    def choose(self, kind: str) -> None:
        """Another kind of specimen, with the steps that suit machine and pair."""
        self.kind, self.by_hand = kind, False
        self._begin()

    def set_steps(self, text: str) -> None:
        """Other steps, as they are typed: numbers with blanks or semicolons between them."""
        point = "," if spoken_language() == GERMAN else "."
        words = text.replace(";", " ").replace(", ", " ")
        words = words.replace(",", ".") if point == "," else words.replace(",", " ")
        try:
            steps = tuple(float(word) for word in words.split())
        except ValueError:
            self.sentence = say("Give numbers with blanks between them, such as 30 40 50.")
            self.piece = self.specimen = None
            self._stop()
            self.changed.emit()
            return
        if steps != self.steps:
            self.steps, self.by_hand = steps, True
            self._begin()

    def as_usual(self) -> None:
        """The steps that suit machine and pair."""
        self.by_hand = False
        self._begin()

    @property
    def steps_text(self) -> str:
        """The steps as they are typed."""
        return "  ".join(written(step, "g") for step in self.steps)

    def add(self) -> None:
        """Put the specimen on the list of pieces: one undo step."""
        pieces = self._document.state.pieces
        if self.piece is not None and len(pieces) < MOST_PIECES:
            added = self.piece.renamed(free_name(pieces, self.piece.name))
            self._document.set_pieces((*pieces, added), say("Add the specimen"))
            self.set_wanted(False)

    # --- making it
    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART and self._document.state.part is None:
            self.wanted = False
        if what & (Changed.SETTINGS | Changed.SHOP | Changed.PART) and not self.by_hand:
            self._begin()

    def _shop_changed(self, _: object) -> None:
        if not self.by_hand:
            self._begin()

    def _usual(self) -> tuple[float, ...]:
        state = self._document.state
        try:
            chosen = choose(self._shop.shop, state.shop_choice)
        except ShowsideError:
            return ()  # a job from another shop: the usual ones of the catalogue
        return usual_steps(self.kind, chosen, state.settings)

    def _begin(self) -> None:
        self._stop()
        self.piece = self.specimen = None
        self.sentence = ""
        if not self.by_hand:
            self.steps = self._usual()
        if self.wanted:
            function = partial(_make, self.kind, self.steps or None)
            self._job = self._jobs.run(function, done=self._made, failed=self._fail)
        self.changed.emit()

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()
            self._job = None

    def _made(self, specimen: Specimen) -> None:
        self._job = None
        self.specimen, self.piece = specimen, specimen_piece(specimen)
        self.changed.emit()

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.sentence = str(error)
        self.changed.emit()


def _make(kind: str, steps: tuple[float, ...] | None, progress: Progress) -> Specimen:
    """Runs on a worker's thread."""
    progress.report(0.1)
    return make_specimen(kind, steps)
