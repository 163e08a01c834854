"""Keeps the legend under the scene like the lens, the process and what the lens found out."""

from dataclasses import replace
from typing import Protocol

from PySide6.QtCore import QObject

from viewer.document.document import Changed, Document
from viewer.live.live_check import LiveCheck
from viewer.live.live_deviation import LiveDeviation
from viewer.scene.legends import Legend, deviation_note, legend, printed_in
from viewer.scene.lenses import Lens
from viewer.window.choices import Choices
from viewer.window.difference_link import DifferenceLink
from viewer.window.document_signals import DocumentSignals
from viewer.window.legend_strip import LegendStrip
from viewer.words import say


class LegendWindow(Protocol):
    """What the link needs of the window."""

    document: Document
    signals: DocumentSignals
    choices: Choices
    live_check: LiveCheck
    live_deviation: LiveDeviation
    difference: DifferenceLink
    legend: LegendStrip


class LegendLink(QObject):
    """Asks for the deviation only while somebody looks through its lens."""

    def __init__(self, window: LegendWindow) -> None:
        super().__init__(window)
        self._window = window
        window.choices.lens_changed.connect(self.show)
        window.choices.print_colour_changed.connect(self.show)
        window.live_check.checked.connect(self.show)
        window.live_deviation.found.connect(self.show)
        window.difference.said.connect(self.show)
        window.signals.changed.connect(self._document_changed)
        self.show()

    def _document_changed(self, what: Changed) -> None:
        if what & Changed.SETTINGS:
            self.show()

    def legend(self) -> Legend:
        """The legend of the present lens with what it found out."""
        lens, known = self._window.choices.lens, self._window.live_deviation
        key = legend(lens, self._window.document.state.settings)
        if lens is Lens.PRINTED:
            return printed_in(key, self._window.choices.print_colour)
        report = self._window.live_check.latest
        if lens is Lens.FAULTS and report is not None and not report.faults:
            return replace(key, note=say("Nothing is at fault."))
        if lens is Lens.DEVIATION:
            return replace(key, note=deviation_note(known.latest, known.mended))
        if lens is Lens.DIFFERENCE:
            return replace(key, note=self._window.difference.note)
        return key

    def show(self, *_: object) -> None:
        """Draw the legend anew."""
        self._window.live_deviation.set_wanted(self._window.choices.lens is Lens.DEVIATION)
        self._window.legend.show_legend(self.legend())
