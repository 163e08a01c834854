"""The client sheet and the pack in the window: what is asked for and where it goes."""

from pathlib import Path
from typing import Protocol

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QImage
from PySide6.QtWidgets import QStatusBar
from shiboken6 import isValid

from viewer.document.document import Document
from viewer.errors import ShowsideError
from viewer.files.hand_over import Pack
from viewer.files.made_sheet import MadeSheet
from viewer.files.maker_file import read_maker
from viewer.geometry.support_solids import SupportShape
from viewer.live.jobs import Jobs
from viewer.paper.make_sheet import SheetOrder
from viewer.paper.pages import paint_pages
from viewer.shop.maker import Maker
from viewer.window.choices import Choices
from viewer.window.company_dialog import CompanyDialog
from viewer.window.document_signals import DocumentSignals
from viewer.window.job_keeper import SHOWN_FOR_MS, JobKeeper, plain_name
from viewer.window.notice_bar import NoticeBar
from viewer.window.prompts import Prompts
from viewer.window.sheet_box import SheetBox
from viewer.window.sheet_preview import SheetPreview
from viewer.window.sheet_work import SheetWork
from viewer.window.shop_desk import ShopDesk
from viewer.window.verbs import Verbs, plain
from viewer.words import say


class SheetWindow(Protocol):
    """What the desk needs of the window."""

    document: Document
    signals: DocumentSignals
    choices: Choices
    jobs: Jobs
    shop: ShopDesk
    keeper: JobKeeper
    prompts: Prompts
    notice: NoticeBar

    def statusBar(self) -> QStatusBar:
        """Where short messages go."""


class SheetDesk(QObject):
    """Owns the work, the box of the stage and the dialogs."""

    def __init__(self, window: SheetWindow) -> None:
        super().__init__(window)
        self._window = window
        self._actions: dict[str, QAction] = {}
        self.work = SheetWork(window.jobs)
        self.preview: SheetPreview | None = None
        self.company: CompanyDialog | None = None
        self.box: SheetBox | None = None
        self._printing = False
        self.work.made.connect(self._made)
        self.work.written.connect(self._written)
        self.work.packed.connect(self._packed)

    def verbs(self) -> Verbs:
        """What the menu File > Client sheet does, and Pack."""
        return {
            "sheet_preview": plain(self._look),
            "sheet_save": plain(self._save),
            "sheet_print": plain(self._print),
            "sheet_company": plain(self._ask_company),
            "pack": plain(self._pack),
        }

    def make_box(self, actions: dict[str, QAction]) -> SheetBox:
        """The box for the stage Hand over; once."""
        self._actions = actions
        self.box = SheetBox(self._window.document, self._window.signals, actions)
        return self.box

    def close(self) -> None:
        """Stop what is under way."""
        self.work.close()

    def order(self) -> SheetOrder:
        """What a sheet depends on now."""
        window = self._window
        return SheetOrder(
            window.document.state, window.shop.live.shop, window.shop.live.prints, self._maker(),
            self.box.language, apart=True, print_colour=window.choices.print_colour,
        )  # fmt: skip

    def shape(self) -> SupportShape:
        """Supports with the gap and contact layers of the chosen pair."""
        numbers = self._window.shop.live.latest
        if numbers is None:
            return SupportShape(cell_mm=self.box.cell_mm)
        pair = numbers.chosen.pair
        layers = max(min(pair.contact_layers, 20), 1 if self.box.cell_mm else 0)
        return SupportShape(pair.contact_gap_mm, layers, self.box.cell_mm)

    def _maker(self) -> Maker:
        try:
            return read_maker()
        except ShowsideError as problem:
            self._window.notice.say(str(problem))
            return Maker()

    # --- the sheet
    def _look(self) -> None:
        self._printing = False
        self.work.preview(self.order())

    def _save(self) -> None:
        order = self.order()
        name = f"{plain_name(order.state)}-{say('client-sheet')}.pdf"
        path = self._window.prompts.sheet_to_save(self._window.keeper.folder() / name)
        if path is not None:
            self.work.write(order, path)

    def _print(self) -> None:
        self._printing = True
        self.work.preview(self.order())

    def _made(self, made: MadeSheet, images: list[QImage]) -> None:
        if self._printing:
            self._printing = False
            self._send_to_printer(made)
            return
        if self.preview is None or not isValid(self.preview):
            self.preview = SheetPreview(self._window, self._actions)
        self.preview.show_pages(made, images)
        self.preview.show()
        self.preview.raise_()
        self.preview.activateWindow()

    def _send_to_printer(self, made: MadeSheet) -> None:
        printer = self._window.prompts.printer(f"{made.sheet.title}: {made.sheet.part}")
        if printer is not None:
            count = paint_pages(made, printer)
            self._window.statusBar().showMessage(
                say("Sent to the printer: {count} pages", count=count), SHOWN_FOR_MS
            )

    def _written(self, path: Path) -> None:
        self._window.statusBar().showMessage(say("Written: {path}", path=path), SHOWN_FOR_MS)

    def _ask_company(self) -> None:
        if self.company is None or not isValid(self.company):
            self.company = CompanyDialog(self._window, self._window.prompts, self._maker())
        self.company.show()
        self.company.raise_()
        self.company.activateWindow()

    # --- the pack
    def _pack(self) -> None:
        order = self.order()
        name = f"{plain_name(order.state)}-{say('pack')}.zip"
        path = self._window.prompts.pack_to_save(self._window.keeper.folder() / name)
        if path is None:
            return
        try:
            shape = self.shape()
        except ShowsideError as problem:
            self._window.notice.say(str(problem))
            return
        self.work.pack(order, path, shape)

    def _packed(self, pack: Pack, order: SheetOrder) -> None:
        self._window.choices.set_handed_over(order.state)
        self._window.statusBar().showMessage(
            say(
                "Packed and read back: {count} files in {path}",
                count=len(pack.files) + 1,
                path=pack.path,
            ),
            SHOWN_FOR_MS,
        )
