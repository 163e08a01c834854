"""The first page: what the program is for, in five lines, and the way into the demo."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QPixmap
from PySide6.QtWidgets import QDialog, QGridLayout, QHBoxLayout, QLabel, QWidget

from viewer.resource_files import resource_file
from viewer.window.page_text import fit_height, page_text
from viewer.window.pieces import button, column, rule
from viewer.window.stages import TITLES, WHAT_TO_DO
from viewer.words import say

WIDTH_PX, PICTURE_PX = 580, 72


class FirstPage(QDialog):
    """Shown at a start that has nothing to open; it goes when something is chosen."""

    def __init__(self, parent: QWidget, actions: dict[str, QAction]) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("First steps"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        layout = column(gap=12, margins=(22, 20, 22, 18))
        self.setLayout(layout)
        layout.addLayout(_head())
        layout.addWidget(rule())
        layout.addWidget(page_text(say("A job goes through five stages, at the left edge:")))
        layout.addLayout(_stages())
        layout.addWidget(
            page_text(
                say(
                    "The demo is a soft grip for a garden trowel, with its faces marked: turn it "
                    "and see the numbers change. F1 explains whatever you are at."
                )
            )
        )
        self.demo = self._leave(
            say("Open the demo"), actions["demo"], say("A grip for a garden trowel"), leading=True
        )
        self.open = self._leave(
            say("Open a file …"), actions["open"], say("A part or a job of your own")
        )
        self.settings = self._leave(
            say("Settings …"), actions["settings"], say("Language, theme, size of type"), stay=True
        )
        self.later = button(say("Close"), self.close, say("Help > First page brings it back"))
        self.later.setAutoDefault(False)
        line = QHBoxLayout()
        for made in (self.demo, self.open, self.settings):
            line.addWidget(made)
        line.addStretch(1)
        line.addWidget(self.later)
        layout.addLayout(line)
        self.demo.setDefault(True)
        self.demo.setFocus()
        fit_height(self, WIDTH_PX)

    def _leave(
        self, text: str, action: QAction, tip: str, leading: bool = False, stay: bool = False
    ) -> QWidget:
        """A button that does what an action does, after this page is gone unless it is to stay."""

        def act() -> None:
            trigger: Callable[[], None] = action.trigger
            if not stay:
                self.close()
            trigger()

        made = button(text, act, tip, leading)
        made.setAutoDefault(leading)
        return made


def _head() -> QHBoxLayout:
    line = QHBoxLayout()
    line.setSpacing(18)
    picture = QLabel()
    picture.setPixmap(
        QPixmap(str(resource_file("icons/showside.svg"))).scaled(
            PICTURE_PX,
            PICTURE_PX,
            Qt.AspectRatioMode.KeepAspectRatio,
            Qt.TransformationMode.SmoothTransformation,
        )
    )
    picture.setAccessibleName("Showside")
    line.addWidget(picture)
    words = column(gap=6)
    title = QLabel("Showside")
    title.setProperty("title", True)
    words.addWidget(title)
    words.addWidget(
        page_text(say("Lay a part so that the side that shows comes out of the print clean."))
    )
    line.addLayout(words, 1)
    return line


def _stages() -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(14)
    grid.setVerticalSpacing(7)
    grid.setColumnStretch(1, 1)
    for row, (stage, title) in enumerate(TITLES.items()):
        name = QLabel(f"{stage.value}  {say(title)}")
        name.setProperty("heading", True)
        grid.addWidget(name, row, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(page_text(say(WHAT_TO_DO[stage])), row, 1)
    return grid
