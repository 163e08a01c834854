"""Client sheet and pack in the stage Hand over: for whom, in which language, and what is made."""

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QLineEdit, QWidget

from viewer.document.document import Changed, Document
from viewer.window.document_signals import DocumentSignals
from viewer.window.pieces import (
    ActionButton,
    ChoiceBox,
    Fields,
    NumberField,
    column,
    rule,
    text_label,
)
from viewer.window.recent_files import settings
from viewer.words import LANGUAGES, later, say

_LANGUAGE, _CELL = "sheet_language", "support_cell_mm"
CLIENT_TIP = later("Who the part is printed for; stands on the sheet and is kept in the job")
LANGUAGE_TIP = later("In which language the sheet is written, whatever the window speaks")
THIN_TIP = later(
    "Width of upright cells by which the bulk of the supports is thinned, between walls of 0.8 mm; "
    "0 leaves it whole. The layers next to the part stay whole."
)
PACKED = later(
    "A pack holds the posed part, supports and space to keep clear as bodies, test pieces, layers, "
    "the sheets and the job, read back and with checksums."
)


class SheetBox(QWidget):
    """Writes to the document and the settings; reads both."""

    def __init__(
        self, document: Document, signals: DocumentSignals, actions: dict[str, QAction]
    ) -> None:
        super().__init__()
        self._document = document
        layout = column()
        self.setLayout(layout)
        layout.addWidget(text_label(say("Client sheet"), heading=True))
        layout.addWidget(text_label(say("Client"), quiet=True))
        self.client = QLineEdit()
        self.client.setAccessibleName(say("Name of the client"))
        self.client.setToolTip(say(CLIENT_TIP))
        self.client.setMaxLength(80)
        self.client.editingFinished.connect(self._name_client)
        layout.addWidget(self.client)
        self._language = ChoiceBox()
        self._language.setAccessibleName(say("Language of the sheet"))
        self._language.addItem(say("As the window"), "")
        for key, name in LANGUAGES.items():
            self._language.addItem(name, key)
        kept = self._language.findData(str(settings().value(_LANGUAGE, "")))
        self._language.setCurrentIndex(max(kept, 0))
        self._language.currentIndexChanged.connect(self._keep_language)
        self._language.setToolTip(say(LANGUAGE_TIP))
        layout.addWidget(text_label(say("Language of the sheet"), quiet=True))
        layout.addWidget(self._language)
        layout.addWidget(ActionButton(actions["sheet_preview"], leading=True))
        for key in ("sheet_save", "sheet_print", "sheet_company"):
            layout.addWidget(ActionButton(actions[key]))
        layout.addWidget(rule())
        layout.addWidget(text_label(say("Pack"), heading=True))
        more = Fields()
        cell_mm = float(settings().value(_CELL, 0.0))
        self._cell = NumberField(
            say("Thin the supports"), "mm", 0.0, 20.0, 1, 0.5, self._keep_cell, say(THIN_TIP)
        )
        self._cell.show_number(cell_mm)
        more.add(say("Thin the supports"), self._cell, say(THIN_TIP))
        layout.addWidget(more)
        layout.addWidget(ActionButton(actions["pack"]))
        layout.addWidget(text_label(say(PACKED), quiet=True))
        signals.changed.connect(self._show)
        self._show(Changed.EVERYTHING)

    @property
    def language(self) -> str:
        """A key of LANGUAGES, or "" for that of the window."""
        return self._language.currentData()

    @property
    def cell_mm(self) -> float:
        """Width of the cells supports are thinned by, 0 for none."""
        return self._cell.value()

    def _show(self, what: Changed) -> None:
        if what & (Changed.CLIENT | Changed.PART):
            self.client.setEnabled(self._document.state.part is not None)
            self.client.setText(self._document.state.client)

    def _name_client(self) -> None:
        if self._document.state.part is not None:
            self._document.name_client(self.client.text())

    def _keep_language(self, _: int) -> None:
        settings().setValue(_LANGUAGE, self.language)

    def _keep_cell(self, cell_mm: float) -> None:
        settings().setValue(_CELL, cell_mm)
