"""Everything of the shop in the window: live numbers, the fold, its dialogs, its actions."""

from dataclasses import replace

import numpy as np
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QDialog, QFrame, QVBoxLayout
from shiboken6 import isValid

from viewer.document.document import Changed, Document
from viewer.live.jobs import Jobs
from viewer.live.live_measures import LiveMeasures
from viewer.live.live_prices import LivePrices
from viewer.live.live_shop import LiveShop
from viewer.shop.looked import Risk
from viewer.window.choices import Choices
from viewer.window.document_signals import DocumentSignals
from viewer.window.height_strip import HeightStrip
from viewer.window.machine_link import MachineLink
from viewer.window.offers_dialog import OffersDialog
from viewer.window.panels.numbers_panel import NumbersPanel
from viewer.window.part_view import PartView
from viewer.window.prints_dialog import PrintsDialog
from viewer.window.shop_column import ShopColumn
from viewer.window.side_panels import ColumnScroll
from viewer.window.things_dialog import ThingsDialog
from viewer.window.verbs import Verbs, plain
from viewer.words import say


class ShopDesk(QObject):
    """Makes `LiveShop`, and lets go of it in `close`.

    touch_told : TouchWorth of the chosen pair, or None
    """

    touch_told = Signal(object)

    def __init__(
        self,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        jobs: Jobs,
        live_measures: LiveMeasures,
    ) -> None:
        super().__init__()
        self._document, self._signals, self._choices = document, signals, choices
        self._measures, self._jobs = live_measures, jobs
        self.live = LiveShop(document, jobs, live_measures)
        self.prices = LivePrices(document, jobs, self.live)
        self.column: ShopColumn | None = None
        self.things: ThingsDialog | None = None
        self.offers: OffersDialog | None = None
        self.prints: PrintsDialog | None = None
        self.scene: MachineLink | None = None
        self._actions: dict[str, QAction] = {}

    def verbs(self) -> Verbs:
        """What the menu Shop does."""
        return {
            "shop_numbers": lambda checked: self.column.set_open(checked),
            "shop_things": plain(self.open_things),
            "compare_machines": plain(self.compare),
            "finished_prints": plain(self.open_prints),
            "turn_to_fit": plain(self.turn_to_fit),
            "pieces_beside": plain(self.choose_beside),
        }

    def build(self, numbers: NumbersPanel, actions: dict[str, QAction]) -> QFrame:
        """The column at the right: numbers, and below them the fold of the shop."""
        self._actions = actions
        self.column = ShopColumn(self._document, self._signals, self._measures, self.live, actions)
        right = QFrame()
        right.setProperty("edge", "right")
        layout = QVBoxLayout(right)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(ColumnScroll(numbers), 1)
        layout.addWidget(self.column)
        # Opened, the fold shares the column with the numbers: both may scroll.
        self.column.opened_changed.connect(
            lambda opened: layout.setStretchFactor(self.column, 2 if opened else 0)
        )
        self.column.opened_changed.connect(actions["shop_numbers"].setChecked)
        self.live.told.connect(self.refresh)
        self._signals.changed.connect(self.refresh)
        self.live.shop_changed.connect(self._tell_touch)
        self._signals.changed.connect(self._tell_touch)
        self.refresh()
        return right

    def show_in(self, view: PartView, strip: HeightStrip) -> None:
        """Show the chosen machine in the scene, and there or in the strip where a risk sits."""
        both = (self._document, self._signals)
        self.scene = MachineLink(view, *both, self._choices, self._jobs, self.live)
        self.scene.planned.connect(self.column.show_plan)
        self.column.risks.chosen.connect(lambda risk: self._show_risk(risk, view, strip))

    def _tell_touch(self, what: object = Changed.SHOP) -> None:
        if not isinstance(what, Changed) or what & (Changed.SHOP | Changed.TRIALS):
            self.touch_told.emit(self.live.touch_worth())

    def refresh(self, *_: object) -> None:
        """Enable what can be done with the numbers told last."""
        self._actions["turn_to_fit"].setEnabled(self._spin_to_fit() is not None)

    def choose_beside(self) -> None:
        """Open the fold and list the test pieces that can stand beside the part."""
        self.column.set_open(True)
        self.column.chooser.beside.setFocus()
        self.column.chooser.beside.open_menu()

    def open_things(self) -> None:
        """The form for machines, materials, pairs and processes, at the machine of the job."""
        if self.things is None or not isValid(self.things):
            self.things = ThingsDialog(self.column.window())
            self.things.saved.connect(self.live.read_again)
            numbers = self.live.latest
            if numbers is not None:
                self.things.show_thing("machines", numbers.chosen.machine.name)
        _bring_up(self.things)

    def compare(self) -> None:
        """The same job on every machine and with every pair, side by side."""
        if self.offers is None or not isValid(self.offers):
            self.offers = OffersDialog(self.column.window(), self._document, self._jobs, self.live)
        _bring_up(self.offers)

    def open_prints(self) -> None:
        """Finished prints: note one, list them, see how they correct the estimate."""
        if self.prints is None or not isValid(self.prints):
            self.prints = PrintsDialog(self.column.window(), self._document, self.live)
            self.prints.noted.connect(self.live.read_again)
        _bring_up(self.prints)

    def _show_risk(self, risk: Risk, view: PartView, strip: HeightStrip) -> None:
        """Fly to the place of a risk, or cut the part open at its height."""
        if risk.place_mm is not None:
            radius_mm = 0.1 * view.scene.part_size_mm
            view.fly_to(np.array(risk.place_mm), radius_mm, np.zeros(3))
        elif self._measures.latest is not None:
            layer = int(risk.from_mm / self._document.state.settings.layer_mm)
            strip.choose(min(layer, self._measures.latest.layers - 1))

    def turn_to_fit(self) -> None:
        """Spin the part until it fits the chosen machine; one undo step."""
        spin_deg = self._spin_to_fit()
        if spin_deg is not None:
            pose = replace(self._document.state.pose, spin_deg=spin_deg)
            self._document.turn(pose, say("Turn to fit"))

    def _spin_to_fit(self) -> float | None:
        """The nearest spin at which it fits, None where it fits as it is laid or not at all."""
        numbers = self.live.latest
        if numbers is None or self.live.latest_pose != self._document.state.pose:
            return None  # the numbers are of another pose still
        fit = numbers.fits[numbers.chosen.machine.name]
        return fit.spin_deg if fit.fits and fit.why else None

    def close(self) -> None:
        """Stop listening and asking."""
        # An answer that is on its way would still be heard, when the actions are deleted already.
        self.live.told.disconnect(self.refresh)
        self._signals.changed.disconnect(self.refresh)
        self.scene.close()
        self.prices.close()
        self.live.close()


def _bring_up(dialog: QDialog) -> None:
    dialog.show()
    dialog.raise_()
    dialog.activateWindow()
