"""Who prints: name, currency and logo for the client sheet, in a form."""

from pathlib import Path

from PySide6.QtCore import QByteArray, Qt, Signal
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QLineEdit, QWidget

from viewer.errors import ShowsideError
from viewer.files.maker_file import read_logo, write_maker
from viewer.shop.maker import Maker
from viewer.window.pieces import button, column, text_label
from viewer.window.prompts import Prompts
from viewer.words import later, say

_LOGO_PX = (300, 96)
CURRENCY_TIP = later(
    "What money is called on the sheet, such as EUR; empty: as the machine's rate is given in. "
    "Nothing is converted."
)


class CompanyDialog(QDialog):
    """saved : the Maker that is kept now."""

    saved = Signal(object)

    def __init__(self, parent: QWidget, prompts: Prompts, maker: Maker) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Your company"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._prompts, self._logo_png = prompts, maker.logo_png
        layout = column(gap=10, margins=(14, 14, 14, 14))
        self.setLayout(layout)
        self.resize(440, 300)
        name_tip = say("Stands at the head of the sheet and over its lines.")
        self.company = self._line(maker.company, say("Name of your company"), 80, name_tip)
        self.currency = self._line(
            maker.currency, say("Currency on the sheet"), 8, say(CURRENCY_TIP)
        )
        self.currency.setPlaceholderText(say("As the machine's rate"))
        for field in (self.company, self.currency):
            label = QLabel(field.accessibleName())
            label.setBuddy(field)
            label.setToolTip(field.toolTip())
            layout.addWidget(label)
            layout.addWidget(field)
        self._picture = QLabel()
        self._picture.setMinimumHeight(_LOGO_PX[1] // 2)
        layout.addWidget(self._picture)
        line = QHBoxLayout()
        self.choose = button(
            say("Choose a logo …"),
            self._choose,
            say("A PNG or JPEG; it is made small for the sheet"),
        )
        self.remove = button(say("No logo"), self._remove, say("Leave the logo out"))
        line.addWidget(self.choose)
        line.addWidget(self.remove)
        line.addStretch(1)
        layout.addLayout(line)
        self.problem = text_label()
        self.problem.hide()
        layout.addWidget(self.problem)
        layout.addStretch(1)
        ends = QHBoxLayout()
        ends.addStretch(1)
        self.keep = button(
            say("Keep"), self._keep, say("Keep this for all sheets from now on"), leading=True
        )
        ends.addWidget(self.keep)
        cancel = button(say("Cancel"), self.close, say("Leave it as it was"))
        ends.addWidget(cancel)
        for other in (self.choose, self.remove, cancel):
            other.setAutoDefault(False)  # Enter keeps, whatever was pressed before
        self.keep.setDefault(True)
        layout.addLayout(ends)
        self._show_logo()
        self.company.setFocus()

    def _line(self, text: str, name: str, longest: int, tip: str) -> QLineEdit:
        field = QLineEdit(text)
        field.setToolTip(tip)
        field.setAccessibleName(name)
        field.setMaxLength(longest)
        return field

    def _choose(self) -> None:
        path: Path | None = self._prompts.logo_to_open()
        if path is None:
            return
        try:
            self._logo_png = read_logo(path)
        except ShowsideError as problem:
            self._say(str(problem))
            return
        self._show_logo()

    def _remove(self) -> None:
        self._logo_png = b""
        self._show_logo()

    def _show_logo(self) -> None:
        self.problem.hide()
        self.remove.setEnabled(bool(self._logo_png))
        if not self._logo_png:
            self._picture.setText(say("There is no logo."))
            self._picture.setAccessibleName(say("There is no logo."))
            return
        picture = QPixmap()
        picture.loadFromData(QByteArray(self._logo_png))
        keep = Qt.AspectRatioMode.KeepAspectRatio
        self._picture.setPixmap(
            picture.scaled(*_LOGO_PX, keep, Qt.TransformationMode.SmoothTransformation)
        )
        self._picture.setAccessibleName(say("The logo"))

    def _keep(self) -> None:
        try:
            maker = Maker(
                " ".join(self.company.text().split()), self.currency.text().strip(), self._logo_png
            )
            write_maker(maker)
        except ShowsideError as problem:
            self._say(str(problem))
            return
        self.saved.emit(maker)
        self.close()

    def _say(self, sentence: str) -> None:
        self.problem.setText(sentence)
        self.problem.show()
