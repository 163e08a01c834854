"""A choice among names that may be long: short of room they lose their middle, never their end."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QComboBox, QSizePolicy, QStyle, QStyleOptionComboBox

EDGES_PX = 24  # round the names in the list


class NamePick(QComboBox):
    """As narrow as it has to be; its list is as wide as its names, and each name is its own tip."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.view().setTextElideMode(Qt.TextElideMode.ElideMiddle)

    def show_names(self, names: list[str]) -> None:
        """List other names; the list stays as it is where they are the same."""
        if names == [self.itemText(k) for k in range(self.count())]:
            return
        self.clear()
        self.addItems(names)
        for row, name in enumerate(names):
            self.setItemData(row, name, Qt.ItemDataRole.ToolTipRole)

    def minimumSizeHint(self) -> QSize:
        """Room for some letters."""
        return QSize(60, super().minimumSizeHint().height())

    def shown_text(self) -> str:
        """The name as it stands in the closed box."""
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        return option.currentText

    def initStyleOption(self, option: QStyleOptionComboBox) -> None:
        """Take letters out of the middle where the name is too long."""
        super().initStyleOption(option)
        room = self.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox,
            option,
            QStyle.SubControl.SC_ComboBoxEditField,
            self,
        )
        option.currentText = self.fontMetrics().elidedText(
            self.currentText(), Qt.TextElideMode.ElideMiddle, room.width() - 4
        )

    def showPopup(self) -> None:
        """Open the list as wide as its names, within the window."""
        widest = max(
            (self.fontMetrics().horizontalAdvance(self.itemText(k)) for k in range(self.count())),
            default=0,
        )
        most = max(self.window().width() - 2 * EDGES_PX, self.width())
        self.view().setMinimumWidth(min(max(widest + 2 * EDGES_PX, self.width()), most))
        super().showPopup()
