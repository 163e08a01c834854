"""Time, mass and money of each piece of the job, worked out one after the other."""

from functools import partial

from PySide6.QtCore import QObject, Signal

from viewer.document.beside_pieces import laid_bodies
from viewer.document.document import Changed, Document
from viewer.document.job_piece import JobPiece
from viewer.errors import ShowsideError
from viewer.live.jobs import Job, Jobs
from viewer.live.live_shop import LiveShop
from viewer.progress import Progress
from viewer.shop.piece_numbers import (
    PieceNumbers,
    Printing,
    numbers_of_bodies,
    numbers_of_cut,
)


class LivePieces(QObject):
    """Listens to the document and the shop.

    told : the numbers of a piece (JobPiece) are known, or no longer
    """

    told = Signal()

    def __init__(self, document: Document, jobs: Jobs, live_shop: LiveShop) -> None:
        super().__init__()
        self._document, self._jobs, self._shop = document, jobs, live_shop
        self._known: dict[JobPiece, PieceNumbers] = {}
        self._about: Printing | None = None
        self._more: tuple[JobPiece, ...] = ()
        self._job: Job | None = None
        live_shop.shop_changed.connect(self._look_again)
        self._stop_listening = document.listen(self._document_changed)

    def numbers_of(self, piece: JobPiece) -> PieceNumbers | None:
        """What a piece takes, None while that is not known."""
        return self._known.get(piece)

    def look_at(self, pieces: tuple[JobPiece, ...]) -> None:
        """Also work out what pieces take that are not of the job yet."""
        if pieces != self._more:
            self._more = pieces
            self._ask()

    def close(self) -> None:
        """Stop listening and asking."""
        self._stop_listening()
        self._stop()

    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.PIECES | Changed.SETTINGS | Changed.SHOP | Changed.PART):
            self._ask()

    def _look_again(self, *_: object) -> None:
        self._known.clear()
        self._ask()

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()
            self._job = None

    def _ask(self) -> None:
        state = self._document.state
        printing = Printing(state.settings, self._shop.shop, state.shop_choice, self._shop.prints)
        if printing != self._about:
            self._stop()
            self._known.clear()
            self._about = printing
        wanted = (*self._more, *state.pieces)
        for piece in set(self._known) - set(wanted):
            del self._known[piece]
        unknown = next((piece for piece in wanted if piece not in self._known), None)
        if unknown is not None and self._job is None:
            self._job = self._jobs.run(
                partial(_numbers, unknown, printing),
                done=partial(self._done, unknown),
                failed=partial(self._fail, unknown),
            )
        self.told.emit()

    def _done(self, piece: JobPiece, numbers: PieceNumbers) -> None:
        self._job = None
        self._known[piece] = numbers
        self._ask()

    def _fail(self, piece: JobPiece, error: ShowsideError) -> None:
        self._done(piece, PieceNumbers(None, str(error)))


def _numbers(piece: JobPiece, printing: Printing, progress: Progress) -> PieceNumbers:
    """Runs on a worker's thread."""
    if piece.source == "cut":
        body = piece.bodies[0]
        return numbers_of_cut(body.mesh, body.face_classes, piece.pose, printing, progress)
    return numbers_of_bodies(laid_bodies(piece), printing, progress)
