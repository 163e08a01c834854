"""Cuts the part open in the scene where the line of the height strip stands."""

from PySide6.QtCore import QObject

from viewer.document.document import Changed
from viewer.geometry.section import CutPart, Section
from viewer.live.live_measures import LiveMeasures
from viewer.window.document_signals import DocumentSignals
from viewer.window.height_strip import HeightStrip
from viewer.window.part_view import PartView
from viewer.window.quantities import count_text
from viewer.words import say


class CutLink(QObject):
    """Strip to scene; the cut stays level at its height while the part turns."""

    def __init__(
        self,
        strip: HeightStrip,
        view: PartView,
        signals: DocumentSignals,
        live_measures: LiveMeasures,
    ) -> None:
        super().__init__(strip)
        self._strip, self._view, self._live = strip, view, live_measures
        self._cut_part: CutPart | None = None
        strip.layer_chosen.connect(self._cut)
        signals.changed.connect(self._document_changed)
        live_measures.measured.connect(self._measured)

    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART:
            self._cut_part = None
            self._strip.put_away()
        elif what & Changed.POSE and self._strip.layer is not None:
            self._cut(self._strip.layer)

    def _measured(self, _: object) -> None:
        if self._strip.layer is not None and self._cut_part is None:
            self._cut(self._strip.layer)  # the outline had to wait for the prepared part

    def _cut(self, layer: int | None) -> None:
        scene = self._view.scene
        if layer is None:
            scene.cut_at(None)
        else:
            height_mm = self._strip.chart.middle_mm(layer)
            scene.cut_at(height_mm)
            section = self._section(height_mm)
            scene.show_section(section)
            self._strip.show_remark(gap_words(section))
        self._view.redraw()

    def _section(self, height_mm: float) -> Section | None:
        if self._live.prepared is None:
            return None
        if self._cut_part is None:
            self._cut_part = CutPart.of(self._live.prepared)
        return self._cut_part.section(self._view.scene.matrix, height_mm)


def gap_words(section: Section | None) -> str:
    """What is wrong with an outline, "" if it closes."""
    ends = 0 if section is None else len(section.open_ends_mm)
    if not ends:
        return ""
    return say("! the outline stops at {places}", places=count_text(ends, "place"))
