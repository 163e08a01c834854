"""Client sheets and packs made beside the window, with progress and cancel."""

from functools import partial
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtGui import QImage

from viewer.files.hand_over import Pack
from viewer.files.made_sheet import MadeSheet
from viewer.geometry.support_solids import SupportShape
from viewer.live.jobs import Jobs
from viewer.paper.make_pack import make_pack
from viewer.paper.make_sheet import SheetOrder, make_sheet, write_sheet
from viewer.paper.pages import page_images
from viewer.progress import Progress
from viewer.window.one_job import OneJob
from viewer.words import say

PREVIEW_DPI = 110
Previewed = tuple[MadeSheet, list[QImage]]


class SheetWork(OneJob):
    """What was made last is kept for its order. Further signals than those of `OneJob`:

    made : MadeSheet and its pages as pictures; written : a path; packed : Pack and its order
    """

    made = Signal(object, object)
    written = Signal(object)
    packed = Signal(object, object)

    def __init__(self, jobs: Jobs) -> None:
        super().__init__(jobs)
        self._known: tuple[SheetOrder, MadeSheet] | None = None

    def close(self) -> None:
        """Stop what is under way; no file is left of it."""
        self._stop()
        self._known = None

    def preview(self, order: SheetOrder) -> None:
        """Make the sheet and its pages."""
        self._run(partial(_preview, order, self._of(order)), say("Client sheet"), self._previewed)

    def write(self, order: SheetOrder, path: Path) -> None:
        """Write the sheet; the suffix names the kind."""

        def done(made: MadeSheet) -> None:
            self._known = (order, made)
            self.written.emit(path)

        doing = say("Writing {name}", name=path.name)
        self._run(partial(_write, order, self._of(order), path), doing, done)

    def pack(self, order: SheetOrder, path: Path, shape: SupportShape) -> None:
        """Write everything into a folder or zip."""

        def done(pack: Pack) -> None:
            self.packed.emit(pack, order)

        doing = say("Writing {name}", name=path.name)
        self._run(partial(_pack, order, path, shape), doing, done)

    def _of(self, order: SheetOrder) -> MadeSheet | None:
        """The sheet, where nothing it depends on has changed since it was made."""
        if self._known is None:
            return None
        before, made = self._known
        same = (
            before.state is order.state
            and before.shop is order.shop
            and before.prints is order.prints
            and before.maker == order.maker
            and before.language == order.language
            and before.print_colour == order.print_colour
        )
        return made if same else None

    def _previewed(self, found: tuple[SheetOrder, MadeSheet, list[QImage]]) -> None:
        order, made, images = found
        self._known = (order, made)
        self.made.emit(made, images)


# --- what runs on a worker: plain functions of frozen values
def _preview(
    order: SheetOrder, known: MadeSheet | None, progress: Progress
) -> tuple[SheetOrder, MadeSheet, list[QImage]]:
    made = known or make_sheet(order, progress.part(0.0, 0.95))
    progress.check()
    return order, made, page_images(made, PREVIEW_DPI)


def _write(order: SheetOrder, known: MadeSheet | None, path: Path, progress: Progress) -> MadeSheet:
    made = known or make_sheet(order, progress.part(0.0, 0.95))
    write_sheet(made, path, progress.part(0.95, 1.0))
    return made


def _pack(order: SheetOrder, path: Path, shape: SupportShape, progress: Progress) -> Pack:
    return make_pack(order, path, shape, progress)
