"""Where everything stands in the window: stages, scene with its bars, numbers."""

from typing import Protocol

from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QMenuBar,
    QStatusBar,
    QVBoxLayout,
    QWidget,
)

from viewer.window.kept_choices import type_percent
from viewer.window.large_part import LargePart
from viewer.window.recovering import Recovering
from viewer.window.side_panels import StageColumn

LEAST_SIDE_PX, MOST_SIDE_PX = 206, 300
FRAME_PX = (12, 44)  # what a desktop puts around a window at most, its title at the top included


class StandingWindow(Protocol):
    """The pieces that get a place, and what is known of them afterwards."""

    stage_column: StageColumn
    number_column: QWidget
    notice: QWidget
    recovering: Recovering
    large: LargePart
    caption: QWidget
    view: QWidget
    legend: QWidget
    compare_box: QWidget
    direction_pane: QWidget
    strip: QWidget
    busy: QWidget
    sides: tuple[QWidget, ...]
    bars: tuple[QWidget, ...]
    buttons_hint: QLabel

    def menuBar(self) -> QMenuBar:
        """The bar of menus."""

    def statusBar(self) -> QStatusBar:
        """Where short messages go."""

    def setCentralWidget(self, widget: QWidget) -> None:
        """Fill the window."""


def lay_out(window: StandingWindow, lens_bar: QWidget) -> None:
    """Put the pieces of a window into their places."""
    window.sides = (window.stage_column, window.number_column)
    middle = QVBoxLayout()
    middle.setContentsMargins(0, 0, 0, 0)
    middle.setSpacing(0)
    above = (lens_bar, window.recovering.bar, window.large.bar, window.notice, window.caption)
    below = (window.legend, window.direction_pane, window.compare_box, window.strip)
    for piece in (*above, window.view, *below):
        middle.addWidget(piece, 1 if piece is window.view else 0)
    whole = QWidget()
    layout = QHBoxLayout(whole)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(0)
    layout.addWidget(window.stage_column)
    layout.addLayout(middle, 1)
    layout.addWidget(window.number_column)
    window.setCentralWidget(whole)
    status = window.statusBar()
    status.setSizeGripEnabled(False)
    status.addPermanentWidget(window.busy)
    window.buttons_hint = QLabel()
    window.buttons_hint.setProperty("quiet", True)
    window.buttons_hint.setContentsMargins(10, 0, 0, 0)
    status.addWidget(window.buttons_hint)
    bars = (
        window.menuBar(),
        status,
        window.recovering.bar,
        window.large.bar,
        window.notice,
        lens_bar,
    )
    window.bars = (*window.sides, *bars, window.legend)


def share_width(sides: tuple[QWidget, ...], window_px: int) -> None:
    """Each side takes a sixth, so that the scene keeps two thirds of the width; large type more."""
    share = max(type_percent(), 100) / 100
    side_px = round(min(max(window_px / 6, LEAST_SIDE_PX), MOST_SIDE_PX) * share)
    for side in sides:
        side.setFixedWidth(side_px)


def show_within_screen(window: QWidget) -> None:
    """Show a window at its size, or all over a screen that has no room for that."""
    window.ensurePolished()
    window.resize(window.size().expandedTo(window.minimumSizeHint()))  # large type takes more
    room = window.screen().availableGeometry()
    wide, high = (
        size + frame for size, frame in zip(window.size().toTuple(), FRAME_PX, strict=True)
    )
    if wide <= room.width() and high <= room.height():
        window.show()
    else:
        window.showMaximized()
