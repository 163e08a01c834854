"""Compare machines: the pose on every machine and in every pair, each a column with differences."""

from dataclasses import dataclass, replace

from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QHBoxLayout,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from viewer.document.document import Document
from viewer.errors import ShowsideError
from viewer.live.jobs import Job, Jobs
from viewer.live.live_shop import LiveShop, ShopRequest
from viewer.progress import Progress
from viewer.shop.job_numbers import JobNumbers
from viewer.shop.offers import Offer, machine_offers, pair_offers
from viewer.window.offer_rows import ROW_NAMES, offer_cells
from viewer.window.pieces import button, column, text_label
from viewer.words import say

COLUMN_PX, NAME_PX, ROW_PX, HEAD_EDGE_PX = 206, 120, 33, 8


@dataclass(frozen=True, eq=False)
class OffersRequest:
    """What all offers depend on."""

    asked: ShopRequest
    numbers: JobNumbers

    def answer(self, progress: Progress) -> tuple[tuple[Offer, ...], tuple[Offer, ...]]:
        """Machines and pairs; runs on a worker's thread."""
        asked, shop = self.asked, self.asked.shop
        pairs = pair_offers(
            self.numbers, asked.measures, asked.state.settings, shop, asked.prints, progress
        )
        return machine_offers(self.numbers, shop), pairs


class OffersDialog(QDialog):
    """Two tables that follow the numbers of the shop while it is open."""

    def __init__(self, parent: QWidget, document: Document, jobs: Jobs, live: LiveShop) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Compare machines"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.resize(1010, 700)
        self._document, self._jobs, self._live = document, jobs, live
        self._job: Job | None = None
        self._asking = True
        self.machines = OffersTable(say("The same job on every machine"))
        self.pairs = OffersTable(say("The same job with every pair"))
        self.short = text_label()
        self.short.setToolTip(say("What each machine takes more or less than the chosen one."))
        layout = column(gap=8, margins=(12, 12, 12, 12))
        self.setLayout(layout)
        for table in (self.machines, self.pairs):
            layout.addWidget(text_label(table.accessibleName(), heading=True))
            layout.addWidget(table, 1)
            table.itemSelectionChanged.connect(self._show_choose)
        layout.insertWidget(2, self.short)
        tip = say("Print on the machine, or with the pair, of the column")
        self.choose = button(say("Choose this one"), self._choose, tip)
        close = button(say("Close"), self.close)
        line = QHBoxLayout()
        line.addStretch(1)
        for made in (self.choose, close):
            made.setAutoDefault(False)
            line.addWidget(made)
        layout.addLayout(line)
        live.told.connect(self._told)
        self._show_choose()
        self._told(live.latest)

    def _told(self, numbers: JobNumbers | None) -> None:
        self._cancel()
        request = self._live.request()
        if numbers is None or request is None:
            return
        self._job = self._jobs.run(
            OffersRequest(request, numbers).answer, done=self._show, failed=self._fail
        )

    def _show(self, offers: tuple[tuple[Offer, ...], tuple[Offer, ...]]) -> None:
        self._job = None
        machines, pairs = offers
        self.machines.show_offers(machines, lambda offer: say(offer.machine))
        chosen = machines[0].machine
        self.pairs.show_offers(pairs, lambda offer: _pair_title(offer, chosen))
        told = [offer.against.sentence for offer in machines if offer.against is not None]
        self.short.setText("\n".join(told))
        self.short.setVisible(bool(told))
        self._show_choose()

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self.short.setText(str(error))

    # --- choosing
    def _chosen(self) -> Offer | None:
        table = self.pairs if self.pairs.hasFocus() else self.machines
        other = self.machines if table is self.pairs else self.pairs
        return table.chosen or other.chosen

    def _show_choose(self) -> None:
        sender = self.sender()
        for table in (self.machines, self.pairs):  # one column in all
            other = self.pairs if table is self.machines else self.machines
            if sender is table and table.chosen is not None:
                other.clear_quietly()
        offer = self._chosen()
        self.choose.setEnabled(offer is not None and offer.known)

    def _choose(self) -> None:
        offer = self._chosen()
        if offer is not None and offer.known:
            choice = self._document.state.shop_choice
            self._document.choose_shop(replace(choice, machine=offer.machine, pair=offer.pair))

    def _cancel(self) -> None:
        if self._job is not None:
            self._job.cancel()
        self._job = None

    def done(self, result: int) -> None:
        """Stop asking, also for what is told before Qt has deleted this."""
        if self._asking:
            self._asking = False
            self._live.told.disconnect(self._told)
        self._cancel()
        super().done(result)


def _pair_title(offer: Offer, chosen: str) -> str:
    """The pair, and below it the machine where the chosen one cannot print it."""
    if offer.machine == chosen or offer.made is None:
        return say(offer.pair)
    return f"{say(offer.pair)}\n{say(offer.machine)}"


class OffersTable(QTableWidget):
    """A row for each number, a column for each offer; columns are chosen as a whole."""

    def __init__(self, name: str) -> None:
        super().__init__(len(ROW_NAMES), 0)
        self._offers: tuple[Offer, ...] = ()
        self.setAccessibleName(name)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectColumns)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setVerticalHeaderLabels([say(name) for name, _ in ROW_NAMES])
        for row, (_, explanation) in enumerate(ROW_NAMES):
            self.verticalHeaderItem(row).setToolTip(say(explanation))
        self.verticalHeader().setMinimumWidth(NAME_PX)
        self.verticalHeader().setDefaultSectionSize(ROW_PX)

    @property
    def chosen(self) -> Offer | None:
        """The offer of the chosen column."""
        picked = self.selectionModel().selectedIndexes()
        return self._offers[picked[0].column()] if picked else None

    def clear_quietly(self) -> None:
        """Choose no column, without telling."""
        blocked = self.blockSignals(True)
        self.selectionModel().select(
            self.selectionModel().selection(), QItemSelectionModel.SelectionFlag.Deselect
        )
        self.blockSignals(blocked)

    def show_offers(self, offers: tuple[Offer, ...], name_of) -> None:
        """Write everything anew."""
        self._offers = offers
        self.setColumnCount(len(offers))
        self.setHorizontalHeaderLabels([self._broken(name_of(offer)) for offer in offers])
        for across, offer in enumerate(offers):
            self.setColumnWidth(across, COLUMN_PX)
            self.horizontalHeaderItem(across).setToolTip(name_of(offer))
            for down, cell in enumerate(offer_cells(offer)):
                item = QTableWidgetItem(cell.text)
                item.setToolTip(cell.tip)
                title = f"{say(ROW_NAMES[down][0])}, {name_of(offer)}: {cell.text}"
                item.setData(Qt.ItemDataRole.AccessibleTextRole, title)
                self.setItem(down, across, item)

    def _broken(self, name: str) -> str:
        """The name, in two lines where one is too narrow for it."""
        bold = QFont(self.font())
        bold.setBold(True)
        room, lines = COLUMN_PX - 2 * HEAD_EDGE_PX, []
        for line in name.split("\n"):
            spaces = [place for place, sign in enumerate(line) if sign == " "]
            if spaces and QFontMetrics(bold).horizontalAdvance(line) > room:
                middle = min(spaces, key=lambda place: abs(place - len(line) / 2))
                lines += [line[:middle], line[middle + 1 :]]
            else:
                lines.append(line)
        return "\n".join(lines)
