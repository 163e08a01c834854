"""Machine, pair, process and number of copies of the job, each chosen from what the shop has."""

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import QComboBox, QLabel, QWidget

from viewer.document.document import Changed, Document
from viewer.errors import RequestProblem
from viewer.shop.job_numbers import choose
from viewer.shop.print_job import why_not_printable
from viewer.shop.shop import Shop
from viewer.shop.shop_choice import MOST_COPIES, ShopChoice
from viewer.window.beside_button import BesideButton
from viewer.window.document_signals import DocumentSignals
from viewer.window.pieces import ChoiceBox, Fields, NumberField, column, text_label
from viewer.words import later, say

TIPS = {
    "machine": later("The machine that prints the job; after a name stands what it lacks."),
    "pair": later("The materials of part and supports, and how the two part."),
    "process": later("Walls, fill, speeds and order of the materials."),
}
TITLES = {"machine": later("Machine"), "pair": later("Pair"), "process": later("Walls and fill")}


class ShopChooser(QWidget):
    """Three lists and a number; every change is one undo step of the document."""

    def __init__(self, document: Document, signals: DocumentSignals) -> None:
        super().__init__()
        self._document, self._shop = document, Shop()
        layout = column(gap=3)
        self.setLayout(layout)
        self.lists: dict[str, QComboBox] = {}
        for field, title in TITLES.items():
            chooser = self.lists[field] = _list(say(title), say(TIPS[field]))
            chooser.activated.connect(self._chosen(field))
            label = QLabel(say(title))
            label.setBuddy(chooser)
            label.setToolTip(say(TIPS[field]))
            layout.addWidget(label)
            layout.addWidget(chooser)
        self.copies = NumberField(
            say("Copies"), "", 1, MOST_COPIES, 0, 1, self._set_copies,
            say("How many are printed at once; time, material and money are those of all."),
        )  # fmt: skip
        fields = Fields()
        fields.add(say("Copies"), self.copies, self.copies.toolTip())
        layout.addWidget(fields)
        self.beside = BesideButton(document, signals)
        layout.addWidget(self.beside)
        self.room = text_label(quiet=True)
        self.room.setToolTip(say("Side by side, boxes a gap apart; the gap is of walls and fill."))
        layout.addWidget(self.room)
        signals.changed.connect(self._document_changed)

    def show_shop(self, shop: Shop) -> None:
        """List what the shop has."""
        self._shop = shop
        self._show()

    def show_room(self, sentence: str) -> None:
        """Say how many copies find room."""
        self.room.setText(sentence)
        self.room.setVisible(bool(sentence))

    # --- the user chooses
    def _chosen(self, field: str) -> Callable[[int], None]:
        def take(place: int) -> None:
            name = self.lists[field].itemData(place)
            choice = self._document.state.shop_choice
            # What was left to the shop so far is shown, and stays what it was.
            kept = {key: box.currentData() or "" for key, box in self.lists.items()}
            self._document.choose_shop(replace(choice, **kept | {field: name}))

        return take

    def _set_copies(self, copies: float) -> None:
        choice = self._document.state.shop_choice
        self._document.choose_shop(replace(choice, copies=int(copies)))

    # --- what is chosen is shown
    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.SHOP | Changed.PART):
            self._show()

    def _show(self) -> None:
        choice, shop = self._document.state.shop_choice, self._shop
        present = _names(shop, choice)
        pair = next((each for each in shop.pairs if each.name == present["pair"]), None)
        things = {"machine": shop.machines, "pair": shop.pairs, "process": shop.processes}
        for field, chooser in self.lists.items():
            blocker = QSignalBlocker(chooser)
            chooser.clear()
            for thing in things[field]:
                text = say(thing.name)
                if field == "machine" and pair is not None and why_not_printable(thing, pair):
                    text = say("{name} – too few materials", name=text)
                chooser.addItem(text, thing.name)
                chooser.setItemData(chooser.count() - 1, text, Qt.ItemDataRole.ToolTipRole)
            name = present[field]
            if name and chooser.findData(name) < 0:
                chooser.addItem(say("{name} – not in this shop", name=name), name)
            chooser.setCurrentIndex(chooser.findData(name))
            chooser.setToolTip(f"{say(TIPS[field])}\n{chooser.currentText()}")
            chooser.view().setMinimumWidth(chooser.view().sizeHintForColumn(0) + 24)
            blocker.unblock()
        self.copies.show_number(choice.copies)


def _names(shop: Shop, choice: ShopChoice) -> dict[str, str]:
    """What is printed with; of a name that the shop lacks the name itself."""
    asked = {"machine": choice.machine, "pair": choice.pair, "process": choice.process}
    try:
        chosen = choose(shop, choice)
    except RequestProblem:
        return asked
    return {
        "machine": chosen.machine.name,
        "pair": chosen.pair.name,
        "process": chosen.process.name,
    }


def _list(name: str, tip: str) -> QComboBox:
    made = ChoiceBox()
    made.setAccessibleName(name)
    made.setToolTip(tip)
    made.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    made.setMinimumContentsLength(8)
    return made
