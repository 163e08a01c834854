"""Keeps the scene like the document and the choices: one direction, one picture per change."""

import numpy as np
from PySide6.QtCore import QObject

from viewer.document.document import Changed, Document
from viewer.geometry.deviation import Deviation
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose import pose_matrix
from viewer.geometry.pose_measures import PoseMeasures
from viewer.live.live_check import LiveCheck
from viewer.live.live_deviation import LiveDeviation
from viewer.live.live_measures import LiveMeasures
from viewer.scene.palettes import Colour
from viewer.window.choices import Choices, TurnMode
from viewer.window.document_signals import DocumentSignals
from viewer.window.part_view import PartView
from viewer.window.stages import Stage

RINGS_REACH = 0.63  # of the part's diagonal: the rings with their ticks and letters


def used_vertices_mm(mesh: Mesh) -> np.ndarray:
    """(k, 3) the vertices that faces use; marking them is much quicker than sorting indices."""
    used = np.zeros(len(mesh.vertices_mm), bool)
    used[mesh.faces.ravel()] = True
    return mesh.vertices_mm if used.all() else mesh.vertices_mm[used]


class SceneLink(QObject):
    """Writes every change into the scene and asks for one picture."""

    def __init__(
        self,
        view: PartView,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        live_measures: LiveMeasures,
        live_check: LiveCheck,
        live_deviation: LiveDeviation,
    ) -> None:
        super().__init__(view)
        self._view, self._scene = view, view.scene
        self._document, self._choices = document, choices
        self._live_check, self._live_deviation = live_check, live_deviation
        self._vertices_mm = np.zeros((0, 3))
        signals.changed.connect(self._document_changed)
        choices.lens_changed.connect(self._lens_changed)
        choices.supports_changed.connect(self._supports_changed)
        choices.print_colour_changed.connect(self._print_colour_changed)
        choices.stage_changed.connect(self._show_rings)
        choices.turn_mode_changed.connect(self._show_rings)
        choices.presenting_changed.connect(self._show_rings)
        choices.comparing_changed.connect(self._show_rings)
        live_measures.measured.connect(self._measured)
        live_check.checked.connect(self._checked)
        live_deviation.found.connect(self._deviation_found)
        self._scene.set_supports_visible(choices.supports)
        self._scene.set_lens(choices.lens)
        self._scene.set_print_colour(choices.print_colour)
        self._document_changed(Changed.EVERYTHING)
        self._measured(live_measures.latest)
        self._checked(live_check.latest)

    def _document_changed(self, what: Changed) -> None:
        state, scene = self._document.state, self._scene
        if what & Changed.PART:
            mesh = None if state.part is None else state.part.file_mesh
            self._vertices_mm = np.zeros((0, 3)) if mesh is None else used_vertices_mm(mesh)
            scene.show_part(mesh)
            if state.part is not None and state.part.base is not None:
                scene.show_pieces(state.part.mesh, state.part.base_face)
        elif what & Changed.REFINED:
            scene.show_pieces(state.part.mesh, state.part.base_face)
        if state.part is None:
            self._view.redraw()
            return
        if what & (Changed.SETTINGS | Changed.PART):
            scene.set_settings(state.settings)
        if what & (Changed.CLASSES | Changed.PART):
            scene.set_classes(state.face_classes)
        if what & (Changed.POSE | Changed.PART):
            scene.set_pose(pose_matrix(self._vertices_mm, state.pose))
        if what & Changed.REFINED:
            scene.show_faults(self._live_check.latest)
            self._deviation_found(self._live_deviation.latest)
        if what & Changed.PART:
            self._show_rings()
            self._view.fit()
        self._view.redraw()

    def _measured(self, measures: PoseMeasures | None) -> None:
        self._scene.show_measures(measures)
        self._view.redraw()

    def _checked(self, report: HealthReport | None) -> None:
        self._scene.show_faults(report)
        self._view.redraw()

    def _deviation_found(self, deviation: Deviation | None) -> None:
        self._scene.show_deviation(None if deviation is None else deviation.new.face_mm)
        self._view.redraw()

    def _lens_changed(self) -> None:
        self._scene.set_lens(self._choices.lens)
        self._view.redraw()

    def _print_colour_changed(self, colour: Colour) -> None:
        self._scene.set_print_colour(colour)
        self._view.redraw()

    def _supports_changed(self, shown: bool) -> None:
        self._scene.set_supports_visible(shown)
        self._view.redraw()

    def _show_rings(self) -> None:
        choices = self._choices
        part = self._document.state.part
        turning = choices.stage is Stage.TURN and choices.turn_mode is TurnMode.RINGS
        alone = choices.presenting or choices.comparing
        shown = turning and part is not None and not alone
        self._scene.show_rings(shown)
        diagonal_mm = float(np.linalg.norm(np.ptp(part.mesh.box_mm, axis=0))) if shown else 0.0
        self._view.surround(RINGS_REACH * diagonal_mm if shown else None)
        self._view.redraw()
