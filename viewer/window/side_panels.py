"""The left column: the five stages and, beneath them, the panel of the present one."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QStackedWidget, QVBoxLayout, QWidget

from viewer.window.pieces import rule, text_label
from viewer.window.stage_list import StageList
from viewer.window.stages import Stage


class StageColumn(QFrame):
    """Stages, what to do in one line, and the tools for it."""

    def __init__(self, panels: dict[Stage, QWidget]) -> None:
        super().__init__()
        self.setProperty("edge", "left")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.stages = StageList()
        layout.addWidget(self.stages)
        layout.addWidget(rule())
        self._what = text_label(heading=True)
        self._what.setContentsMargins(14, 10, 12, 6)
        layout.addWidget(self._what)
        self._stack = QStackedWidget()
        self._pages: dict[Stage, int] = {}
        for stage, panel in panels.items():
            panel.layout().setContentsMargins(14, 4, 12, 12)
            self._pages[stage] = self._stack.addWidget(ColumnScroll(panel))
        layout.addWidget(self._stack, 1)

    @property
    def instruction(self) -> QLabel:
        """The line that says what to do."""
        return self._what

    def show_stage(self, stage: Stage) -> None:
        """Show the panel of a stage."""
        self.stages.show_stage(stage)
        self._stack.setCurrentIndex(self._pages[stage])


class ColumnScroll(QScrollArea):
    """A panel that is as wide as its column and scrolls only when it is truly too long.

    Qt asks a widget of wrapped text for its height without telling the width, and scrolls a panel
    that would fit; here the layout is asked for the height at this width.
    """

    def __init__(self, panel: QWidget) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(panel)
        panel.installEventFilter(self)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the panel the new width."""
        super().resizeEvent(event)
        self._fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow the panel when what it holds grows or shrinks, or got its style on being shown."""
        if watched is self.widget() and event.type() in (
            QEvent.Type.LayoutRequest,
            QEvent.Type.Show,
        ):
            # Asked for its height, a layout counts as up to date: where a widget keeps its size,
            # what it holds would keep its old places. The innermost come last in the list.
            for child in reversed(watched.findChildren(QWidget)):
                if child.layout() is not None:
                    child.layout().activate()
            watched.layout().activate()
            self._fit()
        return super().eventFilter(watched, event)

    def _fit(self) -> None:
        panel, room = self.widget(), self.viewport().size()
        if panel is None or panel.layout() is None:
            return
        needed = panel.layout().totalHeightForWidth(room.width())
        panel.resize(room.width(), max(needed, room.height()))
